"""Worked examples of the reference that are not in the case file, by the names of their figures."""

from __future__ import annotations

from typing import Any

import pytest

from inventory.errors import WrongInput
from inventory.stock.answer import answer
from inventory.stock.answer_demand import _rule
from tests.stock.demand_file import carparts

SHORT = [0, 0, 3, 0, 4, 0, 0, 0, 2, 0]  # source: tests of intermittent-forecast 1.0.0 (MIT)
PULL = {"post_a": 6.5, "post_b": 10, "v": 32, "g": 0.5, "h": 0.25, "H": 12}
SURE = {"s": 2, "untested": 1, "good": 10**9, "pulled": 10**9}
DONORS = {"s": 1, "donors": 1}
DONOR = {**DONORS, "alpha": 3, "beta": 1, "mean": 1.3}
PRICE = {"price": 40, "holding_per_month": 0.02, "shortage_cost_per_unit_month": 20}
NORMAL = {"h": 0.18, "p": 0.7, "mean": 50, "sd": 8}
QUICK = {"y": SHORT, "alpha": 0.5, "beta": 0.2, "init": "mean"}
MV = [31.36, 30.27, 28.51, 26.06, 23.03, 19.66, 16.20, 12.87, 9.82]  # source: reference section 3

# heading, figures, one figure of the answer, its published value, tolerance.
# Sources: reference sections 1 to 4 (textbooks and handbooks named there).
FIGURES: list[tuple[str, dict[str, Any], str | None, Any, float]] = [
    ("Poisson newsvendor", {"h": 1, "p": 4, "mean": 6}, "cost", 3.570107, 1e-6),
    ("its cost", {"h": 1, "p": 4, "mean": 6, "base_stock_level": 5}, "cost", 6.590296, 1e-6),
    ("base stock", {"h": 0.08, "p": 1.25, "mean_per_period": 18, "lead_time": 4}, "S", 105, 0),
    ("(r,Q)", {"h": 20, "p": 150, "K": 100, "rate": 1.5, "L": 2}, "cost", 107.92358, 1e-5),
    (
        "(r,Q) cost",
        {"h": 20, "p": 150, "K": 100, "rate": 1.5, "L": 2, "r": 3, "Q": 5},
        "cost",
        107.92358,
        1e-5,
    ),
    ("(s,S)", {"h": 40, "p": 125, "K": 150, "mean": 4}, "cost", 223.5748, 1e-4),
    ("normal", NORMAL, "S", 56.60396, 1e-5),
    (
        "normal, L=4",
        {**NORMAL, "lead_time": 4},
        "cost",
        4.466781,
        1e-6,
    ),
    ("normal loss", {"x": 18.6, "mean": 15, "sd": 3}, None, [0.168307, 3.768307], 1e-6),
    ("fills", {"lead_time_demand_mean": 10, "r": [13, 15]}, None, [0.864464, 0.951260], 1e-6),
    ("smallest r", {"lead_time_demand_mean": 10, "target": 0.95}, "r", 15, 0),
    ("service", {"r": 3, "Q": 5, "mean": 3}, "csl", 0.647232, 1e-6),
    ("service", {"r": 3, "Q": 5, "lead_time_demand_mean": 3}, "fill", 0.867, 5e-4),
    ("service", {"r": 3, "Q": 5, "rate": 1.5, "L": 2}, "fill", 0.867, 5e-4),
    ("level 8", {"mean": 6, "S": 8}, "on_hand", (3.570107 + 4 * 2) / 5, 1e-6),  # from example 4.7
    ("review", {"mean_per_day": 1.5, "L": 3, "target": 0.95}, "S", 10, 0),
    ("fill", {"rate": 1.5, "L": 3, "S": 9}, "exact", 0.91071, 1e-5),
    ("budget", {"mean": [1.0, 0.2], "price": [10, 1], "budget": 22}, "S", [2, 2], 0),
    (
        "budget",
        {"items": [{"mean": 1.0, "price": 10}, {"mean": 0.2, "price": 1}], "budget": 22},
        "spent",
        22,
        0,
    ),
    (
        "ratio",
        {"price": 40, "holding_per_month": 0.02, "shortage_cost_per_unit_month": 20},
        "ratio",
        0.961538,
        1e-6,
    ),
    ("NB level", {"r": 1.3, "p": 0.5, "q": 0.95}, None, 4, 0),
    ("levels", {"n": 6, "T": 8, "a": 0.5, "b": 2, "P": [1, 2], "q": 0.95}, None, [2, 4], 0),
    ("levels", {"uses": 6, "months": 8, "prior": [0.5, 2], "P": 2, "q": 0.95}, None, 4, 0),
    ("NB against plug-in", {"n": 2, "T": 3, "prior": {"a": 0.5, "b": 1}, "P": 2}, "S_nb", 4, 0),
    ("NB against plug-in", {"n": 2, "T": 3, "a": 0.5, "b": 1, "P": 2}, "S_poisson", 3, 0),
    ("moments", {"mean": 2.0, "var": 1.0, "q": 0.95}, "S_nb", 5, 0),
    ("discounted", {"y": [2, 0, 1], "w": 0.5, "P": 1}, "n", 1.5, 0),
    ("discounted", {"y": [2, 0, 1], "discount": 0.5}, "T", 1.75, 0),
    ("compound", {"lam": 3, "sizes": [1.0], "q": 0.95}, "S", 6, 0),
    ("compound", {"rate": 1.5, "P": 2, "EZ": 2.0, "EZ2": 5.0}, "var", 15.0, 1e-9),
    (
        "Croston",
        QUICK,
        "forecast",
        0.904605,
        1e-6,
    ),
    ("SBA", QUICK, "forecast", 0.8141447, 1e-6),
    ("SBJ", QUICK, "forecast", 0.804094, 1e-6),
    ("TSB", {"y": SHORT, "alpha": 0.3, "beta": 0.1, "init": "share"}, "forecast", 0.9111351, 1e-6),
    ("ADI and class", {"y": [0, 2, 0, 2]}, "adi", 1.5, 1e-9),
    ("pattern", {"y": [0, 2, 0, 2]}, "class", "intermittent", 0),
    ("class", {"adi": 2, "cv2": 0.6}, None, "lumpy", 0),
    ("Wilson", {"k": 1, "n": 29}, None, [0.0061, 0.1718], 5e-5),
    ("Jeffreys", {"k": 2, "n": 7}, None, [0.065, 0.648], 5e-4),
    ("MTBF", {"T": 800, "r": 2, "conf": 0.9}, "factors", [0.3177, 5.6281], 5e-5),
    ("flag", {"fails": 5, "part_months": 70, "pool": 0.02}, "lower5", 0.0203, 5e-5),
    ("flag", {"failures": 5, "exposure": 70, "pool": [1.5, 75]}, "p_gt_2x", 0.56, 5e-3),
    ("flag", {"f": 5, "exposure": 70, "a": 1.5, "b": 75}, "shrunk", 0.0448, 5e-5),
    ("KM", {"time": [6, 6, 7], "event": [1, 0, 1]}, None, [2 / 3, 0.0], 1e-9),
    ("MV", PULL, "MV", MV, 5e-3),
    ("MV", {**PULL, "q": 0.75, "cost": 9}, "pull_while_stock_below", 8, 0),
    ("MV", {**PULL, "q": 0.75, "minutes": 15, "wage": 36}, "cost", 9.0, 0),
    ("Monte Carlo", {**PULL, "s": 2}, None, 28.512, 5e-4),
    ("MV over untested", {**PULL, "s": 2, "pmf": [0.0, 1.0]}, None, 26.06, 5e-3),
    (
        "MV over untested",
        {**PULL, **SURE},
        None,
        26.06,
        5e-3,
    ),
    ("MV at two stocks", {**PULL, "s": [0, 2]}, "MV", [31.36, 28.51], 5e-3),
    ("closed form", {**PULL, "q": 0.75, "cost": 9}, "keep_max", 9, 0),
    ("waiting", {"k": 1, "H": 12, "lam": 0.5}, None, 1.995042, 1e-6),
    ("waiting", {"k": 1, "H": 12, "post_a": 6.5, "post_b": 10}, None, 1.794396, 1e-6),
    ("donors", DONOR, "p_short", 0.20046, 1e-5),
    (
        "donors",
        {"s": 1, "donors": 1, "pmf": [1.0], "post_a": 1, "post_b": 1, "P": 1},
        "p_short",
        0.25,
        1e-9,
    ),
]


