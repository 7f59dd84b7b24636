"""Sums over the journal, added up in the database, as it stood at any moment."""

from __future__ import annotations

import json
from collections.abc import Callable, Iterable, Iterator, Mapping
from typing import Any, NamedTuple

from inventory.store.asking import Asking
from inventory.store.before import before
from inventory.store.sql import Connection

UNDONE = "(SELECT undoes FROM journal WHERE undoes IS NOT NULL AND at <= :as_of)"
"""Events that were taken back; a ``NOT IN`` over few numbers, read once."""

_DEMAND = f"""
SELECT part_id, month, SUM(CASE WHEN quantity < 0 THEN 1 ELSE 0 END), -SUM(quantity) FROM
(SELECT {{stood_for}} AS part_id, substr(j.at, 1, 7) AS month,
        COALESCE(j.job_id, -j.seq) AS work, SUM(j.quantity) AS quantity
 FROM journal j JOIN part_type p ON p.id = j.part_id
 WHERE j.kind IN ('fitted', 'lacked', 'put-back') AND j.at <= :as_of AND j.seq NOT IN {UNDONE}
 GROUP BY 1, 2, 3) AS worked
GROUP BY 1, 2 HAVING SUM(quantity) < 0 ORDER BY 1, 2
"""  # noqa: S608 - our own words
"""Pieces that jobs took or asked for in vain, a month; what came back unused is taken off.

A job that gave back all it took asked for nothing.
"""


def monthly_demand(connection: Connection, as_of: str) -> Iterable[tuple[int, str, int, int]]:
    """Part type, month (``YYYY-MM``), jobs and pieces, for months with demand."""
    query = _DEMAND.format(stood_for=before(connection, as_of).stood_for)
    return Asking(connection).rows(query, {"as_of": as_of})


class Stock(NamedTuple):
    """Pieces of one part type in one state, with one origin and one past."""

    part_id: int
    state: str
    origin: str
    history: str | None  # what happened to them in their unit
    on_hand: int
    held: int


_STOCK_NOW = (
    "SELECT part_id, state, origin, history, SUM(on_hand), SUM(held) FROM lot WHERE on_hand > 0"
    " GROUP BY part_id, state, origin, history ORDER BY part_id, state, origin,"
    " COALESCE(history, '')"
)

_STOCK_THEN = """
SELECT lot.id, lot.part_id, lot.state, lot.origin, lot.history, s.on_hand, s.held FROM
(SELECT lot_id, SUM(quantity) AS on_hand, SUM(held) AS held FROM journal
 WHERE lot_id IS NOT NULL AND at <= :as_of GROUP BY lot_id) s
JOIN lot ON lot.id = s.lot_id WHERE s.on_hand > 0 ORDER BY lot.id
"""


def stock(connection: Connection, as_of: str | None) -> Iterator[Stock]:
    """What is on hand now, or as the journal had it then."""
    ask = Asking(connection)
    if as_of is None:
        yield from map(Stock._make, ask.rows(_STOCK_NOW))
        return
    states, owners = states_then(connection, as_of), before(connection, as_of).lots
    for lot, part, state, *rest in ask.rows(_STOCK_THEN, {"as_of": as_of}):
        yield Stock(owners.get(lot, part), str(states.get(lot, state)), *rest)


STATE_KINDS = ("logged", "tested", "split-in", "put-back", "undone-tested", "undone-put-back")
"""Events that say the tested state of a lot."""


