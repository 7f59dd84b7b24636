"""Model numbers of parts lists mean the units they mean, and no others."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from inventory.matching.models import fit, in_range, nearest_series, not_above, pattern


@pytest.mark.parametrize(
    ("listed", "unit"),
    [
        ("HM-2000", "hm 2000"),
        ("HM-20##", "HM-2015"),
        ("HM-2x00", "HM-2K00"),
        ("HM_2000", "HMW2000"),
        ("HM-2000..", "HM-2000BK"),
        ("HM-2000..", "HM-2000"),
        ("HM*0", "HM-20050"),
        ("HM-20#…", "HM-203WH"),
        ("HM-20##", "Haldwick HM-2015"),
        ("Haldwick HM-20##", "Haldwick HM-2015"),
    ],
)
def test_a_pattern_means_these_units(listed: str, unit: str) -> None:
    """Each wildcard stands for its own kind of sign; separators do not count."""
    found = fit(listed, unit)

    assert found is not None
    assert found.doubts == ()


@pytest.mark.parametrize(
    ("listed", "unit"),
    [
        ("HM-20##", "HM-20A5"),
        ("HM-20##", "HM-201"),
        ("HM-20##", "HM-20155"),
        ("HX-2000", "HA-2000"),
        ("Maxi-2000", "Mari-2000"),
        ("HM-2000", "HM-2O00"),
        ("*", "HM-2000"),
        ("##", "12"),
        ("", "HM-2000"),
        ("HM-2000", ""),
    ],
)
def test_a_pattern_does_not_mean_these_units(listed: str, unit: str) -> None:
    """A capital X or one among small letters is a letter, and wildcards alone mean nothing."""
    assert fit(listed, unit) is None


def test_the_places_of_the_wildcards_are_known() -> None:
    """A wildcard stands for colour, market or revision at a place that can be named."""
    model = pattern("HM-2x0#")

    assert model.free == (3, 5)
    assert model.fixed == 4


def test_a_missing_maker_leaves_a_doubt() -> None:
    """Two makers may use one model number."""
    found = fit("Haldwick HM-2000", "HM-2000")

    assert found is not None
    assert found.doubts == ("the unit's maker is not given",)


def test_a_missing_revision_leaves_a_doubt() -> None:
    """Revisions /00 and /01 of a model do not share all parts (reference/parts.md 2.2, S99b)."""
    found = fit("LMXS27626D/00", "LMXS27626D")

    assert found is not None
    assert "read the revision" in found.doubts[0]
    assert fit("LMXS27626D/00", "LMXS27626D/01") is None
    assert fit("LM/00", "HM") is None
    assert fit("LMX/00", "HMX") is None


def test_of_series_the_nearest_not_above_counts() -> None:
    """Series 10, 15, 25, 30 and a machine of 21: 15 (reference/parts.md 2.2, S99d)."""
    assert nearest_series(["10", "15", "25", "30"], "21") == "15"
    assert nearest_series(["10", "15"], "9") is None
    assert nearest_series(["K10"], "21") is None


@pytest.mark.parametrize(
    ("serial", "first", "last", "inside"),
    [
        ("150", "100", "200", True),
        ("100", "100", "200", True),
        ("201", "100", "200", False),
        ("99", "100", None, False),
        ("K150", "K100", None, True),
        ("99", None, "100", True),
        (None, None, None, True),
        (None, "100", None, None),
        ("K150", "100", "200", None),
        ("?", "100", "200", None),
    ],
)
def test_a_serial_range_holds_its_ends_and_may_be_undecidable(
    serial: str | None, first: str | None, last: str | None, inside: object
) -> None:
    """What cannot be compared is not known, and never counts as inside."""
    assert in_range(serial, first, last) is inside


def test_serials_with_letters_in_front_compare_among_themselves() -> None:
    """A letter code of another year is not above or below."""
    assert not_above("K099", "K100") is True
    assert not_above("L099", "K100") is None


@given(st.text(max_size=80), st.text(max_size=80))
def test_any_two_texts_can_be_held_against_each_other(listed: str, unit: str) -> None:
    """No Unicode text raises or takes long, however many wildcards it holds."""
    assert fit("*" * 40 + listed, unit) is None or pattern("*" * 40 + listed).fixed > 0
