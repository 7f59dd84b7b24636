"""What is filed can be found again after slips, by bounded work."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from inventory.matching.keys import code_key
from inventory.matching.seeds import (
    BACKWARDS,
    FORWARDS,
    LONGEST_KEY,
    SHORT,
    WORD,
    key_of,
    probes,
    seeds,
)

CODE = "SZM-V16-FA-63"


def _meets(typed: str, text: str) -> bool:
    """Whether a probe looks under a seed of the text, other than the two full orders."""
    filed = {seed for seed, _ in seeds(text)} - {FORWARDS, BACKWARDS}
    return bool(filed & {probe.seed for probe in probes(key_of(typed))})


def test_a_text_is_filed_by_its_beginning_and_by_its_end() -> None:
    """The two full orders hold the whole key, forwards and backwards."""
    key = code_key(CODE)

    assert (FORWARDS, key) in seeds(CODE)
    assert (BACKWARDS, key[::-1]) in seeds(CODE)


def test_a_text_without_a_sign_is_not_filed() -> None:
    """There is nothing to find it by."""
    assert seeds("  -/~ ") == set()
    assert list(probes("")) == []


def test_a_word_with_digits_is_filed_on_its_own() -> None:
    """A type code inside a longer marking can be found alone; plain words cannot."""
    words = {key for seed, key in seeds("16A 250V~ SZM-V16 lever") if seed == WORD}

    assert words == {code_key("250V"), code_key("SZM-V16")}


@pytest.mark.parametrize("short", ["V16", "D4", "KSD9", "A", "7"])
def test_short_codes_share_a_seed_after_a_slip(short: str) -> None:
    """Codes of one to four signs are found with a sign doubled or, from two on, missed."""
    assert _meets(short, short)
    assert _meets(short + short[-1], short)
    assert len(short) == 1 or _meets(short[1:], short)


@pytest.mark.parametrize("at", range(9))
@pytest.mark.parametrize("other", range(9))
def test_two_missed_signs_leave_a_seed_in_common(at: int, other: int) -> None:
    """Wherever two signs are missed in a code of ten, a pair of pieces or one full order holds."""
    key = "7A30519HK2"
    kept = [sign for place, sign in enumerate(key) if place not in (at, other)]
    typed = "".join(kept)

    near = typed[:4] == key[:4] or typed[-4:] == key[-4:]  # a neighbour in one of the full orders
    assert near or _meets(typed, key)


def test_a_swap_is_undone_before_looking() -> None:
    """The neighbours of the right key are read for a key with two signs changed over."""
    assert any(p.seed == FORWARDS and p.key == "7A30519" for p in probes("7A03519"))


def test_a_guess_costs_less_than_a_thorough_look() -> None:
    """Second readings of a query are looked for with fewer probes."""
    thorough, guess = (list(probes("SZMV16FA63", thorough=t)) for t in (True, False))

    assert len(guess) < len(thorough)


@given(st.text())
def test_any_text_is_filed_under_a_bounded_number_of_seeds(text: str) -> None:
    """No Unicode text raises, and none fills the index."""
    filed = seeds(text)

    assert len(filed) <= 2 + 8 + 37 + 5
    assert all(key and len(key) <= LONGEST_KEY and seed >= 0 for seed, key in filed)


@given(st.text())
def test_any_query_is_looked_for_by_bounded_work(text: str) -> None:
    """The number of rows that are read has a limit whatever is typed."""
    asked = list(probes(key_of(text)))

    assert len(asked) < 700
    assert sum(probe.reach * 2 for probe in asked) < 20_000
    assert all(probe.seed >= 0 for probe in asked)


def test_the_same_piece_is_looked_for_once() -> None:
    """In a run of one sign all shifts are alike."""
    asked = [(probe.seed, probe.key) for probe in probes("1111111111")]

    assert len(asked) == len(set(asked))


def test_only_short_keys_are_filed_with_signs_left_out() -> None:
    """Longer ones have pieces enough."""
    assert not {seed for seed, _ in seeds("WB27X10930") if seed % 16 == SHORT}
