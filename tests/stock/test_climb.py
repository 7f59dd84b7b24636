"""The climb to the top of a two-shape likelihood, against scipy's optimiser."""

from __future__ import annotations

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy import optimize, special, stats

from inventory.stock.climb import Ground, climb
from inventory.stock.prior import fit_prior
from inventory.stock.yields import fit_yield


@settings(max_examples=25, deadline=None)
@given(st.floats(0.2, 5), st.floats(0.2, 8), st.integers(0, 1000))
def test_the_prior_is_as_likely_as_scipys(a: float, b: float, seed: int) -> None:
    """No worse than Nelder-Mead from the same start, on counts drawn from Gamma(a, b)."""
    rates = stats.gamma.rvs(a, scale=1 / b, size=60, random_state=seed)
    counts = [float(k) for k in stats.poisson.rvs(rates * 12, random_state=seed + 1)]

    def against(x: list[float]) -> float:
        share = 1 / (1 + 12 / math.exp(x[1]))
        return -float(stats.nbinom.logpmf(counts, math.exp(x[0]), share).sum())

    theirs = optimize.minimize(against, [0.0, 0.0], method="Nelder-Mead", bounds=[(-11, 11)] * 2)
    assert fit_prior(counts, [12.0] * 60, cap=None).loglik >= -theirs.fun - 1e-3


def test_the_yield_is_as_likely_as_scipys() -> None:
    """Beta-binomial on 200 families of eight pieces."""
    good = stats.betabinom.rvs(8, 3, 1.5, size=200, random_state=2)
    found = fit_yield([(int(k), 8) for k in good], cap=1e9)

    def against(x: list[float]) -> float:
        return -float(stats.betabinom.logpmf(good, 8, math.exp(x[0]), math.exp(x[1])).sum())

    theirs = optimize.minimize(against, [0.0, 0.0], method="Nelder-Mead")
    assert -against([math.log(found.a), math.log(found.b)]) >= -theirs.fun - 1e-4


def test_a_hill_without_a_top_is_climbed_to_its_bounds() -> None:
    """Rising for ever in both: the widest logarithm is the answer."""

    def rising(a: float, b: float) -> Ground:
        return Ground(math.log(a) + math.log(b), 1 / a, 1 / b, -1 / a**2, 0.0, -1 / b**2)

    assert climb(rising, (1.0, 1.0), widest=3.0) == pytest.approx((math.exp(3), math.exp(3)))


def test_a_top_at_the_start_is_not_left() -> None:
    """Flat ground: stay."""
    top = climb(lambda _a, _b: Ground(0.0, 0.0, 0.0, -1.0, 0.0, -1.0), (2.0, 3.0))

    assert top == pytest.approx((2.0, 3.0))


def test_a_hill_that_lies_about_its_slope_does_not_hang() -> None:
    """Steps that never gain are halved until they are nothing."""

    def lying(a: float, b: float) -> Ground:
        return Ground(-abs(math.log(a)) - abs(math.log(b)), 1.0, 1.0, -1.0, 0.0, -1.0)

    assert climb(lying, (1.0, 1.0)) == pytest.approx((1.0, 1.0))


def test_the_curvatures_are_those_of_the_height() -> None:
    """Differences of scipy's log-beta, at one point."""
    from inventory.stock.yields import _hill

    hill = _hill([(3, 5), (1, 4), (6, 6)])
    step, at = 1e-4, (2.0, 1.5)
    ground = hill(*at)

    def height(a: float, b: float) -> float:
        rows = ((3, 2), (1, 3), (6, 0))
        return sum(float(special.betaln(a + k, b + m) - special.betaln(a, b)) for k, m in rows)

    assert ground.height == pytest.approx(height(*at))
    assert ground.by_a == pytest.approx(
        (height(at[0] + step, at[1]) - height(at[0] - step, at[1])) / (2 * step), rel=1e-5
    )
    assert ground.by_bb == pytest.approx(
        (hill(at[0], at[1] + step).by_b - hill(at[0], at[1] - step).by_b) / (2 * step), rel=1e-5
    )
    assert ground.by_ab == pytest.approx(
        (hill(at[0] + step, at[1]).by_b - hill(at[0] - step, at[1]).by_b) / (2 * step), rel=1e-5
    )
