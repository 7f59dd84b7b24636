"""Stock events: what they add and what they refuse. Rules: design section 5 and 1 (journal)."""

from __future__ import annotations

import pytest

from inventory.bench import jobs, moves
from inventory.bench.log import Piece, log_pieces
from inventory.errors import NotFound, Refused, WrongInput
from inventory.store import lots
from inventory.store.jobs import Job
from inventory.store.shelf import Shelf

MARKING = "16(4)A 250V~ T85 5E4"


def _lot(shelf: Shelf, quantity: int = 1, state: str = "clicks") -> int:
    """A lot of switches; returns its number."""
    piece = Piece(MARKING, family="switch", quantity=quantity, state=state, bin="A1-01")
    return log_pieces(shelf, [piece])[0].lot.id


def _job(shelf: Shelf) -> int:
    """An open job; returns its number."""
    return jobs.open_job(shelf, Job(0, "", model="BK-20M")).id


def _counts(shelf: Shelf, lot: int) -> tuple[int, int]:
    """On hand and held."""
    with shelf.read() as connection:
        found = lots.get(connection, lot)
    return found.on_hand, found.held


def test_lots_are_numbered_in_the_order_they_enter(shelf: Shelf) -> None:
    """1, 2, 3: the number is what the tech writes on the bag."""
    assert [_lot(shelf), _lot(shelf), _lot(shelf)] == [1, 2, 3]


def test_a_hold_keeps_the_piece_in_its_bin(shelf: Shelf) -> None:
    """Held pieces are still on hand."""
    lot = _lot(shelf, 2)
    moves.hold(shelf, lot, job=_job(shelf))
    assert _counts(shelf, lot) == (2, 1)


def test_the_last_piece_is_held_once(shelf: Shelf) -> None:
    """A second hold of one piece is refused and changes nothing."""
    lot = _lot(shelf)
    moves.hold(shelf, lot)
    with pytest.raises(Refused, match="0 free"):
        moves.hold(shelf, lot)
    assert _counts(shelf, lot) == (1, 1)


def test_fitting_a_held_piece_releases_it_first(shelf: Shelf) -> None:
    """A held piece that is fitted is neither on hand nor held, and counted once."""
    lot, job = _lot(shelf, 2), _job(shelf)
    moves.hold(shelf, lot, job=job)
    done = moves.fit(shelf, lot, job=job)
    assert _counts(shelf, lot) == (1, 0)
    assert len(done.events) == 2


def test_a_piece_held_for_another_job_is_not_fitted(shelf: Shelf) -> None:
    """The hold of one job is no stock for another."""
    lot, first, second = _lot(shelf), _job(shelf), _job(shelf)
    moves.hold(shelf, lot, job=first)
    with pytest.raises(Refused):
        moves.fit(shelf, lot, job=second)
    assert _counts(shelf, lot) == (1, 1)


@pytest.mark.parametrize("state", ["open", "welded", "weak"])
def test_a_failed_piece_is_never_fitted(shelf: Shelf, state: str) -> None:
    """A lot that failed its test goes into no unit. Source: design section 5."""
    lot = _lot(shelf, state=state)
    with pytest.raises(Refused):
        moves.fit(shelf, lot, untested=True)
    assert _counts(shelf, lot) == (1, 0)


def test_an_untested_piece_is_fitted_only_when_said(shelf: Shelf) -> None:
    """Not known to be good is not good; the tech may say so and it is written down."""
    lot = _lot(shelf, state="untested")
    with pytest.raises(Refused, match="Test it first"):
        moves.fit(shelf, lot)
    moves.fit(shelf, lot, untested=True)
    assert _counts(shelf, lot) == (0, 0)


def test_a_piece_that_was_under_power_is_untested_again(shelf: Shelf) -> None:
    """Put back beside good pieces it becomes a lot of its own."""
    lot, job = _lot(shelf, 3), _job(shelf)
    moves.fit(shelf, lot, job=job)
    done = moves.put_back(shelf, lot, job=job)
    assert _counts(shelf, lot) == (2, 0)
    assert done.other_lot is not None
    assert (done.other_lot.on_hand, done.other_lot.state) == (1, "untested")


def test_only_what_is_out_can_be_put_back(shelf: Shelf) -> None:
    """Stock is not made out of nothing."""
    lot = _lot(shelf)
    with pytest.raises(Refused, match="out in a unit"):
        moves.put_back(shelf, lot)


def test_a_count_writes_the_difference(shelf: Shelf) -> None:
    """A stock-take corrects the record and keeps what it was."""
    lot = _lot(shelf, 5)
    moves.count(shelf, lot, 3)
    assert _counts(shelf, lot) == (3, 0)


def test_a_count_below_what_is_held_is_refused(shelf: Shelf) -> None:
    """Held pieces must be released before they can be missing."""
    lot = _lot(shelf, 5)
    moves.hold(shelf, lot, quantity=4)
    with pytest.raises(Refused, match="are held"):
        moves.count(shelf, lot, 3)


def test_some_pieces_move_to_another_bin(shelf: Shelf) -> None:
    """A part of a lot in another bin is a lot of its own."""
    lot = _lot(shelf, 5)
    done = moves.move(shelf, lot, "B2-02", quantity=2)
    assert done.other_lot is not None
    assert (done.other_lot.bin, done.other_lot.on_hand) == ("B2-02", 2)
    assert _counts(shelf, lot) == (3, 0)


def test_a_dry_run_writes_nothing(shelf: Shelf) -> None:
    """What would happen is shown, nothing does."""
    lot = _lot(shelf, 2)
    assert moves.scrap(shelf, lot, dry_run=True).lot.on_hand == 1
    assert _counts(shelf, lot) == (2, 0)


def test_an_unknown_lot_is_not_found(shelf: Shelf) -> None:
    """One sentence, nothing written."""
    with pytest.raises(NotFound, match="no lot 99"):
        moves.scrap(shelf, 99)


@pytest.mark.parametrize("quantity", [0, -1])
def test_a_number_of_pieces_below_one_is_refused(shelf: Shelf, quantity: int) -> None:
    """Nothing and less than nothing are slips of the finger."""
    lot = _lot(shelf)
    for step in (moves.hold, moves.fit, moves.scrap):
        with pytest.raises(WrongInput):
            step(shelf, lot, quantity=quantity)
