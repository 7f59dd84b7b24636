"""What runs short: the store's sums go to the stock arithmetic."""

from __future__ import annotations

from calendar import monthrange
from collections.abc import Iterator, Mapping
from typing import Any

from inventory.bench.moments import moment, on_record
from inventory.bench.yard import donors, family_yields
from inventory.families.sheet import families, sheet
from inventory.rules.histories import salvage_stop
from inventory.stock.asked import LowSettings, Month, PartStock, month_number
from inventory.stock.report import LowReport, what_runs_short
from inventory.store import journal, sums, units
from inventory.store.shelf import Shelf
from inventory.store.sql import Connection
from inventory.units import cents, parse_number

FIGURES = {
    "lead_time_months": "months from an order to the shelf",
    "review_months": "months from one look at this list to the next",
    "service_level": "share of months without a shortage, 0 to 1",
    "holding_per_month": "cost of keeping, share of the price a month",
    "shortage_cost": "cost of one piece short for a month, as money",
    "order_cost": "cost of placing one order, as money",
    "wage_per_hour": "what an hour at the bench costs, as money",
}
"""What a shop can set, and what it means."""


def settings_of(connection: Connection, at: str) -> LowSettings:
    """The shop's figures as they were at a moment, with the defaults where it set none.

    Raises ``WrongInput`` for one that cannot be; on record already it is damage: ``on_record``.
    """
    said = sums.figures_then(connection, at, units.settings(connection))
    year, month, day = int(at[:4]), int(at[5:7]), int(at[8:10])
    given: dict[str, Any] = {
        name: float(parse_number(said[key]))
        for name, key in (
            ("lead_time", "lead_time_months"),
            ("review", "review_months"),
            ("service", "service_level"),
            ("holding", "holding_per_month"),
        )
        if key in said
    }
    for name, key in (("shortage_cents", "shortage_cost"), ("order_cents", "order_cost")):
        if key in said:
            given[name] = cents(said[key])
    gone = day / monthrange(year, month)[1]
    return LowSettings(as_of_month=month_number(at), month_gone=min(gone, 1.0), **given)


def figures(shelf: Shelf) -> dict[str, str]:
    """The shop's figures that are set, as they were typed."""
    with shelf.read() as connection:
        return units.settings(connection)


def set_figure(shelf: Shelf, name: str, value: str, *, dry_run: bool = False) -> dict[str, str]:
    """Set one of the shop's figures; it must be one that is known, and a number.

    Returns all that are set then.
    """
    from inventory.bench import words

    words.known(name, tuple(FIGURES), "figure")
    parse_number(value)
    with shelf.write(dry_run=dry_run) as connection:
        told = {"name": name, "value": value.strip(), "was": units.settings(connection).get(name)}
        units.set_setting(connection, name, value.strip())
        settings_of(connection, moment(None, connection))
        journal.append(connection, [journal.Event("figure-set", detail=told)], bench=shelf.bench)
        return units.settings(connection)


def part_stocks(connection: Connection, at: str, *, then: bool = False) -> list[PartStock]:
    """Every part type with its stock and history at a moment.

    Unless ``then`` is said it is the present, and the lots themselves tell what is on hand; of an
    earlier moment the journal does. Raises ``Damaged`` for a date on record that is none.
    """
    with on_record():
        return list(_part_stocks(connection, at, then=then))


def _part_stocks(connection: Connection, at: str, *, then: bool) -> Iterator[PartStock]:
    """The same, as the store has it."""
    history = _history(connection, at)
    heads = sums.part_heads(connection, at)
    counts = _counts(connection, at if then else None, {h["id"]: h["family"] for h in heads})
    ordered = sums.on_order(connection, at)
    good, pulled = family_yields(connection, at)
    carried = donors(connection, at)
    for head in heads:
        number, family = head["id"], head["family"]
        months = tuple(history.get(number, ()))
        yield PartStock(
            part_id=number,
            name=head["type_code"] or head["marking"] or family,
            family=family,
            first_month=min(
                month_number(head["since"]), *(one.month for one in months), month_number(at)
            ),
            history=months,
            on_order=max(0, ordered.get(number, 0)),
            price_cents=head["price_cents"],
            keep_at_least=head["keep_at_least"],
            policy=_policy(family),
            good_seen=good.get(family, 0),
            pulled_seen=pulled.get(family, 0),
            donors=tuple(carried.get(number, ())),
            **counts.get(number, {}),
        )


def _policy(family: str) -> str:
    """Reuse policy of a family; one without a sheet is only reused when tested."""
    return sheet(family).policy if family in families() else "salvage-if-tested"


def _history(connection: Connection, at: str) -> dict[int, list[Month]]:
    """Months with demand, by part type."""
    found: dict[int, list[Month]] = {}
    for part_id, month, jobs, pieces in sums.monthly_demand(connection, at):
        found.setdefault(part_id, []).append(Month(month_number(month), max(1, jobs), pieces))
    return found


def _counts(
    connection: Connection, as_of: str | None, family_of: Mapping[int, str]
) -> dict[int, dict[str, Any]]:
    """Good, held and untested pieces by part type; what may not be offered counts as nothing."""
    found: dict[int, dict[str, Any]] = {}
    for one in sums.stock(connection, as_of):
        family = family_of.get(one.part_id, "other")
        if not _usable(one, family):
            continue
        count = found.setdefault(one.part_id, {"good": 0, "held": 0, "untested": 0})
        if one.state == "untested":
            count["untested"] += one.on_hand
        elif family in families() and one.state in sheet(family).good_states():
            count["good"] += one.on_hand
            count["held"] += one.held
    return found


def _usable(one: sums.Stock, family: str) -> bool:
    """Whether pieces may be used at all: neither their family nor their past forbids it."""
    if one.origin == "salvaged" and _policy(family) in ("new-only", "never"):
        return False
    return one.history is None or salvage_stop(family, one.history, None) is None


def low(
    shelf: Shelf, *, as_of: str | None = None, pools: Mapping[str, list[int]] | None = None
) -> LowReport:
    """The report over the whole shelf, the most pressing part types first."""
    with shelf.read() as connection:
        stocks, settings = asked(connection, as_of)
    return what_runs_short(stocks, settings, pools=pools)


def asked(connection: Connection, as_of: str | None) -> tuple[list[PartStock], LowSettings]:
    """What the stock arithmetic starts from, now or as the journal had it on a day."""
    at = moment(as_of, connection)
    stocks = part_stocks(connection, at, then=as_of is not None)
    with on_record():
        return stocks, settings_of(connection, at)
