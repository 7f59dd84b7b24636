"""``salvage job``: a repair is opened, shown, closed with its readings."""

from functools import partial
from typing import Annotated, Any

import typer

from inventory.cli import options, prompts, show

app = typer.Typer(
    name="job",
    help="Open, show and close a repair with its close-out readings.",
    no_args_is_help=True,
    rich_markup_mode=None,
)

JobNumber = Annotated[int, typer.Argument(metavar="JOB", help="Number of the job.", min=1)]
Readings = Annotated[
    list[str] | None,
    typer.Option("--reading", "-r", help="e.g. leakage=0.4, earth=0.08; again for each reading."),
]
Region = Annotated[
    str, typer.Option(help="Whose limits hold: us, ca, au, de, uk, ...", envvar="SALVAGE_REGION")
]


def attach(main: typer.Typer) -> None:
    """Hang the group on the app."""
    main.add_typer(app, name="job")


@app.command("open")
def open_(
    unit: Annotated[str | None, typer.Argument(help='The unit, "MAKER MODEL".')] = None,
    maker: Annotated[str | None, typer.Option(help="Maker of the unit.")] = None,
    model: Annotated[str | None, typer.Option(help="Model on its plate.")] = None,
    kind: Annotated[str | None, typer.Option(help="Kind of appliance.")] = None,
    serial: Annotated[str | None, typer.Option(help="Serial number.")] = None,
    customer: Annotated[str | None, typer.Option(help="Whose it is.")] = None,
    complaint: Annotated[
        str | None, typer.Option("--complaint", "-c", help="What is wrong, in their words.")
    ] = None,
    plate: Annotated[
        list[str] | None, typer.Option("--plate", help="From the rating plate, e.g. current_a=6.2.")
    ] = None,
    dry_run: options.DryRun = False,
    json: options.Json = False,
    shelf: options.Shelf = None,
) -> None:
    """Open a repair.

    Example: salvage job open "Brenka BK-20M" --complaint "dead, fuse blown"
    """
    from inventory.bench import jobs
    from inventory.bench.place import write_on
    from inventory.bench.values import pairs
    from inventory.store.jobs import Job

    first, _, rest = (unit or "").strip().partition(" ")
    maker, model = maker or (first if rest else None), model or rest.strip() or first or None
    asked = Job(
        id=0,
        opened_at="",
        kind=kind,
        maker=maker,
        model=model,
        serial=serial,
        customer=customer,
        complaint=complaint,
        plate=pairs(plate or [], "current_a=6.2"),
    )
    new = partial(jobs.open_job, job=asked, dry_run=dry_run)
    job = write_on(shelf, new, dry_run=dry_run)
    if json:
        show.as_json(jobs.as_row(job))
    else:
        show.line(f"{'Would open' if dry_run else 'Opened'} job {job.id}: {_unit(job)}.")
        if not dry_run:
            show.note(f"Next: salvage find MARKING --job {job.id} --place PLACE")


def _unit(job: Any) -> str:
    """The unit of a job in words."""
    words = [word for word in (job.kind, job.maker, job.model) if word]
    return show.safe(" ".join(words) or "unit")


@app.command("list")
def list_(
    all_jobs: Annotated[bool, typer.Option("--all", help="Closed ones too.")] = False,
    json: options.Json = False,
    shelf: options.Shelf = None,
) -> None:
    """List open repairs.

    Example: salvage job list --all
    """
    from inventory.bench import jobs
    from inventory.bench.place import open_for

    found = jobs.list_jobs(open_for(shelf), all_jobs=all_jobs)
    if json:
        show.as_json([jobs.as_row(job) for job in found])
        return
    if not found:
        show.note("No jobs are open.")
        return
    rows = [(job.id, job.opened_at[:10], _unit(job), job.complaint, _outcome(job)) for job in found]
    show.table(("Job", "Opened", "Unit", "Complaint", "Outcome"), rows, right=(0,))


def _outcome(job: Any) -> str:
    """How a job stands, in a word."""
    return job.outcome or ("closed" if job.closed_at else "open")


@app.command("show")
def show_(number: JobNumber, json: options.Json = False, shelf: options.Shelf = None) -> None:
    """Show a repair: parts fitted and held, readings with their limits.

    Example: salvage job show 5
    """
    from inventory.bench import jobs
    from inventory.bench.place import open_for

    page = jobs.job_page(open_for(shelf), number)
    if json:
        show.as_json(_as_json(page))
        return
    _tell(page)


def _as_json(page: Any) -> dict[str, Any]:
    """A job's page as JSON."""
    from inventory.bench import jobs

    return {
        **jobs.as_row(page.job),
        "fitted": list(page.fitted),
        "held_lots": list(page.held),
        "readings": list(page.readings),
    }


def _tell(page: Any) -> None:
    """A job's page in lines."""
    job = page.job
    show.line(f"Job {job.id}: {_unit(job)}, opened {job.opened_at[:10]}, {_outcome(job)}.", "head")
    for label, value in (("Customer", job.customer), ("Complaint", job.complaint),
                         ("Serial", job.serial), ("Note", job.note)):  # fmt: skip
        if value:
            show.line(f"{label}: {show.safe(value)}")
    for word, rows in (("Fitted", page.fitted), ("Held", page.held)):
        for row in rows:
            name = row["marking"] or row["type"] or row["family"]
            spot = f" at {row['place']}" if row["place"] else ""
            show.line(f"{word}: {row['pieces']} of lot {row['lot']}, {show.safe(name)}{spot}")
    for row in page.readings:
        word = {True: "ok  ", False: "FAIL", None: "    "}[row["within"]]
        show.line(f"  {word} {show.safe(row['sentence'])} [{show.safe(row['source'])}]")


