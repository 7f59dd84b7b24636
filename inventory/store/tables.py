"""The tables of a shelf, as SQLModel classes: the authority for the schema.

Reads and writes go through SQLAlchemy statements in the sibling modules, which do not import
this one, so that a search starts without building the models. A test compares the two.
Rows are flat (foreign keys, no relationships). Times are UTC ISO 8601 texts, money whole cents.
"""

from sqlalchemy import CheckConstraint, Index
from sqlmodel import Field, SQLModel


class PartTypeRow(SQLModel, table=True):
    """What is the same wherever it lies: printed marking and agreed ratings."""

    __tablename__ = "part_type"

    id: int | None = Field(default=None, primary_key=True)
    family: str = Field(index=True)
    maker: str | None = None
    type_code: str | None = None
    marking: str = ""
    description: str | None = None
    ratings: str = "{}"  # JSON, as agreed when it was logged
    code_key: str | None = Field(default=None, index=True)  # folded type code
    marking_key: str | None = Field(default=None, index=True)  # folded marking
    keep_at_least: int | None = None
    merged_into: int | None = Field(default=None, foreign_key="part_type.id")
    note: str | None = None
    created_at: str


class RatingRow(SQLModel, table=True):
    """One agreed rating, indexed by name and value so that a need finds its parts."""

    __tablename__ = "rating"
    __table_args__ = (
        Index("ix_rating_name_number", "name", "number", "part_id"),
        Index("ix_rating_name_word", "name", "word", "part_id"),
    )

    id: int | None = Field(default=None, primary_key=True)
    part_id: int = Field(foreign_key="part_type.id", index=True)
    name: str
    number: float | None = None
    word: str | None = None
    slot: int = 0  # which of several rating groups of one marking it belongs to


class AliasRow(SQLModel, table=True):
    """Another code the same part type goes by."""

    __tablename__ = "alias"

    id: int | None = Field(default=None, primary_key=True)
    part_id: int = Field(foreign_key="part_type.id", index=True)
    code: str
    code_key: str = Field(index=True)
    source: str | None = None


class MeasuredRow(SQLModel, table=True):
    """What a person measured on, or saw of, a part type: with who said so and when."""

    __tablename__ = "measured"

    id: int | None = Field(default=None, primary_key=True)
    part_id: int = Field(foreign_key="part_type.id", index=True)
    name: str
    value: str  # JSON
    bench: str
    at: str


class BinRow(SQLModel, table=True):
    """A place on the shelf."""

    __tablename__ = "bin"

    code: str = Field(primary_key=True)
    note: str | None = None


class SourceUnitRow(SQLModel, table=True):
    """A scrapped appliance that pieces are pulled from."""

    __tablename__ = "source_unit"

    id: int | None = Field(default=None, primary_key=True)
    label: str = Field(unique=True)
    kind: str
    maker: str | None = None
    model: str | None = None
    model_key: str | None = Field(default=None, index=True)
    revision: str | None = None
    serial: str | None = None
    why_scrapped: str | None = None
    arrived: str | None = None  # ISO date
    in_yard: bool = True
    note: str | None = None


class LotRow(SQLModel, table=True):
    """So many pieces of one part type, one origin, one tested state, one bin.

    ``on_hand`` and ``held`` are sums over the journal, kept here so that the last piece can be
    taken by one conditional UPDATE; ``salvage check`` compares them with the journal.
    """

    __tablename__ = "lot"
    __table_args__ = (
        CheckConstraint("on_hand >= 0", name="ck_lot_on_hand"),
        CheckConstraint("held >= 0 AND held <= on_hand", name="ck_lot_held"),
        CheckConstraint("origin IN ('salvaged', 'new')", name="ck_lot_origin"),
    )

    id: int | None = Field(default=None, primary_key=True)
    part_id: int = Field(foreign_key="part_type.id", index=True)
    on_hand: int = 0
    held: int = 0
    state: str = "untested"
    bin: str | None = Field(default=None, foreign_key="bin.code", index=True)
    origin: str = "salvaged"
    source_unit_id: int | None = Field(default=None, foreign_key="source_unit.id", index=True)
    history: str | None = None  # what happened to the piece in its unit
    price_cents: int | None = None
    supplier_no: str | None = None
    note: str | None = None
    logged_at: str


