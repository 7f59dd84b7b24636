"""Type codes of power relays with a published legend."""

from __future__ import annotations

import re

from inventory.markings.contacts_codes import Field, Legend, Part, saying, table
from inventory.markings.contacts_words import contact_form

_G5LE = "Omron G5LE data sheet, model number legend"
_G5LA = "Omron G5LA data sheet, model number legend"
_G5RL = "Omron G5RL data sheet (K-series edition), model number legend: none 12 A, E 16 A"
_G5RL_TV = "Omron G5RL data sheet (later edition), model number legend: E high capacity"
_G5RL_U = "Omron G5RL-U/-K data sheet, model number legend"
_G6RL = "Omron G6RL data sheet, model number legend"
_G5CA = "Omron G5CA data sheet, model number legend"
_G2RS = "Omron G2R-S data sheet, model number legend"
_SONGLE = "Songle SRD data sheet, ordering information"
_SHA = "Songle SHA as sold (SHA-12VDC-S-A: 12 V d.c. coil, one make contact); by analogy with SRD"

_COIL = r"(?:[ -]{1,3}(?P<coil>(?:DC|AC)\s?[0-9]{1,3}|[0-9]{1,3}\s?V?\s?(?:VDC|VAC|V?DC|V?AC)))?"
_END = r"(?![0-9A-Za-z])"


def coil(text: str) -> Part:
    """Coil voltage in the tail of a code: DC12, 12 VDC, AC 230; none is not known."""
    figure = re.search(r"[0-9]{1,3}", text)
    if figure is None:
        return {}, ""
    kind = "vac" if "AC" in text.upper() else "vdc"
    return {f"coil_{kind}": int(figure[0])}, f"coil {int(figure[0])} V {kind[1]}.c."


_POLES = {"1": ({"poles": 1}, "1 pole"), "2": ({"poles": 2}, "2 poles")}
_FORM_1 = table(
    none=({"contact": "SPDT"}, "changeover"),
    A=({"contact": "SPST-NO"}, "make contact"),
    B=({"contact": "SPST-NC"}, "break contact"),
)
_SEAL = table(
    none=({"enclosure": "flux"}, "flux protection"), _4=({"enclosure": "sealed"}, "fully sealed")
)


def _contacts(text: str) -> Part:
    """Pole digit and form letter together: 1, 1A, 2, 2A."""
    poles = int(text[0])
    form = contact_form("A" if text.endswith("A") else "C", poles)
    return {"poles": poles, "contact": form}, form


G5LE = Legend(
    "G5LE",
    re.compile(
        r"G5LE-(?P<poles>1)(?P<form>A)?(?P<seal>4)?(?P<material>-ASI|-ACD)?(?P<standard>-VD)?"
        r"(?P<insulation>-CF)?(?P<power>-36)?(?P<kind>-E|-G)?(?P<pack>-SP)?"
        rf"{_COIL}{_END}"
    ),
    {
        "poles": _POLES,
        "form": _FORM_1,
        "seal": _SEAL,
        "material": {
            "": ({}, ""),
            "-ASI": ({"contact_material": "AgSnIn"}, "contacts AgSnIn"),
            "-ACD": ({"contact_material": "AgCdO"}, "contacts AgCdO"),
        },
        "standard": {"": ({}, ""), "-VD": ({}, "with VDE approval")},
        "insulation": {"": ({}, ""), "-CF": ({"insulation_class": "F"}, "coil insulation class F")},
        "power": {"": ({}, ""), "-36": ({"coil_power_w": 0.36}, "coil 0.36 W")},
        "kind": {
            "": ({}, ""),
            "-E": ({"high_capacity": True}, "high capacity"),
            "-G": ({"contact_gap_mm": 0.8}, "contact gap 0.8 mm"),
        },
        "pack": {"": ({}, ""), "-SP": ({}, "tube packing")},
        "coil": coil,
    },
    _G5LE,
    {"series": "G5LE"},
)

