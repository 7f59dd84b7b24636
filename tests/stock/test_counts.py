"""Distributions of counts, against scipy."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy import stats

from inventory.errors import WrongInput
from inventory.stock.counts import (
    Counts,
    Listed,
    NegativeBinomial,
    Poisson,
    by_moments,
    geometric_sizes,
)

MEANS = st.floats(0.01, 400)
SHARES = st.floats(0.02, 0.98)


@given(MEANS, SHARES)
def test_poisson_quantiles_agree_with_scipy(mean: float, q: float) -> None:
    """Smallest x with F(x) >= q."""
    assert Poisson(mean).quantile(q) == stats.poisson.ppf(q, mean)


@given(st.floats(0.05, 60), SHARES, SHARES)
def test_negative_binomial_quantiles_agree_with_scipy(r: float, p: float, q: float) -> None:
    """... for any real shape."""
    assert NegativeBinomial(r, p).quantile(q) == stats.nbinom.ppf(q, r, p)


@given(st.floats(0.05, 60), SHARES, st.integers(0, 80))
def test_negative_binomial_tails_agree_with_scipy(r: float, p: float, x: int) -> None:
    """P(X <= x) and P(X > x)."""
    ours = NegativeBinomial(r, p)

    assert ours.cdf(x) == pytest.approx(stats.nbinom.cdf(x, r, p), abs=1e-10)
    assert ours.tail(x) == pytest.approx(stats.nbinom.sf(x, r, p), abs=1e-10)


def test_a_large_mean_does_not_underflow() -> None:
    """e^-mean is zero in floating point above 745; the sum starts where terms matter."""
    assert Poisson(5000).quantile(0.95) == stats.poisson.ppf(0.95, 5000)
    assert Poisson(5000).loss(5000)[0] == pytest.approx(28.2, abs=0.1)  # sd / sqrt(2 pi)


@given(MEANS, st.integers(0, 60))
def test_shortage_and_left_over_differ_by_what_was_there(mean: float, x: int) -> None:
    """With x pieces: x - E[X] = left-over - shortage, and neither is negative."""
    short, left = Poisson(mean).loss(x)

    assert left - short == pytest.approx(x - mean, abs=1e-8)
    assert short >= 0
    assert left >= 0


@given(st.floats(0.1, 20), st.floats(1.01, 6))
def test_moments_come_back(mean: float, spread: float) -> None:
    """NB by moments has the mean and variance it was made from."""
    counts = by_moments(mean, mean * spread)

    assert counts.mean == pytest.approx(mean)
    assert counts.variance == pytest.approx(mean * spread)


def test_no_spread_beyond_poisson_is_poisson() -> None:
    """A variance up to the mean has no negative binomial."""
    assert by_moments(2.0, 1.5) == Poisson(2.0)
    assert by_moments(0.0, 1.0) == Poisson(0.0)


def test_nothing_expected_is_nothing_kept() -> None:
    """A mean of zero puts all weight on zero."""
    assert Poisson(0).quantile(0.99) == 0
    assert Poisson(0).pmf(1) == 0
    assert NegativeBinomial(2, 1).pmf(0) == 1
    assert NegativeBinomial(2, 1).pmf(3) == 0


@pytest.mark.parametrize("counts", [Poisson(2), NegativeBinomial(2, 0.5), Listed((0.5, 0.5))])
def test_below_zero_there_is_nothing(counts: Counts) -> None:
    """A count is never negative."""
    assert counts.pmf(-1) == 0
    assert counts.cdf(-1) == 0


def test_a_list_has_its_own_moments() -> None:
    """Mean and variance of a fair choice between 0 and 2."""
    listed = Listed((0.5, 0.0, 0.5))

    assert (listed.mean, listed.variance, listed.cdf(1)) == (1.0, 1.0, 0.5)


def test_a_list_that_never_reaches_a_share_is_refused() -> None:
    """Half the weight is missing, so 0.9 is out of reach."""
    with pytest.raises(WrongInput, match=r"No whole number reaches a share of 0\.9"):
        Listed((0.25, 0.25)).quantile(0.9)


@pytest.mark.parametrize("q", [0, 1, -0.1, float("nan")])
def test_a_share_outside_zero_and_one_is_refused(q: float) -> None:
    """A quantile needs a share strictly between."""
    with pytest.raises(WrongInput, match="q must lie between 0 and 1"):
        Poisson(1).quantile(q)


def test_impossible_parameters_are_refused() -> None:
    """Each with one sentence."""
    with pytest.raises(WrongInput, match="mean must not be below zero"):
        Poisson(-1)
    with pytest.raises(WrongInput, match="r must be above zero"):
        NegativeBinomial(0, 0.5)
    with pytest.raises(WrongInput, match="p must lie above 0"):
        NegativeBinomial(1, 0)
    with pytest.raises(WrongInput, match="one piece at least"):
        geometric_sizes(0.5)
