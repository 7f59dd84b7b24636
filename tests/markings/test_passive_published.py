"""Published check values of the passive, moving, wiring and number families.

Every row of ``tests/cases/passive_published.jsonl`` carries its own source.
"""

from __future__ import annotations

from collections import Counter

import pytest

from inventory.markings.canonical import canonical
from inventory.markings.reader import read
from tests.markings.published import Case, cases, uncovered, wrong

CASES = cases("passive_published")

NOT_RECOGNISED = {"V137": "129 alone is a capacitor's or a resistor's digit code as well"}
"""Cases whose family the text alone does not give, with the reason."""


@pytest.mark.parametrize("case", CASES, ids=str)
def test_the_published_value_is_read_exactly(case: Case) -> None:
    """Every expected rating equals, and nothing forbidden is said."""
    assert wrong(case, read(case.text, case.family)) == {}


@pytest.mark.parametrize("case", CASES, ids=str)
def test_no_published_marking_loses_a_character(case: Case) -> None:
    """What is not a mark is unread."""
    assert uncovered(read(case.text, case.family)) == []


@pytest.mark.parametrize("case", CASES, ids=str)
def test_the_family_is_read_or_offered_without_being_named(case: Case) -> None:
    """The text alone leads to its family, unless the list above says why not."""
    reading = read(case.text)

    assert case.family in (reading.family, *reading.others) or case.id in NOT_RECOGNISED


@pytest.mark.parametrize("case", CASES, ids=str)
def test_the_plain_form_reads_back_the_same(case: Case) -> None:
    """A reading written out gives the same ratings, and the same text once more."""
    reading = read(case.text, case.family)
    written = canonical(reading)
    again = read(written, case.family)

    assert again.ratings == reading.ratings
    assert canonical(again) == written


@pytest.mark.parametrize("case", CASES, ids=str)
def test_every_mark_has_a_meaning_and_a_source(case: Case) -> None:
    """No mark is shown without saying what it means and who says so."""
    assert all(mark.means and mark.source for mark in read(case.text, case.family).marks)


def test_each_family_has_published_values_of_its_own() -> None:
    """At least one row a family, and well over seventy in all."""
    count = Counter(case.family for case in CASES)

    assert len(CASES) >= 150
    assert min(count.values()) >= 1
    assert len(count) >= 17
