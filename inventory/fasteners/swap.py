"""Rules for putting one screw in place of another, each silent where it does not apply.

A rule looks at what is wanted and at the offer and answers with one sentence. One refusal
refuses; an unknown asks. Nothing here scores.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

from inventory.families.sheet import sheet
from inventory.fasteners import drives, heads, holes, length, strength
from inventory.fasteners.designation import ScrewName
from inventory.fasteners.drives import Tamper
from inventory.fasteners.fit import Detail
from inventory.fasteners.holes import Place
from inventory.fasteners.mating import PRACTICE, Mating, Verdict
from inventory.fasteners.shelf import ShelfScrew
from inventory.fasteners.thread import Form, Thread
from inventory.records import Outcome, Reason

HOUSE = "house rule"


@dataclass(frozen=True, slots=True)
class WantedScrew:
    """The screw to be replaced and where it sits; None is *not known*."""

    name: ScrewName
    place: Place
    earth: bool = False
    high_voltage: bool | None = None  # does the cover enclose stored high voltage?
    stack: float | None = None  # mm of parts under the head
    back_is_clear: bool = False
    lower_tamper: bool = False  # a person has asked for a lower tamper class

    @property
    def thread(self) -> Thread:
        """The wanted thread."""
        return self.name.need_thread()


@dataclass(frozen=True, slots=True)
class Offer:
    """A shelf screw in the wanted one's hole."""

    screw: ShelfScrew
    mating: Mating
    tamper: Tamper

    @property
    def turns(self) -> float:
        """Turns of the offered thread in the metal."""
        return self.mating.engaged / self.screw.thread.pitch


Rule = Callable[[WantedScrew, Offer], Reason | None]


def _reason(
    rule: str, outcome: Outcome, sentence: str, source: str = HOUSE, decides: str | None = None
) -> Reason:
    """A reason; what decides an ASK is a look unless it needs a caliper."""
    effort = 3 if decides in {"length_mm", "engaged_mm"} else 1
    return Reason(rule, outcome, sentence, source, decides, effort)


def thread_goes_in(wanted: WantedScrew, offer: Offer) -> Reason | None:
    """The offered thread enters and holds, or forms a new one that a person must accept."""
    mating = offer.mating
    rule, said = "thread_goes_in", " ".join(mating.reasons)
    source = "fasteners: thread geometry, see salvage screw fit"
    if mating.verdict is Verdict.SAME:
        return _reason(rule, Outcome.MET, said, source)
    if mating.verdict is Verdict.RUNS_FREE:
        sure = _runs_and_holds(mating)
        outcome = Outcome.MET if sure else Outcome.ASK
        decides = None if sure else "whether it runs by hand and holds well enough there"
        return _reason(rule, outcome, said, source, decides)
    if mating.verdict is Verdict.FORCES:
        decides = f"whether the {wanted.thread.name} thread may be lost"
        return _reason(rule, Outcome.ASK, said, f"{source}; {PRACTICE}", decides)
    return _reason(rule, Outcome.REFUSED, said, source)


def _runs_and_holds(mating: Mating) -> bool:
    """True where any part runs home in at least two turns and bites as the right screw does.

    A wrong pitch does not show in one turn of sheet, and a #10-32 in an M5 nut runs free with
    three quarters of the bite: riders found such racks loose or stripped (smontanaro.net, Classic
    Rendezvous list 2003-07). A person decides on those.
    """
    found = mating.thread_fit
    if found is None or mating.detail is not Detail.RUNS_FREE:
        return False
    return found.grade == "full" and found.numbers.turns_needed >= length.LEAST_TURNS


def earth_keeps_a_machine_thread(wanted: WantedScrew, offer: Offer) -> Reason | None:
    """An earthing screw keeps a machine thread and forms no new one.

    Source: NEC 250.8(A)(5) and (6); sheet-metal screws are not accepted.
    """
    if not wanted.earth:
        return None
    rule, source = "earth_keeps_a_machine_thread", "NEC 250.8(A)(5), (6); UL 62368-1"
    if offer.screw.thread.form in {Form.TAPPING, Form.PLASTICS}:
        why = "A spaced-thread screw never makes an earth connection."
        return _reason(rule, Outcome.REFUSED, why, source)
    if offer.mating.verdict is Verdict.FORCES:
        why = "An earthing screw is never forced into a new thread."
        return _reason(rule, Outcome.REFUSED, why, source)
    if offer.mating.verdict is not Verdict.SAME:
        why = "Another thread at an earth connection: only a person who can measure it decides."
        return _reason(rule, Outcome.ASK, why, source, "earth resistance")
    return _reason(rule, Outcome.MET, "Keeps the machine thread of the earth connection.", source)


