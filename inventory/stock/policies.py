"""Stock rules for the back-test, all items at once: ours and its peers."""

from __future__ import annotations

from collections.abc import Callable
from typing import TYPE_CHECKING

from inventory.stock.backtest import Levels, Rule
from inventory.stock.demand import DISCOUNT, PRIOR, GammaPoisson
from inventory.stock.prior import ENOUGH_PARTS, fit_prior

if TYPE_CHECKING:
    from inventory.stock.backtest import Table, Target


def columns(
    demand: Table, warm_up: int, level: Callable[[int], tuple[Table, Table | None]]
) -> Levels:
    """Levels month by month; ``level(t)`` may look at months before t only."""
    import numpy as np

    pairs = [level(t) for t in range(warm_up, demand.shape[1])]
    claimed = [claim for _, claim in pairs if claim is not None]
    S = np.array([S for S, _ in pairs]).T
    return Levels(S, np.array(claimed).T if claimed else None)


def fixed(level: float) -> Rule:
    """The same number of every part, as on a hand-written list."""

    def rule(demand: Table, warm_up: int, P: int, target: Target) -> Levels:  # noqa: ARG001
        import numpy as np

        return Levels(np.full((len(demand), demand.shape[1] - warm_up), float(level)))

    return rule


def gamma_poisson(
    discount: float = DISCOUNT, prior: GammaPoisson | None = None, first_age: int = 1
) -> Rule:
    """Our rule. Prior: as given, else fitted each month to all counts so far, undiscounted."""

    def rule(demand: Table, warm_up: int, P: int, target: Target) -> Levels:
        from scipy.stats import nbinom

        seen, months = discounted_table(demand, discount, first_age)

        def level(t: int) -> tuple[Table, Table | None]:
            known = prior or fitted_prior(demand[:, :t].sum(axis=1), float(t))
            b = known.b + months[t]
            shape, share = known.a + seen[t], b / (b + P)
            S = nbinom.ppf(target, shape, share)
            return S, nbinom.cdf(S, shape, share)

        return columns(demand, warm_up, level)

    return rule


def discounted_table(demand: Table, w: float, first_age: int) -> tuple[list[Table], list[float]]:
    """Discounted uses and months before each month t."""
    import numpy as np

    n, T = np.zeros(len(demand)), 0.0
    seen, months = [n], [T]
    for column in demand.T:
        n, T = w * n + column, w * T + 1
        seen.append(n * w**first_age)
        months.append(T * w**first_age)
    return seen, months


def fitted_prior(counts: Table, months: float) -> GammaPoisson:
    """The shelf's prior by the rule of ``shelf_prior``."""
    import numpy as np

    if (counts > 0).sum() < ENOUGH_PARTS:
        return PRIOR
    return fit_prior(counts.tolist(), np.full(len(counts), months).tolist()).prior


def poisson_mean() -> Rule:
    """Poisson at the sample mean."""

    def rule(demand: Table, warm_up: int, P: int, target: Target) -> Levels:
        return columns(
            demand, warm_up, lambda t: poisson_levels(demand[:, :t].mean(axis=1) * P, target)
        )

    return rule


def poisson_levels(mean: Table, target: Target) -> tuple[Table, Table]:
    """Poisson quantiles; nothing kept of what is not expected at all."""
    import numpy as np
    from scipy.stats import poisson

    mean = np.maximum(mean, 1e-300)
    S = poisson.ppf(target, mean)
    return S, poisson.cdf(S, mean)


def normal(last: int | None = None) -> Rule:
    """Normal: mean P + z sd sqrt(P), rounded up; over all months or the ``last`` so many."""

    def rule(demand: Table, warm_up: int, P: int, target: Target) -> Levels:
        def level(t: int) -> tuple[Table, Table]:
            past = demand[:, max(0, t - last) if last else 0 : t]
            return normal_levels(past.mean(axis=1), past.std(axis=1, ddof=1), P, target)

        return columns(demand, warm_up, level)

    return rule


def normal_levels(mean: Table, sd: Table, P: int, target: Target) -> tuple[Table, Table]:
    """Normal quantiles rounded up to whole pieces."""
    import numpy as np
    from scipy.stats import norm

    spread = sd * np.sqrt(P)
    S = np.ceil(mean * P + norm.ppf(target) * spread - 1e-9)
    with np.errstate(divide="ignore", invalid="ignore"):
        claimed = norm.cdf((S - mean * P) / spread)
    return S, np.where(spread > 0, claimed, 1.0)


def nb_mean_variance() -> Rule:
    """Negative binomial with the sample's mean and variance; Poisson where it is no wider."""

    def rule(demand: Table, warm_up: int, P: int, target: Target) -> Levels:
        def level(t: int) -> tuple[Table, Table]:
            past = demand[:, :t]
            return moment_levels(past.mean(axis=1) * P, past.var(axis=1, ddof=1) * P, target)

        return columns(demand, warm_up, level)

    return rule


def moment_levels(mean: Table, variance: Table, target: Target) -> tuple[Table, Table]:
    """Quantiles of the NB with these moments; Poisson where variance <= mean."""
    import numpy as np
    from scipy.stats import nbinom

    S, claimed = poisson_levels(mean, target)
    wide = variance > mean * (1 + 1e-9)
    m, v = mean[wide], variance[wide]
    shape, share = m * m / (v - m), m / v
    S, claimed = np.array(S), np.array(claimed)
    S[wide] = nbinom.ppf(target, shape, share)
    claimed[wide] = nbinom.cdf(S[wide], shape, share)
    return S, claimed


def empirical() -> Rule:
    """Quantile of the sums over P months in a row that were seen."""

    def rule(demand: Table, warm_up: int, P: int, target: Target) -> Levels:
        import numpy as np

        def level(t: int) -> tuple[Table, None]:
            sums = np.lib.stride_tricks.sliding_window_view(demand[:, :t], P, axis=1).sum(axis=2)
            return np.quantile(sums, target, axis=1, method="inverted_cdf"), None

        return columns(demand, warm_up, level)

    return rule
