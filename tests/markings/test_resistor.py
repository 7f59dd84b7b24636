"""Resistors: letter code, prints, power, role."""

from __future__ import annotations

import pytest

from inventory.markings.resistor import canonical, likely, read


def test_glued_power_and_value_are_two_marks() -> None:
    """5W10RJ is 5 W, 10 Ω, ±5 %."""
    assert dict(read("5W10RJ").ratings) == {
        "power_w": 5,
        "resistance_ohm": 10,
        "tolerance_pct": 5,
    }


@pytest.mark.parametrize(
    ("text", "watts"), [("1/4W", 0.25), ("0,5 W", 0.5), ("20W", 20), ("2 Watts", 2)]
)
def test_power_is_read_as_a_figure_or_a_fraction(text: str, watts: float) -> None:
    """A fraction of a watt is a fraction."""
    assert read(text).ratings["power_w"] == watts


def test_two_figures_in_w_raise_the_lost_omega() -> None:
    """10 W 5 W: one W may be a misread Ω; offered, not applied."""
    reading = read("10 W 5 W")

    assert "resistance_ohm" not in reading.ratings
    assert reading.candidates[0].text == "10 W 5 Ω"
    assert any("may be ohms" in w for w in reading.warnings)


def test_the_omega_and_the_ohm_sign_are_one() -> None:
    """U+03A9 and U+2126 read the same."""
    assert read("10 \u2126").ratings == read("10 Ω").ratings == {"resistance_ohm": 10}


@pytest.mark.parametrize(("text", "ohm"), [("10 kΩ", 10000), ("1 MΩ", 1e6), ("5 mΩ", 0.005)])
def test_prefixes_scale_the_value(text: str, ohm: float) -> None:
    """k, M and m in front of the ohm. Source: SI brochure, table 7."""
    assert read(text).ratings["resistance_ohm"] == ohm


def test_a_number_without_unit_gives_no_value() -> None:
    """0.47 alone on a resistor is not turned into ohms."""
    assert dict(read("0.47").ratings) == {}


# EIA-96: 01 is 100, C is times 100; 96 is 976. Source: IEC 60062:2016 with IEC 60063 E96.
@pytest.mark.parametrize(("text", "ohm"), [("01C", 10000), ("68X", 49.9), ("96A", 976)])
def test_the_small_print_of_e96(text: str, ohm: float) -> None:
    """Place in the series and letter of the power; 1 % is assumed."""
    reading = read(text)

    assert reading.ratings["resistance_ohm"] == ohm
    assert reading.assumed["tolerance_pct"] == 1


def test_the_small_print_is_read_only_all_alone() -> None:
    """Beside other marks 85C is a temperature."""
    said = read("10R 85C").ratings

    assert (said["resistance_ohm"], said["temp_c"]) == (10, 85)


def test_the_place_in_the_circuit_is_a_role() -> None:
    """A service manual's words: monitor, bleeder, inrush."""
    assert read("MONITOR RESISTOR 0.8Ω 20W").ratings["role"] == "monitor"
    assert read("inrush 10Ω").ratings["role"] == "inrush"


@pytest.mark.parametrize("text", ["2n2", "T5AL250V", "X2 100nF"])
def test_other_parts_give_no_resistance(text: str) -> None:
    """Capacitors and fuses are left alone."""
    assert "resistance_ohm" not in read(text).ratings


def test_likely_ranks_bands_over_codes_over_digits() -> None:
    """Colours are sure, three digits are hardly anything."""
    assert likely("yellow violet red gold") > likely("5W10RJ") > likely("4K7") > likely("103") > 0


def test_the_plain_form_is_spoken() -> None:
    """47K3 is 47.3 kΩ."""
    assert canonical(read("47K3 J")) == "47.3 kΩ ±5%"


def test_the_temperature_coefficient_is_read() -> None:
    """100 ppm/°C."""
    assert read("10R 100ppm/°C").ratings["tcr_ppm"] == 100


POINTED = [("4.7k", 4700), ("4,7k 1W", 4700), ("0.22R 5W", 0.22), ("2.2M", 2200000), ("4k7", 4700)]


@pytest.mark.parametrize(("text", "ohm"), POINTED)
def test_a_prefix_behind_a_decimal_is_read_with_its_point(text: str, ohm: float) -> None:
    """4.7k is 4700 ohm, never 7000 with a lost 4. Source: SI brochure, table 7."""
    assert read(text).ratings["resistance_ohm"] == ohm


@pytest.mark.parametrize("text", ["1.2.3k", "9.8.7k 1W"])
def test_the_tail_of_a_figure_nobody_read_is_no_value(text: str) -> None:
    """A torn figure stays unread as a whole."""
    assert "resistance_ohm" not in read(text).ratings
