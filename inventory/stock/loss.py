"""Loss functions by name: expected shortage and left-over, as a pair."""

from __future__ import annotations

from statistics import NormalDist

from inventory.stock.checks import above_zero, finite
from inventory.stock.counts import NegativeBinomial, Poisson

_STANDARD = NormalDist()


def poisson_loss(x: int, mean: float) -> tuple[float, float]:
    """(n, n̄) of Poisson demand with this mean when x pieces are there [pieces].

    Source: Snyder & Shen 2e, equations C.38-C.39; S14 of the published cases.

    >>> tuple(round(v, 6) for v in poisson_loss(220, 200))
    (0.536006, 20.536006)
    """
    return Poisson(mean).loss(x)


def nb_loss(x: int, r: float, p: float) -> tuple[float, float]:
    """(n, n̄) of negative-binomial demand (shape r, share p) when x pieces are there.

    >>> tuple(round(v, 6) for v in nb_loss(14, 4, 0.2))
    (4.447305, 2.447305)
    """
    return NegativeBinomial(r, p).loss(x)


def normal_loss(x: float, mean: float, sd: float) -> tuple[float, float]:
    """(n, n̄) of normal demand: n = sd (φ(z) - z (1-Φ(z))), z = (x - mean)/sd.

    Source: Snyder & Shen 2e, equations C.22 and C.31; example from stockpyl (MIT) docs.

    >>> tuple(round(v, 6) for v in normal_loss(18.6, 15, 3))
    (0.168307, 3.768307)
    """
    above_zero(sd=sd)
    finite(x=x, mean=mean)
    z = (x - mean) / sd
    short = sd * (_STANDARD.pdf(z) - z * (1 - _STANDARD.cdf(z)))
    return short, x - mean + short
