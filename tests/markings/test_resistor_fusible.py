"""Fusible resistors."""

from __future__ import annotations

import pytest

from inventory.markings import resistor, resistor_fusible
from inventory.markings.resistor_fusible import FRC_WATTS, FRM_WATTS, FRS_WATTS, likely, read


def test_a_plain_resistor_is_not_called_fusible() -> None:
    """Only a mark says so."""
    assert "fusible" not in read("10R 1W").ratings


# HTR data sheet, FRC: types and power at 70 °C.
@pytest.mark.parametrize(("code", "watts"), [("C-1AF", 1), ("C-1F", 1), ("C-2F", 2), ("C-3F", 3)])
def test_frc_types_have_the_data_sheet_s_watts(code: str, watts: int) -> None:
    """Ceramic bath types."""
    assert read(code).ratings == {"series": "FRC", "power_w": watts, "fusible": True}


# HTR data sheet, FRS rev. 22/05/2019.
@pytest.mark.parametrize(
    ("code", "watts"),
    [("A-1F", 1), ("H-2FS", 2), ("D-2F", 2), ("H-3AF", 3), ("H-4F", 4), ("5ACFS", 5), ("A-5F", 5)],
)
def test_frs_types_have_the_data_sheet_s_watts(code: str, watts: int) -> None:
    """Silicone-coated types."""
    assert read(code).ratings == {"series": "FRS", "power_w": watts, "fusible": True}


# Yageo data sheet, FRM: normal and miniature style.
@pytest.mark.parametrize(
    ("code", "watts"),
    [
        ("FRM-25", 0.25),
        ("FRM50S", 0.5),
        ("FRM-50", 0.5),
        ("FRM1WS", 1),
        ("FRM200", 2),
        ("FRM3WS", 3),
    ],
)
def test_frm_types_have_the_data_sheet_s_watts(code: str, watts: float) -> None:
    """Film types."""
    assert read(code).ratings["power_w"] == watts


def test_each_table_holds_only_positive_watts() -> None:
    """No type is listed without its power."""
    assert all(w > 0 for table in (FRC_WATTS, FRS_WATTS, FRM_WATTS) for w in table.values())


@pytest.mark.parametrize(
    "text", ["fusible 10Ω", "FR 4R7", "white band", "brown red black gold white"]
)
def test_words_and_the_white_band_say_fusible(text: str) -> None:
    """Letters FR, the word, or the extra white band."""
    assert read(text).ratings["fusible"] is True


def test_a_resistor_marked_fusible_says_so_in_its_own_family_too() -> None:
    """The word is not lost when read as a plain resistor."""
    assert resistor.read("fusible 10Ω 1W").ratings["fusible"] is True


def test_likely_needs_more_than_ohms() -> None:
    """A plain value is left to the resistor."""
    assert likely("C-2F") > 0.5
    assert resistor_fusible.likely("10Ω 1W") == 0
