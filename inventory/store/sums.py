"""Sums over the journal and the lots, added up in the database."""

from __future__ import annotations

import json
from collections.abc import Iterator, Sequence
from typing import Any

from inventory.store.asking import Asking
from inventory.store.sql import Connection, places, text

_DEMAND = """
SELECT COALESCE(p.merged_into, p.id) AS part_id, substr(j.at, 1, 7) AS month,
       COUNT(DISTINCT CASE WHEN j.kind <> 'put-back' THEN COALESCE(j.job_id, -j.seq) END) AS jobs,
       -SUM(j.quantity) AS pieces
FROM journal j JOIN part_type p ON p.id = j.part_id
WHERE j.kind IN ('fitted', 'lacked', 'put-back') AND j.at <= :as_of
  AND NOT EXISTS (SELECT 1 FROM journal u WHERE u.undoes = j.seq AND u.at <= :as_of)
GROUP BY 1, 2 ORDER BY 1, 2
"""
"""Pieces that jobs took or asked for in vain, a month; what came back unused is taken off."""


def monthly_demand(connection: Connection, as_of: str) -> Iterator[tuple[int, str, int, int]]:
    """Part type, month (``YYYY-MM``), jobs and pieces, for months with demand."""
    for row in connection.execute(text(_DEMAND), {"as_of": as_of}):
        if row[3] > 0:
            yield row[0], row[1], row[2], row[3]


_STOCK_NOW = """
SELECT part_id, state, origin, SUM(on_hand) AS on_hand, SUM(held) AS held
FROM lot WHERE on_hand > 0 GROUP BY part_id, state, origin
"""

_STOCK_THEN = """
SELECT lot.id, lot.part_id, lot.state, lot.origin, s.on_hand, s.held FROM
(SELECT lot_id, SUM(quantity) AS on_hand, SUM(held) AS held FROM journal
 WHERE lot_id IS NOT NULL AND at <= :as_of GROUP BY lot_id) s
JOIN lot ON lot.id = s.lot_id WHERE s.on_hand > 0
"""


def stock(connection: Connection, as_of: str | None) -> Iterator[tuple[int, str, str, int, int]]:
    """Part type, state, origin, pieces on hand and held; now, or as the journal had it then."""
    if as_of is None:
        for row in connection.execute(text(_STOCK_NOW)):
            yield row[0], row[1], row[2], int(row[3]), int(row[4])
        return
    then = states_then(connection, as_of)
    for row in connection.execute(text(_STOCK_THEN), {"as_of": as_of}):
        state = str(then.get(row[0], row[2]))
        yield row[1], state, row[3], int(row[4]), int(row[5])


def states_then(connection: Connection, as_of: str) -> dict[int, str]:
    """Tested state of every lot at a moment, from the journal."""
    rows = connection.execute(
        text(
            "SELECT lot_id, detail FROM journal WHERE at <= :as_of AND lot_id IS NOT NULL AND kind"
            " IN ('logged', 'tested', 'split-in', 'put-back', 'undone') ORDER BY seq"
        ),
        {"as_of": as_of},
    )
    states: dict[int, str] = {}
    for lot_id, detail in rows:
        state = json.loads(detail).get("state")
        if state:
            states[lot_id] = state
    return states


def on_order(connection: Connection, as_of: str) -> dict[int, int]:
    """Pieces on order by part type."""
    rows = connection.execute(
        text(
            "SELECT part_id, SUM(ordered) FROM journal WHERE ordered <> 0 AND at <= :as_of"
            " GROUP BY part_id HAVING SUM(ordered) <> 0"
        ),
        {"as_of": as_of},
    )
    return {row[0]: int(row[1]) for row in rows}


def part_heads(connection: Connection, as_of: str) -> list[dict[str, Any]]:
    """Every part type with the words and figures a report needs."""
    rows = connection.execute(
        text(
            "SELECT p.id, p.family, p.maker, p.type_code, p.marking, p.keep_at_least,"
            " COALESCE((SELECT MIN(j.at) FROM journal j WHERE j.part_id = p.id), p.created_at)"
            " AS since, (SELECT l.price_cents FROM lot l WHERE l.part_id = p.id AND"
            " l.price_cents IS NOT NULL ORDER BY l.id DESC LIMIT 1) AS price_cents"
            " FROM part_type p WHERE p.merged_into IS NULL AND p.created_at <= :as_of ORDER BY p.id"
        ),
        {"as_of": as_of},
    ).mappings()
    return [dict(row) for row in rows]


