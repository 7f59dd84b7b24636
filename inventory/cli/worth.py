"""``salvage worth``: what to pull from a unit, on the screen or as a list to take to it."""

from pathlib import Path
from typing import Annotated, Any

import typer

from inventory.cli import options, show
from inventory.cli.waiting import waiting


def attach(app: typer.Typer) -> None:
    """Hang the command on the app."""
    app.command()(worth)


def worth(
    unit: Annotated[str, typer.Argument(metavar="UNIT|MODEL", help="Label of a unit, or a model.")],
    to: Annotated[
        Path | None,
        typer.Option("--to", help="Write the list as a .csv that 'strip --pieces' takes over."),
    ] = None,
    as_of: options.AsOf = None,
    dry_run: options.DryRun = False,
    json: options.Json = False,
    shelf: options.Shelf = None,
) -> None:
    """Show what to pull from a unit, best value a minute first.

    Example: salvage worth U51
    """
    from inventory.bench.place import open_for
    from inventory.bench.pulling import write_list
    from inventory.bench.worth import worth as report_worth

    opened = open_for(shelf)
    with waiting("Adding up the journal"):
        found = report_worth(opened, unit, as_of=as_of)
    rows = write_list(opened, found.report, to, dry_run=dry_run) if to else None
    if json:
        _as_json(unit, found)
    else:
        _tell(found)
    if to:
        would = "Would write" if dry_run else "Wrote"
        show.note(
            f"{would} {rows} lines to {show.safe(to)}: fill in quantity and bin, 0 for what stays,"
            f" then salvage strip {show.safe(found.label or 'LABEL')} --pieces {show.safe(to)}."
        )


def _as_json(unit: str, found: Any) -> None:
    """The list as one JSON object."""
    from inventory.bench.worth import as_rows

    report = found.report
    show.as_json(
        {
            "unit": unit,
            "units_before": found.units_before,
            "hazards": list(report.hazards),
            "pull": as_rows(report.pulls),
            "skip": as_rows(report.skipped),
            "minutes": report.minutes,
            "gain_cents": round(report.gain),
        }
    )


def _tell(found: Any) -> None:
    """Hazards first, then what to pull, then what to leave and why."""
    report = found.report
    for hazard in report.hazards:
        show.caution(hazard)
    again = "unit" if found.units_before == 1 else "units"
    show.line(f"From {found.units_before} {again} of this model taken apart before:", "head")
    rows = [
        (
            f"[ ] {line.take} x {line.name}",
            f"{line.share_good:.0%}",
            f"{line.minutes:.0f}",
            show.money(round(line.per_minute)),
            line.why,
        )
        for line in report.pulls
    ]
    if rows:
        show.table(("Pull", "Good", "Minutes", "A minute", "Why"), rows, right=(1, 2, 3))
        gain = show.money(max(0, round(report.gain)))
        show.line(f"{report.minutes:.0f} minutes; worth {gain} over the wage.")
    else:
        show.line("Nothing is worth pulling.")
    for line in report.skipped:
        show.line(f"Leave {line.leave} x {line.name}: {line.why}")
