"""Grammar lines that the small parts share."""

from __future__ import annotations

import pytest

from inventory.markings.passive_marks import (
    COMMON,
    climatic,
    percent,
    rest_of_word,
    temperature,
    tolerance,
    volts,
)
from inventory.markings.scanner import Scanner
from inventory.records import Reading


def _read(text: str) -> Reading:
    """A reading by the shared lines alone."""
    scan = Scanner(text)
    scan.sweep((rest_of_word, climatic, temperature, volts("voltage_v"), tolerance, *COMMON))
    return scan.reading("other")


@pytest.mark.parametrize(
    ("text", "value"),
    [("±10%", 10), ("10 %", 10), ("+/-5%", 5), ("+80-20%", [-20, 80]), ("-20/+80 %", [-20, 80])],
)
def test_a_tolerance_in_all_spellings(text: str, value: object) -> None:
    """Symmetrical as a number, lopsided as lower and upper."""
    assert _read(text).ratings == {"tolerance_pct": value}


def test_a_tolerance_is_written_as_it_is_read() -> None:
    """Both forms come back."""
    for value in (10, 0.5, [-20, 80]):
        assert _read(percent(value)).ratings["tolerance_pct"] == value


@pytest.mark.parametrize(
    ("text", "name"),
    [
        ("275V~", "voltage_vac"),
        ("AC 275V", "voltage_vac"),
        ("275 VDC", "voltage_vdc"),
        ("275V", "voltage_v"),
    ],
)
def test_volts_keep_their_nature(text: str, name: str) -> None:
    """Alternating, direct, or not said."""
    assert _read(text).ratings == {name: 275}


def test_kilovolts_are_volts() -> None:
    """4 kV is 4000 V."""
    assert _read("4kV").ratings == {"voltage_v": 4000}


@pytest.mark.parametrize(
    ("text", "low", "high"),
    [("-40°C~+105°C", -40, 105), ("-25...+85℃", -25, 85), ("-10 to 60 deg C", -10, 60)],
)
def test_a_temperature_range_has_both_ends(text: str, low: int, high: int) -> None:
    """The minus sign is not lost."""
    said = _read(text).ratings

    assert (said["temp_min_c"], said["temp_c"]) == (low, high)


def test_a_climatic_category_is_three_figures() -> None:
    """40/085/56 is -40 to 85 °C and 56 days. Source: IEC 60068-1."""
    said = _read("40/085/56").ratings

    assert (said["temp_min_c"], said["temp_c"]) == (-40, 85)
    assert "climatic_category" not in _read("41/085/56").ratings


def test_the_tail_of_an_unknown_word_is_not_read() -> None:
    """ABC275V hides no volts."""
    assert dict(_read("ABC275V").ratings) == {}


def test_file_number_standard_and_test_houses() -> None:
    """E12345, IEC 60384-14, VDE."""
    reading = _read("E123456 IEC 60384-14 VDE")

    assert reading.ratings == {"ul_file": "E123456", "approvals": ["VDE"]}
    assert reading.unread == ()


def test_a_minus_in_front_of_nothing_known_stays_unread() -> None:
    """Only a hyphen right behind a mark joins marks."""
    assert [piece.text for piece in _read("- foo").unread] == ["-", "foo"]
