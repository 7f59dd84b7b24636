"""Fusible resistors: makers' type codes, and any resistor marking that says it is one.

Each type is made for one application and is replaced by the identical type only, so the series
and the power are kept apart from what a plain resistor of that value would say.
"""

from __future__ import annotations

import re
from decimal import Decimal

from inventory.markings.figures import IEC_60062, OHM_LETTERS, with_letter
from inventory.markings.fold import fold
from inventory.markings.passive_marks import ANY_CASE, legend, say_tolerance
from inventory.markings.resistor import RULES as RESISTOR_RULES
from inventory.markings.resistor import written
from inventory.markings.resistor_codes import say_ohms
from inventory.markings.scanner import Rule, Scanner
from inventory.markings.writing import faithful
from inventory.records import Reading

HTR_FRC = "HTR, fusible resistors FRC, data sheet (eeworld 14901929)"
HTR_FRS = "HTR, fusible resistors FRS, rev. 22/05/2019 (scribd 475947422)"
YAGEO_FRM = "Yageo, FRM series, data sheet (xonelec FRM25JT-52-9R1)"

FRC_WATTS = {"1A": 1, "1": 1, "2": 2, "3": 3}
"""Watts at 70 °C of C-1AF, C-1F, C-2F, C-3F. Source: HTR FRC data sheet."""

FRS_WATTS = {
    "A-1": 1,
    "H-1": 1,
    "A-2": 2,
    "H-2": 2,
    "D-2": 2,
    "H-3A": 3,
    "H-3": 3,
    "H-4": 4,
    "5AC": 5,
    "A-5": 5,
}
"""Watts of the silicone-coated types. Source: HTR FRS data sheet."""

FRM_WATTS = {
    "-25": 0.25,
    "50S": 0.5,
    "-50": 0.5,
    "1WS": 1,
    "100": 1,
    "2WS": 2,
    "200": 2,
    "3WS": 3,
}
"""Watts at 70 °C of FRM-25 to FRM3WS. Source: Yageo FRM data sheet."""

_FRC = re.compile(r"C\s?-\s?(?P<size>1A|[123])(?P<fusible>F)(?![0-9A-Za-z])")
_FRS = re.compile(
    r"(?P<type>(?:[AH]\s?-\s?[12]|H\s?-\s?3A?|H\s?-\s?4|D\s?-\s?2|A\s?-\s?5|5AC))"
    r"(?P<fusible>F)(?P<safety>S)?(?![0-9A-Za-z])"
)
_FRM = re.compile(
    r"FRM(?P<size>-?25|50S|-?50|1WS|100|2WS|200|3WS)"
    r"(?:-?(?P<tol>[GJ])(?P<pack>[TBR]-?[0-9]{2}|[TB]))?"
    r"(?:-?(?P<value>[0-9]{1,3}[RK][0-9]{0,2}))?(?![0-9A-Za-z])"
)


def _type(scan: Scanner, series: str, watts: float, source: str) -> tuple[str, str]:
    """Set what every type code says and hand back its meaning."""
    scan.say("series", series)
    scan.say("power_w", watts)
    scan.say("fusible", value=True)
    return f"fusible resistor {series}, {watts} W", source


def frc(scan: Scanner) -> bool:
    """Type = "C-" size "F": wire-wound in a ceramic bath."""
    found = scan.peek(_FRC)
    if found is None:
        return False
    meaning = _type(scan, "FRC", FRC_WATTS[found["size"]], HTR_FRC)
    return legend(scan, found, {"size": meaning, "fusible": ("fusible", HTR_FRC)})


def frs(scan: Scanner) -> bool:
    """Type = body "-" watts "F" "S"?: silicone-coated, S for the safety version."""
    found = scan.peek(_FRS)
    if found is None:
        return False
    meaning = _type(scan, "FRS", FRS_WATTS[found["type"].replace(" ", "")], HTR_FRS)
    means = {
        "type": meaning,
        "fusible": ("fusible", HTR_FRS),
        "safety": ("safety version", HTR_FRS),
    }
    return legend(scan, found, means)


def frm(scan: Scanner) -> bool:
    """Type = "FRM" size (tolerance packing)? value?"""
    found = scan.peek(_FRM)
    if found is None:
        return False
    size = found["size"] if found["size"] in FRM_WATTS else f"-{found['size']}"
    means = {
        "size": _type(scan, "FRM", FRM_WATTS[size], YAGEO_FRM),
        "pack": ("packing", YAGEO_FRM),
    }
    if found["tol"]:
        means["tol"] = say_tolerance(scan, found["tol"])
    value = with_letter(found["value"], OHM_LETTERS) if found["value"] else None
    if value is not None:
        means["value"] = (say_ohms(scan, Decimal(value)), IEC_60062)
    return legend(scan, found, means)


_FR = re.compile(r"(?P<word>RFU?|FRN?)(?=[\s0-9-]|$)")


def letters(scan: Scanner) -> bool:
    """Word = "FR" | "RF": the usual letters of a fusible resistor."""
    found = scan.peek(_FR)
    if found is None:
        return False
    scan.say("fusible", value=True)
    source = "makers' pages: fusible resistors are often designated FR"
    return legend(scan, found, {"word": ("fusible", source)})


_WHITE = re.compile(r"white[ -]band(?![A-Za-z])", ANY_CASE)


def white_band(scan: Scanner) -> bool:
    """Word = "white band": the extra band of a fusible type."""
    if scan.take(_WHITE, "the extra band of a fusible type", YAGEO_FRM) is None:
        return False
    scan.say("fusible", value=True)
    return True


RULES: tuple[Rule, ...] = (
    RESISTOR_RULES[0],
    frc,
    frs,
    frm,
    white_band,
    letters,
    *RESISTOR_RULES[1:],
)


def read(text: str) -> Reading:
    """Read what is printed on a fusible resistor."""
    scan = Scanner(text)
    scan.sweep(RULES)
    return scan.reading("resistor_fusible")


_SURE = re.compile(r"\bfus(?:i|e)ble|\bfusing resistor|\bFRM-?[0-9]", ANY_CASE)
_MARKED = re.compile(
    r"(?<![0-9A-Za-z])(?:[0-9]{1,3}R[0-9]{0,2}|[0-9]{1,4}\s?Ω)\s.{0,12}\bFR\b|^FR\s[0-9]{1,3}R"
)
"""A resistance with the letters FR beside it, as fusible types are marked."""
_CODE = re.compile(r"\s*(?:C-[123]A?F|[AHD]-[1-5]A?FS?|5ACFS?)(?![0-9A-Za-z])")


_WHITE_LAST = re.compile(r"(?:[a-z]{3,6}[\s,/-]{1,3}){4,5}white\s*$", ANY_CASE)


def likely(text: str) -> float:
    """How strongly a text looks like this family, 0 to 1."""
    if _SURE.search(text) or _WHITE_LAST.search(fold(text)):
        return 0.9
    return 0.8 if _CODE.match(text) or _MARKED.search(text[:200]) else 0.0


def canonical(reading: Reading) -> str:
    """The resistor's figures with the word that sets it apart, or the type code."""
    return faithful(reading, written(reading), read)
