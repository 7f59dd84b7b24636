"""Model numbers as parts lists write them: wildcards, revisions, serial ranges and series.

A wildcard says nothing of the parts: a pattern is only ever held against a unit, never spelt
out into models. Source: reference/parts.md 2.2, and the pages quoted there for nearest series
and revisions.
"""

from __future__ import annotations

import re
from collections.abc import Iterable
from dataclasses import dataclass

from inventory.matching.keys import bare

DIGIT, ONE, RUN = "#", "?", "*"
"""Wildcards: one digit; one letter or digit; any number of letters and digits."""

LONGEST_MODEL = 60
"""Signs of a model number that are looked at."""


@dataclass(frozen=True, slots=True)
class Pattern:
    """A model number of a parts list, sign by sign; wildcards by their own sign."""

    text: str
    signs: tuple[str, ...]

    @property
    def fixed(self) -> int:
        """How many signs are spelt out: the more, the closer the pattern."""
        return sum(sign not in (DIGIT, ONE, RUN) for sign in self.signs)

    @property
    def free(self) -> tuple[int, ...]:
        """Places of the wildcards, the first sign being 0."""
        return tuple(at for at, sign in enumerate(self.signs) if sign in (DIGIT, ONE, RUN))

    def matches(self, model: str) -> bool:
        """Whether a model number is one of those meant; separators do not count."""
        key = bare(model)[:LONGEST_MODEL]
        at = {0}
        for sign in self.signs:
            at = _after(sign, at, key)
        return len(key) in at


def _after(sign: str, places: set[int], key: str) -> set[int]:
    """Where in the key one may stand after a sign of the pattern."""
    if sign == RUN:
        return set(range(min(places), len(key) + 1)) if places else set()
    return {at + 1 for at in places if at < len(key) and _is(sign, key[at])}


def _is(sign: str, other: str) -> bool:
    """Whether one sign of a pattern takes one of a model number."""
    return sign == ONE or (other in "0123456789" if sign == DIGIT else sign == other)


def pattern(text: str) -> Pattern:
    """A model number with the wildcards of parts lists: ``*``, ``#``, ``x``, ``_``, ``?``, ``..``.

    A small ``x`` is a wildcard only where no other small letter stands; ``..`` only at the end.

    >>> pattern("HM-20#x..").signs
    ('H', 'M', '2', '0', '#', '?', '*')
    >>> pattern("Maxi 20").fixed
    6
    """
    short = text.strip()[: 2 * LONGEST_MODEL]
    spelt = re.sub(r"(?:\.{2,3}|…)$", "*", short)
    words = re.sub(r"[^a-z]", "", spelt)
    if words and set(words) <= {"x"}:
        spelt = spelt.replace("x", ONE)
    signs = (ONE if sign == "_" else sign for sign in spelt)
    kept = (sign if sign in (DIGIT, ONE, RUN) else bare(sign) for sign in signs)
    return Pattern(text, tuple("".join(kept)))


@dataclass(frozen=True, slots=True)
class ModelFit:
    """How a unit meets a pattern: with what is left to be looked at."""

    pattern: Pattern
    doubts: tuple[str, ...] = ()


def fit(listed: str, unit: str) -> ModelFit | None:
    """Whether a listed model, with or without maker and wildcards, means a unit.

    A maker or a revision that only one of the two names leaves a doubt; any other difference
    is another model.
    """
    whole = pattern(listed)
    if not whole.fixed:
        return None
    for model in (unit, _without_first(unit)):
        if model and whole.matches(model):
            return ModelFit(whole)
    nameless = _without_first(listed)
    if nameless and pattern(nameless).fixed and pattern(nameless).matches(unit):
        return ModelFit(whole, ("the unit's maker is not given",))
    return _without_revision(whole, listed, unit)


def _without_revision(whole: Pattern, listed: str, unit: str) -> ModelFit | None:
    """A list that tells revisions apart, and a unit whose revision nobody read."""
    base, slash, _ = listed.rpartition("/")
    if slash and "/" not in unit and pattern(base).fixed >= 3:
        found = fit(base, unit)
        if found:
            return ModelFit(whole, (*found.doubts, f"the list says {listed}: read the revision"))
    return None


def _without_first(text: str) -> str:
    """A text without its first word, which may be the maker."""
    return text.strip().partition(" ")[2]


def serial_order(serial: str) -> tuple[str, int, str] | None:
    """A serial number for comparing: letters in front, number, letters behind; None if not so.

    >>> serial_order("K 00123A")
    ('K', 123, 'A')
    """
    found = re.fullmatch(r"([A-Z]{0,12})([0-9]{1,18})([A-Z]{0,12})", bare(serial))
    return (found[1], int(found[2]), found[3]) if found else None


def not_above(one: str, other: str) -> bool | None:
    """Whether the first serial number is at most the second; None where nobody can tell.

    >>> not_above("1200", "1201"), not_above("K1200", "1300")
    (True, None)
    """
    first, second = serial_order(one), serial_order(other)
    if first is None or second is None or first[0] != second[0]:
        return None
    return first[1:] <= second[1:]


def in_range(serial: str | None, first: str | None, last: str | None) -> bool | None:
    """Whether a serial number lies in a range, its ends included; None where nobody can tell."""
    if first is None and last is None:
        return True
    if serial is None:
        return None
    answers = (
        not_above(first, serial) if first else True,
        not_above(serial, last) if last else True,
    )
    if False in answers:
        return False
    return None if None in answers else True


def nearest_series(starts: Iterable[str], own: str) -> str | None:
    """Of the series a list names by their beginning, the one a unit belongs to.

    Lists of series 10, 15, 25 and 30 and a machine of series 21: 15, the nearest not above.
    Source: reference/parts.md 2.2 [S99d].
    """
    begun = [start for start in starts if not_above(start, own)]
    order = sorted(begun, key=lambda start: serial_order(start) or ("", 0, ""))
    return order[-1] if order else None
