"""Intervals for shares and rates, against published tables and statsmodels."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy import stats

from inventory.errors import WrongInput
from inventory.stock.intervals import (
    chi_square_quantile,
    failure_rate,
    jeffreys,
    mtbf_interval,
    wilson,
)

# Newcombe 1998, Statist. Med. 17:857, table I (values from memory, recomputed equal).
NEWCOMBE = [
    (81, 263, 0.2553, 0.3662),
    (15, 148, 0.0624, 0.1605),
    (0, 20, 0.0, 0.1611),
    (1, 29, 0.0061, 0.1718),
]


@pytest.mark.parametrize(("k", "n", "lower", "upper"), NEWCOMBE)
def test_newcombes_four_cases(k: int, n: int, lower: float, upper: float) -> None:
    """Wilson 95 % to four digits."""
    assert wilson(k, n) == pytest.approx((lower, upper), abs=5e-5)


# Run once with statsmodels 0.15.0, proportion_confint(method="wilson" and "jeffreys").
STATSMODELS = [
    (4, 20, 0.08065766, 0.41601743, 0.07152005, 0.40822576),
    (2, 7, 0.08221892, 0.64106555, 0.06472827, 0.64766165),
    (39, 40, 0.87118631, 0.99557317, 0.88905062, 0.99728918),
    (15, 148, 0.0623864, 0.16048724, 0.06044852, 0.15764314),
]


@pytest.mark.parametrize(("k", "n", "wl", "wu", "jl", "ju"), STATSMODELS)
def test_statsmodels_gives_the_same(
    k: int, n: int, wl: float, wu: float, jl: float, ju: float
) -> None:
    """Both intervals away from the ends."""
    assert wilson(k, n) == pytest.approx((wl, wu), abs=1e-8)
    assert jeffreys(k, n) == pytest.approx((jl, ju), abs=1e-8)


# Brown, Cai & DasGupta 2001, Statist. Sci. 16:101, table 5, n = 7 (from memory, recomputed).
@pytest.mark.parametrize(
    ("k", "lower", "upper"), [(0, 0.0, 0.410), (2, 0.065, 0.648), (3, 0.139, 0.766)]
)
def test_brown_cai_dasgupta_table_5(k: int, lower: float, upper: float) -> None:
    """The modified Jeffreys interval of seven."""
    assert jeffreys(k, 7) == pytest.approx((lower, upper), abs=6e-4)


@given(st.integers(1, 200), st.floats(0.5, 0.999))
def test_both_ends_mirror_each_other(n: int, conf: float) -> None:
    """K of n failed is n - k of n survived."""
    for k in {0, n // 3, n}:
        for interval in (wilson, jeffreys):
            low, high = interval(k, n, conf)
            mirrored = interval(n - k, n, conf)
            assert (low, high) == pytest.approx((1 - mirrored.upper, 1 - mirrored.lower), abs=1e-9)
            assert 0 <= low <= k / n <= high <= 1


def test_alpha_and_confidence_say_the_same() -> None:
    """Alpha = 1 - conf; 95 % without either."""
    assert jeffreys(3, 9, alpha=0.1) == pytest.approx(jeffreys(3, 9, 0.9))
    assert jeffreys(3, 9) == jeffreys(3, 9, 0.95)


def test_nist_8_4_5_1() -> None:
    """800 h, 2 failures, 90 %: 127.07 to 2251.23, factors .3177 and 5.6281 (from memory)."""
    found = mtbf_interval(800, 2, conf=0.9)

    assert (found.mtbf, found.lower, found.upper) == pytest.approx(
        (400, 127.069, 2251.23), abs=0.01
    )
    assert found.factors == pytest.approx((0.3177, 5.6281), abs=5e-5)


def test_nist_8_2_1_5_as_exponential() -> None:
    """2924 h, 6 failures: 487.33, 90 % 246.91 to 1119.01 (lifelines, scipy)."""
    found = mtbf_interval(2924, 6, conf=0.9)

    assert (found.mtbf, found.lower, found.upper) == pytest.approx(
        (487.3333, 246.9095, 1119.014), abs=1e-3
    )


def test_no_failure_gives_one_bound_only() -> None:
    """T/(-ln .05) = 267.0466; no mean, no upper bound is invented."""
    found = mtbf_interval(800, 0, conf=0.95)

    assert found.lower == pytest.approx(267.0466, abs=1e-4)
    assert (found.mtbf, found.upper, found.factors) == (None, None, None)


@given(st.floats(0.001, 0.999), st.integers(1, 60))
def test_chi_square_agrees_with_scipy(q: float, m: int) -> None:
    """Even degrees of freedom by way of the Poisson tail."""
    assert chi_square_quantile(q, 2 * m) == pytest.approx(stats.chi2.ppf(q, 2 * m), rel=1e-8)


def test_survivors_lower_the_rate() -> None:
    """Fails at 9, 11, 12 h, two alive at 15 h: 3/62 = .048387. Source: S56."""
    assert failure_rate([9, 11, 12], [15, 15]) == pytest.approx(3 / 62)
    assert failure_rate([9, 11, 12]) > failure_rate([9, 11, 12], [15, 15])


@pytest.mark.parametrize(("k", "n"), [(1, 0), (-1, 5), (6, 5)])
def test_an_impossible_count_is_refused(k: int, n: int) -> None:
    """Both intervals want 0 <= k <= n."""
    with pytest.raises(WrongInput, match="is not a count of something"):
        wilson(k, n)
    with pytest.raises(WrongInput, match="is not a count of something"):
        jeffreys(k, n)


def test_no_running_time_is_refused() -> None:
    """Nothing can be said of pieces that never ran."""
    with pytest.raises(WrongInput, match="T must be above zero"):
        mtbf_interval(0, 1)
    with pytest.raises(WrongInput, match="total must be above zero"):
        failure_rate([], [])
    with pytest.raises(WrongInput, match="conf must lie between"):
        mtbf_interval(1, 1, conf=1)


def test_chi_square_far_out() -> None:
    """Beyond the first bracket of the search."""
    assert chi_square_quantile(0.99999, 400) == pytest.approx(stats.chi2.ppf(0.99999, 400))
