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
    MetaData,
    Table,
)

from inventory.store.migrations.columns import TEXT, WHOLE
from inventory.store.migrations.guards import guard_journal

revision = "0001"
down_revision = None

SCHEMA = MetaData()
"""The tables as they were first released."""

Table(
    "bin",
    SCHEMA,
    Column("code", TEXT, primary_key=True),
    Column("note", TEXT),
)
Table(
    "edge",
    SCHEMA,
    Column("id", WHOLE, primary_key=True),
    Column("from_code", TEXT, nullable=False),
    Column("from_key", TEXT, nullable=False, index=True),
    Column("to_code", TEXT, nullable=False),
    Column("to_key", TEXT, nullable=False, index=True),
    Column("kind", TEXT, nullable=False),
    Column("place", TEXT),
    Column("source", TEXT, nullable=False),
    Column("date", TEXT),
    Column("confidence", Float()),
    Column("quantity", WHOLE, nullable=False),
    Column("serial_from", TEXT),
    Column("serial_to", TEXT),
    Column("note", TEXT),
    Column("unit", TEXT),
    Index("ix_edge_kind_place", "kind", "place"),
)
Table(
    "job",
    SCHEMA,
    Column("id", WHOLE, primary_key=True),
    Column("opened_at", TEXT, nullable=False),
    Column("kind", TEXT),
    Column("maker", TEXT),
    Column("model", TEXT),
    Column("model_key", TEXT, index=True),
    Column("serial", TEXT),
    Column("customer", TEXT),
    Column("complaint", TEXT),
    Column("plate", TEXT, nullable=False),
    Column("closed_at", TEXT),
    Column("outcome", TEXT),
    Column("note", TEXT),
)
Table(
    "loaded_file",
    SCHEMA,
    Column("digest", TEXT, primary_key=True),
    Column("name", TEXT, nullable=False),
    Column("at", TEXT, nullable=False),
    Column("rows", WHOLE, nullable=False),
)
Table(
    "part_type",
    SCHEMA,
    Column("id", WHOLE, primary_key=True),
    Column("family", TEXT, nullable=False, index=True),
    Column("maker", TEXT),
    Column("type_code", TEXT),
    Column("marking", TEXT, nullable=False),
    Column("description", TEXT),
    Column("ratings", TEXT, nullable=False),
    Column("code_key", TEXT, index=True),
    Column("marking_key", TEXT, index=True),
    Column("keep_at_least", WHOLE),
    Column("merged_into", WHOLE, ForeignKey("part_type.id")),
    Column("note", TEXT),
    Column("created_at", TEXT, nullable=False),
)
Table(
    "search_part",
    SCHEMA,
    Column("text_id", WHOLE, primary_key=True),
    Column("part_id", WHOLE, primary_key=True),
    Index("ix_search_part_part_id", "part_id"),
    sqlite_with_rowid=False,
)
Table(
    "search_seed",
    SCHEMA,
    Column("seed", WHOLE, primary_key=True),
    Column("key", TEXT, primary_key=True),
    Column("text_id", WHOLE, primary_key=True),
    sqlite_with_rowid=False,
)
Table(
    "search_text",
    SCHEMA,
    Column("id", WHOLE, primary_key=True),
    Column("text", TEXT, nullable=False),
)
Table(
    "setting",
    SCHEMA,
    Column("name", TEXT, primary_key=True),
    Column("value", TEXT, nullable=False),
)
Table(
    "source_unit",
    SCHEMA,
    Column("id", WHOLE, primary_key=True),
    Column("label", TEXT, nullable=False, unique=True),
    Column("kind", TEXT, nullable=False),
    Column("maker", TEXT),
    Column("model", TEXT),
    Column("model_key", TEXT, index=True),
    Column("revision", TEXT),
    Column("serial", TEXT),
    Column("why_scrapped", TEXT),
    Column("arrived", TEXT),
    Column("in_yard", Boolean(), nullable=False),
    Column("note", TEXT),
)
Table(
    "alias",
    SCHEMA,
    Column("id", WHOLE, primary_key=True),
    Column("part_id", WHOLE, ForeignKey("part_type.id"), nullable=False, index=True),
    Column("code", TEXT, nullable=False),
    Column("code_key", TEXT, nullable=False, index=True),
    Column("source", TEXT),
)
Table(
    "job_reading",
    SCHEMA,
    Column("id", WHOLE, primary_key=True),
    Column("job_id", WHOLE, ForeignKey("job.id"), nullable=False, index=True),
    Column("at", TEXT, nullable=False),
    Column("name", TEXT, nullable=False),
    Column("number", Float()),
    Column("unit", TEXT),
    Column("method", TEXT),
    Column("within", Boolean()),
    Column("sentence", TEXT),
    Column("source", TEXT),
)
Table(
    "lot",
    SCHEMA,
    Column("id", WHOLE, primary_key=True),
    Column("part_id", WHOLE, ForeignKey("part_type.id"), nullable=False, index=True),
    Column("on_hand", WHOLE, nullable=False),
    Column("held", WHOLE, nullable=False),
    Column("state", TEXT, nullable=False),
    Column("bin", TEXT, ForeignKey("bin.code"), index=True),
    Column("origin", TEXT, nullable=False),
    Column("source_unit_id", WHOLE, ForeignKey("source_unit.id"), index=True),
    Column("history", TEXT),
    Column("price_cents", WHOLE),
    Column("supplier_no", TEXT),
    Column("note", TEXT),
    Column("logged_at", TEXT, nullable=False),
    CheckConstraint("on_hand >= 0", name="ck_lot_on_hand"),
    CheckConstraint("held >= 0 AND held <= on_hand", name="ck_lot_held"),
    CheckConstraint("origin IN ('salvaged', 'new')", name="ck_lot_origin"),
)
Table(
    "measured",
    SCHEMA,
    Column("id", WHOLE, primary_key=True),
    Column("part_id", WHOLE, ForeignKey("part_type.id"), nullable=False, index=True),
    Column("name", TEXT, nullable=False),
    Column("value", TEXT, nullable=False),
    Column("bench", TEXT, nullable=False),
    Column("at", TEXT, nullable=False),
)
Table(
    "rating",
    SCHEMA,
    Column("id", WHOLE, primary_key=True),
    Column("part_id", WHOLE, ForeignKey("part_type.id"), nullable=False, index=True),
    Column("name", TEXT, nullable=False),
    Column("number", Float()),
    Column("word", TEXT),
    Column("slot", WHOLE, nullable=False),
    Index("ix_rating_name_number", "name", "number", "part_id"),
    Index("ix_rating_name_word", "name", "word", "part_id"),
)
Table(
    "bench_test",
    SCHEMA,
    Column("id", WHOLE, primary_key=True),
    Column("lot_id", WHOLE, ForeignKey("lot.id"), nullable=False, index=True),
    Column("at", TEXT, nullable=False),
    Column("bench", TEXT, nullable=False),
    Column("state", TEXT, nullable=False),
    Column("judged_by", TEXT, nullable=False),
    Column("instrument", TEXT),
    Column("note", TEXT),
)
Table(
    "journal",
    SCHEMA,
    Column("seq", WHOLE, primary_key=True),
    Column("at", TEXT, nullable=False),
    Column("bench", TEXT, nullable=False),
    Column("kind", TEXT, nullable=False),
    Column("lot_id", WHOLE, ForeignKey("lot.id"), index=True),
    Column("part_id", WHOLE, ForeignKey("part_type.id")),
    Column("job_id", WHOLE, ForeignKey("job.id"), index=True),
    Column("source_unit_id", WHOLE, ForeignKey("source_unit.id")),
    Column("place", TEXT),
    Column("quantity", WHOLE, nullable=False),
    Column("held", WHOLE, nullable=False),
    Column("ordered", WHOLE, nullable=False),
    Column("detail", TEXT, nullable=False),
    Column("undoes", WHOLE, ForeignKey("journal.seq"), index=True),
    Column("act", WHOLE, nullable=False, index=True),
    Column("hash", TEXT, nullable=False),
    Index("ix_journal_kind_at", "kind", "at"),
    Index("ix_journal_part_kind_at", "part_id", "kind", "at"),
)
Table(
    "bench_reading",
    SCHEMA,
    Column("id", WHOLE, primary_key=True),
    Column("test_id", WHOLE, ForeignKey("bench_test.id"), nullable=False, index=True),
    Column("name", TEXT, nullable=False),
    Column("number", Float()),
    Column("word", TEXT),
    Column("unit", TEXT),
    Column("sentence", TEXT),
    Column("source", TEXT),
)


def upgrade() -> None:
    """Make all tables, and the triggers that let the journal only grow."""
    connection = op.get_bind()
    SCHEMA.create_all(connection)
    guard_journal(connection)
