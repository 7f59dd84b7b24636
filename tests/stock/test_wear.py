"""Rates against their pool, and when they deserve a flag."""

from __future__ import annotations

import pytest
from scipy import stats

from inventory.errors import WrongInput
from inventory.stock.demand import GammaPoisson
from inventory.stock.wear import pool_of, pooled, wear_rate


def test_five_failures_in_seventy_months_are_not_yet_a_flag() -> None:
    """Reference S60: raw .0714, shrunk .0448, lower 5 % .0203, P(> 2x) .56 against .02."""
    found = wear_rate(5, 70, pool_of(0.02))

    assert found.raw == pytest.approx(0.0714, abs=5e-5)
    assert (found.shrunk, found.lower) == pytest.approx((0.0448, 0.0203), abs=5e-5)
    assert found.p_above == pytest.approx(0.56, abs=0.005)
    assert not found.flag


def test_the_figures_are_scipys_gamma() -> None:
    """Lower 5 % and P(rate > 2 x pool) of Gamma(6.5, 145)."""
    found = wear_rate(5, 70, GammaPoisson(1.5, 75))

    assert found.lower == pytest.approx(stats.gamma.ppf(0.05, 6.5, scale=1 / 145))
    assert found.p_above == pytest.approx(stats.gamma.sf(0.04, 6.5, scale=1 / 145))
    assert found.ratio == pytest.approx(found.lower / 0.02)


def test_strong_evidence_earns_the_flag() -> None:
    """Twelve failures in the same time are more than chance."""
    assert wear_rate(12, 70, pool_of(0.02)).flag


def test_two_failures_are_never_enough() -> None:
    """However bad the rate looks, three failures are the least."""
    found = wear_rate(2, 1, GammaPoisson(0.3, 15))

    assert found.p_above > 0.9
    assert not found.flag


def test_no_exposure_has_no_raw_rate() -> None:
    """None, not zero; the shrunk rate is the pool's."""
    found = wear_rate(0, 0, pool_of(0.02))

    assert found.raw is None
    assert found.shrunk == pytest.approx(0.02)


def test_a_small_kind_is_pooled_plainly() -> None:
    """All failures over all time, worth 1.5 failures."""
    assert pooled([1, 0, 3], [100, 50, 50]) == pool_of(0.02)


def test_a_large_kind_is_fitted() -> None:
    """30 members with failures and more: the spread between them is learned."""
    failures = [int(k) for k in stats.nbinom.rvs(2, 0.4, size=60, random_state=6)]
    pool = pooled(failures, [100.0] * 60)

    assert pool is not None
    assert pool.mean == pytest.approx(sum(failures) / 6000, rel=0.05)
    assert pool.a != 1.5


def test_a_kind_without_failures_has_no_pool() -> None:
    """Nothing failed, or nothing ran."""
    assert pooled([0, 0], [50, 50]) is None
    assert pooled([1], [0]) is None


def test_impossible_figures_are_refused() -> None:
    """Negative failures, a pool without rate."""
    with pytest.raises(WrongInput, match="failures must not be below zero"):
        wear_rate(-1, 10, pool_of(0.02))
    with pytest.raises(WrongInput, match="rate must be above zero"):
        pool_of(0)
