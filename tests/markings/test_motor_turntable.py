"""Turntable motors: speed belongs to a frequency; damage is mended where physics decides."""

from __future__ import annotations

from typing import Any

import pytest

from inventory.markings.motor_marks import five_to_six
from inventory.markings.motor_turntable import canonical, likely, read

PLATES = {
    "50Hz 2.5RPM 60Hz 3RPM": {"rpm_50hz": 2.5, "rpm_60hz": 3, "frequency_hz": [50, 60]},
    "60Hz, 3RPM": {"rpm_60hz": 3, "frequency_hz": 60},
    "AC21V 50/60Hz 5/6RPM 3W": {"voltage_vac": 21, "rpm_50hz": 5, "rpm_60hz": 6, "power_w": 3},
    "5 rpm/50Hz 6 rpm/60Hz": {"rpm_50hz": 5, "rpm_60hz": 6},
    "AC220~240V 50Hz 4W 2.5 r/min": {"voltage_vac": [220, 240], "rpm_50hz": 2.5},
    "TYJ50-8A7 220-240V~ 5/6 r/min 4W CW/CCW": {"type": "TYJ50-8A7", "direction": "random"},
    "ST-16 30V AC CCW": {"type": "ST-16", "voltage_vac": 30, "direction": "CCW"},
}


@pytest.mark.parametrize(("text", "expected"), PLATES.items())
def test_a_plate_is_read_with_each_speed_at_its_frequency(
    text: str, expected: dict[str, Any]
) -> None:
    """Sources: eevblog (2.5 and 3 RPM), homeownershub (ST-16); the rest common practice."""
    ratings = read(text).ratings

    assert {name: ratings.get(name) for name in expected} == expected


def test_the_dot_that_was_a_slash_is_mended_where_only_one_split_fits() -> None:
    """2.5.3 RPM: only 2.5/3 stands as 50 to 60; the reading says so in three places."""
    reading = read("AC220-240V 2.5.3 RPM 3/2.5Watts")

    assert reading.ratings["repaired"] == ["2.5.3 -> 2.5/3"]
    assert reading.ratings["needs_review"]
    assert reading.warnings
    assert reading.candidates[0].text == "AC220-240V 2.5/3 RPM 3/2.5Watts"


def test_a_split_that_is_not_certain_is_not_made() -> None:
    """7.1.2 RPM fits no motor."""
    reading = read("7.1.2 RPM")

    assert {"rpm_50hz", "rpm_60hz", "rpm", "repaired"}.isdisjoint(reading.ratings)
    assert reading.ratings["needs_review"]


def test_five_point_six_is_five_or_six() -> None:
    """5.6 RPM is no gear's speed; 5/6 is offered."""
    reading = read("5.6 RPM")

    assert "rpm" not in reading.ratings
    assert reading.candidates[0].ratings == {"rpm_50hz": 5, "rpm_60hz": 6}


def test_which_watts_go_with_which_frequency_is_not_said() -> None:
    """3/2.5 W is a set of two, rising."""
    assert read("2.5/3RPM 3/2.5W").ratings["power_w"] == [2.5, 3]


def test_two_speeds_that_are_no_pair_need_a_person() -> None:
    """A seller's '5/5 rpm' is not read as 50 and 60 Hz."""
    reading = read("5/5 rpm")

    assert {"rpm_50hz", "rpm_60hz"}.isdisjoint(reading.ratings)
    assert reading.ratings["needs_review"]


@pytest.mark.parametrize(("low", "high"), [(2.5, 3), (5, 6), (10, 12)])
def test_synchronous_speeds_stand_as_five_to_six(low: float, high: float) -> None:
    """50 Hz to 60 Hz."""
    assert five_to_six(low, high)
    assert not five_to_six(high, low)
    assert not five_to_six(0, high)


def test_how_strongly_a_text_looks_like_a_turntable_motor() -> None:
    """A few turns a minute claim it, two thousand do not."""
    assert likely("50Hz 2.5RPM 60Hz 3RPM") > 0.8
    assert likely("230V 50Hz 2200 rpm") == 0


@pytest.mark.parametrize("text", list(PLATES))
def test_a_written_out_plate_reads_the_same(text: str) -> None:
    """Speeds keep their frequencies."""
    first = read(text)

    assert read(canonical(first)).ratings == first.ratings


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("3 rpm", {"rpm": 3}),
        ("5 rpm 6 rpm", {"rpm_50hz": 5, "rpm_60hz": 6}),
        ("50/60Hz 3 rpm", {"rpm": 3, "frequency_hz": [50, 60]}),
        ("40Hz 3 rpm", {"rpm": 3, "frequency_hz": 40}),
    ],
)
def test_a_speed_goes_with_a_frequency_only_where_the_text_says_so(
    text: str, expected: dict[str, Any]
) -> None:
    """A lone speed, or one speed at two frequencies, is only a speed."""
    assert read(text).ratings == expected
