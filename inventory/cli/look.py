"""``salvage show / history / where``: looking without changing anything."""

from typing import Annotated, Any

import typer

from inventory.cli import options, show
from inventory.errors import WrongInput

Part = Annotated[int | None, typer.Option("--part", help="Number of a part type.", min=1)]
Lot = Annotated[int | None, typer.Option("--lot", help="Number of a lot.", min=1)]
Unit = Annotated[str | None, typer.Option("--unit", help="Label of a source unit.")]


def attach(app: typer.Typer) -> None:
    """Hang the commands of this subject on the app."""
    app.command("show")(show_)
    app.command()(history)
    app.command()(where)


def show_(
    lot_number: Annotated[
        int | None, typer.Argument(metavar="LOT", help="Number of a lot.", min=1)
    ] = None,
    part: Part = None,
    unit: Unit = None,
    json: options.Json = False,
    shelf: options.Shelf = None,
) -> None:
    """Show all that is known of a lot, part type or source unit.

    Example: salvage show 17
    """
    from inventory.bench import look
    from inventory.bench.place import open_for

    opened = open_for(shelf)
    if lot_number is not None:
        _lot(look.lot_page(opened, lot_number), json=json)
    elif part is not None:
        _part(look.part_page(opened, part), json=json)
    elif unit is not None:
        _unit(look.unit_page(opened, unit), json=json)
    else:
        raise WrongInput("Say what to show: a lot number, --part NUMBER or --unit LABEL.")


def _ratings(ratings: dict[str, Any]) -> None:
    """Ratings, one a line."""
    for name, value in ratings.items():
        show.line(f"  {show.safe(name)}: {show.safe(value)}")


def _lot(page: Any, *, json: bool) -> None:
    """A lot's page."""
    from inventory.bench import look

    lot, part = page.lot, page.part
    if json:
        unit = page.unit.label if page.unit else None
        show.as_json(
            {
                **look.lot_row(lot, part),
                "ratings": part.ratings,
                "unit": unit,
                "history": lot.history,
                "tests": list(page.tests),
            }
        )
        return
    show.line(f"Lot {lot.id}: {show.safe(part.marking or part.type_code)}", "head")
    free = lot.on_hand - lot.held
    show.line(f"{lot.on_hand} on hand, {lot.held} held, {free} free; {show.safe(lot.state)}")
    show.line(f"Bin: {show.safe(lot.bin or '-')}   Part type: {part.id} ({part.family})")
    came = f"{lot.origin}" + (f", from {page.unit.label}" if page.unit else "")
    show.line(f"Origin: {show.safe(came)}   Logged: {(lot.logged_at or '')[:10]}")
    if lot.price_cents is not None:
        show.line(f"Price: {show.money(lot.price_cents)}")
    for label, value in (("History", lot.history), ("Note", lot.note)):
        if value:
            show.line(f"{label}: {show.safe(value)}")
    _ratings(dict(part.ratings))
    for test in page.tests:
        show.line(f"Test {test['at'][:10]}: {test['state']} by {test['judged_by']}")
        for row in test["readings"]:
            show.line(f"  {row['name']}: {_measured(row)}")


def _measured(row: Any) -> str:
    """A reading of a test as a person says it."""
    if row["unit"] == "yes/no":
        return "yes" if row["word"] == "True" else "no"
    value = row["word"] if row["number"] is None else f"{row['number']:g}"
    return f"{value} {row['unit'] or ''}".rstrip()


def _part(page: Any, *, json: bool) -> None:
    """A part type's page."""
    from dataclasses import asdict

    from inventory.bench import look

    if json:
        show.as_json(
            {
                "part": asdict(page.part),
                "lots": [look.lot_row(lot, page.part) for lot in page.lots],
                "xref": [asdict(edge) for edge in page.edges],
            }
        )
        return
    part = page.part
    show.line(f"Part type {part.id}: {show.safe(part.marking or part.type_code)}", "head")
    also = ", ".join(part.aliases)
    for label, value in (("Family", part.family), ("Maker", part.maker), ("Also", also),
                         ("Type", part.type_code), ("Text", part.description)):  # fmt: skip
        if value:
            show.line(f"{label}: {show.safe(value)}")
    _ratings(dict(part.ratings))
    rows = [_lot_cells(lot) for lot in page.lots if lot.on_hand]
    if rows:
        show.table(("Lot", "Bin", "On hand", "Held", "State", "Origin"), rows, right=(0, 2, 3))
    for edge in page.edges:
        show.line(f"{edge.from_code} -> {edge.to_code}: {edge.kind} [{show.safe(edge.source)}]")


