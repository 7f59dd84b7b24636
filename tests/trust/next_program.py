"""The next program: one more migration than this one, so that upgrading can be tested.

It adds a column and rebuilds the table of part types, the most a migration does on SQLite.
"""

from __future__ import annotations

import shutil
from pathlib import Path

import pytest

from inventory.store import connection, contents, migrate, release, shelf

NEXT = release.SCHEMA_VERSION + 1

_MIGRATION = f'''"""Part types get a colour."""

import sqlalchemy
from alembic import op

revision = "{NEXT:04}"
down_revision = "{NEXT - 1:04}"


def upgrade() -> None:
    """Rebuild the table with the new column, and fill it."""
    with op.batch_alter_table("part_type", recreate="always") as table:
        table.add_column(sqlalchemy.Column("colour", sqlalchemy.String()))
    op.execute("UPDATE part_type SET colour = 'grey'")
'''  # noqa: S608


def write_migrations(folder: Path) -> Path:
    """A migrations folder with one more version."""
    there = folder / "migrations"
    shutil.copytree(
        Path(migrate.__file__).parent / "migrations",
        there,
        ignore=shutil.ignore_patterns("__pycache__"),
    )
    (there / "versions" / f"{NEXT:04}_colour.py").write_text(_MIGRATION)
    return there


def become(migrations: Path, patch: pytest.MonkeyPatch | None = None) -> None:
    """Let this process be the next program: a child that is going to end, or until undone."""
    patch = patch or pytest.MonkeyPatch()
    for module in (connection, contents, migrate, shelf):
        patch.setattr(module, "SCHEMA_VERSION", NEXT)
    patch.setattr(migrate, "_MIGRATIONS", migrations)
