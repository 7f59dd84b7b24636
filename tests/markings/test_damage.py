"""Damage is found by consistency and range, and offered with its reason."""

from __future__ import annotations

import pytest

from inventory.markings.damage import (
    cf_pair,
    changes,
    decimal_candidates,
    look_alike_candidates,
)


@pytest.mark.parametrize(
    ("celsius", "fahrenheit"), [(150, 302), (60, 140), (45, 113), (-35, -31), (0, 32), (100, 212)]
)
def test_published_pairs_of_one_temperature_agree(celsius: float, fahrenheit: float) -> None:
    """302 °F is 150 °C (Sharp R-1505); fixed points by NIST SP 811, appendix B.8."""
    assert cf_pair(celsius, fahrenheit).consistent


def test_a_lost_minus_is_found_by_the_other_unit() -> None:
    """31 °F (35 °C) of a dryer's safety thermostat is -31 °F (-35 °C): LG DLE3777W."""
    pair = cf_pair(35, 31)

    assert not pair.consistent
    assert pair.repairs == ((-35, -31, "minus sign lost"),)


def test_swapped_letters_are_found() -> None:
    """302 °C (150 °F) has its letters swapped."""
    assert cf_pair(302, 150).repairs[0][2] == "C and F swapped"


def test_a_pair_nobody_can_repair_says_so() -> None:
    """Two figures of two temperatures give no repair, only the sentence."""
    pair = cf_pair(150, 250)

    assert pair.repairs == ()
    assert "misread" in pair.sentence


def test_look_alikes_are_tried_word_by_word_and_only_where_they_help() -> None:
    """The judge of a repair is the reader that asked for it."""
    found = look_alike_candidates("1OA 25OV", lambda text: text == "10A 25OV")

    assert [candidate.text for candidate in found] == ["10A 25OV"]
    assert "O -> 0" in found[0].reason


def test_long_texts_are_left_alone() -> None:
    """The cost of guessing is bounded."""
    assert look_alike_candidates("1O " * 100, lambda _: True) == ()


def test_changes_are_named_once() -> None:
    """Two swapped O give one phrase."""
    assert changes("1OOA", "100A") == "O -> 0"


def test_a_decimal_point_is_put_back_only_where_the_figure_becomes_possible() -> None:
    """105 A of a 63 A family is 10.5 or 1.05."""
    assert decimal_candidates("105", 63) == ("10.5", "1.05")
    assert decimal_candidates("10.5", 63) == ()
