"""Colour bands from either end."""

from __future__ import annotations

from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from inventory.markings.colour_bands import DIGITS, POWERS, TCR, TOLERANCES, decode
from inventory.markings.resistor import read

# Worked examples printed at resistorcolorcodes.org/chart.
EXAMPLES = {
    "brown black red gold": (1000, 5),
    "yellow violet red gold": (4700, 5),
    "red red orange gold": (22000, 5),
    "brown black black gold brown": (10, 1),
}


@pytest.mark.parametrize(("row", "value"), EXAMPLES.items())
def test_worked_examples_of_the_chart(row: str, value: tuple[int, int]) -> None:
    """Value and tolerance as printed."""
    found = decode(row.split())

    assert found is not None
    assert (found.ohm, found.tolerance_pct) == (Decimal(value[0]), value[1])


@pytest.mark.parametrize(
    "row",
    [
        "gold red red brown",
        "black red red gold",
        "red red",
        "pink red red gold",
        "red red red white",
    ],
)
def test_rows_that_cannot_begin_or_end_so_have_no_value(row: str) -> None:
    """Gold, silver, pink and black never begin; white is no tolerance."""
    assert decode(row.split()) is None


def test_gold_at_the_wrong_end_turns_the_row_round() -> None:
    """Gold cannot begin, so the row is read from its other end, with a word of it."""
    reading = read("gold red violet yellow")

    assert reading.ratings["resistance_ohm"] == 4700
    assert "other end" in reading.warnings[0]


def test_a_row_that_reads_from_both_ends_offers_both() -> None:
    """Brown black black red brown is 10 kΩ as typed, 120 Ω from the other end."""
    reading = read("brown black black red brown")

    assert reading.ratings["resistance_ohm"] == 10000
    assert [c.ratings["resistance_ohm"] for c in reading.candidates] == [10000, 120]
    assert "120 Ω" in reading.warnings[0]


def test_a_typed_order_off_the_series_is_not_set() -> None:
    """524 is no step of E192 and 114 is one (IEC 60063): both are offered, none is set."""
    reading = read("green red yellow brown brown")

    assert "resistance_ohm" not in reading.ratings
    assert [c.ratings["resistance_ohm"] for c in reading.candidates] == [5240, 11400]
    assert "no value of the E series" in reading.warnings[0]


def test_three_bands_leave_the_tolerance_to_the_standard() -> None:
    """No fourth band is ±20 %, assumed. Source: IEC 60062."""
    reading = read("red red orange")

    assert reading.assumed["tolerance_pct"] == 20
    assert "tolerance_pct" not in reading.ratings


def test_a_disputed_colour_gives_no_tolerance() -> None:
    """Published tables disagree on grey; its tolerance is not set."""
    assert "tolerance_pct" not in read("red red orange grey").ratings


def test_a_row_of_no_value_is_read_as_a_whole_or_not_at_all() -> None:
    """An impossible row of five never yields the value of four of its bands."""
    reading = read("gold blue pink brown gold")

    assert "resistance_ohm" not in reading.ratings
    assert "no reading" in reading.warnings[0]


@pytest.mark.parametrize("text", ["BN BK RD GD", "brn-blk-red-gld", "Brown, black / red | golden"])
def test_short_names_and_gaps_of_any_kind(text: str) -> None:
    """IEC 60757 codes and bench spellings are the same colours."""
    assert read(text).ratings == {"resistance_ohm": 1000, "tolerance_pct": 5}


def test_two_colours_are_a_description_and_no_value() -> None:
    """A red and white body is not a row of bands."""
    assert "resistance_ohm" not in read("red white").ratings


@given(
    st.integers(min_value=10, max_value=99),
    st.sampled_from(sorted(POWERS)),
    st.sampled_from(sorted(TOLERANCES)),
)
def test_every_two_figure_row_decodes_to_its_own_figures(
    figures: int, power: str, tolerance: str
) -> None:
    """Figures times the power, and the tolerance of the last band."""
    row = [DIGITS[figures // 10], DIGITS[figures % 10], power, tolerance]
    found = decode(row)

    assert found is not None
    assert found.ohm == Decimal(figures).scaleb(POWERS[power])
    assert found.tolerance_pct == TOLERANCES[tolerance]


@pytest.mark.parametrize(("colour", "ppm"), [("brown", 100), ("red", 50), ("blue", 10)])
def test_the_sixth_band_is_the_temperature_coefficient(colour: str, ppm: int) -> None:
    """Source: IEC 60062, as tabled at resistorcolorcodes.org/chart."""
    assert TCR[colour] == ppm
    assert read(f"yellow violet black brown brown {colour}").ratings["tcr_ppm"] == ppm


def test_a_white_band_behind_the_code_says_fusible() -> None:
    """Source: Yageo FRM data sheet, fifth colour white."""
    assert read("brown black brown gold white").ratings["fusible"] is True


def test_a_row_that_reads_the_same_from_both_ends_is_no_question() -> None:
    """Red black black red is 20 Ω ±2 % either way."""
    reading = read("red black black red")

    assert reading.ratings == {"resistance_ohm": 20, "tolerance_pct": 2}
    assert reading.warnings == ()


def test_a_sixth_band_without_a_coefficient_fits_no_reading() -> None:
    """Gold is no temperature coefficient."""
    assert decode(["brown", "red", "red", "red", "brown", "gold"]) is None
