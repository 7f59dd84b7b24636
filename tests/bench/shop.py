"""Small steps of a shop's day, for tests that need something to be there."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager
from datetime import UTC, datetime
from typing import Any
from unittest.mock import patch

from inventory.bench import jobs, moves
from inventory.bench.log import Piece, log_pieces, strip_unit
from inventory.records import SourceUnit
from inventory.store import journal
from inventory.store.jobs import Job
from inventory.store.shelf import Shelf

SWITCH = "16(4)A 250V~ T85 5E4"


@contextmanager
def on(day: str) -> Iterator[None]:
    """The shop's clock stands on a day, at ten in the morning."""
    moment = datetime.fromisoformat(day).replace(hour=10, tzinfo=UTC)
    with patch.object(journal, "clock", lambda: moment):
        yield


def lot(shelf: Shelf, marking: str = SWITCH, **said: Any) -> int:
    """Log one lot, of switches that click unless something else is said; returns its number."""
    piece = Piece(marking, **{"family": "switch", "state": "clicks", "bin": "A1-01", **said})
    return log_pieces(shelf, [piece])[0].lot.id


def job(shelf: Shelf, **said: Any) -> int:
    """Open a job; returns its number."""
    return jobs.open_job(shelf, Job(0, "", **{"maker": "Brenka", "model": "BK-20M", **said})).id


def unit(shelf: Shelf, label: str, *pieces: Piece, **said: Any) -> list[int]:
    """Strip a unit; returns the numbers of the lots it gave."""
    record = SourceUnit(0, label, **{"kind": "microwave oven", **said})
    return [one.lot.id for one in strip_unit(shelf, record, pieces)[1]]


def repair(shelf: Shelf, taken: int, pieces: int = 1, place: str | None = None) -> int:
    """Open a job, fit pieces of a lot, close it; returns the job's number."""
    number = job(shelf)
    moves.fit(shelf, taken, job=number, quantity=pieces, place=place)
    jobs.close_job(shelf, number, {}, "us")
    return number
