"""A prior learned from the whole shelf: how rates vary from part type to part type."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

from inventory.errors import WrongInput
from inventory.stock.checks import MOST, above_zero
from inventory.stock.climb import Ground, climb
from inventory.stock.demand import PRIOR, GammaPoisson

CAP_MONTHS = 24.0
"""A pooled prior weighs 24 months at most; uncapped it can run off to infinity.

Source: reference section 0.
"""

ENOUGH_PARTS = 30
"""Part types with history that a pooled fit needs. Source: reference, section 0."""


@dataclass(frozen=True, slots=True)
class Fit:
    """A fitted prior and how well it explains the counts."""

    a: float  # uses
    b: float  # months
    loglik: float

    @property
    def prior(self) -> GammaPoisson:
        """The prior itself."""
        return GammaPoisson(self.a, self.b)

    def shrunk(self, n: Sequence[float], exposure: Sequence[float]) -> list[float]:
        """Each rate drawn towards the pool: (a + n)/(b + T) [uses a month]."""
        return [(self.a + k) / (self.b + t) for k, t in zip(n, exposure, strict=True)]


def fit_prior(n: Sequence[float], exposure: Sequence[float], cap: float | None = CAP_MONTHS) -> Fit:
    """Gamma(a, b) that makes the counts likeliest: max sum log NB(n_i; a, b/(b + T_i)).

    n: uses of each part type, zeros included; exposure T_i [months]; cap: largest b [months],
    the mean a/b being kept.
    Source: negative-binomial marginal maximum likelihood; pumps of Gaver & O'Muircheartaigh
    1987 (S36).

    >>> fit = fit_prior([5, 1, 5, 14, 3, 19, 1, 1, 4, 22], [94.32, 15.72, 62.88, 125.76, 5.24,
    ...                 31.44, 1.048, 1.048, 2.096, 10.48], cap=None)
    >>> round(fit.a, 3), round(fit.b, 3), round(fit.loglik, 3)
    (0.822, 1.259, -32.263)
    """
    counts, months = _arrays(n, exposure)
    mean = max(float(counts.sum() / months.sum()), 1e-4)
    a, b = climb(lambda a, b: _ground(counts, months, a, b), (mean, 1.0))
    if cap is not None and b > cap:
        a, b = a / b * cap, cap
    return Fit(a, b, _loglik(counts, months, a, b))


def _arrays(n: Sequence[float], exposure: Sequence[float]) -> tuple[Any, Any]:
    """Counts and months as arrays, those never watched left out."""
    import numpy as np

    try:
        counts, months = np.asarray(n, float), np.asarray(exposure, float)
    except (TypeError, ValueError) as wrong:
        raise WrongInput("A prior needs numbers: counts, and months of watching.") from wrong
    if counts.shape != months.shape or counts.ndim != 1:
        raise WrongInput("Each count needs one exposure.")
    watched = months > 0
    odd = not ((counts <= MOST).all() and (months >= 0).all() and (months <= MOST).all())
    if odd or not watched.any() or (counts < 0).any():
        raise WrongInput("A prior needs counts of zero or more and a month of watching.")
    return counts[watched], months[watched]


def _loglik(counts: Any, months: Any, a: float, b: float) -> float:
    """Sum of log NB(n_i; a, b/(b + T_i))."""
    import numpy as np
    from scipy.special import gammaln

    terms = (
        gammaln(a + counts)
        - gammaln(a)
        - gammaln(counts + 1)
        + a * np.log(b / (b + months))
        + counts * np.log(months / (b + months))
    )
    return float(terms.sum())


def _ground(counts: Any, months: Any, a: float, b: float) -> Ground:
    """The log likelihood with its slopes and curvatures in a and b."""
    import numpy as np
    from scipy.special import polygamma, psi

    watched = b + months
    return Ground(
        _loglik(counts, months, a, b),
        float((psi(a + counts) - psi(a) + np.log(b / watched)).sum()),
        float((a / b - (a + counts) / watched).sum()),
        float((polygamma(1, a + counts) - polygamma(1, a)).sum()),
        float((1 / b - 1 / watched).sum()),
        float(((a + counts) / watched**2 - a / b**2).sum()),
    )


def shelf_prior(n: Sequence[float], exposure: Sequence[float]) -> GammaPoisson:
    """The prior to use on this shelf: fitted where 30 part types have uses, else the default.

    n: uses of each catalogued part type, those never used included; exposure [months].

    >>> shelf_prior([1, 0, 2], [6, 6, 6])
    GammaPoisson(a=0.5, b=2.0)
    """
    if sum(k > 0 for k in n) < ENOUGH_PARTS:
        return PRIOR
    return fit_prior(n, exposure).prior


def scaled(prior: GammaPoisson, months: float) -> GammaPoisson:
    """The same mean rate worth another number of months.

    >>> scaled(GammaPoisson(0.5, 2), 8)
    GammaPoisson(a=2.0, b=8)
    """
    above_zero(months=months)
    return GammaPoisson(prior.mean * months, months)
