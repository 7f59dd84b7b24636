"""How long pieces last, those that still run included: Kaplan-Meier with Greenwood."""

from __future__ import annotations

import math
from bisect import bisect_left
from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass
from statistics import NormalDist

from inventory.errors import WrongInput
from inventory.stock.checks import a_share, ages
from inventory.stock.intervals import Interval


@dataclass(frozen=True, slots=True)
class Step:
    """One drop of the curve."""

    time: float  # age at which pieces failed
    at_risk: int  # pieces that had reached it, those censored at this age included
    failed: int
    survival: float  # R(t): share still good just after
    greenwood_se: float  # standard error of R(t)

    def interval(self, conf: float = 0.95) -> Interval:
        """Bounds of R(t) on the log(-log) scale, so that they stay between 0 and 1.

        Source: Kalbfleisch & Prentice 1980 (from memory); statsmodels' and lifelines' default.
        """
        a_share(conf=conf)
        if not 0 < self.survival < 1:
            return Interval(self.survival, self.survival)
        log_r = math.log(self.survival)
        spread = NormalDist().inv_cdf((1 + conf) / 2) * self.greenwood_se
        width = spread / (self.survival * abs(log_r))
        return Interval(self.survival ** math.exp(width), self.survival ** math.exp(-width))


@dataclass(frozen=True, slots=True)
class Curve:
    """A survival curve: 1 from age 0, then a drop at each step."""

    steps: tuple[Step, ...]
    pieces: int
    failures: int
    longest: float  # largest age seen

    @property
    def R(self) -> list[float]:
        """Survival after each drop."""
        return [step.survival for step in self.steps]

    @property
    def greenwood_se(self) -> list[float]:
        """Standard error after each drop."""
        return [step.greenwood_se for step in self.steps]

    @property
    def at_risk(self) -> list[int]:
        """Pieces at risk at each drop."""
        return [step.at_risk for step in self.steps]

    def at(self, age: float) -> float | None:
        """R(age); None beyond the largest age seen, where nothing is known."""
        if age > self.longest:
            return None
        return next((s.survival for s in reversed(self.steps) if s.time <= age), 1.0)

    def median(self) -> float | None:
        """First age at which half or fewer survive; None if not reached."""
        return next((s.time for s in self.steps if s.survival <= 0.5), None)


def kaplan_meier(fail: Sequence[float], censored: Sequence[float] = ()) -> Curve:
    """Survival from ages at failure and ages of pieces that had not failed.

    R(t) = prod (1 - d_i/n_i); Greenwood: R² sum d_i/(n_i (n_i - d_i)). A piece censored at the
    age of a failure counts as still there. Ages in any one unit.
    Source: NIST/SEMATECH e-Handbook 8.2.1.5.

    >>> curve = kaplan_meier([10, 32, 56], [50, 100])
    >>> [round(r, 3) for r in curve.R], curve.at_risk
    ([0.8, 0.6, 0.3], [5, 4, 2])
    """
    all_ages = [*fail, *censored]
    ages(all_ages)
    steps: list[Step] = []
    survival, spread, rising = 1.0, 0.0, sorted(all_ages)
    for age, failed in sorted(Counter(fail).items()):
        n = len(rising) - bisect_left(rising, age)
        survival *= 1 - failed / n
        spread += failed / (n * (n - failed)) if n > failed else 0.0
        steps.append(Step(age, n, failed, survival, survival * math.sqrt(spread)))
    return Curve(tuple(steps), len(all_ages), len(fail), max(all_ages, default=0.0))


def kaplan_meier_flags(time: Sequence[float], event: Sequence[bool | int]) -> Curve:
    """The same from one list of ages and one that says which of them are failures.

    >>> kaplan_meier_flags([6, 6, 7], [1, 0, 1]).at_risk
    [3, 1]
    """
    if len(time) != len(event):
        raise WrongInput("Each age needs a flag that says whether the piece failed.")
    pairs = list(zip(time, event, strict=True))
    return kaplan_meier([t for t, e in pairs if e], [t for t, e in pairs if not e])