G5LA = Legend(
    "G5LA",
    re.compile(
        rf"G5LA-(?P<poles>1)(?P<form>A)?(?P<seal>4)?(?P<kind>-E)?(?P<insulation>-CF)?{_COIL}{_END}"
    ),
    {
        "poles": _POLES,
        "form": _FORM_1,
        "seal": _SEAL,
        "kind": {"": ({}, ""), "-E": ({"high_capacity": True}, "high capacity (NC side)")},
        "insulation": {"": ({}, ""), "-CF": ({"insulation_class": "F"}, "coil insulation class F")},
        "coil": coil,
    },
    _G5LA,
    {"series": "G5LA"},
)

_SPECIAL: dict[str, Part] = {
    "": ({}, ""),
    "-HR": ({"special": "high inrush"}, "high inrush"),
    "-LN": ({"special": "low noise"}, "low noise"),
    "-TV8": ({"special": "TV-8"}, "TV-8 rated"),
}
_HIGH: Field = {"": ({}, ""), "-E": ({"high_capacity": True}, "high capacity")}

G5RL_TV = Legend(
    "G5RL",
    re.compile(rf"G5RL-(?P<poles>1)(?P<form>A)?(?P<class>-E)?(?P<special>-TV8){_COIL}{_END}"),
    {"poles": _POLES, "form": _FORM_1, "class": _HIGH, "special": _SPECIAL, "coil": coil},
    _G5RL_TV,
    {"series": "G5RL"},
)
G5RL = Legend(
    "G5RL",
    re.compile(rf"G5RL-(?P<poles>1)(?P<form>A)?(?P<class>-E)?(?P<special>-HR|-LN)?{_COIL}{_END}"),
    {
        "poles": _POLES,
        "form": _FORM_1,
        "class": {
            "": ({"current_a": 12}, "12 A"),
            "-E": ({"current_a": 16, "high_capacity": True}, "16 A (high capacity)"),
        },
        "special": _SPECIAL,
        "coil": coil,
    },
    _G5RL,
    {"series": "G5RL"},
)
G5RL_U = Legend(
    "G5RL",
    re.compile(rf"G5RL-(?P<function>[UK])(?P<poles>1)(?P<form>A)?(?P<class>-E)?{_COIL}{_END}"),
    {
        "function": table(
            U=({"latching": "single winding"}, "latching, single winding"),
            K=({"latching": "double winding"}, "latching, double winding"),
        ),
        "poles": _POLES,
        "form": _FORM_1,
        "class": _HIGH,
        "coil": coil,
    },
    _G5RL_U,
    {"series": "G5RL"},
)
G6RL = Legend(
    "G6RL",
    re.compile(
        r"G6RL-(?P<poles>1)(?P<form>A)?(?P<seal>4)?(?P<special>-SR)?(?P<material>-ASI)?(?P<load>-PL)?"
        rf"{_COIL}{_END}"
    ),
    {
        "poles": _POLES,
        "form": _FORM_1,
        "seal": _SEAL,
        "special": {"": ({}, ""), "-SR": ({"special": "shock resistance"}, "shock resistance")},
        "material": {
            "": ({"contact_material": "AgNi"}, "contacts AgNi"),
            "-ASI": ({"contact_material": "AgSnIn"}, "contacts AgSnIn"),
        },
        "load": {"": ({}, ""), "-PL": ({}, "P1 load (lamps parallel to an igniter)")},
        "coil": coil,
    },
    _G6RL,
    {"series": "G6RL"},
)
G5CA = Legend(
    "G5CA",
    re.compile(
        rf"G5CA-(?P<poles>1)(?P<form>A)(?P<seal>4)?(?P<tab>-TP)?(?P<kind>-E|-H)?{_COIL}{_END}"
    ),
    {
        "poles": _POLES,
        "form": _FORM_1,
        "seal": _SEAL,
        "tab": {"": ({}, ""), "-TP": ({"terminal": "qc-4.8"}, "4.8 mm load tabs (#187)")},
        "kind": {
            "": ({}, ""),
            "-E": ({"high_capacity": True}, "high capacity"),
            "-H": ({}, "high-sensitivity coil"),
        },
        "coil": coil,
    },
    _G5CA,
    {"series": "G5CA"},
)
G2RS = Legend(
    "G2R",
    re.compile(
        rf"G2R-(?P<poles>[12])-S(?P<class>NDI|NI|ND|N|D)?(?P<plate>\(S\))?{_COIL}(?P<plate2>\s?\(S\))?{_END}"
    ),
    {
        "poles": table(
            _1=({"poles": 1, "contact": "SPDT"}, "1 pole changeover"),
            _2=({"poles": 2, "contact": "DPDT"}, "2 pole changeover"),
        ),
        "class": table(
            none=({}, ""),
            N=({}, "plug-in; LED"),
            D=({}, "plug-in; diode"),
            ND=({}, "plug-in; LED and diode"),
            NI=({}, "plug-in; LED and test button"),
            NDI=({}, "plug-in; LED, diode and test button"),
        ),
        "plate": {"": ({}, ""), "(S)": ({}, "mechanical indicator and name plate")},
        "coil": coil,
        "plate2": lambda text: ({}, "mechanical indicator and name plate" if text else ""),
    },
    _G2RS,
    {"series": "G2R", "terminal": "plug-in"},
)
_G2RL = "Omron G2RL model number legend, from memory: look at the data sheet"
G2RL = Legend(
    "G2RL",
    re.compile(
        rf"G2RL-(?P<contacts>[12]A?)(?P<seal>4)?(?P<kind>-E|-H)?(?P<insulation>-CF)?{_COIL}{_END}"
    ),
    {
        "contacts": _contacts,
        "seal": _SEAL,
        "kind": {
            "": ({}, ""),
            "-E": ({"high_capacity": True}, "high capacity"),
            "-H": ({}, "high-sensitivity coil"),
        },
        "insulation": {"": ({}, ""), "-CF": ({"insulation_class": "F"}, "coil insulation class F")},
        "coil": coil,
    },
    _G2RL,
    {"series": "G2RL"},
)
G5Q = Legend(
    "G5Q",
    re.compile(rf"G5Q-(?P<poles>1)(?P<form>A)?(?P<seal>4)?(?P<market>-EU)?{_COIL}{_END}"),
    {
        "poles": _POLES,
        "form": _FORM_1,
        "seal": _SEAL,
        "market": {"": ({}, ""), "-EU": ({}, "version EU")},
        "coil": coil,
    },
    "Omron G5Q model number legend, from memory: look at the data sheet",
    {"series": "G5Q"},
)