def earth_has_two_threads(wanted: WantedScrew, offer: Offer) -> Reason | None:
    """An earthing screw has two full threads in the metal."""
    if not wanted.earth:
        return None
    rule, source = "earth_has_two_threads", "NEC 250.8(A)(5); UL 73, 12.2.3.10"
    measured = wanted.place.engaged is not None or wanted.place.sheet is not None
    said = f"{offer.turns:.1f} threads engage; an earth connection needs two."
    if measured:
        enough = offer.turns >= length.LEAST_TURNS
        return _reason(rule, Outcome.MET if enough else Outcome.REFUSED, said, source)
    why = "Count the threads in the metal: an earth connection needs two full ones."
    return _reason(rule, Outcome.ASK, why, source, "engaged_mm")


def earth_keeps_its_washer(wanted: WantedScrew, offer: Offer) -> Reason | None:
    """The toothed washer moves over, and the screw is of a kind that conducts."""
    if not wanted.earth:
        return None
    rule = "earth_keeps_its_washer"
    source = "appliance makers' service guides; CSA TN-017 on toothed washers through paint"
    if offer.screw.earth_suited is False:
        why = "This lot is marked as not suited for earth."
        return _reason(rule, Outcome.REFUSED, why, source)
    said = "Fit the toothed washer again, on bare metal; check the earth path afterwards."
    if offer.screw.earth_suited is None:
        why = f"Is the screw bare or plated, not painted? {said}"
        return _reason(rule, Outcome.ASK, why, source, "earth_suited")
    return _reason(rule, Outcome.NOTE, said, source)


_COVER = "IEC 60335 idea of access only with a tool (from memory)"


def tamper_class_is_kept(wanted: WantedScrew, offer: Offer) -> Reason | None:
    """Covers over stored high voltage keep their tamper class by default.

    Where nobody said what is behind the cover, a lower class asks; a household drive on such a
    cover is refused even when a lower class was asked for.
    """
    if wanted.name.drive is None and not wanted.name.secure and not wanted.high_voltage:
        return None
    rule = "tamper_class_is_kept"
    if offer.tamper is Tamper.UNSERVICEABLE:
        why = "This drive does not come out again: the cover could not be serviced."
        return _reason(rule, Outcome.REFUSED, why, HOUSE)
    if offer.tamper is Tamper.UNKNOWN:
        return _unknown_tamper(offer)
    if offer.tamper not in {Tamper.REDUCED, Tamper.LOST}:
        return _reason(rule, Outcome.MET, f"Tamper resistance {offer.tamper}.", HOUSE)
    return _lower_tamper(wanted, offer)


def _unknown_tamper(offer: Offer) -> Reason | None:
    """The drive of one of the two is not known."""
    rule = "tamper_class_is_kept"
    if offer.screw.drive is None:
        why = "Look at its drive: the tamper class of the original is to be kept."
        return _reason(rule, Outcome.ASK, why, _COVER, "drive")
    if drives.tamper_class(offer.screw.drive) >= 2:
        return _reason(rule, Outcome.MET, "The offered drive is tamper-resistant.", HOUSE)
    why = "The original's drive is not known; a security drive must not become an ordinary one."
    return _reason(rule, Outcome.ASK, why, _COVER, "drive of the original")


def _lower_tamper(wanted: WantedScrew, offer: Offer) -> Reason:
    """The offered drive is easier to undo."""
    rule, word = "tamper_class_is_kept", "lost" if offer.tamper is Tamper.LOST else "lowered"
    was = wanted.name.drive or "a security drive"
    said = f"Tamper resistance {word}: {offer.screw.drive} for {was}."
    if wanted.high_voltage is False:
        return _reason(rule, Outcome.NOTE, said, _COVER)
    if wanted.high_voltage is None:
        why = f"{said} If the cover encloses stored high voltage, keep the security drive."
        return _reason(rule, Outcome.ASK, why, _COVER, "what is behind the cover")
    if wanted.lower_tamper and offer.tamper is Tamper.REDUCED:
        why = f"{said} A tool is still needed; warn the customer in writing."
        return _reason(rule, Outcome.ASK, why, _COVER, "who may open the cover")
    why = f"{said} Stored high voltage kills after unplugging: keep the tamper class."
    return _reason(rule, Outcome.REFUSED, why, _COVER)


