"""One candidate as it is offered: judged, with its lots, its set and what its records say."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, replace

from inventory.families.sheet import families, sheet
from inventory.matching.edges import Step, best_steps, spoken
from inventory.matching.keys import bare
from inventory.matching.rank import Offer, Road, StandIn
from inventory.matching.roads import Roads
from inventory.records import Edge, Lot, Outcome, Part, Reason, Value, Verdict
from inventory.rules.compare import compare
from inventory.rules.judge import judge, judge_lot, order_of
from inventory.rules.terms import in_terms
from inventory.rules.verdict import Wanted


@dataclass(frozen=True, slots=True)
class Records:
    """What the shelf's records of two codes say against each other."""

    wanted: Wanted
    roads: Roads

    def disagree(self, one: str, other: str) -> Iterable[str]:
        """Sentences on attributes in which a part under the second code is refused."""
        first, second = self._ratings(one), self._ratings(other)
        if first is None or second is None or self.wanted.family not in families():
            return
        used = sheet(self.wanted.family or "")
        need, has = in_terms(used, first), in_terms(used, second)
        for attribute in used.attributes:
            if need.get(attribute.name) is None or has.get(attribute.name) is None:
                continue
            said = compare(attribute, need[attribute.name], has[attribute.name])
            if said and said.outcome is Outcome.REFUSED:
                yield said.sentence.rstrip(".")

    def _ratings(self, code: str) -> Mapping[str, Value] | None:
        """The ratings on record under a code; of the wanted part, what it says itself."""
        if bare(code) in {bare(own) for own in codes_of(self.wanted)}:
            return self.wanted.ratings
        numbers = self.roads.by_codes([bare(code)]).get(bare(code), ())
        parts = self.roads.parts(numbers[:1])
        return next(iter(parts.values())).ratings if parts else None


@dataclass(frozen=True, slots=True)
class WholeSet:
    """Numbers that are sold together in place of one: all are needed."""

    steps: Sequence[Step]
    roads: Roads

    def reasons(self, part: Part) -> Iterable[Reason]:
        """What the cross-references of a part ask beyond its own ratings."""
        codes = {bare(code) for code in (part.type_code, part.marking, *part.aliases) if code}
        step = next((s for s in best_steps(self.steps).values() if bare(s.code) in codes), None)
        if step is None:
            return
        for doubt in step.doubts:
            yield Reason("cross-reference", Outcome.NOTE, f"{doubt}.", step.edge.source)
        for code in step.together_with:
            yield self._other(code, step.edge)

    def _other(self, code: str, edge: Edge) -> Reason:
        """Whether another number of the set lies on the shelf too."""
        numbers = self.roads.by_codes([bare(code)]).get(bare(code), ())
        free = any(
            lot.on_hand > lot.held for lots in self.roads.lots(numbers).values() for lot in lots
        )
        if free:
            sentence = f"Only together with {code}, which is on the shelf: {spoken(edge)}."
            return Reason("whole-set", Outcome.NOTE, sentence, edge.source)
        sentence = f"Only together with {code}, of which none is free here: {spoken(edge)}."
        return Reason("whole-set", Outcome.ASK, sentence, edge.source, code, effort=9)


TEST_FIRST = Reason(
    "test-first",
    Outcome.NOTE,
    "Only pieces that nobody has tested lie here: test first.",
    "design rule: untested",
    "bench test",
)
"""Said with a part of which no piece is known to work, whatever its figures."""


def stand_in(
    wanted: Wanted, part: Part, lots: Sequence[Lot], ways: Sequence[Road], whole: WholeSet
) -> StandIn:
    """One candidate, judged with its lots."""
    judged = judge(wanted, part)
    reasons = [*judged.reasons, *whole.reasons(part)]
    offers = [_offer(part, lot, wanted.place) for lot in lots if lot.on_hand > lot.held]
    good = tuple(offer for offer in offers if not offer.refused)
    if offers and not good:
        reasons += [offer.reason for offer in offers if offer.reason]
    elif good and all(_asks_of_the_piece(offer) for offer in good):
        reasons += list(dict.fromkeys(offer.reason for offer in good if offer.reason))
    elif good and all(offer.state == 2 for offer in good):
        reasons.append(TEST_FIRST)
    verdict = _worst(judged.verdict, reasons)
    like = max((road.likeness for road in ways), default=0.0)
    return StandIn(
        part=part,
        judgement=replace(judged, verdict=verdict, reasons=tuple(sorted(reasons, key=order_of))),
        lots=good or tuple(offers),  # refused lots are shown with their reason, never offered
        likeness=like,
        roads=tuple(sorted(set(ways))),
    )


def _asks_of_the_piece(offer: Offer) -> bool:
    """Whether more than a bench test is open on a piece: its history, or its oil."""
    reason = offer.reason
    return reason is not None and reason.outcome is Outcome.ASK and reason.rule != "test-first"


def _offer(part: Part, lot: Lot, place: str | None) -> Offer:
    """A lot with what its rules say of it."""
    known = part.family in families()
    reason = judge_lot(sheet(part.family), lot, place_name=place, part=part) if known else None
    good = known and lot.state in sheet(part.family).good_states()
    return Offer(lot, reason, good)


def _worst(verdict: Verdict, reasons: Iterable[Reason]) -> Verdict:
    """The rules' verdict, made worse by what came on top; never better."""
    outcomes = {reason.outcome for reason in reasons}
    if Outcome.REFUSED in outcomes:
        return Verdict.REFUSED
    return Verdict.ASK if Outcome.ASK in outcomes else verdict


def codes_of(wanted: Wanted) -> list[str]:
    """The codes of the wanted part."""
    return [code for code in (wanted.type_code, *sorted(wanted.own_codes)) if code]
