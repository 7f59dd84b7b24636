"""What one more piece on the shelf is worth, and whether it pays to pull it.

MV(s) = v P(N_H >= s+1) + g P(N_H <= s) - h E[min(T_{s+1}, H)]
v: what a piece saves when it is used; g: scrap value if it never is; h: shelf cost a month
[all one money unit]; H: horizon [months]; N_H: uses within it; T_k: month of the k-th use.
Source: reference section 3; the form is a newsvendor over the part's remaining life (Teunter
& Klein Haneveld 2002, doi 10.1016/S0377-2217(01)00131-X, treat an appliance part so).
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from functools import cache
from typing import NamedTuple

from inventory.stock.checks import a_chance, above_zero, finite, not_negative
from inventory.stock.counts import Poisson
from inventory.stock.demand import GammaPoisson

HORIZON = 12.0
"""Months looked ahead, unless the part's life is shorter. Source: reference section 0 (6 to 12)."""

_MOST = 1000  # pieces: beyond this no shelf is asked


@dataclass(frozen=True, slots=True)
class Money:
    """What a piece is worth, in any one money unit."""

    v: float  # saved when used: the new price avoided, less cleaning
    g: float = 0.0  # scrap value when never used
    h: float = 0.0  # shelf cost a month

    def __post_init__(self) -> None:
        finite(v=self.v, g=self.g, h=self.h)


def waiting_time(k: int, rate: GammaPoisson, H: float) -> float:
    """E[min(T_k, H)] [months]: how long the k-th piece lies, at most H.

    = int_0^H P(N_t <= k-1) dt, with t = b (e^x - 1) so that the integrand is smooth, by
    48-point Gauss-Legendre quadrature.

    >>> round(waiting_time(1, GammaPoisson(6.5, 10), 12), 6)
    1.794396
    """
    above_zero(H=H)
    if k <= 0:
        return 0.0
    half = math.log1p(H / rate.b) / 2
    total = 0.0
    for node, weight in _legendre(48):
        x = half * (1 + node)
        t = rate.b * math.expm1(x)
        total += weight * math.exp(x) * rate.over(t).cdf(k - 1)
    return rate.b * half * total


def waiting_time_poisson(k: int, lam: float, H: float) -> float:
    """The same at a known rate lam [uses/month]: (1/lam) sum_{j<k} P(N_H >= j+1).

    >>> round(waiting_time_poisson(1, 0.5, 12), 6)  # (1 - e^-6)/0.5
    1.995042
    """
    above_zero(lam=lam, H=H)
    uses = Poisson(lam * H)
    return math.fsum(uses.tail(j) for j in range(k)) / lam


@cache
def _legendre(n: int) -> tuple[tuple[float, float], ...]:
    """Nodes and weights on (-1, 1), by Newton's method on the Legendre recurrence."""
    found = []
    for i in range(n):
        x = math.cos(math.pi * (i + 0.75) / (n + 0.5))
        slope = 1.0
        for _ in range(12):  # far more than Newton needs from this start
            now, before = x, 1.0
            for k in range(2, n + 1):
                now, before = ((2 * k - 1) * x * now - (k - 1) * before) / k, now
            slope = n * (x * now - before) / (x * x - 1)
            x -= now / slope
        found.append((x, 2 / ((1 - x * x) * slope * slope)))
    return tuple(found)


def marginal_value(s: int, rate: GammaPoisson, money: Money, H: float = HORIZON) -> float:
    """MV(s): what one more good piece is worth when s lie there [money].

    rate: uses a month after what was seen.

    >>> worth = Money(v=32, g=0.5, h=0.25)
    >>> [round(marginal_value(s, GammaPoisson(6.5, 10), worth), 2) for s in range(4)]
    [31.36, 30.27, 28.51, 26.06]
    """
    not_negative(s=s)
    used = rate.over(H).tail(s)
    shelf = money.h * waiting_time(s + 1, rate, H) if money.h else 0.0
    return money.v * used + money.g * (1 - used) - shelf


def marginal_value_expected(
    s: int, rate: GammaPoisson, money: Money, good_pmf: Sequence[float], H: float = HORIZON
) -> float:
    """MV averaged over the pieces that were pulled but not tested yet.

    sum_g P(G = g) MV(s + g); ``good_pmf``: P(G = 0), P(G = 1), ...
    """
    return math.fsum(
        w * marginal_value(s + g, rate, money, H) for g, w in enumerate(good_pmf) if w > 1e-9
    )


