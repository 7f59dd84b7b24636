"""Worked examples of levels by money: newsvendors by price, square-root lots, waiting lines."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from inventory.errors import WrongInput
from inventory.stock import reorder
from inventory.stock.answer_names import one
from inventory.stock.checks import above_zero
from inventory.stock.counts import Counts, Listed, Poisson
from inventory.stock.economic import economic_batch, economic_order, normal_fill, reorder_point
from inventory.stock.loss import normal_loss
from inventory.stock.waiting import erlang_b, erlang_c

Given = Mapping[str, Any]


def costs_of(g: Given) -> tuple[float, float]:
    """(cost of one too many, cost of one too few), given or from price, cost and salvage."""
    if "cu" in g:
        return g["co"], g["cu"]
    price, cost = one(g, "price", "sell"), g["cost"]
    over = cost - (one(g, "salvage", "scrap") or 0.0)
    return over, price - cost + (one(g, "goodwill", "penalty") or 0.0)


def by_money(g: Given) -> dict[str, Any]:
    """The critical ratio, and the level it asks for of whatever demand is given."""
    h, p = costs_of(g)
    above_zero(overage=h, underage=p)
    found: dict[str, Any] = {"ratio": p / (p + h), "co": h, "cu": p}
    if "low" in g and "high" in g:
        level = g["low"] + found["ratio"] * (g["high"] - g["low"])
        return found | {"S": level, "Q": level}
    if "sd" in g:
        return found | _normal(g, h, p)
    demand = demand_of(g)
    if demand is None:
        return found
    S, cost = reorder.newsvendor(h, p, demand, one(g, "S"))
    return found | {"S": S, "Q": S, "cost": cost, "profit": p * demand.mean - cost}


def _normal(g: Given, h: float, p: float) -> dict[str, Any]:
    """Normal demand, at the best level or a given one."""
    S, cost = reorder.normal_newsvendor(h, p, g["mean"], g["sd"])
    if (given := one(g, "S", "Q")) is not None:
        short, left = normal_loss(given, g["mean"], g["sd"])
        S, cost = given, h * left + p * short
    short, left = normal_loss(S, g["mean"], g["sd"])
    found = {"S": S, "Q": S, "cost": cost, "profit": p * g["mean"] - cost}
    return found | {"lost_sales": short, "left_over": left, "expected_sales": g["mean"] - short}


def demand_of(g: Given) -> Counts | None:
    """Poisson by its mean, or counts by their chances; None where neither is given."""
    chances = one(g, "demand_pmf", "pmf")
    if isinstance(chances, Mapping):
        weights = [0.0] * (max(int(x) for x in chances) + 1)
        for x, share in chances.items():
            weights[int(x)] += share
        return Listed(tuple(weights))
    if chances is not None:
        return Listed(tuple(chances))
    return Poisson(g["mean"]) if "mean" in g else None


def square_root(g: Given) -> dict[str, Any]:
    """Order quantity and its cost a unit of time."""
    rate = one(g, "production_rate", "P")
    if rate is not None:
        found = economic_batch(g["D"], g["K"], g["h"], rate)
    else:
        found = economic_order(g["D"], g["K"], g["h"], g.get("p"))
    return {**found._asdict(), "EOQ": found.Q, "cycle": found.Q / g["D"]}


def point(g: Given) -> dict[str, Any]:
    """Reorder point of normal demand."""
    found = reorder_point(g["mean"], g["sd"], g["L"], g["target"], sd_L=one(g, "sd_L") or 0.0)
    return {**found._asdict(), "ROP": found.r, "safety_stock": found.safety}


def fill(g: Given) -> float:
    """Share filled of (r, Q) with normal demand in the lead time."""
    return normal_fill(g["r"], g["Q"], g["mean"], g["sd"])


def waiting(g: Given) -> dict[str, Any]:
    """Both Erlang figures; the share that waits only where the queue ends."""
    traffic, c = one(g, "a", "traffic"), one(g, "c", "servers")
    if traffic is None:
        traffic = one(g, "lam", "rate") / g["mu"]
    if c is None:
        raise WrongInput("The number of benches c is needed.")
    found: dict[str, Any] = {
        "a": traffic,
        "B": erlang_b(traffic, c),
        "blocked": erlang_b(traffic, c),
    }
    if traffic < c:
        found |= {"C": erlang_c(traffic, c), "waits": erlang_c(traffic, c)}
    return found


ROADS = (
    (("cu", "co"), (), by_money),
    (("price", "cost"), (), by_money),
    (("sell", "cost"), (), by_money),
    (("D", "K", "h"), (), square_root),
    (("mean", "sd", "L", "target"), (), point),
    (("r", "Q", "mean", "sd"), (), fill),
    (("a", "c"), (), waiting),
    (("traffic", "servers"), (), waiting),
    (("lam", "mu", "c"), (), waiting),
)
"""Formulas of this module, by the names they go by."""
