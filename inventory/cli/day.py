"""``salvage day``: the shop's morning on one page, in the terminal or as HTML."""

import sys
from pathlib import Path
from typing import Annotated, Any

import typer

from inventory.cli import options, show
from inventory.cli.waiting import waiting

SHOWN = 12
"""Lines of each list in the terminal."""


def attach(app: typer.Typer) -> None:
    """Hang the command on the app."""
    app.command()(day)


def day(
    html: Annotated[
        Path | None, typer.Option("--html", metavar="FILE", help="Write the page, self-contained.")
    ] = None,
    as_of: options.AsOf = None,
    dry_run: options.DryRun = False,
    json: options.Json = False,
    shelf: options.Shelf = None,
) -> None:
    """Show the shop's morning on one page, or write it as HTML.

    Example: salvage day --html morning.html
    """
    from inventory.bench.day import day as gather
    from inventory.bench.place import open_for

    with waiting("Adding up the journal"):
        found = gather(open_for(shelf), as_of=as_of)
    if html is not None:
        from inventory.cli.page import write_page

        write_page(found, html, dry_run=dry_run)
        show.line(f"{'Would write' if dry_run else 'Wrote'} {show.safe(html)}.")
    elif json:
        show.as_json(_as_json(found))
    else:
        _tell(found)


def _as_json(found: Any) -> dict[str, Any]:
    """The morning as JSON."""
    return {
        "at": found.at,
        "short": [
            {"part": line.part_id, "name": line.name, "missing": line.missing,
             "do": [action.sentence for action in line.actions]}
            for line in found.short
        ],
        "old_holds": list(found.holds),
        "untested": dict(found.untested),
        "jobs": list(found.jobs),
        "failing": [line.sentence() for line in found.failing],
        "value_cents": dict(found.value),
        "used": dict(found.used),
    }  # fmt: skip


def _head(title: str) -> None:
    """A heading with air above."""
    show.line()
    show.line(title, "head")


def _tell(found: Any) -> None:
    """The morning in the terminal."""
    from inventory.stock.chart import bars, spark

    plain = "utf" not in (sys.stdout.encoding or "").lower()
    room = min(78, show.width() - 2)
    show.line(f"The shelf on {found.at[:10]}", "head")
    if found.used:
        used = spark([pieces for _, pieces in found.used], ascii_only=plain)
        show.line(f"Pieces used a month, to {found.used[-1][0]}: {used} (last {found.used[-1][1]})")
    _head(f"Runs short: {len(found.short)} part types")
    for line in found.short[:SHOWN]:
        todo = "; ".join(action.sentence.rstrip(".") for action in line.actions)
        show.line(f"  {line.name}: {line.position} there, keep {line.keep_at_least}: {todo}")
    _more(found.short)
    _head(f"Held for more than a week: {len(found.holds)}")
    for hold in found.holds[:SHOWN]:
        name = hold["marking"] or hold["type_code"] or hold["family"]
        whom = f"job {hold['job']}" if hold["job"] else "no job"
        show.line(
            f"  lot {hold['lot']} {name}: {hold['pieces']} for {whom} since {hold['since'][:10]}"
        )
    _head(f"Jobs open: {len(found.jobs)}")
    for job in found.jobs[:SHOWN]:
        unit = " ".join(filter(None, (job["kind"], job["maker"], job["model"])))
        show.line(
            f"  {job['job']} since {job['opened_at'][:10]}: {unit}, {job['complaint'] or '-'}"
        )
    _more(found.jobs)
    _head("Fails more than its kind")
    for line in found.failing[:SHOWN]:
        show.line(f"  ! {line.sentence()}")
    if not found.failing:
        show.line("  nothing, as far as the journal can tell")
    _head("Untested pile, pieces")
    for row in bars(found.untested[:SHOWN], width=room, ascii_only=plain):
        show.line(f"  {row}")
    _head("Good stock, value at the last known price")
    money = [(family, cents / 100) for family, cents in found.value[:SHOWN]]
    for row in bars(money, width=room, ascii_only=plain):
        show.line(f"  {row}")


def _more(rows: Any) -> None:
    """How many are not shown."""
    if len(rows) > SHOWN:
        show.line(f"  ... and {len(rows) - SHOWN} more")
