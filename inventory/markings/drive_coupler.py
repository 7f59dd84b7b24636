"""Turntable and drum couplers: shaft profile and bore, height, lobes, temperature."""

from __future__ import annotations

import re

from inventory.markings.amounts import PRACTICE
from inventory.markings.dimensions import alone, counted, named
from inventory.markings.passive_marks import ANY_CASE, COMMON, rest_of_word, temperature, word
from inventory.markings.scanner import Rule, Scanner
from inventory.markings.writing import faithful, write
from inventory.records import Reading

RULES: tuple[Rule, ...] = (
    rest_of_word,
    counted("lobes?|lugs?|wings?", "lobes"),
    named("height|high|h", "height_mm"),
    word("double[ -]D|DD", "two flats on the shaft", PRACTICE, shaft="double D"),
    word("D(?=[ -]?shaft|\\s|$)", "one flat on the shaft", PRACTICE, shaft="D"),
    named("shaft|bore", "shaft_mm"),
    named("diameter|dia\\.?|ø", "diameter_mm"),
    temperature,
    alone("diameter_mm"),
    word("square", "square shaft", PRACTICE, shaft="square"),
    word("round", "round shaft", PRACTICE, shaft="round"),
    word("hex(?:agon)?", "six-sided head", PRACTICE, lobes=6),
    word("coupler|coupling|drive|motor|turntable|shaft", "word of the trade", PRACTICE),
    *COMMON,
)


def read(text: str) -> Reading:
    """Read what is said of a drive coupler."""
    scan = Scanner(text)
    scan.sweep(RULES)
    return scan.reading("drive_coupler")


_SURE = re.compile(
    r"(?:turntable|drive|motor) coupl(?:er|ing)|coupler.{0,20}(?:lobe|D-?shaft)", ANY_CASE
)


def likely(text: str) -> float:
    """How strongly a text looks like this family, 0 to 1."""
    return 0.8 if _SURE.search(text) else 0.0


def canonical(reading: Reading) -> str:
    """Shaft, height and lobes with their names."""
    return faithful(reading, _written(reading), read)


def _written(reading: Reading) -> str:
    """The ratings written out."""
    return write(
        reading.ratings,
        ("lobes", "{} lobes"),
        ("shaft", "{}"),
        ("shaft_mm", "bore {} mm"),
        ("height_mm", "height {} mm"),
        ("diameter_mm", "diameter {} mm"),
        ("temp_c", "{}°C"),
    )
