"""The tables of the text index, beside the ones in ``tables``.

``search_text`` holds each different text once, ``search_part`` who carries it, and
``search_seed`` where it is found. No foreign keys: ``search_index.check`` compares them with
the part types, and ``search_index.rebuild`` makes them anew.
"""

from typing import Any, cast

from sqlalchemy import Index, Table
from sqlalchemy.engine import Connection
from sqlmodel import Field, SQLModel

_NO_ROWID: dict[str, Any] = {"sqlite_with_rowid": False}


class SearchTextRow(SQLModel, table=True):
    """One text as it was written, whoever carries it."""

    __tablename__ = "search_text"

    id: int | None = Field(default=None, primary_key=True)
    text: str


class SearchPartRow(SQLModel, table=True):
    """A part type carries a text; part 0 stands for codes of cross-references."""

    __tablename__ = "search_part"
    __table_args__ = (Index("ix_search_part_part_id", "part_id"), _NO_ROWID)

    text_id: int = Field(primary_key=True)
    part_id: int = Field(primary_key=True)


class SearchSeedRow(SQLModel, table=True):
    """A text is filed under a seed, in the order of its folded key (``matching.seeds``)."""

    __tablename__ = "search_seed"
    __table_args__ = _NO_ROWID

    seed: int = Field(primary_key=True)
    key: str = Field(primary_key=True)
    text_id: int = Field(primary_key=True)


def create_search_tables(connection: Connection) -> None:
    """Make the tables of the text index where they are not there yet."""
    rows = (SearchTextRow, SearchPartRow, SearchSeedRow)
    tables = [cast("Table", vars(row)["__table__"]) for row in rows]
    SQLModel.metadata.create_all(connection, tables=tables)
