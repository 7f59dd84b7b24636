"""Several part types and one purse: where the next coin does most good."""

from __future__ import annotations

import heapq
from collections.abc import Sequence
from dataclasses import dataclass
from typing import NamedTuple

from inventory.errors import WrongInput
from inventory.stock.checks import above_zero, not_negative
from inventory.stock.counts import Counts, Poisson


class Step(NamedTuple):
    """One piece bought along the frontier."""

    item: int  # index of the part type
    gain: float  # pieces owed that it saves, times the benefit
    spent: float  # money so far, this piece included


@dataclass(frozen=True, slots=True)
class Basket:
    """Levels that a budget or a target leads to, with the road there."""

    levels: tuple[int, ...]
    spent: float
    steps: tuple[Step, ...]
    backorders: float  # sum of expected pieces owed


def greedy_levels(
    demands: Sequence[Counts | float],
    prices: Sequence[float],
    *,
    budget: float,
    benefits: Sequence[float] | None = None,
    skip: bool = False,
) -> Basket:
    """Add one piece at a time where P(D >= s+1) x benefit / price is largest.

    demands: distributions, or Poisson means [pieces]; prices, budget [money].
    Each stop is on the efficient frontier, as the gains shrink. The first piece the budget
    cannot pay for ends it; with ``skip`` cheaper ones may still follow (off the frontier).
    Source: van Houtum & Kranenburg 2015, chapter 2 (greedy, system approach).

    >>> greedy_levels([1.0, 0.2], [10, 1], budget=22).levels
    (2, 2)
    """
    shelf = [d if isinstance(d, Counts) else Poisson(float(d)) for d in demands]
    worth = list(benefits) if benefits is not None else [1.0] * len(shelf)
    if not len(shelf) == len(prices) == len(worth):
        raise WrongInput("Each part type needs one demand, one price and one benefit.")
    for price in prices:
        above_zero(price=price)
    not_negative(budget=budget)
    return _buy(shelf, prices, worth, budget, skip=skip)


def _buy(
    shelf: Sequence[Counts],
    prices: Sequence[float],
    worth: Sequence[float],
    budget: float,
    *,
    skip: bool,
) -> Basket:
    """The loop: a heap of the best next piece of each part type."""
    levels, spent, steps = [0] * len(shelf), 0.0, list[Step]()

    def offer(item: int) -> tuple[float, int, float]:
        gain = shelf[item].tail(levels[item]) * worth[item]
        return (-gain / prices[item], item, gain)

    heap = [offer(item) for item in range(len(shelf))]
    heapq.heapify(heap)
    while heap:
        ratio, item, gain = heapq.heappop(heap)
        if spent + prices[item] > budget + 1e-9 or -ratio < 1e-12:
            if skip:
                continue
            break
        spent, levels[item] = spent + prices[item], levels[item] + 1
        steps.append(Step(item, gain, spent))
        heapq.heappush(heap, offer(item))
    owed = sum(d.loss(s)[0] for d, s in zip(shelf, levels, strict=True))
    return Basket(tuple(levels), spent, tuple(steps), owed)
