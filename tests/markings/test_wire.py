"""Hook-up wire and high-voltage leads."""

from __future__ import annotations

import pytest

from inventory.markings.cable_size import awg_area
from inventory.markings.wire import STYLES, likely, read

# UL style pages (iq.ul.com/awm): style, °C, V.
PAGES = {2040: (105, 600), 2789: (60, 30), 10686: (90, 1000), 20961: (105, 30), 1001: (80, 300)}


@pytest.mark.parametrize(("style", "page"), PAGES.items())
def test_a_silent_wire_gets_its_style_page_as_assumed(style: int, page: tuple[int, int]) -> None:
    """The page's figures are never printed ratings."""
    reading = read(f"AWM {style}")

    assert (reading.assumed["temp_c"], reading.assumed["voltage_v"]) == page == STYLES[style]
    assert dict(reading.ratings) == {"awm_style": style}


def test_the_print_wins_over_the_page() -> None:
    """What is printed stands, nothing is assumed beside it."""
    reading = read("AWM 1001 105°C 600V")

    assert (reading.ratings["temp_c"], reading.ratings["voltage_v"]) == (105, 600)
    assert "temp_c" not in reading.assumed


def test_a_style_that_is_not_tabled_says_nothing() -> None:
    """Style 1015 without a print has no temperature and no voltage here."""
    reading = read("1015")

    assert dict(reading.ratings) == {"awm_style": 1015}
    assert "voltage_v" not in reading.assumed


@pytest.mark.parametrize("text", ["600V", "18AWG", "105°C", "2000V"])
def test_figures_with_units_are_no_style(text: str) -> None:
    """A style stands alone."""
    assert "awm_style" not in read(text).ratings


def test_kilovolts_are_volts_of_a_lead() -> None:
    """A silicone lead of 20 kV."""
    said = read("silicone 20kV 200°C").ratings

    assert (said["voltage_v"], said["insulation"], said["temp_c"]) == (20000, "silicone", 200)


def test_two_styles_are_both_met_and_the_first_is_kept() -> None:
    """The wire carries both; a person sees the warning."""
    reading = read("AWM 1015 STYLE 1230")

    assert reading.ratings["awm_style"] == 1015
    assert "each" in reading.warnings[0]


def test_several_flame_tests_are_a_list() -> None:
    """VW-1 and FT1 are two marks of one wire."""
    assert read("VW-1 FT1").ratings["flame_rating"] == ["FT1", "VW-1"]
    assert read("VW-1").ratings["flame_rating"] == "VW-1"


# ASTM B258 areas in mm²: 10 AWG 5.26, 20 AWG 0.519, 30 AWG 0.0507 (from the formula's standard).
@pytest.mark.parametrize(("awg", "area"), [(10, 5.26), (20, 0.519), (30, 0.0507)])
def test_gauge_areas_follow_the_standard_s_formula(awg: int, area: float) -> None:
    """The diameter is 0.127 mm x 92^((36 - n) / 39)."""
    assert awg_area(awg) == pytest.approx(area, rel=0.005)


def test_likely() -> None:
    """AWM and STYLE are sure."""
    assert likely("AWM STYLE 1015 600V") > 0.9
    assert likely("6205-2RS") == 0
