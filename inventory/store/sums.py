"""Sums over the journal and the lots, added up in the database."""

from __future__ import annotations

import json
from collections.abc import Iterable, Iterator, Sequence
from typing import Any, TypeAlias

from inventory.store.asking import Asking
from inventory.store.sql import Connection, places, text

ServiceEvent: TypeAlias = tuple[int, int, str, str, int, int, str]
"""Lot, job (0: none), kind, moment, pieces out (negative: back), part type, family."""

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


_UNDONE = "(SELECT undoes FROM journal WHERE undoes IS NOT NULL AND at <= :as_of)"
"""Events that were taken back; a ``NOT IN`` over few numbers, read once."""

_SERVICE = (
    "SELECT j.lot_id, COALESCE(j.job_id, 0), j.kind, j.at, -j.quantity,"  # noqa: S608 - our own
    " COALESCE(p.merged_into, p.id), p.family FROM journal j JOIN part_type p ON p.id = j.part_id"
    " WHERE j.kind IN ('fitted', 'put-back', 'failed') AND j.at <= :as_of AND j.lot_id IS NOT NULL"
    f" AND j.seq NOT IN {_UNDONE}"
)


def service(
    connection: Connection, as_of: str, families: Sequence[str] | None = None
) -> Iterable[ServiceEvent]:
    """What happened to pieces in units, oldest first; of all families, or of some."""
    among, values = _among(families)
    return Asking(connection).rows(f"{_SERVICE}{among} ORDER BY j.seq", {"as_of": as_of, **values})


def _among(families: Sequence[str] | None) -> tuple[str, dict[str, str]]:
    """The condition that a part type is of some families, with its values."""
    if families is None:
        return "", {}
    values = {f"f{at}": family for at, family in enumerate(families)}
    return f" AND p.family IN ({', '.join(f':{name}' for name in values)})", values


def names_of_parts(
    connection: Connection, families: Sequence[str] | None = None
) -> dict[int, tuple[str, str | None]]:
    """What every part type is called in a report, and its maker; of all families, or of some.

    A code that several makers use is told apart by the maker.
    """
    among, values = _among(families)
    statement = "SELECT id, type_code, marking, maker FROM part_type p WHERE 1 = 1"
    rows = list(Asking(connection).rows(statement + among, values))
    makers: dict[str, set[str | None]] = {}
    for _, code, marking, maker in rows:
        makers.setdefault(code or marking, set()).add(maker)
    named = {}
    for number, code, marking, maker in rows:
        name = code or marking or f"part type {number}"
        shared = len(makers[code or marking]) > 1
        named[number] = (f"{name} ({maker or 'maker not known'})" if shared else name, maker)
    return named


def models_of_lots(connection: Connection) -> dict[int, str]:
    """The model of the source unit each salvaged lot came from."""
    rows = Asking(connection).rows(
        "SELECT l.id, u.maker, u.model FROM lot l JOIN source_unit u ON u.id = l.source_unit_id"
        " WHERE u.model IS NOT NULL"
    )
    return {number: f"{maker} {model}" if maker else model for number, maker, model in rows}


LEAST_FAILURES = 3
"""Fewer failures than this never make a warning. Source: reference/stock.md section 4."""


def failed_often(connection: Connection, part_ids: Sequence[int | None]) -> list[int]:
    """Those of the part types of which several fitted pieces failed, or of one merged into it."""
    ask = Asking(connection)
    numbers = [number for number in part_ids if number is not None]
    became = _merged_into(ask, numbers)
    asked = [*numbers, *became]
    if not asked:
        return []
    rows = ask.rows(
        "SELECT part_id, COUNT(*) FROM journal WHERE kind = 'failed' AND part_id IN"  # noqa: S608
        f" ({places(len(asked))}) GROUP BY part_id",
        asked,
    )
    failures: dict[int, int] = {}
    for number, count in rows:
        into = became.get(number, number)
        failures[into] = failures.get(into, 0) + count
    return [number for number, count in failures.items() if count >= LEAST_FAILURES]


def _merged_into(ask: Asking, numbers: Sequence[int]) -> dict[int, int]:
    """Part types that were merged into one of these, found by the events that say so."""
    rows = ask.rows("SELECT part_id, detail FROM journal WHERE kind = 'merged'")
    wanted = set(numbers)
    return {int(json.loads(detail)["drop"]): into for into, detail in rows if into in wanted}
