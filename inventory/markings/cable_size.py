"""Size of cords and wires: cores, area, gauge, voltage pair, flame test."""

from __future__ import annotations

import re
from math import pi

from inventory.markings.amounts import PRACTICE
from inventory.markings.figures import figure
from inventory.markings.harmonised import HD_361, say_grade
from inventory.markings.passive_marks import ANY_CASE, legend
from inventory.markings.scanner import Rule, Scanner

_CORES = re.compile(
    r"(?P<cores>[1-9][0-9]?)\s?(?P<earth>[GgXx×*])\s?(?P<area>[0-9]{1,3}(?:[.,][0-9]{1,3})?)"
    r"\s?(?P<unit>mm\s?(?:2|²|\^2)?)?(?![0-9A-Za-z])"
)


def cores(scan: Scanner) -> bool:
    """Cores = number ("G" | "X") area "mm²"?: G with, X without a green-yellow core."""
    found = scan.peek(_CORES)
    if found is None:
        return False
    earthed = found["earth"] in "Gg"
    scan.say("cores", int(found["cores"]))
    if "harmonised" in scan.ratings or earthed:
        scan.say("earth", earthed)
    scan.say("area_mm2", figure(found["area"]))
    means = {
        "cores": (f"{found['cores']} cores", HD_361),
        "earth": ("with an earth core" if earthed else "without an earth core", HD_361),
        "area": (f"{found['area']} mm² each", HD_361),
        "unit": ("square millimetres", PRACTICE),
    }
    return legend(scan, found, means)


_AREA = re.compile(
    r"(?P<area>[0-9]{1,3}(?:[.,][0-9]{1,3})?)\s?(?:mm\s?(?:2|²|\^2)|sq\.?\s?mm)(?![0-9A-Za-z])"
)


def area(scan: Scanner) -> bool:
    """Area = number "mm²"."""
    found = scan.peek(_AREA)
    if found is None:
        return False
    scan.say("area_mm2", figure(found["area"]))
    return scan.take(_AREA, f"{found['area']} mm² of copper a core", PRACTICE) is not None


_VOLTS_PAIR = re.compile(
    r"(?P<low>300|450|600|100)\s?/\s?(?P<high>100|300|500|750|1000)\s?V(?![A-Za-z])"
)


def volts_pair(scan: Scanner) -> bool:
    """Voltage = Uo "/" U "V", e.g. 300/500 V."""
    found = scan.peek(_VOLTS_PAIR)
    if found is None:
        return False
    scan.say("voltage", f"{found['low']}/{found['high']}")
    say_grade(scan, f"{found['low']}/{found['high']}")
    means = f"{found['low']} V to earth, {found['high']} V between cores"
    return scan.take(_VOLTS_PAIR, means, HD_361) is not None


_GAUGE = re.compile(
    r"(?:(?P<count>[2-9])\s?[Xx×*]\s?)?(?P<awg>[0-9]{1,2})\s?(?:AWG|awg|ga)\s?"
    r"(?:[Xx×*/]?\s?(?P<cores>[2-9])\s?(?:/\s?)?(?P<c>C(?:ORES?|OND)?)(?![A-Za-z]))?(?![A-WYZa-wyz])"
    r"|(?:AWG|awg)\s?(?P<awg2>[0-9]{1,2})(?![0-9])"
    r"|(?P<awg3>1[0-8])\s?/\s?(?P<cores3>[2-5])\s?(?:C(?![A-Za-z0-9]))?(?![0-9A-Za-z])"
)


def gauge(scan: Scanner) -> bool:
    """Gauge = (cores "x")? number "AWG" (cores "C")? | number "/" cores."""
    found = scan.peek(_GAUGE)
    if found is None:
        return False
    awg = int(found["awg"] or found["awg2"] or found["awg3"])
    scan.say("awg", awg)
    scan.assume("area_mm2", awg_area(awg), "ASTM B258, area of the gauge")
    count = found["cores"] or found["cores3"] or found["count"]
    if count:
        scan.say("cores", int(count))
    size = (f"gauge {awg} AWG; a smaller number is a thicker wire", "ASTM B258")
    several = (f"{count} cores", PRACTICE)
    means = dict.fromkeys(("awg", "awg2", "awg3"), size)
    means |= dict.fromkeys(("count", "cores", "cores3"), several)
    return legend(scan, found, means)


def awg_area(awg: int) -> float:
    """Copper area of a gauge in mm². Source: ASTM B258, d = 0.127 mm x 92^((36 - n) / 39).

    >>> awg_area(18), awg_area(16)
    (0.823, 1.31)
    """
    diameter = 0.127 * 92 ** ((36 - awg) / 39)
    return float(f"{pi / 4 * diameter**2:.3g}")


_COUNT = re.compile(
    r"[Xx×*]?\s?(?P<cores>[1-9])\s?(?:/\s?)?(?:C|[Cc]ores?|COND(?:UCTORS?)?|[Cc]ond)(?![0-9A-Za-z])"
)


def count(scan: Scanner) -> bool:
    """Cores = number "C"."""
    found = scan.peek(_COUNT)
    if found is None:
        return False
    scan.say("cores", int(found["cores"]))
    return legend(scan, found, {"cores": (f"{found['cores']} cores", PRACTICE)})


def _mark(text: str) -> str:
    """A flame mark without its gaps.

    >>> _mark("VW 1"), _mark("ft-1")
    ('VW-1', 'FT1')
    """
    bare = re.sub(r"[\s-]", "", text.upper())
    return "VW-1" if bare == "VW1" else bare


def _listed(held: object) -> list[str]:
    """One flame test or several, as a list."""
    if held is None:
        return []
    return held if isinstance(held, list) else [str(held)]


_FLAME = re.compile(
    r"(?P<flame>VW-?\s?1|FT-?[1246]|FV-?1|(?:horizontal|vertical|cable)\s?flame(?:\s?test)?)"
    r"(?![0-9A-Za-z])",
    ANY_CASE,
)


def flame(scan: Scanner) -> bool:
    """Flame = "VW-1" | "FT" digit: the flame test passed."""
    found = scan.peek(_FLAME)
    if found is None:
        return False
    passed = found["flame"].lower() if "flame" in found["flame"].lower() else _mark(found["flame"])
    held = scan.ratings.get("flame_rating")
    scan.ratings["flame_rating"] = (
        passed if held in (None, passed) else sorted({passed, *_listed(held)})
    )
    return scan.take(_FLAME, "flame test passed", "UL 2556, VW-1 and FT tests") is not None


SIZES: tuple[Rule, ...] = (volts_pair, cores, area, gauge, count, flame)
"""Lines of size and flame test that cords and single wires share."""
