"""A whole shelf going in or out, table by table."""

from __future__ import annotations

import json
import math
from collections.abc import Iterator
from typing import Any

from sqlalchemy import inspect, text
from sqlalchemy.engine import Connection
from sqlalchemy.exc import IntegrityError

from inventory.errors import WrongInput
from inventory.store.check import contradictions, rebuild_derived

TABLES = (
    "bin", "source_unit", "part_type", "alias", "rating", "measured", "lot", "bench_test",
    "bench_reading", "edge", "job", "job_reading", "setting", "loaded_file", "journal",
)  # fmt: skip
"""All tables, parents first; the search index is built anew from them."""


def rows_of_table(connection: Connection, table: str) -> Iterator[dict[str, Any]]:
    """All rows of one of our tables, one at a time: a journal may be long."""
    rows = connection.execute(text(f"SELECT * FROM {table} ORDER BY 1"))  # noqa: S608
    return ({name: _plain(value) for name, value in row.items()} for row in rows.mappings())


def _plain(value: Any) -> Any:
    """A value as every database can write it: a truth value is 0 or 1."""
    return int(value) if isinstance(value, bool) else value


def count(connection: Connection) -> int:
    """Rows of all tables."""
    counts = (connection.execute(text(f"SELECT COUNT(*) FROM {table}")) for table in TABLES)  # noqa: S608
    return sum(one.scalar_one() for one in counts)


def is_empty(connection: Connection) -> bool:
    """True for a shelf on which nothing ever happened."""
    return connection.execute(text("SELECT 1 FROM journal")).first() is None


def fill(connection: Connection, tables: dict[str, list[dict[str, Any]]]) -> dict[str, int]:
    """Write the rows of all tables; returns rows by table.

    Raises ``WrongInput`` where a value is not of its column's kind, where rows contradict each
    other, or where the journal's chain does not hold: a dump is a file from outside.
    """
    # a part type may have become one of a later row
    on_server = connection.dialect.name != "sqlite"
    connection.exec_driver_sql(
        "SET CONSTRAINTS ALL DEFERRED" if on_server else "PRAGMA defer_foreign_keys=ON"
    )
    try:
        counted = {name: _fill_one(connection, name, tables.get(name, [])) for name in TABLES}
        if on_server:
            connection.exec_driver_sql("SET CONSTRAINTS ALL IMMEDIATE")
    except IntegrityError as error:
        said = str(error.orig).splitlines()[0]
        raise WrongInput(f"The rows of the dump contradict each other: {said}.") from error
    contradiction = next(contradictions(connection), None)
    if contradiction is not None:
        raise WrongInput(f"The dump contradicts itself: {contradiction.sentence}")
    rebuild_derived(connection)
    return counted


def _fill_one(connection: Connection, table: str, rows: list[dict[str, Any]]) -> int:
    """Write the rows of one table, every one with the table's own columns."""
    if not rows:
        return 0
    columns = {column["name"]: column for column in inspect(connection).get_columns(table)}
    names = list(rows[0])
    if any(list(row) != names for row in rows) or set(names) != set(columns):
        raise WrongInput(f"The rows of {table!r} do not have the columns of that table.")
    for number, row in enumerate(rows, start=1):
        for name, value in row.items():
            if not _belongs(value, columns[name], is_json=name in _JSON.get(table, ())):
                raise WrongInput(f"Row {number} of {table!r} cannot have such a {name!r}.")
    flags = [name for name in names if columns[name]["type"].python_type is bool]
    for row in rows:
        row |= {name: bool(row[name]) for name in flags if row[name] is not None}
    holders = ", ".join(f":{name}" for name in names)
    connection.execute(
        text(f"INSERT INTO {table} ({', '.join(names)}) VALUES ({holders})"),  # noqa: S608
        rows,
    )
    return len(rows)


_JSON: dict[str, tuple[str, ...]] = {
    "part_type": ("ratings",),
    "measured": ("value",),
    "job": ("plate",),
    "journal": ("detail",),
}
"""Columns whose text is JSON."""


def _belongs(value: Any, column: Any, *, is_json: bool) -> bool:
    """Whether a value may stand in a column; SQLite itself would take nearly anything."""
    if value is None:
        return bool(column["nullable"])
    kind = column["type"].python_type
    if kind is bool:
        return value in (0, 1)
    if kind is float:
        return isinstance(value, int | float) and math.isfinite(value)
    if not isinstance(value, kind) or isinstance(value, bool):
        return False
    if isinstance(value, str):
        return "\0" not in value and (not is_json or _is_json(value, column["name"]))
    return True


def _is_json(value: str, name: str) -> bool:
    """Whether a text is JSON; all but a measured value are objects."""
    try:
        said = json.loads(value)
    except (ValueError, RecursionError):
        return False
    return name == "value" or isinstance(said, dict)
