"""Undo: by counter-events, never by deletion, and not over other people's work."""

from __future__ import annotations

import tempfile
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

from inventory.bench import jobs as repairs
from inventory.bench import moves, orders
from inventory.bench.find import measured
from inventory.bench.loading import load
from inventory.bench.log import Piece, log_pieces, strip_unit
from inventory.bench.low import FIGURES, set_figure
from inventory.bench.merging import merge
from inventory.bench.testing import bench_test
from inventory.bench.undo import undo
from inventory.bench.xref import add_edges, list_edges
from inventory.errors import NotFound, Refused
from inventory.records import Edge, SourceUnit
from inventory.store import jobs, journal, lots, parts, units
from inventory.store.check import check
from inventory.store.jobs import Job
from inventory.store.shelf import Shelf, open_shelf
from tests.store.shelves import again, place


@pytest.fixture
def shelf(tmp_path: Path) -> Shelf:
    """A shelf with five good pieces as lot 1, job 1 open, logged and opened by another bench."""
    before = open_shelf(place(tmp_path / "a.shelf"), bench="before", create=True)
    log_pieces(before, [Piece("EX-1 alpha", family="other", quantity=5, state="good", bin="A1")])
    repairs.open_job(before, Job(0, "", kind="microwave oven"))
    return open_shelf(place(tmp_path / "a.shelf"), bench="north")


def _seen(shelf: Shelf) -> Any:
    """Lots that hold something, open jobs, edges and units in the yard."""
    with shelf.read() as connection:
        return (
            [
                (lot.id, lot.part_id, lot.on_hand, lot.held, lot.state, lot.bin)
                for lot in lots.where(connection, "on_hand > 0")
            ],
            [
                (job.id, job.outcome, job.note)
                for job in jobs.where(connection, "closed_at IS NULL")
            ],
            list_edges(shelf, None),
            [unit.label for unit in units.where(connection, "in_yard = TRUE")],
            parts.many(connection, {lot.part_id for lot in lots.where(connection, "on_hand > 0")}),
            units.settings(connection),
        )


def _twin(shelf: Shelf) -> None:
    """A second part type that is going to be merged into the first."""
    log_pieces(
        again(shelf, "before"),
        [Piece("EX 1 ALPHA twin", family="other", type_code="EX1", quantity=2)],
    )


def _switch(shelf: Shelf) -> None:
    """A switch as part type 2, its actuator measured once already."""
    before = again(shelf, "before")
    log_pieces(before, [Piece("16A 250V~", family="switch")])
    measured(before, 2, {"actuator": "lever"})


def _file(shelf: Shelf) -> Path:
    """A parts file of two rows beside the shelf."""
    folder = shelf.path.parent if shelf.path else Path(tempfile.mkdtemp())
    path = folder / "parts.csv"
    path.write_text("type,quantity,source_unit\nEX-7,2,U9\nEX-8,3,U9\n")
    return path


