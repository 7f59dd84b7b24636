"""Type codes of Hongfa, Schrack and Finder relays."""

from __future__ import annotations

import re
from collections.abc import Callable

from inventory.markings.contacts_codes import Legend, Part, table
from inventory.markings.contacts_words import contact_form

_HONGFA = (
    "Hongfa HF115F, HF3FA and HF105F data sheets: type names and contact tables"
    " (1H = 1 form A, 1Z = 1 form C, S sealed, F class F); letter of the metal left open"
)
_SCHRACK = (
    "TE Schrack RT1 data sheets, contact and coil tables (RT314 16 A changeover, RT334 make,"
    " RT114 12 A, RT424 2 x 8 A; A05/F05 bistable); place of the digits from memory"
)
_FINDER = "Finder 40, 55 and 56 series data sheets, ordering information"
_END = r"(?![0-9A-Za-z])"

_HONGFA_FORMS = {"H": "A", "D": "B", "Z": "C"}


def _arrangement(text: str) -> Part:
    """1H, 1D, 1Z, 2H, 2Z: poles and form; the pole count may be left out."""
    poles = int(text[0]) if text[0].isdigit() else 1
    form = contact_form(_HONGFA_FORMS[text[-1]], poles)
    return {"poles": poles, "contact": form}, form


def _coil_digits(text: str) -> Part:
    """Three digits of coil voltage; the direct-current coil is the legend's default."""
    return {"coil_vdc": int(text)}, f"coil {int(text)} V d.c."


def _hongfa_coil(text: str) -> Part:
    """Digits, and A for an a.c. coil in the series that have one."""
    figure = int(re.sub("[^0-9]", "", text))
    kind = "vac" if "A" in text else "vdc"
    return {f"coil_{kind}": figure}, f"coil {figure} V {kind[1]}.c."


def _hongfa_series(text: str) -> Part:
    """The series name in front of the stroke."""
    return {"series": text.split("-", maxsplit=1)[0]}, f"series {text}"


HONGFA = Legend(
    "HF",
    re.compile(
        r"(?P<series>HF(?:105F-1L?|115F-(?:TH|T|H|L|I)|115F[KP]?|3FA-T|3FA|3FF|14FF|14FW|140FF))"
        r"\s?/\s?(?P<coil>[0-9]{1,3}[DA]?T?)-(?P<form>[12]?[HDZ])(?P<seal>S)?(?P<pins>[1-8])?"
        rf"(?P<winding>L[12])?(?P<metal>[ABTGCN])?(?P<class>F)?(?P<lot>\([0-9A-Z]{{1,6}}\))?{_END}"
    ),
    {
        "series": _hongfa_series,
        "coil": _hongfa_coil,
        "form": _arrangement,
        "seal": table(none=({}, ""), S=({"enclosure": "sealed"}, "plastic sealed")),
        "pins": lambda text: ({}, f"pin version {text}"),
        "winding": table(
            none=({}, ""),
            L1=({"latching": "single winding"}, "latching, one coil"),
            L2=({"latching": "double winding"}, "latching, two coils"),
        ),
        "metal": lambda text: ({}, f"contact metal letter {text}, meaning differs by series"),
        "class": table(none=({}, ""), F=({"insulation_class": "F"}, "coil insulation class F")),
        "lot": lambda text: ({}, f"customer code {text}"),
    },
    _HONGFA,
)

_RT = {
    "1": ({"current_a": 12}, "12 A, pins 3.5 mm"),
    "2": ({"current_a": 12}, "12 A, pins 5 mm"),
    "3": ({"current_a": 16}, "16 A, pins 5 mm"),
    "4": ({"current_a": 8}, "8 A, two poles"),
}


def _rt_contacts(text: str) -> Part:
    """1 = 1 CO, 2 = 2 CO, 3 = 1 NO, 4 = 2 NO."""
    poles, letter = {"1": (1, "C"), "2": (2, "C"), "3": (1, "A"), "4": (2, "A")}[text]
    form = contact_form(letter, poles)
    return {"poles": poles, "contact": form}, form


def _rt_coil(text: str) -> Part:
    """012 d.c.; 524, 615, 730 a.c.; A05 and F05 bistable; absent: not known."""
    if not text:
        return {}, ""
    if text[0] in "AF":
        winding = "single winding" if text[0] == "A" else "double winding"
        volts = int(text[1:])
        return {"coil_vdc": volts, "latching": winding}, f"bistable, {winding}, {volts} V d.c."
    if text in _RT_AC:
        return {"coil_vac": _RT_AC[text]}, f"coil {_RT_AC[text]} V a.c."
    return _coil_digits(text)


_RT_AC = {"524": 24, "615": 115, "620": 120, "700": 200, "730": 230}
"""A.c. coil codes of the RT series. Source: from memory of the RT1 coil table."""

