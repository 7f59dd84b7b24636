"""Finding what can stand in: from the words of a tech to judged stand-ins with their lots."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field, replace
from typing import Any

from inventory.bench import ratings_typed, words
from inventory.errors import WrongInput
from inventory.families.sheet import Caution, families
from inventory.markings.reader import read, type_code
from inventory.matching.candidates import find as search
from inventory.matching.keys import bare
from inventory.matching.rank import Found, StandIn
from inventory.records import Part, Reading, Value
from inventory.rules.cautions import cautions
from inventory.rules.places import place as place_of
from inventory.rules.verdict import Wanted
from inventory.store import service, units
from inventory.store.roads import ShelfRoads
from inventory.store.shelf import Shelf
from inventory.store.sql import Connection

MOST_SIGNS = 10_000
"""A longer query is no marking."""


@dataclass(frozen=True, slots=True)
class Query:
    """What a tech says of the part to be replaced and of where it sits."""

    marking: str = ""
    family: str | None = None
    maker: str | None = None
    type_code: str | None = None
    place: str | None = None
    unit: str | None = None
    serial: str | None = None
    needs: Mapping[str, Value] = field(default_factory=dict)
    measured: Mapping[str, Value] = field(default_factory=dict)  # of the offered part
    measured_part: int | None = None
    limit: int = 10
    show_all: bool = False
    near_bin: str | None = None


@dataclass(frozen=True, slots=True)
class Answer:
    """Stand-ins in order, with what was understood of the query."""

    wanted: Wanted
    reading: Reading | None
    found: Found
    cautions: tuple[Caution, ...] = ()
    wear: Mapping[int, str] = field(default_factory=dict)  # part type -> warning
    units: Mapping[int, str] = field(default_factory=dict)  # source unit -> label

    @property
    def stand_ins(self) -> tuple[StandIn, ...]:
        """What may be offered, best first."""
        return self.found.stand_ins


def known_place(name: str | None) -> str | None:
    """The place a word means; an unknown one is answered with the nearest."""
    return place_of(name).id if name else None


def find(shelf: Shelf, query: Query) -> Answer:
    """Search a shelf. Raises ``WrongInput`` for a query that says nothing."""
    with shelf.search() as connection:
        found = answer(connection, query)
        return replace(found, wear=_wear(connection, found.found))


def find_many(shelf: Shelf, queries: Iterable[Query]) -> Iterable[Answer]:
    """Search a shelf many times in one process, one moment of the shelf each."""
    for query in queries:
        with shelf.search() as connection:
            yield answer(connection, query)


def _wear(connection: Connection, found: Found) -> dict[int, str]:
    """Warnings on offered part types that keep failing.

    Three failures are the least a warning needs, so the arithmetic is only asked for then.
    """
    numbers = [one.part.id for one in found.stand_ins]
    if not service.failed_often(connection, numbers):
        return {}
    from inventory.bench.wear import warnings_for

    return warnings_for(connection, [one.part for one in found.stand_ins])


def answer(connection: Connection, query: Query) -> Answer:
    """The answer over an open read transaction."""
    roads = ShelfRoads(connection)
    wanted, reading = wanted_of(query, roads)
    found = search(wanted, roads, serial=query.serial, limit=query.limit, near_bin=query.near_bin)
    offered = {one.part.family for one in (*found.stand_ins, *found.not_here)}
    told = _cautions({wanted.family or "", *offered}, wanted.place)
    every = (*found.stand_ins, *found.refused, *found.not_here)
    came_from = (offer.lot.source_unit for one in every for offer in one.lots)
    return Answer(wanted, reading, found, told, units=units.labels_of(connection, came_from))


def wanted_of(query: Query, roads: ShelfRoads) -> tuple[Wanted, Reading | None]:
    """What is wanted: the query as read, with the shelf's own record of the code under it."""
    text = words.storable(query.marking, "marking") if len(query.marking) <= MOST_SIGNS else None
    if text is None:
        raise WrongInput(f"A text of more than {MOST_SIGNS:,} signs is no marking.")
    family = words.family(query.family) if query.family else None
    place = known_place(query.place)
    if not (text.strip() or query.type_code or query.needs or (query.unit and place)):
        raise WrongInput(
            "Say what to look for: a marking, --need name=value, or --unit and --place."
        )
    reading = _read(roads, text, family)
    place = place or _place_on_label(reading)
    known = _on_record(roads, query.type_code, text, reading)
    family = family or _family(known, reading, place, query)
    needs = ratings_typed.checked(query.needs, family)
    if needs and family is None and not (text.strip() or query.type_code):
        _say_which_family(needs)
    return (
        Wanted(
            family=family,
            marking=text,
            type_code=query.type_code or _code(reading, known, text),
            maker=query.maker or (known.maker if known else None),
            ratings={**(known.ratings if known else {}), **(_ratings(reading))},
            assumed=dict(reading.assumed) if reading else {},
            needs=needs,
            place=place,
            unit=query.unit,
            alternates=_on_label(reading),
        ),
        reading,
    )


