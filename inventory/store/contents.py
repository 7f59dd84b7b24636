"""What a shelf file holds, and whether it is whole: looked at from outside, changing nothing."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from inventory.errors import StoreUnusable
from inventory.store import connection as opening
from inventory.store import journal
from inventory.store.drives import can_write_beside
from inventory.store.release import SCHEMA_VERSION
from inventory.store.sql import Connection, text
from inventory.store.trouble import explaining


@dataclass(frozen=True, slots=True)
class Contents:
    """Counts of a shelf and its last event."""

    schema: int
    part_types: int
    lots: int
    on_hand: int  # pieces
    held: int  # pieces
    jobs: int
    events: int
    last_event: int | None = None  # its number
    last_at: str | None = None  # UTC
    last_kind: str | None = None
    last_bench: str | None = None


_COUNTS = {
    "part_types": "SELECT COUNT(*) FROM part_type WHERE merged_into IS NULL",
    "lots": "SELECT COUNT(*) FROM lot",
    "on_hand": "SELECT COALESCE(SUM(on_hand), 0) FROM lot",
    "held": "SELECT COALESCE(SUM(held), 0) FROM lot",
    "jobs": "SELECT COUNT(*) FROM job",
    "events": "SELECT COUNT(*) FROM journal",
}


@contextmanager
def looking_at(path: Path) -> Iterator[Connection]:
    """A read transaction on a shelf file of any known schema, which is not upgraded by it."""
    with explaining(path), _opened(path) as connection:
        yield connection


@contextmanager
def _opened(path: Path) -> Iterator[Connection]:
    """The same, with what goes wrong as the driver says it."""
    engine = opening.engine_for(path, read_only=not can_write_beside(path), any_schema=True)
    try:
        with engine.connect() as connection, connection.begin():
            yield connection
    finally:
        engine.dispose()


def contents_of(path: Path) -> Contents:
    """Counts and last event of a shelf file; raises ``StoreUnusable`` where it is none."""
    schema = schema_of(path)
    with looking_at(path) as connection:
        return read_contents(connection, schema)


def read_contents(connection: Connection, schema: int = SCHEMA_VERSION) -> Contents:
    """Counts and last event on an open connection."""
    counts: dict[str, Any] = {
        name: int(connection.execute(text(query)).scalar_one()) for name, query in _COUNTS.items()
    }
    last = connection.execute(
        text("SELECT seq, at, kind, bench FROM journal ORDER BY seq DESC LIMIT 1")
    ).first()
    if last is None:
        return Contents(schema, **counts)
    return Contents(
        schema, **counts, last_event=last[0], last_at=last[1], last_kind=last[2], last_bench=last[3]
    )


def schema_of(path: Path) -> int:
    """The schema version in a shelf file's head; refuses what is no shelf or too new."""
    with explaining(path):
        application, version = opening.head_of(path)
    if application != opening.APPLICATION_ID:
        raise StoreUnusable(f"{path} is not a shelf file; it was left as it is.")
    if version > SCHEMA_VERSION:
        raise StoreUnusable(
            f"{path} was written by a newer program (schema {version}, this one knows"
            f" {SCHEMA_VERSION}); it was left as it is."
        )
    return version


def is_damaged(path: Path) -> bool:
    """True where a shelf file is not whole: asked when something else went wrong with it."""
    try:
        schema_of(path)
        with _opened(path) as connection:
            return (broken_pages(connection) or broken_records(connection)) is not None
    except Exception as error:  # damage shows itself in any way at all
        return not any(word in str(error).lower() for word in ("locked", "another bench"))


def broken_pages(connection: Connection) -> str | None:
    """What SQLite's own check says of the file; None where it is whole."""
    row = connection.exec_driver_sql("PRAGMA integrity_check(1)").first()
    if row is not None and row[0] == "ok":
        return None
    return f"SQLite's own check says: {row[0] if row else 'nothing'}"


def broken_records(connection: Connection) -> str | None:
    """A reference that leads nowhere, or an event that does not follow; None where all hold."""
    reference = connection.exec_driver_sql("PRAGMA foreign_key_check").first()
    if reference is not None:
        return f"a row of {reference[0]!r} points to a {reference[2]!r} that is not there"
    broken = journal.broken_link(connection)
    return None if broken is None else f"the journal does not hold together at event {broken}"
