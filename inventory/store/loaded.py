"""Which files were loaded, so that loading one twice is noticed."""

from __future__ import annotations

from inventory.store.journal import now
from inventory.store.sql import Connection, text


def when(connection: Connection, digest: str) -> str | None:
    """When a file with these bytes was loaded; None: never."""
    found = connection.execute(
        text("SELECT at FROM loaded_file WHERE digest = :digest"), {"digest": digest}
    ).scalar()
    return str(found) if found else None


def remember(connection: Connection, digest: str, name: str, rows: int) -> None:
    """Write down that a file was loaded."""
    connection.execute(text("DELETE FROM loaded_file WHERE digest = :d"), {"d": digest})
    connection.execute(
        text("INSERT INTO loaded_file (digest, name, at, rows) VALUES (:d, :name, :at, :rows)"),
        {"d": digest, "name": name, "at": now(), "rows": rows},
    )


def forget(connection: Connection, digest: str) -> None:
    """Let a file be loaded again."""
    connection.execute(text("DELETE FROM loaded_file WHERE digest = :d"), {"d": digest})
