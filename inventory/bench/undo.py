"""Taking the last write back: by counter-events in the journal, never by deletion.

What one command wrote is undone as one. A write that others have built on since is refused:
the pieces are elsewhere, the lot was tested again, the job is closed.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Callable, Sequence
from dataclasses import dataclass

from inventory.errors import NotFound, Refused
from inventory.records import Edge
from inventory.store import edges, jobs, journal, loaded, lots, merging, parts, units
from inventory.store.journal import Event, append
from inventory.store.pieces import held_for, on_order, out_by_job
from inventory.store.shelf import Shelf
from inventory.store.sql import Connection


@dataclass(frozen=True, slots=True)
class Undone:
    """What was taken back, newest first, and the counter-events that say so."""

    events: tuple[Event, ...]
    written: tuple[int, ...]

    @property
    def undone(self) -> tuple[int, ...]:
        """Numbers of the events that were taken back."""
        return tuple(event.seq or 0 for event in self.events)

    @property
    def sentence(self) -> str:
        """What was taken back, in words; of many events the first few."""
        told = [_told(event) for event in self.events[:_MOST_TOLD]]
        more = len(self.events) - len(told)
        return "; ".join(told) + (f"; and {more} more events" if more > 0 else "")


_MOST_TOLD = 3
"""Events that fit into a sentence."""


def _told(event: Event) -> str:
    """One event in words."""
    pieces = abs(event.quantity or event.held or event.ordered)
    words = [f"event {event.seq}, {event.kind}"]
    if pieces:
        words.append(f"{pieces} piece{'s' if pieces > 1 else ''}")
    if event.lot_id:
        words.append(f"lot {event.lot_id}")
    if event.job_id:
        words.append(f"job {event.job_id}")
    return ", ".join(words) + f" ({event.bench}, {str(event.at)[:16].replace('T', ' ')} UTC)"


def undo(shelf: Shelf, *, dry_run: bool = False) -> Undone:
    """Take back the last write of this bench that still stands.

    Raises ``NotFound`` where there is none, ``Refused`` where others have built on it.
    """
    with shelf.write(dry_run=dry_run) as connection:
        act = journal.last_act(connection, shelf.bench)
        if act is None:
            raise NotFound(f"There is nothing of {shelf.bench!r} to undo on this shelf.")
        taken_back = list(journal.events(connection, "act = :act", act=act))[::-1]
        for event in taken_back:
            _known(event)
        _counts(connection, taken_back)
        counters = [_counter(connection, event) for event in taken_back]
        written = append(connection, counters, bench=shelf.bench)
        _nothing_hangs_in_the_air(connection, taken_back)
        return Undone(tuple(taken_back), tuple(written))


def _known(event: Event) -> None:
    """Refuse events nobody has said how to take back."""
    if event.kind not in _COUNTS_ONLY and event.kind not in _BACK:
        raise Refused(f"Event {event.seq} ({event.kind}) cannot be undone.")


def _counts(connection: Connection, events: Sequence[Event]) -> None:
    """Take the pieces back, lot by lot, in one step each."""
    change: dict[int, list[int]] = defaultdict(lambda: [0, 0])
    for event in events:
        if event.lot_id is not None:
            change[event.lot_id][0] -= event.quantity
            change[event.lot_id][1] -= event.held
    for lot, (on_hand, held) in sorted(change.items()):
        if not (on_hand or held):
            continue
        try:
            lots.change(connection, lot, on_hand=on_hand, held=held)
        except Refused as error:
            raise Refused(f"Cannot undo event {events[-1].seq}: {error}") from error


def _counter(connection: Connection, event: Event) -> Event:
    """The counter-event; what the event set is set back."""
    put_back = _BACK.get(event.kind)
    detail = put_back(connection, event) if put_back else {}
    return Event(
        kind=f"undone-{event.kind}",
        lot_id=event.lot_id,
        part_id=event.part_id,
        job_id=event.job_id,
        source_unit_id=event.source_unit_id,
        place=event.place,
        quantity=-event.quantity,
        held=-event.held,
        ordered=-event.ordered,
        detail=detail,
        undoes=event.seq,
    )


def _nothing_hangs_in_the_air(connection: Connection, events: Sequence[Event]) -> None:
    """Refuse where a hold, a fitted piece or an order would remain that nobody has."""
    seq = events[-1].seq
    for lot, job in sorted({(e.lot_id or 0, e.job_id or 0) for e in events if e.lot_id}):
        held = held_for(connection, lot, job or None)
        if held < 0:
            raise Refused(f"Cannot undo event {seq}: what it held of lot {lot} was used since.")
        if held and job and jobs.get(connection, job).closed_at is not None:
            raise Refused(f"Cannot undo event {seq}: job {job} is closed.")
        if out_by_job(connection, lot).get(job, 0) < 0:
            raise Refused(f"Cannot undo event {seq}: the piece of lot {lot} was put back since.")
    for part in sorted({e.part_id for e in events if e.ordered and e.part_id}):
        if on_order(connection, parts.standing_for(connection, part)) < 0:
            raise Refused(f"Cannot undo event {seq}: what it ordered came in since.")


def _moved(connection: Connection, event: Event) -> dict[str, object]:
    """The lot goes back to the bin it was in."""
    lot = _lot_as_left(connection, event, "bin", event.detail["to"])
    lots.set_values(connection, lot, bin=event.detail["from"])
    return {"to": event.detail["from"]}


def _state(connection: Connection, event: Event) -> dict[str, object]:
    """The lot has the tested state it had before."""
    if "was" not in event.detail:
        return {}
    lot = _lot_as_left(connection, event, "state", event.detail["state"])
    lots.set_values(connection, lot, state=event.detail["was"])
    return {"state": event.detail["was"]}


def _tested(connection: Connection, event: Event) -> dict[str, object]:
    """The state before the test; the test itself is struck out, not removed."""
    jobs.strike_test(connection, int(event.detail["test"]), "taken back")
    return _state(connection, event)


def _lot_as_left(connection: Connection, event: Event, column: str, left: object) -> int:
    """The lot of an event, if it is still as the event left it."""
    lot = lots.get(connection, event.lot_id or 0)
    now = getattr(lot, column)
    if now != left:
        raise Refused(
            f"Cannot undo event {event.seq}: the {column} of lot {lot.id} is {now!r} since."
        )
    return lot.id


def _unit(connection: Connection, event: Event) -> dict[str, object]:
    """The unit is struck out, and its label free for the right one."""
    number = event.source_unit_id or 0
    there = lots.where(connection, "source_unit_id = :id AND on_hand > 0", id=number)
    if there:
        raise Refused(
            f"Cannot undo event {event.seq}: lot {there[0].id} from that unit is on the shelf."
        )
    label = str(event.detail["label"])
    units.strike_out(connection, number, f"{label} (undone {event.seq})")
    return {"label": label}


def _unit_gone(connection: Connection, event: Event) -> dict[str, object]:
    """The unit stands in the yard again."""
    units.set_in_yard(connection, event.source_unit_id or 0, in_yard=True)
    return {"label": event.detail["label"]}


def _job_opened(connection: Connection, event: Event) -> dict[str, object]:
    """The job is closed as opened by mistake."""
    number = event.job_id or 0
    if jobs.get(connection, number).closed_at is not None:
        raise Refused(f"Cannot undo event {event.seq}: job {number} is closed.")
    for column in ("held", "quantity"):
        if journal.total(connection, column, "job_id = :job", job=number):
            raise Refused(f"Cannot undo event {event.seq}: job {number} has pieces.")
    jobs.set_values(connection, number, closed_at=journal.now(), note="opened by mistake, undone")
    return {}


def _job_closed(connection: Connection, event: Event) -> dict[str, object]:
    """The job is open again."""
    values = {"note": event.detail["note_was"]} if "note_was" in event.detail else {}
    jobs.set_values(connection, event.job_id or 0, closed_at=None, outcome=None, **values)
    return {}


def _job_outcome(connection: Connection, event: Event) -> dict[str, object]:
    """The outcome is what it was."""
    jobs.set_values(connection, event.job_id or 0, outcome=event.detail["was"])
    return {"outcome": event.detail["was"]}


def _xref(connection: Connection, event: Event) -> dict[str, object]:
    """The cross-references leave the table; the counter-event keeps what they said."""
    found: list[Edge] = []
    for number in event.detail["edges"]:
        found += edges.where(connection, "id = :id", id=number)
    edges.remove(connection, [edge.id or 0 for edge in found])
    return {"said": [[edge.from_code, edge.kind, edge.to_code, edge.source] for edge in found]}


def _merged(connection: Connection, event: Event) -> dict[str, object]:
    """Two part types again, where all that came since can be told apart."""
    keep = event.part_id or 0
    into = parts.merged_into(connection, keep)
    if into is not None:
        raise Refused(
            f"Cannot undo event {event.seq}: part type {keep} was merged into {into} since."
        )
    since = _used_as_one(connection, event)
    if since is not None:
        raise Refused(f"Cannot undo event {event.seq}: {_told(since)}, came since.")
    merging.unmerge(connection, keep, event.detail["drop"], event.detail["moved"])
    return {"drop": event.detail["drop"]}


_AS_ONE = (
    "seq > :seq AND part_id = :keep AND undoes IS NULL"
    " AND kind IN ('logged', 'fitted', 'put-back', 'failed', 'split-off')"
    " AND NOT EXISTS (SELECT 1 FROM journal AS later WHERE later.undoes = journal.seq)"
)


def _used_as_one(connection: Connection, merged: Event) -> Event | None:
    """The first event since a merge that would stay with the wrong part type without it.

    A lot logged since may be of either; a moved lot's pieces were used under the kept number.
    """
    moved = set(merged.detail["moved"]["lot"])
    since = journal.events(connection, _AS_ONE, seq=merged.seq, keep=merged.part_id)
    return next((one for one in since if one.kind == "logged" or one.lot_id in moved), None)


def _loaded(connection: Connection, event: Event) -> dict[str, object]:
    """The file may be loaded again."""
    loaded.forget(connection, str(event.detail["digest"]))
    return {"file": event.detail["file"]}


def _measured(connection: Connection, event: Event) -> dict[str, object]:
    """The measured values leave the record; the event keeps what they said."""
    parts.take_back_measures(connection, event.detail["rows"])
    return {"values": event.detail["values"]}


def _level(connection: Connection, event: Event) -> dict[str, object]:
    """The level is what it was."""
    parts.set_keep_at_least(connection, event.part_id or 0, event.detail["was"])
    return {"keep_at_least": event.detail["was"]}


def _figure(connection: Connection, event: Event) -> dict[str, object]:
    """The figure is what it was."""
    units.set_setting(connection, event.detail["name"], event.detail["was"])
    return {"name": event.detail["name"], "value": event.detail["was"]}


_COUNTS_ONLY = frozenset(
    {
        "logged", "held", "released", "fitted", "scrapped", "counted", "split-off", "split-in",
        "ordered", "received", "lacked", "failed",
    }
)  # fmt: skip
"""Events that are taken back by their counts alone."""

_BACK: dict[str, Callable[[Connection, Event], dict[str, object]]] = {
    "moved": _moved,
    "tested": _tested,
    "put-back": _state,
    "unit-logged": _unit,
    "unit-gone": _unit_gone,
    "job-opened": _job_opened,
    "job-closed": _job_closed,
    "job-outcome": _job_outcome,
    "xref-added": _xref,
    "merged": _merged,
    "loaded": _loaded,
    "measured": _measured,
    "level-set": _level,
    "figure-set": _figure,
}
"""Events that set something, and how it is set back."""
