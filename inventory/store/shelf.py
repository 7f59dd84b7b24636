"""A shelf: one file (or one database) with its read and write transactions."""

from __future__ import annotations

import os
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from functools import partial
from pathlib import Path
from typing import TYPE_CHECKING, Any

from inventory.errors import StoreUnusable
from inventory.store import connection as opening
from inventory.store.contents import schema_of
from inventory.store.drives import can_write_beside, network_warning
from inventory.store.release import SCHEMA_VERSION
from inventory.store.sql import Connection
from inventory.store.trouble import explaining

if TYPE_CHECKING:
    from sqlalchemy import Engine

    from inventory.store.server import Server


class EngineLater:
    """An engine that is made when it is first asked for: a search never does."""

    __slots__ = ("_engine", "_make")

    def __init__(self, make: Callable[[], Engine]) -> None:
        self._make = make
        self._engine: Engine | None = None

    def get(self) -> Engine:
        """The engine."""
        if self._engine is None:
            self._engine = self._make()
        return self._engine

    def dispose(self) -> None:
        """Let go of it, if it was ever made."""
        if self._engine is not None:
            self._engine.dispose()


@dataclass(frozen=True, slots=True)
class Shelf:
    """An open shelf. Reads see one moment; a write is one transaction that holds or never was."""

    later: EngineLater
    path: Path | None  # None for a database server
    bench: str  # who writes
    warnings: tuple[str, ...] = ()  # what a person should know of the place it lies in
    driver: Callable[[], Any] | None = None  # opens the driver's own connection, where that will do
    server: Server | None = None

    @property
    def engine(self) -> Engine:
        """The engine behind all but a search."""
        return self.later.get()

    @contextmanager
    def search(self) -> Iterator[Connection]:
        """A read transaction for what asks through ``asking`` alone, quick to open."""
        if self.driver is None:
            with self.read() as connection:
                yield connection
            return
        with explaining(self.path):
            quick = self.driver()
            try:
                quick.execute("BEGIN")
                yield quick
            finally:
                quick.close()

    @contextmanager
    def read(self) -> Iterator[Connection]:
        """A read transaction."""
        with (
            explaining(self.path),
            self.engine.connect() as connection,
            connection.begin() as transaction,
        ):
            if self.server:
                self.server.begin(connection, writes=False)
            yield connection
            transaction.rollback()  # a shelf that comes with its first write is not made by a look

    @contextmanager
    def write(self, *, dry_run: bool = False) -> Iterator[Connection]:
        """A write transaction that has the shelf to itself; rolled back on any error.

        With ``dry_run`` everything is done and then rolled back.
        """
        writer = self.engine.execution_options(sqlite_begin="IMMEDIATE")
        with (
            _still_there(self.path),
            explaining(self.path),
            writer.connect() as connection,
            connection.begin() as transaction,
        ):
            if self.server:
                self.server.begin(connection, writes=True)
            yield connection
            if dry_run:
                transaction.rollback()

    def close(self) -> None:
        """Let go of the file."""
        self.later.dispose()


@contextmanager
def _still_there(path: Path | None) -> Iterator[None]:
    """Acknowledge only what is on the file at that path: it may be moved or deleted meanwhile."""
    before = _file_number(path)
    replaced = StoreUnusable(
        f"{path} was replaced or removed while this was being written, so it is not on the"
        " shelf; please say it again."
    )
    try:
        yield
    except StoreUnusable as error:
        if _file_number(path) not in (before, None):
            raise replaced from error
        raise
    if _file_number(path) != before:
        raise replaced


def _file_number(path: Path | None) -> int | None:
    """What tells one file from another that takes its name; None where there is none."""
    try:
        return path.stat().st_ino if path else None
    except OSError:
        return None


_FILE_URL = "sqlite:///"
"""A shelf file written as a URL, as SQLAlchemy has it."""


def file_of(where: str) -> Path | None:
    """The file of a shelf, however it is written; None for a database server."""
    if "://" in where and not where.startswith(_FILE_URL):
        return None
    # a file is opened as a file even where it is written as a URL: only so it gets its settings
    return Path(where.removeprefix(_FILE_URL)).expanduser()


def is_there(path: Path) -> bool:
    """True where something lies at a path; an empty file is as good as none."""
    return path.exists() and (path.is_dir() or path.stat().st_size > 0)


def open_shelf(where: str, *, bench: str | None = None, create: bool = False) -> Shelf:
    """Open the shelf at a path or URL; a missing one is made only when ``create`` says so.

    Raises ``StoreUnusable`` for a file that is not a shelf, or of a newer program.
    """
    path = file_of(where)
    if path is None:
        return open_on_server(where, bench=bench, create=create)
    who = _who(bench)
    with explaining(path):
        if is_there(path):
            return _open_existing(path, who)
        if create:
            return _create(path, who)
    raise StoreUnusable(
        f"There is no shelf at {path} yet; log a part, load a file or run 'salvage demo'."
    )


def open_on_server(
    url: str, *, bench: str | None = None, create: bool = False, to_fill: bool = False
) -> Shelf:
    """Open the shelf on a database server; with ``to_fill`` the first write may make it."""
    from inventory.store.server import open_server

    with explaining(None):
        server = open_server(url, create=create, to_fill=to_fill)
    return Shelf(EngineLater(lambda: server.engine), None, _who(bench), server=server)


def _who(bench: str | None) -> str:
    """The bench that writes: as said, else as the environment has it."""
    return bench or os.environ.get("SALVAGE_BENCH") or "bench"


def _open_existing(path: Path, who: str) -> Shelf:
    """Check the head of the file, bring an older schema up to date, open."""
    if path.is_dir():
        raise StoreUnusable(f"{path} is a folder, not a shelf file.")
    version = schema_of(path)
    if not can_write_beside(path):
        return _open_to_read(path, who, version)
    opening.leave_unsafe_wal(path)
    if version < SCHEMA_VERSION:
        from inventory.store.migrate import upgrade

        upgrade(path, version)
    return _on_file(path, who)


def _open_to_read(path: Path, who: str, version: int) -> Shelf:
    """A shelf in a read-only place: every write is refused by SQLite itself."""
    if version < SCHEMA_VERSION:
        raise StoreUnusable(
            f"{path} is of an older schema ({version}, this program writes {SCHEMA_VERSION}) and"
            " cannot be upgraded where it lies (read-only); copy it to a place that can be"
            " written to."
        )
    there = opening.copy_to_read(path) if opening.keeps_wal(path) else path
    note = f"{path} is read-only: it can be looked at, nothing can be written."
    return _on_file(path, who, note, there=there, read_only=True)


def _on_file(
    path: Path, who: str, *notes: str, there: Path | None = None, read_only: bool = False
) -> Shelf:
    """The shelf in a file; ``there`` is the file to read where it is not the one meant."""
    where = there or path
    return Shelf(
        EngineLater(partial(opening.engine_for, where, read_only=read_only)),
        path,
        who,
        (*notes, *_warnings(path)),
        partial(opening.driver_for, where, read_only=read_only),
    )


def _warnings(path: Path) -> tuple[str, ...]:
    """What a person should know of the place a shelf lies in."""
    network = network_warning(path)
    return (network,) if network else ()


def _create(path: Path, who: str) -> Shelf:
    """A new shelf file with the newest schema."""
    from inventory.store.migrate import create

    try:
        path.parent.mkdir(parents=True, exist_ok=True)
    except OSError as error:
        raise StoreUnusable(f"Cannot make the folder {path.parent}: {error.strerror}.") from error
    create(path)
    return _on_file(path, who)