class PullValue(NamedTuple):
    """Whether one more pull pays."""

    mv: float  # worth of a good piece [money]
    gain: float  # q MV - cost [money a pull]
    per_minute: float  # q MV / (t_pull + t_test) [money a minute]
    pull: bool


def pull_value(  # noqa: PLR0913 - the figures of one decision, all by name
    s: int,
    *,
    post_a: float,
    post_b: float,
    v: float,
    cost: float,
    q: float = 1.0,
    g: float = 0.0,
    h: float = 0.0,
    H: float = HORIZON,
    minutes: float = 1.0,
) -> PullValue:
    """Pull while q MV(s) > cost, cost = wage x (t_pull + t_test).

    s: good pieces there; rate ~ Gamma(post_a uses, post_b months) after what was seen;
    v, g, h as in ``Money``; q: chance the piece is good; cost [money a pull]; H [months];
    minutes: to pull and test, for the order of the list.

    >>> answer = pull_value(2, post_a=6.5, post_b=10, v=32, g=0.5, h=0.25, q=0.75, cost=9)
    >>> round(answer.mv, 3), round(answer.gain, 3), answer.pull
    (28.512, 12.384, True)
    """
    above_zero(minutes=minutes)
    not_negative(cost=cost)
    a_chance(q=q)
    mv = marginal_value(s, GammaPoisson(post_a, post_b), Money(v, g, h), H)
    gain = q * mv - cost
    return PullValue(mv, gain, q * mv / minutes, gain > 0)


def pull_until(
    rate: GammaPoisson, money: Money, *, q: float, cost: float, H: float = HORIZON
) -> int:
    """Smallest stock at which a pull no longer pays: pull while fewer lie there.

    cost [money a pull] = wage x minutes / 60. MV falls with s, so the first "no" is final.

    >>> pull_until(GammaPoisson(6.5, 10), Money(v=32, g=0.5, h=0.25), q=0.75, cost=9)
    8
    """
    return next((s for s in range(_MOST) if q * marginal_value(s, rate, money, H) <= cost), _MOST)


class KeepMax(NamedTuple):
    """Closed form without shelf cost."""

    kappa: float
    keep_max: int


def keep_max(
    *,
    post_a: float,
    post_b: float,
    q: float,
    cost: float,
    v: float,
    g: float = 0.0,
    H: float = HORIZON,
) -> KeepMax:
    """Without shelf cost: first s with P(N_H >= s+1) <= kappa = (cost/q - g)/(v - g).

    Names as in ``pull_value``. Source: reference section 3, S42.

    >>> keep_max(q=0.75, cost=9, g=0.5, v=32, post_a=6.5, post_b=10, H=12)
    KeepMax(kappa=0.36507936507936506, keep_max=9)
    """
    a_chance(q=q)
    not_negative(cost=cost)
    above_zero(q=q, gain=v - g)
    kappa = (cost / q - g) / (v - g)
    uses = GammaPoisson(post_a, post_b).over(H)
    first = next((s for s in range(_MOST) if uses.tail(s) <= kappa), _MOST)
    return KeepMax(kappa, first)


class Pull(NamedTuple):
    """One candidate piece for the pull list."""

    name: str
    s: int  # good pieces already there
    rate: GammaPoisson
    money: Money
    q: float
    minutes: float
    pieces: int = 1  # identical pieces in the unit


def pull_list(
    candidates: Iterable[Pull], wage: float, H: float = HORIZON
) -> list[tuple[str, int, PullValue]]:
    """Pulls that pay, best value per minute first: (name, which piece of it, value).

    wage [money/hour].
    Identical pieces take MV(s), MV(s+1), ... in turn, each expected good with chance q only.
    """
    found = []
    for one in candidates:
        for nth in range(one.pieces):
            value = _judged(one, nth, wage, H)
            if value.pull:
                found.append((one.name, nth + 1, value))
    return sorted(found, key=lambda row: (-row[2].per_minute, row[0], row[1]))


def _judged(one: Pull, nth: int, wage: float, H: float) -> PullValue:
    """The value of the nth of identical pieces."""
    return pull_value(
        one.s + nth,
        post_a=one.rate.a,
        post_b=one.rate.b,
        v=one.money.v,
        g=one.money.g,
        h=one.money.h,
        q=one.q,
        H=H,
        cost=wage * one.minutes / 60,
        minutes=one.minutes,
    )
