"""A unit's pull list as a table to take along, and back with it to the shelf.

A row a part type, in the columns of a parts file: what to pull with its quantity, what to leave
with quantity 0 and the reason as its note. ``strip --pieces`` takes the table over; a 0 stays in
the unit, whoever wrote it.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from pathlib import Path

from inventory.bench.files import pieces_of_file
from inventory.bench.log import Piece
from inventory.bench.values import cell_of
from inventory.records import Part
from inventory.stock.worth_report import WorthLine, WorthReport
from inventory.store import lots, parts
from inventory.store.files import Row, folder_is_there, from_spreadsheet, write_csv
from inventory.store.shelf import Shelf

HEADS = (
    "family", "maker", "type", "marking", "description", "quantity", "bin", "state", "note",
)  # fmt: skip


@dataclass(frozen=True, slots=True)
class Left:
    """What stays in the unit."""

    what: str
    why: str  # empty: nobody said


def write_list(shelf: Shelf, report: WorthReport, path: Path, *, dry_run: bool = False) -> int:
    """Write a pull list as a table; returns its lines, without the head."""
    folder_is_there(path)
    lines = [line for line in (*report.pulls, *report.skipped) if line.part_id is not None]
    numbers = {int(line.part_id or 0) for line in lines}
    with shelf.read() as connection:
        known = parts.many(connection, numbers)
        bins = {lot.part_id: lot.bin for lot in lots.where(connection, "bin IS NOT NULL")}
    if dry_run:
        return len(lines)
    names = sorted({name for part in known.values() for name in part.ratings})
    heads = [*HEADS, *(f"r.{name}" for name in names)]
    return write_csv(path, heads, _rows(lines, known, bins, names))


def _rows(
    lines: list[WorthLine], known: Mapping[int, Part], bins: Mapping[int, str | None],
    names: list[str],
) -> Iterator[list[object]]:  # fmt: skip
    """The lines in their columns; the bin is the one the part type lay in last."""
    for line in lines:
        part = known[int(line.part_id or 0)]
        yield [
            part.family, part.maker, part.type_code, part.marking, part.description, line.take,
            bins.get(part.id or 0) if line.take else None, "untested" if line.take else None,
            None if line.take else line.why,
            *(cell_of(part.ratings.get(name)) for name in names),
        ]  # fmt: skip


def ticked_off(path: Path) -> tuple[list[Piece], list[Left]]:
    """The pieces of a table, and what it says is left; the first bad row is the error."""
    left: list[Left] = []
    pieces = pieces_of_file(path, left=lambda row: left.append(_left(row)))
    return pieces, left


def _left(row: Row) -> Left:
    """A row of quantity 0."""
    said = {
        name: from_spreadsheet(str(row.cells.get(name) or ""))
        for name in ("marking", "type", "note")
    }
    return Left(said["marking"] or said["type"] or "a part", said["note"])
