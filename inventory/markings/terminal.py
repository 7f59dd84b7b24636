"""Quick-connect terminals: series, tab width and thickness, wire range, gender.

``tab_mm`` is [width, thickness], or the width alone where the thickness is not known: the 187
series comes in two thicknesses that are not exchanged.
"""

from __future__ import annotations

import re

from inventory.markings.amounts import PRACTICE
from inventory.markings.bookkeeping import START
from inventory.markings.cable_size import gauge
from inventory.markings.figures import figure
from inventory.markings.passive_marks import (
    ANY_CASE,
    COMMON,
    amount,
    legend,
    temperature,
    word,
)
from inventory.markings.scanner import Rule, Scanner
from inventory.markings.writing import faithful, write
from inventory.records import Reading

IEC_61210 = "IEC 61210:2010, nominal tab sizes"

WIDTHS = {"110": 2.8, "187": 4.8, "205": 5.2, "250": 6.3, "312": 7.9, "375": 9.5}
"""Series in thousandths of an inch and nominal width in mm. Source: IEC 61210; 205 and 312 are
makers' sizes, from memory."""

THICKNESSES = {"110": (0.5, 0.8), "187": (0.5, 0.8), "250": (0.8,), "375": (1.2,)}
"""Thicknesses each series is made in, mm. Source: IEC 61210, tab sizes."""

_SERIES = re.compile(
    r"(?P<hash>#|0?\.|series\s?)?(?P<series>110|187|205|250|312|375)(?P<tail>\s?(?:series|#|\"|″|''|in(?:ch)?\b|type))?"
    r"(?:\s?(?:of|tab))?(?![0-9A-Za-z.,]|\s?(?:V|Ω|°))",
    ANY_CASE,
)


def series(scan: Scanner) -> bool:
    """Series = ("#" | ".")? three digits ("series" | inches)?"""
    found = scan.peek(_SERIES)
    if found is None:
        return False
    _say_series(scan, found["series"])
    means = {
        "hash": ("the series follows", PRACTICE),
        "series": (f"tab {WIDTHS[found['series']]} mm wide", IEC_61210),
        "tail": ("thousandths of an inch", PRACTICE),
    }
    return legend(scan, found, means)


def _say_series(scan: Scanner, name: str) -> None:
    """Set the series; several are all listed, because they are a range of parts and not one."""
    held = scan.ratings.setdefault("series", name)
    if name == held or name in (held if isinstance(held, list) else ()):
        return
    scan.ratings["series"] = [*(held if isinstance(held, list) else [held]), name]
    scan.warn("Several series are printed: this is a range of parts.")


_SIZE = re.compile(
    r"(?P<width>2[.,]8|4[.,][78]5?|5[.,]2|6[.,]35?|7[.,]9|9[.,]5)\s?(?:mm)?\s?[x×*]\s?"
    r"(?P<thick>0?[.,][58]1?|1[.,]2)\s?(?:mm)?(?![0-9A-Za-z])"
)
_INCHES = re.compile(
    r"(?P<width>0?\.(?:110|187|205|250|312|375))\"?\s?[x×*]\s?(?P<thick>0?\.0(?:20|32|16|47))\"?(?![0-9A-Za-z])"
)
_INCH_THICK = {"020": 0.5, "032": 0.8, "016": 0.4, "047": 1.2}


def size(scan: Scanner) -> bool:
    """Size = width "x" thickness "mm"? | the same in inches."""
    if found := scan.peek(_INCHES):
        name = found["width"].lstrip("0.")
        thick = _INCH_THICK[found["thick"].split(".")[1]]
        return _say_tab(scan, found, WIDTHS[name], thick)
    found = scan.peek(_SIZE)
    if found is None:
        return False
    thick = float(figure(f"0{found['thick']}"))
    return _say_tab(scan, found, float(figure(found["width"])), thick)


def _say_tab(scan: Scanner, found: re.Match[str], width: float, thick: float) -> bool:
    """Set width and thickness."""
    held = scan.ratings.get("tab_mm")
    if held is None:
        scan.say("tab_mm", [width, thick])
        scan.say("tab_thick", thick)
    elif held != [width, thick]:
        _several(scan, [width, thick])
    means = {
        "width": (f"tab {width} mm wide", IEC_61210),
        "thick": (f"{thick} mm thick", IEC_61210),
    }
    return legend(scan, found, means)


