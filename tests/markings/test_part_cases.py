"""All published part cases through the reader, family by family, every miss with its reason.

The cases are copied from the published set; each row carries its source.
"""

from __future__ import annotations

from collections import Counter

import pytest

from inventory.markings.reader import read
from tests.markings.published import Case, cases, uncovered, wrong

MISSES: dict[str, str] = {}
"""Case id and why it is not decoded exactly. Empty: all are."""

NOT_RECOGNISED = {
    "P061": "0R5 is a resistor's letter code too; only the body tells, both readings are offered",
    "P115": "a quotation from a regulation, not a part's marking",
    "P114": "two damaged pieces of a model number",
    "P120": "a sentence from a manual, not a part's marking",
}
"""Cases whose family the text alone does not give, with the reason."""

CASES = cases("part_markings")


@pytest.mark.parametrize("case", CASES, ids=str)
def test_the_case_is_decoded_exactly_or_its_miss_is_explained(case: Case) -> None:
    """Every expected rating equals and no forbidden answer is given, unless listed above."""
    missed = wrong(case, read(case.text, case.family))

    assert bool(missed) == (case.id in MISSES), missed


@pytest.mark.parametrize("case", CASES, ids=str)
def test_no_case_loses_a_character(case: Case) -> None:
    """What is not a mark is unread."""
    assert uncovered(read(case.text, case.family)) == []


@pytest.mark.parametrize("case", CASES, ids=str)
def test_the_family_is_recognised_or_named_among_the_others(case: Case) -> None:
    """Without a family given, the right one is read or offered, unless listed above."""
    reading = read(case.text)
    found = case.family == reading.family or case.family in reading.others

    assert found or case.id in NOT_RECOGNISED, (reading.family, reading.others)


def test_the_share_decoded_is_above_the_floor() -> None:
    """At least 95 % of the cases are decoded exactly."""
    decoded = Counter(not wrong(case, read(case.text, case.family)) for case in CASES)

    assert decoded[True] >= 0.95 * len(CASES)


def test_no_listed_miss_is_stale() -> None:
    """A reason stays only as long as its case exists."""
    assert set(MISSES) | set(NOT_RECOGNISED) <= {case.id for case in CASES}
