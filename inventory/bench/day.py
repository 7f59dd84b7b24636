"""The shop's morning on one page: gathered here, written by the command line or as HTML."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime, timedelta
from typing import Any

from inventory.bench.low import asked
from inventory.bench.moments import moment
from inventory.bench.wear import fitted
from inventory.stock.report import LowLine, what_runs_short
from inventory.stock.wear_report import WearLine, what_wears
from inventory.store import jobs, pieces
from inventory.store.shelf import Shelf
from inventory.store.sql import Connection

OLD_HOLD_DAYS = 7
"""A hold older than this is asked about. Common practice."""


@dataclass(frozen=True, slots=True)
class Day:
    """One morning."""

    at: str
    short: tuple[LowLine, ...]
    holds: tuple[dict[str, Any], ...]
    untested: tuple[tuple[str, int], ...]  # family, pieces
    jobs: tuple[dict[str, Any], ...]
    failing: tuple[WearLine, ...]
    value: tuple[tuple[str, int], ...]  # family, cents on hand at the last known price
    used: tuple[tuple[str, int], ...]  # month, pieces used


def day(shelf: Shelf, *, as_of: str | None = None) -> Day:
    """All that a shop wants to know in the morning."""
    with shelf.read() as connection:
        at = moment(as_of, connection)
        stocks, settings = asked(connection, as_of)
        report = what_runs_short(stocks, settings)
        failing = what_wears(fitted(connection, "part", at)).flagged()
        used: dict[str, int] = {}
        for part in stocks:
            for month in part.history:
                name = f"{month.month // 12}-{month.month % 12 + 1:02d}"
                used[name] = used.get(name, 0) + month.quantity
        untested: dict[str, int] = {}
        value: dict[str, int] = {}
        for part in stocks:
            untested[part.family] = untested.get(part.family, 0) + part.untested
            worth = (part.price_cents or 0) * part.good
            value[part.family] = value.get(part.family, 0) + worth
        return Day(
            at,
            report.short(),
            tuple(_old_holds(connection, at)),
            _largest(untested),
            tuple(jobs.open_at(connection, at)),
            failing,
            _largest(value),
            tuple(sorted(used.items()))[-12:],
        )


def _largest(amounts: dict[str, int]) -> tuple[tuple[str, int], ...]:
    """Amounts above zero, the largest first."""
    return tuple(sorted(((k, v) for k, v in amounts.items() if v), key=lambda kv: (-kv[1], kv[0])))


def _old_holds(connection: Connection, at: str) -> list[dict[str, Any]]:
    """Pieces held for longer than a week."""
    before = (datetime.fromisoformat(at) - timedelta(days=OLD_HOLD_DAYS)).isoformat()
    return [hold for hold in pieces.holds(connection, at) if hold["since"] < before]
