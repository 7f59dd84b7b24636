"""The tail of a gamma distribution, without a numerical library: a search must start quickly."""

from __future__ import annotations

import math

from inventory.stock.checks import above_zero, not_negative

_CLOSE = 1e-15
_STEPS = 100_000
"""More than any shape up to a million needs."""


def chance_above(a: float, x: float) -> float:
    """Q(a, x): the chance that a Gamma(a, 1) quantity is above x.

    By the power series where x < a + 1, by the continued fraction above it.
    Source: NIST Digital Library of Mathematical Functions, 8.2.4, 8.7.1 and 8.9.2.

    >>> round(chance_above(1, 2), 6)  # exp(-2)
    0.135335
    """
    above_zero(a=a)
    not_negative(x=x)
    if x == 0:
        return 1.0
    front = math.exp(a * math.log(x) - x - math.lgamma(a))
    return 1 - front * _series(a, x) if x < a + 1 else front * _fraction(a, x)


def _series(a: float, x: float) -> float:
    """Sum of x^k / (a (a + 1) ... (a + k))."""
    term = total = 1 / a
    for k in range(1, _STEPS):
        term *= x / (a + k)
        total += term
        if term < total * _CLOSE:
            break
    return total


def _fraction(a: float, x: float) -> float:
    """1/(x + 1 - a - 1(1 - a)/(x + 3 - a - 2(2 - a)/(...))), by Lentz's method as modified.

    Source: DLMF 3.10(iii); the fraction is the even part of 8.9.2.
    """
    b = x + 1 - a
    c, d = 1e300, 1 / b
    total = d
    for k in range(1, _STEPS):
        above = -k * (k - a)
        b += 2
        d = 1 / (above * d + b)
        c = b + above / c
        total *= c * d
        if abs(c * d - 1) < _CLOSE:
            break
    return total