def _several(scan: Scanner, tab: list[float]) -> None:
    """Several sizes are a range of parts, not one: all are listed, no single one is claimed."""
    held = scan.ratings["tab_mm"]
    sizes = held if isinstance(held[0], list) else [held]
    scan.ratings["tab_mm"] = [*sizes, tab] if tab not in sizes else sizes
    scan.ratings.pop("tab_thick", None)
    scan.warn("Several tab sizes are printed: this is a range of parts, measure the one at hand.")


_WIDTH = re.compile(
    r"(?P<width>2[.,]8|4[.,]8|6[.,]35?|9[.,]5)\s?(?P<unit>mm)?(?![0-9A-Za-z]|\s?[x×*AVW])"
)


def width(scan: Scanner) -> bool:
    """Width = number "mm"?: the thickness is not said."""
    found = scan.peek(_WIDTH)
    if found is None or "tab_mm" in scan.ratings:
        return False
    scan.say("tab_mm", [figure(found["width"])])
    means = {"width": ("tab width in mm", IEC_61210), "unit": ("millimetres", PRACTICE)}
    return legend(scan, found, means)


_WIRE_AWG = re.compile(
    r"(?P<thin>[12][0-9])\s?(?:-|~|to)\s?(?P<thick>[12]?[0-9])\s?AWG(?![0-9A-Za-z])"
    r"|AWG\s?(?P<thin2>[12][0-9])\s?(?:-|~|to)\s?(?P<thick2>[12]?[0-9])(?![0-9A-Za-z])",
    ANY_CASE,
)
_WIRE_MM = re.compile(
    r"(?P<low>[0-9](?:[.,][0-9]{1,2})?)\s?(?:-|~|to|…)\s?(?P<high>[0-9](?:[.,][0-9]{1,2})?)\s?mm\s?(?:2|²|\^2)(?![0-9A-Za-z])"
)


def wire(scan: Scanner) -> bool:
    """Wire = number "-" number ("AWG" | "mm²"): what the crimp takes."""
    if found := scan.peek(_WIRE_MM):
        scan.say("area_min_mm2", figure(found["low"]))
        scan.say("area_max_mm2", figure(found["high"]))
        return scan.take(_WIRE_MM, "wire the crimp takes", PRACTICE) is not None
    found = scan.peek(_WIRE_AWG)
    if found is None:
        return False
    thin, thick = found["thin"] or found["thin2"], found["thick"] or found["thick2"]
    scan.say("awg", [int(thin), int(thick)])
    return scan.take(_WIRE_AWG, "wire the crimp takes, AWG", PRACTICE) is not None


_RING = re.compile(
    r"(?P<form>RV|RNB|SV|SNB|[RF]?FDD|MDD|FDFD)\s?(?P<wire>1\.25|2|5\.5|1|3\.5)-(?P<stud>[0-9]{1,3}(?:\.[0-9])?)(?P<tail>[A-Z]{0,2})(?![0-9A-Za-z])"
)


def crimp_code(scan: Scanner) -> bool:
    """Code = form wire "-" size: rings by stud, tabs by series, as Asian makers print."""
    found = scan.peek(_RING)
    if found is None:
        return False
    source = "makers' crimp terminal codes, from memory"
    scan.say(
        "form", "ring or fork" if found["form"][0] in "RS" and "F" not in found["form"] else "tab"
    )
    scan.say("wire_size", found["wire"])
    if found["stud"] in WIDTHS:
        scan.say("series", found["stud"])
    elif found["form"][0] in "RS":
        scan.say("stud_mm", figure(found["stud"]))
    means = {
        "form": ("form of the terminal", source),
        "wire": (f"wire size {found['wire']}", source),
        "stud": ("stud or tab", source),
        "tail": ("variant", source),
    }
    return legend(scan, found, means)


RULES: tuple[Rule, ...] = (
    *START,
    crimp_code,
    size,
    wire,
    gauge,
    series,
    width,
    temperature,
    amount("A", "current_a", "rated current"),
    amount("V(?:AC)?", "voltage_v", "rated voltage"),
    word("female|receptacle", "takes a tab", PRACTICE, gender="female"),
    word("male", "is a tab", PRACTICE, gender="male"),
    word("flag|90°|right[ -]angle", "wire leaves to the side", PRACTICE, form="flag"),
    word("piggy-?back", "takes two", PRACTICE, form="piggyback"),
    word("fully[ -]insulated|insulated", "with a sleeve", PRACTICE, insulated=True),
    word("bare|non-?insulated|uninsulated", "without a sleeve", PRACTICE, insulated=False),
    word("tin(?:ned)?", "plating", PRACTICE, plating="tin"),
    word("nickel(?:-plated)?", "plating, for heat", PRACTICE, plating="nickel"),
    word("quick[ -]?connect|fast-?on|terminals?|tabs?|spade|lug|ring|fork", "the part", PRACTICE),
    word("and|or|mm", "joins two sizes", PRACTICE),
    *COMMON,
)


