"""Benches and waiting jobs: Erlang's two formulas. Traffic = jobs an hour x hours a job."""

from __future__ import annotations

from inventory.errors import WrongInput
from inventory.stock.checks import not_negative, whole

MOST_BENCHES = 100_000
"""More than any shop has, and soon summed."""


def erlang_b(a: float, c: int) -> float:
    """Share of jobs turned away when c benches take traffic a and nobody waits.

    B(0) = 1; B(j) = a B(j-1)/(j + a B(j-1)). With a repair pipeline of mean a and c spares it is
    also the share of requests lost (lost sales).
    Source: Erlang 1917.

    >>> round(erlang_b(3, 5), 4)
    0.1101
    """
    not_negative(a=a)
    whole(c=c)
    if c > MOST_BENCHES:
        raise WrongInput(f"{c:g} benches are out of all range.")
    blocked = 1.0
    for j in range(1, int(c) + 1):
        blocked = a * blocked / (j + a * blocked)
    return blocked


def erlang_c(a: float, c: int) -> float:
    """Share of jobs that wait when c benches take traffic a below c.

    C = c B/(c - a (1 - B)). Source: Erlang 1917.

    >>> round(erlang_c(2, 3), 4)
    0.4444
    """
    not_negative(a=a)
    whole(c=c)
    if not a < c:
        raise WrongInput(f"Traffic {a:g} needs more than {c:g} benches: the queue never ends.")
    blocked = erlang_b(a, c)
    return c * blocked / (c - a * (1 - blocked))
