"""What keeps failing: fitted pieces, their age, and whether the evidence holds."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from datetime import datetime
from typing import Any

from sqlalchemy.engine import Connection

from inventory.bench.moments import moment
from inventory.errors import WrongInput
from inventory.records import Part
from inventory.stock.wear_report import Fitted, WearReport, what_wears
from inventory.store import sums
from inventory.store.shelf import Shelf

DAYS_A_MONTH = 30.4375
"""Mean length of a month in the Gregorian calendar."""

GROUPS: dict[str, Callable[[Mapping[str, Any]], str | None]] = {
    "part": lambda life: life["type_code"] or life["marking"] or f"part type {life['part_id']}",
    "maker": lambda life: life["maker"],
    "unit": lambda life: (
        " ".join(filter(None, (life["unit_maker"], life["unit_model"])))
        if life["unit_model"]
        else None
    ),
}
"""What fitted pieces can be grouped by: part type, maker, model of the source unit."""


def wear(shelf: Shelf, by: str = "part", *, as_of: str | None = None) -> WearReport:
    """Failures against their kind (the family), with those still alive counted in."""
    at = moment(as_of)
    with shelf.read() as connection:
        return what_wears(fitted(connection, by, at))


def fitted(connection: Connection, by: str, at: str) -> list[Fitted]:
    """Pieces by group, with their ages in months."""
    if by not in GROUPS:
        raise WrongInput(f"Wear is shown by {', '.join(GROUPS)}, not by {by!r}.")
    failed: dict[tuple[str, str], list[float]] = {}
    alive: dict[tuple[str, str], list[float]] = {}
    for life in sums.lives(connection, at):
        name = GROUPS[by](life)
        if name is None:
            continue
        end = life["failed"] or life["back"] or at
        age = months_between(life["fitted"], end)
        into = failed if life["failed"] else alive
        first = 1 if life["failed"] else int(life["pieces"])
        into.setdefault((name, life["family"]), []).extend([age] * first)
        if life["failed"] and life["pieces"] > 1:
            alive.setdefault((name, life["family"]), []).extend([age] * (life["pieces"] - 1))
    return [
        Fitted(name, kind, tuple(failed.get((name, kind), ())), tuple(alive.get((name, kind), ())))
        for name, kind in sorted({*failed, *alive})
    ]


def months_between(start: str, end: str) -> float:
    """Months between two moments; never below zero."""
    days = (datetime.fromisoformat(end) - datetime.fromisoformat(start)).total_seconds() / 86_400
    return max(0.0, days / DAYS_A_MONTH)


def warnings_for(connection: Connection, offered: Iterable[Part]) -> dict[str, str]:
    """Sentences on part types that keep failing, by their code or marking."""
    names = {part.type_code or part.marking for part in offered}
    found = what_wears(fitted(connection, "part", moment(None))).warnings()
    return {name: sentence for name, sentence in found.items() if name in names}
