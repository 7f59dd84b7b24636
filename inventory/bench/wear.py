"""What keeps failing: fitted pieces, their age, and whether the evidence holds."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from datetime import datetime
from typing import TYPE_CHECKING

from inventory.bench.moments import moment
from inventory.errors import WrongInput
from inventory.records import Part
from inventory.stock.service import spans
from inventory.stock.wear import Fitted, Tally, warnings
from inventory.store import service
from inventory.store.service import ServiceEvent
from inventory.store.shelf import Shelf
from inventory.store.sql import Connection

if TYPE_CHECKING:
    from inventory.stock.wear_report import WearReport

DAYS_A_MONTH = 30.4375
"""Mean length of a month in the Gregorian calendar."""

GROUPS = ("part", "maker", "unit")
"""What fitted pieces can be grouped by: part type, maker, model of the source unit."""


def wear(shelf: Shelf, by: str = "part", *, as_of: str | None = None) -> WearReport:
    """Failures against their kind (the family), with those still alive counted in."""
    from inventory.stock.wear_report import what_wears

    with shelf.read() as connection:
        at = moment(as_of, connection)
        return what_wears(fitted(connection, by, at))


def fitted(
    connection: Connection, by: str, at: str, families: Sequence[str] | None = None
) -> list[Fitted]:
    """Pieces by group, with their ages in months; of all families, or of some."""
    if by not in GROUPS:
        raise WrongInput(f"Wear is shown by {', '.join(GROUPS)}, not by {by!r}.")
    name_of = _names(connection, by, families)
    failed: dict[tuple[str, str], list[float]] = {}
    alive: dict[tuple[str, str], list[float]] = {}
    for lot, part, family, broke, whole in _lives(service.events(connection, at, families), at):
        name = name_of(lot, part)
        if name is not None:
            failed.setdefault((name, family), []).extend(broke)
            alive.setdefault((name, family), []).extend(whole)
    return [
        Fitted(name, kind, tuple(failed[name, kind]), tuple(alive[name, kind]))
        for name, kind in sorted(failed)
        if failed[name, kind] or alive[name, kind]
    ]


Life = tuple[int, int, str, list[float], list[float]]
"""Lot, part type, family; months in service of the pieces that failed and of the others."""


def _lives(events: Iterable[ServiceEvent], at: str) -> Iterator[Life]:
    """How long the pieces of each lot served on each job."""
    out: dict[tuple[int, int, int, str], list[tuple[str, str, int]]] = {}
    for lot, job, kind, when, pieces, part, family in events:
        out.setdefault((lot, job, part, family), []).append((kind, when, pieces))
    for (lot, _, part, family), told in out.items():
        broke, whole = (
            [months_between(*span) for span in some_spans] for some_spans in spans(told, at)
        )
        yield lot, part, family, broke, whole


def _names(
    connection: Connection, by: str, families: Sequence[str] | None
) -> Callable[[int, int], str | None]:
    """What a piece of a lot and part type is counted under; None: under nothing."""
    if by == "unit":
        models = service.models_of_lots(connection)
        return lambda lot, _part: models.get(lot)
    names = service.names_of_parts(connection, families)
    which = 0 if by == "part" else 1
    return lambda _lot, part: names[part][which]


def months_between(start: str, end: str) -> float:
    """Months between two moments; never below zero."""
    days = (datetime.fromisoformat(end) - datetime.fromisoformat(start)).total_seconds() / 86_400
    return max(0.0, days / DAYS_A_MONTH)


def warnings_for(connection: Connection, offered: Iterable[Part]) -> dict[int, str]:
    """Sentences on part types that keep failing, by their number."""
    known = {part.id: part for part in offered if part.id is not None}
    families = sorted({part.family for part in known.values()})
    names = service.names_of_parts(connection, families)
    found = warnings(_tallies(connection, families, names))
    called = {number: names[number][0] for number in known if number in names}
    return {number: found[name] for number, name in called.items() if name in found}


def _tallies(
    connection: Connection, families: Sequence[str], names: Mapping[int, tuple[str, str | None]]
) -> Iterable[Tally]:
    """Counts of every part type of some families; those of one name together."""
    total: dict[tuple[str, str], Tally] = {}
    at = moment(None, connection)
    for part, family, pieces, days in service.tallies(connection, at, families):
        _count(total, Tally(names[part][0], family, pieces, 0, max(0.0, days) / DAYS_A_MONTH))
    failed = service.events(connection, at, families, only_failed=True)
    for _, part, family, broke, whole in _lives(failed, at):
        months = sum(broke) + sum(whole)
        pieces = len(broke) + len(whole)
        _count(total, Tally(names[part][0], family, pieces, len(broke), months))
    return total.values()


def _count(total: dict[tuple[str, str], Tally], tally: Tally) -> None:
    """Add a tally to those of the same name and kind."""
    key = tally.name, tally.kind
    was = total.get(key, Tally(*key, 0, 0, 0.0))
    total[key] = Tally(
        *key,
        was.pieces + tally.pieces,
        was.failures + tally.failures,
        was.exposure + tally.exposure,
    )
