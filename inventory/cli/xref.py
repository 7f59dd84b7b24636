"""``salvage xref``: adding, listing and following cross-references."""

from functools import partial
from pathlib import Path
from typing import Annotated

import typer

from inventory.cli import options, show
from inventory.cli.files import told_troubles
from inventory.cli.waiting import waiting

app = typer.Typer(
    name="xref",
    help="What a source says of two numbers, or of a number and a unit.",
    no_args_is_help=True,
    rich_markup_mode=None,
)


def attach(main: typer.Typer) -> None:
    """Hang the group on the app."""
    main.add_typer(app, name="xref")


@app.command("add")
def add(
    from_code: Annotated[str, typer.Argument(metavar="FROM", help="The number it starts at.")],
    kind: Annotated[str, typer.Argument(help="What the source says, e.g. supersedes.")],
    to_code: Annotated[str, typer.Argument(metavar="TO", help="The number or unit it leads to.")],
    source: Annotated[str, typer.Option(help="Who says so: list, label, letter.")],
    place: options.AtPlace = None,
    date: Annotated[str | None, typer.Option(help="Date of the source, ISO.")] = None,
    confidence: Annotated[float | None, typer.Option(help="0 to 1.")] = None,
    quantity: Annotated[int, typer.Option("--quantity", "-n", help="How many are needed.")] = 1,
    serial_from: Annotated[str | None, typer.Option(help="First serial it holds for.")] = None,
    serial_to: Annotated[str | None, typer.Option(help="Last serial it holds for.")] = None,
    note: Annotated[str | None, typer.Option(help="A note.")] = None,
    unit: Annotated[str | None, typer.Option(help="The unit an alternate is listed for.")] = None,
    dry_run: options.DryRun = False,
    shelf: options.Shelf = None,
) -> None:
    """Add a cross-reference.

    Example: salvage xref add DS-410 supersedes DS-400 --source "maker's list 2025"
    """
    from inventory.bench.place import write_on
    from inventory.bench.xref import add_edges
    from inventory.cli.log import iso_date
    from inventory.records import Edge

    edge = Edge(
        from_code=from_code,
        to_code=to_code,
        kind=kind.lower(),
        source=source,
        place=place,
        date=iso_date(date),
        confidence=confidence,
        quantity=quantity,
        serial_from=serial_from,
        serial_to=serial_to,
        note=note,
        unit=unit,
    )
    asked = partial(add_edges, said=[edge], dry_run=dry_run)
    number = write_on(shelf, asked, dry_run=dry_run)[0]
    would = "Would add" if dry_run else "Added"
    show.line(f"{would} cross-reference {number}: {from_code} {kind} {to_code}.")


@app.command("load")
def load(
    file: Annotated[Path, typer.Argument(help="CSV with from,to,kind,source,...")],
    encoding: Annotated[str | None, typer.Option(help="If it is neither UTF-8 nor 1252.")] = None,
    dry_run: options.DryRun = False,
    shelf: options.Shelf = None,
) -> None:
    """Load cross-references from a CSV file, all or none.

    Example: salvage xref load alternates.csv
    """
    from inventory.bench.place import write_on
    from inventory.bench.xref import add_edges, edges_of_file

    with told_troubles(), waiting("Loading"):
        found = edges_of_file(file, encoding)
        asked = partial(add_edges, said=found, dry_run=dry_run)
        numbers = write_on(shelf, asked, dry_run=dry_run)
    show.line(f"{'Would load' if dry_run else 'Loaded'} {len(numbers)} cross-references.")


@app.command("list")
def list_(
    code: Annotated[str | None, typer.Argument(help="Only those from or to this number.")] = None,
    json: options.Json = False,
    shelf: options.Shelf = None,
) -> None:
    """List cross-references.

    Example: salvage xref list DS-410
    """
    from dataclasses import asdict

    from inventory.bench.place import open_for
    from inventory.bench.xref import list_edges

    found = list_edges(open_for(shelf), code)
    if json:
        show.as_json([asdict(edge) for edge in found])
        return
    rows = [
        (edge.id, edge.from_code, edge.kind, edge.to_code, edge.place or "", edge.source)
        for edge in found
    ]
    show.table(("No", "From", "Says", "To", "Place", "Source"), rows, right=(0,))


@app.command("follow")
def follow(
    code: Annotated[str, typer.Argument(help="Where to start.")],
    json: options.Json = False,
    shelf: options.Shelf = None,
) -> None:
    """Follow a number forwards, with the source of each step.

    Example: salvage xref follow DS-400
    """
    from dataclasses import asdict

    from inventory.bench.place import open_for
    from inventory.bench.xref import follow as walk

    steps = walk(open_for(shelf), code)
    if json:
        show.as_json([asdict(step) for step in steps])
        return
    if not steps:
        show.note(f"Nothing leads on from {show.safe(code)}.")
        raise typer.Exit(1)
    for step in steps:
        show.line(show.safe(step))
