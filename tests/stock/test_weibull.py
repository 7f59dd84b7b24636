"""Weibull curves against textbook data sets, the NIST handbook and scipy."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import assume, given
from hypothesis import strategies as st
from scipy import stats

from inventory.errors import WrongInput
from inventory.stock.answer import answer
from inventory.stock.weibull import Weibull, weibull_fit

NIST = [54, 187, 216, 240, 244, 335, 361, 373, 375, 386]

# Lieblein & Zelen 1956, J. Res. NBS 57:273: millions of turns of 23 ball bearings; the fit as
# printed in Lawless, Statistical Models and Methods for Lifetime Data (from memory).
BEARINGS = [
    *(17.88, 28.92, 33.00, 41.52, 42.12, 45.60, 48.40, 51.84, 51.96, 54.12, 55.56, 67.80),
    *(68.64, 68.64, 68.88, 84.12, 93.12, 98.64, 105.12, 105.84, 127.92, 128.04, 173.40),
]


def test_nist_8_4_1_3() -> None:
    """Ten of twenty failed: beta 1.7208, eta 606.5280, mean 540.737, sd 323.806, -logL 75.135."""
    fit = weibull_fit(NIST, [500] * 10)

    assert (fit.beta, fit.eta) == pytest.approx((1.7208, 606.5280), abs=1e-3)
    assert (fit.mean, fit.sd) == pytest.approx((540.737, 323.806), abs=2e-2)
    assert fit.loglik == pytest.approx(-75.135, abs=5e-4)


def test_the_ball_bearings() -> None:
    """All failed: beta 2.102, eta 81.88, logL -113.691."""
    fit = weibull_fit(BEARINGS)

    assert (fit.beta, fit.eta) == pytest.approx((2.102, 81.88), abs=6e-3)
    assert fit.loglik == pytest.approx(-113.691, abs=1e-3)


def test_six_units_run_to_failure() -> None:
    """16, 34, 53, 75, 93, 120 h: beta 1.933, eta 73.526. Source: reliawiki.com (from memory)."""
    fit = weibull_fit([16, 34, 53, 75, 93, 120])

    assert (fit.beta, fit.eta) == pytest.approx((1.933, 73.526), abs=2e-3)


@given(
    st.lists(st.floats(1, 1e4), min_size=3, max_size=12), st.lists(st.floats(1, 1e4), max_size=8)
)
def test_no_near_curve_is_likelier(fail: list[float], alive: list[float]) -> None:
    """The fit stands at the top of its likelihood, as written by scipy's densities."""
    assume(max(fail) > 1.5 * min(fail))
    fit = weibull_fit(fail, alive)

    def loglik(beta: float, eta: float) -> float:
        curve = stats.weibull_min(beta, scale=eta)
        return float(np.sum(curve.logpdf(fail)) + np.sum(curve.logsf(alive)))

    top = loglik(fit.beta, fit.eta)
    assert fit.loglik == pytest.approx(top, rel=1e-6, abs=1e-6)
    for beta, eta in ((1.01, 1), (0.99, 1), (1, 1.01), (1, 0.99)):
        assert loglik(fit.beta * beta, fit.eta * eta) <= top + 1e-9


def test_another_unit_changes_the_scale_only() -> None:
    """Hours or years: one shape, and an age that scales."""
    hours = weibull_fit(NIST, [500] * 10)
    years = weibull_fit([age / 8766 for age in NIST], [500 / 8766] * 10)

    assert years.beta == pytest.approx(hours.beta)
    assert years.eta == pytest.approx(hours.eta / 8766)


def test_an_exponential_life_has_shape_one() -> None:
    """Beta 1 is the constant rate: mean eta, 36.8 % reach it, B10 is eta ln(1/.9)."""
    curve = Weibull(1, 400)

    assert curve.mean == pytest.approx(400)
    assert curve.reliability(400) == pytest.approx(0.367879, abs=1e-6)
    assert curve.life(0.1) == pytest.approx(42.144, abs=1e-3)
    assert curve.reliability(0) == 1.0
    assert Weibull(50, 1).reliability(1e9) == 0.0


@pytest.mark.parametrize(
    ("fail", "alive", "sentence"),
    [
        ([], [1, 2], "needs two failures, and there are 0"),
        ([3], [5], "needs two failures, and there are 1"),
        ([3, 3, 3], [], "All failures have one age"),
        ([0, 3], [], "age must be above zero"),
        ([float("nan"), 3], [], "age must be above zero"),
        ([None, 3], [], "age must be a number, not None"),
    ],
)
def test_what_gives_no_curve_is_said(fail: list[float], alive: list[float], sentence: str) -> None:
    """All alive, one failure, one age, no age: a sentence, never a figure."""
    with pytest.raises(WrongInput, match=sentence):
        weibull_fit(fail, alive)


def test_a_worked_example_asks_for_it_by_name() -> None:
    """Failures and survivors with the word Weibull give the curve, without it Kaplan-Meier."""
    figures = {"fail": NIST, "censored": [500] * 10}

    assert answer("Weibull MLE", figures)["shape"] == pytest.approx(1.7208, abs=1e-4)
    assert answer("survival", figures)["R"][0] == 0.95
    assert answer("curve", {"beta": 2, "eta": 100, "t": 100})["R"] == pytest.approx(
        0.3679, abs=1e-4
    )
