"""What is on order, what came in, and what was asked for and not there."""

from __future__ import annotations

from inventory.bench.log import Piece, checked, write_pieces
from inventory.bench.moves import Moved
from inventory.errors import Refused, WrongInput
from inventory.store import jobs, parts
from inventory.store.journal import Event, append
from inventory.store.pieces import on_order
from inventory.store.shelf import Shelf


def order(
    shelf: Shelf, part_id: int, quantity: int, *, note: str | None = None, dry_run: bool = False
) -> int:
    """Write down that pieces were ordered; returns what is on order now."""
    if not 0 < quantity < 10**6:
        raise WrongInput(f"The number of pieces must be at least 1, not {quantity}.")
    with shelf.write(dry_run=dry_run) as connection:
        part_id = parts.standing_for(connection, part_id)
        event = Event("ordered", part_id=part_id, ordered=quantity, detail={"note": note})
        append(connection, [event], bench=shelf.bench)
        return on_order(connection, part_id)


def receive(
    shelf: Shelf,
    part_id: int,
    quantity: int,
    *,
    bin_code: str | None = None,
    price_cents: int | None = None,
    state: str = "untested",
    dry_run: bool = False,
) -> Moved:
    """Put ordered pieces on the shelf as a new lot; they are on order no longer."""
    with shelf.write(dry_run=dry_run) as connection:
        part_id = parts.standing_for(connection, part_id)
        part = parts.get(connection, part_id)
        awaited = on_order(connection, part_id)
        if quantity > awaited:
            raise Refused(f"Only {awaited} of part type {part_id} are on order, not {quantity}.")
        piece = Piece(
            marking=part.marking,
            type_code=part.type_code,
            quantity=quantity,
            bin=bin_code,
            state=state,
            origin="new",
            price_cents=price_cents,
        )
        done = write_pieces(
            connection, [(checked(piece, part), part, None)], shelf.bench, into=part_id
        )[0]
        event = Event("received", lot_id=done.lot.id, part_id=part_id, ordered=-quantity)
        written = append(connection, [event], bench=shelf.bench)
        return Moved(done.lot, part, tuple(written))


def lacked(
    shelf: Shelf,
    part_id: int,
    quantity: int = 1,
    *,
    job: int | None = None,
    dry_run: bool = False,
) -> None:
    """Write down that pieces were needed and none was there: demand the shelf did not meet."""
    if not 0 < quantity < 10**6:
        raise WrongInput(f"The number of pieces must be at least 1, not {quantity}.")
    with shelf.write(dry_run=dry_run) as connection:
        part_id = parts.standing_for(connection, part_id)
        if job is not None:
            jobs.get(connection, job)
        # no lot: it takes nothing from the shelf, and counts as demand all the same
        event = Event("lacked", part_id=part_id, job_id=job, quantity=-quantity)
        append(connection, [event], bench=shelf.bench)


def keep_at_least(shelf: Shelf, part_id: int, level: int | None, *, dry_run: bool = False) -> None:
    """Set by hand how many of a part type are kept at least; None leaves it to the arithmetic."""
    with shelf.write(dry_run=dry_run) as connection:
        part_id = parts.standing_for(connection, part_id)
        was = parts.get(connection, part_id).keep_at_least
        parts.set_keep_at_least(connection, part_id, level)
        told = {"keep_at_least": level, "was": was}
        append(connection, [Event("level-set", part_id=part_id, detail=told)], bench=shelf.bench)