def read(text: str) -> Reading:
    """Read what is said of a quick-connect terminal."""
    scan = Scanner(text)
    scan.sweep(RULES)
    _agree(scan)
    _current(scan)
    return scan.reading("terminal")


def _agree(scan: Scanner) -> None:
    """Series and size must agree; what one says the other may be read from."""
    name, tab = scan.ratings.get("series"), scan.ratings.get("tab_mm")
    if isinstance(name, list) or (tab and isinstance(tab[0], list)):
        return
    if name is None and tab:
        known = next((n for n, w in WIDTHS.items() if abs(w - tab[0]) < 0.06), None)
        if known:
            scan.say("series", known)
    elif name and tab and abs(WIDTHS[name] - tab[0]) > 0.06:
        scan.warn(f"Series {name} is {WIDTHS[name]} mm wide, but {tab[0]} mm is printed.")
    elif name and not tab:
        thick = THICKNESSES.get(name, ())
        scan.say("tab_mm", [WIDTHS[name]] if len(thick) != 1 else [WIDTHS[name], thick[0]])
        if len(thick) == 1:
            scan.say("tab_thick", thick[0])
        elif thick:
            scan.warn(f"Series {name} comes {thick[0]} and {thick[1]} mm thick: measure.")


UL_310_AMPS = {10: 24, 12: 20, 14: 15, 16: 10, 18: 7, 20: 4, 22: 3}
"""Amperes of series 250 by gauge at 30 K rise. Source: UL 310, as quoted by TE Connectivity."""


def _current(scan: Scanner) -> None:
    """What series 250 carries on the gauge printed, where no current is printed."""
    awg = scan.ratings.get("awg")
    if scan.ratings.get("series") == "250" and isinstance(awg, int) and awg in UL_310_AMPS:
        scan.assume("current_a", UL_310_AMPS[awg], "UL 310, 30 K rise, as quoted by TE")


_SURE = re.compile(
    r"(?:110|187|205|250|312|375)\s?(?:series|type)|quick[ -]?connect|fast-?on|\bterminal"
    r"|(?:2[.,]8|4[.,]8|6[.,]35?|9[.,]5)\s?(?:mm)?\s?[x×*]\s?(?:0?[.,][58]|1[.,]2)"
    r"|0?\.(?:110|187|250|375)\"?\s?[x×*]\s?0?\.0[1-4]|#(?:110|187|250|375)(?![0-9])",
    ANY_CASE,
)
_ALONE = re.compile(r"\s*(?:0?\.)?(?:110|187|250|375)(?:\"|″)?\s*(?:tab)?\s*")


_LEANS = re.compile(r"(?:4[.,]8|6[.,]35?)\s?mm.{0,20}(?:female|male|flag|insulated)", ANY_CASE)


def likely(text: str) -> float:
    """How strongly a text looks like this family, 0 to 1."""
    if _SURE.search(text):
        return 0.9
    return 0.4 if _ALONE.fullmatch(text) or _LEANS.search(text) else 0.0


def canonical(reading: Reading) -> str:
    """Series and size in their plainest form."""
    return faithful(reading, _written(reading), read)


def _written(reading: Reading) -> str:
    """The ratings written out."""
    said = dict(reading.ratings)
    tab = said.get("tab_mm", [])
    sizes = tab if tab and isinstance(tab[0], list) else [tab]
    if isinstance(said.get("series"), list):
        said["series"] = " series ".join(said["series"])
    said["tab_mm"] = " ".join(f"{s[0]}x{s[1]} mm" for s in sizes if len(s) == 2)
    return write(
        said,
        ("series", "{} series"),
        ("tab_mm", "{}"),
        ("gender", "{}"),
        ("form", {"flag": "flag", "piggyback": "piggyback"}),
        ("insulated", {True: "insulated", False: "non-insulated"}),
        ("plating", "{}"),
        ("current_a", "{} A"),
        ("temp_c", "{}°C"),
    )
