"""Making a new shelf and bringing an older one up to date, each in one transaction."""

from __future__ import annotations

import os
from pathlib import Path

from sqlalchemy.engine import Connection

from inventory.errors import StoreUnusable
from inventory.store import connection as opening
from inventory.store.release import SCHEMA_VERSION

_MIGRATIONS = Path(__file__).resolve().parent / "migrations"


def create(path: Path) -> None:
    """Build a shelf beside ``path`` and move it there when it is whole."""
    if not os.access(path.parent, os.W_OK):
        raise StoreUnusable(f"Cannot write in the folder {path.parent}; no shelf was made.")
    draft = path.with_name(f".{path.name}.{os.getpid()}.new")
    draft.unlink(missing_ok=True)
    try:
        _run(draft)
        opened = opening.engine_for(draft)
        opening.set_journal_mode(opened)
        opened.dispose()
        # another bench may have made it meanwhile: the first one stays
        os.link(draft, path)
    except FileExistsError:
        if path.stat().st_size == 0:
            draft.replace(path)
    except OSError as error:
        raise StoreUnusable(f"Cannot make a shelf at {path}: {error.strerror}.") from error
    finally:
        draft.unlink(missing_ok=True)


def upgrade(path: Path, version: int) -> None:
    """Bring a shelf of an older schema up to date, with a backup of it first."""
    from inventory.store.backup import backup_before_migration

    backup_before_migration(path, version)
    _run(path)


def _run(path: Path) -> None:
    """All missing migrations and the version they lead to, in one BEGIN IMMEDIATE."""
    engine = opening.engine_for(path).execution_options(sqlite_begin="IMMEDIATE")
    try:
        with engine.connect() as connection, connection.begin():
            migrate(connection)
            connection.exec_driver_sql(f"PRAGMA application_id={opening.APPLICATION_ID}")
            connection.exec_driver_sql(f"PRAGMA user_version={SCHEMA_VERSION}")
    finally:
        engine.dispose()


def migrate(connection: Connection) -> None:
    """Run Alembic's migrations to the newest on an open connection."""
    from alembic import command
    from alembic.config import Config

    config = Config()
    config.set_main_option("script_location", str(_MIGRATIONS).replace("%", "%%"))
    config.set_main_option("path_separator", "os")
    config.attributes["connection"] = connection
    command.upgrade(config, "head")
