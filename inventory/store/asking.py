"""Small SQL statements on an open connection, quickly on SQLite and the same elsewhere."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from typing import Any


class Asking:
    """Plain SQL with ``?`` on an open connection of SQLAlchemy's or of a driver's.

    On SQLite the driver is used directly: a search runs a hundred small statements.
    """

    def __init__(self, connection: Any) -> None:
        dialect = getattr(connection, "dialect", None)
        self._portable = dialect is not None and dialect.name != "sqlite"
        self._connection = connection
        if dialect is not None and not self._portable:
            self._connection = connection.connection.driver_connection

    def rows(self, statement: str, values: Sequence[Any]) -> Iterable[Any]:
        """The rows of one SELECT."""
        if self._portable:
            return self._sqlalchemy(statement, dict(_named(values)))  # type: ignore[no-any-return]
        return self._connection.execute(statement, values)  # type: ignore[no-any-return]

    def run(self, statement: str, rows: Sequence[Sequence[Any]]) -> None:
        """One statement that writes, once a row."""
        if not rows:
            return
        if self._portable:
            self._sqlalchemy(statement, [dict(_named(values)) for values in rows])
        else:
            self._connection.executemany(statement, rows)

    def _sqlalchemy(self, statement: str, values: Any) -> Any:
        """The same through SQLAlchemy, for any other database."""
        from sqlalchemy import text

        pieces = statement.split("?")
        named = "".join(f"{piece}:v{at}" for at, piece in enumerate(pieces[:-1])) + pieces[-1]
        return self._connection.execute(text(named), values)


def _named(values: Sequence[Any]) -> Iterator[tuple[str, Any]]:
    """Values under the names v0, v1, ..."""
    return ((f"v{at}", value) for at, value in enumerate(values))
