"""Stock events: hold, release, fit, put back, scrap, move, count."""

from __future__ import annotations

from dataclasses import dataclass, replace

from inventory.bench.ratings_typed import names_of
from inventory.errors import Refused, WrongInput
from inventory.families.sheet import sheet
from inventory.records import Lot, Outcome, Part, Reason
from inventory.rules.lots import judge_lot
from inventory.store import jobs, lots, parts
from inventory.store.journal import Event, append
from inventory.store.pieces import held_by, held_for, out_by_job, states_when_fitted
from inventory.store.shelf import Shelf
from inventory.store.sql import Connection


@dataclass(frozen=True, slots=True)
class Moved:
    """What came of a stock event: the lot as it is now, and what was written."""

    lot: Lot
    part: Part
    events: tuple[int, ...]
    other_lot: Lot | None = None  # where pieces went to a lot of their own
    place: str | None = None  # in the unit, where one is known


def _pieces(quantity: int) -> int:
    """A sensible number of pieces."""
    if not 0 < quantity < 10**9:
        raise WrongInput(f"The number of pieces must be at least 1, not {quantity}.")
    return quantity


def _done(
    connection: Connection, number: int, events: list[Event], bench: str, other: int | None = None
) -> Moved:
    """Write the events and look at the lot again."""
    lot = lots.get(connection, number)
    known = [replace(event, part_id=event.part_id or lot.part_id) for event in events]
    written = append(connection, known, bench=bench)
    return Moved(
        lot,
        parts.get(connection, lot.part_id),
        tuple(written),
        lots.get(connection, other) if other else None,
        events[-1].place,
    )


def _open_job(connection: Connection, job: int | None) -> None:
    """The job must be there and open."""
    if job is not None and jobs.get(connection, job).closed_at is not None:
        raise Refused(f"Job {job} is closed; open a new one.")


def offerable(
    connection: Connection, lot: Lot, *, untested: bool, place: str | None = None
) -> None:
    """Refuse a lot that must not go into a unit: failed, scrap, or not known to be good."""
    part = parts.get(connection, lot.part_id)
    reason = judge_lot(sheet(part.family), lot, place_name=place, part=part)
    if reason is None or reason.outcome in (Outcome.MET, Outcome.NOTE):
        return
    if reason.outcome is Outcome.ASK and untested:
        return
    said = reason.sentence.removeprefix(f"Lot {lot.id} ").rstrip(".")
    lead = f"Lot {lot.id}" if said != reason.sentence.rstrip(".") else f"Lot {lot.id}:"
    raise Refused(f"{lead} {said}.{_way_out(reason, part)}")


def _way_out(reason: Reason, part: Part) -> str:
    """What can be done about an open question; nothing where no record can answer it."""
    if reason.rule == "test-first":
        return " Test it first with 'salvage bench'."
    if reason.outcome is Outcome.ASK and reason.decides in names_of(part.family):
        answer = f"--part {part.id} --measured {reason.decides}=..."
        return f" Answer it with 'salvage find {answer}'."
    return ""


def hold(
    shelf: Shelf,
    lot: int,
    *,
    quantity: int = 1,
    job: int | None = None,
    place: str | None = None,
    dry_run: bool = False,
) -> Moved:
    """Keep pieces for a job; they stay in their bin and nobody else is offered them."""
    with shelf.write(dry_run=dry_run) as connection:
        _open_job(connection, job)
        offerable(connection, lots.get(connection, lot), untested=True, place=place)
        lots.change(connection, lot, held=_pieces(quantity))
        event = Event("held", lot_id=lot, job_id=job, place=place, held=quantity)
        return _done(connection, lot, [event], shelf.bench)


def release(
    shelf: Shelf, lot: int, *, quantity: int = 1, job: int | None = None, dry_run: bool = False
) -> Moved:
    """Let held pieces go again."""
    with shelf.write(dry_run=dry_run) as connection:
        if held_for(connection, lot, job) < _pieces(quantity):
            whom = f"job {job}" if job else "no job in particular"
            raise Refused(f"Lot {lot} holds fewer than {quantity} for {whom}.")
        lots.change(connection, lot, held=-quantity)
        event = Event("released", lot_id=lot, job_id=job, held=-quantity)
        return _done(connection, lot, [event], shelf.bench)


def fit(
    shelf: Shelf,
    lot: int,
    *,
    job: int | None = None,
    quantity: int = 1,
    place: str | None = None,
    untested: bool = False,
    dry_run: bool = False,
) -> Moved:
    """Take pieces off the shelf into a unit; a hold of the same job is closed by it.

    A held piece is first released, then fitted, in one transaction: taking it straight would
    count it twice. Where no place is said, the hold's place is meant.
    """
    with shelf.write(dry_run=dry_run) as connection:
        _open_job(connection, job)
        place = place or _place_held_for(connection, lot, job)
        offerable(connection, lots.get(connection, lot), untested=untested, place=place)
        freed = min(held_for(connection, lot, job), _pieces(quantity))
        events = []
        if freed:
            lots.change(connection, lot, held=-freed)
            events.append(Event("released", lot_id=lot, job_id=job, held=-freed))
        lots.change(connection, lot, on_hand=-quantity)
        detail = {"untested": True} if untested else {}
        events.append(
            Event("fitted", lot_id=lot, job_id=job, place=place, quantity=-quantity, detail=detail)
        )
        return _done(connection, lot, events, shelf.bench)


