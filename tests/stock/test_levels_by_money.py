"""Square-root lots, normal safety stock, priced newsvendors and waiting lines."""

from __future__ import annotations

from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from inventory.errors import WrongInput
from inventory.stock.answer import answer
from inventory.stock.counts import Poisson
from inventory.stock.economic import economic_batch, economic_order, normal_fill, reorder_point
from inventory.stock.waiting import erlang_b, erlang_c

SHOE = {"price": 190, "cost": 110, "salvage": 90, "mean": 3192, "sd": 1181}
GIFTS = {"price": 9.5, "cost": 4.25, "salvage": 2, "goodwill": 1.5, "mean": 250, "sd": 40}
PAPER = {"price": 20, "cost": 14, "salvage": 5}

# heading, figures, name, value, tolerance, source beside it.
FIGURES: list[tuple[str, dict[str, Any], str, float, float]] = [
    # Russell & Taylor, carpet store (zamnolence.github.io scmo-slides 08)
    ("EOQ", {"D": 10000, "K": 150, "h": 0.75}, "Q", 2000, 1e-9),
    ("EOQ", {"D": 10000, "K": 150, "h": 0.75}, "orders", 5, 1e-9),
    # neoprimate.github.io IEOR (Q, r): 775, 1549; 33 a day, sd 5, 14 days, 95 %: 493
    ("EOQ", {"annual_demand": 12000, "order_cost": 50, "h": 2}, "Q", 775, 0.5),
    ("EOQ", {"D": 12000, "K": 50, "h": 2}, "cost", 1549, 0.5),
    ("reorder point", {"mean": 33, "sd": 5, "L": 14, "target": 0.95}, "ROP", 493, 0.5),
    # stockpyl docs after Snyder & Shen 2e, examples 3.1, 3.8, 3.10 (from memory)
    ("EOQ", {"D": 1300, "K": 8, "h": 0.225}, "Q", 304.04678, 1e-4),
    ("EOQ", {"D": 1300, "K": 8, "h": 0.225}, "cost", 68.410526, 1e-5),
    ("EOQ", {"D": 1300, "K": 8, "h": 0.225, "p": 5}, "Q", 310.812555, 1e-5),
    ("EOQ", {"D": 1300, "K": 8, "h": 0.225, "p": 5}, "cost", 66.921364, 1e-5),
    ("EPQ", {"D": 1300, "K": 8, "h": 0.225, "production_rate": 1700}, "Q", 626.808495, 1e-5),
    # justaaa.com 787684: 12 a day, sd 4, 9 days, 80 %: 118, safety 10
    ("reorder point", {"mean": 12, "sd": 4, "L": 9, "target": 0.80}, "r", 118, 0.5),
    ("reorder point", {"mean": 12, "sd": 4, "L": 9, "target": 0.80}, "safety", 10, 0.2),
    # Chopra & Meindl, uncertain lead time: 2500, 500, 7 days, sd 7, 90 %: 17,550 and 22,491
    # (from memory)
    ("", {"mean": 2500, "sd": 500, "L": 7, "sd_L": 7, "target": 0.9}, "sd", 17550, 1),
    ("", {"mean": 2500, "sd": 500, "L": 7, "sd_L": 7, "target": 0.9}, "safety_stock", 22491, 1),
    # Cachon & Terwiesch, hammer wetsuit: ratio .8; at 4196: 1134 left, 222,280 (from memory)
    ("newsvendor", SHOE, "ratio", 0.8, 1e-9),
    ("newsvendor", {**SHOE, "S": 4196}, "left_over", 1134, 1),
    ("newsvendor", {**SHOE, "S": 4196}, "expected_sales", 3062, 1),
    ("newsvendor", {**SHOE, "S": 4196}, "profit", 222280, 100),
    # brainmass 78317 (figures; answers computed apart): .75, 276.98
    ("newsvendor", GIFTS, "ratio", 0.75, 1e-9),
    ("newsvendor", GIFTS, "Q", 276.98, 0.005),
    # essayzeus 36994 (figures; answers computed apart): .4, uniform 80 to 150: 108, N(115, 15)
    ("newsvendor", {**PAPER, "low": 80, "high": 150}, "Q", 108, 1e-9),
    ("newsvendor", {**PAPER, "mean": 115, "sd": 15}, "Q", 111.20, 0.005),
    # tutorsglobe 51686518 and 52554787 (figures; answers computed apart)
    ("newsvendor", {"cu": 30, "co": 20, "mean": 1000, "sd": 200}, "Q", 1050.67, 0.005),
    ("newsvendor", {"cu": 40, "co": 10, "mean": 1000, "sd": 200}, "Q", 1168.32, 0.005),
    # Snyder & Shen 2e, example 4.7 by its costs: 8, 3.570107
    ("newsvendor", {"cu": 4, "co": 1, "mean": 6}, "S", 8, 0),
    ("newsvendor", {"cu": 4, "co": 1, "mean": 6}, "cost", 3.570107, 1e-6),
    # chances given one by one: F(1) = .5 < .75 <= F(2) (by hand)
    ("newsvendor", {"cu": 3, "co": 1, "pmf": {0: 0.2, 1: 0.3, 2: 0.3, 5: 0.2}}, "S", 2, 0),
    # Erlang tables: 3 erlang on 5 .1101, 2 on 3 waiting .4444; Mathematica page: 25 on 30 about .05
    ("Erlang", {"a": 3, "c": 5}, "B", 0.1101, 5e-5),
    ("Erlang", {"a": 2, "c": 3}, "C", 0.4444, 5e-5),
    ("Erlang", {"a": 25, "c": 30}, "B", 0.05, 5e-3),
    ("Erlang", {"lam": 6, "mu": 3, "c": 3}, "waits", 0.4444, 5e-5),
]  # fmt: skip


