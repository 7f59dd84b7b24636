"""What source units gave, and how much of it tested good, from the journal."""

from __future__ import annotations

import json
from collections.abc import Iterable

from inventory.store.asking import Asking
from inventory.store.before import before
from inventory.store.sql import Connection
from inventory.store.sums import UNDONE

_FIRST_TESTS = f"""
SELECT j.lot_id, p.family, j.detail FROM journal j JOIN lot l ON l.id = j.lot_id
JOIN part_type p ON p.id = l.part_id
WHERE j.kind = 'tested' AND l.origin = 'salvaged' AND j.at <= :as_of AND j.seq NOT IN {UNDONE}
ORDER BY j.seq
"""  # noqa: S608 - our own words


def first_states(connection: Connection, as_of: str) -> dict[tuple[str, str], int]:
    """Salvaged lots by family and the state their first bench test gave them."""
    found: dict[tuple[str, str], int] = {}
    seen: set[int] = set()
    for lot, family, detail in Asking(connection).rows(_FIRST_TESTS, {"as_of": as_of}):
        state = str(json.loads(detail)["state"])
        if lot not in seen and state != "untested":
            seen.add(lot)
            found[family, state] = found.get((family, state), 0) + 1
    return found


_GIVEN = f"""
SELECT {{stood_for}}, COALESCE(u.maker, ''), u.model_key, u.id, SUM(j.quantity)
FROM journal j JOIN source_unit u ON u.id = j.source_unit_id JOIN part_type p ON p.id = j.part_id
WHERE j.kind = 'logged' AND u.model_key IS NOT NULL AND j.at <= :as_of AND j.seq NOT IN {UNDONE}
GROUP BY 1, 2, 3, 4 ORDER BY 1, 2, 3, 4
"""  # noqa: S608 - our own words


def given(connection: Connection, as_of: str) -> Iterable[tuple[int, str, str, int, int]]:
    """Part type, maker, model and number of the unit it was pulled from, and pieces."""
    query = _GIVEN.format(stood_for=before(connection, as_of).stood_for)
    return Asking(connection).rows(query, {"as_of": as_of})


def left_later(connection: Connection, as_of: str) -> set[int]:
    """Source units that left the yard after a moment."""
    rows = Asking(connection).rows(
        "SELECT source_unit_id FROM journal WHERE kind = 'unit-gone' AND at > :as_of"
        " AND seq NOT IN (SELECT undoes FROM journal WHERE undoes IS NOT NULL)",
        {"as_of": as_of},
    )
    return {number for (number,) in rows}


def arrived_later(connection: Connection, as_of: str) -> set[int]:
    """Source units that were logged after a moment."""
    rows = Asking(connection).rows(
        "SELECT source_unit_id FROM journal WHERE kind = 'unit-logged' AND at > :as_of",
        {"as_of": as_of},
    )
    return {number for (number,) in rows}
