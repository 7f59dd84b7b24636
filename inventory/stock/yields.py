"""How many pulled pieces turn out good: learned per family, Beta-binomial."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from typing import NamedTuple

from inventory.errors import WrongInput
from inventory.stock.checks import above_zero, not_negative, whole
from inventory.stock.climb import Ground, Hill, climb
from inventory.stock.counts import Counts

CAP_PIECES = 20.0
"""A family's pooled yield weighs 20 pieces at most. Source: common practice, our choice."""


class YieldForecast(NamedTuple):
    """What the next pulled pieces will yield."""

    q: float  # chance that one piece is good
    pmf: tuple[float, ...]  # P(0 good), P(1 good), ...
    mean: float  # good pieces expected
    p_at_least_1: float


@dataclass(frozen=True, slots=True)
class Yield:
    """A good-share known as Beta(a, b), counts included.

    >>> Yield(1, 1).after(good=11, pulled=14).share
    0.75
    """

    a: float  # good pieces, prior included
    b: float  # bad pieces, prior included

    def __post_init__(self) -> None:
        above_zero(a=self.a, b=self.b)

    @property
    def share(self) -> float:
        """Expected share of good pieces."""
        return self.a / (self.a + self.b)

    def after(self, good: int, pulled: int) -> Yield:
        """What is known once ``good`` of ``pulled`` pieces were good."""
        if not 0 <= good <= pulled:
            raise WrongInput(f"{good} good of {pulled} pulled is not possible.")
        return Yield(self.a + good, self.b + pulled - good)

    def of(self, m: int) -> tuple[float, ...]:
        """P(0..m good among m more pieces), Beta-binomial.

        p(k) = C(m,k) B(a+k, b+m-k)/B(a, b).
        """
        not_negative(m=m)
        base = _log_beta(self.a, self.b)
        return tuple(
            math.exp(_log_choose(m, k) + _log_beta(self.a + k, self.b + m - k) - base)
            for k in range(m + 1)
        )


def _log_beta(a: float, b: float) -> float:
    """Logarithm of B(a, b)."""
    return math.lgamma(a) + math.lgamma(b) - math.lgamma(a + b)


def _log_choose(n: int, k: int) -> float:
    """Logarithm of n over k."""
    return math.lgamma(n + 1) - math.lgamma(k + 1) - math.lgamma(n - k + 1)


UNKNOWN_YIELD = Yield(1, 1)
"""Nothing known of a family: every share equally likely."""


MOST_DONORS = 10_000
"""No yard holds more."""


def beta_binomial_yield(
    alpha: float, beta: float, good: int, pulled: int, donors: int
) -> YieldForecast:
    """Good pieces to expect of ``donors`` more, after ``good`` of ``pulled`` were good.

    alpha, beta: prior [pieces]. Source: reference section 3, S39; scipy.stats.betabinom.

    >>> found = beta_binomial_yield(alpha=1, beta=1, good=11, pulled=14, donors=3)
    >>> found.q, [round(p, 6) for p in found.pmf], round(found.mean, 6)
    (0.75, [0.02451, 0.147059, 0.382353, 0.446078], 2.25)
    """
    whole(good=good, pulled=pulled, donors=donors)
    if donors > MOST_DONORS:
        raise WrongInput(f"{donors:g} donors are out of all range.")
    donors = int(donors)
    known = Yield(alpha, beta).after(good, pulled)
    pmf = known.of(donors)
    return YieldForecast(known.share, pmf, donors * known.share, 1 - pmf[0] if donors else 0.0)


def stockout_with_donors(s: int, demand: Counts, good_pmf: Sequence[float]) -> float:
    """P(shortage) when s good pieces lie and donors stand in the yard.

    sum_g P(G = g) P(D > s + g). ``good_pmf``: P(G = 0), P(G = 1), ...
    Source: reference section 3. Donors do not count in the position; show both figures.

    >>> from inventory.stock.counts import Poisson
    >>> round(stockout_with_donors(1, Poisson(1.3), [0.25, 0.75]), 6)
    0.20046
    """
    return math.fsum(w * demand.tail(s + g) for g, w in enumerate(good_pmf))


def family_yields(records: dict[str, tuple[int, int]], cap: float = CAP_PIECES) -> dict[str, Yield]:
    """Yields of many part types (or families), each drawn towards their pool.

    records: name -> (good, pulled). The pool's Beta is the likeliest one for all of them,
    worth ``cap`` pieces at most; with fewer than two records it is the flat one.

    >>> drawn = family_yields({"relay": (8, 10), "switch": (5, 10), "fuse": (0, 0)})
    >>> round(drawn["fuse"].share, 2)
    0.65
    """
    pool = fit_yield(list(records.values()), cap)
    return {name: pool.after(good, pulled) for name, (good, pulled) in records.items()}


def fit_yield(records: Sequence[tuple[int, int]], cap: float = CAP_PIECES) -> Yield:
    """Beta(a, b) that makes (good, pulled) records likeliest; the share stays, a + b <= cap.

    Fewer than two records with pulled pieces say nothing of how families differ: flat.
    """
    seen = [(good, pulled) for good, pulled in records if pulled > 0]
    if len(seen) < 2:
        return UNKNOWN_YIELD
    a, b = climb(_hill(seen), (1.0, 1.0))
    pool = Yield(a, b)
    weight = min(cap, a + b)
    return Yield(pool.share * weight, (1 - pool.share) * weight)


def _hill(records: Sequence[tuple[int, int]]) -> Hill:
    """Sum of log B(a + good, b + bad)/B(a, b) with its slopes and curvatures."""
    import numpy as np
    from scipy.special import betaln, polygamma, psi

    good = np.array([k for k, _ in records], float)
    bad = np.array([n - k for k, n in records], float)

    def hill(a: float, b: float) -> Ground:
        both, whole = a + b + good + bad, a + b
        shared = psi(both) - psi(whole)
        bent = polygamma(1, both) - polygamma(1, whole)
        return Ground(
            float((betaln(a + good, b + bad) - betaln(a, b)).sum()),
            float((psi(a + good) - psi(a) - shared).sum()),
            float((psi(b + bad) - psi(b) - shared).sum()),
            float((polygamma(1, a + good) - polygamma(1, a) - bent).sum()),
            float(-bent.sum()),
            float((polygamma(1, b + bad) - polygamma(1, b) - bent).sum()),
        )

    return hill
