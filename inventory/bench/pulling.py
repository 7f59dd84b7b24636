"""A unit's pull list as a table to take along, and back with it to the shelf.

A row a part type, in the columns of a parts file: what to pull with its quantity, what to leave
with quantity 0 and the reason as its note. ``strip --pieces`` takes the table over; a 0 stays in
the unit, whoever wrote it.
"""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path

from inventory.bench.files import pieces_of_file, rating_cells, rating_columns
from inventory.bench.log import Piece
from inventory.records import Part
from inventory.stock.worth_report import WorthLine, WorthReport
from inventory.store import lots, parts
from inventory.store.files import Row, folder_is_there, write_csv
from inventory.store.shelf import Shelf
from inventory.store.sql import Connection

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
    lines = {line.part_id: line for line in (*report.pulls, *report.skipped) if line.part_id}
    with shelf.read() as connection:
        known = parts.many(connection, lines)
        bins = {one.part_id: _last_bin(connection, one.part_id) for one in report.pulls}
    if dry_run:
        return len(lines)
    rated = rating_columns(known.values())
    rows = (
        [*_cells(known[number], line, bins.get(number)), *rating_cells(known[number], rated)]
        for number, line in lines.items()
    )
    return write_csv(path, [*HEADS, *rated], rows)


def _last_bin(connection: Connection, part_id: int | None) -> str | None:
    """The bin a part type lay in last."""
    there = lots.where(connection, "bin IS NOT NULL AND part_id = :part", part=part_id)
    return there[-1].bin if there else None


def _cells(part: Part, line: WorthLine, bin_code: str | None) -> list[object]:
    """A line under the heads; what stays has no bin and no state, but its reason."""
    told = (bin_code, "untested", None) if line.take else (None, None, line.why)
    return [
        part.family, part.maker, part.type_code, part.marking, part.description, line.take, *told,
    ]  # fmt: skip


def ticked_off(path: Path) -> tuple[list[Piece], list[Left]]:
    """The pieces of a table, and what it says is left; the first bad row is the error."""
    left: list[Left] = []
    pieces = pieces_of_file(path, left=lambda row: left.append(_left(row)))
    return pieces, left


def _left(row: Row) -> Left:
    """A row of quantity 0."""
    what = row.cells.get("marking") or row.cells.get("type") or "a part"
    return Left(str(what), str(row.cells.get("note") or ""))
