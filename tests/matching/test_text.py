"""Queries are trimmed and read in more than one way; the likeliest text comes first."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from inventory.matching.keys import code_key
from inventory.matching.text import MOST_READINGS, Typed, likeness, nearest, readings, trim


def _typed(text: str) -> Typed:
    """The first way to read a query."""
    return readings(text)[0]


@pytest.mark.parametrize(
    ("query", "left"),
    [
        ("Teldrix door switch SZM-V16", "SZM-V16"),
        ("SZM V16 FA 63", "SZM V16 FA 63"),
        ("lever switch", "lever switch"),
        ("", ""),
    ],
)
def test_words_are_trimmed_only_beside_a_code(query: str, left: str) -> None:
    """Long words of letters go where another word has a digit; short ones may be its parts."""
    assert trim(query) == left


def test_a_query_of_words_is_also_read_without_its_ends() -> None:
    """A maker in front or a word behind may be no part of the code; leaving it out costs."""
    keys = {typed.key: typed.penalty for typed in readings("LG 3B73361F")}

    assert keys[code_key("3B73361F")] > keys[code_key("LG3B73361F")] == 0


def test_a_query_without_a_sign_has_no_reading() -> None:
    """Nothing can be looked for."""
    assert readings(" -- ") == []


@given(st.text())
def test_any_query_has_a_few_readings(query: str) -> None:
    """No Unicode text raises; there are never more readings than the limit, each another key."""
    found = readings(query)

    assert len(found) <= MOST_READINGS
    assert len({typed.key for typed in found}) == len(found)


def test_the_nearest_key_is_first() -> None:
    """Most alike first, by rapidfuzz on folded keys."""
    keys = {1: "WB27X10930", 2: "WB27X10939", 3: "5304468869"}

    assert [number for number, _ in nearest("WB27X1930", keys, 2)] == [1, 2]


def test_likeness_is_one_for_the_text_itself_and_falls_with_each_slip() -> None:
    """The scale that results are shown on."""
    code = "DE59-00002A"

    assert likeness(_typed(code), code) == 1
    assert 1 > likeness(_typed("DE5900002A"), code) > likeness(_typed("DE59-0002B"), code)


def test_one_word_of_a_longer_text_is_nearly_as_good_as_the_text() -> None:
    """A type code is often printed among ratings."""
    inside = likeness(_typed("SZM-V16-FA63"), "16(4)A 250V~ SZM-V16-FA63")
    alone = likeness(_typed("SZM-V16-FA63"), "SZM-V16-FA63")

    assert 0.9 < inside < alone


def test_a_longer_text_of_one_word_has_no_parts() -> None:
    """The whole is compared."""
    assert likeness(_typed("V16"), "SZMV16FA63-LEVER") < 0.5


@given(st.text(min_size=1), st.text())
def test_likeness_never_passes_one(query: str, text: str) -> None:
    """No text is more like a query than the query itself."""
    assert all(likeness(typed, text) <= 1 for typed in readings(query))
