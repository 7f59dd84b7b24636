"""Days a person says, and moments on record that a flipped bit has made nonsense of."""

from __future__ import annotations

import sqlite3
from collections.abc import Callable
from pathlib import Path

import pytest

from inventory.bench.day import day
from inventory.bench.log import Piece
from inventory.bench.low import low
from inventory.bench.moments import moment, on_record
from inventory.bench.wear import wear
from inventory.bench.worth import worth
from inventory.errors import StoreUnusable, WrongInput
from inventory.store.check import check
from inventory.store.shelf import Shelf, open_shelf
from inventory.store.trouble import Damaged
from tests.bench.shop import lot, on, repair, unit

REPORTS: dict[str, Callable[[Shelf], object]] = {
    "low": low,
    "day": day,
    "wear": wear,
    "worth": lambda shelf: worth(shelf, "U1"),
}


def test_a_day_means_its_last_moment(shelf: Shelf) -> None:
    """What was written in the evening belongs to it; so does a moment of that day."""
    with shelf.read() as connection:
        for said in ("2026-03-31", "2026-03-31T08:00:00"):
            assert moment(said, connection) == "2026-03-31T23:59:59.999999+00:00"


@pytest.mark.parametrize("report", [low, day, wear])
def test_a_day_before_the_journal_begins_is_no_empty_shelf(
    shelf: Shelf, report: Callable[..., object]
) -> None:
    """Nothing is known of it, which is not the same as nothing running short."""
    report(shelf, as_of="2001-01-01")  # a shelf without any event contradicts no day
    lot(shelf)

    with pytest.raises(WrongInput, match="Nothing is known of 2001-01-01: the journal begins on"):
        report(shelf, as_of="2001-01-01")
    report(shelf, as_of="2999-01-01")


@pytest.mark.parametrize("said", ["", "31.3.2026", "2026-02-30", "soon"])
def test_a_day_that_is_none_is_a_slip_of_the_fingers(shelf: Shelf, said: str) -> None:
    """Exit code 2, and an example."""
    with shelf.read() as connection, pytest.raises(WrongInput, match="like 2026-03-31") as caught:
        moment(said, connection)
    assert caught.value.exit_code == 2


def test_now_is_never_before_the_last_event(shelf: Shelf) -> None:
    """A clock that was set back loses nothing."""
    with on("2026-05-01"):
        lot(shelf)
    with on("2026-04-01"), shelf.read() as connection:
        assert moment(None, connection) == "2026-05-01T10:00:00.000000+00:00"


def test_what_makes_no_sense_on_record_is_damage() -> None:
    """The sentence says what it is and what helps; its code is that of an unusable shelf."""
    with pytest.raises(Damaged) as caught, on_record():
        raise WrongInput("Not a price: 'l2'. Write it like 4.50.")
    assert str(caught.value) == (
        "The shelf is damaged and was left as it is (not a price: 'l2'); 'salvage check' says"
        " where, 'salvage restore' brings back a backup."
    )
    assert caught.value.exit_code == StoreUnusable.exit_code == 3


def _damaged(path: Path, statement: str) -> Shelf:
    """A small shelf, opened after a statement that a shelf itself would refuse."""
    shelf = open_shelf(str(path), create=True)
    unit(shelf, "U1", Piece("16A 250V~", family="switch"), maker="Brenka", model="BK-20M")
    repair(shelf, lot(shelf, quantity=3))
    shelf.close()
    raw = sqlite3.connect(path)
    for (trigger,) in raw.execute("SELECT name FROM sqlite_master WHERE type = 'trigger'"):
        if trigger.startswith("journal"):
            raw.execute(f"DROP TRIGGER {trigger}")
    assert raw.execute(statement).rowcount > 0
    raw.commit()
    raw.close()
    return open_shelf(str(path))


@pytest.mark.parametrize("report", REPORTS)
def test_a_damaged_date_is_a_damaged_shelf(tmp_path: Path, report: str) -> None:
    """Nobody typed it: code 3 and what to do, not 'write it like'; the check names the event."""
    statement = "UPDATE journal SET at = replace(at, '-', ',') WHERE kind = 'fitted'"
    shelf = _damaged(tmp_path / "a.shelf", statement)
    with pytest.raises(Damaged, match="damaged"):
        REPORTS[report](shelf)
    assert "is no time" in " ".join(one.sentence for one in check(shelf))
    shelf.close()


@pytest.mark.parametrize("report", ["low", "day", "worth"])
def test_a_damaged_figure_is_a_damaged_shelf(tmp_path: Path, report: str) -> None:
    """A figure was a number when it was set."""
    statement = "INSERT INTO setting VALUES ('wage_per_hour', '3O'), ('review_months', 'l')"
    shelf = _damaged(tmp_path / "a.shelf", statement)
    with pytest.raises(Damaged, match="damaged"):
        REPORTS[report](shelf)
    shelf.close()
