"""Repairs: opening, showing, closing with readings that are judged, and what became of them."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import asdict, dataclass, replace
from typing import Any

from inventory.errors import Refused, WrongInput
from inventory.rules.closeout import CheckedReading, judge_closeout
from inventory.rules.places import PLACES
from inventory.stock.service import in_units
from inventory.store import jobs, pieces, service
from inventory.store.jobs import Job
from inventory.store.journal import Event, append, now
from inventory.store.shelf import Shelf
from inventory.store.sql import Connection

MICROWAVE_PATH = frozenset(
    {place.id for place in PLACES.values() if place.kind == "interlock"} | {"magnetron"}
)
"""Places whose work needs a leakage reading. Source: California 16 CCR 2743; 21 CFR 1030.10."""

MICROWAVE_PARTS = {"interlock_switch": "a door-interlock switch", "magnetron": "a magnetron"}
"""Parts that belong there even where nobody said the place. Source: as for the places."""

READINGS = {
    "leakage_mw_cm2": "Leakage 5 cm from the door, mW/cm²",
    "earth_ohm": "Earth, plug pin to bare metal, ohm",
    "insulation_mohm": "Insulation, live parts to metal, megohm",
    "line_current_a": "Line current at full power, A",
    "line_power_w": "Line power at full power, W",
    "output_w": "Output power, W",
    "touch_current_ma": "Touch current, mA",
    "protective_current_ma": "Protective-conductor current, mA",
}
"""Close-out readings with a limit, by the name they are kept under, and how to ask for them."""

OUTCOMES = ("kept-working", "came-back", "not-collected", "given-up")
"""What became of a repaired unit."""


@dataclass(frozen=True, slots=True)
class JobPage:
    """A job with all that belongs to it."""

    job: Job
    readings: tuple[dict[str, Any], ...]
    fitted: tuple[dict[str, Any], ...]
    held: tuple[dict[str, Any], ...]


def open_job(shelf: Shelf, job: Job, *, dry_run: bool = False) -> Job:
    """Open a repair; its number is given here."""
    if not (job.maker or job.model or job.kind):
        raise WrongInput("Say what unit it is: --maker, --model or --kind.")
    with shelf.write(dry_run=dry_run) as connection:
        number = jobs.add(connection, replace(job, id=0, opened_at=job.opened_at or now()))
        append(connection, [Event("job-opened", job_id=number)], bench=shelf.bench)
        return jobs.get(connection, number)


def job_page(shelf: Shelf, number: int) -> JobPage:
    """A job with its readings, what was fitted and what is held for it."""
    with shelf.read() as connection:
        return _page(connection, number)


def _page(connection: Connection, number: int) -> JobPage:
    """All of a job."""
    job = jobs.get(connection, number)
    return JobPage(
        job,
        tuple(jobs.readings(connection, number)),
        tuple(pieces.taken_by(connection, number)),
        tuple(pieces.held_by(connection, number)),
    )


def list_jobs(shelf: Shelf, *, all_jobs: bool = False) -> list[Job]:
    """Open jobs, or all of them."""
    with shelf.read() as connection:
        return jobs.where(connection, "1=1" if all_jobs else "closed_at IS NULL")


def record_readings(
    shelf: Shelf, number: int, readings: Mapping[str, Any], region: str, *, dry_run: bool = False
) -> tuple[CheckedReading, ...]:
    """Judge and keep close-out readings of an open job."""
    with shelf.write(dry_run=dry_run) as connection:
        job = jobs.get(connection, number)
        if job.closed_at is not None:
            raise Refused(f"Job {number} is closed already.")
        return _record(connection, job, readings, region)


def _record(
    connection: Connection, job: Job, readings: Mapping[str, Any], region: str
) -> tuple[CheckedReading, ...]:
    """Judge readings against plate and region and write them."""
    said = {reading_name(name): value for name, value in readings.items()}
    if len(said) < len(readings):
        raise WrongInput("A reading was given twice; say each one once.")
    checked = judge_closeout(said, job.plate, region)
    jobs.add_readings(
        connection,
        job.id,
        [
            {
                "name": one.name,
                "number": one.value,
                "unit": one.unit,
                "method": one.method,
                "within": one.ok,
                "sentence": one.sentence,
                "source": one.source,
            }
            for one in checked
        ],
    )
    return checked


def close_job(  # noqa: PLR0913 - one keyword for each thing a tech can say
    shelf: Shelf,
    number: int,
    readings: Mapping[str, Any],
    region: str,
    *,
    outcome: str | None = None,
    given_up: bool = False,
    note: str | None = None,
    dry_run: bool = False,
) -> tuple[JobPage, tuple[CheckedReading, ...]]:
    """Close a repair with its readings; one beyond its limit keeps the job open.

    Held pieces go back to the shelf. Work on door, interlocks or the microwave path needs a
    leakage reading before the unit goes out. Source: 21 CFR 1030.10(c); common practice.
    """
    with shelf.write(dry_run=dry_run) as connection:
        job = jobs.get(connection, number)
        if job.closed_at is not None:
            raise Refused(f"Job {number} is closed already.")
        checked = _record(connection, job, readings, region)
        if not given_up:
            _may_go_out(connection, number, jobs.readings(connection, number))
        events = [_released(row, number) for row in _release_all(connection, number)]
        closed = "given-up" if given_up else outcome
        if closed is not None and closed not in OUTCOMES:
            raise WrongInput(f"The outcome is one of {', '.join(OUTCOMES)}, not {closed!r}.")
        jobs.set_values(connection, number, closed_at=now(), outcome=closed, note=note or job.note)
        told = {"outcome": closed, "note_was": job.note}
        events.append(Event("job-closed", job_id=number, detail=told))
        append(connection, events, bench=shelf.bench)
        return _page(connection, number), checked


def reading_name(said: str) -> str:
    """The name of a reading; its beginning is enough where only one begins so.

    >>> reading_name("leakage"), reading_name("line"), reading_name("noise")
    ('leakage_mw_cm2', 'line', 'noise')
    """
    plain = said.strip().lower().replace("-", "_")
    meant = [name for name in READINGS if name.startswith(plain)]
    return meant[0] if len(meant) == 1 else said


def _may_go_out(connection: Connection, number: int, readings: list[dict[str, Any]]) -> None:
    """The latest reading of each kind must be within its limit, and leakage where it matters."""
    latest = {row["name"]: row for row in readings}
    beyond = [row for row in latest.values() if row["within"] is False]
    if beyond:
        raise Refused(
            f"Job {number} stays open: {beyond[0]['sentence'].rstrip('.')}."
            " Measure again, or close it with --given-up."
        )
    touched = _microwave_work(connection, number)
    if touched and "leakage_mw_cm2" not in latest:
        raise Refused(
            f"Job {number} stays open: {touched}, so the leakage must be measured"
            " first (--reading leakage=...)."
        )


def _microwave_work(connection: Connection, number: int) -> str | None:
    """What a job did at the door or the microwave path, in words; None: nothing."""
    places = sorted(pieces.places_worked_on(connection, number) & MICROWAVE_PATH)
    if places:
        return f"{places[0]} was worked on"
    fitted = {row["family"] for row in pieces.taken_by(connection, number)}
    return next(
        (f"{MICROWAVE_PARTS[one]} was fitted" for one in MICROWAVE_PARTS if one in fitted), None
    )


def _release_all(connection: Connection, number: int) -> list[dict[str, Any]]:
    """Let go of all that is held for a job."""
    from inventory.store import lots

    held = pieces.held_by(connection, number)
    for row in held:
        lots.change(connection, row["lot"], held=-row["pieces"])
    return held


def _released(row: Mapping[str, Any], number: int) -> Event:
    """The event of a hold that ends with its job."""
    return Event("released", lot_id=row["lot"], job_id=number, held=-row["pieces"])


def set_outcome(
    shelf: Shelf,
    number: int,
    outcome: str,
    *,
    failed_lot: int | None = None,
    dry_run: bool = False,
) -> Job:
    """Write down later what became of a repair, and which fitted piece failed again."""
    if outcome not in OUTCOMES:
        raise WrongInput(f"The outcome is one of {', '.join(OUTCOMES)}, not {outcome!r}.")
    with shelf.write(dry_run=dry_run) as connection:
        job = jobs.get(connection, number)
        if job.closed_at is None:
            raise Refused(f"Job {number} is still open; close it first.")
        jobs.set_values(connection, number, outcome=outcome)
        told = {"outcome": outcome, "was": job.outcome}
        events = [Event("job-outcome", job_id=number, detail=told)]
        if failed_lot is not None:
            events.append(_failed(connection, number, failed_lot))
        append(connection, events, bench=shelf.bench)
        return jobs.get(connection, number)


def _failed(connection: Connection, number: int, lot_id: int) -> Event:
    """The event of a fitted piece that failed in the customer's unit."""
    from inventory.bench.moves import fitted_from
    from inventory.store import lots

    lot = lots.get(connection, lot_id)
    if fitted_from(connection, lot_id, number) < 1:
        raise Refused(f"Nothing of lot {lot_id} was fitted on job {number}.")
    if not in_units(service.of_lot(connection, lot_id, number)).fitted:
        raise Refused(f"Every piece of lot {lot_id} on job {number} has failed already.")
    return Event("failed", lot_id=lot_id, part_id=lot.part_id, job_id=number)


def as_row(job: Job) -> dict[str, Any]:
    """A job as it goes to JSON."""
    return asdict(job)
