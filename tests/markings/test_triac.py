"""Triacs."""

from __future__ import annotations

import pytest

from inventory.markings.triac import canonical, likely, read


@pytest.mark.parametrize("text", ["BT16-600", "BTA99-600", "BTX16-600B", "TRIBTA16-600B"])
def test_look_alikes_are_left_alone(text: str) -> None:
    """No current, no voltage from a code that is none."""
    assert "it_rms_a" not in read(text).ratings


def test_the_tab_is_in_the_third_letter() -> None:
    """A insulated, B not. Source: ST, BTA16/BTB16 data sheet."""
    assert read("BTA16-600B").ratings["tab"] == "insulated"
    assert read("BTB16-600B").ratings["tab"] == "not insulated"


def test_w_is_snubberless_and_its_absence_is_not() -> None:
    """BTB16-600BRG is a standard triac whatever a parts page says. Source: ST data sheet."""
    assert read("BTB16-600BW").ratings["snubberless"] is True
    assert "snubberless" not in read("BTB16-600BRG").ratings


def test_w_works_in_three_quadrants_only() -> None:
    """High commutation (3Q). Source: ST data sheet, features."""
    assert read("BTA16-600CW").ratings["quadrants"] == 3


def test_the_gate_letter_is_told_and_never_a_rating() -> None:
    """50 mA of the letter B rests on memory: it stays in the mark."""
    reading = read("BTA16-600B")

    assert "igt_ma" not in reading.ratings
    assert any("50 mA" in m.means and "memory" in m.source for m in reading.marks)


def test_the_t_series_prints_its_gate_current() -> None:
    """T1635 is 16 A, 35 mA. Source: ST, T1635 data sheet."""
    said = read("T1635-600G").ratings

    assert (said["it_rms_a"], said["igt_ma"], said["vdrm_v"]) == (16, 35, 600)


def test_a_type_without_volts_says_no_volts() -> None:
    """BTA16 alone leaves the voltage open."""
    assert "vdrm_v" not in read("BTA16").ratings


def test_a_current_that_contradicts_the_type_is_warned_of() -> None:
    """BTA16 beside 12 A."""
    assert any("printed twice" in w for w in read("BTA16-600B 12A").warnings)


def test_likely_and_the_plain_form() -> None:
    """The type code is its own plain form."""
    assert likely("BTA16-600B") > 0.9
    assert likely("1N4007") == 0
    assert canonical(read("BTA16-600B")) == "BTA16-600"