def _songle(series: str, source: str, power: Field) -> Legend:
    """Songle's scheme: coil volts, S sealed or F flux free, coil power letter, form letter."""
    return Legend(
        series,
        re.compile(
            rf"{series}-(?P<coil>[0-9]{{2,3}}\s?VDC)-?(?P<seal>[SF])(?:-?(?P<power>[LDH]))?-(?P<form>[ABC]){_END}"
        ),
        {
            "coil": coil,
            "seal": table(
                S=({"enclosure": "sealed"}, "sealed"), F=({"enclosure": "flux"}, "flux free")
            ),
            "power": power,
            "form": lambda letter: (
                {"contact": contact_form(letter)},
                f"{contact_form(letter)} (form {letter})",
            ),
        },
        source,
        {"series": series},
    )


_SRD_POWER = saying("coil_power_w", none=None, L=0.36, D=0.45)
SRD = _songle("SRD", _SONGLE, {k: (({} if not k else v[0]), v[1]) for k, v in _SRD_POWER.items()})
SLA = _songle("SLA", "Songle SLA, read by analogy with the SRD legend", lambda text: ({}, text))
SHA = _songle("SHA", _SHA, lambda text: ({}, text))
_BY_ANALOGY = tuple(
    _songle(series, f"Songle {series}, by analogy with the SRD legend", lambda text: ({}, text))
    for series in ("SRA", "SMIH", "SMI", "SLC", "SRU")
)

OMRON = (G5LE, G5LA, G5RL_TV, G5RL, G5RL_U, G6RL, G5CA, G2RS, G2RL, G5Q)
"""Omron legends; the narrower pattern of a series stands first."""

SONGLE = (SRD, SLA, SHA, *_BY_ANALOGY)
"""Songle legends; only SRD's own is published, the others say so in their source."""
