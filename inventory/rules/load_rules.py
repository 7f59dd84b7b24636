"""Contact ratings judged: every duty of the place against the ratings of the offered contact."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from itertools import groupby
from typing import NamedTuple

from inventory.families.sheet import Attribute
from inventory.records import Outcome, Reason
from inventory.rules.case import Case, ask
from inventory.rules.compare import show
from inventory.rules.loads import (
    CIRCLES,
    DIRECT,
    LOADS,
    UNNAMED,
    Duty,
    duties,
    highest,
    load_label,
    needed,
    unread,
    voltage_class,
)
from inventory.rules.words import form


def loads_are_carried(case: Case) -> Iterable[Reason]:
    """Each duty of the place is met by a rating of its own kind, at its voltage, on its throw."""
    if not any(attribute.load for attribute in case.sheet.attributes):
        return
    wanted = place_duties(case)
    if not wanted and not case.settled:
        yield from _nothing_wanted(case)
    yield from _unread(case)
    offered = duties(case.has)
    for loads in CIRCLES.values():
        circle = [duty for duty in wanted if duty.load in loads]
        yield from _unnamed(case, circle) if UNNAMED in loads else _circle(case, circle, offered)


def place_duties(case: Case) -> tuple[Duty, ...]:
    """What the place asks, in the order written; d.c. figures do not count on the mains."""
    volts = highest(case.stated.get("volts_ac"))
    on_mains = volts is not None or (case.place is not None and case.place.supply == "ac")
    found = needed(case.need, case.stated, volts)
    stated = DIRECT & set(case.stated)
    return tuple(d for d in found if not on_mains or stated or d.load not in DIRECT)


def _nothing_wanted(case: Case) -> Iterable[Reason]:
    """Nobody said what the contact must carry."""
    asked = next(a for a in case.sheet.attributes if a.load and a.unsaid == "ask")
    sentence = f"Nobody has said the {asked.label} the place needs."
    yield ask(asked.name, sentence, asked.source, asked.name, asked.effort, of_wanted=True)


def _unread(case: Case) -> Iterable[Reason]:
    """A load of the failed part that cannot be read is not one that it has not."""
    stated = any(load in case.stated for load in (*LOADS, "ratings"))
    for load in () if case.settled else unread(case.stated if stated else case.need):
        attribute = _attribute(case, load)
        said = f" ({show(case.need[load])})" if load in case.need else ""
        words = f"{_label(attribute)} of the failed part is on record{said} and cannot be read."
        yield ask("unread-load", words, "common practice", load, effort=1, of_wanted=True)


def _unnamed(case: Case, circle: list[Duty]) -> Iterable[Reason]:
    """A figure without its kind of current or load is never taken for one of them."""
    for duty in () if case.settled else circle:
        low = duty.volts is not None and duty.volts < _MAINS_FROM
        yield ask(
            "amps",
            f"The failed part says {duty.words()} and not for which load"
            f"{', nor whether a.c. or d.c.' if low else ''}: look what it switches.",
            "common practice",
            "dc_a" if low else "resistive_a",
            effort=1,
            of_wanted=True,
        )


_MAINS_FROM = 100.0
"""Below these volts an unnamed figure may be a d.c. one. Common practice."""


def _circle(case: Case, circle: list[Duty], offered: tuple[Duty, ...]) -> Iterable[Reason]:
    """Duties that may be stated in either of two schemes: one known scheme is enough."""
    answers = [(duty, _answer(case, duty, offered)) for duty in circle]
    known = [(duty, answer) for duty, answer in answers if answer]
    for load, group in groupby(sorted(known, key=_by_load), key=_by_load):
        yield from _one_load(case, load, [(duty, answer) for duty, answer in group if answer])
    met = any(answer and answer.outcome is Outcome.MET for _, answer in answers)
    missing = dict.fromkeys(duty.load for duty, answer in answers if not answer)
    for load in () if case.settled else missing:
        words = _listed(duty for duty in circle if duty.load == load)
        yield _unrated(case, load, words, met=met)


class Answer(NamedTuple):
    """What the offered ratings of one kind say of a duty."""

    outcome: Outcome
    ending: str  # of the sentence
    decides: str = ""
    of_wanted: bool = False  # what decides is found on the failed part or in its place
    short_of_volts: bool = False  # the amperes would do, the voltage does not


def _by_load(pair: tuple[Duty, Answer | None]) -> str:
    """The load of a duty, to group by."""
    return pair[0].load


def _one_load(case: Case, load: str, answers: list[tuple[Duty, Answer]]) -> Iterable[Reason]:
    """One kind of load; where one voltage is met and another not, the mains decides."""
    outcomes = {answer.outcome for _, answer in answers}
    mixed = Outcome.MET in outcomes and len({duty.volts for duty, _ in answers}) > 1
    attribute = _attribute(case, load)
    for duty, answer in answers:
        head = f"{_label(attribute)}: wanted {duty.words()}; {answer.ending}"
        if answer.outcome is Outcome.REFUSED and mixed:
            at = "volts_dc" if load in DIRECT else "volts_ac"
            head = f"{head} It does at the other voltage: which one is it?"
            yield ask(attribute.name, head, attribute.source, at, effort=1, of_wanted=True)
        else:
            yield _as_reason(attribute, head, answer)


def _as_reason(attribute: Attribute, sentence: str, answer: Answer) -> Reason:
    """The answer as a reason; a refusal says why the figure matters."""
    why = _VOLTS if answer.short_of_volts else attribute.reason
    if answer.outcome is Outcome.REFUSED and why:
        sentence = f"{sentence.rstrip('.')}: {why.rstrip('.')}."
    asks = answer.outcome is Outcome.ASK
    return Reason(
        attribute.name,
        answer.outcome,
        sentence,
        attribute.source,
        answer.decides if asks else None,
        attribute.effort,
        asks and answer.of_wanted,
    )


_VOLTS = "the gap must break the voltage it sits in"


def _answer(case: Case, duty: Duty, offered: tuple[Duty, ...]) -> Answer | None:
    """What the offered part's ratings of this kind say; None where it has none."""
    theirs = [rating for rating in offered if rating.load == duty.load]
    if not theirs:
        return None
    found = _said_of(case, duty, theirs)
    if found.decides == "volts_ac" and found.of_wanted and "volts_ac" in case.stated:
        # the tech has said which mains it is
        return Answer(Outcome.REFUSED, f"offered {_listed(theirs)}.", short_of_volts=True)
    return found