def _place_held_for(connection: Connection, lot: int, job: int | None) -> str | None:
    """The place a job's standing hold of a lot named."""
    rows = held_by(connection, job) if job else []
    return next((row["place"] for row in rows if row["lot"] == lot), None)


def fitted_from(connection: Connection, lot: int, job: int | None = None) -> int:
    """Pieces of a lot that are out in units, on one job or on all."""
    out = out_by_job(connection, lot)
    return out.get(job, 0) if job else sum(out.values())


def _whose(connection: Connection, lot: int, job: int | None, quantity: int) -> int | None:
    """The job that pieces come back from; where nobody says, the only one it can be."""
    out = out_by_job(connection, lot)
    if job is None and len(out) == 1:
        job = next(iter(out)) or None
    if out.get(job or 0, 0) >= quantity:
        return job
    several = [str(number) for number in out if number]
    if job is None and several:
        raise Refused(f"Pieces of lot {lot} are out on job {' and '.join(several)}; say --job.")
    raise Refused(f"Fewer than {quantity} of lot {lot} are out in a unit.")


def put_back(
    shelf: Shelf,
    lot: int,
    *,
    quantity: int = 1,
    job: int | None = None,
    never_powered: bool = False,
    dry_run: bool = False,
) -> Moved:
    """Bring fitted pieces back on the shelf.

    A piece that was powered is untested again, in a lot of its own, unless the lot is empty; so
    is one that was never powered where its lot was tested without it.
    """
    with shelf.write(dry_run=dry_run) as connection:
        job = _whose(connection, lot, job, _pieces(quantity))
        lots.change(connection, lot, on_hand=quantity)
        now_there = lots.get(connection, lot)
        as_it_was = never_powered and states_when_fitted(connection, lot, job) <= {now_there.state}
        told = {"untested": not as_it_was}
        back = Event("put-back", lot_id=lot, job_id=job, quantity=quantity, detail=told)
        if as_it_was or now_there.state == "untested":
            return _done(connection, lot, [back], shelf.bench)
        if now_there.on_hand == quantity:
            lots.set_values(connection, lot, state="untested")
            back = replace(back, detail={"state": "untested", "was": now_there.state})
            return _done(connection, lot, [back], shelf.bench)
        other, events = split_off(connection, now_there, quantity, state="untested")
        return _done(connection, lot, [back, *events], shelf.bench, other)


def split_off(
    connection: Connection, lot: Lot, quantity: int, **changes: object
) -> tuple[int, list[Event]]:
    """Move free pieces of a lot to a lot of their own, changed as said; returns its number."""
    number = parts.next_id(connection, "lot")
    lots.change(connection, lot.id, on_hand=-quantity)
    fresh = replace(lot, id=number, on_hand=quantity, held=0, **changes)  # type: ignore[arg-type]
    lots.add(connection, [fresh])
    told = {"from": lot.id, "state": fresh.state, "bin": fresh.bin}
    return number, [
        Event("split-off", lot_id=lot.id, quantity=-quantity, detail={"to": number}),
        Event("split-in", lot_id=number, quantity=quantity, detail=told),
    ]


def scrap(
    shelf: Shelf, lot: int, *, quantity: int = 1, reason: str | None = None, dry_run: bool = False
) -> Moved:
    """Throw pieces away, with the reason."""
    with shelf.write(dry_run=dry_run) as connection:
        lots.change(connection, lot, on_hand=-_pieces(quantity))
        event = Event("scrapped", lot_id=lot, quantity=-quantity, detail={"reason": reason})
        return _done(connection, lot, [event], shelf.bench)


def move(
    shelf: Shelf, lot: int, bin_code: str, *, quantity: int | None = None, dry_run: bool = False
) -> Moved:
    """Lay a lot, or some pieces of it, in another bin."""
    there = bin_code.strip()
    if not there:
        raise WrongInput("Say which bin it goes to.")
    with shelf.write(dry_run=dry_run) as connection:
        was = lots.get(connection, lot)
        lots.know_bins(connection, [there])
        if quantity is not None and _pieces(quantity) != was.on_hand:
            other, events = split_off(connection, was, quantity, bin=there)
            return _done(connection, lot, events, shelf.bench, other)
        lots.set_values(connection, lot, bin=there)
        event = Event("moved", lot_id=lot, detail={"from": was.bin, "to": there})
        return _done(connection, lot, [event], shelf.bench)


def count(shelf: Shelf, lot: int, counted: int, *, dry_run: bool = False) -> Moved:
    """A stock-take of one lot: the difference to the record is written, even when it is none."""
    if not 0 <= counted < 10**9:
        raise WrongInput(f"The count must be 0 or more, not {counted}.")
    with shelf.write(dry_run=dry_run) as connection:
        was = lots.get(connection, lot)
        if counted < was.held:
            raise Refused(
                f"{was.held} of lot {lot} are held; release them before counting {counted}."
            )
        lots.change(connection, lot, on_hand=counted - was.on_hand)
        event = Event(
            "counted",
            lot_id=lot,
            quantity=counted - was.on_hand,
            detail={"counted": counted, "record": was.on_hand},
        )
        return _done(connection, lot, [event], shelf.bench)
