"""``salvage log`` and ``salvage strip``: parts come in."""

from datetime import date
from functools import partial
from pathlib import Path
from typing import Annotated, Any

import typer

from inventory.cli import options, prompts, show
from inventory.errors import WrongInput
from inventory.units import cents


def attach(app: typer.Typer) -> None:
    """Hang the commands of this subject on the app."""
    app.command()(log)
    app.command()(strip)


def log(
    marking: Annotated[str, typer.Argument(help="What is printed on the part, in quotes.")] = "",
    type_code: Annotated[str | None, typer.Option("--type", help="Type code, if known.")] = None,
    family: options.Family = None,
    maker: Annotated[str | None, typer.Option(help="Maker of the part.")] = None,
    description: Annotated[str | None, typer.Option(help="In your own words.")] = None,
    quantity: options.Quantity = 1,
    bin_code: Annotated[
        str | None, typer.Option("--bin", help="Where it lies, e.g. A3-07.")
    ] = None,
    state: Annotated[str, typer.Option(help="Tested state.")] = "untested",
    origin: Annotated[str | None, typer.Option(help="salvaged or new.")] = None,
    source_unit: Annotated[
        str | None, typer.Option("--from", help="Label of the source unit it came from.")
    ] = None,
    price: Annotated[str | None, typer.Option(help="Price of one, e.g. 4.50.")] = None,
    supplier_no: Annotated[str | None, typer.Option(help="Supplier's number.")] = None,
    rating: Annotated[
        list[str] | None, typer.Option("--rating", help="Agreed rating, e.g. resistive_a=16.")
    ] = None,
    also: Annotated[
        list[str] | None, typer.Option("--also", help="Another code it goes by.")
    ] = None,
    note: Annotated[str | None, typer.Option(help="A note on the lot.")] = None,
    dry_run: options.DryRun = False,
    json: options.Json = False,
    shelf: options.Shelf = None,
) -> None:
    """Put one part or lot on the shelf.

    Example: salvage log "16(4)A 250V~ T85 5E4" --family switch --bin A3-07 --from U12
    """
    from inventory.bench.log import Piece, log_pieces
    from inventory.bench.place import write_on
    from inventory.bench.values import pairs

    piece = Piece(
        marking=marking,
        family=family,
        maker=maker,
        type_code=type_code,
        description=description,
        quantity=quantity,
        bin=bin_code,
        state=state,
        origin=origin,
        source_unit=source_unit,
        price_cents=cents(price) if price else None,
        supplier_no=supplier_no,
        note=note,
        aliases=tuple(also or ()),
        ratings=pairs(rating or [], "resistive_a=16"),
    )
    done = write_on(shelf, partial(log_pieces, pieces=[piece], dry_run=dry_run), dry_run=dry_run)
    _tell(done, dry_run=dry_run, json=json)


def _tell(done: list[Any], *, dry_run: bool, json: bool, said: set[str] | None = None) -> None:
    """What was logged: lot numbers on stdout, doubts and cautions on stderr."""
    if json:
        show.as_json(
            [
                {
                    "lot": one.lot.id,
                    "part": one.part.id,
                    "family": one.part.family,
                    "ratings": one.part.ratings,
                    "known_before": one.known_before,
                    "warnings": one.reading.warnings if one.reading else [],
                }
                for one in done
            ]
        )
    else:
        would = "Would log" if dry_run else "Logged"
        for one in done:
            where = f" in {show.safe(one.lot.bin)}" if one.lot.bin else ""
            known = ", a part type already known" if one.known_before else ""
            show.line(
                f"{would} lot {one.lot.id}: {one.lot.on_hand} x {one.part.family}"
                f" {show.safe(one.part.marking or one.part.type_code)}{where},"
                f" {one.lot.state}{known}."
            )
    for one in done:
        for warning in one.reading.warnings if one.reading else ():
            show.warn(f"lot {one.lot.id}: {warning}")
    tell_cautions({one.part.family for one in done}, "log", said=said)


def tell_cautions(
    families: set[str], when: str, place: str | None = None, said: set[str] | None = None
) -> set[str]:
    """The cautions of some families at one moment, each once; returns all said so far."""
    from inventory.rules.cautions import cautions

    known = set(said or ())
    for family in sorted(families):
        for one in cautions(family, when, place):
            if one.text not in known:
                known.add(one.text)
                show.caution(one.text, one.source)
    return known


LEFT_SHOWN = 5
"""So many part types left in a unit are named; the rest is counted."""

