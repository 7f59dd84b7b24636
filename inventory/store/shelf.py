"""A shelf: one file (or one database) with its read and write transactions."""

from __future__ import annotations

import os
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path

from sqlalchemy import Engine
from sqlalchemy.engine import Connection

from inventory.errors import StoreUnusable
from inventory.store import connection as opening
from inventory.store.contents import schema_of
from inventory.store.drives import can_write_beside, network_warning
from inventory.store.release import SCHEMA_VERSION
from inventory.store.trouble import explaining


@dataclass(frozen=True, slots=True)
class Shelf:
    """An open shelf. Reads see one moment; a write is one transaction that holds or never was."""

    engine: Engine
    path: Path | None  # None for a database server
    bench: str  # who writes

    @contextmanager
    def read(self) -> Iterator[Connection]:
        """A read transaction."""
        with explaining(self.path), self.engine.connect() as connection, connection.begin():
            yield connection

    @contextmanager
    def write(self, *, dry_run: bool = False) -> Iterator[Connection]:
        """A write transaction that has the shelf to itself; rolled back on any error.

        With ``dry_run`` everything is done and then rolled back.
        """
        writer = self.engine.execution_options(sqlite_begin="IMMEDIATE")
        with explaining(self.path), writer.connect() as connection, connection.begin() as transaction:
            yield connection
            if dry_run:
                transaction.rollback()

    def close(self) -> None:
        """Let go of the file."""
        self.engine.dispose()


def open_shelf(where: str, *, bench: str | None = None, create: bool = False) -> Shelf:
    """Open the shelf at a path or URL; a missing one is made only when ``create`` says so.

    Raises ``StoreUnusable`` for a file that is not a shelf, or of a newer program.
    """
    who = bench or os.environ.get("SALVAGE_BENCH") or "bench"
    if "://" in where:
        return Shelf(opening.engine_for_url(where), None, who)
    path = Path(where).expanduser()
    if not path.exists():
        if not create:
            raise StoreUnusable(
                f"There is no shelf at {path} yet; log a part, load a file or run 'salvage demo'."
            )
        return _create(path, who)
    return _open_existing(path, who)


def _open_existing(path: Path, who: str) -> Shelf:
    """Check the head of the file, bring an older schema up to date, open."""
    if path.is_dir():
        raise StoreUnusable(f"{path} is a folder, not a shelf file.")
    application, version = opening.head_of(path)
    if (application, version) == (0, 0) and path.stat().st_size == 0:
        return _create(path, who)
    if application != opening.APPLICATION_ID:
        raise StoreUnusable(f"{path} is not a shelf file; it was left as it is.")
    if version > SCHEMA_VERSION:
        raise StoreUnusable(
            f"{path} was written by a newer program (schema {version}, this one knows"
            f" {SCHEMA_VERSION}); it was left as it is."
        )
    if version < SCHEMA_VERSION:
        from inventory.store.migrate import upgrade

        upgrade(path, version)
    return Shelf(opening.engine_for(path, read_only=not os.access(path, os.W_OK)), path, who)


def _create(path: Path, who: str) -> Shelf:
    """A new shelf file with the newest schema."""
    from inventory.store.migrate import create

    try:
        path.parent.mkdir(parents=True, exist_ok=True)
    except OSError as error:
        raise StoreUnusable(f"Cannot make the folder {path.parent}: {error.strerror}.") from error
    create(path)
    return Shelf(opening.engine_for(path), path, who)
