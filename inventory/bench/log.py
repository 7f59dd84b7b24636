"""Putting parts on the shelf: one lot, or a source unit with all that was pulled from it."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field, replace

from inventory.bench import words
from inventory.errors import NotFound, WrongInput
from inventory.families.sheet import families
from inventory.records import Lot, Part, Reading, SourceUnit, Value
from inventory.store import lots, parts, units
from inventory.store.journal import Event, append, now
from inventory.store.shelf import Shelf
from inventory.store.sql import Connection

MOST_PIECES = 1_000_000
"""More pieces than this in one lot is a slip of the finger, not a shelf."""


@dataclass(frozen=True, slots=True)
class Piece:
    """What a person says of one part or lot when it goes on the shelf."""

    marking: str = ""
    family: str | None = None  # None: recognised from the marking
    maker: str | None = None
    type_code: str | None = None
    description: str | None = None
    quantity: int = 1
    bin: str | None = None
    state: str = "untested"
    origin: str | None = None  # None: salvaged where there is a source unit, else new
    source_unit: str | None = None  # label or number
    price_cents: int | None = None
    supplier_no: str | None = None
    note: str | None = None
    history: str | None = None
    aliases: tuple[str, ...] = ()
    ratings: Mapping[str, Value] = field(default_factory=dict)  # agreed by the person


@dataclass(frozen=True, slots=True)
class Logged:
    """What came of logging one piece."""

    lot: Lot
    part: Part
    reading: Reading | None
    known_before: bool  # the part type was on the shelf already


Ready = tuple[Piece, Part, Reading | None]
"""A checked piece with its part type and how its marking was read."""


def understood(piece: Piece) -> tuple[Part, Reading | None]:
    """The part type a piece is of; what the person agreed wins over what was read."""
    from inventory.markings.reader import read, type_code

    if not piece.marking.strip() and not (piece.type_code or "").strip():
        raise WrongInput("A part needs a marking or a type.")
    for said in (piece.marking, piece.type_code, piece.maker, piece.description, piece.note,
                 piece.bin, *piece.aliases):  # fmt: skip
        words.storable(said or "", "part")
    asked = words.family(piece.family) if piece.family else None
    reading = read(piece.marking or piece.type_code or "", asked)
    family = asked or (reading.family if reading.family in families() else "other")
    ratings = {**reading.ratings, **piece.ratings} if reading.family == family else piece.ratings
    code = piece.type_code or type_code(reading)
    part = Part(
        family=family,
        marking=piece.marking,
        maker=piece.maker or None,
        type_code=code or None,
        description=piece.description or None,
        ratings={name: value for name, value in ratings.items() if value is not None},
        aliases=piece.aliases,
        note=None,
    )
    return part, reading


def checked(piece: Piece, part: Part) -> Piece:
    """The piece with its words checked against the family's sheet."""
    if not 0 < piece.quantity <= MOST_PIECES:
        raise WrongInput(f"The quantity must be 1 to {MOST_PIECES}, not {piece.quantity}.")
    origin = piece.origin or ("salvaged" if piece.source_unit else "new")
    return replace(
        piece,
        state=words.state(piece.state or "untested", part.family),
        origin=words.origin(origin),
        bin=(piece.bin or "").strip() or None,
    )


def log_pieces(shelf: Shelf, pieces: Sequence[Piece], *, dry_run: bool = False) -> list[Logged]:
    """Put several pieces on the shelf, all or none."""
    ready = []
    for piece in pieces:
        part, reading = understood(piece)
        ready.append((checked(piece, part), part, reading))
    with shelf.write(dry_run=dry_run) as connection:
        return write_pieces(connection, ready, shelf.bench)


