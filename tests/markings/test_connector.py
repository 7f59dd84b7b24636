"""Board and wire connectors."""

from __future__ import annotations

import pytest

from inventory.markings.connector import SERIES, likely, read

# Pitches printed in the makers' sheets or series tables.
PITCHES = {"PH": 2.0, "XH": 2.5, "VH": 3.96, "EH": 2.5, "TB": 2.5, "BC": 2.0, "GH": 1.25, "ZH": 1.5}


@pytest.mark.parametrize(("name", "pitch"), PITCHES.items())
def test_a_series_has_its_maker_s_pitch(name: str, pitch: float) -> None:
    """Sources: JST data sheets for PH, TB, BC; VH and EH as quoted; GH, ZH series table."""
    assert SERIES[name].pitch_mm == pitch
    assert SERIES[name].source


@pytest.mark.parametrize(
    ("text", "entry"),
    [("B3B-XH-A", "top"), ("S3B-XH-A", "side"), ("B15P-TBC", "top"), ("B15PS-TBC", "side")],
)
def test_the_entry_is_in_the_letters(text: str, entry: str) -> None:
    """S in front, or PS behind the circuits, is side entry. Source: JST TB and PH sheets."""
    assert read(text).ratings["entry"] == entry


@pytest.mark.parametrize(("text", "ways"), [("XHP-3", 3), ("PHR-2", 2), ("VHR-3N", 3)])
def test_a_housing_has_no_entry(text: str, ways: int) -> None:
    """The plug on the wire says series and circuits only."""
    said = read(text).ratings

    assert said["circuits"] == ways
    assert "entry" not in said


def test_a_trade_name_with_another_pitch_keeps_the_maker_s() -> None:
    """XH2.54 is sold so, the series has 2.5 mm: told, and the other offered."""
    reading = read("XH2.54-4P")

    assert reading.ratings["pitch_mm"] == 2.5
    assert reading.candidates[0].ratings["pitch_mm"] == 2.54
    assert "2.54 mm is said" in reading.warnings[0]


def test_a_pitch_alone_makes_no_series() -> None:
    """The same pitch is not the same series."""
    assert "series" not in read("2.0mm 6 way").ratings


@pytest.mark.parametrize("text", ["B3X-VH", "XHQ-3", "PHONE", "SHP"])
def test_look_alikes_are_left_alone(text: str) -> None:
    """No series without its model number."""
    assert "circuits" not in read(text).ratings


def test_appliance_systems_are_named_by_their_pitch() -> None:
    """RAST 2.5 and RAST 5."""
    assert read("RAST 2.5").ratings == {"series": "RAST 2.5", "pitch_mm": 2.5}


def test_likely() -> None:
    """Model numbers are sure."""
    assert likely("B15PS-TBC(LF)(SN)") > 0.9
    assert likely("XH2.54") > 0.5
    assert likely("SHARP") == 0
