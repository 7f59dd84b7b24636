"""Worked examples of salvage: yields, marginal values, pull decisions."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from inventory.stock.answer_demand import rate_of
from inventory.stock.answer_names import one
from inventory.stock.counts import Poisson
from inventory.stock.worth import (
    HORIZON,
    Money,
    Pull,
    keep_max,
    marginal_value,
    marginal_value_expected,
    pull_list,
    pull_until,
    waiting_time,
    waiting_time_poisson,
)
from inventory.stock.yields import Yield, beta_binomial_yield, stockout_with_donors

Given = Mapping[str, Any]


def _yield(g: Given) -> dict[str, Any]:
    """Good pieces of so many donors."""
    found = beta_binomial_yield(g["alpha"], g["beta"], g["good"], g["pulled"], g["donors"])
    return {**found._asdict(), "pmf": list(found.pmf)}


def _good_pmf(g: Given) -> list[float]:
    """Chances of 0, 1, 2 ... good pieces, under any of their names."""
    if "pmf" in g:
        return list(g["pmf"])
    prior = Yield(g.get("alpha", 1), g.get("beta", 1))
    m = one(g, "donors", "untested")
    return list(prior.after(g.get("good", 0), g.get("pulled", 0)).of(m))


def _short_with_donors(g: Given) -> dict[str, Any]:
    """Chance of shortage without and with the donors."""
    demand = Poisson(g["mean"]) if "mean" in g else rate_of(g).over(g["P"])
    stock = one(g, "s", "stock", "on_hand")
    with_donors = stockout_with_donors(stock, demand, _good_pmf(g))
    return {"p_short": with_donors, "without": demand.tail(stock), "with": with_donors}


def _money(g: Given) -> Money:
    """Value, scrap and shelf cost."""
    return Money(g["v"], g.get("g", 0.0), g.get("h", 0.0))


def _cost(g: Given) -> float | None:
    """Cost of one pull, given or from wage and minutes."""
    minutes, wage = one(g, "minutes", "t", "time_min"), one(g, "wage", "w", "wage_per_hour")
    if "cost" in g or minutes is None or wage is None:
        return g.get("cost")
    return float(wage * minutes / 60)


def _values(g: Given) -> Any:
    """MV at the stocks asked for, the level up to which a pull pays, and keep-max."""
    rate, money, H = rate_of(g), _money(g), g.get("H", HORIZON)
    stocks = one(g, "s", "stock", "stocks")
    if isinstance(stocks, (int, float)) and _cost(g) is None:
        return _value(g, int(stocks))
    listed = stocks if isinstance(stocks, list) else range(9)
    found: dict[str, Any] = {"MV": [marginal_value(s, rate, money, H) for s in listed]}
    cost, q = _cost(g), one(g, "q")
    if cost is not None and q is not None:
        found["pull_while_stock_below"] = pull_until(rate, money, q=q, cost=cost, H=H)
        found["cost"] = cost
    return found


def _value(g: Given, s: int) -> float:
    """MV(s), over untested pieces where there are some."""
    rate, money, H = rate_of(g), _money(g), g.get("H", HORIZON)
    if "untested" in g or "pmf" in g:
        return marginal_value_expected(s, rate, money, _good_pmf(g), H)
    return marginal_value(s, rate, money, H)


def _keep(g: Given) -> dict[str, Any]:
    """Closed form without shelf cost."""
    rate = rate_of(g)
    terms = {name: g[name] for name in ("q", "cost", "v", "g", "H") if name in g}
    return dict(keep_max(post_a=rate.a, post_b=rate.b, **terms)._asdict())


def _waiting(g: Given) -> float:
    """E[min(T_k, H)]."""
    if "lam" in g:
        return waiting_time_poisson(g["k"], g["lam"], g["H"])
    return waiting_time(g["k"], rate_of(g), g["H"])


def _list(g: Given) -> list[str]:
    """Names of the pulls that pay, in order."""
    pulls = [
        Pull(
            item.get("name", str(i)),
            item.get("s", 0),
            rate_of(item),
            _money(item),
            item["q"],
            one(item, "minutes", "t"),
            item.get("pieces", 1),
        )
        for i, item in enumerate(g["candidates"])
    ]
    found = pull_list(pulls, one(g, "wage", "w"), g.get("H", HORIZON))
    return [name for name, _, _ in found]


ROADS = (
    (("candidates",), (), _list),
    (("v", "cost", "q"), ("closed form", "kappa", "without holding"), _keep),
    (("v",), (), _values),
    (("k", "H"), (), _waiting),
    (("donors", "s"), (), _short_with_donors),
    (("donors", "stock"), (), _short_with_donors),
    (("donors", "on_hand"), (), _short_with_donors),
    (("alpha", "good", "pulled"), (), _yield),
)
"""Formulas of this module, by the names and words they go by."""
