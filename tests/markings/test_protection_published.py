"""Further published figures of fuses, links, cut-outs, varistors, motors and lamps."""

from __future__ import annotations

import pytest

from inventory.markings.reader import read
from tests.markings.published import Case, cases, uncovered, wrong

CASES = cases("protection_published")


@pytest.mark.parametrize("case", CASES, ids=str)
def test_the_published_figure_is_read_off_the_marking(case: Case) -> None:
    """What the sheet, the manual or the seller's list says of the marking is what is read."""
    reading = read(case.text, case.family)

    assert wrong(case, reading) == {}, case.source
    assert uncovered(reading) == []


def test_every_case_names_its_source() -> None:
    """A figure without a source proves nothing."""
    assert len(CASES) >= 60
    assert all(case.source.startswith("http") for case in CASES)


def test_the_cases_are_spread_over_the_families() -> None:
    """No family's grammar rests on the shared cases alone, where a source was found."""
    assert len({case.family for case in CASES}) >= 9
