"""What keeps failing: part types, makers and models against their kind."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from inventory.stock.demand import GammaPoisson
from inventory.stock.intervals import Interval, Mtbf, jeffreys, mtbf_interval, wilson
from inventory.stock.survival import Curve, kaplan_meier
from inventory.stock.wear import (
    Fitted,
    WearRate,
    by_kind,
    pooled,
    wear_rate,
    wear_words,
    worse_than_its_kind,
)

__all__ = ["Fitted", "WearLine", "WearReport", "curve_of", "what_wears"]

SMALL = 40
"""Up to so many pieces Jeffreys' interval is given, above it Wilson's.

Source: Brown, Cai & DasGupta 2001: either of them for n <= 40.
"""


@dataclass(frozen=True, slots=True)
class WearLine:
    """One member of a kind."""

    name: str
    kind: str
    pieces: int
    failures: int
    share: Interval  # of pieces that failed so far, 95 %
    share_by: str  # "Jeffreys" or "Wilson"
    rate: WearRate  # drawn to the pool
    life: Mtbf  # months between failures, 90 %
    curve: Curve

    @property
    def flag(self) -> bool:
        """Whether the evidence holds."""
        return self.rate.flag

    def sentence(self) -> str:
        """What to say of it, in one sentence."""
        count = wear_words(self.failures, self.pieces, self.rate.exposure)
        if self.flag:
            return worse_than_its_kind(self.name, count, self.rate.shrunk / self.rate.pool)
        if self.failures:
            return f"{self.name}: {count}; not enough to call it worse than its kind."
        return f"{self.name}: none of {self.pieces} failed so far."


@dataclass(frozen=True, slots=True)
class WearReport:
    """All members, those with the strongest evidence first."""

    lines: tuple[WearLine, ...]
    pools: dict[str, GammaPoisson]  # failures and piece-months, by kind

    def flagged(self) -> tuple[WearLine, ...]:
        """Only those that deserve a warning."""
        return tuple(line for line in self.lines if line.flag)

    def warnings(self) -> dict[str, str]:
        """Name -> sentence of the flagged ones, as ``stock.wear.warnings`` gives it without all."""
        return {line.name: line.sentence() for line in self.flagged()}


def what_wears(members: Iterable[Fitted]) -> WearReport:
    """Rates of all members against the pool of their kind; kinds without a failure are left out.

    The pool holds every member, the suspect too, which makes a flag harder to earn.
    Source: reference section 4.
    """
    pools, lines = {}, []
    for kind, group in by_kind(members):
        pool = pooled([len(x.failed) for x in group], [x.exposure for x in group])
        if pool is not None:
            pools[kind] = pool
            lines += [_line(x, pool) for x in group if x.exposure > 0]
    lines.sort(key=lambda line: (not line.flag, -line.rate.ratio, line.name))
    return WearReport(tuple(lines), pools)


def _line(member: Fitted, pool: GammaPoisson) -> WearLine:
    """The line of one member."""
    failures = len(member.failed)
    share, by = _share(failures, member.pieces)
    return WearLine(
        member.name,
        member.kind,
        member.pieces,
        failures,
        share,
        by,
        wear_rate(failures, member.exposure, pool),
        mtbf_interval(member.exposure, failures, conf=0.9),
        kaplan_meier(member.failed, member.alive),
    )


def _share(failures: int, pieces: int) -> tuple[Interval, str]:
    """Interval of the failed share, and whose it is."""
    if pieces <= SMALL:
        return jeffreys(failures, pieces), "Jeffreys"
    return wilson(failures, pieces), "Wilson"


def curve_of(members: Sequence[Fitted]) -> Curve:
    """One survival curve over several members."""
    return kaplan_meier(
        [age for member in members for age in member.failed],
        [age for member in members for age in member.alive],
    )
