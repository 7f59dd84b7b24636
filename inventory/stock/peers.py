"""Croston, SBA and TSB for all items at once, as rules of the back-test."""

from __future__ import annotations

from typing import TYPE_CHECKING

from inventory.stock.backtest import Levels, Rule
from inventory.stock.intermittent import ALPHA
from inventory.stock.policies import columns, normal_levels, poisson_levels

if TYPE_CHECKING:
    from inventory.stock.backtest import Table, Target


def croston_forecasts(demand: Table, alpha: float = ALPHA) -> list[Table]:
    """Croston's mean before each month t, t = 0 first; 0 until the first demand."""
    import numpy as np

    z, p, since = np.zeros(len(demand)), np.ones(len(demand)), np.zeros(len(demand))
    known = np.zeros(len(demand), dtype=bool)
    forecasts = [np.zeros(len(demand))]
    for y in demand.T:
        since = since + 1
        first, again = (y > 0) & ~known, (y > 0) & known
        z = np.where(first, y, np.where(again, z + alpha * (y - z), z))
        p = np.where(first, since, np.where(again, p + alpha * (since - p), p))
        since = np.where(y > 0, 0.0, since)
        known = known | first
        forecasts.append(z / p)
    return forecasts


def tsb_forecasts(demand: Table, alpha: float = ALPHA, beta: float = ALPHA) -> list[Table]:
    """TSB's mean before each month t; the chance starts at month one's 0 or 1."""
    import numpy as np

    p = (demand[:, 0] > 0).astype(float)
    z = demand[:, 0].copy()
    known = z > 0
    forecasts = [np.zeros(len(demand)), p * z]
    for y in demand[:, 1:].T:
        p = p + beta * ((y > 0) - p)
        z = np.where((y > 0) & ~known, y, np.where(y > 0, z + alpha * (y - z), z))
        known = known | (y > 0)
        forecasts.append(p * z)
    return forecasts


def croston_normal(alpha: float = ALPHA) -> Rule:
    """Croston's mean with the sample's standard deviation, normal."""

    def rule(demand: Table, warm_up: int, P: int, target: Target) -> Levels:
        means = croston_forecasts(demand, alpha)
        return columns(
            demand,
            warm_up,
            lambda t: normal_levels(means[t], demand[:, :t].std(axis=1, ddof=1), P, target),
        )

    return rule


def sba_poisson(alpha: float = ALPHA) -> Rule:
    """SBA's mean, Poisson."""

    def rule(demand: Table, warm_up: int, P: int, target: Target) -> Levels:
        means = croston_forecasts(demand, alpha)
        return columns(
            demand, warm_up, lambda t: poisson_levels((1 - alpha / 2) * means[t] * P, target)
        )

    return rule


def tsb_poisson(alpha: float = ALPHA, beta: float = ALPHA) -> Rule:
    """TSB's mean, Poisson."""

    def rule(demand: Table, warm_up: int, P: int, target: Target) -> Levels:
        means = tsb_forecasts(demand, alpha, beta)
        return columns(demand, warm_up, lambda t: poisson_levels(means[t] * P, target))

    return rule
