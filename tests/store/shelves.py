"""Small shelves for tests, built with the store alone."""

from __future__ import annotations

from pathlib import Path

from inventory.records import Lot, Part
from inventory.store import journal, lots, parts
from inventory.store.journal import Event
from inventory.store.shelf import Shelf, open_shelf


def stocked(path: Path, quantity: int = 5, *, bench: str = "north") -> Shelf:
    """A new shelf with one part type and one lot of it, as lot 1 in bin A1."""
    shelf = open_shelf(str(path), bench=bench, create=True)
    with shelf.write() as connection:
        (number,) = parts.add(connection, [Part("other", "EX-1", ratings={"resistive_a": 16})])
        lots.know_bins(connection, ["A1"])
        moment = journal.now()
        lots.add(
            connection,
            [Lot(1, number, quantity, 0, "untested", "A1", "new", logged_at=moment)],
        )
        event = Event("logged", lot_id=1, part_id=number, quantity=quantity)
        journal.append(connection, [event], bench=bench)
    return shelf


def take(shelf: Shelf, pieces: int = 1) -> int:
    """Take pieces of lot 1 and write it down; returns the number of the event."""
    with shelf.write() as connection:
        lots.change(connection, 1, on_hand=-pieces)
        event = Event("fitted", lot_id=1, part_id=1, quantity=-pieces)
        return journal.append(connection, [event], bench=shelf.bench)[0]


def on_hand(shelf: Shelf) -> int:
    """Pieces of lot 1."""
    with shelf.read() as connection:
        return lots.get(connection, 1).on_hand
