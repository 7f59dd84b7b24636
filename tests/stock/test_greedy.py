"""Spending one purse over several part types."""

from __future__ import annotations

from itertools import product

import pytest

from inventory.errors import WrongInput
from inventory.stock.counts import NegativeBinomial, Poisson
from inventory.stock.greedy import greedy_levels

MEANS, PRICES = [1.0, 0.2, 2.5], [10.0, 1.0, 4.0]


def owed(levels: tuple[int, ...]) -> float:
    """Pieces owed in all."""
    return sum(Poisson(m).loss(s)[0] for m, s in zip(MEANS, levels, strict=True))


def test_every_stop_is_on_the_frontier() -> None:
    """No basket that costs as much or less owes fewer pieces: all levels to 7 are tried."""
    baskets = [
        (sum(s * price for s, price in zip(levels, PRICES, strict=True)), owed(levels))
        for levels in product(range(8), repeat=3)
    ]
    for budget in (0, 5, 13, 22, 40):
        found = greedy_levels(MEANS, PRICES, budget=budget)
        assert all(
            other >= found.backorders - 1e-9 for cost, other in baskets if cost <= found.spent
        )


def test_the_road_is_told() -> None:
    """Steps say what was bought, in order, and add up to what was spent."""
    found = greedy_levels(MEANS, PRICES, budget=22)

    assert len(found.steps) == sum(found.levels)
    assert found.steps[-1].spent == found.spent <= 22
    assert found.backorders == pytest.approx(owed(found.levels))


def test_skipping_may_leave_the_frontier_but_not_the_budget() -> None:
    """With skip a cheaper piece may follow one that is too dear."""
    plain = greedy_levels(MEANS, PRICES, budget=14)
    skipping = greedy_levels(MEANS, PRICES, budget=14, skip=True)

    assert plain.spent <= skipping.spent <= 14


def test_benefit_counts() -> None:
    """A part that matters ten times as much comes first."""
    found = greedy_levels([1.0, 1.0], [5, 5], budget=5, benefits=[1, 10])

    assert found.levels == (0, 1)


def test_any_counts_and_a_full_purse() -> None:
    """Buying stops by itself once another piece saves nothing."""
    found = greedy_levels([NegativeBinomial(1, 0.5)], [1], budget=1e9)

    assert 20 < found.levels[0] < 60


def test_lists_must_match() -> None:
    """One price and one demand each; prices above zero."""
    with pytest.raises(WrongInput, match="one demand, one price"):
        greedy_levels([1.0], [1, 2], budget=3)
    with pytest.raises(WrongInput, match="price must be above zero"):
        greedy_levels([1.0], [0], budget=3)