def _lot_cells(lot: Any) -> tuple[Any, ...]:
    """A lot as cells of a table."""
    return (lot.id, lot.bin or "-", lot.on_hand, lot.held, lot.state, lot.origin)


def _unit(page: Any, *, json: bool) -> None:
    """A source unit's page."""
    from dataclasses import asdict

    from inventory.bench import look

    if json:
        show.as_json(
            {
                "unit": asdict(page.unit),
                "lots": [look.lot_row(lot, part) for lot, part in page.lots],
            }
        )
        return
    unit = page.unit
    words = " ".join(filter(None, (unit.kind, unit.maker, unit.model, unit.revision)))
    show.line(f"Unit {show.safe(unit.label)}: {show.safe(words)}", "head")
    for label, value in (("Serial", unit.serial), ("Scrapped", unit.why_scrapped),
                         ("Arrived", unit.arrived), ("Note", unit.note)):  # fmt: skip
        if value:
            show.line(f"{label}: {show.safe(value)}")
    show.line("Still in the yard." if unit.in_yard else "No longer in the yard.")
    _lot_table(page.lots)


def _lot_table(pairs: Any) -> None:
    """Lots with their part types as a table."""
    rows = [
        (lot.id, part.family, part.marking or part.type_code, lot.on_hand, lot.held, lot.state)
        for lot, part in pairs
    ]
    if rows:
        heads = ("Lot", "Family", "Marking", "On hand", "Held", "State")
        show.table(heads, rows, right=(0, 3, 4))


def where(
    bin_code: Annotated[
        str | None, typer.Argument(metavar="BIN", help="A bin; none: all bins.")
    ] = None,
    json: options.Json = False,
    shelf: options.Shelf = None,
) -> None:
    """Show what lies in a bin, or all bins.

    Example: salvage where A3-07
    """
    from inventory.bench import look
    from inventory.bench.place import open_for

    opened = open_for(shelf)
    if bin_code is None:
        rows = look.bins(opened)
        if json:
            show.as_json(rows)
        else:
            cells = [(row["bin"], row["lots"], row["pieces"]) for row in rows]
            show.table(("Bin", "Lots", "Pieces"), cells, right=(1, 2))
        return
    there = look.in_bin(opened, bin_code)
    if json:
        show.as_json([look.lot_row(lot, part) for lot, part in there])
    elif there:
        _lot_table(there)
    else:
        show.note(f"Bin {show.safe(bin_code)} is empty.")


def history(
    lot_number: Annotated[
        int | None, typer.Argument(metavar="LOT", help="Number of a lot.", min=1)
    ] = None,
    part: Part = None,
    unit: Unit = None,
    job: options.OnJob = None,
    last: Annotated[
        int, typer.Option("--limit", "--last", help="Without a subject: the last so many.", min=1)
    ] = 20,
    json: options.Json = False,
    shelf: options.Shelf = None,
) -> None:
    """Show what happened to a lot, part type, source unit or job.

    Example: salvage history 17
    """
    from inventory.bench import look
    from inventory.bench.place import open_for

    opened = open_for(shelf)
    if lot_number is not None:
        look.lot_page(opened, lot_number)
        events = look.history(opened, "lot", lot_number)
    elif part is not None:
        look.part_page(opened, part)
        events = look.history(opened, "part", part)
    elif unit is not None:
        events = look.history(opened, "unit", look.unit_page(opened, unit).unit.id)
    elif job is not None:
        events = look.history(opened, "job", job)
    else:
        events = look.latest(opened, last)
    if json:
        show.as_json([look.event_row(event) for event in events])
        return
    rows = [
        (
            event.seq,
            (event.at or "")[:16].replace("T", " "),
            event.kind,
            event.lot_id or "",
            f"{event.quantity:+d}" if event.quantity else "",
            f"{event.held:+d}" if event.held else "",
            event.job_id or "",
            event.bench,
        )
        for event in events
    ]
    heads = ("No", "When (UTC)", "What", "Lot", "Stock", "Held", "Job", "Who")
    show.table(heads, rows, right=(0, 3, 4, 5, 6))
