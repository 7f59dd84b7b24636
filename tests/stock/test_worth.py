"""Marginal values and pull decisions, against the reference's example and simulation."""

from __future__ import annotations

import random
from itertools import pairwise

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.integrate import quad

from inventory.errors import WrongInput
from inventory.stock.demand import GammaPoisson
from inventory.stock.worth import (
    Money,
    Pull,
    keep_max,
    marginal_value,
    marginal_value_expected,
    pull_list,
    pull_until,
    pull_value,
    waiting_time,
    waiting_time_poisson,
)

RATE = GammaPoisson(6.5, 10)
"""Six uses in eight months on the prior Gamma(.5, 2)."""

MONEY = Money(v=32, g=0.5, h=0.25)
PRINTED = [31.36, 30.27, 28.51, 26.06, 23.03, 19.66, 16.20, 12.87, 9.82]
"""MV(0) to MV(8). Source: reference section 3 (S41)."""


def test_the_worked_example() -> None:
    """MV falls from 31.36 to 9.82; pulling pays while fewer than eight lie there."""
    assert [round(marginal_value(s, RATE, MONEY), 2) for s in range(9)] == PRINTED
    assert pull_until(RATE, MONEY, q=0.75, cost=9) == 8


def test_simulation_agrees_with_mv_2() -> None:
    """Reference S43: 28.512 by formula; played 40,000 times within .12 here."""
    rng, total, draws = random.Random(43), 0.0, 40_000
    for _ in range(draws):
        lam = rng.gammavariate(RATE.a, 1 / RATE.b)
        used_at = sum(rng.expovariate(lam) for _ in range(3))
        total += 32 if used_at <= 12 else 0.5
        total -= 0.25 * min(used_at, 12)

    assert marginal_value(2, RATE, MONEY) == pytest.approx(28.512, abs=5e-4)
    assert total / draws == pytest.approx(28.512, abs=0.12)


@settings(max_examples=30, deadline=None)
@given(st.floats(0.3, 40), st.floats(0.05, 40), st.integers(1, 25), st.floats(0.5, 36))
def test_waiting_is_the_integral(a: float, b: float, k: int, H: float) -> None:
    """E[min(T_k, H)] = int P(N_t <= k-1) dt, by scipy's adaptive quadrature."""
    rate = GammaPoisson(a, b)
    expected = quad(lambda t: rate.over(t).cdf(k - 1), 0, H, limit=300)[0]

    assert waiting_time(k, rate, H) == pytest.approx(expected, rel=1e-6)


def test_a_known_rate_waits_as_poisson() -> None:
    """A Gamma worth a million months is a point; the closed form must agree."""
    sure = GammaPoisson(0.6e6, 1e6)

    assert waiting_time(3, sure, 12) == pytest.approx(waiting_time_poisson(3, 0.6, 12), rel=1e-5)
    assert waiting_time(0, RATE, 12) == 0


@given(st.floats(0.3, 20), st.floats(0.5, 20), st.floats(1, 100), st.floats(0, 0.9))
def test_each_further_piece_is_worth_less(a: float, b: float, v: float, scrap: float) -> None:
    """MV never rises with the stock, so taking the best next piece is right."""
    money = Money(v, scrap * v, 0.01 * v)
    values = [marginal_value(s, GammaPoisson(a, b), money) for s in range(8)]

    assert all(one >= other - 1e-9 for one, other in pairwise(values))


def test_without_shelf_cost_there_is_a_closed_form() -> None:
    """Kappa .365079, keep 9. Source: S42."""
    found = keep_max(post_a=6.5, post_b=10, q=0.75, cost=9, v=32, g=0.5, H=12)

    assert found == pytest.approx((0.365079, 9), abs=1e-6)
    assert pull_until(RATE, Money(32, 0.5, 0), q=0.75, cost=9) == 9


def test_untested_pieces_count_by_their_chances() -> None:
    """Half a chance of one more good piece: the mean of MV(2) and MV(3)."""
    half = marginal_value_expected(2, RATE, MONEY, [0.5, 0.5])
    both = marginal_value(2, RATE, MONEY), marginal_value(3, RATE, MONEY)

    assert half == pytest.approx(sum(both) / 2)


def test_a_pull_that_costs_more_than_it_brings_is_refused() -> None:
    """Q MV(8) = 7.36 against 9.00 of bench time."""
    at_eight = pull_value(8, post_a=6.5, post_b=10, v=32, g=0.5, h=0.25, q=0.75, cost=9)

    assert not at_eight.pull
    assert at_eight.gain == pytest.approx(0.75 * 9.82 - 9, abs=0.005)


def test_the_list_is_sorted_by_value_per_minute() -> None:
    """A quick cheap pull may come before a slow dear one; the second of a kind comes later."""
    quick = Pull("fuse holder", 0, RATE, Money(8), 0.9, 2, pieces=2)
    slow = Pull("transformer", 0, RATE, Money(60), 0.9, 40)
    none = Pull("lamp", 30, RATE, Money(3), 0.9, 10)

    found = pull_list([slow, none, quick], wage=36)

    assert [(name, nth) for name, nth, _ in found] == [
        ("fuse holder", 1),
        ("fuse holder", 2),
        ("transformer", 1),
    ]


def test_the_list_does_not_depend_on_the_order_given() -> None:
    """Sorted by value per minute, then by name."""
    pulls = [Pull(name, 1, RATE, Money(20), 0.8, 10) for name in "cab"]

    assert pull_list(pulls, wage=30) == pull_list(pulls[::-1], wage=30)


def test_impossible_figures_are_refused() -> None:
    """No time, no gain, a share above one."""
    with pytest.raises(WrongInput, match="minutes must be above zero"):
        pull_value(0, post_a=1, post_b=2, v=1, cost=0, minutes=0)
    with pytest.raises(WrongInput, match="gain must be above zero"):
        keep_max(post_a=1, post_b=2, q=0.5, cost=1, v=1, g=2)
    with pytest.raises(WrongInput, match="H must be above zero"):
        waiting_time(1, RATE, 0)
    with pytest.raises(WrongInput, match="s must not be below zero"):
        marginal_value(-1, RATE, MONEY)
