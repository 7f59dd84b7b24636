"""Two part types that turn out to be one, and taking them apart again."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from sqlalchemy import text
from sqlalchemy.engine import Connection

from inventory.store import parts, search_index

_MOVE_WITH_PART = ("lot", "measured", "alias")
"""Tables whose rows go with a part type that is merged."""


def merge(connection: Connection, keep: int, drop: int) -> dict[str, list[int]]:
    """Let ``drop`` be ``keep`` from now on: its lots and codes move, its journal stays.

    Returns the numbers of the rows that moved, by table, and of the aliases that were added:
    what ``unmerge`` needs.
    """
    kept, dropped = parts.get(connection, keep), parts.get(connection, drop)
    moved = {
        table: _column(connection, f"SELECT id FROM {table} WHERE part_id = :id", drop)  # noqa: S608
        for table in _MOVE_WITH_PART
    }
    moved["part_type"] = _column(
        connection, "SELECT id FROM part_type WHERE id = :id OR merged_into = :id", drop
    )
    _move(connection, moved, drop, keep)
    _for_each(
        connection,
        "UPDATE part_type SET merged_into = :keep WHERE id = :id",
        [{"keep": keep, "id": number} for number in moved["part_type"]],
    )
    parts.file_ratings(connection, keep)
    parts.file_ratings(connection, drop, empty=True)
    search_index.replace(connection, drop, keep)
    before = _aliases(connection, keep)
    codes = {kept.type_code, kept.marking, *kept.aliases, *dropped.aliases}
    for code in (dropped.type_code, dropped.marking):
        if code and code not in codes:
            parts.add_alias(connection, keep, code, "merged")
    return {**moved, "added": sorted(set(_aliases(connection, keep)) - set(before))}


def unmerge(connection: Connection, keep: int, drop: int, moved: Mapping[str, list[int]]) -> None:
    """Take two merged part types apart again; ``moved`` is what ``merge`` returned."""
    _move(connection, moved, keep, drop)
    others = [number for number in moved["part_type"] if number != drop]
    _for_each(
        connection,
        "UPDATE part_type SET merged_into = :to WHERE id = :id",
        [{"to": None, "id": drop}, *({"to": drop, "id": number} for number in others)],
    )
    _for_each(
        connection, "DELETE FROM alias WHERE id = :id", [{"id": one} for one in moved["added"]]
    )
    for number in (keep, drop):
        parts.file_ratings(connection, number)
        search_index.remove(connection, number)
        known = [(number, parts.get(connection, number))]
        search_index.add(connection, parts.search_texts(known))


def _move(connection: Connection, moved: Mapping[str, list[int]], of: int, to: int) -> None:
    """Give rows of one part type to another, as far as they are still its own."""
    for table in _MOVE_WITH_PART:
        _for_each(
            connection,
            f"UPDATE {table} SET part_id = :to WHERE id = :id AND part_id = :of",  # noqa: S608
            [{"to": to, "of": of, "id": number} for number in moved[table]],
        )


def _aliases(connection: Connection, part_id: int) -> list[int]:
    """Numbers of the aliases of a part type."""
    return _column(connection, "SELECT id FROM alias WHERE part_id = :id", part_id)


def _column(connection: Connection, query: str, number: int) -> list[int]:
    """The first column of a query about one part type, in order."""
    return sorted(connection.execute(text(query), {"id": number}).scalars())


def _for_each(connection: Connection, statement: str, rows: list[dict[str, Any]]) -> None:
    """One statement over some rows."""
    if rows:
        connection.execute(text(statement), rows)
