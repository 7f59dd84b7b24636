"""Published check values of the passive, moving, wiring and number families.

Every row of the two case files carries its own source. The rows of ``layouts_published`` are of
other makers and other layouts: order, glue, case, commas, several lines; where their
``evidence`` says layout, the published marking is set in another order or spelling.
"""

from __future__ import annotations

from collections import Counter

import pytest

from inventory.markings.canonical import canonical
from inventory.markings.reader import read
from tests.markings.published import Case, cases, uncovered, wrong

CASES = (*cases("passive_published"), *cases("layouts_published"))

NOT_RECOGNISED = {
    "V137": "129 alone is a capacitor's or a resistor's digit code as well",
    "L014": "three figures between strokes belong to no family",
    "H036": "a bridge named by a maker's own scheme; nothing may be read into it",
    "H046": "a switch of a maker's own scheme; nothing may be read into it",
}
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
    """At least one row a family, many hundred in all, none of the new ones twice."""
    count = Counter(case.family for case in CASES)

    new = [(case.family, case.text) for case in cases("layouts_published")]
    assert len(CASES) >= 480
    assert len(set(new)) == len(new)
    assert min(count.values()) >= 1
    assert len(count) >= 17
