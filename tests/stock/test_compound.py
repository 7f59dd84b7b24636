"""Jobs that use several pieces, against simulation and closed forms."""

from __future__ import annotations

import math
import random

import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy import stats

from inventory.errors import WrongInput
from inventory.stock.compound import (
    ExtraPieces,
    JobSize,
    compound_counts,
    compound_level,
    compound_moments,
    compound_poisson,
    job_size,
)
from inventory.stock.counts import NegativeBinomial, Poisson
from inventory.stock.demand import GammaPoisson


def test_logarithmic_sizes_give_the_negative_binomial_exactly() -> None:
    """Poisson jobs of logarithmic size are NB. Source: reference section 1; Quenouille 1949."""
    theta, r = 0.6, 1.7
    sizes = [float(stats.logser.pmf(z, theta)) for z in range(1, 120)]
    sizes[-1] += 1 - sum(sizes)
    exact = compound_poisson(-r * math.log(1 - theta), sizes)

    assert [exact.pmf(x) for x in range(12)] == pytest.approx(
        [stats.nbinom.pmf(x, r, 1 - theta) for x in range(12)], abs=1e-10
    )


def test_geometric_sizes_give_the_stuttering_poisson() -> None:
    """Mean lam/p and variance lam (2 - p)/p² for geometric sizes with share p."""
    lam, p = 1.5, 0.4
    sizes = [p * (1 - p) ** k for k in range(200)]
    sizes[-1] += 1 - sum(sizes)
    exact = compound_poisson(lam, sizes)

    assert exact.mean == pytest.approx(lam / p)
    assert exact.variance == pytest.approx(lam * (2 - p) / p**2)
    assert compound_moments(Poisson(lam), JobSize(1 / p, (2 - p) / p**2)) == pytest.approx(
        (exact.mean, exact.variance)
    )


@given(st.floats(0.2, 8), st.floats(0.1, 6), st.floats(0.5, 8))
def test_the_exact_compound_keeps_its_mean(mean: float, a: float, b: float) -> None:
    """E[D] = E[N] (1 + a/b), and all weight is there."""
    exact = compound_counts(Poisson(mean), ExtraPieces(a, b))

    assert sum(exact.weights) == pytest.approx(1, abs=1e-9)
    assert exact.pmf(0) == pytest.approx(Poisson(mean).pmf(0))


def test_simulation_agrees_with_the_exact_compound() -> None:
    """20,000 draws: rate, jobs, extra-piece mean and pieces, each from its own distribution."""
    rng = random.Random(8)
    rate, extra = GammaPoisson(3.0, 4.0), ExtraPieces(5.0, 6.0)
    exact, level, draws, held = compound_counts(rate.over(2), extra), 6, 20_000, 0
    for _ in range(draws):
        jobs = _poisson(rng, 2 * rng.gammavariate(rate.a, 1 / rate.b))
        more = _poisson(rng, jobs * rng.gammavariate(extra.a, 1 / extra.b)) if jobs else 0
        held += jobs + more <= level

    assert held / draws == pytest.approx(exact.cdf(level), abs=0.008)


def _poisson(rng: random.Random, mean: float) -> int:
    """One Poisson draw."""
    count, t = 0, rng.expovariate(1)
    while t < mean:
        count, t = count + 1, t + rng.expovariate(1)
    return count


def test_sizes_of_one_change_nothing() -> None:
    """A pool of single-piece jobs leaves the Gamma-Poisson level."""
    rate = GammaPoisson(6.5, 10)

    assert compound_level(rate, JobSize(1.0, 1.0), P=2) == rate.over(2).quantile(0.95)


def test_job_sizes_are_drawn_to_the_pool_with_weight_four() -> None:
    """Four jobs of three pieces meet a pool of one: halfway. Source: reference section 0."""
    assert job_size([3, 3, 3, 3], JobSize(1.0, 1.0)) == JobSize(2.0, 5.0)
    assert job_size([], JobSize(1.5, 3.0)) == JobSize(1.5, 3.0)
    assert job_size([2, 4]) == JobSize(3.0, 10.0)
    assert job_size([]) == JobSize(1.0, 1.0)


def test_many_jobs_are_summed_from_where_they_matter() -> None:
    """With 3,000 jobs expected, no jobs at all carries no weight."""
    exact = compound_counts(Poisson(300), ExtraPieces(1e-6, 1))

    assert exact.pmf(0) == 0
    assert exact.mean == pytest.approx(300, rel=1e-4)


def test_extra_pieces_need_as_many_pieces_as_jobs() -> None:
    """Each job uses one at least."""
    known = ExtraPieces(0.5, 2).after(pieces=9, jobs=4)

    assert known.mean_size == pytest.approx(1 + 5.5 / 6)
    assert known.of(3) == NegativeBinomial(5.5, 6 / 9)
    with pytest.raises(WrongInput, match="4 jobs cannot use only 3 pieces"):
        known.after(pieces=3, jobs=4)


def test_size_chances_must_add_up() -> None:
    """Half a distribution is none."""
    with pytest.raises(WrongInput, match="add up to 1"):
        compound_poisson(1.0, [0.5])