def _read(roads: ShelfRoads, text: str, family: str | None) -> Reading | None:
    """The marking read as what the shelf has under it, letter by letter; else as it looks."""
    if not text.strip():
        return None
    recorded = [] if family else _under(roads, text)
    kinds = {part.family for part in recorded}
    if len(kinds) == 1:
        reading = read(text, kinds.pop())
        # ratings alone name no type: another family may be printed with them
        if type_code(reading) or any(_names(part, text) for part in recorded):
            return reading
    return read(text, family)


def _under(roads: ShelfRoads, text: str) -> list[Part]:
    """Part types that carry exactly this code or marking."""
    key = bare(text)
    return list(roads.parts(roads.by_codes([key]).get(key, ())).values()) if key else []


def _names(part: Part, text: str) -> bool:
    """True where the text is the part type's own code, or another code it goes by."""
    return bare(text) in {bare(code) for code in (part.type_code, *part.aliases) if code}


def _on_label(reading: Reading | None) -> frozenset[str]:
    """Codes that a label inside the unit lists for one place: ``TYPE NO. A OR B FOR ...``."""
    listed = reading.ratings.get("types") if reading else None
    return frozenset(map(str, listed)) if isinstance(listed, list) else frozenset()


def _place_on_label(reading: Reading | None) -> str | None:
    """The place a label names together with its codes, where it is one."""
    role = str(reading.ratings.get("role")) if reading and _on_label(reading) else ""
    return next((place for name, place in _ROLES.items() if role == name), None)


_ROLES = {"monitor": "monitor", "primary": "primary-interlock", "secondary": "secondary-interlock"}


def _say_which_family(needs: Mapping[str, Value]) -> None:
    """Needs alone name no family where several know them."""
    known = ratings_typed.families_of(needs)
    hint = f" {', '.join(needs)} is said of: {', '.join(known)}." if known else ""
    raise WrongInput(f"Say --family too: nothing else tells what kind of part it is.{hint}")


def _ratings(reading: Reading | None) -> Mapping[str, Value]:
    """What the marking says of the part, without its type code; a mere number says nothing."""
    if reading is None or reading.family not in families():
        return {}
    code = reading.ratings.get("type") if type_code(reading) else None
    return {
        name: value for name, value in reading.ratings.items() if name != "type" or value != code
    }


def _on_record(
    roads: ShelfRoads, code: str | None, text: str, reading: Reading | None
) -> Part | None:
    """The part type the query names letter by letter, if all under that code agree on its kind.

    A marking that is ratings and nothing else names no type: many types are printed with it.
    """
    read_code = type_code(reading) if reading else None
    named = text if read_code or not _ratings(reading) else None
    for one in (code, named, read_code):
        known = _under(roads, one or "")
        if known and len({part.family for part in known}) == 1:
            return _agreed(known)
    return None


def _agreed(known: list[Part]) -> Part:
    """What all records under one code say alike; what they differ in is not known."""
    first, *others = known
    alike = {
        name: value
        for name, value in first.ratings.items()
        if all(other.ratings.get(name) == value for other in others)
    }
    return replace(first, ratings=alike)


def _code(reading: Reading | None, known: Part | None, text: str) -> str | None:
    """The type code: as read, as on record, or the text itself where nothing else was read."""
    said = type_code(reading) if reading and _ratings(reading) else None
    if said:
        return said
    if known is not None and known.type_code:
        return known.type_code
    plain = text.strip()
    if plain and len(plain) <= 60 and not _ratings(reading):
        return plain
    return None


def _family(
    known: Part | None, reading: Reading | None, place: str | None, query: Query
) -> str | None:
    """The family: of the record, as read, or the only one that sits in the place."""
    if known is not None:
        return known.family
    if reading is not None and reading.family in families() and reading.family != "other":
        return reading.family
    if place is not None:
        possible = place_of(place).families
        return possible[0] if possible else None
    return _family_of_needs(query.needs)


def _family_of_needs(needs: Mapping[str, Value]) -> str | None:
    """The only family whose sheet knows all the needs, if there is one."""
    possible = ratings_typed.families_of(needs)
    return possible[0] if len(possible) == 1 else None


def _cautions(asked: set[str], place: str | None) -> tuple[Caution, ...]:
    """Cautions of the families in question and of the place, each once."""
    told: dict[Caution, None] = {}
    known: list[str | None] = [*sorted(asked & set(families()))]
    for family in known or [None]:
        told |= dict.fromkeys(cautions(family, "find", place))
    return tuple(told)


def measured(
    shelf: Shelf, part_id: int, values: Mapping[str, Value], *, dry_run: bool = False
) -> None:
    """Store what a tech measured on, or saw of, an offered part type."""
    from inventory.store import journal, parts

    with shelf.write(dry_run=dry_run) as connection:
        part_id = parts.standing_for(connection, part_id)
        part = parts.get(connection, part_id)
        said = ratings_typed.checked(values, part.family)
        rows = [
            parts.measure(connection, part_id, name, value, shelf.bench)
            for name, value in said.items()
        ]
        told = {"values": said, "rows": rows}
        event = journal.Event("measured", part_id=part_id, detail=told)
        journal.append(connection, [event], bench=shelf.bench)


def refined(query: Query, **changes: Any) -> Query:
    """The query with some of its words changed."""
    return replace(query, **changes)
