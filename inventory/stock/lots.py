"""Orders in lots, where an order itself costs something: (r, Q) and (s, S)."""

from __future__ import annotations

import math
from collections.abc import Callable
from typing import NamedTuple

from inventory.errors import WrongInput
from inventory.stock.checks import above_zero, not_negative
from inventory.stock.counts import Counts, Poisson
from inventory.stock.reorder import newsvendor, newsvendor_cost


class LotPolicy(NamedTuple):
    """Order Q as soon as the position falls to r."""

    r: int  # pieces
    Q: int  # pieces
    cost: float  # money per unit of time


class UpToPolicy(NamedTuple):
    """At a review, order up to S if the position is at or below s."""

    s: int  # pieces
    S: int  # pieces
    cost: float  # money per period


def rq_policy(h: float, p: float, K: float, rate: float, L: float) -> LotPolicy:
    """Cheapest (r, Q) with Poisson demand watched all the time.

    cost(r, Q) = [K rate + sum_{y=r+1}^{r+Q} g(y)]/Q, g = newsvendor cost of lead-time demand.
    h, p [money/piece/time]; K [money/order]; rate [pieces/time]; L [time].
    The window of Q cheapest y grows towards its cheaper side until it no longer pays.
    Source: Federgruen & Zheng 1992, Oper. Res. 40:808; Snyder & Shen 2e, example 5.8.

    >>> r, Q, cost = rq_policy(h=20, p=150, K=100, rate=1.5, L=2)
    >>> r, Q, round(cost, 5)
    (3, 5, 107.92358)
    """
    above_zero(h=h, p=p, rate=rate)
    not_negative(K=K, L=L)
    _small_enough(math.sqrt(2 * K * rate / min(h, p)) + rate * L, 20_000)
    g = _costs(h, p, Poisson(rate * L))
    best = newsvendor(h, p, Poisson(rate * L)).S
    low, high, total = best - 1, best, K * rate + g(best)
    while True:
        cost = total / (high - low)
        down, up = g(low), g(high + 1)
        if min(down, up) >= cost:
            return LotPolicy(low, high - low, cost)
        if down <= up:
            low, total = low - 1, total + down
        else:
            high, total = high + 1, total + up


def rq_cost(h: float, p: float, K: float, rate: float, L: float, *, r: int, Q: int) -> float:
    """Cost of a given (r, Q) [money per unit of time].

    >>> round(rq_cost(20, 150, 100, 1.5, 2, r=3, Q=5), 5)
    107.92358
    """
    above_zero(Q=Q)
    g = _costs(h, p, Poisson(rate * L))
    return (K * rate + math.fsum(g(y) for y in range(r + 1, r + Q + 1))) / Q


def _costs(h: float, p: float, demand: Counts) -> Callable[[int], float]:
    """g(y), also below zero where all y pieces are owed."""

    def g(y: int) -> float:
        if y >= 0:
            return newsvendor_cost(y, h, p, demand)
        return p * (demand.mean - y)

    return g


def _small_enough(pieces: float, most: int) -> None:
    """A lot this search can walk to in seconds, or ``WrongInput``."""
    if pieces > most:
        raise WrongInput(f"Lots of about {pieces:.3g} pieces are beyond this search of {most:,}.")


def ss_policy(h: float, p: float, K: float, mean: float, lead_time: float = 0) -> UpToPolicy:
    """Cheapest (s, S) with Poisson demand and a review each period.

    h, p [money/piece/period]; K [money/order]; mean [pieces/period]; lead_time [periods].
    Source: Zheng & Federgruen 1991, Oper. Res. 39:654; Snyder & Shen 2e, example 4.7 with K = 5.

    >>> s, S, cost = ss_policy(h=1, p=4, K=5, mean=6)
    >>> s, S, round(cost, 6)
    (4, 10, 8.034112)
    """
    above_zero(h=h, p=p, mean=mean)
    not_negative(K=K, lead_time=lead_time)
    _small_enough(math.sqrt(2 * K * mean / min(h, p)) + mean * (lead_time + 1), 3000)
    return _Search(h, p, K, mean, lead_time).best()


class _Search:
    """One run of the Zheng-Federgruen search, with its renewal sums."""

    def __init__(self, h: float, p: float, K: float, mean: float, lead_time: float) -> None:
        self._K = K
        self._period = Poisson(mean)
        self._g = _costs(h, p, Poisson(mean * (lead_time + 1)))
        self._known: dict[int, float] = {}
        self._start = newsvendor(h, p, Poisson(mean * (lead_time + 1))).S
        self._renewal = [1 / (1 - self._period.pmf(0))]

    def _G(self, y: int) -> float:
        """One period's cost, remembered."""
        if y not in self._known:
            self._known[y] = self._g(y)
        return self._known[y]

    def _m(self, j: int) -> float:
        """Expected visits to a drop of j: m(j) = sum_{l=1}^j f(l) m(j-l) / (1 - f(0))."""
        while len(self._renewal) <= j:
            n = len(self._renewal)
            terms = (self._period.pmf(d) * self._renewal[n - d] for d in range(1, n + 1))
            self._renewal.append(math.fsum(terms) * self._renewal[0])
        return self._renewal[j]

    def _cost(self, s: int, S: int) -> float:
        """c(s, S) = [K + sum_{j<S-s} m(j) G(S-j)] / sum_{j<S-s} m(j)."""
        visits = [self._m(j) for j in range(S - s)]
        spent = math.fsum(m * self._G(S - j) for j, m in enumerate(visits))
        return (self._K + spent) / math.fsum(visits)

    def best(self) -> UpToPolicy:
        """Widen S while one period alone is cheaper than the best cycle."""
        best_S = self._start
        s = best_S - 1
        while self._cost(s, best_S) > self._G(s):
            s -= 1
        least = self._cost(s, best_S)
        S = best_S + 1
        while self._G(S) <= least:
            if self._cost(s, S) < least:
                best_S = S
                while self._cost(s, best_S) <= self._G(s + 1):
                    s += 1
                least = self._cost(s, best_S)
            S += 1
        return UpToPolicy(s, best_S, least)


def economic_lot(rate: float, K: float, h: float) -> int:
    """Pieces to order at once: sqrt(2 K rate / h), at least one.

    rate [pieces/month]; K [money/order]; h [money/piece/month].
    Source: Harris 1913, the square-root formula.

    >>> economic_lot(rate=2, K=5, h=0.2)
    10
    """
    above_zero(h=h)
    not_negative(rate=rate, K=K)
    return max(1, round(math.sqrt(2 * K * rate / h)))
