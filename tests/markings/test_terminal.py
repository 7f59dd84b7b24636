"""Quick-connect terminals."""

from __future__ import annotations

import pytest

from inventory.markings.terminal import WIDTHS, likely, read


@pytest.mark.parametrize(("series", "inch"), [("110", 0.110), ("187", 0.187), ("250", 0.250)])
def test_the_series_is_the_width_in_thousandths_of_an_inch(series: str, inch: float) -> None:
    """Within 0.06 mm of 25.4 times the figure. Source: NIST SP 811; IEC 61210 nominal sizes."""
    assert WIDTHS[series] == pytest.approx(inch * 25.4, abs=0.06)


@pytest.mark.parametrize("text", ["#250", "250 series", '.250"', "250# 6.3x0.8", "6,3x0,8 mm"])
def test_one_tab_in_many_spellings(text: str) -> None:
    """Series 250, 6.3 by 0.8 mm."""
    said = read(text).ratings

    assert (said["series"], said["tab_mm"], said["tab_thick"]) == ("250", [6.3, 0.8], 0.8)


def test_a_187_without_thickness_is_a_question() -> None:
    """It comes 0.5 and 0.8 mm thick; none is chosen."""
    reading = read("187")

    assert reading.ratings["tab_mm"] == [4.8]
    assert "tab_thick" not in reading.ratings
    assert "measure" in reading.warnings[0]


def test_series_and_size_that_disagree_are_warned_of() -> None:
    """187 beside 6.3 mm."""
    assert "but 6.3 mm is printed" in read("187 6.3x0.8").warnings[0]


def test_a_range_of_parts_is_not_one_part() -> None:
    """Two sizes in one line: both are listed, no thickness is claimed."""
    reading = read("187series of 4.8*0.5mm and 4.8*0.8mm")

    assert reading.ratings["tab_mm"] == [[4.8, 0.5], [4.8, 0.8]]
    assert "tab_thick" not in reading.ratings


# UL 310, as quoted by TE (manualshelf 130014): amperes of series 250 by gauge.
@pytest.mark.parametrize(("awg", "amps"), [(10, 24), (12, 20), (14, 15), (16, 10), (22, 3)])
def test_the_current_by_gauge_is_assumed(awg: int, amps: int) -> None:
    """A printed current stands instead."""
    assert read(f"250 series {awg} AWG").assumed["current_a"] == amps
    assert "current_a" not in read(f"250 series {awg} AWG 5A").assumed


@pytest.mark.parametrize("text", ["250V", "187 Ω", "6.35 A", "1250"])
def test_volts_and_other_figures_are_no_series(text: str) -> None:
    """250 V is not a tab."""
    assert "series" not in read(text).ratings


def test_words_tell_gender_form_and_sleeve() -> None:
    """Female, flag, insulated."""
    said = read("6.3x0.8 female flag insulated").ratings

    assert (said["gender"], said["form"], said["insulated"]) == ("female", "flag", True)


def test_what_the_crimp_takes() -> None:
    """0.5 to 1.5 mm² or 22 to 16 AWG."""
    assert read("6.3x0.8 0.5-1.5mm²").ratings["area_max_mm2"] == 1.5
    assert read("6.3x0.8 22-16 AWG").ratings["awg"] == [22, 16]


def test_likely() -> None:
    """250 alone is hardly a claim."""
    assert likely("250 series of 6.3*0.8mm") > 0.8 > likely("250") > 0
    assert likely("250V 10A") == 0


@pytest.mark.parametrize("text", ['.250" x .032"', ".250x.032", '0.250" x 0.032"'])
def test_inches_of_both_sides_are_the_same_tab(text: str) -> None:
    """0.250 by 0.032 inch is 6.3 by 0.8 mm. Source: IEC 61210 nominal sizes."""
    assert read(text).ratings["tab_mm"] == [6.3, 0.8]


def test_asian_crimp_codes_tell_ring_or_tab() -> None:
    """RV1.25-4 is a ring for M4, FDD1.25-250 a tab of series 250 (synthetic rows, from memory)."""
    assert read("RV1.25-4").ratings["stud_mm"] == 4
    assert read("FDD1.25-250").ratings["series"] == "250"
    assert "memory" in read("RV1.25-4").marks[0].source


def test_a_second_series_is_warned_of() -> None:
    """Two series in one line are a list of parts."""
    assert any("Several series" in w for w in read("187 series, 250 series").warnings)
