"""The records every room of the house shares. All frozen; ``None`` means *not known*."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from enum import StrEnum
from typing import Any

Value = Any
"""A rating as it goes to JSON: a number, a text, a flag, a list or mapping of these, or None."""


@dataclass(frozen=True, slots=True)
class Mark:
    """One readable piece of a marking: ``text == marking[start:end]``."""

    text: str
    start: int
    end: int
    means: str  # plain words
    source: str  # the standard, table or practice behind the meaning


@dataclass(frozen=True, slots=True)
class Unread:
    """A piece no grammar knows; kept, never dropped."""

    text: str
    start: int
    end: int


@dataclass(frozen=True, slots=True)
class Candidate:
    """A repair that could be right; offered with its reason, never applied in silence."""

    text: str  # the marking as it would read
    reason: str
    ratings: Mapping[str, Value] = field(default_factory=dict)


@dataclass(frozen=True, slots=True)
class Reading:
    """What a marking says, what its standard assumes, and what could not be read."""

    text: str
    family: str
    ratings: Mapping[str, Value] = field(default_factory=dict)
    assumed: Mapping[str, Value] = field(default_factory=dict)
    assumed_from: Mapping[str, str] = field(default_factory=dict)  # rating -> source
    marks: tuple[Mark, ...] = ()
    unread: tuple[Unread, ...] = ()
    warnings: tuple[str, ...] = ()
    candidates: tuple[Candidate, ...] = ()
    others: tuple[str, ...] = ()  # other families it could be, best first


class Outcome(StrEnum):
    """What one rule says of one offered part."""

    MET = "met"
    NOTE = "note"  # worth saying, decides nothing
    ASK = "ask"  # unknown, or only a person can see
    REFUSED = "refused"


class Verdict(StrEnum):
    """What all rules together say; the worst outcome wins."""

    SAME = "same"
    FITS = "fits"
    ASK = "ask"
    REFUSED = "refused"


@dataclass(frozen=True, slots=True)
class Reason:
    """One rule's answer, in a sentence, with its source."""

    rule: str
    outcome: Outcome
    sentence: str
    source: str
    decides: str | None = None  # for ASK: the attribute whose value would decide
    effort: int = 5  # for ASK: 1 a look, 3 a caliper, 5 a bench test, 9 a data sheet
    of_wanted: bool = False  # for ASK: to be found on the failed part or in its place


@dataclass(frozen=True, slots=True)
class Part:
    """A part type: what is the same wherever it lies.

    ``ratings`` holds what was read and agreed, ``measured`` what a person measured on it;
    mechanical attributes (``body``, ``actuator``, ``tab_mm``, ``contact_form``, ...) are
    ratings like any other.
    """

    family: str
    marking: str = ""
    maker: str | None = None
    type_code: str | None = None
    id: int | None = None
    description: str | None = None
    ratings: Mapping[str, Value] = field(default_factory=dict)
    aliases: tuple[str, ...] = ()
    keep_at_least: int | None = None
    note: str | None = None


@dataclass(frozen=True, slots=True)
class Lot:
    """So many pieces of one part type with one origin, one tested state, in one bin."""

    id: int
    part_id: int
    on_hand: int
    held: int
    state: str
    bin: str | None
    origin: str  # "salvaged" or "new"
    source_unit: int | None = None
    price_cents: int | None = None
    supplier_no: str | None = None
    note: str | None = None
    logged_at: str | None = None  # UTC, ISO 8601
    # what the source unit's history does to the piece: "fuse-blown-by-monitor", ...
    history: str | None = None


@dataclass(frozen=True, slots=True)
class SourceUnit:
    """The scrapped appliance pieces were pulled from."""

    id: int
    label: str
    kind: str
    maker: str | None = None
    model: str | None = None
    revision: str | None = None
    serial: str | None = None
    why_scrapped: str | None = None
    arrived: str | None = None  # ISO date
    in_yard: bool = True
    note: str | None = None


@dataclass(frozen=True, slots=True)
class Edge:
    """A directed cross-reference: what the source says of two codes, or of a code and a unit."""

    from_code: str
    to_code: str
    kind: str
    source: str
    id: int | None = None
    place: str | None = None
    date: str | None = None  # ISO date of the source
    confidence: float | None = None  # 0 to 1; None: not stated
    quantity: int = 1
    serial_from: str | None = None
    serial_to: str | None = None
    note: str | None = None
    unit: str | None = None  # the unit a listed alternate holds for; wildcards as in lists
