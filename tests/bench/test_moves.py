"""Stock events: what they add and what they refuse. Rules: design section 5 and 1 (journal)."""

from __future__ import annotations

import pytest

from inventory.bench import jobs, moves
from inventory.bench.find import measured
from inventory.bench.log import Piece, log_pieces
from inventory.bench.testing import bench_test
from inventory.bench.undo import undo
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


def _all(shelf: Shelf) -> list[tuple[int, str]]:
    """Pieces and state of every lot."""
    with shelf.read() as connection:
        return [(lot.on_hand, lot.state) for lot in lots.where(connection)]


@pytest.mark.parametrize(
    ("then", "now", "there"),
    [
        ("clicks", "clicks", [(2, "clicks")]),
        ("untested", "untested", [(2, "untested")]),
        ("untested", "clicks", [(1, "clicks"), (1, "untested")]),
        ("clicks", "welded", [(1, "welded"), (1, "untested")]),
    ],
)
def test_a_piece_that_was_out_while_its_lot_was_tested_is_untested(
    shelf: Shelf, then: str, now: str, there: list[tuple[int, str]]
) -> None:
    """Never powered it is as it was; but no test speaks for a piece that was not there."""
    lot, job = _lot(shelf, 2, then), _job(shelf)
    moves.fit(shelf, lot, job=job, untested=True)
    bench_test(shelf, lot, {}, state=now)
    moves.put_back(shelf, lot, job=job, never_powered=True)
    assert _all(shelf) == there
    undo(shelf)
    assert [one for one in _all(shelf) if one[0]] == [(1, now)]


def test_a_test_that_was_undone_tells_nothing_of_a_piece(shelf: Shelf) -> None:
    """The lot is in the state the piece left it in, so it comes back to it."""
    lot, job = _lot(shelf, 2), _job(shelf)
    moves.fit(shelf, lot, job=job)
    bench_test(shelf, lot, {}, state="weak")
    undo(shelf)
    moves.put_back(shelf, lot, job=job, never_powered=True)
    assert _all(shelf) == [(2, "clicks")]


def test_an_empty_lot_takes_a_doubtful_piece_back(shelf: Shelf) -> None:
    """No lot of its own is needed; the whole lot is untested then, and undo says what it was."""
    lot, job = _lot(shelf, 2, "untested"), _job(shelf)
    moves.fit(shelf, lot, job=job, untested=True)
    bench_test(shelf, lot, {}, state="clicks")
    moves.fit(shelf, lot)
    moves.put_back(shelf, lot, job=job, never_powered=True)
    assert _all(shelf) == [(1, "untested")]
    undo(shelf)
    assert _all(shelf) == [(0, "clicks")]


def test_where_pieces_are_out_on_several_jobs_somebody_says_which(shelf: Shelf) -> None:
    """One job alone need not be named; what came back on one is not on the other."""
    lot, first, second = _lot(shelf, 3), _job(shelf), _job(shelf)
    moves.fit(shelf, lot, job=first)
    moves.fit(shelf, lot, job=second)
    with pytest.raises(Refused, match=f"out on job {first} and {second}; say --job"):
        moves.put_back(shelf, lot)
    moves.put_back(shelf, lot, job=first, never_powered=True)
    with pytest.raises(Refused, match="Fewer than 1"):
        moves.put_back(shelf, lot, job=first)
    moves.put_back(shelf, lot, never_powered=True)
    with shelf.read() as connection:
        assert moves.fitted_from(connection, lot) == 0


OIL = "Lot 1: Neither a date nor a 'No PCBs' mark is on record: look before it is kept."
"""Source of the question: 40 CFR 761.2(a)(4)."""


@pytest.mark.parametrize("answer", [{"no_pcb": True}, {"made_year": 1994}])
def test_a_question_a_look_can_answer_says_how(shelf: Shelf, answer: dict[str, object]) -> None:
    """And once it is answered the piece goes into the unit."""
    oil = Piece("0.95uF 2100V~", family="hv_capacitor", origin="salvaged", state="good")
    log_pieces(shelf, [oil])
    with pytest.raises(Refused) as caught:
        moves.fit(shelf, 1)
    assert (
        str(caught.value) == f"{OIL} Answer it with 'salvage find --part 1 --measured no_pcb=...'."
    )
    measured(shelf, 1, answer)
    assert moves.fit(shelf, 1).lot.on_hand == 0


def test_a_capacitor_marked_free_of_pcb_is_asked_nothing(shelf: Shelf) -> None:
    """It is printed on it."""
    oil = Piece("0.95uF 2100V~ No PCBs", family="hv_capacitor", origin="salvaged", state="good")
    log_pieces(shelf, [oil])
    assert moves.fit(shelf, 1).lot.on_hand == 0


def test_a_question_nothing_on_record_answers_promises_nothing(shelf: Shelf) -> None:
    """What a fuse went through before nobody can measure."""
    log_pieces(shelf, [Piece("T5AL250V", family="fuse", origin="salvaged", state="good")])
    with pytest.raises(Refused, match=r"surge: fit a new one\.$"):
        moves.fit(shelf, 1)


def test_a_lot_is_named_once(shelf: Shelf) -> None:
    """Not 'Lot 1: Lot 1 is untested'."""
    with pytest.raises(Refused, match=r"^Lot 1 is new and untested: test first\. Test it first"):
        moves.fit(shelf, _lot(shelf, state="untested"))


def test_a_move_needs_a_bin(shelf: Shelf) -> None:
    """Nowhere is no place; a count below nothing is none."""
    lot = _lot(shelf)
    with pytest.raises(WrongInput, match="which bin"):
        moves.move(shelf, lot, "  ")
    with pytest.raises(WrongInput, match="0 or more"):
        moves.count(shelf, lot, -1)


def test_scrapped_pieces_are_gone_and_what_is_held_stays(shelf: Shelf) -> None:
    """Two of three are held: one can be thrown away, not two."""
    lot = _lot(shelf, 3)
    moves.hold(shelf, lot, quantity=2)
    with pytest.raises(Refused, match="3 on hand, 2 held, 1 free"):
        moves.scrap(shelf, lot, quantity=2)
    moves.scrap(shelf, lot, reason="cracked body")
    assert _counts(shelf, lot) == (2, 2)
