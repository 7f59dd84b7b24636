"""What our rule would have achieved on this shop's own journal, beside what it claims."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING

from inventory.errors import NotFound
from inventory.stock.asked import LowSettings, PartStock
from inventory.stock.backtest import WARM_UP, Levels, Score, judge
from inventory.stock.lumpy import compound_exact
from inventory.stock.need import known_shelf, target_of
from inventory.stock.policies import gamma_poisson

if TYPE_CHECKING:
    from inventory.stock.backtest import Table, Target


@dataclass(frozen=True, slots=True)
class Achieved:
    """A back-test of the shop's own journal."""

    part_types: int
    months: int  # scored
    lead_time: int  # months, as replayed
    months_without_shortage: float  # achieved
    claimed: float  # by the rule, of the same months
    filled_at_once: float  # achieved
    on_hand: float  # pieces a part type lying there

    def sentence(self) -> str:
        """Claim and outcome in one sentence."""
        return (
            f"Replayed over {self.months} months of this journal: claimed"
            f" {self.claimed:.1%} of months without a shortage, achieved"
            f" {self.months_without_shortage:.1%}; {self.filled_at_once:.1%} of requests"
            " filled at once."
        )


def own_backtest(
    parts: Sequence[PartStock], settings: LowSettings, warm_up: int = WARM_UP
) -> Achieved:
    """Replay the report's rule over the journal's own months; nothing later is looked at.

    Lead time in whole months; each part type counts from its own first month plus warm-up.
    Raises ``NotFound`` where the journal is too short to judge.
    """
    lead = max(0, round(settings.lead_time))
    first = min((part.first_month for part in parts), default=settings.as_of_month)
    months = settings.as_of_month - first
    if months <= warm_up + lead:
        raise NotFound(
            f"A back-test needs more than {warm_up + lead} whole months of journal;"
            f" there are {max(0, months)}."
        )
    score = _judged(parts, settings, first, lead, warm_up)
    return Achieved(
        len(parts),
        months - warm_up - lead,
        lead,
        score.csl,
        score.claimed if score.claimed is not None else 0.0,
        score.fill,
        score.on_hand,
    )


def _judged(
    parts: Sequence[PartStock], settings: LowSettings, first: int, lead: int, warm_up: int
) -> Score:
    """The replay itself: compound for part types whose jobs use several, plain for the rest."""
    import numpy as np

    pieces, jobs = _tables(parts, first, settings.as_of_month)
    shelf = known_shelf(parts, settings)
    targets = np.array([target_of(part, shelf, settings)[0] for part in parts])
    several = np.array([part.pieces > part.jobs for part in parts])

    def rule(demand: Table, warm: int, P: int, aim: Target) -> Levels:
        plain = gamma_poisson(settings.discount, settings.prior)(demand, warm, P, aim)
        if not several.any():
            return plain
        lumpy = compound_exact(settings.discount, jobs)(demand, warm, P, aim)
        rows = several[:, None]
        assert plain.claimed is not None and lumpy.claimed is not None  # noqa: S101, PT018
        return Levels(
            np.where(rows, lumpy.S, plain.S), np.where(rows, lumpy.claimed, plain.claimed)
        )

    start = np.array([max(0, part.first_month - first) for part in parts], float)
    return judge(pieces, rule, L=lead, warm_up=warm_up, target=targets, start=start)


def _tables(parts: Sequence[PartStock], first: int, end: int) -> tuple[Table, Table]:
    """Pieces and jobs, part types x whole months.

    A piece put back later can leave a month with more jobs than pieces: a job used one at least.
    """
    import numpy as np

    pieces, jobs = np.zeros((len(parts), end - first)), np.zeros((len(parts), end - first))
    for row, part in enumerate(parts):
        for month in part.history:
            if first <= month.month < end:
                pieces[row, month.month - first] += month.quantity
                jobs[row, month.month - first] += month.jobs
    return pieces, np.minimum(jobs, pieces)
