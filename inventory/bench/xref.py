"""Cross-references: adding, listing, loading them from a file, following them."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from pathlib import Path
from typing import Any

from inventory.bench import words
from inventory.bench.files import LoadRefused
from inventory.errors import InventoryError, WrongInput
from inventory.matching.edges import KINDS
from inventory.records import Edge
from inventory.store import edges
from inventory.store.files import Row, Trouble, rows_of
from inventory.store.journal import Event, append
from inventory.store.shelf import Shelf
from inventory.units import parse_number

COLUMNS = (
    "from", "to", "kind", "source", "place", "date", "confidence", "quantity", "serial_from",
    "serial_to", "note", "unit",
)  # fmt: skip
"""Columns of a cross-reference file; the first four must be filled."""


def checked(edge: Edge) -> Edge:
    """An edge with its words checked."""
    for name, value in (("from", edge.from_code), ("to", edge.to_code), ("source", edge.source)):
        if not words.storable(value, name).strip():
            raise WrongInput(f"A cross-reference needs its {name!r}.")
    words.known(edge.kind, tuple(KINDS), "kind of cross-reference")
    if edge.confidence is not None and not 0 <= edge.confidence <= 1:
        raise WrongInput(f"The confidence is 0 to 1, not {edge.confidence}.")
    if edge.quantity < 1:
        raise WrongInput(f"The quantity must be at least 1, not {edge.quantity}.")
    from inventory.bench.find import known_place

    return replace(edge, place=known_place(edge.place))


def add_edges(shelf: Shelf, said: Sequence[Edge], *, dry_run: bool = False) -> list[int]:
    """Write cross-references, all or none; returns their numbers."""
    ready = [checked(edge) for edge in said]
    with shelf.write(dry_run=dry_run) as connection:
        numbers = edges.add(connection, ready)
        told = {"edges": numbers, "kind": "added"}
        append(connection, [Event("xref-added", detail=told)], bench=shelf.bench)
    return numbers


def edges_of_file(path: Path, encoding: str | None = None) -> list[Edge]:
    """Edges of a CSV file; every bad row is named and nothing is loaded then."""
    found, troubles = [], []
    for row in rows_of(path, encoding):
        try:
            found.append(checked(_edge(row)))
        except InventoryError as error:
            troubles.append(Trouble(row.line, "-", str(error)))
    if troubles:
        raise LoadRefused(path, troubles)
    return found


def _edge(row: Row) -> Edge:
    """One row as an edge."""
    for name in row.cells:
        if name and name not in COLUMNS:
            words.known(name, COLUMNS, "column")
    said = {name: row.cells.get(name, "").strip() for name in COLUMNS}
    names = ("place", "date", "serial_from", "serial_to", "note", "unit")
    optional: dict[str, Any] = {name: said[name] or None for name in names}
    return Edge(
        from_code=said["from"],
        to_code=said["to"],
        kind=said["kind"].lower(),
        source=said["source"],
        confidence=float(parse_number(said["confidence"])) if said["confidence"] else None,
        quantity=int(parse_number(said["quantity"])) if said["quantity"] else 1,
        **optional,
    )


def list_edges(shelf: Shelf, code: str | None) -> list[Edge]:
    """Edges from and to a code, or all of them."""
    with shelf.read() as connection:
        if code is None:
            return edges.where(connection)
        found = edges.from_code(connection, code) + edges.to_code(connection, code)
        return list(dict.fromkeys(found))


def follow(shelf: Shelf, code: str) -> list[Any]:
    """What a code leads to, forwards only, step by step."""
    from inventory.matching.edges import follow as walk

    with shelf.read() as connection:
        return list(walk(code, lambda at: edges.touching(connection, at)))
