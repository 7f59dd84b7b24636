"""A whole shelf going in or out, table by table."""

from __future__ import annotations

from typing import Any

from sqlalchemy import inspect, text
from sqlalchemy.engine import Connection

from inventory.errors import WrongInput
from inventory.store import journal, search_index

TABLES = (
    "bin", "source_unit", "part_type", "alias", "rating", "measured", "lot", "bench_test",
    "bench_reading", "edge", "job", "job_reading", "setting", "loaded_file", "journal",
)  # fmt: skip
"""All tables, parents first; the search index is built anew from them."""


def rows_of_table(connection: Connection, table: str) -> list[dict[str, Any]]:
    """All rows of one of our tables."""
    rows = connection.execute(text(f"SELECT * FROM {table} ORDER BY 1"))  # noqa: S608
    return [dict(row) for row in rows.mappings()]


def is_empty(connection: Connection) -> bool:
    """True for a shelf on which nothing ever happened."""
    return connection.execute(text("SELECT 1 FROM journal")).first() is None


def fill(connection: Connection, tables: dict[str, list[dict[str, Any]]]) -> dict[str, int]:
    """Write the rows of all tables; the journal's chain must hold. Returns rows by table."""
    if connection.dialect.name == "sqlite":
        connection.exec_driver_sql("PRAGMA defer_foreign_keys=ON")
    counted = {name: _fill_one(connection, name, tables.get(name, [])) for name in TABLES}
    broken = journal.broken_link(connection)
    if broken is not None:
        raise WrongInput(f"The journal in the file was changed at event {broken}.")
    search_index.rebuild(connection)
    return counted


def _fill_one(connection: Connection, table: str, rows: list[dict[str, Any]]) -> int:
    """Write the rows of one table, every one with the table's own columns."""
    if not rows:
        return 0
    known = {column["name"] for column in inspect(connection).get_columns(table)}
    names = list(rows[0])
    if any(list(row) != names for row in rows) or set(names) != known:
        raise WrongInput(f"The rows of {table!r} do not have the columns of that table.")
    if any(isinstance(value, dict | list) for row in rows for value in row.values()):
        raise WrongInput(f"A row of {table!r} holds more than plain values.")
    holders = ", ".join(f":{name}" for name in names)
    connection.execute(
        text(f"INSERT INTO {table} ({', '.join(names)}) VALUES ({holders})"),  # noqa: S608
        rows,
    )
    return len(rows)
