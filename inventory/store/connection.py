"""Opening a shelf: the right settings, the right file, one sentence where it is neither.

Settings and the reasons for them: WAL with FULL only on an SQLite without the WAL-reset race
(fixed in 3.51.3, 3.50.7 and 3.44.6), else DELETE with EXTRA; both lose no acknowledged event
at a power cut. Source: sqlite.org, release notes of those versions; measured, see
DEVELOPERS.md.
"""

from __future__ import annotations

import importlib.util
import os
from pathlib import Path
from typing import TYPE_CHECKING, Any

from inventory.errors import StoreUnusable, WrongInput
from inventory.store.drives import can_write_beside, network_type
from inventory.store.release import SCHEMA_VERSION
from inventory.store.sql import Connection

if TYPE_CHECKING:
    from sqlalchemy import Engine

APPLICATION_ID = 0x534C5647
"""Written into the head of every shelf file; any other file is refused."""

WAIT_SECONDS = 10
"""How long a writer waits for another bench before it is refused."""


def sqlite_module() -> Any:
    """The DB-API module: the newer SQLite where it is installed, else Python's own.

    ``SALVAGE_SQLITE=stdlib`` asks for Python's own.
    """
    asked = os.environ.get("SALVAGE_SQLITE", "")
    if asked != "stdlib" and importlib.util.find_spec("pysqlite3") is not None:
        from pysqlite3 import dbapi2

        return dbapi2
    import sqlite3

    return sqlite3


def driver_errors() -> tuple[type[Exception], ...]:
    """The error classes of the DB-API module; the newer SQLite has its own."""
    import sqlite3

    return (sqlite3.Error, sqlite_module().Error)


def wal_is_safe(version: tuple[int, ...]) -> bool:
    """True for SQLite versions without the WAL-reset race.

    >>> wal_is_safe((3, 40, 1)), wal_is_safe((3, 51, 3)), wal_is_safe((3, 44, 6))
    (False, True, True)
    """
    return (
        version >= (3, 51, 3) or (3, 50, 7) <= version < (3, 51) or (3, 44, 6) <= version < (3, 45)
    )


def engine_for(path: Path, *, read_only: bool = False, any_schema: bool = False) -> Engine:
    """An engine on a shelf file; every connection gets the settings above.

    Unless ``any_schema`` is asked for, a connection is refused where the file's schema is not
    the one of this program, even if it was when the shelf was opened.
    """
    from sqlalchemy import create_engine
    from sqlalchemy.pool import NullPool

    module = sqlite_module()
    target = f"file:{_uri(path)}" + ("?mode=ro" if read_only else "")
    engine = create_engine(
        f"sqlite:///{target}&uri=true" if read_only else f"sqlite:///{target}?uri=true",
        module=module,
        poolclass=NullPool,
        connect_args={"timeout": WAIT_SECONDS},
    )
    _hook(engine, path, read_only=read_only, any_schema=any_schema)
    return engine


def driver_for(path: Path, *, read_only: bool = False) -> Any:
    """A connection of the driver's own on a shelf file, for a search: the settings above."""
    mode = "ro" if read_only else "rw"
    connection = sqlite_module().connect(
        f"file:{_uri(path)}?mode={mode}", uri=True, timeout=WAIT_SECONDS
    )
    _remember(path)
    try:
        _set_up(connection, read_only=read_only, any_schema=False)
    except BaseException:
        connection.close()
        raise
    return connection


def _uri(path: Path) -> str:
    """A path as it stands in an SQLite URI."""
    from urllib.parse import quote

    return quote(str(path.absolute()))


def _hook(engine: Engine, path: Path, *, read_only: bool, any_schema: bool) -> None:
    """Settings on connect; BEGIN IMMEDIATE where the caller is going to write."""
    from sqlalchemy import event

    @event.listens_for(engine, "connect")
    def _on_connect(connection: Any, _record: Any) -> None:
        _remember(path)
        _set_up(connection, read_only=read_only, any_schema=any_schema)

    @event.listens_for(engine, "begin")
    def _on_begin(connection: Connection) -> None:
        how = connection.get_execution_options().get("sqlite_begin", "DEFERRED")
        connection.exec_driver_sql(f"BEGIN {how}")


def _remember(path: Path) -> None:
    """Note that SQLite has this file open, or had."""
    known = _file_id(path)
    if known is not None:
        _IN_USE.add(known)


def _set_up(connection: Any, *, read_only: bool, any_schema: bool) -> None:
    """The settings of a connection of the driver's."""
    connection.isolation_level = None  # the driver must not start transactions of its own
    for setting in (
        f"busy_timeout={WAIT_SECONDS * 1000}",
        "foreign_keys=ON",
        "trusted_schema=OFF",
        "cell_size_check=ON",
    ):
        connection.execute(f"PRAGMA {setting}")
    if not read_only:
        _make_durable(connection)
    if not any_schema:
        _refuse_other_schema(connection)


def _make_durable(connection: Any) -> None:
    """Sync as the journal of this file needs it.

    The mode is read from the file, not guessed from the library: with FULL, a rollback journal
    can lose the last acknowledged event at a power cut.
    """
    (mode,) = connection.execute("PRAGMA journal_mode").fetchone()
    connection.execute(f"PRAGMA synchronous={'FULL' if mode == 'wal' else 'EXTRA'}")


def _refuse_other_schema(connection: Any) -> None:
    """Let nobody write by the wrong plan: another bench may have upgraded the file meanwhile."""
    (version,) = connection.execute("PRAGMA user_version").fetchone()
    if version > SCHEMA_VERSION:
        raise StoreUnusable(
            f"The shelf was brought to schema {version} by a newer program, this one knows"
            f" {SCHEMA_VERSION}; nothing was changed."
        )
    if version < SCHEMA_VERSION:
        raise StoreUnusable(
            f"The shelf is of an older schema ({version}, this program writes {SCHEMA_VERSION})"
            " and was not upgraded; open it again."
        )


