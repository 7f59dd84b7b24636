"""Worked examples by their figures: which formula a set of given names asks for.

A worked example names its figures (``h``, ``p``, ``mean`` ...); the names decide the formula,
words of the heading only where two formulas take the same names. ``answer`` is for checking the
arithmetic against books, not for the bench.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from pathlib import Path
from typing import Any

from inventory.errors import WrongInput
from inventory.stock import answer_demand, answer_levels, answer_salvage, answer_wear, reorder
from inventory.stock.answer_names import one, tidy
from inventory.stock.counts import NegativeBinomial, Poisson
from inventory.stock.fill import (
    expected_backorders,
    expected_on_hand,
    fill_one_for_one,
    fill_periodic,
    fill_rq,
    smallest_r,
)
from inventory.stock.greedy import greedy_levels
from inventory.stock.loss import nb_loss, normal_loss, poisson_loss
from inventory.stock.lots import rq_cost, rq_policy, ss_policy

Given = Mapping[str, Any]
Road = tuple[tuple[str, ...], tuple[str, ...], Callable[[Given], Any]]
"""(names that must be given, words one of which the heading must have, formula)."""


def answer(what: str, given: Given, demand_file: Path | None = None) -> Any:
    """The answer to a worked example: a figure, a list, or figures by name.

    what: its heading or number; given: its figures by name; demand_file: for back-tests, the
    wide CSV they run on.

    >>> answer("Poisson newsvendor", {"h": 1, "p": 4, "mean": 6})["S"]
    8
    >>> [round(x, 6) for x in answer("Wilson 95% interval", {"k": 81, "n": 263})]
    [0.255289, 0.36621]
    """
    figures = tidy(given)
    if "warm_up" in figures:
        return answer_demand.backtest(what, figures, demand_file)
    heading = what.casefold()
    for names, words, formula in _ROADS:
        if all(name in figures for name in names) and (
            not words or any(word in heading for word in words)
        ):
            return _worked(formula, figures)
    raise WrongInput(f"No formula takes these names: {', '.join(sorted(figures))}.")


def _worked(formula: Callable[[Given], Any], figures: Given) -> Any:
    """The formula on these figures; one that is missing or no figure ends in a sentence."""
    try:
        return formula(figures)
    except KeyError as missing:
        raise WrongInput(f"This example does not say {missing.args[0]}.") from missing
    except (TypeError, ValueError, ArithmeticError, AttributeError, IndexError) as wrong:
        shown = ", ".join(f"{name}={value!r}"[:40] for name, value in sorted(figures.items()))
        raise WrongInput(f"No formula can work with these figures: {shown[:200]}.") from wrong


def _newsvendor(g: Given) -> dict[str, Any]:
    """Poisson newsvendor, at its best level or at a given one."""
    S, cost = reorder.poisson_newsvendor(g["h"], g["p"], g["mean"], one(g, "S"))
    return {"S": S, "cost": cost}


def _base_stock(g: Given) -> dict[str, Any]:
    """Base stock over lead time + 1 periods."""
    S, cost = reorder.base_stock(
        g["h"], g["p"], g["mean_per_period"], g.get("lead_time", 0), one(g, "S")
    )
    return {"S": S, "cost": cost}


def _normal(g: Given) -> dict[str, Any]:
    """Normal newsvendor."""
    lead_time = g.get("lead_time", 0)
    S, cost = reorder.normal_newsvendor(g["h"], g["p"], g["mean"], g["sd"], lead_time)
    return {"S": S, "cost": cost}


def _lots(g: Given) -> dict[str, Any]:
    """Best (r, Q), or the cost of a given one."""
    terms = (g["h"], g["p"], g["K"], g["rate"], g["L"])
    if "r" in g and "Q" in g:
        return {"r": g["r"], "Q": g["Q"], "cost": rq_cost(*terms, r=g["r"], Q=g["Q"])}
    return dict(rq_policy(*terms)._asdict())


def _up_to(g: Given) -> dict[str, Any]:
    """Best (s, S)."""
    return dict(ss_policy(g["h"], g["p"], g["K"], g["mean"], g.get("lead_time", 0))._asdict())


def _served_lots(g: Given) -> dict[str, Any]:
    """Service of (r, Q)."""
    mean = one(g, "lead_time_demand_mean", "mean")
    mean = g["rate"] * g["L"] if mean is None else mean
    return dict(fill_rq(g["r"], g["Q"], mean)._asdict())


def _served_one(g: Given) -> Any:
    """Service of (S-1, S)."""
    mean = g["lead_time_demand_mean"]
    if isinstance(g["r"], list):
        return [fill_one_for_one(mean, r) for r in g["r"]]
    return fill_one_for_one(mean, g["r"])


def _smallest_r(g: Given) -> dict[str, Any]:
    """Smallest r for a target, with the fill it reaches."""
    mean = g["lead_time_demand_mean"]
    r = smallest_r(mean, g["target"])
    return {"r": r, "S": r + 1, "fill": fill_one_for_one(mean, r)}


def _on_hand(g: Given) -> dict[str, Any]:
    """Owed and lying pieces at a level."""
    mean = one(g, "mean", "lead_time_demand_mean")
    return {
        "backorders": expected_backorders(g["S"], mean),
        "on_hand": expected_on_hand(g["S"], mean),
        "csl": Poisson(mean).cdf(g["S"]),
        "p_short": Poisson(mean).tail(g["S"]),
        "expected_sales": reorder.expected_sales(g["S"], mean),
    }


def _order_up_to(g: Given) -> dict[str, Any]:
    """Pieces on order, chance of shortage and level of a periodic review."""
    rate, L = one(g, "mean_per_day", "rate"), g["L"]
    demand = Poisson(rate * (L + g.get("review", 1)))
    found: dict[str, Any] = {"on_order": rate * L}
    if "S_query" in g:
        found[f"p_short_S{g['S_query']}"] = demand.tail(g["S_query"])
    if "critical_ratio" in g:
        above, below = g["critical_ratio"]
        found["S_cost"] = demand.quantile(above / below)
    if "target" in g:
        found["S"] = demand.quantile(g["target"])
    return found


def _periodic_fill(g: Given) -> dict[str, Any]:
    """Exact and textbook fill of a periodic level."""
    rate = one(g, "mean_per_day", "rate")
    exact, textbook = fill_periodic(g["S"], rate, g["L"], g.get("review", 1))
    return {"exact": exact, "textbook_1_minus_B_over_mu": textbook}


def _in_stock(g: Given) -> dict[str, Any]:
    """Level for an in-stock target, the share just below it, and expected sales by level."""
    demand = Poisson(g["mean"])
    S = demand.quantile(g["target"])
    sales = {f"expected_sales_at_{k}": reorder.expected_sales(k, g["mean"]) for k in range(S + 1)}
    return {"S": S, f"F{S - 1}": demand.cdf(S - 1), f"F{S}": demand.cdf(S), **sales}


def _priced(g: Given) -> dict[str, Any]:
    """Critical ratio of a price, and the level it asks for."""
    ratio = reorder.critical_ratio(
        g["price"], g["holding_per_month"], g["shortage_cost_per_unit_month"]
    )
    mean = one(g, "lead_time_demand_mean", "mean")
    return {"ratio": ratio, "S": None if mean is None else Poisson(mean).quantile(ratio)}


def _basket(g: Given) -> dict[str, Any]:
    """Greedy levels within a budget."""
    means, prices = one(g, "means", "mean"), one(g, "prices", "price")
    if "items" in g:
        means = [one(item, "mean", "lead_time_demand_mean") for item in g["items"]]
        prices = [item["price"] for item in g["items"]]
    found = greedy_levels(means, prices, budget=g["budget"], benefits=one(g, "benefits", "benefit"))
    return {
        "S": list(found.levels),
        "levels": list(found.levels),
        "spent": found.spent,
        "cost": found.spent,
        "backorders": found.backorders,
        "order": [step.item for step in found.steps],
    }


_ROADS: tuple[Road, ...] = (
    *answer_levels.ROADS,
    (("budget",), (), _basket),
    (("h", "p", "K", "rate", "L"), (), _lots),
    (("h", "p", "K", "mean"), (), _up_to),
    (("h", "p", "mean_per_period"), (), _base_stock),
    (("h", "p", "mean", "sd"), (), _normal),
    (("h", "p", "mean"), (), _newsvendor),
    (("x", "r", "p"), (), lambda g: list(nb_loss(g["x"], g["r"], g["p"]))),
    (("x", "mean", "sd"), (), lambda g: list(normal_loss(g["x"], g["mean"], g["sd"]))),
    (("x", "mean"), (), lambda g: list(poisson_loss(g["x"], g["mean"]))),
    (("r", "Q"), (), _served_lots),
    (("lead_time_demand_mean", "r"), (), _served_one),
    (("price", "holding_per_month"), (), _priced),
    (("lead_time_demand_mean", "target"), (), _smallest_r),
    (("mean", "target"), (), _in_stock),
    (("mean_per_day", "L", "S"), (), _periodic_fill),
    (("mean_per_day", "L"), (), _order_up_to),
    (("rate", "L", "S"), (), _periodic_fill),
    (("mean", "S"), (), _on_hand),
    (("lead_time_demand_mean", "S"), (), _on_hand),
    (("r", "p", "q"), (), lambda g: NegativeBinomial(g["r"], g["p"]).quantile(g["q"])),
    *answer_salvage.ROADS,
    *answer_wear.ROADS,
    *answer_demand.ROADS,
)
