"""Motor capacitors: class of duty, protection, sections and spans. Source: IEC 60252-1."""

from __future__ import annotations

import pytest

from inventory.markings.capacitor import read
from inventory.markings.capacitor_motor import is_for_a_motor


@pytest.mark.parametrize("text", ["CBB61 2.5uF 350V", "2.5uF 350V 50Hz", "2.5uF 350V P0"])
def test_bare_volts_of_a_motor_capacitor_are_a_c(text: str) -> None:
    """IEC 60252-1 is a standard of a.c. capacitors; the RS sheet gives 350 V a.c."""
    said = read(text).ratings

    assert said["voltage_vac"] == 350
    assert "voltage_vdc" not in said


def test_without_such_a_sign_bare_volts_stay_d_c() -> None:
    """The rule of film and electrolytic capacitors is untouched."""
    assert not is_for_a_motor("2.5uF 350V")
    assert read("2.5uF 350V").ratings["voltage_vdc"] == 350


def test_a_class_letter_is_no_tolerance() -> None:
    """B is ±0.1 % only on a small value; on 45 µF it is 10 000 h (advanceelectrical.co.in)."""
    reading = read("45 MFD 440 VAC 50 Hz SH MPP B P0 25/85/21")

    assert "tolerance_pct" not in reading.ratings
    assert any("10 000 h" in mark.means for mark in reading.marks)


@pytest.mark.parametrize("text", ["35+5 MFD 440VAC", "43-53 MFD 125VAC"])
def test_two_values_are_no_single_capacitance(text: str) -> None:
    """Neither figure is called the capacitance, and a sentence says why."""
    reading = read(text)

    assert "capacitance_uf" not in reading.ratings
    assert reading.warnings


@pytest.mark.parametrize("text", ["16 µF 400/500 V", "10 uF 16-25V", "440/370 VAC 35+5 uF"])
def test_a_span_of_volts_is_no_rating(text: str) -> None:
    """Two voltages for different duty: neither is read as the one."""
    reading = read(text)

    assert not {"voltage_vac", "voltage_vdc"} & reading.ratings.keys()
    assert any("span of volts" in warning for warning in reading.warnings)
