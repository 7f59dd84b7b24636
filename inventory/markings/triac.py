"""Triacs: current, blocking voltage, tab, gate class from the type code.

What the gate letter means in milliampere is told in the mark, not set as a rating: the letter is
a class, and the figures differ between makers.
"""

from __future__ import annotations

import re

from inventory.markings.amounts import PRACTICE
from inventory.markings.bookkeeping import START
from inventory.markings.passive_marks import (
    ANY_CASE,
    COMMON,
    Meaning,
    amount,
    legend,
    word,
)
from inventory.markings.scanner import Rule, Scanner
from inventory.markings.writing import faithful
from inventory.records import Reading

ST = "ST, BTA16/BTB16/T1610/T1635 data sheet, doc ID 7471 rev. 9"
NXP = "NXP quick reference data: BT136-600, BT137S-600D, BT138-800E"
LETTERS_MEM = "ST gate letters, figures from memory (data sheet: 25/50, 35/50, 10 mA)"

GATES = {
    "B": "standard gate, 50 mA",
    "C": "standard gate, 25 mA",
    "BW": "snubberless, 50 mA",
    "CW": "snubberless, 35 mA",
    "SW": "logic level, three quadrants, 10 mA",
    "TW": "logic level, three quadrants, 5 mA",
    "S": "sensitive gate, 10 mA",
    "T": "sensitive gate, 5 mA",
}
"""What the last letters of an ST type say; W: three quadrants only. Figures from memory."""

_ROUNDED = {"24": 25, "25": 25, "26": 25, "41": 40}
"""Sizes whose number is not the current: BTA24 to 26 carry 25 A, BTA41 40 A. From memory."""

_BT13 = {"131": 1, "134": 4, "136": 4, "137": 8, "138": 12, "139": 16}
_VERIFIED = {"136", "137", "138"}

_ST = re.compile(
    r"(?P<tab>BT[AB])\s?-?(?P<amps>0[468]|1[026]|2[0456]|4[01])"
    r"(?:\s?-?\s?(?P<volts>[2-9]00|1[02]00)\s?(?P<gate>[BCST]W?)?(?P<pack>RG|-TR|3?G|3)?)?(?![0-9A-Za-z])",
    ANY_CASE,
)


def st_isolated(scan: Scanner) -> bool:
    """Code = ("BTA" | "BTB") size ("-" volts gate? packing?)?"""
    found = scan.peek(_ST)
    if found is None:
        return False
    insulated = found["tab"].upper() == "BTA"
    tab = "insulated" if insulated else "not insulated"
    amps = _ROUNDED.get(found["amps"], int(found["amps"]))
    scan.say("it_rms_a", amps)
    scan.say("tab", tab)
    means = {
        "tab": (f"triac, tab {tab}" + (", 2500 V" if insulated else ""), ST),
        "amps": (f"{amps} A r.m.s.", ST if found["amps"] == "16" else "ST, from memory"),
        "gate": _gate(scan, (found["gate"] or "").upper()),
        "pack": ("packing", ST),
    }
    if found["volts"]:
        scan.say("vdrm_v", int(found["volts"]))
        means["volts"] = (f"blocks {found['volts']} V", ST)
    return legend(scan, found, means)


def _volts(text: str) -> int:
    """Blocking voltage, printed in volts or in hundreds.

    >>> _volts("600"), _volts("6")
    (600, 600)
    """
    return int(text) if len(text) > 2 else 100 * int(text)


def _say(scan: Scanner, amps: float, volts: int) -> None:
    """Set current and voltage."""
    scan.say("it_rms_a", amps)
    scan.say("vdrm_v", volts)


def _gate(scan: Scanner, letters: str) -> Meaning:
    """Gate class; without W the type works in four quadrants, with it in three."""
    if not letters:
        return "", ST
    if letters.endswith("W"):
        scan.say("snubberless", letters in ("BW", "CW"))
        scan.say("quadrants", 3)
    return GATES[letters], LETTERS_MEM


