"""The first schema: part types, lots, units, jobs, cross-references and the journal."""

from alembic import op
from sqlmodel import SQLModel

from inventory.store import search_tables as _search_tables  # noqa: F401
from inventory.store import tables as _tables  # noqa: F401
from inventory.store.migrations.guards import guard_journal

revision = "0001"
down_revision = None


def upgrade() -> None:
    """Make all tables, and the triggers that let the journal only grow."""
    connection = op.get_bind()
    SQLModel.metadata.create_all(connection)
    guard_journal(connection)
