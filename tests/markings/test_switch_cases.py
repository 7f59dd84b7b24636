"""The published switch cases, read and compared rating by rating."""

from __future__ import annotations

import pytest

from inventory.markings.reader import read
from tests.markings.cases import Case, load

CASES = load("switch_markings.jsonl")
PUBLISHED = load("switch_published.jsonl")

MISSES: dict[str, str] = {}
"""Cases known not to be decoded exactly, with the reason; none at present."""


def _family(case: Case) -> str:
    """The case's family; the switch file names none."""
    return str(case.get("family", "switch"))


def _is_exact(case: Case) -> bool:
    """True when the ratings are those expected, no more and no less."""
    expected: dict[str, object] = case["expect"]
    return dict(read(case["text"], _family(case)).ratings) == expected


def test_at_least_95_of_100_ordinary_cases_are_decoded_exactly() -> None:
    """The floor of the case file, counted over the cases not marked hard."""
    ordinary = [case for case in CASES if case["difficulty"] != "hard"]
    exact = sum(_is_exact(case) for case in ordinary)

    assert exact / len(ordinary) >= 0.95


@pytest.mark.parametrize("case", CASES, ids=lambda case: case["id"])
def test_a_switch_case_is_decoded_exactly_or_its_miss_is_explained(case: Case) -> None:
    """Each published string gives the ratings its source states; a miss needs a reason."""
    assert _is_exact(case) or case["id"] in MISSES


@pytest.mark.parametrize("case", PUBLISHED, ids=lambda case: case["id"])
def test_a_published_check_value_is_read(case: Case) -> None:
    """Our own finds on makers' sheets and standards read as their source says."""
    assert dict(read(case["text"], _family(case)).ratings) == case["expect"]


@pytest.mark.parametrize("case", CASES, ids=lambda case: case["id"])
def test_no_default_of_a_standard_is_printed_as_a_rating(case: Case) -> None:
    """What the text does not say stays out of the ratings, assumed values included."""
    reading = read(case["text"], "switch")

    assert set(reading.ratings) <= set(case["expect"])
    assert not set(reading.assumed) & set(case["expect"])


def test_published_check_values_are_at_least_sixty_and_name_their_source() -> None:
    """Enough finds of our own, each with an address; synthetic ones are called so."""
    published = [case for case in PUBLISHED if case["kind"] == "published"]
    synthetic = [case for case in PUBLISHED if case["kind"] == "synthetic"]

    assert len(published) >= 60
    assert all(case["source"].startswith("http") for case in published)
    assert all(case["source"].startswith("synthetic") for case in synthetic)


def test_a_misprinted_direct_current_is_read_as_printed_and_flagged() -> None:
    """10 A at 250 V d.c. (Songle SRD, CCC line) is kept, flagged, and offered as a.c."""
    reading = read("10A/250VDC", "switch")

    assert reading.ratings["implausible"] is True
    assert reading.ratings["volts_dc"] == [250]
    assert reading.candidates[0].text == "10A/250VAC"