_T_SERIES = re.compile(
    r"T(?P<amps>[4-8]|1[0-9]|2[05]|30|40|50)(?P<gate>05|10|20|25|35|50)(?P<high>H)?\s?-?\s?"
    r"(?P<volts>[4-9](?:00)?)(?P<body>[A-Z])?(?P<pack>-?TR)?(?![0-9A-Za-z])",
    ANY_CASE,
)


def t_series(scan: Scanner) -> bool:
    """Code = "T" ampere gate-mA "H"? "-" volts body, e.g. T1635-600G."""
    found = scan.peek(_T_SERIES)
    if found is None:
        return False
    _say(scan, int(found["amps"]), _volts(found["volts"]))
    scan.say("igt_ma", int(found["gate"]))
    if found["amps"] == "16":  # the sheet at hand names the whole T16 series snubberless
        scan.say("snubberless", value=True)
        scan.say("quadrants", 3)
    means = {
        "amps": (f"{found['amps']} A r.m.s.", ST),
        "gate": (f"gate {int(found['gate'])} mA", ST),
        "high": ("for high junction temperature", "from memory"),
        "volts": (f"blocks {_volts(found['volts'])} V", ST),
        "body": ("package", ST),
        "pack": ("packing", ST),
    }
    return legend(scan, found, means)


_NXP = re.compile(
    r"(?P<type>BT(?P<number>131|134|136|137|138|139))(?P<body>[BSXMW]{0,2})\s?-?\s?"
    r"(?P<volts>[5-8]00)(?P<gate>[A-G])?(?P<tail>/[A-Z0-9]{1,3})?(?![0-9A-Za-z])",
    ANY_CASE,
)


def nxp(scan: Scanner) -> bool:
    """Code = "BT13x" body? "-" volts gate?; the current is tabled, not coded."""
    found = scan.peek(_NXP)
    if found is None:
        return False
    amps = _BT13[found["number"]]
    source = NXP if found["number"] in _VERIFIED else "NXP, current from memory"
    _say(scan, amps, _volts(found["volts"]))
    means = {
        "type": (f"triac of {amps} A r.m.s.", source),
        "body": ("package", PRACTICE),
        "volts": (f"blocks {_volts(found['volts'])} V", NXP),
        "gate": ("gate class, see the data sheet", NXP),
        "tail": ("maker's ending", PRACTICE),
    }
    return legend(scan, found, means)


_BTA2 = re.compile(
    r"(?P<type>BT[AB]2(?P<amps>01|02|04|06|08|10|12|16|25))(?P<body>[BSXMW])?\s?-\s?"
    r"(?P<volts>[5-8]00|1000)(?P<gate>[A-G])?(?P<tail>[RT]?)(?:,(?P<pack>[0-9]{3}))?"
    r"(?![0-9A-Za-z])",
    ANY_CASE,
)
WEEN = "NXP and WeEn, BTA201-800ER: 1 A, 800 V; the last two figures are the amperes"


def three_quadrant(scan: Scanner) -> bool:
    """Code = "BTA2" amperes body? "-" volts gate; its tab is not told by the A, as ST's is."""
    found = scan.peek(_BTA2)
    if found is None:
        return False
    _say(scan, int(found["amps"]), int(found["volts"]))
    means = {
        "type": (f"three-quadrant triac of {int(found['amps'])} A r.m.s.", WEEN),
        "body": ("package", PRACTICE),
        "volts": (f"blocks {found['volts']} V", WEEN),
        "gate": ("gate class, see the data sheet", WEEN),
        "tail": ("maker's ending", PRACTICE),
        "pack": ("packing", PRACTICE),
    }
    return legend(scan, found, means)