class BenchTestRow(SQLModel, table=True):
    """One sitting at the bench with one lot."""

    __tablename__ = "bench_test"

    id: int | None = Field(default=None, primary_key=True)
    lot_id: int = Field(foreign_key="lot.id", index=True)
    at: str
    bench: str
    state: str
    judged_by: str  # "limits" or "hand"
    instrument: str | None = None
    note: str | None = None


class BenchReadingRow(SQLModel, table=True):
    """One reading of a bench test, with the limit it was held against."""

    __tablename__ = "bench_reading"

    id: int | None = Field(default=None, primary_key=True)
    test_id: int = Field(foreign_key="bench_test.id", index=True)
    name: str
    number: float | None = None
    word: str | None = None
    unit: str | None = None
    sentence: str | None = None
    source: str | None = None


class EdgeRow(SQLModel, table=True):
    """A directed cross-reference between two codes, or a code and a unit."""

    __tablename__ = "edge"
    __table_args__ = (Index("ix_edge_kind_place", "kind", "place"),)

    id: int | None = Field(default=None, primary_key=True)
    from_code: str
    from_key: str = Field(index=True)
    to_code: str
    to_key: str = Field(index=True)
    kind: str
    place: str | None = None
    source: str
    date: str | None = None
    confidence: float | None = None
    quantity: int = 1
    serial_from: str | None = None
    serial_to: str | None = None
    note: str | None = None
    unit: str | None = None  # a listed alternate holds for this unit


class JobRow(SQLModel, table=True):
    """One repair of one customer's unit."""

    __tablename__ = "job"

    id: int | None = Field(default=None, primary_key=True)
    opened_at: str
    kind: str | None = None
    maker: str | None = None
    model: str | None = None
    model_key: str | None = Field(default=None, index=True)
    serial: str | None = None
    customer: str | None = None
    complaint: str | None = None
    plate: str = "{}"  # JSON: what the rating plate says
    closed_at: str | None = None
    outcome: str | None = None
    note: str | None = None


class JobReadingRow(SQLModel, table=True):
    """One close-out reading of a job, judged against its limit."""

    __tablename__ = "job_reading"

    id: int | None = Field(default=None, primary_key=True)
    job_id: int = Field(foreign_key="job.id", index=True)
    at: str
    name: str
    number: float | None = None
    unit: str | None = None
    method: str | None = None
    within: bool | None = None  # None: no limit could be applied
    sentence: str | None = None
    source: str | None = None


class SettingRow(SQLModel, table=True):
    """What the shop has set: service level, lead time, wage."""

    __tablename__ = "setting"

    name: str = Field(primary_key=True)
    value: str


class LoadedFileRow(SQLModel, table=True):
    """A file that was loaded, so that loading it again is noticed."""

    __tablename__ = "loaded_file"

    digest: str = Field(primary_key=True)  # SHA-256 of the bytes
    name: str
    at: str
    rows: int


class JournalRow(SQLModel, table=True):
    """One stock event. The table only grows: triggers refuse UPDATE and DELETE."""

    __tablename__ = "journal"
    __table_args__ = (
        Index("ix_journal_part_kind_at", "part_id", "kind", "at"),
        Index("ix_journal_kind_at", "kind", "at"),
    )

    seq: int | None = Field(default=None, primary_key=True)
    at: str  # UTC, never earlier than the event before
    bench: str
    kind: str
    lot_id: int | None = Field(default=None, foreign_key="lot.id", index=True)
    part_id: int | None = Field(default=None, foreign_key="part_type.id")
    job_id: int | None = Field(default=None, foreign_key="job.id", index=True)
    source_unit_id: int | None = Field(default=None, foreign_key="source_unit.id")
    place: str | None = None
    quantity: int = 0  # what it adds to on_hand
    held: int = 0  # what it adds to held
    ordered: int = 0  # what it adds to on order
    detail: str = "{}"  # JSON: what else is needed to undo or explain it
    undoes: int | None = Field(default=None, foreign_key="journal.seq", index=True)
    act: int = Field(index=True)  # the first event of the same write: undone as one
    hash: str  # SHA-256 over the event and the hash before it
