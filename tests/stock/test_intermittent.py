"""Croston and its children, against published values of other implementations."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from inventory.errors import WrongInput
from inventory.stock.intermittent import Forecast, croston, sba, sbj, tsb

Method = Callable[..., Forecast]

PRODUCT_C = [
    *(0, 2, 0, 1, 0, 11, 0, 0, 0, 0, 2, 0),
    *(6, 3, 0, 0, 0, 0, 0, 7, 0, 0, 0, 0),
    *(0, 0, 0, 3, 1, 0, 0, 1, 0, 1, 0, 0),
]
"""Monthly sales of a lubricant. Source: Hyndman & Athanasopoulos, otexts.com/fpp2/counts.html."""

SHORT = [0, 0, 3, 0, 4, 0, 0, 0, 2, 0]
"""Source: tests of intermittent-forecast 1.0.0 (MIT), github.com/pmrgn/intermittent-forecast."""


def test_r_forecast_pull_request_1126() -> None:
    """Fitted .75 .75 .75 .7436 .7436 from the first demand on; nothing is known before."""
    found = croston([0, 0, 0, 3, 0, 0, 2, 0, 5], alpha=0.1)

    assert found.fitted[:4] == (None,) * 4
    assert found.fitted[4:] == pytest.approx((0.75, 0.75, 0.75, 0.7436, 0.7436), abs=5e-5)


def test_product_c() -> None:
    """Size 2.750254, interval 2.793280, mean .984597; SBA .935367 (fpp2; statsforecast 2.1.1)."""
    found = croston(PRODUCT_C)

    assert (found.size, found.interval) == pytest.approx((2.750254, 2.793280), abs=1e-6)
    assert float(found) == pytest.approx(0.984597, abs=1e-6)
    assert sba(PRODUCT_C).forecast == pytest.approx(0.935367, abs=1e-6)


# method, fitted from the fourth month and forecast. Source: as SHORT.
PRINTED = [
    (croston, [1, 1, 1.25, 1.25, 1.25, 1.25, 0.904605], 0.904605),
    (sba, [0.9, 0.9, 1.125, 1.125, 1.125, 1.125, 0.8141447], 0.8141447),
    (sbj, [0.888888, 0.888888, 1.111111, 1.111111, 1.111111, 1.111111, 0.804093], 0.804093),
]


@pytest.mark.parametrize(("method", "fitted", "forecast"), PRINTED)
def test_mean_start(method: Method, fitted: list[float], forecast: float) -> None:
    """Alpha .5 for sizes, beta .2 for intervals, starting at the mean of all intervals."""
    found = method(SHORT, alpha=0.5, beta=0.2, init="mean")

    assert found.fitted[3:] == pytest.approx(fitted, abs=2e-6)
    assert found.forecast == pytest.approx(forecast, abs=2e-6)


def test_tsb_with_the_share_as_start() -> None:
    """Alpha .3, beta .1: .9 .81 1.029 .9261 ... .911135. Source: as SHORT."""
    found = tsb(SHORT, alpha=0.3, beta=0.1, init="mean")
    printed = (0.9, 0.81, 1.029, 0.9261, 1.2468390, 1.1221551, 1.0099396, 0.9089456, 1.0123723)

    assert found.fitted[1:] == pytest.approx(printed, abs=1e-6)
    assert found.forecast == pytest.approx(0.9111351, abs=1e-6)


# Product C with alpha .1 and .3 (beta .1), mean start; run once with intermittent-forecast 1.0.0.
FROZEN = [
    (croston, 0.86658836, 0.67467708),
    (sba, 0.82325895, 0.64094323),
    (sbj, 0.82097845, 0.63916776),
    (tsb, 0.8251005, 0.64237696),
]


@pytest.mark.parametrize(("method", "slow", "quick"), FROZEN)
def test_product_c_with_the_mean_start(method: Method, slow: float, quick: float) -> None:
    """Two weights for the size, one for the interval."""
    assert method(PRODUCT_C, 0.1, init="mean").forecast == pytest.approx(slow)
    assert method(PRODUCT_C, 0.3, 0.1, init="mean").forecast == pytest.approx(quick)


def test_tsb_starts_at_month_one_in_the_naive_way() -> None:
    """The chance starts at 1 or 0 as month one had demand or not (statsforecast)."""
    assert tsb([2, 0], beta=0.1).forecast == pytest.approx(0.9 * 2)
    assert tsb([0, 2], beta=0.1).forecast == pytest.approx(0.1 * 2)


def test_the_order_of_the_corrections() -> None:
    """SBJ < SBA < Croston: each takes more of the bias away."""
    assert sbj(PRODUCT_C).forecast < sba(PRODUCT_C).forecast < croston(PRODUCT_C).forecast


@pytest.mark.parametrize("method", [croston, sba, sbj, tsb])
def test_no_demand_is_forecast_as_none(method: Method) -> None:
    """An all-zero history gives zero, and no size."""
    found = method([0, 0, 0])

    assert (found.forecast, found.size, found.fitted) == (0.0, None, (None, None, None))


def test_a_chance_that_never_rose_has_no_interval() -> None:
    """With beta so small that p stays 0 there is no spacing to tell."""
    assert tsb([0, 3, 0], beta=1).interval is None


def test_impossible_weights_and_demands_are_refused() -> None:
    """Weights in (0, 1], no negative demand, a known start."""
    with pytest.raises(WrongInput, match="alpha must lie between"):
        croston([1, 2], alpha=0)
    with pytest.raises(WrongInput, match="below zero"):
        tsb([1, -2])
    with pytest.raises(WrongInput, match="not one of naive, mean"):
        sba([1, 2], init="guess")
