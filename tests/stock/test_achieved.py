"""The shop's own back-test."""

from __future__ import annotations

import random
from dataclasses import replace

import pytest

from inventory.errors import NotFound
from inventory.stock.achieved import own_backtest
from inventory.stock.asked import Month, PartStock
from tests.stock.parts import NOW, SETTINGS, part


def shop(count: int, months: int, pieces: int = 1) -> list[PartStock]:
    """Invented part types, used by chance about every third month."""
    rng = random.Random(9)
    return [
        part(
            i,
            months=months - i % 5,
            history=tuple(
                Month(NOW - k, 1, pieces)
                for k in range(months - i % 5, 0, -1)
                if rng.random() < 0.3
            ),
        )
        for i in range(count)
    ]


def test_the_claim_stands_beside_the_outcome() -> None:
    """A steady shop gets about what it was promised."""
    found = own_backtest(shop(40, 30), SETTINGS)

    assert (found.part_types, found.months, found.lead_time) == (40, 17, 1)
    assert found.months_without_shortage == pytest.approx(found.claimed, abs=0.03)
    assert "claimed" in found.sentence()
    assert "achieved" in found.sentence()


def test_parts_used_in_pairs_are_replayed_as_pairs() -> None:
    """Compound levels for some, plain ones for the rest."""
    pairs = [replace(p, part_id=p.part_id + 100) for p in shop(20, 30, pieces=2)]
    both = own_backtest([*shop(40, 30), *pairs], SETTINGS)

    assert both.on_hand > own_backtest(shop(40, 30), SETTINGS).on_hand
    assert both.months_without_shortage > 0.9


def test_the_month_under_way_is_not_scored() -> None:
    """A job of this month, not over yet, changes nothing."""
    parts = shop(40, 30)
    today = [replace(parts[0], history=(*parts[0].history, Month(NOW, 1, 50))), *parts[1:]]
    found = own_backtest(today, SETTINGS)

    assert found.filled_at_once == own_backtest(parts, SETTINGS).filled_at_once


def test_pieces_put_back_do_no_harm() -> None:
    """Two jobs and one piece left in a month, on a shelf where others are used in pairs."""
    pairs = [replace(p, part_id=p.part_id + 100) for p in shop(5, 30, pieces=2)]
    returned = part(500, months=30, history=(Month(NOW - 5, 2, 1),))

    assert own_backtest([*pairs, returned], SETTINGS).part_types == 6


@pytest.mark.parametrize("parts", [[], [part(1, months=10)]])
def test_a_young_journal_cannot_be_judged(parts: list[PartStock]) -> None:
    """Fewer than a year and a lead time: one sentence that says so."""
    with pytest.raises(NotFound, match="more than 13 whole months of journal"):
        own_backtest(parts, SETTINGS)
