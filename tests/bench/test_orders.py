"""What is on order, what came in, what was lacking, and the level kept by hand."""

from __future__ import annotations

import pytest

from inventory.bench import look, orders
from inventory.bench.low import low
from inventory.errors import NotFound, Refused, WrongInput
from inventory.store.shelf import Shelf
from tests.bench.shop import job, lot


def test_what_is_ordered_is_awaited(shelf: Shelf) -> None:
    """Orders add up until they come in."""
    lot(shelf)
    assert orders.order(shelf, 1, 5, note="supplier 7") == 5
    assert orders.order(shelf, 1, 2) == 7


def test_what_comes_in_is_a_new_lot_and_awaited_no_longer(shelf: Shelf) -> None:
    """New, untested, with its price; the part type is the one that was ordered."""
    lot(shelf)
    orders.order(shelf, 1, 5)
    done = orders.receive(shelf, 1, 3, bin_code="B1-01", price_cents=450)
    assert (done.lot.id, done.lot.part_id, done.lot.on_hand) == (2, 1, 3)
    assert (done.lot.origin, done.lot.state, done.lot.price_cents) == ("new", "untested", 450)
    assert orders.order(shelf, 1, 1) == 3


def test_more_than_was_ordered_does_not_come_in(shelf: Shelf) -> None:
    """A slip of the finger, or a delivery nobody wrote down: it is logged as what it is."""
    lot(shelf)
    orders.order(shelf, 1, 2)
    with pytest.raises(Refused, match="Only 2 of part type 1 are on order"):
        orders.receive(shelf, 1, 3)


@pytest.mark.parametrize("quantity", [0, -1, 10**6])
def test_a_number_of_pieces_must_make_sense(shelf: Shelf, quantity: int) -> None:
    """For an order and for what was lacking."""
    lot(shelf)
    for step in (orders.order, orders.lacked):
        with pytest.raises(WrongInput):
            step(shelf, 1, quantity)


def test_an_unknown_part_type_is_not_found(shelf: Shelf) -> None:
    """One sentence for each of the four."""
    for step in (
        lambda: orders.order(shelf, 9, 1),
        lambda: orders.receive(shelf, 9, 1),
        lambda: orders.lacked(shelf, 9),
        lambda: orders.keep_at_least(shelf, 9, 2),
    ):
        with pytest.raises(NotFound, match="no part type 9"):
            step()


def test_what_was_lacking_is_demand_and_takes_nothing(shelf: Shelf) -> None:
    """The shelf's counts stay; the report counts a request that was not met."""
    lot(shelf, quantity=2)
    orders.lacked(shelf, 1, 3, job=job(shelf))
    assert look.lot_page(shelf, 1).lot.on_hand == 2
    (line,) = low(shelf).lines
    assert "1 job" in line.basis


def test_an_unknown_job_lacks_nothing(shelf: Shelf) -> None:
    """A mistyped job number is found out."""
    lot(shelf)
    with pytest.raises(NotFound, match="no job 9"):
        orders.lacked(shelf, 1, job=9)


def test_a_level_by_hand_holds_until_it_is_taken_back(shelf: Shelf) -> None:
    """None leaves it to the arithmetic again."""
    lot(shelf)
    orders.keep_at_least(shelf, 1, 4)
    assert low(shelf).lines[0].keep_at_least == 4
    orders.keep_at_least(shelf, 1, None)
    assert low(shelf).lines[0].keep_at_least < 4


def test_dry_runs_write_nothing(shelf: Shelf) -> None:
    """What is awaited stays as it was."""
    lot(shelf)
    orders.order(shelf, 1, 5)
    assert orders.order(shelf, 1, 2, dry_run=True) == 7
    orders.receive(shelf, 1, 5, dry_run=True)
    orders.lacked(shelf, 1, dry_run=True)
    orders.keep_at_least(shelf, 1, 4, dry_run=True)
    assert orders.order(shelf, 1, 1) == 6
    assert [event.kind for event in look.history(shelf, "part", 1)] == [
        "logged",
        "ordered",
        "ordered",
    ]
