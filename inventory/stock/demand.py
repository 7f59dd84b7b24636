"""How often a part type is asked for: the Gamma-Poisson model with discounted history.

Months are the unit of time throughout. A rate is Gamma(a, b): mean a/b pieces a month,
worth b months of watching. What is seen is added to it: a uses and b months.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from typing import NamedTuple

from inventory.stock.checks import a_history, a_share, above_zero, not_negative
from inventory.stock.counts import NegativeBinomial, Poisson
from inventory.stock.gamma import chance_above

DISCOUNT = 0.95
"""Weight of a month against the one after it: half-life 13.5 months.

Source: reference section 0; the back-test in tests/benchmarks.
"""


class Seen(NamedTuple):
    """What a history amounts to once old months count less."""

    n: float  # uses, discounted [pieces or jobs]
    T: float  # exposure, discounted [months]


def discounted(y: Sequence[float], w: float = DISCOUNT, first_age: int = 0) -> Seen:
    """Sum up a history: n = sum w^age y, T = sum w^age over the months of ``y``, oldest first.

    The last month has ``first_age``; 1 is one step of the power-steady model ahead, which is
    what a forecast made at the end of that month needs.
    Source: Harvey & Fernandes 1989, doi 10.1080/07350015.1989.10509750.

    >>> discounted([2, 0, 1], w=0.5)
    Seen(n=1.5, T=1.75)
    """
    _weight(w)
    a_history(y)
    n = T = 0.0
    for use in y:
        n, T = w * n + use, w * T + 1
    return Seen(n * w**first_age, T * w**first_age)


def discounted_months(
    uses: Iterable[tuple[int, float]], first: int, now: int, w: float = DISCOUNT
) -> Seen:
    """The same from a sparse list of (month number, uses), for months ``first`` to ``now - 1``.

    The last complete month, ``now - 1``, has age 1. Uses outside the span do not count.

    >>> seen = discounted_months([(0, 2), (2, 1)], first=0, now=3, w=0.5)
    >>> seen == discounted([2, 0, 1], w=0.5, first_age=1)
    True
    """
    _weight(w)
    months = max(0, now - first)
    T = float(months) if w == 1 else w * (1 - w**months) / (1 - w)
    n = math.fsum(w ** (now - month) * use for month, use in uses if first <= month < now)
    return Seen(n, T)


def _weight(w: float) -> None:
    """0 < w <= 1."""
    if w != 1:
        a_share(w=w)


@dataclass(frozen=True, slots=True)
class GammaPoisson:
    """A rate known as Gamma(a, b): shape a [uses], b [months].

    >>> GammaPoisson(0.5, 2).after(6, 8).mean
    0.65
    """

    a: float
    b: float

    def __post_init__(self) -> None:
        above_zero(a=self.a, b=self.b)

    @property
    def mean(self) -> float:
        """Expected uses a month."""
        return self.a / self.b

    def after(self, n: float, T: float) -> GammaPoisson:
        """What is known once n uses were seen in T months: Gamma(a + n, b + T)."""
        not_negative(n=n, T=T)
        return GammaPoisson(self.a + n, self.b + T)

    def over(self, P: float) -> NegativeBinomial | Poisson:
        """Uses in the next P months: NB(r = a, p = b/(b + P)).

        Mean aP/b, variance mean (1 + P/b).
        """
        not_negative(P=P)
        return NegativeBinomial(self.a, self.b / (self.b + P)) if P > 0 else Poisson(0.0)

    def rate_quantile(self, q: float) -> float:
        """The rate [uses a month] that the true one is below with chance q."""
        from scipy.special import gammaincinv

        a_share(q=q)
        return float(gammaincinv(self.a, q)) / self.b

    def rate_above(self, rate: float) -> float:
        """The chance that the true rate is above ``rate`` [uses a month]."""
        not_negative(rate=rate)
        return chance_above(self.a, self.b * rate)


PRIOR = GammaPoisson(0.5, 2.0)
"""Prior under about 30 part types with history: 0.25 a month, worth two months.

Source: reference section 0; a flatter one orders 193 pieces on no history at all (S34).
"""


def gamma_poisson_level(
    n: float = 0,
    T: float = 0,
    *,
    a: float = PRIOR.a,
    b: float = PRIOR.b,
    P: float = 1,
    q: float = 0.95,
) -> int:
    """Order-up-to level: smallest S with P(D_P <= S) >= q after n uses in T months.

    D_P ~ NB(r = a + n, p = (b + T)/(b + T + P)).
    a [uses], b [months]: prior; P [months]: lead time + review; q: chance of no shortage.
    Source: reference section 2, cases S31 to S35.

    >>> [gamma_poisson_level(6, 8, P=P) for P in (1, 2)]
    [2, 4]
    >>> gamma_poisson_level(a=0.5, b=0.01)  # a flat prior is useless with no history
    193
    """
    return GammaPoisson(a, b).after(n, T).over(P).quantile(q)


def plug_in_level(n: float, T: float, *, P: float = 1, q: float = 0.95) -> int:
    """The level if the observed mean n/T were the truth: Poisson(nP/T), for comparison.

    >>> plug_in_level(2, 3, P=2)
    3
    """
    above_zero(T=T)
    return Poisson(n * P / T).quantile(q)