def spaced_thread_is_not_for_covers(wanted: WantedScrew, offer: Offer) -> Reason | None:
    """A spaced-thread screw is not for a cover that is removed, where a machine screw was."""
    to_spaced = offer.screw.thread.form is Form.TAPPING and wanted.thread.is_machine
    if not to_spaced or offer.mating.verdict is not Verdict.FORCES:
        return None
    why = "Spaced threads are not for a cover that is removed for service."
    source = "UL 353, 6.3.2"
    outcome = Outcome.REFUSED if wanted.high_voltage else Outcome.ASK
    return _reason("spaced_thread_is_not_for_covers", outcome, why, source, "is it a cover?")


def length_is_right(wanted: WantedScrew, offer: Offer) -> Reason | None:
    """Never less thread in mesh than the original, never longer without looking behind."""
    rule, was, now = "length_is_right", wanted.name.length, offer.screw.length
    if was is None or now is None:
        which = "original" if was is None else "offered screw"
        why = f"The length of the {which} is not known."
        return _reason(rule, Outcome.ASK, why, HOUSE, "length_mm")
    if now > was + 0.05:
        why = f"{now - was:.1f} mm longer: look behind first for live parts, wiring, a cavity."
        if wanted.back_is_clear:
            return _reason(rule, Outcome.NOTE, f"{now - was:.1f} mm longer; back is clear.", HOUSE)
        return _reason(rule, Outcome.ASK, why, HOUSE, "what is behind the hole")
    if now < was - 0.3:
        return _shorter(wanted, offer, was - now)
    return _reason(rule, Outcome.MET, "The length is that of the original.", HOUSE)


def _shorter(wanted: WantedScrew, offer: Offer, by: float) -> Reason:
    """A shorter screw is right only where as much thread is engaged."""
    rule, was, now = "length_is_right", wanted.name.length or 0.0, offer.screw.length or 0.0
    if wanted.stack is None:
        why = f"{by:.1f} mm shorter: measure the parts under the head before it goes in."
        return _reason(rule, Outcome.ASK, why, HOUSE, "length_mm")
    joint = length.Joint(wanted.stack, offer.mating.engaged, offer.screw.thread.pitch)
    check = length.check_length((wanted.thread, was), (offer.screw.thread, now), joint)
    if check.ok:
        why = f"{by:.1f} mm shorter, and still {check.candidate:.1f} mm engage."
        return _reason(rule, Outcome.MET, why, "FED-STD-H28/2B, 70.7.2")
    why = f"{by:.1f} mm shorter: {' and '.join(check.reasons)}."
    return _reason(rule, Outcome.REFUSED, why, "FED-STD-H28/2B, 70.7.2")


def passes_the_part_above(wanted: WantedScrew, offer: Offer) -> Reason | None:
    """The thread goes through the clearance hole of the part under the head."""
    clear = holes.clearance(wanted.thread)
    if clear is None or offer.screw.thread.same_as(wanted.thread):
        return None
    widest = holes.widest(offer.screw.thread)
    said = f"{widest:.2f} mm over the thread; a clearance hole for the original is"
    rule, source = "passes_the_part_above", "ISO 273; inch drills of the trade"
    if widest < clear["medium"]:
        return _reason(rule, Outcome.MET, f"{said} {clear['medium']:.1f} mm.", source)
    return _reason(rule, Outcome.REFUSED, f"{said} only {clear['medium']:.1f} mm.", source)


