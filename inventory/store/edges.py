"""Cross-reference edges in the store."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import asdict
from typing import Any

from inventory.matching.keys import code_key
from inventory.records import Edge
from inventory.store import search_index
from inventory.store.asking import Asking
from inventory.store.parts import next_id
from inventory.store.sql import Connection, text

_COLUMNS = (
    "id, from_code, to_code, kind, source, place, date, confidence, quantity, serial_from,"
    " serial_to, note, unit"
)
_NAMES = _COLUMNS.split(", ")


def add(connection: Connection, edges: Sequence[Edge]) -> list[int]:
    """Write edges; returns their numbers."""
    first = next_id(connection, "edge")
    rows = [
        {
            **asdict(edge),
            "id": number,
            "from_key": code_key(edge.from_code),
            "to_key": code_key(edge.to_code),
        }
        for number, edge in enumerate(edges, start=first)
    ]
    if rows:
        connection.execute(
            text(
                f"INSERT INTO edge ({_COLUMNS}, from_key, to_key) VALUES (:id, :from_code,"  # noqa: S608
                " :to_code, :kind, :source, :place, :date, :confidence, :quantity, :serial_from,"
                " :serial_to, :note, :unit, :from_key, :to_key)"
            ),
            rows,
        )
    search_index.add_codes(connection, (code for e in edges for code in (e.from_code, e.to_code)))
    return [row["id"] for row in rows]


def remove(connection: Connection, numbers: Sequence[int]) -> None:
    """Take edges out of the table, and codes that no other edge knows out of the text index."""
    gone = [edge for number in numbers for edge in where(connection, "id = :id", id=number)]
    if gone:
        connection.execute(
            text("DELETE FROM edge WHERE id = :id"), [{"id": edge.id} for edge in gone]
        )
    for code in {code for edge in gone for code in (edge.from_code, edge.to_code)}:
        known = {c for e in touching(connection, code) for c in (e.from_code, e.to_code)}
        if code not in known:
            search_index.remove_code(connection, code)


def where(connection: Connection, condition: str = "1=1", **values: Any) -> list[Edge]:
    """Edges by one of our own conditions."""
    rows = Asking(connection).rows(
        f"SELECT {_COLUMNS} FROM edge WHERE {condition} ORDER BY id",  # noqa: S608
        values,
    )
    return [Edge(**dict(zip(_NAMES, row, strict=True))) for row in rows]


def from_code(connection: Connection, code: str) -> list[Edge]:
    """Edges that start at a code."""
    return where(connection, "from_key = :key", key=code_key(code))


def to_code(connection: Connection, code: str) -> list[Edge]:
    """Edges that end at a code."""
    return where(connection, "to_key = :key", key=code_key(code))


def touching(connection: Connection, code: str) -> list[Edge]:
    """Edges that start or end at a code."""
    return list(dict.fromkeys((*from_code(connection, code), *to_code(connection, code))))
