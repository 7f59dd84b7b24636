"""The discount chosen by the shelf itself: the one whose forecasts were likeliest so far."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

from inventory.stock.backtest import Levels, Rule
from inventory.stock.demand import DISCOUNT
from inventory.stock.policies import discounted_table, fitted_prior, gamma_poisson

if TYPE_CHECKING:
    from inventory.stock.backtest import Table, Target

CHOICES = (0.85, 0.90, 0.95, 1.0)
"""Discounts to choose from, a month."""

_FIRST = 3  # months of history before a forecast is judged


def likeliest_discounts(demand: Table, P: int, choices: Sequence[float] = CHOICES) -> list[float]:
    """The best discount before each month t: largest sum of log P(what the next P months asked).

    Pooled over all items, from forecasts whose P months are over by t. ``DISCOUNT`` until then.
    """
    import numpy as np

    months = demand.shape[1]
    gained = np.zeros((len(choices), months + 1))
    for c, w in enumerate(choices):
        seen, worth = discounted_table(demand, w, 1)
        for t in range(_FIRST, months - P + 1):
            prior = fitted_prior(demand[:, :t].sum(axis=1), float(t))
            asked = demand[:, t : t + P].sum(axis=1)
            gained[c, t + P] = _loglik(asked, prior.a + seen[t], prior.b + worth[t], P)
    total = gained.cumsum(axis=1)
    return [
        choices[int(total[:, t].argmax())] if t >= _FIRST + P else DISCOUNT
        for t in range(months + 1)
    ]


def _loglik(asked: Table, shape: Table, months: float, P: int) -> float:
    """Sum of log NB over the items."""
    from scipy.stats import nbinom

    return float(nbinom.logpmf(asked, shape, months / (months + P)).sum())


def gamma_poisson_chosen(choices: Sequence[float] = CHOICES) -> Rule:
    """Our rule with the discount picked month by month."""

    def rule(demand: Table, warm_up: int, P: int, target: Target) -> Levels:
        import numpy as np

        picks = likeliest_discounts(demand, P, choices)[warm_up : demand.shape[1]]
        each = {w: gamma_poisson(w)(demand, warm_up, P, target) for w in set(picks)}
        S = np.array([each[w].S[:, i] for i, w in enumerate(picks)]).T
        claims = [each[w].claimed for w in picks]
        claimed = np.array([c[:, i] for i, c in enumerate(claims) if c is not None]).T
        return Levels(S, claimed)

    return rule
