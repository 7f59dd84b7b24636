"""What to do about a part type that runs short: bench, pull, buy, in this order."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from inventory.stock.asked import Donor, PartStock
from inventory.stock.counts import Counts
from inventory.stock.yields import UNKNOWN_YIELD, Yield


@dataclass(frozen=True, slots=True)
class Action:
    """One thing to do."""

    kind: str  # bench, pull, buy or none
    pieces: int
    sentence: str
    unit: str | None = None  # for pull: label of the source unit
    unit_id: int | None = None
    expected_good: float | None = None  # pieces, for bench and pull


def plan(
    part: PartStock, demand: Counts, *, target: float, keep: int, up_to: int
) -> tuple[Action, ...]:
    """Steps that bring P(demand <= what will be there) to the target.

    demand: over lead time + review; ``keep`` pieces reach the target by themselves. Untested
    pieces and donors are worth what their kind has yielded (Beta-binomial), so the fewest are
    taken that reach the target with chance counted in; what is still missing is bought: up to
    ``up_to`` where nothing else is to be had.
    """
    if part.policy == "never":
        return (Action("none", 0, "Not kept: the family sheet says never."),)
    known = UNKNOWN_YIELD.after(part.good_seen, part.pulled_seen)
    bench = part.untested if part.salvaged else 0
    donors = part.donors if part.salvaged else ()
    free = bench + sum(donor.pieces for donor in donors)
    taken, pmf = _fewest(part.position, demand, target, known, free)
    benched = min(taken, bench)
    actions = [*_bench(benched, known), *_pulls(donors, taken - benched, known)]
    missing = next(
        n
        for n in range(keep - part.position + 1)
        if n == keep - part.position or _reached(part.position + n, demand, pmf) >= target
    )
    if missing:
        actions.append(_buy(missing if taken else up_to - part.position))
    return tuple(actions)


def _fewest(
    position: int, demand: Counts, target: float, known: Yield, free: int
) -> tuple[int, tuple[float, ...]]:
    """The fewest pieces to try, and the chances of 0, 1, 2 ... good among them."""
    pmf: tuple[float, ...] = (1.0,)
    for taken in range(free + 1):
        pmf = known.of(taken)
        if _reached(position, demand, pmf) >= target:
            return taken, pmf
    return free, pmf


def _reached(position: int, demand: Counts, pmf: Sequence[float]) -> float:
    """P(demand <= position + good pieces)."""
    return math.fsum(w * demand.cdf(position + g) for g, w in enumerate(pmf))


def _bench(pieces: int, known: Yield) -> list[Action]:
    """Test what lies there untested."""
    if not pieces:
        return []
    good = pieces * known.share
    these = "the untested one" if pieces == 1 else f"{pieces} of the untested"
    return [Action("bench", pieces, f"Bench {these}: about {good:.1f} good.", expected_good=good)]


def _pulls(donors: Sequence[Donor], pieces: int, known: Yield) -> list[Action]:
    """Pull from the units in the yard, the first ones named first."""
    actions = []
    for donor in donors:
        take = min(pieces, donor.pieces)
        if take <= 0:
            continue
        pieces -= take
        good = take * known.share
        sentence = f"Pull {take} from {donor.unit}: about {good:.1f} good."
        actions.append(Action("pull", take, sentence, donor.unit, donor.unit_id, good))
    return actions


def _buy(pieces: int) -> Action:
    """Order new ones."""
    return Action("buy", pieces, f"Buy {pieces}.")
