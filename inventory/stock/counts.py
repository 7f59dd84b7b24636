"""Counts of pieces and their distributions: Poisson, negative binomial, and what both share.

All in plain ``math``: tails are summed term by term from where they begin to matter.
"""

from __future__ import annotations

import math
from abc import ABC, abstractmethod
from collections.abc import Iterator
from dataclasses import dataclass

from inventory.errors import WrongInput
from inventory.stock.checks import a_share, above_zero, integer, not_negative

_FAR = 40.0  # standard deviations beyond which a term is below the smallest double


class Counts(ABC):
    """A distribution over 0, 1, 2, ... pieces; children give ``pmf``, ``mean``, ``variance``."""

    __slots__ = ()

    @property
    @abstractmethod
    def mean(self) -> float:
        """Expected count [pieces]."""

    @property
    @abstractmethod
    def variance(self) -> float:
        """Variance of the count [pieces²]."""

    @abstractmethod
    def pmf(self, x: int) -> float:
        """P(X = x)."""

    def _first(self) -> int:
        """The first count that carries weight."""
        return max(0, int(self.mean - _FAR * math.sqrt(self.variance)) - 1)

    def _last(self) -> float:
        """A count beyond which nothing carries weight."""
        return self.mean + 1000 * (1 + math.sqrt(self.variance))

    def running(self) -> Iterator[tuple[int, float]]:
        """Pairs (x, P(X <= x)) from the first count that matters, without end."""
        x, total = self._first(), 0.0
        while True:
            total += self.pmf(x)
            yield x, min(1.0, total)
            x += 1

    def cdf(self, x: float) -> float:
        """P(X <= x); 0 below zero."""
        if x > self._last():
            return 1.0
        return min(1.0, math.fsum(self.pmf(k) for k in range(self._first(), math.floor(x) + 1)))

    def tail(self, x: float) -> float:
        """P(X > x)."""
        return max(0.0, 1.0 - self.cdf(x))

    def quantile(self, q: float) -> int:
        """The smallest x with P(X <= x) >= q; no interpolation (a count is a whole number).

        >>> Poisson(4.25).quantile(0.996)  # F(10) = .99557 does not reach it
        11
        """
        a_share(q=q)
        limit = self.mean + 1e4 * (1 + math.sqrt(self.variance))
        for x, total in self.running():
            if total >= q:
                return x
            if x > limit:
                raise WrongInput(f"No whole number reaches a share of {q}.")
        raise AssertionError  # pragma: no cover - running() has no end

    def loss(self, x: int) -> tuple[float, float]:
        """Expected shortage and expected left-over when x pieces are there.

        n(x) = E[(X-x)+], n̄(x) = E[(x-X)+] = x - E[X] + n(x). Both in pieces.
        Source: Snyder & Shen, Fundamentals of Supply Chain Theory 2e, appendix C.3.
        """
        integer(x=x)
        x = int(x)
        if x > self._last():
            return 0.0, x - self.mean
        left = math.fsum((x - k) * self.pmf(k) for k in range(self._first(), x))
        return max(0.0, left - x + self.mean), left


MOST_PIECES = 1e7
"""A larger expected count is a slip of the pen, and would be summed term by term for minutes."""


def _few_enough(mean: float) -> None:
    """An expected count that can be summed, or ``WrongInput``."""
    if mean > MOST_PIECES:
        raise WrongInput(f"An expected count of {mean:.3g} pieces is out of all range.")


@dataclass(frozen=True, slots=True)
class Poisson(Counts):
    """Poisson counts. p(x) = e^-m m^x / x!

    >>> round(Poisson(10).cdf(14), 6)
    0.916542
    """

    m: float  # expected count [pieces]

    def __post_init__(self) -> None:
        not_negative(mean=self.m)
        _few_enough(self.m)

    @property
    def mean(self) -> float:
        """The rate m itself."""
        return self.m

    @property
    def variance(self) -> float:
        """The rate m itself."""
        return self.m

    def _last(self) -> float:
        return self.m + _FAR * (1 + math.sqrt(self.m))

    def pmf(self, x: int) -> float:
        """P(X = x)."""
        if x < 0:
            return 0.0
        if self.m == 0:
            return float(x == 0)
        return math.exp(x * math.log(self.m) - self.m - math.lgamma(x + 1))


@dataclass(frozen=True, slots=True)
class NegativeBinomial(Counts):
    """Negative binomial counts with a real-valued shape: a Poisson whose rate is Gamma.

    p(x) = C(r+x-1, x) p^r (1-p)^x; mean r(1-p)/p, variance mean/p.

    >>> NegativeBinomial(4, 0.2).mean
    16.0
    """

    r: float  # shape
    p: float  # share of "success", 0 < p <= 1

    def __post_init__(self) -> None:
        above_zero(r=self.r)
        if not 0 < self.p <= 1:
            raise WrongInput(f"p must lie above 0 and not above 1, not {self.p}.")
        _few_enough(self.mean)

    @property
    def mean(self) -> float:
        """r(1-p)/p."""
        return self.r * (1 - self.p) / self.p

    @property
    def variance(self) -> float:
        """r(1-p)/p²."""
        return self.mean / self.p

    def pmf(self, x: int) -> float:
        """P(X = x)."""
        if x < 0:
            return 0.0
        if self.p == 1:
            return float(x == 0)
        ways = math.lgamma(self.r + x) - math.lgamma(self.r) - math.lgamma(x + 1)
        return math.exp(ways + self.r * math.log(self.p) + x * math.log1p(-self.p))


@dataclass(frozen=True, slots=True)
class Listed(Counts):
    """Counts given by their probabilities, P(X = 0) first; what lies beyond the list is nothing.

    >>> Listed((0.5, 0.25, 0.25)).quantile(0.75)
    1
    """

    weights: tuple[float, ...]

    @property
    def mean(self) -> float:
        """Sum of x p(x)."""
        return math.fsum(x * w for x, w in enumerate(self.weights))

    @property
    def variance(self) -> float:
        """Sum of x² p(x), less the mean squared."""
        return math.fsum(x * x * w for x, w in enumerate(self.weights)) - self.mean**2

    def _first(self) -> int:
        return 0

    def _last(self) -> float:
        return float(len(self.weights))

    def pmf(self, x: int) -> float:
        """P(X = x)."""
        return self.weights[x] if 0 <= x < len(self.weights) else 0.0


def by_moments(mean: float, variance: float) -> Counts:
    """Negative binomial with this mean and variance; Poisson where variance <= mean.

    r = m²/(v-m), p = m/v, with m [pieces], v [pieces²].
    Source: from memory (Axsäter; Silver, Pyke & Peterson); checked by its own moments.

    >>> by_moments(1.3, 2.6)
    NegativeBinomial(r=1.3, p=0.5)
    """
    not_negative(mean=mean, variance=variance)
    if variance <= mean or mean == 0:
        return Poisson(mean)
    return NegativeBinomial(mean * mean / (variance - mean), mean / variance)


def geometric_sizes(mean_size: float) -> NegativeBinomial:
    """Job sizes less one, geometric: with Poisson jobs this is the stuttering Poisson.

    P(Z = 1 + k) = p (1-p)^k with p = 1/mean_size.

    >>> geometric_sizes(2.0).mean
    1.0
    """
    if mean_size < 1:
        raise WrongInput(f"A job uses one piece at least, not {mean_size}.")
    return NegativeBinomial(1, 1 / mean_size)