Label = Annotated[str | None, typer.Argument(help="Label you write on the unit, e.g. U12.")]
Kind = Annotated[str | None, typer.Option(help="Kind of appliance, e.g. microwave oven.")]
MadeBy = Annotated[str | None, typer.Option(help="Maker of the unit.")]
Model = Annotated[str | None, typer.Option(help="Model number on its plate.")]
Revision = Annotated[str | None, typer.Option(help="Revision, as /01 on the plate.")]
Serial = Annotated[str | None, typer.Option(help="Serial number.")]
Why = Annotated[str | None, typer.Option(help="Why it was scrapped.")]
Fault = Annotated[
    str | None, typer.Option(help="A fault that spoils parts, e.g. monitor-blew-fuse.")
]
Arrived = Annotated[str | None, typer.Option(help="Date it came, e.g. 2026-03-31.")]
Pulled = Annotated[
    list[str] | None,
    typer.Option(
        "--piece",
        metavar="PIECE",
        help='"family|marking|bin|state|quantity" or a marking alone, again for each piece.',
    ),
]
Listed = Annotated[
    Path | None,
    typer.Option(
        "--pieces", help="CSV of the pieces, columns as for load, or the list of 'worth --to'."
    ),
]
Gone = Annotated[bool, typer.Option("--gone", help="Nothing more is to be had from it.")]


def strip(
    unit: Label = None,
    kind: Kind = None,
    maker: MadeBy = None,
    model: Model = None,
    revision: Revision = None,
    serial: Serial = None,
    why: Why = None,
    fault: Fault = None,
    arrived: Arrived = None,
    piece: Pulled = None,
    pieces: Listed = None,
    gone: Gone = False,
    dry_run: options.DryRun = False,
    json: options.Json = False,
    shelf: options.Shelf = None,
) -> None:
    """Log a source unit and, in one go, the pieces pulled from it.

    Example: salvage strip U12 --kind "microwave oven" --maker Brenka --model BK-20
    --piece "switch|16(4)A 250V~ T85|A3-07" --piece "magnetron|2M214|C1-02"
    """
    from inventory.bench.log import strip_unit
    from inventory.bench.place import write_on
    from inventory.records import SourceUnit

    asking = prompts.can_ask()
    label = unit or (prompts.ask("Label of the unit") if asking else None)
    if not label:
        raise WrongInput("Say which unit: salvage strip LABEL --kind ... --piece ...")
    record = SourceUnit(
        id=0,
        label=label.strip(),
        kind=kind or (prompts.ask("Kind of appliance", "microwave oven") if asking else "unit"),
        maker=maker or (prompts.ask("Maker", "") or None if asking and not piece else None),
        model=model or (prompts.ask("Model", "") or None if asking and not piece else None),
        revision=revision,
        serial=serial,
        why_scrapped=fault or why,
        arrived=iso_date(arrived),
        in_yard=not gone,
        note=why if fault else None,
    )
    listed = [_piece(text) for text in piece or []]
    left: list[Any] = []
    if pieces is not None:
        from inventory.bench.pulling import ticked_off

        found, left = ticked_off(pieces)
        listed += found
    said: set[str] = set()
    if asking and not listed:
        said = tell_cautions({"hv_capacitor"}, "strip")
        listed = prompts.ask_pieces(_piece)
    asked = partial(strip_unit, unit=record, pieces=listed, dry_run=dry_run)
    stored, done = write_on(shelf, asked, dry_run=dry_run)
    if not json:
        would = "Would log" if dry_run else "Logged"
        show.line(f"{would} unit {show.safe(stored.label)} ({show.safe(stored.kind)}).")
        _tell_left(left)
    if not asking or piece or pieces:
        said = tell_cautions({one.part.family for one in done} or {"hv_capacitor"}, "strip")
    _tell(done, dry_run=dry_run, json=json, said=said)


def _tell_left(left: list[Any]) -> None:
    """What the list says stays in the unit; what should have been pulled stands first in it."""
    for one in left[:LEFT_SHOWN]:
        why = f": {show.safe(one.why)}" if one.why else "."
        show.line(f"Left in it: {show.safe(one.what)}{why}")
    if len(left) > LEFT_SHOWN:
        show.line(f"Left in it: {len(left) - LEFT_SHOWN} more, as the list says.")


def _piece(text: str) -> Any:
    """``family|marking|bin|state|quantity``, trailing fields may be missing; or a marking alone.

    Checked at once, so that a slip is asked again and costs none of the other pieces.
    """
    from inventory.bench import words
    from inventory.bench.log import Piece

    fields = [field.strip() for field in text.split("|")]
    family, marking, bin_, state, amount, *rest = (
        *(fields if len(fields) > 1 else ["", *fields]), "", "", "", "", "",
    )  # fmt: skip
    if not marking or any(rest):
        raise WrongInput(f"Not understood: {text!r}. Write family|marking|bin|state|quantity.")
    if not ((amount or "1").isascii() and (amount or "1").isdigit()):
        raise WrongInput(f"Not a quantity: {amount!r} in {text!r}.")
    known = words.family(family) if family else None
    return Piece(
        family=known,
        marking=marking,
        bin=bin_ or None,
        state=words.state(state, known) if state and known else state or "untested",
        quantity=int(amount or "1"),
    )


def iso_date(text: str | None) -> str | None:
    """A date as ISO 8601; anything else is refused."""
    if text is None:
        return None
    try:
        return date.fromisoformat(text.strip()).isoformat()
    except ValueError as error:
        raise WrongInput(f"Not a date: {text!r}. Write it like 2026-03-31.") from error
