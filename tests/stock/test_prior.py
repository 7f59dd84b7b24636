"""Learning a prior from the whole shelf."""

from __future__ import annotations

import pytest
from scipy import stats

from inventory.errors import WrongInput
from inventory.stock.demand import PRIOR, GammaPoisson
from inventory.stock.prior import fit_prior, scaled, shelf_prior

# Failures and thousand hours of ten pumps: Gaver & O'Muircheartaigh 1987, Technometrics 29:1.
PUMPS = (
    [5, 1, 5, 14, 3, 19, 1, 1, 4, 22],
    [94.32, 15.72, 62.88, 125.76, 5.24, 31.44, 1.048, 1.048, 2.096, 10.48],
)


def test_ten_pumps() -> None:
    """The published fit is about .82 and 1.26 (from memory); .8223 and 1.2590 recomputed."""
    fit = fit_prior(*PUMPS)

    assert (fit.a, fit.b) == pytest.approx((0.8223, 1.2590), abs=5e-4)
    assert fit.loglik == pytest.approx(-32.26307, abs=1e-4)


def test_pumps_are_drawn_to_the_pool() -> None:
    """A raw .053 becomes .061 and a raw 2.099 becomes 1.944. Source: reference section 4."""
    shrunk = fit_prior(*PUMPS).shrunk(*PUMPS)

    assert (shrunk[0], shrunk[-1]) == pytest.approx((0.0609, 1.9441), abs=2e-4)


def test_the_likelihood_is_the_negative_binomials() -> None:
    """Sum of scipy's log NB at the fit."""
    fit = fit_prior(*PUMPS)
    terms = [
        stats.nbinom.logpmf(n, fit.a, fit.b / (fit.b + T)) for n, T in zip(*PUMPS, strict=True)
    ]

    assert fit.loglik == pytest.approx(sum(terms))


def test_a_fit_finds_the_truth_again() -> None:
    """2,000 part types drawn from Gamma(0.6, 1.5) over 24 months."""
    rates = stats.gamma.rvs(0.6, scale=1 / 1.5, size=2000, random_state=3)
    counts = stats.poisson.rvs(rates * 24, random_state=4)

    assert fit_prior(counts.tolist(), [24.0] * 2000).a == pytest.approx(0.6, rel=0.1)


def test_equal_rates_do_not_run_off() -> None:
    """Without the cap the fit of equal counts has no end; with it the prior weighs 24 months."""
    fit = fit_prior([3] * 50, [6.0] * 50)

    assert fit.b == pytest.approx(24)
    assert fit.a / fit.b == pytest.approx(0.5, rel=0.01)
    assert fit_prior([3] * 50, [6.0] * 50, cap=None).b > 1000


def test_a_small_shelf_keeps_the_default() -> None:
    """Under 30 part types with uses nothing is learned; from 30 on it is."""
    assert shelf_prior([1] * 29 + [0] * 50, [12.0] * 79) == PRIOR
    assert shelf_prior([1] * 30 + [0] * 50, [12.0] * 80) != PRIOR


def test_zero_demand_parts_count() -> None:
    """Leaving never-used part types out would promise too much."""
    with_zeros = shelf_prior([2] * 40 + [0] * 200, [12.0] * 240)
    without = shelf_prior([2] * 40, [12.0] * 40)

    assert with_zeros.mean < without.mean


def test_parts_never_watched_are_left_out() -> None:
    """No month of watching says nothing, not zero."""
    assert fit_prior([0, *PUMPS[0]], [0.0, *PUMPS[1]]).a == pytest.approx(0.8223, abs=5e-4)


def test_nothing_to_learn_from_is_refused() -> None:
    """No exposure at all, unequal lists, negative counts."""
    with pytest.raises(WrongInput, match="a month of watching"):
        fit_prior([0], [0.0])
    with pytest.raises(WrongInput, match="one exposure"):
        fit_prior([1, 2], [1.0])
    with pytest.raises(WrongInput, match="zero or more"):
        fit_prior([-1], [1.0])


def test_a_prior_can_be_given_another_weight() -> None:
    """The mean stays."""
    assert scaled(GammaPoisson(0.5, 2), 8) == GammaPoisson(2.0, 8)
