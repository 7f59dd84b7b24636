"""What fails more than its kind: rates drawn to the pool, flagged only on evidence."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from typing import NamedTuple

from inventory.errors import WrongInput
from inventory.stock.checks import above_zero, not_negative
from inventory.stock.demand import GammaPoisson
from inventory.stock.prior import ENOUGH_PARTS, fit_prior

TIMES = 2.0
"""A flag says: probably more than this many times the pool's rate."""

SURE = 0.9
"""... with more than this chance ..."""

LEAST_FAILURES = 3
"""... and at least so many failures. Source of the three: reference section 4."""

POOL_FAILURES = 1.5
"""Failures that an unfitted pool's rate weighs. Source: reference section 4, S60."""

POOL_CAP = 240.0
"""Piece-months that a fitted pool weighs at most: twenty pieces for a year; our choice."""


@dataclass(frozen=True, slots=True)
class Fitted:
    """Pieces of one part type, maker or model that were fitted, and what became of them.

    Ages in months in service. A piece nobody heard of again is alive at its last known age.
    """

    name: str
    kind: str  # what it is compared with, e.g. its family
    failed: tuple[float, ...] = ()  # ages at failure
    alive: tuple[float, ...] = ()  # ages so far

    @property
    def pieces(self) -> int:
        """Pieces fitted."""
        return len(self.failed) + len(self.alive)

    @property
    def exposure(self) -> float:
        """Piece-months in service, those still alive included."""
        return sum(self.failed) + sum(self.alive)


@dataclass(frozen=True, slots=True)
class WearRate:
    """A failure rate drawn to the pool, and whether it deserves a flag. Rates per piece-month."""

    failures: int
    exposure: float  # piece-months, those still alive included
    pool: float  # rate of its kind
    raw: float | None  # failures / exposure; None: no exposure
    shrunk: float  # (a + f)/(b + exposure)
    lower: float  # lower 5 % of the shrunk rate
    p_above: float  # P(rate > 2 x pool)
    flag: bool

    @property
    def ratio(self) -> float:
        """Lower 5 % over the pool's rate: the key the list is ranked by."""
        return self.lower / self.pool


def wear_rate(
    failures: int,
    exposure: float,
    pool: GammaPoisson,
    *,
    times: float = TIMES,
    sure: float = SURE,
    least: int = LEAST_FAILURES,
) -> WearRate:
    """Gamma(a + f, b + exposure); flag where P(rate > times x a/b) > sure and f >= least.

    failures f; exposure [piece-months]; pool: Gamma(a failures, b piece-months).
    Source: reference section 4, S60; DuMouchel 1999 (EB05, from memory) for the lower 5 %.

    >>> found = wear_rate(5, 70, GammaPoisson(1.5, 75))
    >>> round(found.raw, 4), round(found.shrunk, 4), round(found.lower, 4), found.flag
    (0.0714, 0.0448, 0.0203, False)
    """
    not_negative(failures=failures, exposure=exposure)
    known = pool.after(failures, exposure)
    chance = known.rate_above(times * pool.mean)
    return WearRate(
        failures,
        exposure,
        pool.mean,
        failures / exposure if exposure > 0 else None,
        known.mean,
        known.rate_quantile(0.05),
        chance,
        chance > sure and failures >= least,
    )


def pool_of(rate: float, weight: float = POOL_FAILURES) -> GammaPoisson:
    """A pool of known rate [failures/piece-month], worth ``weight`` failures.

    >>> pool_of(0.02)
    GammaPoisson(a=1.5, b=75.0)
    """
    above_zero(rate=rate, weight=weight)
    return GammaPoisson(weight, weight / rate)


def pooled(failures: Sequence[int], exposure: Sequence[float]) -> GammaPoisson | None:
    """The pool of a kind: fitted over 30 members with failures, else its plain rate.

    failures, exposure [piece-months]: of each member. None: no failure or no exposure yet.

    >>> pooled([1, 0, 1], [40, 40, 20])
    GammaPoisson(a=1.5, b=75.0)
    """
    total, months = sum(failures), sum(exposure)
    if total == 0 or months <= 0:
        return None
    if sum(f > 0 for f in failures) >= ENOUGH_PARTS:
        return fit_prior(failures, exposure, cap=POOL_CAP).prior
    return pool_of(total / months)


def by_kind(members: Iterable[Fitted]) -> list[tuple[str, list[Fitted]]]:
    """Members by their kind, in alphabetical order."""
    kinds: dict[str, list[Fitted]] = {}
    for member in members:
        if any(age < 0 for age in (*member.failed, *member.alive)):
            raise WrongInput(f"{member.name} has an age below zero.")
        kinds.setdefault(member.kind, []).append(member)
    return sorted(kinds.items())


class Tally(NamedTuple):
    """Pieces of one member of a kind, counted: what a warning needs and no more."""

    name: str
    kind: str
    pieces: int
    failures: int
    exposure: float  # piece-months in service, those still alive included


def warnings(members: Iterable[Tally]) -> dict[str, str]:
    """Name -> sentence of the members that deserve a flag, for the warning shown in ``find``."""
    kinds: dict[str, list[Tally]] = {}
    for member in members:
        kinds.setdefault(member.kind, []).append(member)
    found = {}
    for _, group in sorted(kinds.items()):
        pool = pooled([x.failures for x in group], [x.exposure for x in group])
        for x in group:
            if pool is None or x.failures < LEAST_FAILURES or x.exposure <= 0:
                continue
            known = pool.after(x.failures, x.exposure)
            if known.rate_above(TIMES * pool.mean) > SURE:
                count = wear_words(x.failures, x.pieces, x.exposure)
                found[x.name] = worse_than_its_kind(x.name, count, known.mean / pool.mean)
    return found


def wear_words(failures: int, pieces: int, exposure: float) -> str:
    """How many failed in what time [piece-months], in words."""
    return f"{failures} of {pieces} failed in {exposure:.0f} piece-months"


def worse_than_its_kind(name: str, count: str, times: float) -> str:
    """What is said of a flagged member: ``times`` is its rate over that of its kind."""
    return f"{name}: {count}, about {times:.1f} times the rate of its kind."
