"""The replay itself, on histories small enough to follow by hand."""

from __future__ import annotations

from pathlib import Path

import numpy as np
import pytest

from inventory.errors import NotFound, WrongInput
from inventory.stock.backtest import Levels, judge, paired, read_wide, replay
from inventory.stock.policies import fixed, gamma_poisson


def test_one_item_by_hand() -> None:
    """Level 2, one month of lead time, demand 1 2 3 0 0 after the warm-up.

    Month 1 starts with 2 and ends with 1. Month 2 orders 1 and ends at -1. Month 3 orders 2,
    gets the 1, ends at -3. Month 4 orders 3, gets the 2, ends at -1. Month 5 gets the 3: 2.
    Scored are months 2 to 5.
    """
    demand = np.array([[0.0, 1, 2, 3, 0, 0]])
    score = replay(demand, Levels(np.full((1, 5), 2.0)), L=1, warm_up=1)

    assert (score.csl, score.on_hand, score.backorders) == pytest.approx((1 / 4, 2 / 4, 5 / 4))
    assert score.fill == pytest.approx(1 / 5)
    assert score.cost == pytest.approx(0.5 + 19 * 1.25)


def test_without_lead_time_orders_are_there_at_once() -> None:
    """L = 0: each month starts at the level."""
    demand = np.array([[0.0, 1, 2, 3]])
    score = replay(demand, Levels(np.full((1, 3), 2.0)), L=0, warm_up=1)

    assert score.fill == pytest.approx(5 / 6)
    assert score.csl == pytest.approx(2 / 3)


def test_a_level_that_falls_orders_nothing() -> None:
    """What is too much is kept, not sent back."""
    demand = np.zeros((1, 6))
    score = replay(demand, Levels(np.array([[5.0, 0, 0, 0, 0]])), L=1, warm_up=1)

    assert score.on_hand == 5
    assert score.fill == 1.0


def test_months_before_a_parts_start_are_not_scored() -> None:
    """A part that came in month 4 is judged from there."""
    demand = np.array([[0.0, 9, 9, 0, 0, 0, 0, 0]])
    levels = Levels(np.full((1, 7), 1.0))
    late = replay(demand, levels, L=1, warm_up=1, start=np.array([5.0]))

    assert late.csl == 1.0
    assert replay(demand, levels, L=1, warm_up=1).csl < 1.0


def test_no_rule_looks_ahead() -> None:
    """Changing the last month changes no level."""
    rng = np.random.default_rng(3)
    demand = rng.poisson(0.5, (40, 24)).astype(float)
    other = demand.copy()
    other[:, -1] += 50

    rule = gamma_poisson()
    assert (rule(demand, 12, 2, 0.95).S == rule(other, 12, 2, 0.95).S).all()


def test_on_poisson_demand_the_claim_is_kept() -> None:
    """Where its assumptions hold, the rule delivers what it claims, and a little more.

    More, because a level that fell leaves more on the shelf than it asks for.
    """
    rng = np.random.default_rng(12)
    rates = rng.gamma(0.8, 1 / 1.6, 800)
    demand = rng.poisson(rates[:, None], (800, 40)).astype(float)
    score = judge(demand, gamma_poisson(discount=1.0))

    assert score.claimed is not None
    assert score.claimed - 0.002 <= score.csl <= score.claimed + 0.01


def test_higher_targets_hold_more_and_owe_less() -> None:
    """Along one rule."""
    demand = np.random.default_rng(5).poisson(0.6, (60, 24)).astype(float)
    low, high = (judge(demand, gamma_poisson(), target=q) for q in (0.8, 0.99))

    assert (low.on_hand, low.fill) < (high.on_hand, high.fill)
    assert low.backorders > high.backorders


def test_paired_intervals() -> None:
    """Mean of the differences, and 1.96 standard errors of it."""
    found = paired(np.array([1.0, 2, 3, 6]), np.array([1.0, 1, 1, 1]))

    assert found.mean == pytest.approx(2.0)
    assert found.half_width == pytest.approx(1.96 * np.std([0, 1, 2, 5], ddof=1) / 2)
    assert not found.sure


def test_too_short_a_history_is_refused() -> None:
    """Nothing would be left to score."""
    with pytest.raises(WrongInput, match="more than 13 months, not 13"):
        judge(np.zeros((2, 13)), fixed(2))
    with pytest.raises(WrongInput, match="No month is left"):
        replay(np.zeros((1, 5)), Levels(np.ones((1, 4))), warm_up=1, start=np.array([99.0]))
    with pytest.raises(WrongInput, match="target must lie between"):
        judge(np.zeros((2, 20)), fixed(2), target=1.0)


def test_a_demand_file_is_read_without_its_gaps(tmp_path: Path) -> None:
    """Rows with blanks are left out, as in the protocol."""
    path = tmp_path / "demand.csv"
    path.write_text(",2024-01,2024-02\nA,1,2\nB,1,\nC,0,3\n", encoding="utf-8")

    assert read_wide(path).tolist() == [[1, 2], [0, 3]]


def test_a_demand_file_that_is_none_is_refused(tmp_path: Path) -> None:
    """Not there, or not numbers."""
    with pytest.raises(NotFound, match="no demand file"):
        read_wide(tmp_path / "none.csv")
    path = tmp_path / "bad.csv"
    path.write_text(",a\nA,many\n", encoding="utf-8")
    with pytest.raises(WrongInput, match="not a number"):
        read_wide(path)
