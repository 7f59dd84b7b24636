"""Saying that two part types are one."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from inventory.errors import Refused, WrongInput
from inventory.records import Part
from inventory.store import merging, parts
from inventory.store.journal import Event, append
from inventory.store.shelf import Shelf
from inventory.store.sql import Connection


@dataclass(frozen=True, slots=True)
class Merged:
    """What came of it: the part type that stays, and how many lots it got."""

    part: Part
    lots: int
    event: int


def merge(shelf: Shelf, keep: int, drop: int, *, dry_run: bool = False) -> Merged:
    """Let part type ``drop`` be ``keep`` from now on; its lots, codes and measures move.

    Of two levels set by hand the higher one holds. Part types of two families are never one.
    """
    if keep == drop:
        raise WrongInput(f"Part type {keep} is itself already.")
    with shelf.write(dry_run=dry_run) as connection:
        kept, dropped = parts.get(connection, keep), parts.get(connection, drop)
        if kept.family != dropped.family:
            raise Refused(
                f"Part type {keep} is a {kept.family}, {drop} a {dropped.family}; they stay two."
            )
        for number in (keep, drop):
            _not_merged(connection, number)
        moved = merging.merge(connection, keep, drop)
        event = Event("merged", part_id=keep, detail={"drop": drop, "moved": moved})
        events = [event, *_level_kept(connection, kept, dropped)]
        written = append(connection, events, bench=shelf.bench)
        return Merged(parts.get(connection, keep), len(moved["lot"]), written[0])


def _level_kept(connection: Connection, kept: Part, dropped: Part) -> Iterator[Event]:
    """The level set by hand for the dropped one holds for both, unless that of the kept is higher.

    It would vanish from the report of what runs short without a word.
    """
    level, was = dropped.keep_at_least, kept.keep_at_least
    if kept.id is not None and level is not None and (was is None or was < level):
        parts.set_keep_at_least(connection, kept.id, level)
        yield Event("level-set", part_id=kept.id, detail={"keep_at_least": level, "was": was})


def _not_merged(connection: Connection, number: int) -> None:
    """A part type that became another one is no longer there to be merged."""
    into = parts.merged_into(connection, number)
    if into is not None:
        raise Refused(f"Part type {number} was merged into {into} already.")
