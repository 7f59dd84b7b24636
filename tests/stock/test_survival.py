"""Survival curves, against the NIST handbook, statsmodels and lifelines."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy import stats

from inventory.errors import WrongInput
from inventory.stock.survival import kaplan_meier, kaplan_meier_flags

# 6-MP arm, weeks. Source: Freireich et al. 1963, Blood 21:699, as in lifelines' load_leukemia.
FAILED = [6, 6, 6, 7, 10, 13, 16, 22, 23]
CENSORED = [6, 9, 10, 11, 17, 19, 20, 25, 32, 32, 34, 35]
ARM_R = [0.857143, 0.806723, 0.752941, 0.690196, 0.627451, 0.537815, 0.448179]
ARM_SE = [
    *(0.07636035, 0.08693529, 0.09634965, 0.10681471),
    *(0.11405387, 0.12823375, 0.13459146),
]
NIST_SE = [0.0487, 0.0671, 0.0814, 0.0919, 0.1014, 0.1121]


def test_nist_8_2_1_5() -> None:
    """20 units, 6 failures, 4 taken out early, 10 alive at 200 h."""
    curve = kaplan_meier([10, 32, 56, 98, 122, 181], [50, 100, 125, 150, *[200] * 10])

    assert [round(r, 4) for r in curve.R] == [0.95, 0.9, 0.8471, 0.7941, 0.7374, 0.6704]
    assert curve.greenwood_se == pytest.approx(NIST_SE, abs=5e-5)
    assert curve.at_risk == [20, 19, 17, 16, 14, 11]


def test_the_classical_6_mp_arm() -> None:
    """Ties, and censoring at the age of a failure; statsmodels 0.15.0 and lifelines 0.30.3."""
    curve = kaplan_meier(FAILED, CENSORED)

    assert curve.at_risk == [21, 17, 15, 12, 11, 7, 6]
    assert pytest.approx(ARM_R, abs=1e-6) == curve.R
    assert curve.greenwood_se == pytest.approx(ARM_SE, abs=1e-8)


def test_lifelines_band() -> None:
    """95 % on the log(-log) scale: .619718 to .951552 after week 6, .188052 to .680143 last."""
    steps = kaplan_meier(FAILED, CENSORED).steps

    assert steps[0].interval() == pytest.approx((0.619718, 0.951552), abs=1e-6)
    assert steps[-1].interval() == pytest.approx((0.188052, 0.680143), abs=1e-6)


def test_flags_and_lists_are_the_same_curve() -> None:
    """One list of ages with flags, or two lists."""
    time, event = [*FAILED, *CENSORED], [1] * len(FAILED) + [0] * len(CENSORED)

    assert kaplan_meier_flags(time, event) == kaplan_meier(FAILED, CENSORED)


def test_beyond_the_oldest_piece_nothing_is_known() -> None:
    """Not zero, not the last value: None."""
    curve = kaplan_meier(FAILED, CENSORED)

    assert curve.at(5) == 1.0
    assert curve.at(6) == pytest.approx(0.857143, abs=1e-6)
    assert curve.at(35) == pytest.approx(0.448179, abs=1e-6)
    assert curve.at(36) is None
    assert curve.median() == 23


def test_all_failed_ends_at_zero() -> None:
    """The last piece takes the curve down; its band has no width."""
    curve = kaplan_meier([1, 2])

    assert curve.R == [0.5, 0.0]
    assert curve.steps[-1].interval() == (0.0, 0.0)


def test_nothing_failed_is_a_curve_without_steps() -> None:
    """All alive: no step, no median; no piece at all: nothing known beyond age 0."""
    assert kaplan_meier([], [3, 4]).steps == ()
    assert kaplan_meier([], [3, 4]).median() is None
    assert kaplan_meier([]).at(1) is None


def test_impossible_ages_are_refused() -> None:
    """Below zero, not a number, or not as many flags as ages."""
    with pytest.raises(WrongInput, match="zero or more"):
        kaplan_meier([-1])
    with pytest.raises(WrongInput, match="zero or more"):
        kaplan_meier([1], [float("nan")])
    with pytest.raises(WrongInput, match="flag"):
        kaplan_meier_flags([1, 2], [1])


# Acute myelogenous leukaemia, weeks; Miller 1981, as in R's survival::aml; survival and standard
# errors as R's survfit prints them (from memory).
KEPT = ([9, 13, 18, 23, 31, 34, 48], [13, 28, 45, 161])
NOT_KEPT = ([5, 5, 8, 8, 12, 23, 27, 30, 33, 43, 45], [16])
KEPT_R = [0.909, 0.818, 0.716, 0.614, 0.491, 0.368, 0.184]
KEPT_SE = [0.0867, 0.1163, 0.1397, 0.1526, 0.1642, 0.1627, 0.1535]
NOT_KEPT_R = [0.8333, 0.6667, 0.5833, 0.4861, 0.3889, 0.2917, 0.1944, 0.0972, 0.0]


def test_the_aml_study_maintained() -> None:
    """Censoring at an age of failure; the median is 31 weeks."""
    curve = kaplan_meier(*KEPT)

    assert pytest.approx(KEPT_R, abs=6e-4) == curve.R
    assert curve.greenwood_se == pytest.approx(KEPT_SE, abs=6e-5)
    assert curve.median() == 31


def test_the_aml_study_not_maintained() -> None:
    """Ties; the last piece fails; the median is 23 weeks."""
    curve = kaplan_meier(*NOT_KEPT)

    assert pytest.approx(NOT_KEPT_R, abs=6e-5) == curve.R
    assert curve.median() == 23


@given(
    st.lists(st.integers(1, 30), min_size=1, max_size=20),
    st.lists(st.integers(1, 30), max_size=20),
)
def test_scipy_draws_the_same_curve(failed: list[int], alive: list[int]) -> None:
    """scipy.stats.ecdf of right-censored ages, at every age of a failure."""
    curve = kaplan_meier(failed, alive)
    theirs = stats.ecdf(stats.CensoredData(uncensored=failed, right=alive)).sf

    expected = theirs.evaluate([step.time for step in curve.steps])

    assert pytest.approx(list(expected), abs=1e-9) == curve.R