def _said_of(case: Case, duty: Duty, theirs: list[Duty]) -> Answer:
    """What ratings of the right kind say, on the throw in use."""
    throw = throw_in_use(case, duty)
    if throw:
        return _on_throw(duty, [r for r in theirs if r.throw in {None, throw}], throw)
    sides = {rating.throw for rating in theirs} - {None}
    each = [_against(duty, [r for r in theirs if r.throw in {None, side}]) for side in sides]
    if not each:
        return _against(duty, theirs)
    if len({answer.outcome for answer in each}) == 1:
        return min(each)
    ending = f"rated apart for NO and NC: {_listed(theirs)}. Which throw is in use?"
    return Answer(Outcome.ASK, ending, "contact_form", of_wanted=True)


def throw_in_use(case: Case, duty: Duty) -> str | None:
    """The throw the place uses: by the place, by the rating, or by a single-throw failed part."""
    if case.place and case.place.contact:
        return case.place.contact
    single = form(case.need.get("contact_form", ""))
    return duty.throw or (single if single in {"NO", "NC"} else None)


def _on_throw(duty: Duty, theirs: list[Duty], throw: str) -> Answer:
    """The ratings of the throw in use; those of the other one do not count."""
    if not theirs:
        return Answer(Outcome.ASK, f"rated for the other throw only, not for {throw}.", duty.load)
    return _against(duty, theirs)


def _against(duty: Duty, theirs: list[Duty]) -> Answer:
    """One duty against the offered ratings of its kind."""
    enough = [rating for rating in theirs if _enough(rating, duty)]
    offers = f"offered {_listed(theirs)}."
    if duty.volts is None:
        return _any_voltage(duty, theirs, offers)
    if duty.load == "hp":
        return _horsepower(duty, theirs, offers)
    if any(rating.volts is not None and rating.volts >= duty.volts for rating in enough):
        return Answer(Outcome.MET, offers)
    if any(rating.volts is None for rating in enough):
        at = "volts_dc" if duty.load in DIRECT else "volts_ac"
        return Answer(Outcome.ASK, f"{offers} At which voltage is not known.", at)
    near = [rating for rating in enough if _one_mains(rating, duty)]
    if near:
        ending = f"{offers} That is the same mains by another name: what does the place have?"
        return Answer(Outcome.ASK, ending, "volts_ac", of_wanted=True)
    return Answer(Outcome.REFUSED, offers, short_of_volts=bool(enough))


def _one_mains(rating: Duty, duty: Duty) -> bool:
    """Whether two a.c. voltages are names of one mains: 240 and 250 V, 120 and 125 V."""
    return duty.load not in DIRECT and voltage_class(rating.volts) == voltage_class(duty.volts)


