"""Exact bounds against published tables and scipy."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy import stats

from inventory.errors import WrongInput
from inventory.stock.answer import answer
from inventory.stock.exact import (
    agresti_coull,
    clopper_pearson,
    none_failed,
    pieces_to_test,
    poisson_interval,
    rule_of_three,
)
from inventory.stock.intervals import mtbf_interval, wilson

# Clopper-Pearson 95 %. 5 of 25: influentialpoints.com after Conover 1999; the others: Newcombe
# 1998, table I, "exact" (from memory).
EXACT = [
    (5, 25, 0.068, 0.407), (81, 263, 0.2527, 0.3676), (15, 148, 0.0578, 0.1617),
    (0, 20, 0.0, 0.1684), (1, 29, 0.0009, 0.1776),
]  # fmt: skip


@pytest.mark.parametrize(("k", "n", "lower", "upper"), EXACT)
def test_the_exact_interval_is_the_printed_one(k: int, n: int, lower: float, upper: float) -> None:
    """To the digits printed."""
    digits = 5e-4 if n == 25 else 5e-5

    assert clopper_pearson(k, n) == pytest.approx((lower, upper), abs=digits)


@given(st.integers(1, 300), st.floats(0.5, 0.999))
def test_the_exact_interval_is_scipys(n: int, conf: float) -> None:
    """scipy.stats.binomtest, method exact; and it holds Wilson's centre."""
    for k in {0, n // 4, n}:
        theirs = stats.binomtest(k, n).proportion_ci(conf, method="exact")
        assert clopper_pearson(k, n, conf) == pytest.approx((theirs.low, theirs.high), abs=1e-9)


@given(st.integers(1, 300))
def test_agresti_coull_holds_wilson(n: int) -> None:
    """One centre, never narrower. Source: Agresti & Coull 1998."""
    for k in {0, n // 3, n}:
        wide, narrow = agresti_coull(k, n), wilson(k, n)
        assert wide.lower <= narrow.lower + 1e-12
        assert wide.upper >= narrow.upper - 1e-12


# Garwood 1936 95 %, as handbooks print it (from memory); none counted: epitools pois.exact 3.689.
GARWOOD = [
    (0, 0.0, 3.689), (1, 0.0253, 5.572), (2, 0.2422, 7.225), (3, 0.6187, 8.767),
    (5, 1.623, 11.668), (10, 4.795, 18.390), (20, 12.217, 30.888),
]  # fmt: skip


@pytest.mark.parametrize(("k", "lower", "upper"), GARWOOD)
def test_the_interval_of_a_count_is_the_printed_one(k: int, lower: float, upper: float) -> None:
    """To the digits printed."""
    assert poisson_interval(k) == pytest.approx((lower, upper), abs=6e-4)


# None bad of n: upper 95 % bound. Source: Hanley & Lippman-Hand 1983, JAMA 249:1743, table
# (from memory): 10: 26 %, 30: 10 %, 100: 3 %, 1000: .3 %.
@pytest.mark.parametrize(("n", "percent"), [(10, 26), (20, 14), (30, 9.5), (100, 3), (1000, 0.3)])
def test_none_bad_of_n_leaves_a_share_open(n: int, percent: float) -> None:
    """The exact bound and the rule of three."""
    assert 100 * none_failed(n) == pytest.approx(percent, abs=0.5 if n < 100 else 0.05)
    assert rule_of_three(n) >= none_failed(n)


# Success runs (common practice, quality handbooks): pieces that must all pass.
@pytest.mark.parametrize(
    ("reliability", "conf", "pieces"),
    [(0.9, 0.9, 22), (0.9, 0.95, 29), (0.95, 0.95, 59), (0.99, 0.9, 230), (0.5, 0.5, 1)],
)
def test_so_many_must_pass(reliability: float, conf: float, pieces: int) -> None:
    """And one fewer would not do."""
    assert pieces_to_test(reliability, conf) == pieces
    assert none_failed(pieces, conf) <= 1 - reliability + 1e-12


@given(st.floats(1, 1e6), st.integers(1, 40), st.floats(0.5, 0.99))
def test_a_test_ended_by_a_failure_has_scipys_bounds(T: float, r: int, conf: float) -> None:
    """2T/chi² with 2r degrees both ways; time-censored is never more sure below."""
    tail = (1 - conf) / 2
    found = mtbf_interval(T, r, conf, ended_by_failure=True)
    expected = [2 * T / stats.chi2.ppf(q, 2 * r) for q in (1 - tail, tail)]

    assert [found.lower, found.upper] == pytest.approx(expected, rel=1e-7)
    assert mtbf_interval(T, r, conf).lower < found.lower


# heading, figures, answer; the heading decides where two methods take one pair of figures.
BY_HEADING = [
    ("Clopper-Pearson", {"k": 5, "n": 25}, [0.068, 0.407]),
    ("exact binomial", {"k": 0, "n": 10}, [0.0, 0.3085]),
    ("Agresti-Coull", {"k": 4, "n": 20}, [0.0749, 0.4218]),
    ("Wilson", {"k": 4, "n": 20}, [0.0807, 0.4160]),
    ("Jeffreys", {"k": 4, "n": 20}, [0.0715, 0.4082]),
    ("Garwood, Poisson", {"count": 10}, [4.795, 18.390]),
    ("rule of three", {"n": 300}, 0.01),
    ("zero failures, upper bound", {"k": 0, "n": 59, "conf": 0.95}, 0.0495),
    ("one-sided upper bound", {"k": 1, "n": 20, "conf": 0.95}, 0.2161),
    ("success run", {"reliability": 0.9, "conf": 0.95}, 29),
]


@pytest.mark.parametrize(("heading", "figures", "expected"), BY_HEADING)
def test_the_heading_names_the_method(
    heading: str, figures: dict[str, float], expected: object
) -> None:
    """Wilson's interval is never given for another man's. (One-sided 1 of 20: scipy beta.)"""
    assert answer(heading, figures) == pytest.approx(expected, abs=6e-4)


def test_a_truncated_test_is_worked_by_its_heading() -> None:
    """1600 h, 8 failures, 90 %: 121.69 to 401.93 ended by failure, 110.84 by time (scipy chi2)."""
    figures = {"T": 1600, "r": 8, "conf": 0.9}

    assert answer("failure-truncated", figures)["lower"] == pytest.approx(121.690, abs=1e-3)
    assert answer("time-truncated", figures)["lower"] == pytest.approx(110.844, abs=1e-3)
    assert answer("MTBF", figures)["lower_one_sided"] == pytest.approx(123.127, abs=1e-3)


@pytest.mark.parametrize(("k", "n"), [(1, 0), (-1, 5), (6, 5), (1, float("inf"))])
def test_an_impossible_count_is_refused(k: int, n: int) -> None:
    """As with the other intervals."""
    for interval in (clopper_pearson, agresti_coull):
        with pytest.raises(WrongInput, match="is not a count of something"):
            interval(k, n)
    with pytest.raises(WrongInput, match="whole number"):
        poisson_interval(2.5)  # type: ignore[arg-type]