@pytest.mark.parametrize(("heading", "figures", "name", "value", "tol"), FIGURES)
def test_a_textbook_level_comes_out(
    heading: str, figures: dict[str, Any], name: str, value: float, tol: float
) -> None:
    """By the names of its figures."""
    assert answer(heading, figures)[name] == pytest.approx(value, abs=tol)


def test_chopra_fill() -> None:
    """R 6,000, Q 10,000, mean 5,000, sd 707: .9975. Source: Chopra & Meindl (from memory)."""
    figures = {"r": 6000, "Q": 10000, "mean": 5000, "sd": 707}

    assert answer("fill rate", figures) == pytest.approx(0.9975, abs=5e-5)
    assert normal_fill(0, 1, 5000, 707) == 0.0


@given(st.floats(1, 1e5), st.floats(0.1, 1e3), st.floats(0.01, 100))
def test_no_other_lot_is_cheaper(D: float, K: float, h: float) -> None:
    """K D/Q + h Q/2 is least at the square root."""
    found = economic_order(D, K, h)

    for Q in (0.9 * found.Q, 1.1 * found.Q):
        assert K * D / Q + h * Q / 2 > found.cost
    assert pytest.approx(found.Q, rel=1e-4) == economic_order(D, K, h, p=1e9).Q
    assert economic_batch(D, K, h, rate=1e3 * D).Q > found.Q


@given(st.floats(0.01, 60), st.integers(0, 80))
def test_erlang_b_is_the_last_share_of_a_cut_poisson(a: float, c: int) -> None:
    """p(c)/F(c) of Poisson(a): another road to the same figure."""
    demand = Poisson(a)
    assert erlang_b(a, c) == pytest.approx(demand.pmf(c) / demand.cdf(c), rel=1e-6, abs=1e-12)


def test_one_bench_waits_as_often_as_it_works() -> None:
    """M/M/1: the share that waits is the traffic."""
    assert erlang_c(0.8, 1) == pytest.approx(0.8)
    assert erlang_c(0, 1) == 0.0


@pytest.mark.parametrize(
    ("figures", "sentence"),
    [
        ({"a": 3, "c": 3, "x": None}, None),
        ({"D": 0, "K": 1, "h": 1}, "D must be above zero"),
        ({"cu": 0, "co": 1}, "underage must be above zero"),
        ({"price": 5, "cost": 9}, "underage must be above zero"),
        ({"mean": 5, "sd": 1, "L": 2, "target": 1}, "target must lie between"),
        ({"r": 1, "Q": 0, "mean": 5, "sd": 1}, "Q must be above zero"),
        ({"traffic": 2, "servers": 10**9}, "out of all range"),
    ],
)
def test_figures_that_ask_for_nothing_are_refused(
    figures: dict[str, Any], sentence: str | None
) -> None:
    """One sentence; a queue that never ends has no waiting share instead of a wrong one."""
    if sentence is None:
        assert "C" not in answer("Erlang", figures)
        return
    with pytest.raises(WrongInput, match=sentence):
        answer("", figures)


def test_an_endless_queue_is_said() -> None:
    """Traffic at or above the benches."""
    with pytest.raises(WrongInput, match="needs more than 3 benches"):
        erlang_c(3, 3)
    with pytest.raises(WrongInput, match="rate_above_demand must be above zero"):
        economic_batch(10, 1, 1, 10)


def test_a_sure_lead_time_has_no_extra_stock() -> None:
    """Half the cycles without shortage need none; none spread, none kept."""
    assert reorder_point(12, 4, 9, 0.5).safety == pytest.approx(0.0)
    assert reorder_point(12, 0, 9, 0.99).r == 108