def write_pieces(
    connection: Connection, ready: Sequence[Ready], bench: str, *, into: int | None = None
) -> list[Logged]:
    """Write checked pieces in an open write transaction.

    ``into`` is the part type they are known to be of.
    """
    if into:
        given = [(into, True)] * len(ready)
    else:
        given = parts.known_or_added(connection, [part for _, part, _ in ready])
    made = write_lots(connection, [piece for piece, _, _ in ready], given, bench)
    return [
        Logged(lot, replace(part, id=lot.part_id), reading, known_before)
        for lot, (_, part, reading), (_, known_before) in zip(made, ready, given, strict=True)
    ]


def write_lots(
    connection: Connection, pieces: Sequence[Piece], given: Sequence[tuple[int, bool]], bench: str
) -> list[Lot]:
    """Write the lots of checked pieces whose part types have their numbers."""
    unit_ids = _unit_ids(connection, {one.source_unit for one in pieces if one.source_unit})
    lots.know_bins(connection, [piece.bin for piece in pieces])
    first = parts.next_id(connection, "lot")
    moment = now()
    made = [
        _lot(number, part_id, piece, unit_ids, moment)
        for number, (piece, (part_id, _)) in enumerate(zip(pieces, given, strict=True), start=first)
    ]
    lots.add(connection, made)
    append(connection, [_logged(lot) for lot in made], bench=bench)
    return made


def _lot(number: int, part_id: int, piece: Piece, unit_ids: Mapping[str, int], moment: str) -> Lot:
    """The lot a piece becomes."""
    return Lot(
        id=number,
        part_id=part_id,
        on_hand=piece.quantity,
        held=0,
        state=piece.state,
        bin=piece.bin,
        origin=piece.origin or "new",
        source_unit=unit_ids.get(piece.source_unit or ""),
        price_cents=piece.price_cents,
        supplier_no=piece.supplier_no,
        note=piece.note,
        logged_at=moment,
        history=piece.history,
    )


def _logged(lot: Lot) -> Event:
    """The event of a lot that enters the shelf."""
    return Event(
        kind="logged",
        lot_id=lot.id,
        part_id=lot.part_id,
        source_unit_id=lot.source_unit,
        quantity=lot.on_hand,
        detail={"state": lot.state, "bin": lot.bin},
    )


def _unit_ids(connection: Connection, said: set[str]) -> dict[str, int]:
    """Numbers of source units; an unknown one is named, with near ones."""
    found = {}
    for label in said:
        try:
            found[label] = units.find(connection, label).id
        except NotFound:
            words.known(label, units.labels(connection), "source unit")
            raise
    return found


def strip_unit(
    shelf: Shelf, unit: SourceUnit, pieces: Sequence[Piece], *, dry_run: bool = False
) -> tuple[SourceUnit, list[Logged]]:
    """Log a source unit and the pieces pulled from it, all in one transaction.

    A unit already known by its label is stripped further; its record stays as it was, but it
    leaves the yard where the person says that it is gone.
    """
    from inventory.bench.strip import with_history

    ready = []
    for piece in pieces:
        part, reading = understood(piece)
        known = checked(replace(piece, source_unit=unit.label, origin="salvaged"), part)
        ready.append((with_history(known, part, unit), part, reading))
    with shelf.write(dry_run=dry_run) as connection:
        found = units.where(connection, "label = :label", label=unit.label)
        stored = found[0] if found else replace(unit, id=units.add(connection, unit))
        if not found:
            arrived = Event("unit-logged", source_unit_id=stored.id, detail={"label": stored.label})
            append(connection, [arrived], bench=shelf.bench)
        elif stored.in_yard and not unit.in_yard:
            stored = _gone(connection, stored, shelf.bench)
        logged = write_pieces(connection, ready, shelf.bench) if ready else []
    return stored, logged


def _gone(connection: Connection, unit: SourceUnit, bench: str) -> SourceUnit:
    """A unit leaves the yard: nothing more can be pulled from it."""
    units.set_in_yard(connection, unit.id, in_yard=False)
    left = Event("unit-gone", source_unit_id=unit.id, detail={"label": unit.label})
    append(connection, [left], bench=bench)
    return replace(unit, in_yard=False)
