"""``salvage hold / fit / putback / scrap / move / count``: stock events."""

from typing import Annotated, Any

import typer

from inventory.cli import options, show


def attach(app: typer.Typer) -> None:
    """Hang the commands of this subject on the app."""
    for command in (hold, fit, putback, scrap, move, count):
        app.command()(command)


def _tell(moved: Any, what: str, *, dry_run: bool, json: bool, job: int | None = None) -> None:
    """What was done and the lot as it is now, in one line or as JSON."""
    lot = moved.lot
    if json:
        show.as_json(
            {
                "lot": lot.id,
                "on_hand": lot.on_hand,
                "held": lot.held,
                "state": lot.state,
                "bin": lot.bin,
                "events": [] if dry_run else list(moved.events),
                "other_lot": moved.other_lot.id if moved.other_lot else None,
            }
        )
        return
    name = show.safe(moved.part.marking or moved.part.type_code or moved.part.family)
    done = f"Would have {what}" if dry_run else what.capitalize()
    whom = f" for job {job}" if job else ""
    spot = f" at {moved.place}" if moved.place else ""
    bin_ = f", bin {show.safe(lot.bin)}" if lot.bin else ""
    show.line(
        f"{done}{whom}{spot}: lot {lot.id} ({name}){bin_}; {lot.on_hand} on hand, {lot.held} held."
    )
    if moved.other_lot:
        other = moved.other_lot
        show.line(
            f"{other.on_hand} of it now in lot {other.id}, bin {show.safe(other.bin or '-')},"
            f" {other.state}."
        )


def hold(
    lot: options.LotNumber,
    job: options.OnJob = None,
    place: options.AtPlace = None,
    quantity: options.Quantity = 1,
    release: Annotated[bool, typer.Option("--release", help="Let held pieces go.")] = False,
    dry_run: options.DryRun = False,
    json: options.Json = False,
    shelf: options.Shelf = None,
) -> None:
    """Keep pieces of a lot for a job, or let them go.

    Example: salvage hold 17 --job 5
    """
    from inventory.bench import moves
    from inventory.bench.place import open_for

    opened = open_for(shelf)
    if release:
        done = moves.release(opened, lot, quantity=quantity, job=job, dry_run=dry_run)
    else:
        done = moves.hold(
            opened, lot, quantity=quantity, job=job, place=_place(place), dry_run=dry_run
        )
    _tell(done, "released" if release else "held", dry_run=dry_run, json=json, job=job)
    if job and not (release or dry_run or json):
        show.note(f"Next: salvage fit {lot} --job {job}")


def _place(place: str | None) -> str | None:
    """A known place."""
    from inventory.bench.find import known_place

    return known_place(place)


def fit(
    lot: options.LotNumber,
    job: options.OnJob = None,
    place: options.AtPlace = None,
    quantity: options.Quantity = 1,
    untested: Annotated[
        bool,
        typer.Option(
            "--untested", help="Though it is untested or a question is open; it is noted."
        ),
    ] = False,
    dry_run: options.DryRun = False,
    json: options.Json = False,
    shelf: options.Shelf = None,
) -> None:
    """Fit a piece into a unit; a hold for the same job ends with it.

    Example: salvage fit 17 --job 5 --place primary-interlock
    """
    from inventory.bench import moves
    from inventory.bench.place import open_for
    from inventory.cli.log import tell_cautions

    spot = _place(place)
    done = moves.fit(
        open_for(shelf),
        lot,
        job=job,
        quantity=quantity,
        place=spot,
        untested=untested,
        dry_run=dry_run,
    )
    tell_cautions({done.part.family}, "fit", done.place)
    _tell(done, "fitted", dry_run=dry_run, json=json, job=job)
    if job and not (dry_run or json):
        show.note(f"Next: salvage job close {job}")


def putback(
    lot: options.LotNumber,
    job: options.OnJob = None,
    quantity: options.Quantity = 1,
    never_powered: Annotated[
        bool, typer.Option("--never-powered", help="It was never under power: its state stays.")
    ] = False,
    dry_run: options.DryRun = False,
    json: options.Json = False,
    shelf: options.Shelf = None,
) -> None:
    """Put a fitted piece back on the shelf; it is untested again.

    Example: salvage putback 17 --job 5
    """
    from inventory.bench import moves
    from inventory.bench.place import open_for

    done = moves.put_back(
        open_for(shelf),
        lot,
        quantity=quantity,
        job=job,
        never_powered=never_powered,
        dry_run=dry_run,
    )
    _tell(done, "put back", dry_run=dry_run, json=json, job=job)


def scrap(
    lot: options.LotNumber,
    quantity: options.Quantity = 1,
    why: Annotated[str | None, typer.Option(help="Why it goes.")] = None,
    dry_run: options.DryRun = False,
    json: options.Json = False,
    shelf: options.Shelf = None,
) -> None:
    """Throw pieces away and write down why.

    Example: salvage scrap 17 --why "contacts welded"
    """
    from inventory.bench import moves
    from inventory.bench.place import open_for

    done = moves.scrap(open_for(shelf), lot, quantity=quantity, reason=why, dry_run=dry_run)
    _tell(done, "scrapped", dry_run=dry_run, json=json)


def move(
    lot: options.LotNumber,
    bin_code: Annotated[str, typer.Argument(metavar="BIN", help="Where it goes.")],
    quantity: Annotated[int | None, typer.Option("--quantity", "-n", help="Only so many.")] = None,
    dry_run: options.DryRun = False,
    json: options.Json = False,
    shelf: options.Shelf = None,
) -> None:
    """Lay a lot, or some pieces of it, in another bin.

    Example: salvage move 17 B2-01
    """
    from inventory.bench import look, moves
    from inventory.bench.place import open_for

    opened = open_for(shelf)
    fresh = look.new_bin(opened, bin_code)
    done = moves.move(opened, lot, bin_code, quantity=quantity, dry_run=dry_run)
    if fresh:
        show.warn(fresh)
    _tell(done, "moved", dry_run=dry_run, json=json)


def count(
    lot: options.LotNumber,
    counted: Annotated[
        int | None, typer.Argument(metavar="PIECES", help="How many are really there.")
    ] = None,
    weigh: Annotated[str | None, typer.Option(help="Or what they weigh, e.g. 38g.")] = None,
    ten: Annotated[str | None, typer.Option(help="... when ten of them weigh this.")] = None,
    dry_run: options.DryRun = False,
    json: options.Json = False,
    shelf: options.Shelf = None,
) -> None:
    """Count one lot; the difference to the record is written down.

    Example: salvage count 17 4, or: salvage count 17 --weigh 12.4g --ten 6.2g
    """
    from inventory.bench import moves
    from inventory.bench.place import open_for

    pieces = counted if counted is not None else _weighed(weigh, ten)
    done = moves.count(open_for(shelf), lot, pieces, dry_run=dry_run)
    _tell(done, "counted", dry_run=dry_run, json=json)


def _weighed(weigh: str | None, ten: str | None) -> int:
    """Pieces by weight; a count the scale leaves open is refused."""
    from inventory.errors import WrongInput
    from inventory.fasteners.weigh import count_by_weight, grams

    if weigh is None or ten is None:
        raise WrongInput("Say how many there are, or --weigh and --ten.")
    found = count_by_weight(grams(weigh), grams(ten))
    if not found.is_sure:
        raise WrongInput(
            f"The scale leaves it open between {found.low} and {found.high}; {found.advice}."
        )
    return found.pieces
