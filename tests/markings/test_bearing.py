"""Rolling bearings."""

from __future__ import annotations

import pytest

from inventory.markings.bearing import likely, read
from inventory.markings.bearing_sizes import outline

# Bore codes of SKF's basic designations: 00 to 03, then five times the code.
BORES = {"00": 10, "01": 12, "02": 15, "03": 17, "04": 20, "08": 40, "13": 65, "96": 480}


@pytest.mark.parametrize(("code", "bore"), BORES.items())
def test_the_bore_code_gives_the_bore(code: str, bore: int) -> None:
    """Source: SKF, basic designations."""
    assert read(f"62{code}").ratings["bore_mm"] == bore


@pytest.mark.parametrize(
    ("text", "series", "bore"),
    [("618/8", "618", 8), ("62/22", "62", 22), ("511/530", "511", 530), ("629", "62", 9)],
)
def test_the_exceptions_print_the_bore(text: str, series: str, bore: int) -> None:
    """After a stroke, or as the last figure. Source: SKF, exceptions 3 and 4."""
    said = read(text).ratings

    assert (said["series"], said["bore_mm"]) == (series, bore)


@pytest.mark.parametrize(
    ("text", "kind"),
    [
        ("1205", "self-aligning ball"),
        ("22205", "spherical roller"),
        ("30205", "tapered roller"),
        ("51105", "thrust ball"),
        ("6205", "deep groove ball"),
        ("16005", "deep groove ball"),
        ("7205", "angular contact ball"),
        ("3205", "double row angular contact ball"),
        ("NU205", "cylindrical roller"),
        ("QJ205", "four-point contact ball"),
    ],
)
def test_the_type_is_in_the_first_figure_or_letters(text: str, kind: str) -> None:
    """Source: SKF, table of types."""
    assert read(text).ratings["type"] == kind


# Five makers' spellings of the same closure. Source: eibc.in, prefix and suffix guide.
@pytest.mark.parametrize("suffix", ["2RS1", "LLU", "DDU", "2RSR", "2RS", "2RSH"])
def test_contact_seals_of_all_makers(suffix: str) -> None:
    """NTN LLU, SKF 2RS1, FAG 2RSR, NSK DDU."""
    assert read(f"6205-{suffix}").ratings["seals"] == "2 contact seals"


@pytest.mark.parametrize(
    ("suffix", "name"),
    [
        ("ZZ", "2 shields"),
        ("2Z", "2 shields"),
        ("Z", "1 shield"),
        ("LLB", "2 non-contact seals"),
        ("VV", "2 non-contact seals"),
        ("RS", "1 contact seal"),
    ],
)
def test_shields_and_single_seals(suffix: str, name: str) -> None:
    """Source: eibc.in and lfd.eu."""
    assert read(f"6205-{suffix}").ratings["seals"] == name


def test_an_open_bearing_is_assumed_and_never_read() -> None:
    """No suffix: open and normal clearance, as the designation system has it."""
    reading = read("6208")

    assert "seals" not in reading.ratings
    assert reading.assumed["seals"] == "open"
    assert reading.assumed["clearance"] == "CN"


def test_c3_is_a_clearance_and_not_a_bore() -> None:
    """Printed behind a stroke, a hyphen or a gap."""
    assert [read(t).ratings["clearance"] for t in ("6205/C3", "6205-C3", "6205 C3")] == ["C3"] * 3


# Sizes printed in the chart scribd 248707361: outer diameter and width, mm.
CHART = {"6001": (28, 8), "6005": (47, 12), "6202": (35, 11), "6205": (52, 15), "6210": (90, 20)}


@pytest.mark.parametrize(("text", "size"), CHART.items())
def test_outer_diameter_and_width_are_assumed_from_the_chart(
    text: str, size: tuple[int, int]
) -> None:
    """They follow from series and bore."""
    reading = read(text)

    assert (reading.assumed["outer_mm"], reading.assumed["width_mm"]) == size
    assert "outer_mm" not in reading.ratings


def test_a_size_that_is_not_tabled_is_not_guessed() -> None:
    """No row, no figures."""
    assert outline("64", 25) is None
    assert "outer_mm" not in read("6405").assumed


def test_sizes_from_memory_say_so() -> None:
    """608 is 8 x 22 x 7 mm, from memory."""
    found = outline("60", 8)

    assert found is not None
    assert found[:2] == (22, 7)
    assert "memory" in found[2]


@pytest.mark.parametrize("text", ["12", "9205", "0205", "620505", "T5AL250V"])
def test_other_figures_are_no_bearing(text: str) -> None:
    """Two figures, an unknown type, too many."""
    assert "bore_mm" not in read(text).ratings


def test_three_sizes_are_bore_outer_width() -> None:
    """8x22x7."""
    assert read("8x22x7mm").ratings == {"bore_mm": 8, "outer_mm": 22, "width_mm": 7}


def test_likely() -> None:
    """A suffix makes it sure."""
    assert likely("6205-2RS1/C3") > 0.9 > likely("6205") > 0.3
    assert likely("250V") == 0


@pytest.mark.parametrize("text", ["9205", "6200/0", "NU2"])
def test_impossible_designations_are_left_alone(text: str) -> None:
    """An unknown type, a bore of nothing, a series without a bore."""
    assert read(text).ratings.get("bore_mm") in (None, 10)


def test_a_needle_bearing_and_half_a_clearance_range() -> None:
    """NA by its letters; C3H is the upper half. Source: sawhneybearings.com."""
    assert read("NA4905").ratings["type"] == "needle roller"
    assert read("6205 C3H").ratings["clearance"] == "C3"
