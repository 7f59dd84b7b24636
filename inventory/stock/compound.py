"""Jobs that use several pieces at once: job rate times job size.

Two roads to the demand: by moments (quick, the reference's), and exact, by summing over the
number of jobs.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from inventory.errors import WrongInput
from inventory.stock.checks import not_negative
from inventory.stock.counts import Counts, Listed, NegativeBinomial, by_moments
from inventory.stock.demand import GammaPoisson

SIZE_WEIGHT = 4.0
"""Jobs that the shelf's mean size is worth. Source: reference section 0, compound."""

_NOTHING_LEFT = 1e-12  # a chance small enough to stop summing at


@dataclass(frozen=True, slots=True)
class JobSize:
    """Pieces a job uses: 1 + extra, mean and variance."""

    mean: float  # E[Z], pieces a job
    second: float  # E[Z²]

    @property
    def variance(self) -> float:
        """Var[Z]."""
        return max(0.0, self.second - self.mean**2)


def job_size(sizes: Sequence[float], pool: JobSize | None = None) -> JobSize:
    """Mean size of a job drawn towards the shelf's: (w m0 + sum z)/(w + k), w = 4 jobs.

    sizes: pieces of each job of this part type; pool: the same over the whole shelf.
    The second moment is drawn likewise.

    >>> job_size([2, 2, 2, 2], pool=JobSize(1.0, 1.0))
    JobSize(mean=1.5, second=2.5)
    """
    if pool is None and not sizes:
        return JobSize(1.0, 1.0)
    weight = SIZE_WEIGHT if pool is not None else 0.0
    base = pool or JobSize(0.0, 0.0)
    total = weight + len(sizes)
    return JobSize(
        (weight * base.mean + math.fsum(sizes)) / total,
        (weight * base.second + math.fsum(z * z for z in sizes)) / total,
    )


def compound_moments(jobs: Counts, size: JobSize) -> tuple[float, float]:
    """Mean and variance of the pieces: E[N]E[Z] and E[N]Var[Z] + Var[N]E[Z]².

    With Poisson jobs the variance is lam P E[Z²].
    Source: reference section 1, compound Poisson.

    >>> from inventory.stock.counts import Poisson
    >>> compound_moments(Poisson(3), JobSize(2.0, 5.0))
    (6.0, 15.0)
    """
    return jobs.mean * size.mean, jobs.mean * size.variance + jobs.variance * size.mean**2


def compound_level(rate: GammaPoisson, size: JobSize, *, P: float = 1, q: float = 0.95) -> int:
    """Order-up-to level by moments: NB with the compound's mean and variance.

    rate: jobs a month after what was seen; P [months]; q: chance of no shortage.

    >>> compound_level(GammaPoisson(6.5, 10), JobSize(2.0, 5.0), P=2)
    8
    """
    return by_moments(*compound_moments(rate.over(P), size)).quantile(q)


@dataclass(frozen=True, slots=True)
class ExtraPieces:
    """Pieces beyond the first of a job, themselves Gamma-Poisson: a [pieces], b [jobs].

    >>> ExtraPieces(0.5, 2).after(pieces=9, jobs=4)
    ExtraPieces(a=5.5, b=6)
    """

    a: float
    b: float

    def after(self, pieces: float, jobs: float) -> ExtraPieces:
        """What is known once ``jobs`` jobs used ``pieces`` pieces in all."""
        if pieces < jobs:
            raise WrongInput(f"{jobs} jobs cannot use only {pieces} pieces.")
        return ExtraPieces(self.a + pieces - jobs, self.b + jobs)

    def of(self, jobs: int) -> NegativeBinomial:
        """Extra pieces of the next ``jobs`` jobs together."""
        return NegativeBinomial(self.a, self.b / (self.b + jobs))

    @property
    def mean_size(self) -> float:
        """Pieces a job: 1 + a/b."""
        return 1 + self.a / self.b


def compound_counts(jobs: Counts, extra: ExtraPieces) -> Listed:
    """Pieces asked for, exactly: P(D = x) = sum_m P(N = m) P(extra of m jobs = x - m).

    jobs: number of jobs in the period; extra: what is known of their sizes.
    Source: law of total probability; simulated in the tests.

    >>> from inventory.stock.counts import Poisson
    >>> round(compound_counts(Poisson(2), ExtraPieces(1e-9, 1)).mean, 6)  # sizes of one
    2.0
    """
    weights: list[float] = []
    left = 1.0
    for m, reached in jobs.running():
        _add(weights, jobs.pmf(m), m, extra)
        left = 1.0 - reached
        if left < _NOTHING_LEFT:
            return Listed(tuple(weights))
    raise AssertionError  # pragma: no cover - running() has no end


def compound_variance(jobs: Counts, extra: ExtraPieces) -> float:
    """Variance of the same without summing: over the jobs, and over what is known of sizes.

    E[N] a/b + E[N²] a/b² + Var[N] (1 + a/b)².

    >>> from inventory.stock.counts import Poisson
    >>> round(compound_variance(Poisson(2), ExtraPieces(3, 4)), 6)
    8.75
    >>> round(compound_counts(Poisson(2), ExtraPieces(3, 4)).variance, 6)
    8.75
    """
    second = jobs.variance + jobs.mean**2
    size = extra.mean_size
    within = jobs.mean * (size - 1) + second * (size - 1) / extra.b
    return within + jobs.variance * size**2


def _add(weights: list[float], share: float, m: int, extra: ExtraPieces) -> None:
    """Add the pieces of m jobs, which happen with this share."""
    if share < _NOTHING_LEFT:
        return
    if m == 0:
        weights[:] = [share]
        return
    more = extra.of(m)
    top = m + more.quantile(1 - min(0.5, _NOTHING_LEFT / share))
    weights.extend([0.0] * (top + 1 - len(weights)))
    for x in range(m, top + 1):
        weights[x] += share * more.pmf(x - m)


def compound_poisson(mean_jobs: float, sizes: Sequence[float]) -> Listed:
    """Poisson jobs of given sizes, exactly, by Panjer's recursion.

    mean_jobs: lam P [jobs]; sizes: P(Z = 1), P(Z = 2), ...
    g(0) = e^-m; g(x) = (m/x) sum_j j f(j) g(x - j).
    Source: Panjer 1981, ASTIN Bulletin 12:22.

    >>> round(compound_poisson(2.0, [1.0]).pmf(3), 6) == round(math.exp(-2) * 8 / 6, 6)
    True
    """
    not_negative(mean_jobs=mean_jobs)
    if abs(math.fsum(sizes) - 1) > 1e-9:
        raise WrongInput("Chances of job sizes must add up to 1.")
    g = [math.exp(-mean_jobs)]
    reached = g[0]
    while reached < 1 - _NOTHING_LEFT and len(g) < 20000:
        x = len(g)
        terms = (j * f * g[x - j] for j, f in enumerate(sizes[:x], start=1))
        g.append(mean_jobs / x * math.fsum(terms))
        reached += g[-1]
    return Listed(tuple(g))
