"""Which pieces are held, out in units or on order, by lot, job and part type: sums of events."""

from __future__ import annotations

import json
from collections import deque
from typing import Any

from inventory.store.asking import Asking
from inventory.store.sql import Connection
from inventory.store.sums import STATE_KINDS


def held_for(connection: Connection, lot: int, job: int | None) -> int:
    """Pieces of a lot held for a job (or for none in particular)."""
    rows = Asking(connection).rows(
        "SELECT COALESCE(SUM(held), 0) FROM journal WHERE lot_id = ? AND held <> 0"
        " AND COALESCE(job_id, 0) = ?",
        (lot, job or 0),
    )
    return int(next(iter(rows))[0])


def out_by_job(connection: Connection, lot: int) -> dict[int, int]:
    """Pieces of a lot that are out in units, by job (0: no job named): fitted, less put back."""
    rows = Asking(connection).rows(
        "SELECT COALESCE(job_id, 0), -SUM(quantity) FROM journal"
        " WHERE lot_id = :lot AND (kind IN ('fitted', 'put-back') OR undoes IN"
        " (SELECT seq FROM journal WHERE lot_id = :lot AND kind IN ('fitted', 'put-back')))"
        " GROUP BY COALESCE(job_id, 0) HAVING SUM(quantity) <> 0 ORDER BY 1",
        {"lot": lot},
    )
    return {int(job): int(pieces) for job, pieces in rows}


def states_when_fitted(connection: Connection, lot: int, job: int | None) -> set[str]:
    """The tested states a lot had when pieces of it were fitted on a job (or on none named)."""
    rows = Asking(connection).rows(
        "SELECT kind, COALESCE(job_id, 0), detail, EXISTS"
        " (SELECT 1 FROM journal AS later WHERE later.undoes = journal.seq) FROM journal"
        " WHERE lot_id = ? ORDER BY seq",
        (lot,),
    )
    state, found = "untested", set()
    for kind, whose, detail, undone in rows:
        if kind == "fitted" and whose == (job or 0) and not undone:
            found.add(state)
        elif kind in STATE_KINDS:
            state = str(json.loads(detail).get("state") or state)
    return found


def on_order(connection: Connection, part_id: int) -> int:
    """Pieces of a part type, and of those merged into it, that are ordered and not here yet."""
    rows = Asking(connection).rows(
        "SELECT COALESCE(SUM(ordered), 0) FROM journal WHERE ordered <> 0 AND part_id IN"
        " (SELECT id FROM part_type WHERE id = :part OR merged_into = :part)",
        {"part": part_id},
    )
    return int(next(iter(rows))[0])


_OF_JOB = """
SELECT j.lot_id, SUM(j.{column}), MAX(j.place), p.family, p.marking, p.type_code
FROM journal j JOIN lot l ON l.id = j.lot_id JOIN part_type p ON p.id = l.part_id
WHERE j.job_id = ? AND j.{column} <> 0
GROUP BY j.lot_id, p.family, p.marking, p.type_code HAVING SUM(j.{column}) <> 0 ORDER BY j.lot_id
"""
_OF_JOB_NAMES = ("lot", "pieces", "place", "family", "marking", "type")


def taken_by(connection: Connection, job: int) -> list[dict[str, Any]]:
    """Lots with the pieces a job took of them."""
    rows = Asking(connection).rows(_OF_JOB.format(column="quantity"), (job,))
    named = (dict(zip(_OF_JOB_NAMES, row, strict=True)) for row in rows)
    return [{**row, "pieces": -row["pieces"]} for row in named]


def held_by(connection: Connection, job: int) -> list[dict[str, Any]]:
    """Lots with the pieces that are held for a job."""
    rows = Asking(connection).rows(_OF_JOB.format(column="held"), (job,))
    return [dict(zip(_OF_JOB_NAMES, row, strict=True)) for row in rows]


def places_worked_on(connection: Connection, job: int) -> set[str]:
    """Places of a unit that a job fitted something at; what was undone never was."""
    rows = Asking(connection).rows(
        "SELECT DISTINCT place FROM journal WHERE job_id = ? AND kind = 'fitted'"
        " AND place IS NOT NULL AND NOT EXISTS"
        " (SELECT 1 FROM journal AS later WHERE later.undoes = journal.seq)",
        (job,),
    )
    return {place for (place,) in rows}


_HELD = """
SELECT j.lot_id, j.job_id, j.at, j.held, p.marking, p.type_code, p.family, l.bin
FROM journal j JOIN lot l ON l.id = j.lot_id JOIN part_type p ON p.id = l.part_id
WHERE j.held <> 0 AND j.at <= :at AND j.undoes IS NULL AND j.seq NOT IN
  (SELECT undoes FROM journal WHERE undoes IS NOT NULL AND at <= :at)
  AND (j.lot_id, COALESCE(j.job_id, 0)) IN
  (SELECT lot_id, COALESCE(job_id, 0) FROM journal WHERE held <> 0 AND at <= :at
   GROUP BY 1, 2 HAVING SUM(held) > 0)
ORDER BY j.seq
"""
"""What was undone never was: a release taken back leaves the hold as old as it is."""


def holds(connection: Connection, at: str) -> list[dict[str, Any]]:
    """What was held at a moment, by lot and job, with the time of the oldest hold that stands."""
    standing: dict[tuple[int, int | None], deque[str]] = {}
    about: dict[tuple[int, int | None], tuple[Any, ...]] = {}
    for lot, job, when, held, *rest in Asking(connection).rows(_HELD, {"at": at}):
        queue = standing.setdefault((lot, job), deque())
        queue.extend([when] * held)
        for _ in range(min(-held, len(queue))):
            queue.popleft()
        about[lot, job] = tuple(rest)
    names = ("marking", "type_code", "family", "bin")
    found = [
        {"lot": lot, "job": job, "pieces": len(queue), "since": queue[0],
         **dict(zip(names, about[lot, job], strict=True))}
        for (lot, job), queue in standing.items()
        if queue
    ]  # fmt: skip
    return sorted(found, key=lambda hold: (hold["since"], hold["lot"]))