ACTS: dict[str, tuple[Callable[[Shelf], object], Callable[[Shelf], object]]] = {
    "log": (lambda _s: None, lambda s: log_pieces(s, [Piece("EX-2", family="other")])),
    "strip": (
        lambda _s: None,
        lambda s: strip_unit(
            s, SourceUnit(0, "U1", "oven"), [Piece("EX-3", family="other"), Piece("EX-4")]
        ),
    ),
    "hold": (lambda _s: None, lambda s: moves.hold(s, 1, quantity=2, job=1)),
    "release": (
        lambda s: moves.hold(s, 1, quantity=2, job=1),
        lambda s: moves.release(s, 1, job=1),
    ),
    "fit": (lambda _s: None, lambda s: moves.fit(s, 1, quantity=2)),
    "fit what is held": (
        lambda s: moves.hold(s, 1, quantity=2, job=1),
        lambda s: moves.fit(s, 1, quantity=3, job=1),
    ),
    "put back": (lambda s: moves.fit(s, 1, quantity=2), lambda s: moves.put_back(s, 1)),
    "put back into an empty lot": (
        lambda s: moves.fit(s, 1, quantity=5),
        lambda s: moves.put_back(s, 1, quantity=2),
    ),
    "put back unpowered": (
        lambda s: moves.fit(s, 1, quantity=2),
        lambda s: moves.put_back(s, 1, never_powered=True),
    ),
    "scrap": (lambda _s: None, lambda s: moves.scrap(s, 1, quantity=5)),
    "move": (lambda _s: None, lambda s: moves.move(s, 1, "B2")),
    "move some": (lambda _s: None, lambda s: moves.move(s, 1, "B2", quantity=2)),
    "count more": (lambda _s: None, lambda s: moves.count(s, 1, 9)),
    "count none": (lambda _s: None, lambda s: moves.count(s, 1, 0)),
    "count the same": (lambda _s: None, lambda s: moves.count(s, 1, 5)),
    "test": (lambda _s: None, lambda s: bench_test(s, 1, {}, state="bad")),
    "test some": (lambda _s: None, lambda s: bench_test(s, 1, {}, state="bad", pieces=2)),
    "open a job": (lambda _s: None, lambda s: repairs.open_job(s, Job(0, "", kind="oven"))),
    "close a job": (
        lambda s: moves.hold(s, 1, job=1),
        lambda s: repairs.close_job(s, 1, {}, "eu", given_up=True, note="no"),
    ),
    "cross-reference": (
        lambda _s: None,
        lambda s: add_edges(s, [Edge("A1", "B2", "supersedes", "list")]),
    ),
    "merge": (_twin, lambda s: merge(s, 1, 2)),
    "order": (lambda _s: None, lambda s: orders.order(s, 1, 3)),
    "receive": (lambda s: orders.order(s, 1, 3), lambda s: orders.receive(s, 1, 2)),
    "lack": (lambda _s: None, lambda s: orders.lacked(s, 1)),
    "measure": (
        _switch,
        lambda s: measured(s, 2, {"actuator": "roller", "terminals": "screw"}),
    ),
    "set a level": (
        lambda s: orders.keep_at_least(s, 1, 2),
        lambda s: orders.keep_at_least(s, 1, 5),
    ),
    "set a figure": (lambda _s: None, lambda s: set_figure(s, next(iter(FIGURES)), "0.5")),
    "load": (lambda _s: None, lambda s: load(s, _file(s))),
}
"""What a person does, after what was done before: each must be taken back whole."""


@pytest.mark.parametrize("name", ACTS)
def test_undoing_what_was_done_leaves_what_was_there(shelf: Shelf, name: str) -> None:
    """Lots, jobs, cross-references, units and the part type are as before; nothing is deleted."""
    prepare, act = ACTS[name]
    prepare(shelf)
    before = _seen(shelf)
    act(shelf)
    with shelf.read() as connection:
        written = list(journal.events(connection))

    done = undo(shelf)

    assert _seen(shelf) == before
    assert check(shelf) == []
    with shelf.read() as connection:
        after = list(journal.events(connection))
    assert after[: len(written)] == written
    assert [event.undoes for event in after[len(written) :]] == list(done.undone)


@pytest.mark.parametrize("name", ACTS)
def test_a_dry_undo_tells_and_changes_nothing(shelf: Shelf, name: str) -> None:
    """The sentence names what would be taken back."""
    prepare, act = ACTS[name]
    prepare(shelf)
    act(shelf)
    before = _seen(shelf)

    told = undo(shelf, dry_run=True)

    assert told.sentence.startswith(f"event {told.undone[0]}, ")
    assert _seen(shelf) == before


def test_undo_walks_back_write_by_write(shelf: Shelf) -> None:
    """Three writes, three undos; the fourth finds nothing of this bench."""
    moves.hold(shelf, 1)
    moves.move(shelf, 1, "B2")
    moves.scrap(shelf, 1)

    kinds = [undo(shelf).events[0].kind for _ in range(3)]

    assert kinds == ["scrapped", "moved", "held"]
    with pytest.raises(NotFound, match="nothing of 'north' to undo"):
        undo(shelf)


