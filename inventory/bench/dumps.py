"""The whole shelf in one JSON file and back, and lots as a table for a spreadsheet."""

from __future__ import annotations

import json
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any

from inventory.bench.files import COLUMNS, rating_cells, rating_columns
from inventory.errors import Refused, WrongInput
from inventory.store import lots, parts, units, whole
from inventory.store.files import first_bytes, folder_is_there, json_of, write_csv, write_text
from inventory.store.release import SCHEMA_VERSION
from inventory.store.shelf import Shelf
from inventory.store.sql import Connection

MARK = "salvage_dump"
"""The key that tells a dump from a list of parts."""


def is_dump(path: Path) -> bool:
    """True for a file that ``dump_json`` wrote, by its first signs."""
    return path.suffix.lower() == ".json" and MARK.encode() in first_bytes(path, 200)


def size(shelf: Shelf) -> int:
    """Rows of the whole shelf."""
    with shelf.read() as connection:
        return whole.count(connection)


def dump_json(
    shelf: Shelf,
    path: Path,
    *,
    dry_run: bool = False,
    progress: Callable[[int], None] = lambda _rows: None,
) -> int:
    """Write every row of the shelf, one a line; returns how many."""
    folder_is_there(path)
    with shelf.read() as connection:
        if not dry_run:
            write_text(path, _lines(connection, progress))
        return whole.count(connection)


def _lines(connection: Connection, progress: Callable[[int], None]) -> Iterator[str]:
    """The document, line by line."""
    yield f'{{"{MARK}": {SCHEMA_VERSION}, "tables": {{'
    done = 0
    for number, name in enumerate(whole.TABLES, start=1):
        yield f'"{name}": ['
        comma = ""
        for row in whole.rows_of_table(connection, name):
            yield comma + json.dumps(row, ensure_ascii=False)
            comma = ","
            done += 1
            if done % 1000 == 0:
                progress(done)
        yield "]," if number < len(whole.TABLES) else "]"
    yield "}}"


def load_dump(shelf: Shelf, path: Path, *, dry_run: bool = False) -> dict[str, int]:
    """Fill an empty shelf from a dump; the journal's chain must hold."""
    tables = _tables_of(json_of(path), path)
    with shelf.write(dry_run=dry_run) as connection:
        if not whole.is_empty(connection):
            raise Refused("A dump goes into an empty shelf only; name a new one with --shelf.")
        return whole.fill(connection, tables)


def _tables_of(document: Any, path: Path) -> dict[str, list[dict[str, Any]]]:
    """The tables of a dump, checked in form."""
    if not isinstance(document, dict) or not isinstance(document.get("tables"), dict):
        raise WrongInput(f"{path} is not a dump of a shelf.")
    if document.get(MARK) != SCHEMA_VERSION:
        raise WrongInput(f"{path} was dumped by another schema ({document.get(MARK)!r}).")
    for name, rows in document["tables"].items():
        if name not in whole.TABLES:
            raise WrongInput(f"{path} holds an unknown table {name!r}.")
        if not isinstance(rows, list) or not all(isinstance(row, dict) for row in rows):
            raise WrongInput(f"{path}: the table {name!r} is not a list of rows.")
    return dict(document["tables"])


def dump_csv(shelf: Shelf, path: Path, *, dry_run: bool = False) -> int:
    """Write lots with pieces on hand as a parts file; returns how many."""
    folder_is_there(path)
    with shelf.read() as connection:
        there = lots.where(connection, "on_hand > 0")
        known = parts.many(connection, {lot.part_id for lot in there})
        labels = {unit.id: unit.label for unit in units.where(connection)}
    if dry_run:
        return len(there)
    rated = rating_columns(known.values())
    return write_csv(path, [*COLUMNS, *rated], _csv_rows(there, known, labels, rated))


def _csv_rows(
    there: list[Any], known: dict[int, Any], labels: dict[int, str], rated: list[str]
) -> Iterator[list[object]]:
    """Lots in the columns of a parts file."""
    for lot in there:
        part = known[lot.part_id]
        price = f"{lot.price_cents / 100:.2f}" if lot.price_cents is not None else ""
        yield [
            part.family, part.maker, part.type_code, part.marking, part.description, lot.on_hand,
            lot.bin, lot.state, lot.origin, labels.get(lot.source_unit or 0), price, None, None,
            None, lot.note, lot.history, lot.supplier_no, "|".join(part.aliases),
            *rating_cells(part, rated),
        ]  # fmt: skip
