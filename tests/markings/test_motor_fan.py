"""Fan motors: plates, protection, and a table row whose points were lost."""

from __future__ import annotations

import pytest

from inventory.markings.motor_fan import canonical, likely, read

# Shaded-pole table EM 21, placenose22.gitlab.io: W out, W in, V, Hz, r/min, mA, torque N cm.
EM_21 = [
    ("EM 2108 0 6 6 2 230 50 2100 60 0 28", 0.6, 6.2, 0.28),
    ("EM 2112 1 0 9 5 230 50 2200 90 0 46", 1.0, 9.5, 0.46),
    ("EM 2118 1 5 12 0 230 50 2300 100 0 7", 1.5, 12.0, 0.70),
    ("EM 2124 2 0 13 5 230 50 2350 120 1 0", 2.0, 13.5, 1.0),
]


@pytest.mark.parametrize(("row", "out", "into", "torque"), EM_21)
def test_a_row_without_its_points_is_offered_and_not_read(
    row: str, out: float, into: float, torque: float
) -> None:
    """The offered watts agree with the row's rounded torque times speed (P = M 2 pi n): a point
    set elsewhere would miss by a factor of ten.
    """
    reading = read(row)
    (candidate,) = reading.candidates
    speed = candidate.ratings["rpm"]

    assert {"power_out_w", "power_in_w", "rpm"}.isdisjoint(reading.ratings)
    assert (candidate.ratings["power_out_w"], candidate.ratings["power_in_w"]) == (out, into)
    assert torque / 100 * 2 * 3.14159 * speed / 60 == pytest.approx(out, rel=0.25)


def test_a_row_that_cannot_be_is_not_even_offered() -> None:
    """More watts out than in fits no motor."""
    assert read("EM 2112 9 0 1 5 230 50 2200 90").candidates == ()


def test_watts_in_and_out_are_told_apart_before_and_behind() -> None:
    """EM2112: 1.0 W out, 9.5 W in."""
    for text in ("1.0 W out, 9.5 W in", "output 1.0 W input 9.5 W", "P2 1W P1 9.5W"):
        ratings = read(f"EM2112 {text}").ratings
        assert (ratings["power_out_w"], ratings["power_in_w"]) == (1, 9.5)


def test_a_plate_with_class_protection_and_rotation() -> None:
    """Z.P. is impedance protection (UL 2111, from memory)."""
    ratings = read("120V 60Hz 0.4A 3000 RPM CLASS B Z.P. CCW").ratings

    assert (ratings["voltage_vac"], ratings["frequency_hz"], ratings["rpm"]) == (120, 60, 3000)
    assert (ratings["insulation_class"], ratings["protection"]) == ("B", ["impedance"])
    assert ratings["rotation"] == "CCW"


def test_two_speeds_of_a_slipping_motor_go_with_two_frequencies() -> None:
    """An induction motor slips: 2300 and 2700 are near 5 to 6, not exactly."""
    ratings = read("fan motor 50/60Hz 2300/2700 rpm").ratings

    assert (ratings["rpm_50hz"], ratings["rpm_60hz"]) == (2300, 2700)


def test_how_strongly_a_text_looks_like_a_fan_motor() -> None:
    """Turns in thousands claim it, a turntable does not."""
    assert likely("EM2112 230V 50Hz 2200 rpm") > 0.9
    assert likely("2.5/3 RPM") == 0


@pytest.mark.parametrize("text", ["EM2112 230V 50Hz 2200 rpm 90mA", "AC220-240V 25W class F T.P."])
def test_a_written_out_plate_reads_the_same(text: str) -> None:
    """Plate to plate."""
    first = read(text)

    assert read(canonical(first)).ratings == first.ratings