_METAL = table(
    _4=({"contact_material": "AgNi 90/10"}, "contacts AgNi 90/10"),
    _5=({"contact_material": "AgNi 90/10 gold plated"}, "AgNi 90/10, gold plated"),
)
_VERSION: dict[str, Part] = {
    "": ({}, ""),
    "WG": ({}, "in accordance with IEC 60335-1"),
    "F": ({}, "version F"),
    "AP": ({}, "version AP"),
    "WGAP": ({}, "in accordance with IEC 60335-1, version AP"),
}
SCHRACK = Legend(
    "RT",
    re.compile(
        r"RT(?P<current>[1-4])(?P<contacts>[1-4])(?P<metal>[45])(?P<coil>[AF][0-9]{2}|[0-9]{3})?"
        rf"(?P<version>WGAP|WG|AP|F)?{_END}"
    ),
    {
        "current": _RT,
        "contacts": _rt_contacts,
        "metal": _METAL,
        "coil": _rt_coil,
        "version": _VERSION,
    },
    _SCHRACK,
    {"series": "RT"},
)
SCHRACK_HOT = Legend(
    "RT",
    re.compile(
        rf"RT(?P<heat>[HD])(?P<contacts>[13])(?P<metal>[45])(?P<coil>[0-9]{{3}})?(?P<version>WGAP|WG|AP|F)?{_END}"
    ),
    {
        "heat": table(
            H=({"current_a": 16}, "version for high ambient, 16 A"),
            D=({"current_a": 16}, "flux-proof version, 16 A"),
        ),
        "contacts": _rt_contacts,
        "metal": _METAL,
        "coil": _rt_coil,
        "version": _VERSION,
    },
    _SCHRACK,
    {"series": "RT"},
)

_FINDER_TYPES = {
    "40.31": (1, 12, "pins 3.5 mm"),
    "40.51": (1, 12, "pins 5 mm"),
    "40.52": (2, 8, "pins 5 mm"),
    "40.61": (1, 16, "pins 5 mm"),
    "55.12": (2, 10, "printed circuit"),
    "55.13": (3, 10, "printed circuit"),
    "55.14": (4, 7, "printed circuit"),
    "55.32": (2, 10, "plug-in"),
    "55.33": (3, 10, "plug-in"),
    "55.34": (4, 7, "plug-in"),
    "56.32": (2, 12, "plug-in"),
    "56.34": (4, 12, "plug-in"),
    "56.42": (2, 12, "printed circuit"),
    "56.44": (4, 12, "printed circuit"),
}
"""Poles, amperes and mounting of the types whose table was read."""


def _finder_type(letter: str) -> Callable[[str], Part]:
    """Series and type under a contact circuit: poles, rated current, contact form."""

    def part(text: str) -> Part:
        """One type, e.g. 40.52."""
        poles, amps, mounting = _FINDER_TYPES[text]
        form = contact_form(letter, poles)
        ratings = {"series": text, "poles": poles, "current_a": amps, "contact": form}
        return ratings, f"type {text}: {form}, {amps} A, {mounting}"

    return part


def _finder_coil(text: str) -> Part:
    """8 a.c., 9 d.c., 7 sensitive d.c.; then three digits of voltage."""
    kind = "vac" if text[0] == "8" else "vdc"
    volts = int(text[-3:])
    return {f"coil_{kind}": volts}, f"coil {volts} V {kind[1]}.c."


def _finder_options(text: str) -> Part:
    """A contact metal, B circuit, C option, D version; D = 1 is wash tight (RT III)."""
    if not text:
        return {}, ""
    ratings: dict[str, object] = {}
    if text[0] in _FINDER_METALS:
        ratings["contact_material"] = _FINDER_METALS[text[0]]
    if text[-1] == "1":
        ratings["enclosure"] = "sealed"
    return ratings, f"options {text}: contact metal, circuit, extras, version"


_FINDER_METALS = {"0": "AgNi", "2": "AgCdO", "5": "AgNi+Au"}


def _finder(series: str, circuit: str, letter: str) -> Legend:
    """One series under one contact circuit: 0 changeover, 3 make contact."""
    types = "|".join(name[3:] for name in _FINDER_TYPES if name.startswith(series))
    options = rf"\.(?P<options>[0-9]{circuit}[0-9]{{2}})"
    tail = rf"(?:{options})?" if circuit == "0" else options
    return Legend(
        series,
        re.compile(
            rf"(?P<type>{series}\.(?:{types}))\.(?P<coil>[789]\.[0-9]{{3}}){tail}(?![0-9A-Za-z.])"
        ),
        {"type": _finder_type(letter), "coil": _finder_coil, "options": _finder_options},
        _FINDER,
    )


FINDER = tuple(
    _finder(series, circuit, letter)
    for series in ("40", "55", "56")
    for circuit, letter in (("0", "C"), ("3", "A"))
)
"""Finder relays by series and contact circuit."""

LEGENDS = (HONGFA, SCHRACK, SCHRACK_HOT, *FINDER)
"""All legends of this module."""