def salvage_states(connection: Connection) -> Iterator[tuple[str, str, int]]:
    """Family, tested state and pieces of salvaged lots that went over the bench."""
    rows = connection.execute(
        text(
            "SELECT p.family, t.state, COUNT(*) FROM bench_test t JOIN lot l ON l.id = t.lot_id"
            " JOIN part_type p ON p.id = l.part_id WHERE l.origin = 'salvaged'"
            " AND t.state <> 'untested'"
            " AND t.id = (SELECT MIN(f.id) FROM bench_test f WHERE f.lot_id = t.lot_id)"
            " GROUP BY p.family, t.state"
        )
    )
    for row in rows:
        yield row[0], row[1], int(row[2])


def yielded(connection: Connection) -> Iterator[tuple[int, str, str, int, int]]:
    """Part type, maker and model of the units it came from, units and pieces."""
    rows = connection.execute(
        text(
            "SELECT l.part_id, COALESCE(u.maker, ''), u.model_key, COUNT(DISTINCT u.id), COUNT(*)"
            " FROM lot l JOIN source_unit u ON u.id = l.source_unit_id"
            " WHERE u.model_key IS NOT NULL GROUP BY 1, 2, 3"
        )
    )
    for row in rows:
        yield row[0], row[1], row[2], int(row[3]), int(row[4])


def given_by_yard(connection: Connection) -> set[tuple[int, int]]:
    """Pairs (source unit in the yard, part type it gave already)."""
    rows = connection.execute(
        text(
            "SELECT DISTINCT u.id, l.part_id FROM source_unit u JOIN lot l"
            " ON l.source_unit_id = u.id WHERE u.in_yard"
        )
    )
    return {(row[0], row[1]) for row in rows}


def lives(connection: Connection, as_of: str) -> Iterator[dict[str, Any]]:
    """Every fitted piece: part type, maker, source-unit model, fitted when, failed or out when."""
    rows = connection.execute(
        text(
            "SELECT j.seq, j.lot_id, COALESCE(p.merged_into, p.id) AS part_id, p.family, p.maker,"
            " p.marking, p.type_code, j.job_id, j.at AS fitted, -j.quantity AS pieces,"
            " u.maker AS unit_maker, u.model AS unit_model,"
            " (SELECT MIN(f.at) FROM journal f WHERE f.kind = 'failed' AND f.lot_id = j.lot_id"
            "  AND f.job_id = j.job_id AND f.at >= j.at AND f.at <= :as_of) AS failed,"
            " (SELECT MIN(b.at) FROM journal b WHERE b.kind = 'put-back' AND b.lot_id = j.lot_id"
            "  AND b.job_id = j.job_id AND b.at >= j.at AND b.at <= :as_of) AS back"
            " FROM journal j JOIN part_type p ON p.id = j.part_id"
            " LEFT JOIN lot l ON l.id = j.lot_id LEFT JOIN source_unit u ON u.id = l.source_unit_id"
            " WHERE j.kind = 'fitted' AND j.at <= :as_of"
            " AND NOT EXISTS (SELECT 1 FROM journal x WHERE x.undoes = j.seq) ORDER BY j.seq"
        ),
        {"as_of": as_of},
    ).mappings()
    for row in rows:
        yield dict(row)


LEAST_FAILURES = 3
"""Fewer failures than this never make a warning. Source: reference/stock.md section 4."""


def failed_often(connection: Connection, part_ids: Sequence[int | None]) -> list[int]:
    """Those of the part types of which several fitted pieces failed."""
    numbers = [number for number in part_ids if number is not None]
    if not numbers:
        return []
    found = Asking(connection).rows(
        f"SELECT part_id FROM journal WHERE part_id IN ({places(len(numbers))})"  # noqa: S608
        f" AND kind = 'failed' GROUP BY part_id HAVING COUNT(*) >= {LEAST_FAILURES}",
        numbers,
    )
    return [number for (number,) in found]
