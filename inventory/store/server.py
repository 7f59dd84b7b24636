"""A shelf on a PostgreSQL server: reaching it, making its schema, one writer at a time.

Writers wait for one lock before they read anything, so that what they read cannot change until
they commit: the journal's chain goes on without a gap, and the last piece goes out once. Since
it is the first lock anybody takes, benches cannot block each other crosswise, and since each
statement sees what was committed before it, none fails for another bench's sake.
Source: postgresql.org, 13.2.1 Read Committed Isolation Level and 13.3.5 Advisory Locks.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

from inventory.errors import StoreUnusable, WrongInput
from inventory.store import connection as opening
from inventory.store.release import SCHEMA_VERSION
from inventory.store.sql import Connection

if TYPE_CHECKING:
    from sqlalchemy import URL, Engine

IDLE_SECONDS = 120
"""A bench that says nothing for so long in the middle of a write has lost the shelf: a lid that
was closed must not keep the others out."""

_LOCK = f"SELECT pg_advisory_xact_lock({opening.APPLICATION_ID}, hashtext(current_schema()::text))"
_TO_WRITE = (
    "SET TRANSACTION ISOLATION LEVEL READ COMMITTED",
    f"SET LOCAL idle_in_transaction_session_timeout = '{IDLE_SECONDS}s'",
    _LOCK,
)
_TO_READ = ("SET TRANSACTION ISOLATION LEVEL REPEATABLE READ, READ ONLY",)
_IS_THERE = "SELECT to_regclass('shelf_schema') IS NOT NULL"
_VERSION = "SELECT version_num FROM shelf_schema"
_PLACE = (
    "SELECT current_setting('server_encoding'), current_schema(), (SELECT COUNT(*)"
    " FROM pg_class WHERE relnamespace = to_regnamespace(quote_ident(current_schema()))"
    " AND relkind IN ('r', 'v', 'm', 'S', 'f', 'p'))"
)


@dataclass(frozen=True, slots=True)
class Server:
    """The place of a shelf on a server."""

    engine: Engine
    name: str  # as it is called in a sentence; without a password
    to_fill: bool = False  # the first write may make the shelf

    def begin(self, connection: Connection, *, writes: bool) -> None:
        """Open a transaction: who writes waits for the others, who reads sees one moment.

        Raises ``StoreUnusable`` where the schema is not this program's.
        """
        for statement in _TO_WRITE if writes or self.to_fill else _TO_READ:
            connection.exec_driver_sql(statement)
        if self.to_fill and not connection.exec_driver_sql(_IS_THERE).scalar():
            self._make(connection)
        _refuse_other_schema(self.name, self._version(connection))

    def make(self) -> None:
        """Make the shelf where there is none yet; of two benches at once, one does."""
        with self.engine.connect() as connection, connection.begin():
            Server(self.engine, self.name, to_fill=True).begin(connection, writes=True)

    def look(self) -> int | None:
        """The schema version of the shelf; None where there is none."""
        with self.engine.connect() as connection, connection.begin():
            if not connection.exec_driver_sql(_IS_THERE).scalar():
                return None
            return self._version(connection)

    def upgrade(self) -> None:
        """Bring an older schema up to date, in one transaction that other benches wait for."""
        from inventory.store.migrate import migrate

        with self.engine.connect() as connection, connection.begin():
            for statement in _TO_WRITE:
                connection.exec_driver_sql(statement)
            if self._version(connection) < SCHEMA_VERSION:
                migrate(connection)

    def _version(self, connection: Connection) -> int:
        """What Alembic wrote down; refuses a table that is not its own."""
        said = connection.exec_driver_sql(_VERSION).scalar()
        if said is None or not (said.isascii() and said.isdigit()):
            raise StoreUnusable(f"{self.name} holds something else than a shelf; it was left.")
        return int(said)

    def _make(self, connection: Connection) -> None:
        """The newest schema in an empty place; needs the lock."""
        from inventory.store.migrate import migrate

        encoding, schema, others = connection.exec_driver_sql(_PLACE).one()
        if encoding != "UTF8":
            raise StoreUnusable(
                f"{self.name} keeps its texts as {encoding}, a shelf needs UTF8; nothing was made."
            )
        if schema is None:
            raise StoreUnusable(f"{self.name} has no such schema; nothing was made.")
        if others:
            raise StoreUnusable(
                f"{self.name} holds tables of something else, so no shelf was made there; name an"
                " empty database."
            )
        migrate(connection)


def server_at(url: str) -> Server:
    """A server by its address; raises ``WrongInput`` for one that cannot be used."""
    from sqlalchemy.engine import make_url
    from sqlalchemy.exc import ArgumentError

    try:
        address = make_url(url)
    except (ArgumentError, ValueError):
        # the address may hold a password, and so may the error that repeats it
        raise WrongInput("That address cannot be used as a shelf.") from None
    kind = address.get_backend_name()
    if kind == "sqlite":
        raise WrongInput("A shelf file is named by its path, or as sqlite:///path.")
    if address.drivername not in ("postgresql", "postgresql+psycopg"):
        raise WrongInput(
            "A shelf lies in a file or on a PostgreSQL server; its address begins with"
            " postgresql://."
        )
    _needs_driver()
    return Server(_engine(address), _called(address))


def _needs_driver() -> None:
    """Say what is missing where the server's driver is not installed."""
    try:
        import psycopg  # noqa: F401
    except ImportError as error:
        raise StoreUnusable(
            "A shelf on a server needs the 'server' extra; install it with"
            " 'pip install \"inventory[server]\"'."
        ) from error


