"""From a part type's history to its demand, and from its price to the service that pays."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from statistics import median

from inventory.stock.asked import LowSettings, PartStock
from inventory.stock.compound import SIZE_WEIGHT, ExtraPieces, compound_counts, compound_variance
from inventory.stock.counts import Counts
from inventory.stock.demand import GammaPoisson, discounted_months
from inventory.stock.prior import ENOUGH_PARTS, shelf_prior
from inventory.stock.reorder import critical_ratio

LEAST_TARGET, MOST_TARGET = 0.5, 0.998
"""A cost-aware target stays between these; our choice (the back-test's own range)."""


@dataclass(frozen=True, slots=True)
class Demand:
    """What is known of how often a part type is asked for."""

    rate: GammaPoisson  # jobs a month, discounted history included
    extra: ExtraPieces | None  # pieces beyond the first of a job; None: always one
    jobs: int  # seen, undiscounted
    months: float  # watched, undiscounted

    def over(self, P: float) -> Counts:
        """Pieces asked for in the next P months."""
        jobs = self.rate.over(P)
        return jobs if self.extra is None or P == 0 else compound_counts(jobs, self.extra)

    @property
    def size(self) -> float:
        """Pieces a job."""
        return 1.0 if self.extra is None else self.extra.mean_size

    @property
    def per_month(self) -> float:
        """Expected pieces a month."""
        return self.rate.mean * self.size

    @property
    def spread(self) -> float:
        """Standard deviation of one month's pieces."""
        jobs = self.rate.over(1)
        if self.extra is None:
            return math.sqrt(jobs.variance)
        return math.sqrt(compound_variance(jobs, self.extra))

    def between(self, conf: float = 0.9) -> tuple[float, float]:
        """Bounds of the true mean [pieces a month]: what the history leaves open."""
        tail = (1 - conf) / 2
        low, high = self.rate.rate_quantile(tail), self.rate.rate_quantile(1 - tail)
        return low * self.size, high * self.size

    def as_pieces(self) -> GammaPoisson:
        """The rate in pieces a month, for what counts single pieces (what one more is worth).

        Where jobs use several, the Gamma with the same mean and spread of one month's pieces:
        b = m/(v - m), a = m b.
        """
        if self.extra is None:
            return self.rate
        m, v = self.per_month, self.spread**2
        b = m / (v - m)
        return GammaPoisson(m * b, b)

    @property
    def basis(self) -> str:
        """What the figure rests on, in words."""
        if self.jobs == 0 and self.months < 1:
            return "no history: prior only"
        months = f"{self.months:.0f} month{'' if round(self.months) == 1 else 's'}"
        if self.jobs == 0:
            return f"never used in {months}"
        jobs = "1 job" if self.jobs == 1 else f"{self.jobs} jobs"
        return f"{jobs} in {months}"


@dataclass(frozen=True, slots=True)
class Shelf:
    """What all part types together teach each of them."""

    prior: GammaPoisson
    prior_from: str  # in words
    extra: ExtraPieces  # pieces beyond the first, of parts that are used several at once
    middle_price: float | None  # cents


def watched(part: PartStock, settings: LowSettings) -> float:
    """Months the part type has been on the shelf."""
    return max(0.0, settings.as_of_month - part.first_month + settings.month_gone)


def known_shelf(parts: Sequence[PartStock], settings: LowSettings) -> Shelf:
    """The shelf's prior, job sizes and middle price."""
    prices = [part.price_cents for part in parts if part.price_cents]
    prior, words = _prior(parts, settings)
    several = [part for part in parts if part.pieces > part.jobs]
    jobs = sum(part.jobs for part in several)
    extra = sum(part.pieces for part in several) - jobs
    size = extra / jobs if jobs else 0.5
    pool = ExtraPieces(SIZE_WEIGHT * size, SIZE_WEIGHT)
    return Shelf(prior, words, pool, median(prices) if prices else None)


def _prior(parts: Sequence[PartStock], settings: LowSettings) -> tuple[GammaPoisson, str]:
    """The prior, and in words where it comes from."""
    if settings.prior is not None:
        return settings.prior, "set by the shop"
    used = sum(part.jobs > 0 for part in parts)
    months = [watched(part, settings) for part in parts]
    prior = shelf_prior([part.jobs for part in parts], months)
    if used < ENOUGH_PARTS:
        return (
            prior,
            f"the default: {used} part types with history, {ENOUGH_PARTS} needed to learn one",
        )
    return prior, f"learned from {len(parts)} part types"


def demand_of(part: PartStock, shelf: Shelf, settings: LowSettings) -> Demand:
    """Gamma-Poisson on jobs; compound where jobs use several."""
    now = settings.as_of_month
    uses = [(month.month, month.jobs) for month in part.history]
    seen = discounted_months(uses, part.first_month, now, settings.discount)
    running = sum(jobs for month, jobs in uses if month == now)
    gone = settings.month_gone if part.first_month <= now else 0.0
    several = part.pieces > part.jobs
    return Demand(
        shelf.prior.after(seen.n + running, seen.T + gone),
        shelf.extra.after(part.pieces, part.jobs) if several else None,
        part.jobs,
        watched(part, settings),
    )


def target_of(part: PartStock, shelf: Shelf, settings: LowSettings) -> tuple[float, str]:
    """Share of months without shortage to aim at, and in words where it comes from.

    With a price: b/(b + h), h = price x holding share. b is what the shop set, or else that
    shortage cost at which a part of the shelf's middle price gets the shop's service level:
    cheaper parts then get more, dearer ones less, for the same money.
    Source: reference section 0 (price-aware target).
    """
    service = part.service or settings.service
    if not part.price_cents or shelf.middle_price is None or part.service is not None:
        return service, "the service level set"
    b = settings.shortage_cents
    if b is None:
        b_middle = shelf.middle_price * settings.holding * service / (1 - service)
        ratio = critical_ratio(part.price_cents, settings.holding, b_middle)
    else:
        ratio = critical_ratio(part.price_cents, settings.holding, b)
    return min(MOST_TARGET, max(LEAST_TARGET, ratio)), "price against shortage"
