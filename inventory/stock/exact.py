"""Exact bounds for small numbers: shares, counts, and what none failed says."""

from __future__ import annotations

import math
from statistics import NormalDist

from inventory.stock.checks import a_count_of, a_share, above_zero, whole
from inventory.stock.intervals import Interval, chi_square_quantile


def clopper_pearson(k: int, n: int, conf: float = 0.95) -> Interval:
    """The exact interval for a share: quantiles of Beta(k, n-k+1) and Beta(k+1, n-k).

    Never covers less than it says, and is wider than Wilson's for it.
    Source: Clopper & Pearson 1934, Biometrika 26:404; 5 of 25 gives .068 to .407
    (influentialpoints.com, after Conover).

    >>> tuple(round(v, 3) for v in clopper_pearson(5, 25))
    (0.068, 0.407)
    """
    a_count_of(k, n)
    a_share(conf=conf)
    from scipy.special import betaincinv

    half = (1 - conf) / 2
    low = 0.0 if k == 0 else float(betaincinv(k, n - k + 1, half))
    high = 1.0 if k == n else float(betaincinv(k + 1, n - k, 1 - half))
    return Interval(low, high)


def agresti_coull(k: int, n: int, conf: float = 0.95) -> Interval:
    """Wilson's centre with the plain standard error: never narrower than Wilson's.

    Source: Agresti & Coull 1998, Amer. Statist. 52:119. (The NIST handbook prints Wilson's
    formula under this name.)

    >>> tuple(round(v, 4) for v in agresti_coull(4, 20))
    (0.0749, 0.4218)
    """
    a_count_of(k, n)
    a_share(conf=conf)
    z = NormalDist().inv_cdf((1 + conf) / 2)
    trials = n + z * z
    centre = (k + z * z / 2) / trials
    half = z * math.sqrt(centre * (1 - centre) / trials)
    return Interval(max(0.0, centre - half), min(1.0, centre + half))


def poisson_interval(k: int, conf: float = 0.95) -> Interval:
    """The exact interval for an expected count when k were counted.

    chi²(a/2, 2k)/2 and chi²(1-a/2, 2k+2)/2, a = 1 - conf.
    Source: Garwood 1936, Biometrika 28:437; none counted gives 0 to 3.689 (epitools pois.exact).

    >>> tuple(round(v, 3) for v in poisson_interval(0)), round(poisson_interval(10).lower, 3)
    ((0.0, 3.689), 4.795)
    """
    whole(k=k)
    a_share(conf=conf)
    half = (1 - conf) / 2
    low = chi_square_quantile(half, 2 * k) / 2 if k > 0 else 0.0
    return Interval(low, chi_square_quantile(1 - half, 2 * k + 2) / 2)


def none_failed(n: int, conf: float = 0.95) -> float:
    """The largest share of bad pieces that none bad in n leaves open: 1 - (1 - conf)^(1/n).

    >>> round(none_failed(100), 5)
    0.02951
    """
    above_zero(n=n)
    a_share(conf=conf)
    return float(-math.expm1(math.log1p(-conf) / n))


def rule_of_three(n: int) -> float:
    """3/n, the same at 95 % without a calculator; not above 1.

    Source: Hanley & Lippman-Hand 1983, JAMA 249:1743.

    >>> rule_of_three(100)
    0.03
    """
    above_zero(n=n)
    return min(1.0, 3 / n)


def pieces_to_test(reliability: float, conf: float = 0.95) -> int:
    """Pieces that must all pass to show a share of good ones: ln(1 - conf)/ln(reliability).

    Source: success-run formula; 90 % at 95 % confidence needs 29 (from memory, a common figure).

    >>> pieces_to_test(0.9)
    29
    """
    a_share(reliability=reliability, conf=conf)
    return math.ceil(math.log1p(-conf) / math.log(reliability) - 1e-9)
