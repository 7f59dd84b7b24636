"""A clock that jumps: events stay in order, and a clock that ran ahead is noticed."""

from __future__ import annotations

from pathlib import Path

import pytest

from inventory.bench import moves
from inventory.bench.log import Piece, log_pieces
from inventory.store import journal
from inventory.store.check import check
from inventory.store.shelf import Shelf, open_shelf

TIMES = (
    "2026-03-01T10:00:00.000000+00:00",
    "2019-01-01T00:00:00.000000+00:00",  # the battery of the clock was dead
    "2026-03-01T10:00:05.000000+00:00",
    "2026-03-01T09:00:00.000000+00:00",  # an hour back
    "2026-03-02T10:00:00.000000+00:00",
)


@pytest.fixture
def shelf(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Shelf:
    """A shelf on which one piece was taken at each of the times."""
    opened = open_shelf(str(tmp_path / "a.shelf"), bench="north", create=True)
    monkeypatch.setattr(journal, "now", lambda: TIMES[0])
    log_pieces(opened, [Piece("EX-1", family="other", quantity=9, state="good")])
    for moment in TIMES:
        monkeypatch.setattr(journal, "now", lambda moment=moment: moment)
        moves.fit(opened, 1)
    return opened


def test_times_never_go_back(shelf: Shelf) -> None:
    """An event is at least as late as the one before it, in the order it was written."""
    with shelf.read() as connection:
        events = list(journal.events(connection))

    times = [str(event.at) for event in events]
    assert times == sorted(times)
    assert times[1:] == [TIMES[0], TIMES[0], TIMES[2], TIMES[2], TIMES[4]]
    assert [event.seq for event in events] == list(range(1, len(events) + 1))


def test_a_clock_that_went_back_leaves_a_whole_shelf(shelf: Shelf) -> None:
    """Nothing is found, and the bench is written beside each event."""
    assert check(shelf) == []
    with shelf.read() as connection:
        assert {event.bench for event in journal.events(connection)} == {"north"}


def test_a_clock_that_ran_ahead_is_noticed(shelf: Shelf, monkeypatch: pytest.MonkeyPatch) -> None:
    """Ten years ahead for one event: the next ones are dated like it, and the check says so."""
    monkeypatch.setattr(journal, "now", lambda: "2036-03-02T10:00:00.000000+00:00")
    moves.fit(shelf, 1)

    assert [one.about for one in check(shelf)] == ["times"]
