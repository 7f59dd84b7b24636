"""Rollers and roller rings: ring, roller, count, height, axle."""

from __future__ import annotations

import re

from inventory.markings.amounts import PRACTICE
from inventory.markings.dimensions import alone, counted, named
from inventory.markings.passive_marks import ANY_CASE, COMMON, rest_of_word, word
from inventory.markings.scanner import Rule, Scanner
from inventory.markings.writing import faithful, write
from inventory.records import Reading

RULES: tuple[Rule, ...] = (
    rest_of_word,
    counted("rollers|wheels", "rollers"),
    named("roller|wheel", "roller_mm"),
    named("height|high|h", "height_mm"),
    named("axle|shaft|bore", "axle_mm"),
    named("ring|diameter|dia\\.?", "ring_mm"),
    alone("ring_mm"),
    word("roller|ring|guide|support|wheel|drum|turntable", "word of the trade", PRACTICE),
    *COMMON,
)


def read(text: str) -> Reading:
    """Read what is said of a roller or a roller ring."""
    scan = Scanner(text)
    scan.sweep(RULES)
    return scan.reading("roller")


_SURE = re.compile(r"roller (?:ring|guide|support)|(?:drum|support) roller", ANY_CASE)


def likely(text: str) -> float:
    """How strongly a text looks like this family, 0 to 1."""
    return 0.8 if _SURE.search(text) else 0.0


def canonical(reading: Reading) -> str:
    """Sizes with their names."""
    return faithful(reading, _written(reading), read)


def _written(reading: Reading) -> str:
    """The ratings written out."""
    return write(
        reading.ratings,
        ("ring_mm", "ring {} mm"),
        ("rollers", "{} rollers"),
        ("roller_mm", "roller {} mm"),
        ("height_mm", "height {} mm"),
        ("axle_mm", "axle {} mm"),
    )
