"""The Gamma-Poisson model: levels, discounting, posterior."""

from __future__ import annotations

import random

import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy import stats

from inventory.errors import WrongInput
from inventory.stock.counts import Poisson
from inventory.stock.demand import (
    PRIOR,
    GammaPoisson,
    Seen,
    discounted,
    discounted_months,
    gamma_poisson_level,
    plug_in_level,
)


def test_levels_of_the_reference() -> None:
    """Reference section 2: n0 T0 gives 1 and 2, n6 T8 gives 2 and 4 at P = 1 and 2 months."""
    assert [gamma_poisson_level(P=P) for P in (1, 2)] == [1, 2]
    assert [gamma_poisson_level(6, 8, P=P) for P in (1, 2)] == [2, 4]


def test_not_knowing_the_rate_costs_a_piece() -> None:
    """Reference S35: 2 uses in 3 months, prior (.5, 1), 2 months: 4 pieces, the plug-in says 3."""
    assert gamma_poisson_level(2, 3, a=0.5, b=1, P=2) == 4
    assert plug_in_level(2, 3, P=2) == 3


def test_a_flat_prior_is_useless_without_history() -> None:
    """Reference S34: Gamma(.5, .01) asks for 193 pieces of a part nobody ever used."""
    assert gamma_poisson_level(a=0.5, b=0.01) == 193


@given(st.integers(0, 40), st.floats(0, 60), st.floats(0.5, 6))
def test_the_predictive_is_scipys_negative_binomial(n: int, T: float, P: float) -> None:
    """D_P ~ NB(a + n, (b + T)/(b + T + P)), by quantile and by moments."""
    rate = GammaPoisson(0.5, 2).after(n, T)
    share = (2 + T) / (2 + T + P)

    assert rate.over(P).quantile(0.95) == stats.nbinom.ppf(0.95, 0.5 + n, share)
    assert rate.over(P).mean == pytest.approx(rate.mean * P)
    assert rate.over(P).variance == pytest.approx(rate.mean * P * (1 + P / rate.b))


def test_simulation_agrees_with_the_predictive() -> None:
    """Drawing a rate and then Poisson counts gives the share the level promises."""
    rng = random.Random(5)
    rate, level = GammaPoisson(6.5, 10), gamma_poisson_level(6, 8, P=2)
    draws = 20_000
    held = 0
    for _ in range(draws):
        lam, uses, t = rng.gammavariate(rate.a, 1 / rate.b), 0, 0.0
        while (t := t + rng.expovariate(lam)) < 2:
            uses += 1
        held += uses <= level

    assert held / draws == pytest.approx(rate.over(2).cdf(level), abs=0.006)


def test_more_history_brings_the_level_to_the_plug_in() -> None:
    """With 500 months the prior and the doubt are gone."""
    assert gamma_poisson_level(300, 500, P=2) == plug_in_level(300, 500, P=2)


@given(st.lists(st.integers(0, 5), max_size=30), st.floats(0.5, 1.0), st.integers(0, 2))
def test_discounting_is_its_sum(y: list[int], w: float, age: int) -> None:
    """N = sum w^age y and T = sum w^age, the last month having the first age."""
    seen = discounted(y, w, age)
    ages = [age + len(y) - 1 - i for i in range(len(y))]

    assert seen.n == pytest.approx(sum(w**k * use for k, use in zip(ages, y, strict=True)))
    assert pytest.approx(sum(w**k for k in ages)) == seen.T


@given(st.lists(st.integers(0, 5), max_size=30), st.floats(0.5, 1.0) | st.just(1.0))
def test_the_sparse_sum_is_the_same(y: list[int], w: float) -> None:
    """Empty months left out, uses outside the span ignored."""
    first = 100
    uses = [(first + i, use) for i, use in enumerate(y) if use]
    outside = [(first - 1, 9.0), (first + len(y), 9.0)]
    seen = discounted_months([*uses, *outside], first, first + len(y), w)

    assert seen == pytest.approx(discounted(y, w, first_age=1))


def test_a_month_not_yet_over_is_no_month() -> None:
    """Nothing was seen of a part type that came this month."""
    assert discounted_months([], first=5, now=5) == Seen(0.0, 0.0)
    assert discounted_months([], first=9, now=5) == Seen(0.0, 0.0)


def test_half_life_of_the_default_discount() -> None:
    """0.95 a month halves a month's weight in 13.5 months (reference section 0)."""
    assert pytest.approx(0.5, abs=0.001) == 0.95**13.5


def test_the_rate_has_scipys_gamma_quantiles() -> None:
    """5 % and 95 % of Gamma(6.5, 10), and the chance to be above 1."""
    rate = GammaPoisson(6.5, 10)

    assert rate.rate_quantile(0.05) == pytest.approx(stats.gamma.ppf(0.05, 6.5, scale=0.1))
    assert rate.rate_above(1) == pytest.approx(stats.gamma.sf(1, 6.5, scale=0.1))


def test_no_time_asks_for_nothing() -> None:
    """P = 0 is certain to be zero."""
    assert PRIOR.over(0) == Poisson(0)


@pytest.mark.parametrize(("a", "b"), [(0, 2), (0.5, 0), (-1, 2), (0.5, float("inf"))])
def test_an_improper_prior_is_refused(a: float, b: float) -> None:
    """Shape and months must be above zero and finite."""
    with pytest.raises(WrongInput, match="must be above zero"):
        GammaPoisson(a, b)


def test_impossible_histories_are_refused() -> None:
    """Negative uses, or a weight above one."""
    with pytest.raises(WrongInput, match="n must not be below zero"):
        PRIOR.after(-1, 2)
    with pytest.raises(WrongInput, match="w must lie between 0 and 1"):
        discounted([1], w=1.2)
    with pytest.raises(WrongInput, match="T must be above zero"):
        plug_in_level(1, 0)
