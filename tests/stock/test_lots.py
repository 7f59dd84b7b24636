"""Policies with an order cost, against published optima and brute force."""

from __future__ import annotations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from inventory.errors import WrongInput
from inventory.stock.lots import economic_lot, rq_cost, rq_policy, ss_policy

# h, p, K, rate, L -> r, Q, cost. Source: Snyder & Shen 2e, example 5.8 and problem 5.2.
RQ = [((20, 150, 100, 1.5, 2), (3, 5, 107.92358)), ((4, 28, 4, 12, 0.5), (6, 7, 28.24131))]

# h, p, K, mean -> s, S, cost. Source: Snyder & Shen 2e, example 4.7 with K = 5 and problem 4.31;
# Zheng & Federgruen 1991, table, as carried by stockpyl (MIT).
SS = [
    ((1, 4, 5, 6), (4, 10, 8.034112)),
    ((40, 125, 150, 4), (2, 7, 223.5748)),
    ((1, 9, 64, 21), (15, 65, 50.406)),
]


@pytest.mark.parametrize(("terms", "published"), RQ)
def test_published_lot_policies(terms: tuple[float, ...], published: tuple[float, ...]) -> None:
    """r, Q and cost as printed."""
    h, p, K, rate, L = terms
    assert rq_policy(h=h, p=p, K=K, rate=rate, L=L) == pytest.approx(published, abs=1e-4)


@pytest.mark.parametrize(("terms", "published"), SS)
def test_published_up_to_policies(terms: tuple[float, ...], published: tuple[float, ...]) -> None:
    """s, S and cost as printed."""
    h, p, K, mean = terms
    assert ss_policy(h=h, p=p, K=K, mean=mean) == pytest.approx(published, abs=1e-3)


@settings(max_examples=25, deadline=None)
@given(st.floats(0.5, 5), st.floats(5, 50), st.floats(0, 30), st.floats(0.2, 4), st.floats(0, 2))
def test_no_other_lot_is_cheaper(h: float, p: float, K: float, rate: float, L: float) -> None:
    """The search finds what trying all (r, Q) near it finds."""
    r, Q, cost = rq_policy(h, p, K, rate, L)
    tried = [
        rq_cost(h, p, K, rate, L, r=r + dr, Q=Q + dQ)
        for dr in range(-3, 4)
        for dQ in range(-3, 4)
        if Q + dQ >= 1
    ]

    assert cost <= min(tried) + 1e-9


def test_without_order_cost_pieces_are_ordered_singly() -> None:
    """K = 0 gives Q = 1."""
    assert rq_policy(1, 9, 0, 1, 1).Q == 1


def test_lots_of_nothing_are_refused() -> None:
    """Q must be one at least; a rate must be above zero."""
    with pytest.raises(WrongInput, match="Q must be above zero"):
        rq_cost(1, 9, 5, 1, 1, r=0, Q=0)
    with pytest.raises(WrongInput, match="rate must be above zero"):
        rq_policy(1, 9, 5, 0, 1)


def test_the_square_root_formula() -> None:
    """Harris 1913: sqrt(2 x 2 x 5 / 0.2) = 10; never less than one."""
    assert economic_lot(2, 5, 0.2) == 10
    assert economic_lot(0.01, 1, 50) == 1
