"""What a level achieves, in two figures that differ: no shortage, and filled at once.

"Months without a shortage" is the cycle service level (CSL); "requests filled at once" is the
fill rate. Demand is Poisson unless a distribution is given.
"""

from __future__ import annotations

import math
from typing import NamedTuple

from inventory.errors import WrongInput
from inventory.stock.checks import above_zero, integer, not_negative
from inventory.stock.counts import Counts, Poisson

MOST_IN_A_LOT = 10_000
"""Pieces; every position of the lot is summed."""


class LotService(NamedTuple):
    """What an (r, Q) policy achieves."""

    csl: float  # P(no shortage in a lead time)
    fill: float  # share of pieces handed over at once
    backorders: float  # pieces owed, on average
    on_hand: float  # pieces lying, on average


def fill_one_for_one(lead_time_demand_mean: float, r: int) -> float:
    """Fill of (S-1, S) with r = S - 1: P(D_L <= r); here it equals the CSL.

    Source: Hopp & Spearman, Factory Physics, section 2.4.2: G(13) .864464, G(14) .916542,
    G(15) .951260 at mean 10.

    >>> [round(fill_one_for_one(10, r), 6) for r in (13, 14, 15)]
    [0.864464, 0.916542, 0.95126]
    """
    return Poisson(lead_time_demand_mean).cdf(r)


def smallest_r(lead_time_demand_mean: float, target: float) -> int:
    """Smallest r whose one-for-one fill reaches the target.

    >>> smallest_r(10, 0.95)
    15
    """
    return Poisson(lead_time_demand_mean).quantile(target)


def csl_continuous(demand: Counts, r: int) -> float:
    """P(D_L <= r): watched all the time, so the stock is r, not S, when the order goes out."""
    return demand.cdf(r)


def csl_periodic(demand: Counts, S: int) -> float:
    """P(D_{L+R} <= S): what is ordered now must last until the order after it arrives."""
    return demand.cdf(S)


def expected_backorders(S: int, mean: float) -> float:
    """B(S) = E[(D - S)+] [pieces].

    >>> round(expected_backorders(0, 2.5), 6)
    2.5
    """
    return Poisson(mean).loss(S)[0]


def expected_on_hand(S: int, mean: float) -> float:
    """I(S) = S - E[D] + B(S) [pieces]."""
    return Poisson(mean).loss(S)[1]


def fill_rq(r: int, Q: int, lead_time_demand_mean: float) -> LotService:
    """What (r, Q) achieves with Poisson demand.

    fill = (1/Q) sum_{y=r+1}^{r+Q} P(D_L <= y-1); backorders = mean of B(y);
    on hand = r + (Q+1)/2 - E[D] + backorders. The position is uniform on r+1 .. r+Q.
    Source: reference section 1, S20; simulated in the tests.

    >>> served = fill_rq(3, 5, 3)
    >>> round(served.csl, 3), round(served.fill, 3)
    (0.647, 0.867)
    """
    above_zero(Q=Q)
    integer(r=r, Q=Q)
    if Q > MOST_IN_A_LOT:
        raise WrongInput(f"A lot of {Q:g} pieces is out of all range.")
    r, Q = int(r), int(Q)
    demand = Poisson(lead_time_demand_mean)
    positions = range(r + 1, r + Q + 1)
    fill = math.fsum(demand.cdf(y - 1) for y in positions) / Q
    owed = math.fsum(demand.loss(y)[0] if y >= 0 else demand.mean - y for y in positions) / Q
    return LotService(demand.cdf(r), fill, owed, r + (Q + 1) / 2 - demand.mean + owed)


class PeriodicFill(NamedTuple):
    """Exact fill of a periodic order-up-to level, and the textbook's short cut."""

    exact: float
    textbook: float


def fill_periodic(S: int, rate: float, L: float, R: float = 1) -> PeriodicFill:
    """Fill of an order-up-to level S reviewed every R.

    exact = 1 - (B_{L+R}(S) - B_L(S))/(rate R); textbook = 1 - B_{L+R}(S)/(rate R).
    rate [pieces/time]; L, R [time]. Poisson demand.
    Source: reference section 1, S17; Sobel 2004, M&SOM 6:41.

    >>> tuple(round(v, 6) for v in fill_periodic(9, 1.5, 3))
    (0.91071, 0.892494)
    """
    above_zero(rate=rate, R=R)
    not_negative(L=L)
    before, after = Poisson(rate * L), Poisson(rate * (L + R))
    owed = after.loss(S)[0]
    return PeriodicFill(fill_between(before, after, S), 1 - owed / (rate * R))


def fill_between(before: Counts, after: Counts, S: int) -> float:
    """The exact periodic fill for any demand: ``before`` over L, ``after`` over L + R.

    1.0 where nothing is asked for.
    """
    asked = after.mean - before.mean
    if asked <= 0:
        return 1.0
    share = 1 - (after.loss(S)[0] - before.loss(S)[0]) / asked
    return min(1.0, max(0.0, share))
