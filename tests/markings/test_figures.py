"""Letter codes, digit codes and the E series, against the standards' own tables."""

from __future__ import annotations

import doctest
from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from inventory.markings import figures
from inventory.markings.figures import (
    E24,
    E192,
    FARAD_LETTERS,
    OHM_LETTERS,
    SKEWED_PCT,
    TOLERANCE_PCT,
    digit_code,
    farads,
    figure,
    ohms,
    on_series,
    with_letter,
)

# IEC 60062 examples, as printed at everything.explained.today/RKM_code.
RKM = {"R47": "0.47", "4R7": "4.7", "470R": "470", "4K7": "4700", "47K3": "47300", "4M7": "4700000"}

# Tolerance letters, as printed at oriedza.blogspot.com/2014_04_17_archive.html, table 1.
LETTERS = {"G": 2, "H": 3, "J": 5, "K": 10, "M": 20}


@pytest.mark.parametrize(("code", "value"), RKM.items())
def test_a_resistance_code_has_the_standard_s_value(code: str, value: str) -> None:
    """The letter stands for the unit and the point."""
    assert with_letter(code, OHM_LETTERS) == Decimal(value)


@pytest.mark.parametrize("code", ["", "R", "4", "4X7", "44444R", "4R7R", "R٣"])
def test_what_is_no_letter_code_has_no_value(code: str) -> None:
    """One known letter and at least one ASCII figure are needed."""
    assert with_letter(code, OHM_LETTERS) is None


@pytest.mark.parametrize(("code", "pico"), [("2n2", 2200), ("p47", "0.47"), ("µ1", 100000)])
def test_a_capacitance_code_counts_in_picofarad(code: str, pico: str | int) -> None:
    """The prefix is the point and the power."""
    assert with_letter(code, FARAD_LETTERS) == Decimal(pico)


# Source: pedalprojects.co.uk/resources/capacitor-code-decoder, table of three-digit codes.
@pytest.mark.parametrize(
    ("code", "pico"),
    [
        ("470", 47),
        ("471", 470),
        ("474", 470000),
        ("476", 47000000),
        ("478", "0.47"),
        ("479", "4.7"),
    ],
)
def test_digit_codes_agree_with_the_printed_table(code: str, pico: int | str) -> None:
    """The last figure is the number of zeros; 8 and 9 go below one."""
    assert digit_code(code) == Decimal(str(pico))


@pytest.mark.parametrize(("letter", "percent"), LETTERS.items())
def test_tolerance_letters_agree_with_the_printed_table(letter: str, percent: int) -> None:
    """The letters of table 1."""
    assert TOLERANCE_PCT[letter] == percent


def test_z_is_the_lopsided_tolerance() -> None:
    """Z is +80 % and -20 %. Source: oriedza.blogspot.com, table 1."""
    assert SKEWED_PCT["Z"] == (-20, 80)


def test_the_e_series_have_their_sizes_and_the_one_exception() -> None:
    """E24 has 24 steps, E192 has 192, and 920 stands where the root gives 919. IEC 60063."""
    assert len(E24) == 24
    assert len(set(E192)) == 192
    assert 920 in E192
    assert 919 not in E192


@pytest.mark.parametrize("value", [0, -5, 12.5, 46])
def test_odd_values_are_on_no_series(value: float) -> None:
    """Zero, negative and in-between figures are no preferred values."""
    assert not on_series(value, figures=2)


@given(st.sampled_from(E24), st.integers(min_value=-2, max_value=6))
def test_every_step_is_on_its_series_in_every_decade(step: int, power: int) -> None:
    """Decades do not matter."""
    assert on_series(Decimal(step).scaleb(power), figures=2)


def test_figures_carry_no_binary_dust() -> None:
    """0.1 µF is 100000 pF to the last digit; a whole number is an int."""
    assert figure("0.1", 6) == 100000
    assert isinstance(figure("0,1", 6), int)
    assert figure("2.2", -6) == 2.2e-06


def test_amounts_are_spoken_in_the_unit_a_tech_uses() -> None:
    """The largest unit that leaves a figure before the point."""
    assert [farads(p) for p in (4.7, 2200, 100000, 470000000)] == [
        "4.7 pF",
        "2.2 nF",
        "100 nF",
        "470 µF",
    ]
    assert [ohms(r) for r in (0.47, 47300, 1000000)] == ["0.47 Ω", "47.3 kΩ", "1 MΩ"]


def test_the_examples_in_the_docstrings_hold() -> None:
    """Every example shown is run."""
    outcome = doctest.testmod(figures)

    assert outcome.attempted > 5
    assert outcome.failed == 0