def states_then(connection: Connection, as_of: str) -> dict[int, str]:
    """Tested state of every lot at a moment, from the journal."""
    rows = Asking(connection).rows(
        "SELECT lot_id, detail FROM journal WHERE at <= :as_of AND lot_id IS NOT NULL AND kind IN"  # noqa: S608
        f" ({', '.join(repr(kind) for kind in STATE_KINDS)}) ORDER BY seq",
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
    rows = Asking(connection).rows(
        f"SELECT {before(connection, as_of).stood_for}, SUM(j.ordered) FROM journal j"  # noqa: S608
        " JOIN part_type p ON p.id = j.part_id WHERE j.ordered <> 0 AND j.at <= :as_of"
        " GROUP BY 1 HAVING SUM(j.ordered) <> 0 ORDER BY 1",
        {"as_of": as_of},
    )
    return dict(rows)


_HEADS = """
SELECT p.id, p.family, p.type_code, p.marking, p.keep_at_least,
       COALESCE((SELECT MIN(j.at) FROM journal j WHERE j.part_id = p.id), p.created_at),
       (SELECT l.price_cents FROM lot l WHERE l.part_id = p.id AND l.price_cents IS NOT NULL
        AND l.logged_at <= :as_of ORDER BY l.id DESC LIMIT 1)
FROM part_type p WHERE {stood_for} = p.id AND p.created_at <= :as_of ORDER BY p.id
"""
_HEAD_NAMES = ("id", "family", "type_code", "marking", "keep_at_least", "since", "price_cents")


def part_heads(connection: Connection, as_of: str) -> list[dict[str, Any]]:
    """Every part type with the words and figures a report needs, as they were at a moment."""
    then = before(connection, as_of)
    rows = Asking(connection).rows(_HEADS.format(stood_for=then.stood_for), {"as_of": as_of})
    heads = [dict(zip(_HEAD_NAMES, row, strict=True)) for row in rows]
    levels = _then(connection, "level-set", as_of, lambda part, _: part, "keep_at_least")
    since = _since_of_merged(connection, then.stood_for)
    prices = _prices_then(connection, as_of, then.lots) if then.lots else None
    for head in heads:
        number = head["id"]
        head["keep_at_least"] = levels.get(number, head["keep_at_least"])
        head["since"] = min(head["since"], since.get(number, head["since"]))
        if prices is not None:
            head["price_cents"] = prices.get(number)
    return heads


def _since_of_merged(connection: Connection, stood_for: str) -> dict[int, str]:
    """The first event of what was merged, by the part type it became."""
    rows = Asking(connection).rows(
        f"SELECT {stood_for}, MIN((SELECT MIN(j.at) FROM journal j WHERE j.part_id = p.id))"  # noqa: S608
        f" FROM part_type p WHERE {stood_for} <> p.id GROUP BY 1"
    )
    return {number: at for number, at in rows if at is not None}


def _prices_then(connection: Connection, as_of: str, owners: Mapping[int, int]) -> dict[int, int]:
    """The last known price by part type, where lots were of another one than today."""
    rows = Asking(connection).rows(
        "SELECT id, part_id, price_cents FROM lot WHERE price_cents IS NOT NULL"
        " AND logged_at <= :as_of ORDER BY id",
        {"as_of": as_of},
    )
    return {owners.get(lot, part): price for lot, part, price in rows}


def figures_then(connection: Connection, as_of: str, now: dict[str, str]) -> dict[str, str]:
    """What the shop had set at a moment; ``now`` is what is set today."""
    then = _then(connection, "figure-set", as_of, lambda _, told: told["name"], "value")
    found = {**now, **then}
    return {name: value for name, value in found.items() if value is not None}


def _then(
    connection: Connection, kind: str, as_of: str, of: Callable[[Any, Any], Any], value: str
) -> dict[Any, Any]:
    """What was set at a moment, by what it is of; nothing for what was never set.

    The last event up to then says it; where all came later, the first of them says what was.
    """
    rows = Asking(connection).rows(
        "SELECT part_id, at, detail FROM journal WHERE kind IN (:kind, :back) ORDER BY seq",
        {"kind": kind, "back": f"undone-{kind}"},
    )
    found: dict[Any, Any] = {}
    for part, at, detail in rows:
        told = json.loads(detail)
        if at <= as_of:
            found[of(part, told)] = told[value]
        else:
            found.setdefault(of(part, told), told.get("was"))
    return found