_Z0 = re.compile(
    r"(?P<series>Z0)(?P<amps>1)(?P<gate>03|07|09|10)(?P<volts>[MN])(?P<body>UF|[AN])?"
    r"(?:\s?(?P<pack>[125]A[AL][24]))?(?![0-9A-Za-z])",
    ANY_CASE,
)
Z01 = "ST, Z01 ordering information scheme, doc ID 7474 rev. 10"
_Z_GATES = {"03": 3, "07": 5, "09": 10, "10": 25}
_Z_VOLTS = {"M": 600, "N": 800}


def z_series(scan: Scanner) -> bool:
    """Code = "Z0" ampere sensitivity volts-letter body packing?, e.g. Z0109MN."""
    found = scan.peek(_Z0)
    if found is None:
        return False
    volts, gate = _Z_VOLTS[found["volts"].upper()], _Z_GATES[found["gate"]]
    _say(scan, int(found["amps"]), volts)
    scan.say("igt_ma", gate)
    means = {
        "series": ("triac, series Z0", Z01),
        "amps": (f"{found['amps']} A r.m.s.", Z01),
        "gate": (f"gate {gate} mA", Z01),
        "volts": (f"blocks {volts} V", Z01),
        "body": ("package", Z01),
        "pack": ("packing", Z01),
    }
    return legend(scan, found, means)


RULES: tuple[Rule, ...] = (
    *START,
    three_quadrant,
    st_isolated,
    t_series,
    nxp,
    z_series,
    amount("V", "vdrm_v", "blocks"),
    amount("A", "it_rms_a", "r.m.s. current"),
    word("triac", "the word for the part", PRACTICE),
    word(
        "(?:non-?|not )?(?:insulated|isolated)|standard|snubberless",
        "word of a listing; the type code decides",
        PRACTICE,
    ),
    *COMMON,
)


def read(text: str) -> Reading:
    """Read what is printed on a triac."""
    scan = Scanner(text)
    scan.sweep(RULES)
    _against_prose(scan)
    return scan.reading("triac")


_PROSE = re.compile(
    r"(?P<bare>(?:non-?|not )(?:insulated|isolated))|(?P<tab>insulated|isolated)"
    r"|(?P<standard>standard)|(?P<snubberless>snubberless)",
    ANY_CASE,
)
_CLAIMS = {
    "bare": ("tab", "not insulated"),
    "tab": ("tab", "insulated"),
    "standard": ("snubberless", False),
    "snubberless": ("snubberless", True),
}


def _against_prose(scan: Scanner) -> None:
    """Shops describe ST types the wrong way round; the code stands, the contradiction is told."""
    if "tab" not in scan.ratings:
        return
    for found in _PROSE.finditer(scan.view[:_HEAD]):
        name, claim = _CLAIMS[str(found.lastgroup)]
        coded = scan.ratings.get(name, False)
        if coded != claim:
            scan.warn(f"The text says {found[0]}, the type code says otherwise; the code stands.")


_HEAD = 400


_SURE = re.compile(
    r"(?<![0-9A-Za-z])(?:BT[AB][- ]?[0-9]{2}(?![0-9])|BT[AB]2[0-2][0-9]|Z01[01][0379][MN]|triac"
    r"|BT13[1-9][A-Z]?[ -]?[5-8]00|T[1-9][0-9]{2,3}H?-[4-9](?:00)?[A-Z]?(?![0-9A-Za-z])"
    r"|T[1-9][0-9]{2,3}H?-[4-9]00)",
    ANY_CASE,
)


def likely(text: str) -> float:
    """How strongly a text looks like this family, 0 to 1."""
    return 0.95 if _SURE.search(text) else 0.0


def canonical(reading: Reading) -> str:
    """The ST form of what was read."""
    return faithful(reading, _written(reading), read)


def _written(reading: Reading) -> str:
    """The ratings written out."""
    said = reading.ratings
    if not {"it_rms_a", "vdrm_v", "tab"} <= said.keys():
        return ""
    letter = "A" if said["tab"] == "insulated" else "B"
    gate = "BW" if said.get("snubberless") else ""
    return f"BT{letter}{said['it_rms_a']:02d}-{said['vdrm_v']}{gate}"
