"""From history to demand, and from price to target."""

from __future__ import annotations

from dataclasses import replace

import pytest

from inventory.stock.asked import Month
from inventory.stock.demand import PRIOR, GammaPoisson, discounted
from inventory.stock.need import LEAST_TARGET, MOST_TARGET, demand_of, known_shelf, target_of
from tests.stock.parts import NOW, SETTINGS, part

SHELF = known_shelf([part()], SETTINGS)


def test_a_history_is_discounted_and_added_to_the_prior() -> None:
    """Six jobs in the last six of 24 months at 0.95 a month."""
    demand = demand_of(part(jobs=6), SHELF, SETTINGS)
    seen = discounted([0] * 18 + [1] * 6, 0.95, first_age=1)

    assert demand.rate.a == pytest.approx(0.5 + seen.n)
    assert demand.rate.b == pytest.approx(2 + seen.T)
    assert demand.basis == "6 jobs in 24 months"


def test_a_part_that_came_today_has_the_prior_only() -> None:
    """It says so."""
    demand = demand_of(part(months=0), SHELF, SETTINGS)

    assert demand.rate == PRIOR
    assert demand.basis == "no history: prior only"


def test_never_used_is_not_the_same_as_no_history() -> None:
    """24 months without a job lower the rate."""
    demand = demand_of(part(), SHELF, SETTINGS)

    assert demand.basis == "never used in 24 months"
    assert demand.per_month < PRIOR.mean / 5


def test_the_month_under_way_counts_as_far_as_it_is_over() -> None:
    """A job this month adds one job and half a month."""
    half = replace(SETTINGS, month_gone=0.5)
    used = part(history=(Month(NOW, 1, 1),))

    before, after = demand_of(part(), SHELF, SETTINGS), demand_of(used, SHELF, half)

    assert after.rate.a == pytest.approx(before.rate.a + 1)
    assert after.rate.b == pytest.approx(before.rate.b + 0.5)


def test_jobs_that_use_several_are_compound() -> None:
    """Two pieces a job: more a month, and a wider spread than single pieces."""
    pairs, singles = part(1, jobs=8, pieces=2), part(2, jobs=8)
    shelf = known_shelf([pairs, singles], SETTINGS)
    two, one = demand_of(pairs, shelf, SETTINGS), demand_of(singles, shelf, SETTINGS)

    assert two.extra is not None
    assert one.extra is None
    assert two.per_month == pytest.approx(2 * one.per_month, rel=0.01)
    assert two.over(2).quantile(0.95) > one.over(2).quantile(0.95)
    assert two.spread == pytest.approx(two.over(1).variance ** 0.5, rel=1e-6)
    assert two.over(0).quantile(0.9) == 0


def test_single_pieces_of_a_compound_keep_mean_and_spread() -> None:
    """For the pull decision a job of two is two pieces."""
    pairs = part(1, jobs=8, pieces=2)
    two = demand_of(pairs, known_shelf([pairs], SETTINGS), SETTINGS)
    one = demand_of(part(jobs=8), SHELF, SETTINGS)

    assert two.as_pieces().over(1).mean == pytest.approx(two.per_month)
    assert two.as_pieces().over(1).variance == pytest.approx(two.spread**2)
    assert one.as_pieces() == one.rate


def test_the_bounds_hold_the_mean() -> None:
    """More history narrows them."""
    short, long = part(jobs=3, months=6), part(jobs=20, months=24)
    (low, high), (lower, higher) = (
        demand_of(one, SHELF, SETTINGS).between() for one in (short, long)
    )

    assert low < demand_of(short, SHELF, SETTINGS).per_month < high
    assert higher / lower < high / low


def test_the_prior_is_learned_from_thirty_part_types_on() -> None:
    """Below, the default, with the reason; the shop's own setting wins."""
    few, many = [part(i, jobs=1) for i in range(29)], [part(i, jobs=2) for i in range(40)]

    assert known_shelf(few, SETTINGS).prior == PRIOR
    assert "29 part types with history" in known_shelf(few, SETTINGS).prior_from
    assert known_shelf(many, SETTINGS).prior_from == "learned from 40 part types"
    own = replace(SETTINGS, prior=GammaPoisson(1, 4))
    assert known_shelf(many, own).prior == GammaPoisson(1, 4)


def test_a_part_at_the_middle_price_gets_the_shops_service() -> None:
    """Cheaper parts get more, dearer ones less. Source: reference section 0."""
    parts = [part(i, price_cents=price) for i, price in enumerate((100, 500, 9000))]
    shelf = known_shelf(parts, SETTINGS)
    cheap, middle, dear = (target_of(one, shelf, SETTINGS)[0] for one in parts)

    assert middle == pytest.approx(0.95)
    assert cheap > 0.95 > dear


def test_a_shortage_cost_set_by_the_shop_decides() -> None:
    """Price 40.00, 2 % a month, 20.00 a month short: .961538. Source: S21."""
    own = replace(SETTINGS, shortage_cents=2000)
    one = part(price_cents=4000)

    target, words = target_of(one, known_shelf([one], own), own)

    assert target == pytest.approx(0.961538, abs=1e-6)
    assert words == "price against shortage"


def test_targets_stay_within_bounds() -> None:
    """A washer is not kept for every month of eternity, nor a magnetron for none."""
    own = replace(SETTINGS, shortage_cents=1000)
    shelf = known_shelf([part(price_cents=1)], own)

    assert target_of(part(price_cents=1), shelf, own)[0] == MOST_TARGET
    assert target_of(part(price_cents=10**8), shelf, own)[0] == LEAST_TARGET


def test_without_a_price_the_service_level_set_is_the_target() -> None:
    """... and a level set for the part itself comes before its price."""
    shelf = known_shelf([part(price_cents=100)], SETTINGS)

    assert target_of(part(), shelf, SETTINGS) == (0.95, "the service level set")
    assert target_of(part(service=0.8, price_cents=100), shelf, SETTINGS)[0] == 0.8
