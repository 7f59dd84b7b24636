"""Square-root lots and normal safety stock: the textbook formulas for steady demand."""

from __future__ import annotations

import math
from statistics import NormalDist
from typing import NamedTuple

from inventory.stock.checks import a_share, above_zero, finite, not_negative
from inventory.stock.loss import normal_loss


class Lot(NamedTuple):
    """An order quantity, not rounded, and what it costs."""

    Q: float  # pieces
    cost: float  # money per unit of time: orders and holding, and shortages where allowed
    orders: float  # a unit of time
    short: float  # most pieces owed, 0 where nothing may be short


def economic_order(D: float, K: float, h: float, p: float | None = None) -> Lot:
    """Q = sqrt(2 K D/h), cost sqrt(2 K D h); with shortages at p, Q = sqrt(2 K D (h + p)/(h p)).

    D [pieces/time]; K [money/order]; h, p [money/piece/time]; p None: nothing may be short.
    Source: Harris 1913; carpet store of Russell & Taylor: 10,000 yards, 150, 0.75 gives 2,000
    yards and 1,500 a year.

    >>> economic_order(10000, 150, 0.75)[:3]
    (2000.0, 1500.0, 5.0)
    """
    above_zero(D=D, K=K, h=h)
    share = 1.0
    if p is not None:
        above_zero(p=p)
        share = p / (h + p)
    Q = math.sqrt(2 * K * D / (h * share))
    return Lot(Q, math.sqrt(2 * K * D * h * share), D / Q, Q * (1 - share))


def economic_batch(D: float, K: float, h: float, rate: float) -> Lot:
    """The same where pieces come at a rate above D: Q = sqrt(2 K D/(h (1 - D/rate))).

    Source: Taft 1918, economic production quantity.

    >>> round(economic_batch(10000, 150, 0.75, 150 * 311).Q, 1)
    2256.4
    """
    above_zero(rate_above_demand=rate - D)
    return economic_order(D, K, h * (1 - D / rate))


class ReorderPoint(NamedTuple):
    """When to order, with normal demand in the lead time."""

    r: float  # pieces
    safety: float  # pieces above the mean demand
    sd: float  # of demand in the lead time


def reorder_point(
    mean: float, sd: float, L: float, target: float, *, sd_L: float = 0.0
) -> ReorderPoint:
    """R = mean L + z sqrt(L sd² + mean² sd_L²), z the normal quantile of the target.

    mean, sd: of demand in one unit of time [pieces]; L, sd_L: lead time and its spread [time];
    target: chance of no shortage in a cycle.
    Source: standard; 12 a day, sd 4, 9 days, 80 % gives 118 (justaaa.com 787684).

    >>> round(reorder_point(12, 4, 9, 0.80).r)
    118
    """
    a_share(target=target)
    not_negative(mean=mean, sd=sd, L=L, sd_L=sd_L)
    spread = math.sqrt(L * sd * sd + (mean * sd_L) ** 2)
    safety = NormalDist().inv_cdf(target) * spread
    return ReorderPoint(mean * L + safety, safety, spread)


def normal_fill(r: float, Q: float, mean: float, sd: float) -> float:
    """Share filled at once of (r, Q) with normal lead-time demand: 1 - n(r)/Q.

    n(r): expected shortage in a cycle. Not below 0.
    Source: Chopra & Meindl, chapter on safety stock: r 6,000, Q 10,000, mean 5,000, sd 707
    gives a fill of .9975 (figures from memory).

    >>> round(normal_fill(6000, 10000, 5000, 707.1068), 4)
    0.9975
    """
    above_zero(Q=Q)
    finite(r=r)
    not_negative(mean=mean)
    return max(0.0, 1 - normal_loss(r, mean, sd)[0] / Q)
