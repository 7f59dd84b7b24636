"""The order of stand-ins: one key, and the steps of it in words.

The key, most telling first:

1. verdict: ``same``, ``fits``, ``ask``, ``refused``. Where only untested pieces lie here the part
   counts as ``ask``: a bench test is still open;
2. tested state: a good test, new and untested, untested, nothing here;
3. closeness of fit: head-room without excess (``rules.closeness``);
4. the very same text on both parts;
5. for a failed part without a code: few open questions and much on record;
6. likeness of the text, by which a misspelt code finds its own;
7. distance along cross-references, the nearest first;
8. age: what has lain longest goes first;
9. bin: nearest to where the tech stands, else in the order of bins;
10. number of the part type, so that equals always come in one order.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from inventory.records import Lot, Outcome, Part, Reason, Verdict
from inventory.rules.verdict import Judgement

VERDICTS = (Verdict.SAME, Verdict.FITS, Verdict.ASK, Verdict.REFUSED)
"""Best first."""

_STATES = ("tested good", "new, not tested", "not tested", "none here")

_LATE = "9999"  # stands for a date nobody wrote down: after all others


@dataclass(frozen=True, slots=True, order=True)
class Road:
    """How a candidate was found."""

    name: str  # "code", "cross-reference", "unit", "past jobs", "text" or "ratings"
    sentence: str
    source: str
    likeness: float = 0.0  # 0 to 1; orders within a verdict only
    distance: int = 0  # steps along cross-references


@dataclass(frozen=True, slots=True)
class Offer:
    """A lot that may be offered, with what must be done or looked at first."""

    lot: Lot
    reason: Reason | None = None
    good: bool = False  # its state is a good one of the family

    @property
    def refused(self) -> bool:
        """True for a lot that is never offered."""
        return self.reason is not None and self.reason.outcome is Outcome.REFUSED

    @property
    def state(self) -> int:
        """Place in the order of tested states."""
        if self.good:
            return 0
        return 1 if self.reason is None or self.reason.outcome is not Outcome.ASK else 2


@dataclass(frozen=True, slots=True)
class StandIn:
    """A part type offered for another, with the lots it can be taken from."""

    part: Part
    judgement: Judgement
    lots: tuple[Offer, ...] = ()
    likeness: float = 0.0
    roads: tuple[Road, ...] = ()

    @property
    def verdict(self) -> Verdict:
        """What the rules say of the part type and what goes with it."""
        return self.judgement.verdict

    @property
    def offered_as(self) -> Verdict:
        """The verdict for ordering: only untested pieces leave a question open."""
        untested = bool(self.lots) and all(offer.state == 2 for offer in self.lots)
        return Verdict.ASK if untested and self.verdict is not Verdict.REFUSED else self.verdict

    @property
    def score(self) -> float:
        """0 to 1, within a verdict: closeness of fit, and likeness where fits are equal."""
        return round(0.9 * self.judgement.closeness + 0.1 * self.likeness, 4)

    @property
    def distance(self) -> int:
        """Steps along cross-references on the shortest road; 0 for any other road."""
        return min((road.distance for road in self.roads), default=0)


@dataclass(frozen=True, slots=True)
class Found:
    """The answer to a search."""

    stand_ins: tuple[StandIn, ...]  # with a lot to take them from, best first
    refused: tuple[StandIn, ...]
    not_here: tuple[StandIn, ...]  # would do or might, but no piece is free
    said: tuple[str, ...] = ()  # of numbers no longer made
    more: int = 0  # stand-ins beyond the limit


Key = tuple[int, int, float, bool, float, float, int, str, int, str, int]

ALIKE = 0.9999
"""From this likeness on two texts are one."""


def key(stand_in: StandIn, near_bin: str | None = None) -> Key:
    """The one key of the order; smaller is better. See the top of this module."""
    lots = lots_in_order(stand_in.lots, near_bin)
    best = lots[0] if lots else None
    return (
        VERDICTS.index(stand_in.offered_as),
        best.state if best else 3,
        -stand_in.judgement.closeness,
        stand_in.likeness < ALIKE,
        -stand_in.judgement.ease,
        -round(stand_in.likeness, 4),
        stand_in.distance,
        (best.lot.logged_at or _LATE) if best else _LATE,
        -_nearness(best.lot.bin if best else None, near_bin),
        (best.lot.bin or "~") if best else "~",
        stand_in.part.id or 0,
    )


def lots_in_order(offers: Iterable[Offer], near_bin: str | None = None) -> list[Offer]:
    """Lots of one part type: tested ones first, then the oldest, then the nearest bin."""
    return sorted(
        offers,
        key=lambda offer: (
            offer.state,
            offer.lot.logged_at or _LATE,
            -_nearness(offer.lot.bin, near_bin),
            offer.lot.bin or "~",
            offer.lot.id,
        ),
    )


def in_order(
    offered: Iterable[StandIn],
    *,
    limit: int = 20,
    near_bin: str | None = None,
    said: Sequence[str] = (),
) -> Found:
    """Candidates sorted out and put in order, whatever order they came in."""
    ordered = [
        _with_lots_in_order(one, near_bin)
        for one in sorted(offered, key=lambda one: key(one, near_bin))
    ]
    # of the refused a tech wants to see the nearest first: the state of their lots is no matter
    refused = sorted(
        (one for one in ordered if one.verdict is Verdict.REFUSED),
        key=lambda one: (
            _other_kind(one),
            -one.likeness,
            one.distance,
            _refusals(one),
            -one.judgement.closeness,
        ),
    )
    kept = [one for one in ordered if one.verdict is not Verdict.REFUSED]
    here = [one for one in kept if one.lots]
    return Found(
        stand_ins=tuple(here[:limit]),
        refused=tuple(refused),
        not_here=tuple(one for one in kept if not one.lots),
        said=tuple(said),
        more=max(len(here) - limit, 0),
    )


def _refusals(one: StandIn) -> int:
    """How much stands against a part."""
    return sum(reason.outcome is Outcome.REFUSED for reason in one.judgement.reasons)


def _other_kind(one: StandIn) -> bool:
    """True for a part of a family that does not belong here at all."""
    return any(
        reason.rule == "family" and reason.outcome is Outcome.REFUSED
        for reason in one.judgement.reasons
    )


def _with_lots_in_order(one: StandIn, near_bin: str | None) -> StandIn:
    """A stand-in with its best lot first."""
    lots = tuple(lots_in_order(one.lots, near_bin))
    return StandIn(one.part, one.judgement, lots, one.likeness, one.roads)


def steps(stand_in: StandIn, near_bin: str | None = None) -> tuple[str, ...]:
    """Why it stands where it stands: the parts of the key in words, most telling first."""
    place = key(stand_in, near_bin)
    deciding = [r for r in stand_in.judgement.reasons if r.outcome in _DECIDING.get(place[0], ())]
    why = "; ".join(reason.sentence.rstrip(".") for reason in deciding) or "no rule objects"
    best = stand_in.lots[0].lot if stand_in.lots else None
    lines = [f"verdict {VERDICTS[place[0]]}: {why}", f"tested state: {_STATES[place[1]]}"]
    if best:
        lines[-1] += f" (lot {best.id}, {best.state})"
    lines.append(f"closeness of fit {stand_in.judgement.closeness:.2f}")
    if stand_in.judgement.ease:
        lines.append(f"little left to ask {stand_in.judgement.ease:.2f}")
    lines.append(f"likeness of the text {stand_in.likeness:.2f}")
    lines += [f"found by {road.name}: {road.sentence} ({road.source})" for road in stand_in.roads]
    if best:
        lines.append(f"on the shelf since {best.logged_at or 'nobody knows when'}")
        lines.append(f"in bin {best.bin or 'unknown'}")
    return tuple(lines)


_DECIDING = {2: (Outcome.ASK,), 3: (Outcome.REFUSED,)}


def _nearness(bin_code: str | None, near: str | None) -> int:
    """How many signs two bins share from the beginning: the same rack, the same row."""
    if not bin_code or not near:
        return 0
    shared = 0
    for one, other in zip(bin_code.upper(), near.upper(), strict=False):
        if one != other:
            break
        shared += 1
    return shared
