"""Nothing, words, nan, too much: one sentence each, and never a figure that is none."""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import asdict, is_dataclass
from typing import Any

import pytest

from inventory import stock
from inventory.errors import WrongInput
from inventory.stock.answer import answer

NAN, INF = float("nan"), float("inf")

ONE_FIGURE: dict[str, Callable[[Any], Any]] = {
    "newsvendor mean": lambda v: stock.poisson_newsvendor(1, 4, v),
    "newsvendor shortage": lambda v: stock.poisson_newsvendor(1, v, 6),
    "normal mean": lambda v: stock.normal_newsvendor(1, 4, v, 2),
    "base stock lead time": lambda v: stock.base_stock(1, 4, 6, v),
    "(r, Q) order cost": lambda v: stock.rq_policy(1, 4, v, 2, 1),
    "(s, S) mean": lambda v: stock.ss_policy(1, 4, 5, v),
    "level uses": lambda v: stock.gamma_poisson_level(v, 8),
    "level months": lambda v: stock.gamma_poisson_level(1, v),
    "level target": lambda v: stock.gamma_poisson_level(1, 8, q=v),
    "croston": lambda v: stock.croston([1, 0, v]),
    "tsb": lambda v: stock.tsb([1, 0, v]),
    "class": lambda v: stock.demand_class([1, 0, v, 2]),
    "discounted": lambda v: stock.discounted([1, v]),
    "wilson": lambda v: stock.wilson(1, v),
    "jeffreys": lambda v: stock.jeffreys(v, 5),
    "mtbf hours": lambda v: stock.mtbf_interval(v, 2),
    "mtbf failures": lambda v: stock.mtbf_interval(100, v),
    "survival": lambda v: stock.kaplan_meier([1, v], [2]),
    "rate": lambda v: stock.failure_rate([1], [v]),
    "wear": lambda v: stock.wear_rate(v, 10, stock.GammaPoisson(1, 50)),
    "yield": lambda v: stock.beta_binomial_yield(1, 1, v, 10, 3),
    "pull cost": lambda v: stock.pull_value(1, post_a=1, post_b=2, v=9, cost=v),
    "keep cost": lambda v: stock.keep_max(post_a=1, post_b=2, q=0.5, cost=v, v=9),
    "budget": lambda v: stock.greedy_levels([1.0], [10], budget=v),
    "prior": lambda v: stock.fit_prior([1, v], [5, 5]),
    "prior months": lambda v: stock.fit_prior([1, 2], [5, v]),
    "critical ratio": lambda v: stock.critical_ratio(v, 0.02, 20),
    "fill": lambda v: stock.fill_rq(1, v, 2),
    "erlang": lambda v: stock.erlang_b(v, 3),
}
"""A formula with one figure left open; below zero, nan and the like are never right there."""


@pytest.mark.parametrize("wrong", [-1, NAN, INF, None, "six", 1e300], ids=str)
@pytest.mark.parametrize("name", ONE_FIGURE)
def test_what_is_no_figure_ends_in_a_sentence(name: str, wrong: Any) -> None:
    """Refused, in words that end like a sentence."""
    with pytest.raises(WrongInput) as refused:
        ONE_FIGURE[name](wrong)

    assert str(refused.value).endswith(".")
    assert "\n" not in str(refused.value)


def _figures(found: Any) -> list[float]:
    """Every figure in an answer."""
    if is_dataclass(found) and not isinstance(found, type):
        found = asdict(found)
    if isinstance(found, dict):
        found = list(found.values())
    if isinstance(found, (list, tuple)):
        return [figure for part in found for figure in _figures(part)]
    return [float(found)] if isinstance(found, (int, float)) else []


HISTORIES: tuple[list[float], ...] = ([], [0], [0, 0, 0], [5], [0, 0, 7], [1e9, 0, 1e9])
METHODS = ("croston", "sba", "sbj", "tsb", "demand_class", "discounted")


@pytest.mark.parametrize("y", HISTORIES, ids=str)
@pytest.mark.parametrize("name", METHODS)
def test_a_thin_history_never_gives_nan(name: str, y: list[float]) -> None:
    """No demand, one demand, huge demand: a figure or None, never nan or infinity."""
    found = getattr(stock, name)(y)

    assert all(math.isfinite(figure) for figure in _figures(found))


def test_no_demand_is_no_forecast() -> None:
    """Zero a month, and nothing said about size, interval or class."""
    assert (stock.croston([0, 0]).forecast, stock.croston([0, 0]).size) == (0.0, None)
    assert stock.demand_class([0, 0]) == (None, None, None)
    assert stock.demand_class([0, 3])[1:] == (None, None)


@pytest.mark.parametrize(
    ("heading", "figures", "sentence"),
    [
        ("newsvendor", {"h": 1, "p": None, "mean": 6}, "p must be a number, not None"),
        ("newsvendor", {"h": 1, "p": "4", "mean": 6}, "p must be a number, not '4'"),
        ("price", {"price": 4, "holding_per_month": 0.02}, "does not say shortage_cost"),
        ("TSB", {"y": 5}, "No formula can work with these figures: y=5"),
        ("EOQ", {"D": 1, "K": 1, "h": 0}, "h must be above zero"),
        ("lots", {"h": 1, "p": 9, "K": 1e12, "rate": 2, "L": 1}, "beyond this search"),
        ("?", {}, "No formula takes these names"),
    ],
)
def test_a_worked_example_with_a_hole_says_which(
    heading: str, figures: dict[str, Any], sentence: str
) -> None:
    """Missing, worded or impossible figures of an example."""
    with pytest.raises(WrongInput, match=sentence):
        answer(heading, figures)


def test_large_but_possible_counts_are_worked() -> None:
    """A million a month, as nobody sells, is still exact to the piece; ten million more is not."""
    assert stock.poisson_newsvendor(1, 1, 1e6).S == 1_000_000
    with pytest.raises(WrongInput, match="out of all range"):
        stock.poisson_newsvendor(1, 1, 2e7)
