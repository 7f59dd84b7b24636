"""Life that ages: the Weibull curve fitted to failures and to pieces that still run."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from inventory.errors import WrongInput
from inventory.stock.checks import a_share, above_zero, not_negative

_STEEPEST = 1e4
"""A steeper shape than this means that all pieces failed at one age."""

_HALVINGS = 200


@dataclass(frozen=True, slots=True)
class Weibull:
    """R(t) = exp(-(t/eta)^beta). Below 1 early failures, 1 chance, above 1 wear."""

    beta: float  # shape
    eta: float  # age that 63.2 % do not reach [unit of the ages]
    loglik: float | None = None  # of the fit

    def __post_init__(self) -> None:
        above_zero(beta=self.beta, eta=self.eta)

    def reliability(self, age: float) -> float:
        """Share still good at an age.

        >>> round(Weibull(2, 100).reliability(100), 4)
        0.3679
        """
        not_negative(age=age)
        if age == 0:
            return 1.0
        return math.exp(-math.exp(min(700.0, self.beta * math.log(age / self.eta))))

    def life(self, share: float) -> float:
        """Age at which this share has failed; 0.10 is the B10 life.

        >>> round(Weibull(1.5, 1000).life(0.1), 2)
        223.08
        """
        a_share(share=share)
        return float(self.eta * (-math.log1p(-share)) ** (1 / self.beta))

    @property
    def mean(self) -> float:
        """Mean life, eta G(1 + 1/beta)."""
        return self.eta * math.gamma(1 + 1 / self.beta)

    @property
    def sd(self) -> float:
        """Standard deviation of the life, eta sqrt(G(1 + 2/beta) - G(1 + 1/beta)²)."""
        second = math.gamma(1 + 2 / self.beta)
        return self.eta * math.sqrt(second - math.gamma(1 + 1 / self.beta) ** 2)


def weibull_fit(fail: Sequence[float], censored: Sequence[float] = ()) -> Weibull:
    """Weibull by maximum likelihood; pieces that still run count with their age so far.

    1/beta = sum t^beta ln t / sum t^beta - mean ln t of the failures; eta^beta = sum t^beta / r.
    Needs two failures; where every piece failed at one age there is no curve.
    Source: NIST/SEMATECH e-Handbook 8.4.1.3: 10 of 20 failed, beta 1.7208, eta 606.5280.

    >>> failed = [54, 187, 216, 240, 244, 335, 361, 373, 375, 386]
    >>> fit = weibull_fit(failed, [500] * 10)
    >>> round(fit.beta, 4), round(fit.eta, 3)
    (1.7208, 606.528)
    """
    all_ages = [*fail, *censored]
    for age in all_ages:
        above_zero(age=age)
    if len(fail) < 2:
        raise WrongInput(f"A Weibull curve needs two failures, and there are {len(fail)}.")
    longest = max(all_ages)
    scaled = [age / longest for age in all_ages]
    beta = _shape(scaled, [age / longest for age in fail])
    r, total = len(fail), math.fsum(age**beta for age in scaled)
    eta = (total / r) ** (1 / beta) * longest
    logs = math.fsum(math.log(age / eta) for age in fail)
    return Weibull(beta, eta, r * math.log(beta / eta) + (beta - 1) * logs - r)


def _shape(ages: Sequence[float], fail: Sequence[float]) -> float:
    """The root of the likelihood equation, which rises with beta; ages at most 1."""
    middle = math.fsum(math.log(age) for age in fail) / len(fail)
    logs = [math.log(age) for age in ages]

    def slope(beta: float) -> float:
        weights = [math.exp(beta * log) for log in logs]
        along = math.fsum(w * log for w, log in zip(weights, logs, strict=True))
        return along / math.fsum(weights) - 1 / beta - middle

    low, high = 1e-6, 1.0
    while slope(high) < 0:
        high *= 2
        if high > _STEEPEST:
            raise WrongInput("All failures have one age: no Weibull curve can be fitted.")
    for _ in range(_HALVINGS):
        beta = (low + high) / 2
        low, high = (beta, high) if slope(beta) < 0 else (low, beta)
    return (low + high) / 2
