"""Glass trays: diameter, centre, roller track, material."""

from __future__ import annotations

import re

from inventory.markings.amounts import PRACTICE
from inventory.markings.dimensions import alone, counted, named
from inventory.markings.passive_marks import ANY_CASE, COMMON, rest_of_word, word
from inventory.markings.scanner import Rule, Scanner
from inventory.markings.writing import faithful, write
from inventory.records import Reading

_LOBES = counted("lobes?|lugs?|wings?", "lobes")


def lobes(scan: Scanner) -> bool:
    """Centre = count "lobes"; a tray with lobes has that centre."""
    if not _LOBES(scan):
        return False
    scan.say("coupler", f"{scan.ratings['lobes']}-lobe")
    return True


RULES: tuple[Rule, ...] = (
    rest_of_word,
    named("groove|track|roller (?:track|ring)", "groove_mm"),
    named("diameter|dia\\.?|ø|d", "diameter_mm"),
    lobes,
    alone("diameter_mm"),
    word("Y(?:-shaped)?|trefoil", "three-armed centre", PRACTICE, coupler="3-lobe"),
    word("hex(?:agon(?:al)?)?", "hexagonal centre", PRACTICE, coupler="hexagon"),
    word("boro(?:silicate)?|pyrex", "heat-proof glass", PRACTICE, material="borosilicate"),
    word("ceramic", "material", PRACTICE, material="ceramic"),
    word("glass|tray|plate|turntable|centre|center|coupler", "word of the trade", PRACTICE),
    *COMMON,
)


def read(text: str) -> Reading:
    """Read what is said of a glass tray."""
    scan = Scanner(text)
    scan.sweep(RULES)
    return scan.reading("tray")


_SURE = re.compile(r"glass (?:tray|plate)|turntable (?:tray|plate)|\btray\b", ANY_CASE)


def likely(text: str) -> float:
    """How strongly a text looks like this family, 0 to 1."""
    return 0.8 if _SURE.search(text) else 0.0


def canonical(reading: Reading) -> str:
    """Diameter, track and centre in their plainest form."""
    return faithful(reading, _written(reading), read)


def _written(reading: Reading) -> str:
    """The ratings written out."""
    return write(
        reading.ratings,
        ("diameter_mm", "{} mm"),
        ("groove_mm", "groove {} mm"),
        ("lobes", "{} lobes"),
        ("material", "{}"),
    )