def test_undo_takes_back_only_what_the_own_bench_wrote(shelf: Shelf) -> None:
    """The other bench's later write stays."""
    moves.hold(shelf, 1)
    moves.move(again(shelf, "south"), 1, "B2")

    undo(shelf)

    with shelf.read() as connection:
        lot = lots.get(connection, 1)
    assert (lot.held, lot.bin) == (0, "B2")


def _by_another(shelf: Shelf) -> Shelf:
    """The same shelf at another bench."""
    return again(shelf, "south")


@pytest.mark.parametrize(
    ("act", "since", "said"),
    [
        (
            lambda s: log_pieces(s, [Piece("EX-2", family="other")]),
            lambda s: moves.scrap(s, 2),
            "Lot 2 cannot give that",
        ),
        (
            lambda s: moves.hold(s, 1, job=1),
            lambda s: (moves.fit(s, 1, job=1), moves.hold(s, 1)),
            "was used since",
        ),
        (
            lambda s: moves.fit(s, 1, job=1),
            lambda s: moves.put_back(s, 1, never_powered=True),
            "was put back since",
        ),
        (
            lambda s: moves.release(s, 1, job=1) if moves.hold(s, 1, job=1) else None,
            lambda s: repairs.close_job(s, 1, {}, "eu", given_up=True),
            "job 1 is closed",
        ),
        (lambda s: moves.move(s, 1, "B2"), lambda s: moves.move(s, 1, "C3"), "is 'C3' since"),
        (
            lambda s: bench_test(s, 1, {}, state="bad"),
            lambda s: bench_test(s, 1, {}, state="untested"),
            "is 'untested' since",
        ),
        (
            lambda s: repairs.open_job(s, Job(0, "", kind="oven")),
            lambda s: moves.hold(s, 1, job=2),
            "job 2 has pieces",
        ),
        (
            lambda s: repairs.open_job(s, Job(0, "", kind="oven")),
            lambda s: repairs.close_job(s, 2, {}, "eu", given_up=True),
            "job 2 is closed",
        ),
        (
            lambda s: strip_unit(s, SourceUnit(0, "U1", "oven"), []),
            lambda s: strip_unit(s, SourceUnit(0, "U1", "oven"), [Piece("EX-5", family="other")]),
            "lot 2 from that unit is on the shelf",
        ),
        (lambda s: orders.order(s, 1, 2), lambda s: orders.receive(s, 1, 2), "came in since"),
    ],
)
def test_what_others_have_built_on_is_not_undone(
    shelf: Shelf, act: Callable[[Shelf], object], since: Callable[[Shelf], object], said: str
) -> None:
    """One clear sentence, and nothing changes."""
    act(shelf)
    since(_by_another(shelf))
    before = _seen(shelf)

    with pytest.raises(Refused, match=said):
        undo(shelf)

    assert _seen(shelf) == before


def test_an_event_nobody_knows_how_to_take_back_is_refused(shelf: Shelf) -> None:
    """A kind that a later program wrote is not guessed at."""
    with shelf.write() as connection:
        journal.append(connection, [journal.Event("blessed", lot_id=1)], bench="north")

    with pytest.raises(Refused, match="cannot be undone"):
        undo(shelf)


def test_a_file_that_was_undone_can_be_loaded_again(shelf: Shelf) -> None:
    """Its digest is forgotten with it."""
    load(shelf, _file(shelf))
    undo(shelf)

    assert load(shelf, _file(shelf)).lots == 2


def test_a_unit_that_was_undone_gives_its_label_free(shelf: Shelf) -> None:
    """The right unit can be logged under it."""
    strip_unit(shelf, SourceUnit(0, "U1", "oven", model="WRONG"), [Piece("EX-5", family="other")])
    undo(shelf)

    stored, _ = strip_unit(shelf, SourceUnit(0, "U1", "oven", model="RIGHT"), [])

    assert stored.model == "RIGHT"


def test_many_events_are_told_in_one_sentence(shelf: Shelf) -> None:
    """A load of ten rows does not fill the screen."""
    log_pieces(shelf, [Piece(f"EX-{n}", family="other") for n in range(10, 20)])

    assert undo(shelf).sentence.endswith("; and 7 more events")