@pytest.mark.parametrize(("what", "figures", "name", "published", "tol"), FIGURES)
def test_an_example_is_answered_by_its_names(
    what: str, figures: dict[str, Any], name: str | None, published: Any, tol: float
) -> None:
    """Figure by figure as published."""
    found = answer(what, figures)
    value = found if name is None else found[name]

    assert value == (pytest.approx(published, abs=tol) if tol else published)


def test_candidates_are_listed_best_first() -> None:
    """By q MV per minute; what does not pay is left out."""
    pieces = [
        {"name": "slow", "post_a": 6.5, "post_b": 10, "v": 32, "q": 0.9, "minutes": 25},
        {"name": "quick", "post_a": 6.5, "post_b": 10, "v": 32, "q": 0.9, "minutes": 5},
        {"name": "dear", "post_a": 6.5, "post_b": 10, "v": 2, "q": 0.9, "minutes": 60},
    ]

    assert answer("list", {"candidates": pieces, "wage": 36}) == ["quick", "slow"]


def test_all_four_forecasts_where_none_is_named() -> None:
    """One history, four means."""
    found = answer("product C", {"y": SHORT, "alpha": 0.1})

    assert found["sbj"] < found["sba"] < found["croston"] == found["forecast"]
    assert found["tsb"] > 0


def test_names_nobody_knows_are_refused() -> None:
    """The sentence lists them."""
    with pytest.raises(WrongInput, match="No formula takes these names: crystal, tea"):
        answer("?", {"tea": 1, "crystal": 2})


def test_a_back_test_needs_its_data_and_a_rule() -> None:
    """Both are asked for in one sentence."""
    with pytest.raises(WrongInput, match="needs the demand file"):
        answer("normal", {"warm_up": 12, "L": 1})
    with pytest.raises(WrongInput, match="No stock rule goes by 'tarot'"):
        _rule("tarot")


# heading, cost, fill. Source: reference section 5, carparts, L = 1.
TABLE = [
    ("fixed level 3", 6.31, 0.701),
    ("normal mean+1.645sd", 5.84, 0.810),
    ("normal, last 6 months", 5.76, 0.848),
    ("Poisson, sample mean", 6.13, 0.730),
    ("TSB+Poisson", 5.60, 0.781),
    ("NB sample mean+var", 5.94, 0.800),
    ("GP Gamma(0.5,1) w=.95", 5.32, 0.795),
]


@pytest.mark.parametrize(("heading", "cost", "fill"), TABLE)
def test_the_reference_table_comes_out_again(heading: str, cost: float, fill: float) -> None:
    """Cost to a hundredth, fill to a thousandth."""
    found = answer(heading, {"warm_up": 12, "L": 1, "target": 0.95}, carparts())

    assert found["cost_h1_b19"] == pytest.approx(cost, abs=0.006)
    assert found["fill"] == pytest.approx(fill, abs=0.0006)
