"""Markings rebuilt from the pages and notes the published cases were drawn from.

Every row of ``tests/cases/reconstructed_markings.jsonl`` names where its text stands: a
page seen, the study notes, or the legend a type code follows. They were written down to
find faults in the readers, so the traps are many.
"""

from __future__ import annotations

import re
from collections import Counter
from typing import Any

import pytest

from inventory.markings.reader import read
from tests.markings.published import Case, cases, uncovered, wrong

CASES = cases("reconstructed_markings")

MISSES: dict[str, str] = {}
"""Case id and why it is not decoded exactly. Empty: all are."""

_SENTENCE = "a damaged figure or sentence of a manual names no part"

NOT_RECOGNISED = {
    "R186": "amperes, volts and cycles are a micro switch's rating as well as a cut-out's",
    "R221": "a temperature in both scales is a cut-out's point more often than a lamp's limit",
    "R253": "four figures are a resistor's code too; only the body tells",
    "R255": "a span of kilohms is a bench value of many parts",
    "R294": "one damaged piece of a model number",
    "R295": _SENTENCE,
    "R296": _SENTENCE,
    "R297": _SENTENCE,
    "R298": _SENTENCE,
    "R299": _SENTENCE,
    "R300": _SENTENCE,
    "R301": "read as the turntable motor it was copied from, with the repair offered",
    "R302": "a unit of leakage, not a part's marking",
    "R303": "read as the capacitor it was copied from, with the repair offered",
}
"""Cases whose family the text alone does not give, with the reason."""

CONVERTED = {
    "open_c": "degrees Fahrenheit of an L disc, converted by the conversion itself",
}
"""Ratings that are another figure than the printed one, with the reason."""

_SAME_READER = {"switch": {"relay", "interlock_switch"}}
"""Families that share the switch reader: their contacts carry the same marks."""

_KINDS = ("volt", "vac", "vdc", "_v", "_a", "amps", "temp", "_c", "cycles", "kv")
_POWERS = (1, 10, 100, 1000, 1e-3, 1e6, 1e-6, 1e-2)


def _exact(case: Case) -> dict[str, Any]:
    """What is wrong; a switch marking may moreover say nothing beyond its case."""
    reading = read(case.text, case.family)
    missed = wrong(case, reading)
    if case.family == "switch":
        missed |= {k: v for k, v in reading.ratings.items() if k not in case.expect}
    return missed


@pytest.mark.parametrize("case", CASES, ids=str)
def test_the_marking_is_decoded_exactly_or_its_miss_is_explained(case: Case) -> None:
    """Every rating of the case equals, and no trap is fallen into."""
    missed = _exact(case)

    assert bool(missed) == (case.id in MISSES), (missed, case.source)


@pytest.mark.parametrize("case", CASES, ids=str)
def test_no_character_is_lost(case: Case) -> None:
    """Every character is in one mark or in one unread piece."""
    assert uncovered(read(case.text, case.family)) == []


@pytest.mark.parametrize("case", CASES, ids=str)
def test_no_figure_is_invented(case: Case) -> None:
    """A volt, ampere, degree or cycle beyond the case is printed, up to a power of ten."""
    extra = {
        name: value
        for name, value in read(case.text, case.family).ratings.items()
        if name not in case.expect and any(kind in name for kind in _KINDS)
    }
    invented = {name for name, value in extra.items() if not _printed(case.text, value)}

    assert invented <= set(CONVERTED), {name: extra[name] for name in invented}


def _printed(text: str, value: object) -> bool:
    """True when every figure of the value stands in the text, up to its unit's prefix."""
    if isinstance(value, dict):
        return all(_printed(text, part) for part in value.values())
    if isinstance(value, list | tuple):
        return all(_printed(text, part) for part in value)
    if isinstance(value, bool) or not isinstance(value, int | float):
        return True
    figures = {float(found.replace(",", ".")) for found in re.findall(r"\d+(?:[.,]\d+)?", text)}
    return any(
        abs(abs(value) - figure * power) < 1e-9 * max(1, abs(value))
        for figure in figures
        for power in _POWERS
    )


@pytest.mark.parametrize("case", CASES, ids=str)
def test_the_family_is_recognised_or_the_text_cannot_give_it(case: Case) -> None:
    """Without a family given, the right one is read or offered, unless listed above."""
    reading = read(case.text)
    right = {case.family} | _SAME_READER.get(case.family, set())

    assert bool(right & {reading.family, *reading.others}) == (case.id not in NOT_RECOGNISED), (
        reading.family,
        reading.others,
    )


def test_the_shares_are_above_their_floors() -> None:
    """Read with its family, all; routed without one, 19 of 20."""
    decoded = Counter(not _exact(case) for case in CASES)

    assert decoded[True] == len(CASES) - len(MISSES)
    assert len(NOT_RECOGNISED) <= 0.05 * len(CASES)


def test_there_are_many_and_each_names_its_source_and_differs() -> None:
    """No row twice; a page has its address, the notes their section."""
    assert len({(case.family, case.text) for case in CASES}) == len(CASES) >= 300
    assert all(re.match(r"https?://|parts\.md|switches\.md", case.source) for case in CASES)
    assert len({case.family for case in CASES}) >= 28


def test_no_listed_reason_is_stale() -> None:
    """A reason stays only as long as its case exists."""
    assert set(MISSES) | set(NOT_RECOGNISED) <= {case.id for case in CASES}
