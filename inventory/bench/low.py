"""What runs short: the store's sums go to the stock arithmetic."""

from __future__ import annotations

from calendar import monthrange
from collections.abc import Mapping
from typing import Any

from sqlalchemy.engine import Connection

from inventory.bench.moments import moment
from inventory.families.sheet import families, sheet
from inventory.matching.keys import bare
from inventory.stock.asked import Donor, LowSettings, Month, PartStock, month_number
from inventory.stock.report import LowReport, what_runs_short
from inventory.store import journal, sums, units
from inventory.store.shelf import Shelf
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
    """The shop's figures, with the defaults where it set none."""
    said = units.settings(connection)
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


def set_figure(shelf: Shelf, name: str, value: str, *, dry_run: bool = False) -> None:
    """Set one of the shop's figures; it must be one that is known, and a number."""
    from inventory.bench import words

    words.known(name, tuple(FIGURES), "figure")
    parse_number(value)
    with shelf.write(dry_run=dry_run) as connection:
        told = {"name": name, "value": value.strip(), "was": units.settings(connection).get(name)}
        units.set_setting(connection, name, value.strip())
        settings_of(connection, journal.now())
        journal.append(connection, [journal.Event("figure-set", detail=told)], bench=shelf.bench)


def part_stocks(connection: Connection, as_of: str | None) -> list[PartStock]:
    """Every part type with its stock and history; as of a moment where one is said."""
    at = as_of or journal.now()
    history = _history(connection, at)
    counts = _counts(connection, as_of)
    ordered = sums.on_order(connection, at)
    good, pulled = family_yields(connection)
    donors = _donors(connection)
    return [
        PartStock(
            part_id=head["id"],
            name=head["type_code"] or head["marking"] or head["family"],
            family=head["family"],
            first_month=min(
                month_number(head["since"]),
                *(month.month for month in history.get(head["id"], ())),
                month_number(at),
            ),
            history=tuple(history.get(head["id"], ())),
            on_order=max(0, ordered.get(head["id"], 0)),
            price_cents=head["price_cents"],
            keep_at_least=head["keep_at_least"],
            policy=_policy(head["family"]),
            good_seen=good.get(head["family"], 0),
            pulled_seen=pulled.get(head["family"], 0),
            donors=tuple(donors.get(head["id"], ())),
            **counts.get(head["id"], {}),
        )
        for head in sums.part_heads(connection, at)
    ]


def _policy(family: str) -> str:
    """Reuse policy of a family; one without a sheet is only reused when tested."""
    return sheet(family).policy if family in families() else "salvage-if-tested"


def _history(connection: Connection, at: str) -> dict[int, list[Month]]:
    """Months with demand, by part type."""
    found: dict[int, list[Month]] = {}
    for part_id, month, jobs, pieces in sums.monthly_demand(connection, at):
        found.setdefault(part_id, []).append(Month(month_number(month), max(1, jobs), pieces))
    return found


def _counts(connection: Connection, as_of: str | None) -> dict[int, dict[str, Any]]:
    """Good, held and untested pieces by part type; what failed its test counts as nothing."""
    good_states = {name: sheet(name).good_states() for name in families()}
    family_of = {head["id"]: head["family"] for head in sums.part_heads(connection, "9999")}
    found: dict[int, dict[str, Any]] = {}
    for part_id, state, origin, on_hand, held in sums.stock(connection, as_of):
        family = family_of.get(part_id, "other")
        one = found.setdefault(part_id, {"good": 0, "held": 0, "untested": 0})
        usable = origin == "new" or _policy(family) not in ("new-only", "never")
        if state in good_states.get(family, frozenset()) and usable:
            one["good"] += on_hand
            one["held"] += held
        elif state == "untested" and usable:
            one["untested"] += on_hand
    return found


def family_yields(connection: Connection) -> tuple[dict[str, int], dict[str, int]]:
    """Salvaged pieces that tested good, and all that were tested, by family."""
    good: dict[str, int] = {}
    pulled: dict[str, int] = {}
    for family, state, count in sums.salvage_states(connection):
        pulled[family] = pulled.get(family, 0) + count
        if family in families() and state in sheet(family).good_states():
            good[family] = good.get(family, 0) + count
    return good, pulled


def _donors(connection: Connection) -> dict[int, list[Donor]]:
    """Units in the yard that should still carry a part: others of their model gave it."""
    given = sums.given_by_yard(connection)
    yard: dict[tuple[str, str], list[Any]] = {}
    for unit in units.where(connection, "in_yard"):
        yard.setdefault((unit.maker or "", bare(unit.model or "")), []).append(unit)
    found: dict[int, list[Donor]] = {}
    for part_id, maker, model, donors, pieces in sums.yielded(connection):
        each = max(1, round(pieces / donors))
        for unit in yard.get((maker, model), ()):
            if (unit.id, part_id) not in given:
                found.setdefault(part_id, []).append(Donor(unit.label, each, unit.id))
    return found


def low(
    shelf: Shelf, *, as_of: str | None = None, pools: Mapping[str, list[int]] | None = None
) -> LowReport:
    """The report over the whole shelf, the most pressing part types first."""
    at = moment(as_of)
    with shelf.read() as connection:
        stocks = part_stocks(connection, at if as_of else None)
        settings = settings_of(connection, at)
    return what_runs_short(stocks, settings, pools=pools)
