"""Intervals for shares and rates seen in small numbers."""

from __future__ import annotations

import math
from collections.abc import Sequence
from statistics import NormalDist
from typing import NamedTuple

from inventory.stock.checks import a_count_of, a_share, above_zero, ages, whole
from inventory.stock.counts import Poisson


class Interval(NamedTuple):
    """Lower and upper bound."""

    lower: float
    upper: float


def wilson(k: int, n: int, conf: float = 0.95) -> Interval:
    """Wilson's interval for a share, k of n.

    centre (k + z²/2)/(n + z²), half width z/(n + z²) sqrt(k(n-k)/n + z²/4).
    Source: Newcombe 1998, Statist. Med. 17:857: 81 of 263 gives .2553 to .3662. (The NIST
    handbook prints this formula under the name Agresti-Coull.)

    >>> tuple(round(v, 6) for v in wilson(81, 263))
    (0.255289, 0.36621)
    """
    a_count_of(k, n)
    a_share(conf=conf)
    z = NormalDist().inv_cdf((1 + conf) / 2)
    centre = (k + z * z / 2) / (n + z * z)
    half = z / (n + z * z) * math.sqrt(k * (n - k) / n + z * z / 4)
    return Interval(
        0.0 if k == 0 else max(0.0, centre - half), 1.0 if k == n else min(1.0, centre + half)
    )


def jeffreys(k: int, n: int, conf: float | None = None, *, alpha: float | None = None) -> Interval:
    """Jeffreys' interval: quantiles of Beta(k + 1/2, n - k + 1/2), mended at the ends.

    k = 0: [0, 1 - (alpha/2)^(1/n)]; k = n mirrored. ``alpha`` = 1 - conf may be given instead;
    95 % without either.
    Source: Brown, Cai & DasGupta 2001, Statist. Sci. 16:101, table 5 (modified).

    >>> tuple(round(v, 6) for v in jeffreys(3, 7))
    (0.138864, 0.765499)
    >>> tuple(round(v, 6) for v in jeffreys(0, 7, alpha=0.05))
    (0.0, 0.409616)
    """
    a_count_of(k, n)
    alpha = alpha if alpha is not None else 1 - (0.95 if conf is None else conf)
    a_share(alpha=alpha)
    edge = (alpha / 2) ** (1 / n)
    if k == 0:
        return Interval(0.0, 1 - edge)
    if k == n:
        return Interval(edge, 1.0)
    from scipy.special import betaincinv

    a, b = k + 0.5, n - k + 0.5
    return Interval(float(betaincinv(a, b, alpha / 2)), float(betaincinv(a, b, 1 - alpha / 2)))


class Mtbf(NamedTuple):
    """Mean time between failures with its bounds; None where none can be given."""

    mtbf: float | None  # None: no failure yet
    lower: float
    upper: float | None  # None: no failure yet
    factors: tuple[float, float] | None  # bounds / mtbf


def mtbf_interval(T: float, r: int, conf: float = 0.95, *, ended_by_failure: bool = False) -> Mtbf:
    """Mean time between failures and its interval at a constant rate, time-censored.

    lower 2T/chi²(1-a/2, 2r+2), upper 2T/chi²(a/2, 2r), a = 1 - conf; with r = 0 only a lower
    bound, one-sided: T/(-ln a). Where the watching ended with a failure the lower bound too has
    2r degrees of freedom.
    T: total running time of all pieces [any time unit]; r: failures.
    Source: NIST/SEMATECH e-Handbook 8.4.5.1.

    >>> found = mtbf_interval(800, 2, conf=0.90)
    >>> round(found.lower, 3), round(found.upper, 2)
    (127.069, 2251.23)
    >>> round(mtbf_interval(800, 0, conf=0.95).lower, 4)
    267.0466
    """
    above_zero(T=T)
    whole(r=r)
    a_share(conf=conf)
    alpha = 1 - conf
    if r == 0:
        return Mtbf(None, T / -math.log(alpha), None, None)
    freedom = 2 * r if ended_by_failure else 2 * r + 2
    lower = 2 * T / chi_square_quantile(1 - alpha / 2, freedom)
    upper = 2 * T / chi_square_quantile(alpha / 2, 2 * r)
    mtbf = T / r
    return Mtbf(mtbf, lower, upper, (lower / mtbf, upper / mtbf))


def chi_square_quantile(q: float, df: int) -> float:
    """Quantile of chi-square with an even number of degrees of freedom, by bisection.

    P(chi²_{2m} <= x) = P(Poisson(x/2) >= m).

    >>> round(chi_square_quantile(0.95, 2), 6)
    5.991465
    """
    a_share(q=q)
    m = df // 2
    low, high = 0.0, 2.0 * m + 20.0
    while Poisson(high / 2).cdf(m - 1) > 1 - q:
        high *= 2
    for _ in range(60):  # to the last digit of a double
        mid = (low + high) / 2
        if Poisson(mid / 2).cdf(m - 1) > 1 - q:
            low = mid
        else:
            high = mid
    return (low + high) / 2


def failure_rate(fail: Sequence[float], alive: Sequence[float] = ()) -> float:
    """Failures per unit of time when some pieces still run: r / sum of all times.

    fail: age at failure of each failed piece; alive: age so far of the others.

    >>> round(failure_rate([9, 11, 12], [15, 15]), 6)
    0.048387
    """
    ages([*fail, *alive])
    total = math.fsum(fail) + math.fsum(alive)
    above_zero(total=total)
    return len(fail) / total