def head_bears(wanted: WantedScrew, offer: Offer) -> Reason | None:
    """The head sits as the original's did."""
    rule, source = "head_bears", "ISO 7045, ISO 7046 and ASME B18.6.3 head sizes"
    was, now = wanted.name.head, offer.screw.head
    if was is None or now is None:
        return None
    if heads.is_countersunk(was) != heads.is_countersunk(now):
        why = f"A {now} head does not sit where a {was} head was."
        return _reason(rule, Outcome.REFUSED, why, source)
    if heads.is_countersunk(was) and offer.screw.thread.system is not wanted.thread.system:
        why = "Countersunk 90 degrees (metric) against 82 (inch): it bears on an edge only."
        return _reason(rule, Outcome.ASK, why, source, "the angle of the countersink")
    share = heads.bearing_share(wanted.thread, offer.screw.thread, was, now)
    if share is not None and share < 0.9:
        why = f"The head is {100 * (1 - share):.0f} % smaller across: add a washer."
        return _reason(rule, Outcome.NOTE, why, source)
    return None


def class_is_kept(wanted: WantedScrew, offer: Offer) -> Reason | None:
    """At least the original's property class; stainless is no silent swap for 8.8 and above."""
    rule, source = "class_is_kept", "ISO 898-1; ISO 3506-1; SAE J429, J82"
    if not wanted.thread.is_machine or not offer.screw.thread.is_machine:
        return None
    needed = _rank(wanted.name.grade)
    have = _rank(offer.screw.grade)
    if wanted.name.grade is None and offer.screw.grade is None:
        return None
    row = strength.property_class(offer.screw.grade) if offer.screw.grade else None
    if have < needed:
        shown = offer.screw.grade or "unmarked, taken as 4.8 or 60M"
        why = f"Property class {shown} for {wanted.name.grade}: weaker than the original."
        return _reason(rule, Outcome.REFUSED, why, source)
    if row is not None and row["stainless"] == "1":
        why = "Stainless: softer proof load and prone to seize; say so on the job."
        return _reason(rule, Outcome.NOTE, why, source)
    return _reason(rule, Outcome.MET, "At least the original's property class.", source)


def _rank(grade: str | None) -> int:
    """Order of strength; an unmarked small screw counts as 4.8 (common practice)."""
    return int(strength.property_class(grade or "4.8")["rank"])


def strip_strength_is_enough(_wanted: WantedScrew, offer: Offer) -> Reason | None:
    """The thread that holds is not much weaker than the original's."""
    ratio = offer.mating.strip_ratio
    if ratio is None or offer.mating.verdict is Verdict.SAME or ratio >= 0.85:
        return None
    why = f"Strips at about {100 * ratio:.0f} % of the original's load: tighten by feel."
    outcome = Outcome.NOTE if ratio >= 0.6 else Outcome.ASK
    return _reason(
        "strip_strength_is_enough", outcome, why, "FED-STD-H28/2B (2a), (4a)", "the load"
    )


def fit_every_screw(wanted: WantedScrew, _offer: Offer) -> Reason | None:
    """The cover of a high-voltage unit is part of its shield."""
    if not wanted.high_voltage:
        return None
    said = "Fit every screw of the cover and do the leakage check before it leaves."
    return _reason("fit_every_screw", Outcome.NOTE, said, "21 CFR 1030.10 service instructions")


def the_lot_is_sound(_wanted: WantedScrew, offer: Offer) -> Reason | None:
    """A worn lot is never offered; a salvaged one nobody looked at is looked at first."""
    state, rule, screws = offer.screw.state, "the_lot_is_sound", sheet("screw")
    if state is None or state in screws.good_states():
        return None
    if state in screws.state_names() and state != "untested":
        return _reason(rule, Outcome.REFUSED, f"This lot is {state}.", HOUSE)
    if state == "untested" and offer.screw.origin == "new":
        return _reason(rule, Outcome.NOTE, "New, and nobody has looked at it.", HOUSE)
    why = "Look at thread and drive first: nobody has."
    return _reason(rule, Outcome.ASK, why, HOUSE, "state")


RULES: tuple[Rule, ...] = (
    the_lot_is_sound,
    thread_goes_in,
    earth_keeps_a_machine_thread,
    earth_has_two_threads,
    earth_keeps_its_washer,
    tamper_class_is_kept,
    spaced_thread_is_not_for_covers,
    length_is_right,
    passes_the_part_above,
    head_bears,
    class_is_kept,
    strip_strength_is_enough,
    fit_every_screw,
)
"""All rules, in the order their reasons are read."""
