"""A shelf: one file (or one database) with its read and write transactions."""

from __future__ import annotations

import os
import sqlite3
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path

from sqlalchemy import Engine
from sqlalchemy.engine import Connection
from sqlalchemy.exc import DBAPIError, IntegrityError

from inventory.errors import InventoryError, StoreUnusable, WrongInput
from inventory.store import connection as opening
from inventory.store.release import SCHEMA_VERSION


@dataclass(frozen=True, slots=True)
class Shelf:
    """An open shelf. Reads see one moment; a write is one transaction that holds or never was."""

    engine: Engine
    path: Path | None  # None for a database server
    bench: str  # who writes

    @contextmanager
    def read(self) -> Iterator[Connection]:
        """A read transaction."""
        with _explained(self), self.engine.connect() as connection, connection.begin():
            yield connection

    @contextmanager
    def write(self, *, dry_run: bool = False) -> Iterator[Connection]:
        """A write transaction that has the shelf to itself; rolled back on any error.

        With ``dry_run`` everything is done and then rolled back.
        """
        writer = self.engine.execution_options(sqlite_begin="IMMEDIATE")
        with _explained(self), writer.connect() as connection, connection.begin() as transaction:
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


@contextmanager
def _explained(shelf: Shelf) -> Iterator[None]:
    """What the database says, in one sentence a person can act on."""
    try:
        yield
    except InventoryError:
        raise
    except IntegrityError:
        raise
    except DBAPIError as error:
        raise explained(str(error.orig), shelf.path) from error
    except sqlite3.Error as error:
        raise explained(str(error), shelf.path) from error


def explained(message: str, path: Path | None) -> InventoryError:
    """The sentence for a message of the database."""
    where = path or "the shelf"
    low = message.lower()
    if "locked" in low or "busy" in low:
        return StoreUnusable(
            f"Another bench has been writing to {where} for {opening.WAIT_SECONDS} s;"
            " nothing was changed here, please try again."
        )
    if "full" in low:
        return StoreUnusable(f"The disk of {where} is full; nothing was changed.")
    if "readonly" in low or "read-only" in low:
        return StoreUnusable(f"{where} cannot be written to (read-only); nothing was changed.")
    if "malformed" in low or "not a database" in low or "corrupt" in low:
        return StoreUnusable(
            f"{where} is damaged; it was left as it is. 'salvage restore' brings back a backup."
        )
    if "unable to open" in low or "disk i/o" in low:
        return StoreUnusable(f"{where} cannot be read or written ({message}); nothing was changed.")
    if "surrogate" in low or "encode" in low:
        return WrongInput("The text holds signs that cannot be stored; nothing was changed.")
    return StoreUnusable(f"{where} cannot be used: {message}.")
