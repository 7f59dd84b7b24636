"""Sums over stock events."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from inventory.errors import Refused, WrongInput
from inventory.stock.journal import (
    EFFECTS,
    Effect,
    Said,
    Totals,
    asked_for,
    effect,
    fold,
    fold_lots,
    undone,
)

EVENTS = st.lists(
    st.builds(Said.of, st.sampled_from(sorted(EFFECTS)), st.integers(1, 4), st.integers(0, 9))
)

# kind: what two pieces of it add to on hand, held, on order. Source: design section 5.
TWO_PIECES = {
    "logged": (2, 0, 0),
    "held": (0, 2, 0),
    "released": (0, -2, 0),
    "fitted": (-2, 0, 0),
    "put-back": (2, 0, 0),
    "scrapped": (-2, 0, 0),
    "moved": (0, 0, 0),
    "tested": (0, 0, 0),
    "split-off": (-2, 0, 0),
    "split-in": (2, 0, 0),
    "counted": (2, 0, 0),
    "ordered": (0, 0, 2),
    "received": (0, 0, -2),
}


@pytest.mark.parametrize(("kind", "adds"), TWO_PIECES.items())
def test_each_kind_adds_what_it_says(kind: str, adds: tuple[int, int, int]) -> None:
    """Two pieces of each kind."""
    assert effect(kind, 2) == adds


def test_fitting_a_held_piece_is_released_then_fitted() -> None:
    """One piece fewer on hand, none held, nothing made out of nothing (house style, trap 8)."""
    events = [
        Said.of("logged", 1, 1),
        Said.of("held", 1),
        Said.of("released", 1),
        Said.of("fitted", 1),
    ]

    assert fold(events) == Totals(0, 0, 0)


def test_a_stock_take_records_the_difference() -> None:
    """Four by the books, three on the shelf."""
    assert fold([Said.of("logged", 1, 4), Said.of("counted", 1, -1)]).on_hand == 3


@given(EVENTS)
def test_undoing_everything_leaves_nothing(events: list[Said]) -> None:
    """An event and its undoing add up to nothing, in any order."""
    back = [undone(event) for event in events]

    assert fold([*back, *events]) == Totals()


@given(EVENTS, st.randoms())
def test_sums_do_not_depend_on_the_order(events: list[Said], rng: object) -> None:
    """Totals are sums."""
    shuffled = list(events)
    rng.shuffle(shuffled)  # type: ignore[attr-defined]

    assert fold(shuffled) == fold(events)
    assert fold_lots(shuffled) == fold_lots(events)


@given(EVENTS)
def test_lots_add_up_to_the_whole(events: list[Said]) -> None:
    """Summing lot by lot loses nothing."""
    lots = fold_lots(events).values()

    assert sum(lot.on_hand for lot in lots) == fold(events).on_hand
    assert sum(lot.held for lot in lots) == fold(events).held


def test_events_about_no_lot_are_not_in_a_lot() -> None:
    """An order has no lot yet, but counts for the part type."""
    events = [Said.of("ordered", None, 3)]

    assert fold(events).on_order == 3
    assert fold_lots(events) == {}


def test_a_sum_can_go_on_from_where_it_stood() -> None:
    """Older events may be summed up once."""
    assert fold([Said.of("held", 1)], start=Totals(3, 1, 0)) == Totals(3, 2, 0)
    assert Totals(3, 2, 0).free == 1


@pytest.mark.parametrize(
    "change", [Effect(quantity=-2), Effect(held=1), Effect(held=-2), Effect(ordered=-1)]
)
def test_counts_that_cannot_be_are_refused(change: Effect) -> None:
    """One on hand and held: nothing more can be taken, held or received."""
    with pytest.raises(Refused, match="That cannot be"):
        Totals(1, 1, 0).after(change)


def test_counts_that_can_be_are_taken() -> None:
    """Adding an effect gives new totals; the old ones stay as they were."""
    before = Totals(1, 0, 1)

    assert before.after(effect("held")) == Totals(1, 1, 1)
    assert before.after(-effect("ordered")) == Totals(1, 0, 0)


def test_negative_pieces_are_refused() -> None:
    """Only ``counted`` may be negative; an undoing is not undone."""
    with pytest.raises(WrongInput, match="cannot be about -1 pieces"):
        effect("fitted", -1)
    with pytest.raises(WrongInput, match="not undone"):
        undone(undone(Said.of("fitted", 1)))


def test_demand_is_what_was_used_and_what_lacked() -> None:
    """Three fitted, one of them put back, two that were not there, one fitting undone."""
    fitted = Said.of("fitted", 1, 3)
    mistaken = Said.of("fitted", 1, 4)
    events = [
        Said.of("logged", 1, 9),
        fitted,
        Said.of("put-back", 1, 1),
        Said.of("lacked", None, 2),
        mistaken,
        undone(mistaken),
        Said.of("scrapped", 1, 1),
    ]

    assert sum(asked_for(event) for event in events) == 3 - 1 + 2
    assert fold(events).on_hand == 9 - 3 + 1 - 1
