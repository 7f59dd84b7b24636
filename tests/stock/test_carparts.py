"""The back-test on public demand data: our default at or below its mark, beside its peers."""

from __future__ import annotations

import pytest

from inventory.stock.backtest import Score, judge, paired, read_wide
from inventory.stock.lumpy import busy_months
from inventory.stock.peers import croston_normal, sba_poisson, tsb_poisson
from inventory.stock.policies import fixed, gamma_poisson, normal
from tests.stock.demand_file import carparts

pytestmark = pytest.mark.slow


@pytest.fixture(scope="module", name="scores")
def _scores() -> dict[str, Score]:
    """All rules on the 2,509 complete items, L = 1, target .95."""
    demand = read_wide(carparts())
    rules = {
        "default": gamma_poisson(),
        "discount .90": gamma_poisson(0.90),
        "busy months": busy_months(),
        "level 2": fixed(2),
        "level 3": fixed(3),
        "level 4": fixed(4),
        "normal": normal(),
        "Croston + normal": croston_normal(),
        "SBA + Poisson": sba_poisson(),
        "TSB + Poisson": tsb_poisson(),
    }
    return {name: judge(demand, rule) for name, rule in rules.items()}


def test_the_default_meets_its_mark(scores: dict[str, Score]) -> None:
    """Cost at or below 5.31 with fill at or above .797 (reference section 5)."""
    assert scores["default"].cost <= 5.31
    assert scores["default"].fill >= 0.797


@pytest.mark.parametrize(
    "peer",
    [
        "level 2",
        "level 3",
        "level 4",
        "normal",
        "Croston + normal",
        "SBA + Poisson",
        "TSB + Poisson",
    ],
)
def test_the_default_costs_less_than_each_peer(scores: dict[str, Score], peer: str) -> None:
    """Paired by item, zero lies outside the 95 % interval."""
    apart = paired(scores["default"].item_cost, scores[peer].item_cost)

    assert apart.mean < 0
    assert apart.sure


@pytest.mark.parametrize("variant", ["discount .90", "busy months"])
def test_what_beats_the_default_is_known(scores: dict[str, Score], variant: str) -> None:
    """A shorter memory, or counting busy months and sizes apart, costs less still."""
    apart = paired(scores[variant].item_cost, scores["default"].item_cost)

    assert apart.mean < 0
    assert apart.sure


def test_the_default_promises_too_much_here_and_busy_months_do_not(
    scores: dict[str, Score],
) -> None:
    """Its own claim is two to three points above what was achieved (reference section 5, b)."""
    default, busy = scores["default"], scores["busy months"]
    assert default.claimed is not None
    assert busy.claimed is not None

    assert 0.015 < default.claimed - default.csl < 0.03
    assert busy.claimed - busy.csl < 0.005
