"""Lamps: base, volts, watts, heat, and the bulb's size in eighths or millimetres."""

from __future__ import annotations

from typing import Any

import pytest

from inventory.markings.lamp import canonical, likely, read

LAMPS = {
    "230V 25W E14 300C": {"voltage_v": 230, "power_w": 25, "base": "E14", "temp_c": 300},
    "40W T7 E17": {"power_w": 40, "base": "E17", "shape": "T7", "diameter_mm": 22},
    "25-watt T7 intermediate base": {"power_w": 25, "base": "E17", "shape": "T7"},
    "240V 15W SES T22 T300": {"base": "E14", "shape": "T22", "diameter_mm": 22, "temp_c": 300},
    "12V 20W G4 halogen 572F (300C)": {"base": "G4", "temp_c": 300, "technology": "halogen"},
    "BA15D 24V 5W": {"base": "BA15d", "voltage_v": 24},
    "120V 40W A15 E26": {"shape": "A15", "diameter_mm": 48, "base": "E26"},
}


@pytest.mark.parametrize(("text", "expected"), LAMPS.items())
def test_a_lamp_is_read_by_its_print(text: str, expected: dict[str, Any]) -> None:
    """T7 is 7/8 inch, 22 mm; T22 is 22 mm; T300 is degrees (bulb codes from memory)."""
    ratings = read(text).ratings

    assert {name: ratings.get(name) for name in expected} == expected


def test_a_short_t_is_a_shape_and_a_long_one_is_heat() -> None:
    """T7 and T170 share a letter and nothing else."""
    assert "temp_c" not in read("T7").ratings
    assert read("T170").ratings == {"temp_c": 170}


def test_an_led_lamp_is_warned_off_the_hot_cavity() -> None:
    """Oven lamps are incandescent or halogen (mico.co.uk)."""
    assert any("hot cavity" in warning for warning in read("LED 2W E14 230V").warnings)


def test_heat_that_disagrees_in_two_scales_is_not_read() -> None:
    """300 °F is not 300 °C."""
    reading = read("25W 300F (300C)")

    assert "temp_c" not in reading.ratings
    assert reading.ratings["needs_review"]


def test_how_strongly_a_text_looks_like_a_lamp() -> None:
    """A base with watts claims it; a base alone says nothing."""
    assert likely("230V 25W E14 300C") > 0.8
    assert likely("E14") == 0


@pytest.mark.parametrize("text", list(LAMPS))
def test_a_written_out_lamp_reads_the_same(text: str) -> None:
    """Print to print."""
    first = read(text)

    assert read(canonical(first)).ratings == first.ratings


def test_size_light_and_colour_are_read() -> None:
    """Diameter and length, lumen, kelvin."""
    ratings = read("25W 230V E14 22x48mm 150lm 2700K").ratings

    assert (ratings["diameter_mm"], ratings["length_mm"]) == (22, 48)
    assert (ratings["lumen"], ratings["colour_k"]) == (150, 2700)
