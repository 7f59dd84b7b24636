"""Good-yields of pulled pieces."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy import stats

from inventory.errors import WrongInput
from inventory.stock.counts import Poisson
from inventory.stock.yields import (
    UNKNOWN_YIELD,
    Yield,
    beta_binomial_yield,
    family_yields,
    fit_yield,
    stockout_with_donors,
)


@given(st.floats(0.2, 30), st.floats(0.2, 30), st.integers(0, 12))
def test_donors_yield_as_scipys_beta_binomial(a: float, b: float, m: int) -> None:
    """Chances of 0..m good pieces."""
    assert Yield(a, b).of(m) == pytest.approx(
        [stats.betabinom.pmf(k, m, a, b) for k in range(m + 1)], abs=1e-10
    )


def test_eleven_of_fourteen_good() -> None:
    """Flat prior, three donors: q .75, 2.25 expected, .97549 for one at least. Source: S39."""
    found = beta_binomial_yield(1, 1, good=11, pulled=14, donors=3)

    assert (found.q, found.mean) == pytest.approx((0.75, 2.25))
    assert found.p_at_least_1 == pytest.approx(0.97549, abs=1e-6)


def test_without_donors_nothing_is_promised() -> None:
    """No donor, no good piece."""
    found = beta_binomial_yield(1, 1, good=1, pulled=1, donors=0)

    assert (found.pmf, found.p_at_least_1) == ((1.0,), 0.0)


def test_donors_lower_the_chance_of_a_shortage() -> None:
    """Between no donor's help and a sure piece."""
    demand = Poisson(1.3)
    hopeful = stockout_with_donors(1, demand, Yield(3, 1).of(1))

    assert demand.tail(2) < hopeful < demand.tail(1)
    assert hopeful == pytest.approx(0.25 * demand.tail(1) + 0.75 * demand.tail(2))


def test_families_are_drawn_to_their_pool() -> None:
    """An unknown family gets the pool's share, a known one lies between."""
    drawn = family_yields({"relay": (18, 20), "switch": (10, 20), "lamp": (14, 20), "fan": (0, 0)})

    assert 0.5 < drawn["switch"].share < drawn["fan"].share < drawn["relay"].share < 0.9


def test_a_pool_weighs_twenty_pieces_at_most() -> None:
    """Equal families would otherwise fix the share for ever."""
    pool = fit_yield([(15, 20)] * 12)

    assert pool.a + pool.b == pytest.approx(20, rel=0.01)
    assert pool.share == pytest.approx(0.75, abs=0.01)


def test_one_family_teaches_nothing_of_the_others() -> None:
    """Fewer than two records with pieces leave the flat prior."""
    assert fit_yield([(9, 10), (0, 0)]) == UNKNOWN_YIELD


def test_a_fit_finds_the_truth_again() -> None:
    """400 families drawn from Beta(6, 2), ten pieces each."""
    shares = stats.beta.rvs(6, 2, size=400, random_state=1)
    good = stats.binom.rvs(10, shares, random_state=2)

    assert fit_yield([(int(k), 10) for k in good]).share == pytest.approx(0.75, abs=0.02)


def test_more_good_than_pulled_is_refused() -> None:
    """A count that cannot be."""
    with pytest.raises(WrongInput, match="5 good of 4 pulled"):
        Yield(1, 1).after(good=5, pulled=4)
    with pytest.raises(WrongInput, match="a must be above zero"):
        Yield(0, 1)
