"""``salvage demo``: an invented shop, and the main job walked through."""

import tempfile
from pathlib import Path
from typing import Annotated

import typer

from inventory.cli import options, show
from inventory.cli.waiting import waiting


def attach(app: typer.Typer) -> None:
    """Hang the command on the app."""
    app.command()(demo)


def demo(
    to: Annotated[
        Path | None, typer.Option("--to", help="Keep the demo shelf there to try things on.")
    ] = None,
    dry_run: options.DryRun = False,
) -> None:
    """Walk the main job on a demo shelf, an invented shop.

    Example: salvage demo --to demo.shelf
    """
    if to is not None:
        _make_at(to, dry_run=dry_run)
    with tempfile.TemporaryDirectory() as folder:
        _walk(Path(folder) / "demo.shelf")
    if to is not None:
        show.line()
        if dry_run:
            show.line(f"Would keep the shelf at {to}; nothing is left now.")
        else:
            show.line(f"A shelf as it was before stays at {to}. Try: salvage --shelf {to} low")


def _make_at(path: Path, *, dry_run: bool) -> None:
    """Make the shelf that is kept; the walk uses up a part and has a shelf of its own."""
    from inventory.bench.demo import make_demo

    with waiting("Trying the demo shelf" if dry_run else "Making the demo shelf"):
        make_demo(path, dry_run=dry_run)


def _walk(path: Path) -> None:
    """Read, find, hold, fit, low: the day of a tech in a few screens."""
    from inventory.bench import jobs, moves
    from inventory.bench.demo import AS_OF, FAILED, PLACE, UNIT, make_demo
    from inventory.bench.find import Query, find
    from inventory.cli.find_show import tell
    from inventory.cli.read import explain
    from inventory.markings.reader import read
    from inventory.store.jobs import Job
    from inventory.store.shelf import open_shelf

    with waiting("Making the demo shelf"):
        make_demo(path)
    shelf = open_shelf(str(path))
    _step("1. A customer's oven is dead when the door closes. The worn switch says:")
    explain(read(FAILED, "interlock_switch"))
    _step(f"2. What on the shelf can stand in for it, in the {UNIT}?")
    show.line(f'$ salvage find "{FAILED}" --unit "{UNIT}" --place {PLACE} --limit 3 --all', "dim")
    query = Query(FAILED, family="interlock_switch", unit=UNIT, place=PLACE, limit=3, show_all=True)
    found = find(shelf, query)
    tell(found, query)
    best = found.stand_ins[0].lots[0].lot
    _step(f"3. Hold it for the job and fit it (lot {best.id}).")
    job = jobs.open_job(shelf, Job(0, "", "microwave oven", "Brenka", "BK-20M", complaint="dead"))
    moves.hold(shelf, best.id, job=job.id, place=PLACE)
    moves.fit(shelf, best.id, job=job.id, place=PLACE)
    show.line(f"Fitted on job {job.id}; the journal has it.")
    _step("4. It goes out only with its readings: the leakage is one of them.")
    checked = jobs.record_readings(shelf, job.id, {"leakage_mw_cm2": 0.3, "earth_ohm": 0.08}, "us")
    for one in checked:
        show.line(f"  {'ok  ' if one.ok else 'FAIL'} {one.sentence} [{one.source}]")
    jobs.close_job(shelf, job.id, {}, "us")
    _step("5. What runs short now:")
    from inventory.bench.low import low
    from inventory.cli.stock import tell_low

    tell_low(low(shelf, as_of=AS_OF), limit=5)
    shelf.close()


def _step(text: str) -> None:
    """One step of the walk."""
    show.line()
    show.line(text, "head")
