"""The triggers that let the journal only grow, in the words of each database."""

from __future__ import annotations

from sqlalchemy.engine import Connection

_SQLITE = (
    "CREATE TRIGGER journal_keeps_its_rows BEFORE DELETE ON journal"
    " BEGIN SELECT RAISE(ABORT, 'the journal only grows'); END",
    "CREATE TRIGGER journal_keeps_its_words BEFORE UPDATE ON journal"
    " BEGIN SELECT RAISE(ABORT, 'the journal only grows'); END",
)
_POSTGRESQL = (
    # a dump may name the part type that another became before its own row
    "ALTER TABLE part_type ALTER CONSTRAINT part_type_merged_into_fkey DEFERRABLE",
    "CREATE FUNCTION journal_only_grows() RETURNS trigger LANGUAGE plpgsql AS"
    " $$ BEGIN RAISE EXCEPTION 'the journal only grows'"
    " USING ERRCODE = 'integrity_constraint_violation'; END $$",
    "CREATE TRIGGER journal_keeps_its_rows BEFORE UPDATE OR DELETE ON journal"
    " FOR EACH ROW EXECUTE FUNCTION journal_only_grows()",
    "CREATE TRIGGER journal_is_never_emptied BEFORE TRUNCATE ON journal"
    " FOR EACH STATEMENT EXECUTE FUNCTION journal_only_grows()",
)


def guard_journal(connection: Connection) -> None:
    """Make UPDATE and DELETE on the journal fail, whoever asks."""
    words = _POSTGRESQL if connection.dialect.name == "postgresql" else _SQLITE
    for statement in words:
        connection.exec_driver_sql(statement)
