"""What became of fitted pieces: the events of their service, and what they are called."""

from __future__ import annotations

import json
from collections.abc import Iterable, Sequence
from typing import TypeAlias

from inventory.store.asking import Asking
from inventory.store.before import NOW, before
from inventory.store.sql import Connection, places
from inventory.store.sums import UNDONE

ServiceEvent: TypeAlias = tuple[int, int, str, str, int, int, str]
"""Lot, job (0: none), kind, moment, pieces out (negative: back), part type, family."""

_FROM = (
    "FROM journal j JOIN part_type p ON p.id = j.part_id"
    " WHERE j.kind IN ('fitted', 'put-back', 'failed') AND j.at <= :as_of AND j.lot_id IS NOT NULL"
    f" AND j.seq NOT IN {UNDONE}"
)

_FAILED = (
    "(j.lot_id, COALESCE(j.job_id, 0)) {in_or_not} (SELECT lot_id, COALESCE(job_id, 0)"
    " FROM journal WHERE kind = 'failed' AND lot_id IS NOT NULL)"
)
"""Pieces of one lot on one job of which some failed, or of which none did."""


def events(
    connection: Connection,
    as_of: str,
    families: Sequence[str] | None = None,
    *,
    only_failed: bool = False,
) -> Iterable[ServiceEvent]:
    """What happened to pieces in units, oldest first; of all families, or of some.

    ``only_failed`` leaves out the lots and jobs of which no piece failed.
    """
    among, values = _among(families)
    if only_failed:
        among += f" AND {_FAILED.format(in_or_not='IN')}"
    service = (
        "SELECT j.lot_id, COALESCE(j.job_id, 0), j.kind, j.at, -j.quantity,"
        f" {before(connection, as_of).stood_for}, p.family"
    )
    return Asking(connection).rows(
        f"{service} {_FROM}{among} ORDER BY j.seq", {"as_of": as_of, **values}
    )


def of_lot(connection: Connection, lot: int, job: int) -> Iterable[tuple[str, str, int]]:
    """Kind, moment and pieces of what happened to the pieces of a lot on a job, oldest first."""
    return Asking(connection).rows(
        "SELECT j.kind, j.at, -j.quantity FROM journal j WHERE j.lot_id = ? AND j.job_id = ?"
        " AND j.kind IN ('fitted', 'put-back', 'failed') AND NOT EXISTS"
        " (SELECT 1 FROM journal AS later WHERE later.undoes = j.seq) ORDER BY j.seq",
        (lot, job),
    )


def tallies(
    connection: Connection, now: str, families: Sequence[str]
) -> Iterable[tuple[int, str, int, float]]:
    """Part type, family, pieces fitted and piece-days in service, where none failed.

    What was fitted serves until now, less what came back, which serves no longer from then on;
    so no event needs to be matched with another. Where a piece failed it must be: it may have
    come back as well, and would be taken off twice.
    """
    ask = Asking(connection)
    among, values = _among(families)
    gone = f"{ask.days(':as_of')} - {ask.days('j.at')}"
    return ask.rows(
        f"SELECT {NOW}, p.family, SUM(CASE j.kind WHEN 'fitted' THEN -j.quantity ELSE 0 END),"
        f" SUM(-j.quantity * ({gone})) {_FROM}{among} AND {_FAILED.format(in_or_not='NOT IN')}"
        " GROUP BY 1, 2 ORDER BY 1, 2",
        {"as_of": now, **values},
    )


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
    rows = list(Asking(connection).rows(f"{statement}{among} ORDER BY id", values))
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
        " WHERE u.model IS NOT NULL ORDER BY l.id"
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
        f" ({places(len(asked))}) GROUP BY part_id ORDER BY part_id",
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
