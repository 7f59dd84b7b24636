"""Temperatures in one scale or two. Source of pairs: NIST SP 811, appendix B.8."""

from __future__ import annotations

import pytest

from inventory.markings.scanner import Scanner
from inventory.markings.temperatures import Temperature, temperature, usable


def _read(text: str) -> Temperature:
    """The temperature at the start of a text."""
    found = temperature(Scanner(text))
    assert found is not None
    return found


@pytest.mark.parametrize(
    ("text", "c", "f"),
    [
        ("302˚F (150˚C)", 150, 302),
        ("150 deg C", 150, None),
        ("minus 35 C", -35, None),
        ("−31 °F", None, -31),
        ("145±2℃", 145, None),
        ("185F/85C", 85, 185),
        ("73¡æ", 73, None),
        ("98,6 °F", None, 98.6),
    ],
)
def test_figures_and_scales_in_every_spelling(text: str, c: float | None, f: float | None) -> None:
    """Signs, look-alikes and wrong character sets."""
    found = _read(text)

    assert (found.c, found.f) == (c, f)


def test_tolerances_even_and_lop_sided() -> None:
    """266 ± 12°F (130 ± 7°C) and 76+0/-4 ℃."""
    both, uneven = _read("266 ± 12°F (130 ± 7°C)"), _read("76+0/-4℃")

    assert (both.tol_f, both.tol_c) == (12, 7)
    assert (uneven.up_c, uneven.down_c) == (0, 4)


@pytest.mark.parametrize("text", ["145CF", "145 Cats", "A145C", "KSD-85"])
def test_what_is_no_temperature_is_left(text: str) -> None:
    """A unit must end, a figure must begin."""
    assert temperature(Scanner(text)) is None


def test_a_hyphen_behind_a_letter_is_no_minus() -> None:
    """KSD301-85C is 85 °C."""
    scan = Scanner("D-85C")
    scan.at = 1

    assert temperature(scan) is None


def test_only_a_pair_that_agrees_is_usable() -> None:
    """The other is offered repaired under its rating's name."""
    scan = Scanner("31 F (35 C)")
    read = temperature(scan)

    assert read is not None
    assert not usable(scan, read, "reset")
    assert scan.candidates[0].ratings == {"reset_c": -35, "reset_f": -31}
    assert scan.ratings == {"cf_pair_consistent": False, "needs_review": True}


def test_a_disagreeing_pair_has_no_celsius_figure() -> None:
    """Nothing downstream can use it by mistake."""
    assert _read("31 F (35 C)").in_c() is None
    assert _read("155F").in_c() == 68.3


def test_a_closing_bracket_without_its_opening_one_is_left() -> None:
    """185F/85C) ends before the bracket."""
    scan = Scanner("185F/85C)")

    assert temperature(scan) is not None
    assert scan.at == 8
