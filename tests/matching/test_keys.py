"""Keys bring what is typed and what is stored into one form."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from inventory.matching.keys import bare, code_key, spaced

# Readings met in the sources of the study: raw text and truth (reference/parts.md 3.2).
MISREAD = [
    ("RMOTDA227WREO", "RMOTDA227WRE0"),
    ("R-l 85OA", "R-1850A"),
    ("1030.1 O", "1030.10"),
    ("5OC", "50C"),
    ("W|0211972", "W10211972"),
]


@pytest.mark.parametrize(("raw", "truth"), MISREAD)
def test_a_misread_code_has_the_key_of_the_right_one(raw: str, truth: str) -> None:
    """Look-alikes and separators do not part a reading from its truth."""
    assert code_key(raw) == code_key(truth)


def test_cyrillic_letters_of_the_same_look_are_latin_ones() -> None:
    """A code pasted from a page in another script is still that code."""
    assert bare("КС-301 В") == bare("KC-301 B")


def test_leading_zeros_and_different_letters_stay() -> None:
    """Only look-alikes are folded: a zero in front and an F for an E are other codes."""
    assert code_key("00612") != code_key("612")
    assert code_key("KSE301") != code_key("KSF301")


def test_a_decimal_point_stays_in_the_spaced_form() -> None:
    """2,5 A and 25 A are two ratings, although their keys are one."""
    assert spaced("T2,5A") == "T2.5A"
    assert spaced("T2.5A") != spaced("T25A")


def test_separators_at_the_ends_and_in_a_row_count_once() -> None:
    """What a plate prints around a code is no part of it."""
    assert spaced("(szm--v16 / fa63).") == "SZM-V16-FA63"


@given(st.text())
def test_keys_are_made_of_any_text_and_making_them_twice_changes_nothing(text: str) -> None:
    """No Unicode text raises; a key is its own key."""
    assert bare(bare(text)) == bare(text)
    assert code_key(code_key(text)) == code_key(text)
    assert spaced(spaced(text)) == spaced(text)


@given(st.text(st.characters(codec="ascii")))
def test_the_quick_way_for_plain_texts_gives_the_same(text: str) -> None:
    """A sign of another script in front takes the other way; it leaves nothing behind."""
    assert bare(text) == bare("中" + text)
    assert code_key(text) == code_key("中" + text)


@given(st.text())
def test_keys_hold_capitals_and_digits_only(text: str) -> None:
    """An index of keys needs no other signs, and the folded letters are gone."""
    assert set(bare(text)) <= set("0123456789ABCDEFGHIJKLMNOPQRSTUVWXYZ")
    assert not set(code_key(text)) & set("OQDILSBZG")
