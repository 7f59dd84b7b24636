"""Forecasts made for demand with many empty months: Croston and what grew out of it.

They give a mean, not a distribution, and serve here as peers of the Gamma-Poisson model.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from itertools import pairwise

from inventory.errors import WrongInput
from inventory.stock.checks import a_history, a_share

ALPHA = 0.1
"""Smoothing weight the literature starts from."""


@dataclass(frozen=True, slots=True)
class Forecast:
    """A smoothed demand.

    ``fitted[t]`` was forecast for month t from the months before it; None: nothing known yet.
    """

    forecast: float  # pieces a month, from now on
    size: float | None  # pieces when any are asked for
    interval: float | None  # months from one demand to the next (TSB: 1 / chance of demand)
    fitted: tuple[float | None, ...]

    def __float__(self) -> float:
        return self.forecast


def croston(
    y: Sequence[float], alpha: float = ALPHA, beta: float | None = None, init: str = "naive"
) -> Forecast:
    """Croston's mean demand z/p [pieces a month].

    On a demand: z += alpha (y - z), p += beta (q - p); q = months since the demand before.
    ``init`` "naive": z = first size, p = position of the first demand (R forecast, statsforecast);
    "mean": p = mean of all intervals (tsintermittent; it looks into the future).
    Source: Croston 1972; R forecast pull request 1126.

    >>> [f and round(f, 4) for f in croston([0, 0, 0, 3, 0, 0, 2, 0, 5]).fitted[4:]]
    [0.75, 0.75, 0.75, 0.7436, 0.7436]
    """
    return _smooth(y, alpha, beta, init, lambda _: 1.0)


def sba(
    y: Sequence[float], alpha: float = ALPHA, beta: float | None = None, init: str = "naive"
) -> Forecast:
    """Croston's mean times (1 - beta/2): Syntetos & Boylan 2005.

    beta is the weight of the interval; alpha where it is not given.

    >>> round(sba([0, 0, 3, 0, 4, 0, 0, 0, 2, 0], 0.5, 0.2, init="mean").forecast, 6)
    0.814145
    """
    return _smooth(y, alpha, beta, init, lambda b: 1 - b / 2)


def sbj(
    y: Sequence[float], alpha: float = ALPHA, beta: float | None = None, init: str = "naive"
) -> Forecast:
    """Croston's mean times (1 - beta/(2 - beta)): Shale, Boylan & Johnston 2006.

    >>> round(sbj([0, 0, 3, 0, 4, 0, 0, 0, 2, 0], 0.5, 0.2, init="mean").forecast, 6)
    0.804094
    """
    return _smooth(y, alpha, beta, init, lambda b: 1 - b / (2 - b))


def _smooth(
    y: Sequence[float],
    alpha: float,
    beta: float | None,
    init: str,
    factor: Callable[[float], float],
) -> Forecast:
    """The recursion all three share; ``factor`` corrects the bias of z/p."""
    beta = alpha if beta is None else beta
    _check(y, init, ("naive", "mean"), alpha=alpha, beta=beta)
    asked = [t for t, use in enumerate(y) if use > 0]
    if not asked:
        return Forecast(0.0, None, None, (None,) * len(y))
    scale = factor(beta)
    z, p = y[asked[0]], _first_interval(asked, init)
    fitted: list[float | None] = [None] * (asked[0] + 1)
    last = asked[0]
    for t in range(asked[0] + 1, len(y)):
        fitted.append(scale * z / p)
        if y[t] > 0:
            z, p, last = z + alpha * (y[t] - z), p + beta * (t - last - p), t
    return Forecast(scale * z / p, z, p, tuple(fitted))


def _first_interval(asked: Sequence[int], init: str) -> float:
    """Months to the first demand, or the mean of all intervals."""
    first = asked[0] + 1
    if init == "naive":
        return float(first)
    intervals = [first, *(b - a for a, b in pairwise(asked))]
    return math.fsum(intervals) / len(intervals)


def tsb(
    y: Sequence[float], alpha: float = ALPHA, beta: float | None = None, init: str = "naive"
) -> Forecast:
    """Chance of demand times its size, p z; the chance falls in every empty month.

    Every month: p += beta (1[y > 0] - p); on a demand z += alpha (y - z).
    ``init`` "naive": p = 1 or 0 as month one had demand (statsforecast); "mean": p = share of
    months with demand. z = first size in both. Month one only starts the recursion.
    Source: Teunter, Syntetos & Babai 2011, doi 10.1016/j.ejor.2011.05.018.

    >>> f = tsb([0, 0, 3, 0, 4, 0, 0, 0, 2, 0], alpha=0.3, beta=0.1, init="mean")
    >>> round(f.forecast, 6)
    0.911135
    """
    beta = alpha if beta is None else beta
    _check(y, init, ("naive", "mean"), alpha=alpha, beta=beta)
    sizes = [use for use in y if use > 0]
    if not sizes:
        return Forecast(0.0, None, None, (None,) * len(y))
    z = sizes[0]
    p = float(y[0] > 0) if init == "naive" else len(sizes) / len(y)
    fitted: list[float | None] = [None]
    for use in y[1:]:
        fitted.append(p * z)
        p += beta * ((use > 0) - p)
        z += alpha * (use - z) if use > 0 else 0.0
    return Forecast(p * z, z, 1 / p if p else None, tuple(fitted))


def _check(y: Sequence[float], init: str, known: tuple[str, ...], **weights: float) -> None:
    """Weights in (0, 1), no negative demand, a known start."""
    for name, weight in weights.items():
        if weight != 1:
            a_share(**{name: weight})
    a_history(y)
    if init not in known:
        raise WrongInput(f"Start {init!r} is not one of {', '.join(known)}.")
