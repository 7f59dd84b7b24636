"""Small SQL statements on an open connection, quickly on SQLite and the same elsewhere."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from typing import Any

Values = Sequence[Any] | Mapping[str, Any]
"""Values for ``?`` in their order, or for ``:name`` by name."""


class Asking:
    """Plain SQL with ``?`` or ``:name`` on an open connection of SQLAlchemy's or of a driver's.

    On SQLite the driver is used directly: a search runs a hundred small statements.
    """

    def __init__(self, connection: Any) -> None:
        dialect = getattr(connection, "dialect", None)
        self.portable = dialect is not None and dialect.name != "sqlite"
        """True for any database but SQLite."""
        self._connection = connection
        if dialect is not None and not self.portable:
            self._connection = connection.connection.driver_connection

    def rows(self, statement: str, values: Values = ()) -> Iterable[Any]:
        """The rows of one SELECT."""
        if not self.portable:
            return self._connection.execute(statement, values)  # type: ignore[no-any-return]
        if isinstance(values, Mapping):
            return map(tuple, self._named(statement, values))
        return map(tuple, self._numbered(statement, dict(_numbers(values))))

    def days(self, column: str) -> str:
        """SQL for a moment as days, so that moments can be subtracted and added up."""
        if self.portable:
            # a value keeps one kind in all of a statement, and a moment is a text
            return f"EXTRACT(EPOCH FROM CAST(CAST({column} AS TEXT) AS TIMESTAMPTZ)) / 86400.0"
        return f"julianday({column})"

    def run(self, statement: str, rows: Sequence[Sequence[Any]]) -> None:
        """One statement that writes, once a row."""
        if not rows:
            return
        if self.portable:
            self._numbered(statement, [dict(_numbers(values)) for values in rows])
        else:
            self._connection.executemany(statement, rows)

    def _numbered(self, statement: str, values: Any) -> Any:
        """A statement with ``?`` through SQLAlchemy, for any other database."""
        pieces = statement.split("?")
        named = "".join(f"{piece}:v{at}" for at, piece in enumerate(pieces[:-1])) + pieces[-1]
        return self._named(named, values)

    def _named(self, statement: str, values: Any) -> Any:
        """A statement with ``:name`` through SQLAlchemy."""
        from inventory.store.sql import text

        return self._connection.execute(text(statement), values)


def _numbers(values: Sequence[Any]) -> Iterator[tuple[str, Any]]:
    """Values under the names v0, v1, ..."""
    return ((f"v{at}", value) for at, value in enumerate(values))
