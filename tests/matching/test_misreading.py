"""Slips cost what they are likely to be."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from inventory.matching.keys import spaced
from inventory.matching.misreading import (
    ADDED,
    DOUBLED,
    MISSED,
    OTHER_SIGN,
    SWAPPED,
    slips,
    spaced_slips,
)

CODES = st.text("0123456789ABCDEFGHIJKLMNOPQRSTUVWXYZ-", max_size=16)


@pytest.mark.parametrize(
    ("typed", "marking", "cost"),
    [
        ("WB27X10930", "WB27X10930", 0.0),
        ("WB27X1930", "WB27X10930", MISSED),
        ("WB27X110930", "WB27X10930", DOUBLED),
        ("WB27X109K30", "WB27X10930", ADDED),
        ("WB2X710930", "WB27X10930", SWAPPED),
        ("WB27X1093W", "WB27X10930", OTHER_SIGN),
        ("WB27X1O930", "WB27X10930", 0.4),
        ("", "AB", 2 * MISSED),
        ("AB", "", 2 * ADDED),
    ],
)
def test_each_slip_costs_its_own(typed: str, marking: str, cost: float) -> None:
    """One slip, one cost, as the table at the top of the module says."""
    assert slips(typed, marking) == pytest.approx(cost)


def test_a_dropped_hyphen_costs_less_than_any_sign() -> None:
    """Separators are left out all the time."""
    assert 0 < slips("DE5900002A", "DE59-00002A") < 0.4


def test_a_lost_decimal_point_costs_more_than_a_hyphen() -> None:
    """2.5 A is not 25 A."""
    assert slips("T25A", "T2.5A") > slips("DE5900002A", "DE59-00002A")


def test_an_unreadable_end_costs_little_more_than_one_slip() -> None:
    """A worn end is one event, however many signs it takes."""
    assert slips("WB27X", "WB27X10930") < 2 * MISSED


def test_the_right_code_is_nearer_than_its_neighbours() -> None:
    """A real reading: R-l 85OA on a plate was R-1850A (reference/parts.md 3.2)."""
    assert slips("R-l 85OA", "R-1850A") < slips("R-l 85OA", "R-1856A")


@given(CODES)
def test_a_text_is_no_slip_from_itself(code: str) -> None:
    """Nothing typed wrong costs nothing."""
    assert slips(code, code) == 0


@given(CODES, CODES)
def test_different_texts_are_some_slips_apart(one: str, other: str) -> None:
    """Only what is written alike costs nothing, and no cost is below zero."""
    assert slips(one, other) >= 0
    assert (slips(one, other) == 0) == (spaced(one) == spaced(other))


@given(st.text(max_size=60), st.text(max_size=60))
def test_any_text_can_be_compared(one: str, other: str) -> None:
    """No Unicode text raises, and the cost is bounded by leaving all out and adding all."""
    assert slips(one, other) <= ADDED * len(one) * 18 + MISSED * len(other) * 18


def _plainly(typed: str, marking: str) -> float:
    """The same distance by recursion, for short texts, without the end that may be cut."""
    from functools import cache

    from inventory.matching import misreading as m

    @cache
    def cost(i: int, j: int) -> float:
        if i == 0 or j == 0:
            missed = sum(m._MISSED[sign] for sign in marking[:j])
            return missed + sum(_added(at) for at in range(i))
        best = min(
            cost(i - 1, j - 1) + m._COSTS[typed[i - 1]][marking[j - 1]],
            cost(i - 1, j) + _added(i - 1),
            cost(i, j - 1) + m._MISSED[marking[j - 1]],
        )
        if i > 1 and j > 1 and typed[i - 1] == marking[j - 2] and typed[i - 2] == marking[j - 1]:
            best = min(best, cost(i - 2, j - 2) + SWAPPED)
        return best

    def _added(at: int) -> float:
        return m._added(typed[at], typed[at - 1] if at else "", typed[at + 1 : at + 2])

    return cost(len(typed), len(marking))


@given(st.text("018OBIAK-", max_size=7), st.text("018OBIAK-", min_size=0, max_size=4))
def test_the_table_agrees_with_the_definition(typed: str, marking: str) -> None:
    """Row by row or by recursion, one distance; cutting a shared beginning changes nothing."""
    assert spaced_slips(typed, marking) == pytest.approx(_plainly(typed, marking))
