"""Making a new shelf and bringing an older one up to date, each in one transaction."""

from __future__ import annotations

import os
from pathlib import Path

from sqlalchemy.engine import Connection

from inventory.errors import StoreUnusable
from inventory.store import connection as opening
from inventory.store.drafts import draft_of, settle, settle_new
from inventory.store.release import SCHEMA_VERSION

_MIGRATIONS = Path(__file__).resolve().parent / "migrations"


def create(path: Path) -> None:
    """Build a shelf beside ``path`` and move it there when it is whole."""
    if not os.access(path.parent, os.W_OK):
        raise StoreUnusable(f"Cannot write in the folder {path.parent}; no shelf was made.")
    try:
        with draft_of(path) as draft:
            _run(draft)
            opening.set_journal_mode(draft)
            # another bench may have made it meanwhile: the first one stays
            if not settle_new(draft, path) and path.stat().st_size == 0:
                settle(draft, path)
    except OSError as error:
        raise StoreUnusable(f"Cannot make a shelf at {path}: {error.strerror}.") from error


def upgrade(path: Path, version: int) -> None:
    """Bring a shelf of an older schema up to date, with a backup of it first.

    Two benches may come here at once: the second finds the work done and changes nothing.
    """
    from inventory.store.backup import backup_before_migration

    backup_before_migration(path, version)
    _run(path)


def _run(path: Path) -> None:
    """All missing migrations and the version they lead to, in one BEGIN IMMEDIATE."""
    engine = opening.engine_for(path, any_schema=True).execution_options(sqlite_begin="IMMEDIATE")
    try:
        with engine.connect() as connection:
            _let_tables_be_rebuilt(connection)
            with connection.begin():
                migrate(connection)
                connection.exec_driver_sql(f"PRAGMA application_id={opening.APPLICATION_ID}")
                connection.exec_driver_sql(f"PRAGMA user_version={SCHEMA_VERSION}")
                _every_reference_holds(connection, path)
    finally:
        engine.dispose()


def _let_tables_be_rebuilt(connection: Connection) -> None:
    """Foreign keys off: they would follow a table that is renamed, and cannot be set later on.

    Source: sqlite.org, ALTER TABLE, section 7.
    """
    driver = connection.connection.driver_connection
    if driver is not None:
        driver.execute("PRAGMA foreign_keys=OFF")


def _every_reference_holds(connection: Connection, path: Path) -> None:
    """Refuse an upgrade that would leave a row pointing nowhere; it is rolled back then."""
    lost = connection.exec_driver_sql("PRAGMA foreign_key_check").first()
    if lost is not None:
        raise StoreUnusable(
            f"{path} was not upgraded: a row of {lost[0]!r} points to a {lost[2]!r} that is not"
            " there. 'salvage check' with the program that wrote it says more."
        )


def version_table(connection: Connection) -> str:
    """Where Alembic keeps the schema version; on a server its name says whose tables these are."""
    return "alembic_version" if connection.dialect.name == "sqlite" else "shelf_schema"


def migrate(connection: Connection) -> None:
    """Run Alembic's migrations to the newest on an open connection."""
    from alembic import command
    from alembic.config import Config

    config = Config()
    config.set_main_option("script_location", str(_MIGRATIONS).replace("%", "%%"))
    config.set_main_option("path_separator", "os")
    config.attributes["connection"] = connection
    command.upgrade(config, "head")
