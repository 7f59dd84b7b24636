"""Newsvendor levels, against the textbook's answers and against plain search."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from inventory.errors import WrongInput
from inventory.stock.counts import NegativeBinomial, Poisson
from inventory.stock.reorder import (
    base_stock,
    critical_ratio,
    expected_sales,
    level_for_service,
    newsvendor,
    newsvendor_cost,
    normal_newsvendor,
    poisson_newsvendor,
)


def test_snyder_and_shen_example_4_7() -> None:
    """Snyder & Shen 2e, example 4.7: 8 pieces, 3.570107; at 5 pieces 6.590296."""
    assert poisson_newsvendor(h=1, p=4, mean=6) == pytest.approx((8, 3.570106945), abs=1e-8)
    assert poisson_newsvendor(1, 4, 6, S=5).cost == pytest.approx(6.590296, abs=1e-6)


def test_snyder_and_shen_problem_4_8a() -> None:
    """Snyder & Shen 2e, problem 4.8(a): 19, 786.0884409."""
    assert poisson_newsvendor(200, 270, 18) == pytest.approx((19, 786.0884409), abs=1e-6)


def test_snyder_and_shen_normal_examples() -> None:
    """Snyder & Shen 2e, example 4.3: 56.60396, 1.997605; 4.4 (L = 4): 264.7669, 4.466781."""
    assert normal_newsvendor(0.18, 0.70, 50, 8) == pytest.approx((56.60396, 1.997605), abs=1e-5)
    assert normal_newsvendor(0.18, 0.70, 50, 8, lead_time=4) == pytest.approx(
        (264.7669, 4.466781), abs=1e-4
    )


def test_nahmias_newsstand() -> None:
    """Nahmias' newsstand, N(11.73, 4.74), underage .50, overage .15 (costs from memory): 15.22."""
    assert pytest.approx(15.22, abs=0.01) == normal_newsvendor(0.15, 0.50, 11.73, 4.74).S


def test_lead_time_covers_the_review_too() -> None:
    """SCMO problem 4.19: L = 4 means five periods: 105, 1.545019."""
    assert base_stock(0.08, 1.25, 18, 4) == pytest.approx((105, 1.5450188691551778), abs=1e-9)


@given(st.floats(0.1, 5), st.floats(0.1, 50), st.floats(0.05, 40))
def test_no_other_level_is_cheaper(h: float, p: float, mean: float) -> None:
    """The level found costs no more than any other near it."""
    S, cost = poisson_newsvendor(h, p, mean)
    demand = Poisson(mean)

    assert all(cost <= newsvendor_cost(y, h, p, demand) + 1e-9 for y in range(max(0, S - 3), S + 4))


def test_the_newsvendor_takes_any_counts() -> None:
    """With wider demand more is kept."""
    assert newsvendor(1, 19, NegativeBinomial(1.3, 0.5)).S > poisson_newsvendor(1, 19, 1.3).S


def test_a_dearer_part_is_kept_less_often() -> None:
    """The target falls with the price."""
    assert critical_ratio(40, 0.02, 20) == pytest.approx(0.961538, abs=1e-6)
    assert critical_ratio(400, 0.02, 20) < critical_ratio(40, 0.02, 20)


def test_the_staircase_is_not_interpolated() -> None:
    """F(10) = .995566 does not reach 99.6 %, so 11 are needed; sales at 6 are 3.995869."""
    assert level_for_service(0.996, 4.25) == 11
    assert expected_sales(6, 4.25) == pytest.approx(3.995869, abs=1e-6)


@pytest.mark.parametrize(("h", "p"), [(0, 1), (1, 0), (-1, 4), (float("nan"), 1)])
def test_free_stock_or_free_shortage_is_refused(h: float, p: float) -> None:
    """Both costs must be above zero."""
    with pytest.raises(WrongInput, match="must be above zero"):
        poisson_newsvendor(h, p, 6)