def _enough(rating: Duty, duty: Duty) -> bool:
    """Whether a figure is as large; 1/6 hp is printed as 0.16, 0.167 or 0.1667."""
    slack = 0.005 if duty.load == "hp" else 1e-9 * duty.amount
    return rating.amount >= duty.amount - slack


def _any_voltage(duty: Duty, theirs: list[Duty], offers: str) -> Answer:
    """A duty without a voltage: met where every rating is enough, on every mains there is."""
    enough = [rating for rating in theirs if _enough(rating, duty)]
    if not enough:
        return Answer(Outcome.REFUSED, offers)
    if len(enough) == len(theirs) and _on_any_mains(duty.load, enough):
        return Answer(Outcome.MET, offers)
    ending = f"{offers} Which voltage the place has is not said."
    at = "volts_dc" if duty.load in DIRECT else "volts_ac"
    return Answer(Outcome.ASK, ending, at, of_wanted=True)


def _on_any_mains(load: str, enough: list[Duty]) -> bool:
    """Whether ratings hold on 120 and on 240 V; horsepower must be rated at both.

    Source: NEC table 430.248: half a horsepower draws twice the current on half the voltage.
    """
    known = {mains for rating in enough if (mains := voltage_class(rating.volts))}
    if load in DIRECT:
        return False
    if load == "hp":
        return known >= {120.0, 240.0}
    return load in _WITHOUT_VOLTS or max(known, default=0.0) >= 240.0


_WITHOUT_VOLTS = frozenset({"tv"})
"""Codes that stand for their own voltage."""


def _horsepower(duty: Duty, theirs: list[Duty], offers: str) -> Answer:
    """Horsepower at its own mains class only.

    Source: NEC table 430.248: 1/2 hp is 9.8 A at 115 V and 4.9 A at 230 V.
    """
    here = [rating for rating in theirs if rating.volts == duty.volts]
    if not here:
        sentence = f"{offers} That is another voltage, and so another current."
        return Answer(Outcome.ASK, sentence, "hp")
    met = any(_enough(rating, duty) for rating in here)
    return Answer(Outcome.MET if met else Outcome.REFUSED, offers)


def _unrated(case: Case, load: str, words: str, *, met: bool) -> Reason:
    """The offered part states no rating of this kind: a question, unless its twin scheme is met."""
    attribute = _attribute(case, load)
    label = _label(attribute)
    if met:
        return Reason(
            attribute.name,
            Outcome.NOTE,
            f"{label}: wanted {words}; not stated, but the same duty is met in the other scheme.",
            attribute.source,
        )
    sentence = f"{label}: wanted {words}; {_what_is_there(case)} stands in for it."
    return ask(attribute.name, sentence, attribute.source, attribute.name, effort=9)


def _what_is_there(case: Case) -> str:
    """What the offered part states instead of the rating in question."""
    unnamed = [rating for rating in duties(case.has) if rating.load == UNNAMED]
    if unnamed:
        return f"the offered part says {_listed(unnamed)} without the load, and that hardly"
    return "the offered part states none, and no other figure"


def _attribute(case: Case, load: str) -> Attribute:
    """The sheet's line for a load."""
    name = "pilot_duty" if load == "pilot_duty_dc" else load
    return case.sheet.attribute(name) or Attribute(name, load_label(name), source=_CATEGORIES)


_CATEGORIES = "IEC 60947-5-1, utilization categories; common practice"


def _label(attribute: Attribute) -> str:
    """The load's name at the head of a sentence."""
    return attribute.label[:1].upper() + attribute.label[1:]


def _listed(ratings: Iterable[Duty]) -> str:
    """Ratings as a tech says them, in a fixed order."""
    return ", ".join(sorted({rating.words() for rating in ratings}))


def headroom(case: Case) -> Mapping[str, float]:
    """Share of each duty in the best rating of its kind that meets it: 1 is no excess.

    A duty that no rating meets is 0, unless its twin scheme is met.
    """
    shares: dict[str, float] = {}
    offered = duties(case.has)
    for duty in place_duties(case):
        fits = [r.amount for r in offered if r.load == duty.load and r.amount >= duty.amount > 0]
        share = duty.amount / min(fits) if fits else 0.0
        shares[duty.load] = min(share, shares.get(duty.load, 1.0))
    return {load: share for load, share in shares.items() if share or not _twin_met(load, shares)}


def _twin_met(load: str, shares: Mapping[str, float]) -> bool:
    """Whether the same duty is met in another scheme."""
    circle = next((loads for loads in CIRCLES.values() if load in loads), ())
    return any(shares.get(other, 0.0) > 0 for other in circle if other != load)
