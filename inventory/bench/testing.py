"""The bench test: what the meter said goes in, the tested state follows from the limits."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from typing import Any

from inventory.bench import words
from inventory.bench.moves import split_off
from inventory.errors import Refused, WrongInput
from inventory.records import Lot, Part
from inventory.rules.meter import Finding
from inventory.rules.tested import judge_readings
from inventory.store import jobs, lots, parts
from inventory.store.journal import Event, append
from inventory.store.shelf import Shelf


@dataclass(frozen=True, slots=True)
class Tested:
    """What came of a bench test."""

    lot: Lot
    part: Part
    finding: Finding | None  # None: the state was typed by hand
    events: tuple[int, ...]
    rest_lot: Lot | None = None  # the pieces that were not tested


def bench_test(  # noqa: PLR0913 - one keyword for each thing a tech can say
    shelf: Shelf,
    lot: int,
    readings: Mapping[str, Any],
    *,
    state: str | None = None,
    pieces: int | None = None,
    place: str | None = None,
    instrument: str | None = None,
    note: str | None = None,
    dry_run: bool = False,
) -> Tested:
    """Record readings of a lot and set its tested state.

    Without ``state`` it follows from the limits of the family; readings that leave the question
    open leave the lot as it was. ``pieces`` of a larger lot become a lot of their own: a reading
    speaks for the pieces it was taken on.
    """
    if not readings and state is None:
        raise WrongInput("Give a reading such as --rest OL --pressed 0.05, or a --state.")
    with shelf.write(dry_run=dry_run) as connection:
        was = lots.get(connection, lot)
        part = parts.get(connection, was.part_id)
        finding = None if state else judge_readings(part.family, part.ratings, readings, place)
        after = words.state(state, part.family) if state else _state_after(finding, was)
        events: list[Event] = []
        target = _tested_lot(was, pieces, by_hand=state is not None)
        number = lot
        if target is not None:
            number, events = split_off(connection, was, target, state=after)
        else:
            lots.set_values(connection, lot, state=after)
        test = {
            "lot_id": number,
            "bench": shelf.bench,
            "state": after,
            "judged_by": "hand" if state else "limits",
            "instrument": instrument,
            "note": note,
        }
        test_id = jobs.add_test(connection, test, _rows(readings, finding))
        detail = {"state": after, "was": was.state, "test": test_id}
        events.append(Event("tested", lot_id=number, place=place, detail=detail))
        known = [replace(event, part_id=was.part_id) for event in events]
        written = append(connection, known, bench=shelf.bench)
        rest = lots.get(connection, lot) if number != lot else None
        return Tested(lots.get(connection, number), part, finding, tuple(written), rest)


def _state_after(finding: Finding | None, was: Lot) -> str:
    """What the readings show; where they leave it open, what it was before."""
    if finding is None or not finding.decided:
        return was.state
    return finding.state


def _tested_lot(was: Lot, pieces: int | None, *, by_hand: bool) -> int | None:
    """How many pieces become a lot of their own; None: the test is of the whole lot."""
    if was.on_hand == 0:
        raise Refused(f"Lot {was.id} is empty; there is nothing to test.")
    wanted = pieces if pieces is not None else (was.on_hand if by_hand else 1)
    if not 0 < wanted <= was.on_hand:
        raise WrongInput(f"Lot {was.id} has {was.on_hand} pieces, not {wanted}.")
    return None if wanted == was.on_hand else wanted


def _rows(readings: Mapping[str, Any], finding: Finding | None) -> list[dict[str, Any]]:
    """Readings as rows, each with the limit it was held against."""
    checks = {check.reading: check for check in finding.checks} if finding else {}
    rows = []
    for name, value in readings.items():
        check = checks.get(name)
        is_number = isinstance(value, int | float) and not isinstance(value, bool)
        finite = is_number and abs(value) < float("inf")
        rows.append(
            {
                "name": name,
                "number": float(value) if finite else None,
                "word": None if finite else ("OL" if is_number else str(value)),
                "unit": check.unit if check else None,
                "sentence": check.sentence if check else None,
                "source": check.source if check else None,
            }
        )
    return rows
