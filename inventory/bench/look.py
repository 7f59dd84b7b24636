"""Looking: one part type, lot or unit; its journal; what lies in a bin."""

from __future__ import annotations

import re
from dataclasses import asdict, dataclass
from typing import Any

from inventory.bench import words
from inventory.errors import NotFound
from inventory.records import Edge, Lot, Part, SourceUnit
from inventory.store import edges, jobs, journal, lots, parts, units
from inventory.store.journal import Event
from inventory.store.shelf import Shelf


@dataclass(frozen=True, slots=True)
class PartPage:
    """A part type with its lots and cross-references."""

    part: Part
    lots: tuple[Lot, ...]
    edges: tuple[Edge, ...]


@dataclass(frozen=True, slots=True)
class LotPage:
    """A lot with its part type and bench tests."""

    lot: Lot
    part: Part
    unit: SourceUnit | None
    tests: tuple[dict[str, Any], ...]


@dataclass(frozen=True, slots=True)
class UnitPage:
    """A source unit with the lots pulled from it."""

    unit: SourceUnit
    lots: tuple[tuple[Lot, Part], ...]


def part_page(shelf: Shelf, number: int) -> PartPage:
    """One part type; of one that was merged, the page of what it became."""
    with shelf.read() as connection:
        number = parts.standing_for(connection, number)
        part = parts.get(connection, number)
        found: list[Edge] = []
        for code in dict.fromkeys((part.type_code, part.marking, *part.aliases)):
            if code:
                found += edges.from_code(connection, code) + edges.to_code(connection, code)
        there = lots.where(connection, "part_id = :id", id=number)
        return PartPage(part, tuple(there), tuple(dict.fromkeys(found)))


def lot_page(shelf: Shelf, number: int) -> LotPage:
    """One lot."""
    with shelf.read() as connection:
        lot = lots.get(connection, number)
        unit = (
            units.where(connection, "id = :id", id=lot.source_unit)[0] if lot.source_unit else None
        )
        tests = tuple(jobs.tests_of(connection, number))
        return LotPage(lot, parts.get(connection, lot.part_id), unit, tests)


def unit_page(shelf: Shelf, label: str) -> UnitPage:
    """One source unit by its label."""
    with shelf.read() as connection:
        try:
            unit = units.find(connection, label)
        except NotFound:
            words.known(label, units.labels(connection), "source unit")
            raise
        there = lots.where(connection, "source_unit_id = :id", id=unit.id)
        known = parts.many(connection, {lot.part_id for lot in there})
        return UnitPage(unit, tuple((lot, known[lot.part_id]) for lot in there))


def new_bin(shelf: Shelf, code: str) -> str | None:
    """A sentence where a bin was not there before; None where it was, or on an empty shelf.

    A bin that differs only in its noughts or signs is named: ``A2-5`` beside ``A2-05``.
    """
    code = code.strip()
    with shelf.read() as connection:
        known = lots.bins(connection)
    if not known or code in known:
        return None
    near = [other for other in known if _bare_bin(other) == _bare_bin(code)]
    return f"Bin {code} is new" + (f"; there is a bin {near[0]} too." if near else ".")


def _bare_bin(code: str) -> tuple[str, ...]:
    """Letters and numbers of a bin without noughts, signs and case."""
    return tuple(piece.lstrip("0") for piece in re.findall(r"[^\W0-9_]+|[0-9]+", code.casefold()))


def in_bin(shelf: Shelf, code: str) -> list[tuple[Lot, Part]]:
    """What lies in a bin; an unknown bin is answered with near ones."""
    with shelf.read() as connection:
        words.known(code, lots.bins(connection), "bin")
        there = lots.where(connection, "bin = :code AND on_hand > 0", code=code)
        known = parts.many(connection, {lot.part_id for lot in there})
        return [(lot, known[lot.part_id]) for lot in there]


def bins(shelf: Shelf) -> list[dict[str, Any]]:
    """All bins with how many lots and pieces lie in them."""
    with shelf.read() as connection:
        return lots.bins_with_counts(connection)


def history(shelf: Shelf, subject: str, number: int) -> list[Event]:
    """The journal of a ``lot``, a ``part``, a ``job`` or a source ``unit``, oldest first."""
    column = {"lot": "lot_id", "part": "part_id", "job": "job_id", "unit": "source_unit_id"}[
        subject
    ]
    with shelf.read() as connection:
        return list(journal.events(connection, f"{column} = :id", id=number))


def latest(shelf: Shelf, limit: int) -> list[Event]:
    """The last events of the whole shelf, oldest first."""
    with shelf.read() as connection:
        last = "seq > (SELECT MAX(seq) FROM journal) - :limit"
        return list(journal.events(connection, last, limit=limit))


def lots_of_family(shelf: Shelf, family: str) -> list[tuple[Part, Lot]]:
    """Lots of one family with pieces on hand, each with its part type."""
    with shelf.read() as connection:
        there = lots.where(
            connection,
            "on_hand > 0 AND part_id IN (SELECT id FROM part_type WHERE family = :family)",
            family=family,
        )
        known = parts.many(connection, {lot.part_id for lot in there})
        return [(known[lot.part_id], lot) for lot in there]


def lot_row(lot: Lot, part: Part) -> dict[str, Any]:
    """A lot with the words for its part type, as it goes to JSON."""
    return {
        "lot": lot.id,
        "part": part.id,
        "family": part.family,
        "maker": part.maker,
        "type": part.type_code,
        "marking": part.marking,
        "bin": lot.bin,
        "on_hand": lot.on_hand,
        "held": lot.held,
        "state": lot.state,
        "origin": lot.origin,
        "source_unit": lot.source_unit,
        "price_cents": lot.price_cents,
        "note": lot.note,
    }


def event_row(event: Event) -> dict[str, Any]:
    """An event as it goes to JSON."""
    return asdict(event)