def _called(address: URL) -> str:
    """A server as it is called in a sentence."""
    host = address.host or address.query.get("host") or "this machine"
    return f"The database {address.database or address.username or ''!r} on {host}"


def _engine(address: URL) -> Engine:
    """An engine whose connections live for one transaction, as on a file."""
    from sqlalchemy import create_engine, event
    from sqlalchemy.exc import ArgumentError
    from sqlalchemy.pool import NullPool

    try:
        engine = create_engine(
            address.set(drivername="postgresql+psycopg"),
            poolclass=NullPool,
            connect_args={
                "connect_timeout": round(opening.WAIT_SECONDS),
                "client_encoding": "utf8",
            },
        )
    except (ArgumentError, ValueError):
        raise WrongInput("That address cannot be used as a shelf.") from None
    event.listen(engine, "connect", _set_up)
    return engine


def _set_up(connection: Any, _record: Any) -> None:
    """Settings of a connection of the driver's: a bounded wait, and figures as SQLite has them."""
    connection.adapters.register_loader("numeric", _figures())
    connection.execute(f"SET lock_timeout = '{round(opening.WAIT_SECONDS * 1000)}ms'")
    connection.commit()


def _figures() -> Any:
    """A loader for sums: a whole number where it is one, else a float; never a ``Decimal``."""
    from psycopg.adapt import Loader

    class Figures(Loader):
        """Numbers of any size, from their text."""

        def load(self, data: Any) -> int | float:
            """One number."""
            text = bytes(data).decode()
            return int(text) if text.lstrip("-").isdigit() else float(text)

    return Figures


def _refuse_other_schema(name: str, version: int) -> None:
    """Let nobody write by the wrong plan: another bench may have upgraded it meanwhile."""
    if version > SCHEMA_VERSION:
        raise StoreUnusable(
            f"{name} was brought to schema {version} by a newer program, this one knows"
            f" {SCHEMA_VERSION}; nothing was changed."
        )
    if version < SCHEMA_VERSION:
        raise StoreUnusable(
            f"{name} is of an older schema ({version}, this program writes {SCHEMA_VERSION})"
            " and was not upgraded; open it again."
        )


def open_server(url: str, *, create: bool, to_fill: bool) -> Server:
    """The shelf on a server, its schema up to date.

    A missing one is made with ``create``, and with ``to_fill`` by the first write, if that
    succeeds. Raises ``StoreUnusable`` where there is none, or one of a newer program.
    """
    server = server_at(url)
    version = server.look()
    if version is None:
        if create:
            server.make()
        elif to_fill:
            return Server(server.engine, server.name, to_fill=True)
        else:
            raise StoreUnusable(f"{server.name} holds no shelf yet; log a part or load a file.")
    elif version < SCHEMA_VERSION:
        server.upgrade()
    else:
        _refuse_other_schema(server.name, version)
    return server
