"""The top of a likelihood of two shapes above zero, by Newton steps on their logarithms.

Two parameters need no general optimiser; this one loads nothing and takes about ten steps.
"""

from __future__ import annotations

import math
from collections.abc import Callable
from typing import NamedTuple


class Ground(NamedTuple):
    """Height, slope and curvature of a log likelihood at (a, b)."""

    height: float
    by_a: float
    by_b: float
    by_aa: float
    by_ab: float
    by_bb: float


Hill = Callable[[float, float], Ground]

_STEPS = 200
_STRIDE = 2.0  # largest step of a logarithm: a factor of 7.4
_FLAT = 1e-9


def climb(hill: Hill, start: tuple[float, float], widest: float = 11.0) -> tuple[float, float]:
    """The shapes (a, b) at the top; logarithms stay within ``widest`` of zero.

    Newton where the ground curves down, along the slope where it does not; a step that does
    not gain is halved.

    >>> top = climb(lambda a, b: Ground(-((a - 3) ** 2) - (b - 2) ** 2, -2 * (a - 3),
    ...             -2 * (b - 2), -2.0, 0.0, -2.0), (1.0, 1.0))
    >>> [round(shape, 6) for shape in top]
    [3.0, 2.0]
    """
    x, y = math.log(start[0]), math.log(start[1])
    here = hill(math.exp(x), math.exp(y))
    for _ in range(_STEPS):
        dx, dy = _stride(here, math.exp(x), math.exp(y))
        share = 1.0
        while share > _FLAT:
            to_x, to_y = _within(x + share * dx, widest), _within(y + share * dy, widest)
            there = hill(math.exp(to_x), math.exp(to_y))
            if there.height >= here.height:
                break
            share /= 2
        moved = max(abs(to_x - x), abs(to_y - y))
        if share <= _FLAT or moved < _FLAT:
            break
        x, y, here = to_x, to_y, there
    return math.exp(x), math.exp(y)


def _stride(ground: Ground, a: float, b: float) -> tuple[float, float]:
    """The next step of (log a, log b)."""
    x, y = a * ground.by_a, b * ground.by_b
    xx, yy = a * a * ground.by_aa + x, b * b * ground.by_bb + y
    xy = a * b * ground.by_ab
    turn = xx * yy - xy * xy
    if xx < 0 and turn > 0:
        dx, dy = (xy * y - yy * x) / turn, (xy * x - xx * y) / turn
    else:
        steep = max(abs(x), abs(y), 1e-300)
        dx, dy = x / steep, y / steep
    longest = max(abs(dx), abs(dy))
    return (dx, dy) if longest <= _STRIDE else (dx / longest * _STRIDE, dy / longest * _STRIDE)


def _within(x: float, widest: float) -> float:
    """A logarithm kept in its bounds."""
    return max(-widest, min(widest, x))
