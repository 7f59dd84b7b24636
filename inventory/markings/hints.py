"""What a text must show before a family is asked whether it could be one of its markings.

A grammar that is not asked is not loaded, so that a search starts quickly. Each hint is met by
every text for which ``likely`` of the family is above zero; it says nothing more. A family
without a hint is always asked, so that a new one needs no entry here. A test holds every
pattern of every family against its hint.
"""

from __future__ import annotations

import re

from inventory.markings.fold import fold

_CONTACT = r"relay|coil|form|v\s?[ad]c|tv-|g[2-8]|s(?:rd|[lhr]a|rs|mi)|hf[0-9]|rt|jq|[45][0-9]\.|t9"

HINTS = {
    "relay": rf"{_CONTACT}|\bno\b",
    "thermal_cutout": r"therm|ksd|bimetal|tc|re-?set|open|close|turn|shut|mg|[±°℃℉]|fuse|limit|max"
    r"|[0-9]\s{0,2}[fc]\b|^[nhl]-?[0-9]",
    "fuse": r"therm|fuse|kv|[0-9]\s?a\s?[lhe]\s?[0-9]|ka|i\.?r"
    r"|(?:f|t|m)\s?[0-9.,]{1,14}\s?(?:m?a|[lhe])|gm[acd]|ag[cx]|md[alq]|abc"
    r"|gsa|[38]a[gb]|1362|60127|248-14|blow|blo|acting|[x×*]\s?(?:20|32)",
    "hv_fuse": r"fuse|kv|m?a\s?/?\s?[1-9][0-9]{3}\s?v",
    "thermal_link": r"therm|func|sf|g[4-8]|bf|t\s?f|sm/|df|k10b|a[0-5]-f|l50|nte|±|[0-9]\s?°?\s?c|℃"
    r"|^f[0-9]",
    "mov": r"varistor|mov|b722|erz|v[0-9]{2,4}la|[0-9]d|d[0-9]|tvr|fnr|tnr"
    r"|myg|znr|cnr|jvr|s[0-9]{1,2}k|^[0-9]{2}k",
    "hv_capacitor": r"ch8|capacitor|[uμm]f|[0-9]\s?f",
    "hv_diode": r"cl[0-9]|hv|t35|2x0|ux|esj|rg[0-9]|diode|rectifier|asymmetric|kv",
    "magnetron": r"agnetron|2m|om[0-9]|m2|am[0-9]",
    "transformer": r"transformer|class",
    "inverter_board": r"inverter",
    "capacitor_safety": r"de[12j]|46k|b3292|pme|p276|cs[0-9]{2}|bfc2|mpx|[xy][1-4]"
    r"|k[xhy]|2[57]5\s?v?\s?~",
    "capacitor": r"[uμnpm]f|mfd|cbb6|cd60|[ul][a-z]{2}-?[0-2][a-z]|ee[ueft]|eca"
    r"|[0-3][a-z][1-9][0-9]{2}[jkmz]|[pnuμ][0-9]|[0-9][pnuμ]"
    r"|[1-9][0-9]{2}[jkmz]|^[0-9.,a-z\s]{1,16}$",
    "resistor": r"ω|ohm|resistor|w\s?[0-9]{0,4}r|black|brown|red|orange|yellow|green|blue|violet"
    r"|purple|gr[ea]y|white|gold|silver|pink|^[0-9rkmfgj]{1,9}$|^\s*[0-9]{2}[zyxsabhcdef]\s*$|^\s*[bcegh]b[0-9]"
    r"|(?:cfr|mfr|fmf|fcr|rsf|knp|sqp|sqm)-?[0-9]",
    "resistor_fusible": r"fus|frm|\bfr\b|white|c-[123]|[ahd]-[1-5]|5acf",
    "ntc": r"ntc|thermistor|b\s?25|r\s?25|mf[157]|n[dev]?0|n[bf]\s?[012]|ttc|sck|b57|at-|[0-9]d"
    r"|[0-9]\s?k|25\s?[°℃]"
    r"|[1-9][0-9]{2}[dfghjk]?[fb]?[34][0-9]{3}|^[0-9]{3,4}[dfghjkm]?$",
    "diode": r"kb[pulj]|gb[ulj]|br3|df[01]|w(?:0|10)|b[yz]|1n|uf4|rl[12]|fr[123]"
    r"|db1[05]|rs40|2a0|her|rectifier|bridge|diode",
    "triac": r"bt[ab]|bt13|triac|z01|t[1-9][0-9]{2,3}h?-",
    "motor_turntable": r"turntable|synchronous|ty[jcdz]|tdy|(?:gm|st|sm|mt|mds)-?[0-9]|gal|rpm"
    r"|r/min",
    "motor_fan": r"motor|em\s?21|rpm|r/min|min-1|z\.p\.|impedance",
    "belt": r"[0-9]\s?e?\s?p[hjklm]|p[hjklm]\s?-?[1-9]|[0-9]\s?[hj]\s?[4-9]|[sx]p[zabc]|rpf"
    r"|[345]l|[358]v|belt|[0-9]\s?[x×]|[0-9]-?[358]m|^\s*[0-9]{2,4}[mxlhk]{1,3}[0-9]"
    r"|^\s*[a-e][xk]?-?[0-9]{2,3}\s*$",
    "bearing": r"bearing|[0-9e][\s./-]{0,2}(?:2?(?:rs|r?z|ru)|nr|d[du]|l[lu]|vv)|[hb]k\s?[0-9]"
    r"|d[bft]\+|nup?\s?[23]|6[0-9]{3}\s?[-/ ]\s?[cp]|^[0-9/.,b]{3,12}$",
    "drive_coupler": r"coupl",
    "roller": r"roller",
    "tray": r"tray|plate",
    "terminal": r"(?:110|187|205|250|312|375)\s?(?:series|type)|quick|fast-?on|terminal|mm"
    r"|[x×*]\s?[01.,]|#|^0?\.?(?:110|187|250|375)[\"″]?\s*(?:tab)?$",
    "connector": r"jst|rast|connector|way|pin|[bs]m?\s?[0-9]{1,2}(?:ps?|b)[0-9]?-"
    r"|(?:phn|ph|xh|vh|eh|sh|gh|zh|tb|bc|kr|sm|vl|nh|[px]a)(?:[rp]-|\s?-?[1-9][.,])",
    "cord": r"[ha]0[1357]|spt|sj|sv|s[te]?o|hpn|hs|mm|awg|1[0-8]\s?/\s?[23]"
    r"|^(?:stw?|tpt|tst|se|xtw|srd[et]?)$",
    "wire": r"awm|style|ul\s?-?[123]|awg|vw-1|silicone|wire|^[1-3][0-9]{3}",
    "coupler": r"320|nema|cee|schuko|1363|^c\s?-?[1-9]|(?<![0-9a-z])c(?:5|7|1[3-9]|19|20)"
    r"|^(?:l?[0-9]{1,2}|tt)-[0-9]{2}[pr]$",
    "lamp": r"lamp|bulb|e1[0247]|e2[67]|b(?:15|22)|ba15|g(?:4|5|9|13|2[34])"
    r"|g[uxyz][0-9]|r7s|s14|w\s.{0,8}(?:t[0-9]|s?[eb][sc])|watt",
    "screw": r"screw|tapping|(?<![0-9a-z])m(?:1[026]|[2-8])|st[2-8]|#|-(?:24|32|36|40)"
    r"|[1-9]/(?:4|8|16)-",
    "oem_number": r"^[0-9a-z-]{7,16}(?:[ -]rev\.?\s?[a-z0-9]{1,2})?$",
    "model_number": r"^model|^mod\.|^e-?nr|^[0-9a-z.*#_/-]{5,40}$",
    "serial_number": r"^serial|^s/?n|^[0-9]{9,10}[a-z]{1,2}$",
    "rating_plate": r"model|serial|[sm]/n|hz|output|input",
}
"""A pattern a family, for a text without its capitals; more texts meet it than are markings."""


def folded(head: str) -> str:
    """The beginning of a text as the hints are written: no capitals, no outer white space."""
    plain = fold(head)
    if plain.isascii():
        return plain.lower().strip()
    # one sign stays one sign, or a bounded gap in a hint would be too short for the text
    return "".join(map(_small, plain)).replace("ı", "i").strip()


def _small(sign: str) -> str:
    """A sign without its capital form, where that is one sign too."""
    small = sign.casefold()
    return small if len(small) == 1 else sign


def may_be(family: str, plain: str) -> bool:
    """True where a family must be asked; ``plain`` is the text as ``folded`` gives it."""
    hint = HINTS.get(family)
    return hint is None or re.search(hint, plain) is not None
