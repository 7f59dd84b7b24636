"""What goes into a unit: its parts lists, and what earlier jobs fitted and kept working.

That a part fits a unit says where it goes, never what it may replace.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from inventory.matching.keys import bare
from inventory.matching.models import ModelFit, fit, in_range, nearest_series
from inventory.records import Edge


@dataclass(frozen=True, slots=True)
class Listed:
    """A code that a list names for a unit, with what is left to be looked at."""

    code: str
    edge: Edge
    doubts: tuple[str, ...] = ()


def listed_for(
    unit: str, edges: Iterable[Edge], *, place: str | None = None, serial: str | None = None
) -> list[Listed]:
    """Codes that lists name for a unit, at a place where one is given.

    For one place the longest pattern counts; where several are as long, all are shown with a
    doubt. Serial ranges and series sort out the rest.
    """
    met = [
        (edge, found)
        for edge in edges
        if edge.kind == "fits-unit" and (place is None or edge.place in {None, place})
        if (found := fit(edge.to_code, unit))
    ]
    ranged = _of_series(met, serial)
    kept = _closest([(edge, found) for edge, found in ranged if _may_be(edge, serial)])
    return sorted(
        (
            Listed(edge.from_code, edge, (*found.doubts, *_doubts(edge, kept, place, serial)))
            for edge, found in kept
        ),
        key=lambda one: (len(one.doubts), bare(one.code), one.edge.source),
    )


Met = list[tuple[Edge, ModelFit]]


def _may_be(edge: Edge, serial: str | None) -> bool:
    """False only where the serial number lies outside the range for sure."""
    return in_range(serial, edge.serial_from, edge.serial_to) is not False


def _of_series(met: Met, serial: str | None) -> Met:
    """Of edges that name only the beginning of a series, those of the unit's own series."""
    if serial is None:
        return met
    begun: dict[tuple[str | None, str], set[str]] = {}
    for edge, found in met:
        if edge.serial_from and not edge.serial_to:
            begun.setdefault((edge.place, found.pattern.text), set()).add(edge.serial_from)
    own = {key: nearest_series(starts, serial) for key, starts in begun.items()}
    return [
        (edge, found)
        for edge, found in met
        if not edge.serial_from
        or edge.serial_to
        or own[edge.place, found.pattern.text] in {None, edge.serial_from}
    ]


def _closest(met: Met) -> Met:
    """For each place the edges with the longest pattern; without a place, all."""
    most: dict[str, int] = {}
    for edge, found in met:
        if edge.place:
            most[edge.place] = max(most.get(edge.place, 0), found.pattern.fixed)
    return [
        (edge, found)
        for edge, found in met
        if not edge.place or found.pattern.fixed == most[edge.place]
    ]


def _doubts(edge: Edge, kept: Met, place: str | None, serial: str | None) -> Iterable[str]:
    """What is left open of one listed code."""
    if in_range(serial, edge.serial_from, edge.serial_to) is None:
        first, last = edge.serial_from or "the first", edge.serial_to or "the last"
        yield f"it holds for serial numbers from {first} to {last}"
    if place and not edge.place:
        yield "the list names no place"
    patterns = {found.pattern.text for other, found in kept if other.place == edge.place}
    if edge.place and len(patterns) > 1:
        yield f"several lists could be meant: {', '.join(sorted(patterns))}"