@app.command("reading")
def reading_(
    number: JobNumber,
    reading: Readings = None,
    region: Region = "us",
    dry_run: options.DryRun = False,
    json: options.Json = False,
    shelf: options.Shelf = None,
) -> None:
    """Record close-out readings, each held against its limit.

    Example: salvage job reading 5 --reading earth=0.08 --reading leakage=0.4
    """
    from inventory.bench import jobs
    from inventory.bench.place import open_for
    from inventory.bench.values import pairs
    from inventory.errors import WrongInput

    said = pairs(reading or [], "earth_ohm=0.08")
    if not said:
        raise WrongInput("Give at least one --reading, e.g. earth_ohm=0.08.")
    checked = jobs.record_readings(open_for(shelf), number, said, region, dry_run=dry_run)
    _tell_checks(checked, json=json)
    if dry_run and not json:
        show.line(f"Would write this down for job {number}.")


def _tell_checks(checked: Any, *, json: bool) -> None:
    """Judged readings."""
    if json:
        show.as_json(
            [
                {
                    "name": one.name,
                    "value": one.value,
                    "unit": one.unit,
                    "ok": one.ok,
                    "method": one.method,
                    "sentence": one.sentence,
                    "source": one.source,
                }
                for one in checked
            ]
        )
        return
    for one in checked:
        word = {True: "ok  ", False: "FAIL", None: "    "}[one.ok]
        show.line(f"  {word} {one.sentence} [{one.source}]")


@app.command("close")
def close(
    number: JobNumber,
    reading: Readings = None,
    region: Region = "us",
    outcome: Annotated[
        str | None, typer.Option(help="If known already: kept-working, not-collected, ...")
    ] = None,
    given_up: Annotated[
        bool, typer.Option("--given-up", help="Not repaired; it does not go back into use.")
    ] = False,
    note: Annotated[str | None, typer.Option(help="What was found and done.")] = None,
    dry_run: options.DryRun = False,
    json: options.Json = False,
    shelf: options.Shelf = None,
) -> None:
    """Close a repair; a reading beyond its limit keeps it open.

    At a terminal it asks for the readings that were not given.

    Example: salvage job close 5 --reading leakage=0.4 --reading earth=0.08
    """
    from inventory.bench import jobs
    from inventory.bench.place import open_for
    from inventory.bench.values import pairs

    opened = open_for(shelf)
    said = pairs(reading or [], "leakage=0.4")
    if not (said or given_up or json):
        said = _asked(jobs.job_page(opened, number))
    page, checked = jobs.close_job(
        opened,
        number,
        said,
        region,
        outcome=outcome,
        given_up=given_up,
        note=note,
        dry_run=dry_run,
    )
    if json:
        show.as_json(_as_json(page))
        return
    _tell_checks(checked, json=False)
    if not (page.readings or given_up):
        show.warn("no reading was taken; nothing proves this repair.")
    show.line(f"{'Would close' if dry_run else 'Closed'} job {number}: {_unit(page.job)}.")


ASKED = ("leakage_mw_cm2", "earth_ohm", "insulation_mohm", "line_current_a")
"""Readings a close-out asks for; any other goes in with ``--reading``."""


def _asked(page: Any) -> dict[str, Any]:
    """Readings typed at a terminal; an empty answer is a reading that was not taken."""
    from inventory.bench.jobs import READINGS
    from inventory.bench.values import value_of

    if page.job.closed_at or not prompts.can_ask():
        return {}
    show.note("Readings of the close-out; empty: not measured.")
    had = {row["name"] for row in page.readings}
    said = {name: prompts.ask(READINGS[name], "").strip() for name in ASKED if name not in had}
    return {name: value_of(text) for name, text in said.items() if text}


@app.command("outcome")
def outcome_(
    number: JobNumber,
    outcome: Annotated[str, typer.Argument(help="kept-working, came-back, not-collected.")],
    failed: Annotated[
        int | None, typer.Option("--failed", metavar="LOT", help="Lot of the piece that failed.")
    ] = None,
    dry_run: options.DryRun = False,
    shelf: options.Shelf = None,
) -> None:
    """Write down later what became of a repair.

    Example: salvage job outcome 5 came-back --failed 17
    """
    from inventory.bench import jobs
    from inventory.bench.place import open_for

    job = jobs.set_outcome(open_for(shelf), number, outcome, failed_lot=failed, dry_run=dry_run)
    show.line(f"{'Would say of job' if dry_run else 'Job'} {job.id}: {outcome}.")


@app.command("lacks")
def lacks(
    number: JobNumber,
    part: Annotated[int, typer.Option("--part", help="Part type that was not there.", min=1)],
    quantity: options.Quantity = 1,
    dry_run: options.DryRun = False,
    shelf: options.Shelf = None,
) -> None:
    """Write down a part that was needed and not there: it is demand.

    Example: salvage job lacks 5 --part 12
    """
    from inventory.bench.orders import lacked
    from inventory.bench.place import open_for

    lacked(open_for(shelf), part, quantity, job=number, dry_run=dry_run)
    would = "Would write down: job" if dry_run else "Job"
    show.line(f"{would} {number} lacked {quantity} of part type {part}.")
