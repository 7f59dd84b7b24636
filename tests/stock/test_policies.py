"""Stock rules of the back-test, all items at once, against the formulas for one."""

from __future__ import annotations

import numpy as np
import pytest

from inventory.stock.backtest import Rule
from inventory.stock.chosen import CHOICES, gamma_poisson_chosen, likeliest_discounts
from inventory.stock.counts import by_moments
from inventory.stock.demand import PRIOR, discounted
from inventory.stock.intermittent import croston, sba, tsb
from inventory.stock.lumpy import busy_months, compound_by_moments, compound_exact
from inventory.stock.peers import (
    croston_forecasts,
    croston_normal,
    sba_poisson,
    tsb_forecasts,
    tsb_poisson,
)
from inventory.stock.policies import (
    empirical,
    fixed,
    gamma_poisson,
    nb_mean_variance,
    normal,
    poisson_mean,
)

DEMAND = np.random.default_rng(1).negative_binomial(0.4, 0.35, (25, 20)).astype(float)
"""25 items x 20 months: too few with history for a fitted prior."""

RULES: list[Rule] = [
    normal(),
    normal(6),
    poisson_mean(),
    nb_mean_variance(),
    empirical(),
    croston_normal(),
    sba_poisson(),
    tsb_poisson(),
    gamma_poisson(),
    gamma_poisson_chosen(),
    compound_by_moments(),
    compound_exact(),
    busy_months(),
]


@pytest.mark.parametrize("rule", [*RULES, fixed(2)])
def test_every_rule_gives_a_level_for_each_item_and_month(rule: Rule) -> None:
    """Whole pieces, none negative, one column a month after the warm-up."""
    S = rule(DEMAND, 12, 2, 0.95).S

    assert S.shape == (25, 8)
    assert (S >= 0).all()
    assert (np.round(S) == S).all()


@pytest.mark.parametrize("rule", [r for i, r in enumerate(RULES) if i != 4])
def test_a_claim_is_at_least_the_target(rule: Rule) -> None:
    """Whole pieces overshoot; the claim is the share at the level kept."""
    claimed = rule(DEMAND, 12, 2, 0.9).claimed

    assert claimed is not None
    assert (claimed >= 0.9 - 1e-9).all()
    assert (claimed <= 1 + 1e-12).all()


@pytest.mark.parametrize("rule", RULES)
def test_never_used_items_do_no_harm(rule: Rule) -> None:
    """Items without any demand get a small level, not a missing one."""
    S = rule(np.zeros((3, 20)), 12, 2, 0.95).S

    assert (S <= 3).all()


def test_our_rule_is_the_formula() -> None:
    """Item by item: prior after the discounted history, quantile over P months."""
    S = gamma_poisson(0.95)(DEMAND, 12, 2, 0.95).S
    for item in range(25):
        seen = discounted(DEMAND[item, :15].tolist(), 0.95, first_age=1)
        assert S[item, 3] == PRIOR.after(seen.n, seen.T).over(2).quantile(0.95)


def test_vectorised_smoothing_is_the_plain_one() -> None:
    """Croston and TSB for all items equal the one-series functions."""
    many_c, many_t = croston_forecasts(DEMAND), tsb_forecasts(DEMAND)
    for item in range(25):
        y = DEMAND[item].tolist()
        assert many_c[-1][item] == pytest.approx(croston(y).forecast)
        assert 0.95 * many_c[-1][item] == pytest.approx(sba(y).forecast)
        assert many_t[-1][item] == pytest.approx(tsb(y).forecast)


def test_moments_are_the_formula() -> None:
    """NB by the sample's mean and variance over two months."""
    S = nb_mean_variance()(DEMAND, 12, 2, 0.95).S
    past = DEMAND[7, :12]
    counts = by_moments(2 * past.mean(), 2 * past.var(ddof=1))

    assert S[7, 0] == counts.quantile(0.95)


def test_targets_may_differ_from_item_to_item() -> None:
    """A price-aware shop aims differently at each."""
    targets = np.where(np.arange(25) < 12, 0.5, 0.99)
    both = gamma_poisson()(DEMAND, 12, 2, targets).S

    assert (both[:12] == gamma_poisson()(DEMAND, 12, 2, 0.5).S[:12]).all()
    assert (both[12:] == gamma_poisson()(DEMAND, 12, 2, 0.99).S[12:]).all()


def test_known_jobs_take_the_place_of_busy_months() -> None:
    """Three jobs of one piece are not one job of three."""
    demand = np.tile([3.0, 0, 0, 0], (25, 5))
    jobs = demand.copy()
    as_one, as_three = (
        compound_exact()(demand, 12, 2, 0.95),
        compound_exact(jobs=jobs)(demand, 12, 2, 0.95),
    )

    assert as_three.S.mean() < as_one.S.mean()


def test_steady_demand_keeps_long_memory_and_a_drift_shortens_it() -> None:
    """The shelf picks its discount by what its forecasts were worth."""
    rng = np.random.default_rng(7)
    rates = rng.gamma(0.8, 1.0, 150)
    steady = rng.poisson(rates[:, None], (150, 32)).astype(float)
    rising = rng.poisson(np.linspace(0.05, 2.5, 32)[None, :], (150, 32)).astype(float)

    assert likeliest_discounts(steady, 2)[-1] == max(CHOICES)
    assert likeliest_discounts(rising, 2)[-1] == min(CHOICES)
