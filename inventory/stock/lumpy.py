"""Compound rules for the back-test: how many jobs, times how many pieces a job.

A wide table holds pieces only, so a month with demand is taken as one job.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from typing import TYPE_CHECKING

from inventory.stock.backtest import Levels, Rule
from inventory.stock.compound import SIZE_WEIGHT, ExtraPieces
from inventory.stock.demand import DISCOUNT
from inventory.stock.policies import columns, discounted_table, fitted_prior, moment_levels
from inventory.stock.prior import fit_prior
from inventory.stock.yields import fit_yield

if TYPE_CHECKING:
    from inventory.stock.backtest import Table, Target

Chances = Callable[["Table", "Table", float, int, int], list["Table"]]
"""(busy months, jobs seen, months seen, month t, P) -> P(M = 0), P(M = 1), ... by item."""


_RARE = 1e-7  # a number of jobs that no target asks about


@dataclass(frozen=True, slots=True)
class _Known:
    """What is known before month t: chances of 0, 1, 2 ... jobs and extra pieces a job."""

    chances: list[Table]  # P(M = m), one array over the items for each m
    extra_a: Table  # pieces beyond the first
    extra_b: Table  # jobs


def compound_by_moments(discount: float = DISCOUNT) -> Rule:
    """Job rate Gamma-Poisson, size drawn to the pool with weight 4, NB by moments."""

    def rule(demand: Table, warm_up: int, P: int, target: Target) -> Levels:
        import numpy as np

        busy = (demand > 0).astype(float)
        jobs, months = discounted_table(busy, discount, 1)

        def level(t: int) -> tuple[Table, Table]:
            known = fitted_prior(busy[:, :t].sum(axis=1), float(t))
            rate, b = known.a + jobs[t], known.b + months[t]
            mean, second = _sizes(demand[:, :t])
            n = rate * P / b
            spread = n * (1 + P / b)
            variance = n * np.maximum(second - mean**2, 0) + spread * mean**2
            return moment_levels(n * mean, variance, target)

        return columns(demand, warm_up, level)

    return rule


def _sizes(past: Table) -> tuple[Table, Table]:
    """E[Z], E[Z²] of each item, drawn to the pool."""
    jobs, total = (past > 0).sum(axis=1), (past > 0).sum()
    pool = past.sum() / max(1, total), (past**2).sum() / max(1, total)
    weight = SIZE_WEIGHT + jobs
    return (
        (SIZE_WEIGHT * pool[0] + past.sum(axis=1)) / weight,
        (SIZE_WEIGHT * pool[1] + (past**2).sum(axis=1)) / weight,
    )


def compound_exact(discount: float = DISCOUNT, jobs: Table | None = None) -> Rule:
    """Job rate and extra pieces a job both Gamma-Poisson with pooled priors, summed exactly.

    jobs: items x months, where the number of jobs is known; else a busy month is one job.
    """

    def chances(busy: Table, seen: Table, months: float, t: int, P: int) -> list[Table]:
        from scipy.stats import nbinom

        rate = fitted_prior(busy[:, :t].sum(axis=1), float(t))
        shape, share = rate.a + seen, (rate.b + months) / (rate.b + months + P)
        top = int(nbinom.ppf(1 - _RARE, shape.max(), share))
        return [nbinom.pmf(m, shape, share) for m in range(top + 1)]

    return _exact(discount, chances, jobs)


def busy_months(discount: float = DISCOUNT) -> Rule:
    """The same where a month is busy or not, Beta-Bernoulli: what a wide table really shows."""

    def chances(busy: Table, seen: Table, months: float, t: int, P: int) -> list[Table]:
        from scipy.stats import betabinom

        counts = busy[:, :t].sum(axis=1)
        pool = fit_yield([(int(k), t) for k in counts])
        a, b = pool.a + seen, pool.b + months - seen
        return [betabinom.pmf(m, P, a, b) for m in range(P + 1)]

    return _exact(discount, chances)


def _exact(discount: float, chances: Chances, known_jobs: Table | None = None) -> Rule:
    """Levels from the chances of so many jobs and from what is known of their sizes."""

    def rule(demand: Table, warm_up: int, P: int, target: Target) -> Levels:
        busy = (demand > 0).astype(float) if known_jobs is None else known_jobs
        jobs, months = discounted_table(busy, discount, 1)
        sized, _ = discounted_table(busy, discount, 0)
        extra, _ = discounted_table(demand - busy, discount, 0)

        def level(t: int) -> tuple[Table, Table]:
            size = _size_prior(demand[:, :t].sum(axis=1), busy[:, :t].sum(axis=1))
            likely = chances(busy, jobs[t], months[t], t, P)
            return _smallest(_Known(likely, size.a + extra[t], size.b + sized[t]), target)

        return columns(demand, warm_up, level)

    return rule


def _size_prior(pieces: Table, jobs: Table) -> ExtraPieces:
    """Extra pieces a job over the whole shelf; half a piece in two jobs where nothing is known."""
    if not (jobs > 0).any():
        return ExtraPieces(0.5, 2.0)
    fit = fit_prior((pieces - jobs).tolist(), jobs.tolist(), cap=None)
    return ExtraPieces(fit.a, fit.b)


def _smallest(known: _Known, target: Target) -> tuple[Table, Table]:
    """Smallest S with P(D <= S) >= target, by bisection over all items at once."""
    import numpy as np

    items = len(known.extra_a)
    low, high = np.full(items, -1.0), np.full(items, 8.0)
    while (short := _reached(known, high) < target).any():
        high = np.where(short, high * 2, high)
    while (high - low > 1).any():
        mid = np.floor((low + high) / 2)
        enough = _reached(known, mid) >= target
        low, high = np.where(enough, low, mid), np.where(enough, mid, high)
    return high, _reached(known, high)


def _reached(known: _Known, S: Table) -> Table:
    """P(D <= S): over the number of jobs m, those whose pieces fit into S."""
    import numpy as np
    from scipy.stats import nbinom

    total = np.where(S >= 0, known.chances[0], 0.0)
    for m, chance in enumerate(known.chances[1:], start=1):
        fits = nbinom.cdf(S - m, known.extra_a, known.extra_b / (known.extra_b + m))
        total = total + chance * np.where(m <= S, fits, 0.0)
    return total