def set_journal_mode(path: Path) -> str:
    """Choose the journal for this file by the SQLite that runs it; returns what it is now.

    A file on a network drive never gets a write-ahead log: its locks need one machine.
    Source: sqlite.org, Write-Ahead Logging, section 1.
    """
    safe = wal_is_safe(sqlite_module().sqlite_version_info)
    wanted = "WAL" if safe and network_type(path) is None else "DELETE"
    engine = engine_for(path, any_schema=True)
    raw = engine.raw_connection()
    try:
        row = raw.driver_connection.execute(f"PRAGMA journal_mode={wanted}").fetchone()  # type: ignore[union-attr]
        return str(row[0])
    finally:
        raw.close()
        engine.dispose()


def leave_unsafe_wal(path: Path) -> None:
    """Take a file out of write-ahead logging where this SQLite has the race; else leave it.

    Raises ``StoreUnusable`` while a bench with a newer SQLite has it open.
    """
    if wal_is_safe(sqlite_module().sqlite_version_info) or not keeps_wal(path):
        return
    try:
        left = set_journal_mode(path) != "wal"
    except driver_errors() as error:
        raise _newer_bench(path) from error
    if not left:
        raise _newer_bench(path)


def _newer_bench(path: Path) -> StoreUnusable:
    """The refusal while a bench with a newer SQLite keeps the file in write-ahead logging."""
    return StoreUnusable(
        f"{path} is being written by a bench with a newer SQLite, which this one"
        f" ({sqlite_module().sqlite_version}) cannot safely do at the same time; close that"
        " bench or install the 'wal' extra here."
    )


def keeps_wal(path: Path) -> bool:
    """True where the file's head says write-ahead logging.

    Source: sqlite.org, Database File Format, section 1.3: bytes 18 and 19.
    """
    if _file_id(path) in _IN_USE:
        return str(_ask(path, "journal_mode")[0]) == "wal"
    with path.open("rb") as file:
        return 2 in file.read(20)[18:]


def head_of(path: Path) -> tuple[int, int]:
    """Application id and schema version of a file, without changing it.

    They are read from the file's head; where a journal lies beside it the head may be half
    written, so SQLite is asked. Source: sqlite.org, Database File Format, section 1.3: bytes 60
    to 63 and 68 to 71.
    """
    if _file_id(path) in _IN_USE:
        return _asked_head(path)
    try:
        with path.open("rb") as file:
            head = file.read(100)
    except OSError as error:
        raise StoreUnusable(f"Cannot read {path}: {error.strerror}.") from error
    except ValueError as error:
        raise WrongInput("That is not a file name.") from error
    if not head:
        return 0, 0
    if len(head) < 100 or not head.startswith(b"SQLite format 3\x00"):
        raise _no_shelf(path)
    application = int.from_bytes(head[68:72])
    if application == APPLICATION_ID and _has_journal(path):
        return _asked_head(path)
    return application, int.from_bytes(head[60:64])


def _no_shelf(path: Path) -> StoreUnusable:
    """The refusal of a file that SQLite does not know."""
    return StoreUnusable(
        f"{path} is not a shelf file; it was left as it is. If it was one, it is damaged:"
        " 'salvage restore' brings back a backup."
    )


def _has_journal(path: Path) -> bool:
    """True where a change may not have reached the file itself yet."""
    return any(Path(f"{path}{ending}").exists() for ending in ("-journal", "-wal"))


_IN_USE: set[tuple[int, int]] = set()
"""Files this process has opened with SQLite. Reading one of them plainly would, on closing it,
drop the locks SQLite holds on it. Source: sqlite.org, How To Corrupt An SQLite Database File,
section 2.2."""


def _file_id(path: Path) -> tuple[int, int] | None:
    """What tells a file from every other one; None where there is none."""
    try:
        found = path.stat()
    except (OSError, ValueError):
        return None
    return found.st_dev, found.st_ino


def _asked_head(path: Path) -> tuple[int, int]:
    """Application id and schema version once SQLite has settled what its journal says."""
    try:
        application, version = _ask(path, "application_id", "user_version")
    except driver_errors() as error:
        if "not a database" in str(error):
            raise _no_shelf(path) from error
        raise
    return int(application), int(version)


def _ask(path: Path, *pragmas: str) -> list[Any]:
    """What SQLite says of a file."""
    mode = "rw" if can_write_beside(path) else "ro"
    connection = sqlite_module().connect(
        f"file:{_uri(path)}?mode={mode}", uri=True, timeout=WAIT_SECONDS
    )
    try:
        return [connection.execute(f"PRAGMA {pragma}").fetchone()[0] for pragma in pragmas]
    finally:
        connection.close()


def copy_to_read(path: Path) -> Path:
    """A copy of a write-ahead-logging file in a temporary folder, gone with the process.

    SQLite cannot read such a file where it cannot write beside it.
    Source: sqlite.org, Write-Ahead Logging, section 5, Read-Only Databases.
    """
    import atexit
    import shutil
    import tempfile

    folder = Path(tempfile.mkdtemp(prefix="shelf-"))
    atexit.register(shutil.rmtree, folder, ignore_errors=True)
    for ending in ("", "-wal"):
        if Path(f"{path}{ending}").exists():
            shutil.copyfile(f"{path}{ending}", folder / f"{path.name}{ending}")
    return folder / path.name
