"""Small shelves for tests, built with the store alone."""

from __future__ import annotations

import hashlib
import os
from dataclasses import replace
from pathlib import Path

from inventory.records import Lot, Part
from inventory.store import journal, lots, parts
from inventory.store.journal import Event
from inventory.store.shelf import Shelf, open_shelf

SERVER = os.environ.get("SALVAGE_TEST_SERVER")
"""Address of a database server: shelves that know no file are made there instead."""

_MADE: list[str] = []


def place(path: Path) -> str:
    """Where a shelf lies: at a path, or in a schema of its own on the server to be tested."""
    if SERVER is None:
        return str(path)
    schema = f"test_{hashlib.sha256(bytes(path)).hexdigest()[:16]}"
    if schema not in _MADE:
        _on_server(f"CREATE SCHEMA {schema}")
        _MADE.append(schema)
    return in_schema(SERVER, schema)


def in_schema(address: str, schema: str) -> str:
    """The address of one schema of a database."""
    return f"{address}{'&' if '?' in address else '?'}options=-csearch_path%3D{schema}"


def again(shelf: Shelf, bench: str) -> Shelf:
    """The same shelf, as another bench has it open."""
    return replace(shelf, bench=bench)


def clear() -> None:
    """Take the schemas away that were made on the server."""
    while _MADE:
        _on_server(f"DROP SCHEMA {_MADE.pop()} CASCADE")


def _on_server(statement: str) -> None:
    """One statement, without a transaction."""
    from inventory.store.server import server_at

    engine = server_at(SERVER or "").engine.execution_options(isolation_level="AUTOCOMMIT")
    with engine.connect() as connection:
        connection.exec_driver_sql(statement)


def stocked(path: Path, quantity: int = 5, *, bench: str = "north") -> Shelf:
    """A new shelf file with one part type and one lot of it, as lot 1 in bin A1."""
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
