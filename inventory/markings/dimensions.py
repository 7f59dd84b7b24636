"""Sizes with their names, ``284 mm groove 220 mm``, for trays, rollers and couplers."""

from __future__ import annotations

import re

from inventory.markings.amounts import PRACTICE
from inventory.markings.passive_marks import ANY_CASE, NUMBER, legend
from inventory.markings.scanner import Rule, Scanner

_UNIT = r"\s?(?P<unit>mm|cm|\"|″|inch(?:es)?|in)(?![a-z])"
_FACTOR = {"mm": 1.0, "cm": 10.0}
_FRACTION = r"(?:(?P<whole>[0-9]{1,2})[ -])?(?P<top>[1-9])/(?P<bottom>2|4|8|16)"
_FIGURE = rf"(?:{_FRACTION}|(?P<number>{NUMBER}))"


def millimetres(found: re.Match[str]) -> float:
    """The length of a match in mm, to a hundredth; inches and fractions of them too."""
    if found["top"]:
        figure = int(found["whole"] or 0) + int(found["top"]) / int(found["bottom"])
    else:
        figure = float(found["number"].replace(",", "."))
    length = round(figure * _FACTOR.get((found["unit"] or "mm").lower(), 25.4), 2)
    return int(length) if float(length).is_integer() else length


def named(words: str, rating: str) -> Rule:
    """A rule for a length beside its name: ``name figure unit`` or ``figure unit name``."""
    before = re.compile(rf"(?:{words})\s?[:=]?\s?{_FIGURE}(?:{_UNIT})?(?![0-9A-Za-z])", ANY_CASE)
    behind = re.compile(
        rf"{_FIGURE}{_UNIT}\s?(?:{words})(?![0-9A-Za-z]|\s?[:=]?\s?[0-9])", ANY_CASE
    )

    def rule(scan: Scanner) -> bool:
        """Size = name figure unit? | figure unit name."""
        found = scan.peek(before) or scan.peek(behind)
        if found is None:
            return False
        scan.say(rating, millimetres(found))
        return legend(scan, found, dict.fromkeys(("number", "top"), (f"{rating} in mm", PRACTICE)))

    return rule


_ALONE = re.compile(rf"(?:[øØΦ⌀]\s?)?{_FIGURE}{_UNIT}", ANY_CASE)


def alone(rating: str) -> Rule:
    """A rule for the first length without a name."""

    def rule(scan: Scanner) -> bool:
        """Size = "ø"? figure unit."""
        found = scan.peek(_ALONE)
        if found is None or rating in scan.ratings:
            return False
        scan.say(rating, millimetres(found))
        return scan.take(_ALONE, f"{rating}, in mm", PRACTICE) is not None

    return rule


def counted(words: str, rating: str) -> Rule:
    """A rule for a count and what is counted, e.g. ``3 lobes``."""
    compiled = re.compile(
        rf"(?P<count>[1-9]|three|four|six|tri)(?:\s|-){{0,2}}(?:{words})(?![0-9A-Za-z])", ANY_CASE
    )
    spoken = {"three": 3, "tri": 3, "four": 4, "six": 6}

    def rule(scan: Scanner) -> bool:
        """Count = number name."""
        found = scan.peek(compiled)
        if found is None:
            return False
        said = found["count"].lower()
        scan.say(rating, spoken.get(said) or int(said))
        return scan.take(compiled, rating, PRACTICE) is not None

    return rule
