"""How many to keep: the newsvendor and the levels that follow from it.

h: cost of one piece left over for a period; p: cost of one piece short for a period. Any
money unit, the same for both.
"""

from __future__ import annotations

import math
from statistics import NormalDist
from typing import NamedTuple

from inventory.stock.checks import a_share, above_zero, not_negative
from inventory.stock.counts import Counts, Poisson

_STANDARD = NormalDist()


class Level(NamedTuple):
    """A level and what it costs a period."""

    S: int  # order-up-to level [pieces]
    cost: float  # money a period


class NormalLevel(NamedTuple):
    """The same where demand is taken as continuous."""

    S: float
    cost: float


def critical_ratio(
    price: float, holding_per_month: float, shortage_cost_per_unit_month: float
) -> float:
    """Share of periods without shortage that pays: b/(b + h), h = price x holding share.

    price [money]; holding_per_month [share of price]; shortage cost b [money/piece/month].
    Source: Snyder & Shen 2e, chapter 4; S21.

    >>> round(critical_ratio(40, 0.02, 20), 6)
    0.961538
    """
    above_zero(shortage=shortage_cost_per_unit_month)
    not_negative(price=price, holding_per_month=holding_per_month)
    return shortage_cost_per_unit_month / (shortage_cost_per_unit_month + price * holding_per_month)


def newsvendor_cost(S: int, h: float, p: float, demand: Counts) -> float:
    """Cost h E[(S-D)+] + p E[(D-S)+] [money a period].

    >>> round(newsvendor_cost(5, 1, 4, Poisson(6)), 6)
    6.590296
    """
    short, left = demand.loss(S)
    return h * left + p * short


def newsvendor(h: float, p: float, demand: Counts, S: int | None = None) -> Level:
    """Smallest S with F(S) >= p/(p+h), and its cost; the cost of ``S`` where S is given.

    Source: Snyder & Shen 2e, section 4.3.

    >>> from inventory.stock.counts import NegativeBinomial
    >>> newsvendor(1, 19, NegativeBinomial(1.3, 0.5)).S
    4
    """
    above_zero(h=h, p=p)
    level = demand.quantile(p / (p + h)) if S is None else S
    return Level(level, newsvendor_cost(level, h, p, demand))


def poisson_newsvendor(h: float, p: float, mean: float, S: int | None = None) -> Level:
    """The newsvendor with Poisson demand of this mean [pieces].

    Source: Snyder & Shen 2e, example 4.7: S = 8, 3.570107; at S = 5, 6.590296.

    >>> S, cost = poisson_newsvendor(h=1, p=4, mean=6)
    >>> S, round(cost, 6)
    (8, 3.570107)
    """
    return newsvendor(h, p, Poisson(mean), S)


def base_stock(
    h: float, p: float, mean_per_period: float, lead_time: float = 0, S: int | None = None
) -> Level:
    """Order-up-to level reviewed every period: demand over lead_time + 1 periods, Poisson.

    lead_time [periods]. Source: Snyder & Shen 2e, problem 4.19: 105, 1.545019.

    >>> base_stock(h=0.08, p=1.25, mean_per_period=18, lead_time=4).S
    105
    """
    not_negative(lead_time=lead_time)
    return poisson_newsvendor(h, p, mean_per_period * (lead_time + 1), S)


def normal_newsvendor(
    h: float, p: float, mean: float, sd: float, lead_time: float = 0
) -> NormalLevel:
    """S = m + z sd, cost (h + p) φ(z) sd, over lead_time + 1 periods.

    Source: Snyder & Shen 2e, examples 4.3 (56.60396, 1.997605) and 4.4.

    >>> tuple(round(v, 6) for v in normal_newsvendor(0.18, 0.70, 50, 8))
    (56.603956, 1.997605)
    """
    above_zero(h=h, p=p, sd=sd)
    not_negative(mean=mean, lead_time=lead_time)
    z = _STANDARD.inv_cdf(p / (p + h))
    spread = sd * math.sqrt(lead_time + 1)
    return NormalLevel(mean * (lead_time + 1) + z * spread, (h + p) * _STANDARD.pdf(z) * spread)


def level_for_service(target: float, mean: float) -> int:
    """Smallest S with Poisson F(S) >= target: F is a staircase, nothing lies between.

    >>> level_for_service(0.996, 4.25)
    11
    """
    a_share(target=target)
    return Poisson(mean).quantile(target)


def expected_sales(S: int, mean: float) -> float:
    """E[min(D, S)] of Poisson demand [pieces] = mean - n(S).

    >>> round(expected_sales(6, 4.25), 6)
    3.995869
    """
    return mean - Poisson(mean).loss(S)[0]
