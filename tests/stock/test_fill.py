"""Service figures, against published numbers and against seeded simulation."""

from __future__ import annotations

import random

import pytest

from inventory.stock.counts import NegativeBinomial, Poisson
from inventory.stock.fill import (
    csl_continuous,
    csl_periodic,
    expected_backorders,
    expected_on_hand,
    fill_between,
    fill_one_for_one,
    fill_periodic,
    fill_rq,
    smallest_r,
)


@pytest.mark.parametrize(("r", "printed"), [(13, 0.864464), (14, 0.916542), (15, 0.951260)])
def test_superior_appliance(r: int, printed: float) -> None:
    """Hopp & Spearman, Factory Physics 2.4.2, theta = 10: G(13), G(14), G(15)."""
    assert fill_one_for_one(10, r) == pytest.approx(printed, abs=1e-6)
    assert csl_continuous(Poisson(10), r) == fill_one_for_one(10, r)


def test_smallest_r_reaches_its_target_and_one_less_does_not() -> None:
    """At mean 10, 15 is the first to reach 95 %."""
    r = smallest_r(10, 0.95)

    assert fill_one_for_one(10, r) >= 0.95 > fill_one_for_one(10, r - 1)


def test_backorders_step_down_by_the_tail() -> None:
    """B(0) = mean and B(S) = B(S-1) - P(D >= S). Source: reference section 1."""
    assert expected_backorders(0, 2.5) == pytest.approx(2.5)
    for S in range(1, 9):
        step = expected_backorders(S - 1, 2.5) - expected_backorders(S, 2.5)
        assert step == pytest.approx(Poisson(2.5).tail(S - 1))
    assert expected_on_hand(4, 2.5) == pytest.approx(4 - 2.5 + expected_backorders(4, 2.5))


def simulated_rq(r: int, Q: int, rate: float, L: float, events: int) -> tuple[float, float]:
    """Share of pieces filled at once and of time without debt, by playing the policy."""
    rng = random.Random(20)
    now, net, position, coming = 0.0, r + Q, r + Q, list[float]()
    filled, in_debt, last = 0, 0.0, 0.0
    for _ in range(events):
        now += rng.expovariate(rate)
        while coming and coming[0] <= now:
            arrived = coming.pop(0)
            in_debt += (arrived - last) * (net < 0)
            net, last = net + Q, arrived
        in_debt += (now - last) * (net < 0)
        last = now
        filled += net > 0
        net, position = net - 1, position - 1
        if position <= r:
            coming.append(now + L)
            position += Q
    return filled / events, 1 - in_debt / now


def test_simulation_agrees_on_lots() -> None:
    """(3, 5) with lead-time demand 3: fill .867 played over 100,000 requests, within .006."""
    served = fill_rq(3, 5, 3)
    fill, _ = simulated_rq(3, 5, 1.5, 2, 100_000)

    assert served.csl == pytest.approx(0.647232, abs=1e-6)
    assert served.fill == pytest.approx(0.867, abs=1e-3)
    assert fill == pytest.approx(served.fill, abs=0.006)


def test_lots_of_one_are_one_for_one() -> None:
    """(r, 1) fills as (S-1, S) does, and holds I(S)."""
    served = fill_rq(4, 1, 2.2)

    assert served.fill == pytest.approx(fill_one_for_one(2.2, 4))
    assert served.on_hand == pytest.approx(expected_on_hand(5, 2.2))


def test_a_negative_reorder_point_fills_less() -> None:
    """With r = -2 pieces are owed on purpose; everything still adds up."""
    served = fill_rq(-2, 3, 1.0)

    assert 0 < served.fill < fill_rq(0, 3, 1.0).fill
    assert served.on_hand - served.backorders == pytest.approx(-2 + 2 - 1.0)


def simulated_periodic(S: int, rate: float, L: int, periods: int) -> float:
    """Share of pieces filled at once, ordering up to S each period."""
    rng = random.Random(17)
    net, coming, filled, asked = S, [0] * (L + 1), 0, 0  # ordered at the next review
    for _ in range(periods):
        net += coming.pop(0)
        demand, t = 0, rng.expovariate(rate)
        while t < 1:
            demand, t = demand + 1, t + rng.expovariate(rate)
        filled += min(max(net, 0), demand)
        asked += demand
        net -= demand
        coming.append(demand)
    return filled / asked


def test_simulation_agrees_on_the_exact_fill_and_not_on_the_textbook() -> None:
    """Schmears shirts, S = 9: exact .91071, textbook .892494; played: .911 within .004."""
    exact, textbook = fill_periodic(9, 1.5, 3)
    played = simulated_periodic(9, 1.5, 3, 60_000)

    assert (exact, textbook) == pytest.approx((0.91071, 0.892494), abs=1e-5)
    assert played == pytest.approx(exact, abs=0.004)
    assert abs(played - textbook) > 0.01


def test_fill_works_for_any_demand_and_for_none() -> None:
    """Wider demand fills less; no demand is all filled."""
    poisson = fill_between(Poisson(2), Poisson(4), 5)
    wide = fill_between(NegativeBinomial(2, 0.5), NegativeBinomial(4, 0.5), 5)

    assert 0 < wide < poisson < 1
    assert fill_between(Poisson(0), Poisson(0), 0) == 1.0


def test_no_shortage_and_filled_at_once_are_different_figures() -> None:
    """The same level, two answers: both are given to the shop."""
    assert csl_periodic(Poisson(6), 8) != pytest.approx(fill_periodic(8, 1.5, 3).exact, abs=0.01)
