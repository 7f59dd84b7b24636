"""The first schema: part types, lots, units, jobs, cross-references, the journal, the text index.

Frozen: what is changed in ``tables`` later comes as a migration of its own. A test compares the
two.
"""

from alembic import op
from sqlalchemy import (
    Boolean,
    CheckConstraint,
    Column,
    Float,
    ForeignKey,
    Index,
    Integer,
    MetaData,
    String,
    Table,
)

from inventory.store.migrations.guards import guard_journal

revision = "0001"
down_revision = None

SCHEMA = MetaData()
"""The tables as they were first released."""

Table(
    "bin",
    SCHEMA,
    Column("code", String(), primary_key=True),
    Column("note", String()),
)
Table(
    "edge",
    SCHEMA,
    Column("id", Integer(), primary_key=True),
    Column("from_code", String(), nullable=False),
    Column("from_key", String(), nullable=False, index=True),
    Column("to_code", String(), nullable=False),
    Column("to_key", String(), nullable=False, index=True),
    Column("kind", String(), nullable=False),
    Column("place", String()),
    Column("source", String(), nullable=False),
    Column("date", String()),
    Column("confidence", Float()),
    Column("quantity", Integer(), nullable=False),
    Column("serial_from", String()),
    Column("serial_to", String()),
    Column("note", String()),
    Column("unit", String()),
    Index("ix_edge_kind_place", "kind", "place"),
)
Table(
    "job",
    SCHEMA,
    Column("id", Integer(), primary_key=True),
    Column("opened_at", String(), nullable=False),
    Column("kind", String()),
    Column("maker", String()),
    Column("model", String()),
    Column("model_key", String(), index=True),
    Column("serial", String()),
    Column("customer", String()),
    Column("complaint", String()),
    Column("plate", String(), nullable=False),
    Column("closed_at", String()),
    Column("outcome", String()),
    Column("note", String()),
)
Table(
    "loaded_file",
    SCHEMA,
    Column("digest", String(), primary_key=True),
    Column("name", String(), nullable=False),
    Column("at", String(), nullable=False),
    Column("rows", Integer(), nullable=False),
)
Table(
    "part_type",
    SCHEMA,
    Column("id", Integer(), primary_key=True),
    Column("family", String(), nullable=False, index=True),
    Column("maker", String()),
    Column("type_code", String()),
    Column("marking", String(), nullable=False),
    Column("description", String()),
    Column("ratings", String(), nullable=False),
    Column("code_key", String(), index=True),
    Column("marking_key", String(), index=True),
    Column("keep_at_least", Integer()),
    Column("merged_into", Integer(), ForeignKey("part_type.id")),
    Column("note", String()),
    Column("created_at", String(), nullable=False),
)
Table(
    "search_part",
    SCHEMA,
    Column("text_id", Integer(), primary_key=True),
    Column("part_id", Integer(), primary_key=True),
    Index("ix_search_part_part_id", "part_id"),
    sqlite_with_rowid=False,
)
Table(
    "search_seed",
    SCHEMA,
    Column("seed", Integer(), primary_key=True),
    Column("key", String(), primary_key=True),
    Column("text_id", Integer(), primary_key=True),
    sqlite_with_rowid=False,
)
Table(
    "search_text",
    SCHEMA,
    Column("id", Integer(), primary_key=True),
    Column("text", String(), nullable=False),
)
Table(
    "setting",
    SCHEMA,
    Column("name", String(), primary_key=True),
    Column("value", String(), nullable=False),
)
Table(
    "source_unit",
    SCHEMA,
    Column("id", Integer(), primary_key=True),
    Column("label", String(), nullable=False, unique=True),
    Column("kind", String(), nullable=False),
    Column("maker", String()),
    Column("model", String()),
    Column("model_key", String(), index=True),
    Column("revision", String()),
    Column("serial", String()),
    Column("why_scrapped", String()),
    Column("arrived", String()),
    Column("in_yard", Boolean(), nullable=False),
    Column("note", String()),
)
Table(
    "alias",
    SCHEMA,
    Column("id", Integer(), primary_key=True),
    Column("part_id", Integer(), ForeignKey("part_type.id"), nullable=False, index=True),
    Column("code", String(), nullable=False),
    Column("code_key", String(), nullable=False, index=True),
    Column("source", String()),
)
Table(
    "job_reading",
    SCHEMA,
    Column("id", Integer(), primary_key=True),
    Column("job_id", Integer(), ForeignKey("job.id"), nullable=False, index=True),
    Column("at", String(), nullable=False),
    Column("name", String(), nullable=False),
    Column("number", Float()),
    Column("unit", String()),
    Column("method", String()),
    Column("within", Boolean()),
    Column("sentence", String()),
    Column("source", String()),
)
Table(
    "lot",
    SCHEMA,
    Column("id", Integer(), primary_key=True),
    Column("part_id", Integer(), ForeignKey("part_type.id"), nullable=False, index=True),
    Column("on_hand", Integer(), nullable=False),
    Column("held", Integer(), nullable=False),
    Column("state", String(), nullable=False),
    Column("bin", String(), ForeignKey("bin.code"), index=True),
    Column("origin", String(), nullable=False),
    Column("source_unit_id", Integer(), ForeignKey("source_unit.id"), index=True),
    Column("history", String()),
    Column("price_cents", Integer()),
    Column("supplier_no", String()),
    Column("note", String()),
    Column("logged_at", String(), nullable=False),
    CheckConstraint("on_hand >= 0", name="ck_lot_on_hand"),
    CheckConstraint("held >= 0 AND held <= on_hand", name="ck_lot_held"),
    CheckConstraint("origin IN ('salvaged', 'new')", name="ck_lot_origin"),
)
Table(
    "measured",
    SCHEMA,
    Column("id", Integer(), primary_key=True),
    Column("part_id", Integer(), ForeignKey("part_type.id"), nullable=False, index=True),
    Column("name", String(), nullable=False),
    Column("value", String(), nullable=False),
    Column("bench", String(), nullable=False),
    Column("at", String(), nullable=False),
)
Table(
    "rating",
    SCHEMA,
    Column("id", Integer(), primary_key=True),
    Column("part_id", Integer(), ForeignKey("part_type.id"), nullable=False, index=True),
    Column("name", String(), nullable=False),
    Column("number", Float()),
    Column("word", String()),
    Column("slot", Integer(), nullable=False),
    Index("ix_rating_name_number", "name", "number", "part_id"),
    Index("ix_rating_name_word", "name", "word", "part_id"),
)
Table(
    "bench_test",
    SCHEMA,
    Column("id", Integer(), primary_key=True),
    Column("lot_id", Integer(), ForeignKey("lot.id"), nullable=False, index=True),
    Column("at", String(), nullable=False),
    Column("bench", String(), nullable=False),
    Column("state", String(), nullable=False),
    Column("judged_by", String(), nullable=False),
    Column("instrument", String()),
    Column("note", String()),
)
Table(
    "journal",
    SCHEMA,
    Column("seq", Integer(), primary_key=True),
    Column("at", String(), nullable=False),
    Column("bench", String(), nullable=False),
    Column("kind", String(), nullable=False),
    Column("lot_id", Integer(), ForeignKey("lot.id"), index=True),
    Column("part_id", Integer(), ForeignKey("part_type.id")),
    Column("job_id", Integer(), ForeignKey("job.id"), index=True),
    Column("source_unit_id", Integer(), ForeignKey("source_unit.id")),
    Column("place", String()),
    Column("quantity", Integer(), nullable=False),
    Column("held", Integer(), nullable=False),
    Column("ordered", Integer(), nullable=False),
    Column("detail", String(), nullable=False),
    Column("undoes", Integer(), ForeignKey("journal.seq"), index=True),
    Column("act", Integer(), nullable=False, index=True),
    Column("hash", String(), nullable=False),
    Index("ix_journal_kind_at", "kind", "at"),
    Index("ix_journal_part_kind_at", "part_id", "kind", "at"),
)
Table(
    "bench_reading",
    SCHEMA,
    Column("id", Integer(), primary_key=True),
    Column("test_id", Integer(), ForeignKey("bench_test.id"), nullable=False, index=True),
    Column("name", String(), nullable=False),
    Column("number", Float()),
    Column("word", String()),
    Column("unit", String()),
    Column("sentence", String()),
    Column("source", String()),
)


def upgrade() -> None:
    """Make all tables, and the triggers that let the journal only grow."""
    connection = op.get_bind()
    SCHEMA.create_all(connection)
    guard_journal(connection)
