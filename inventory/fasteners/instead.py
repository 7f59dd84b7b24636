"""What on the shelf goes in instead of a screw that is lost or that nobody has the bit for."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, replace

from inventory.fasteners import drives
from inventory.fasteners.designation import read_screw
from inventory.fasteners.drives import Drive, Tamper
from inventory.fasteners.holes import HoleKind, Place, hole_kind
from inventory.fasteners.mating import Verdict as ThreadVerdict
from inventory.fasteners.mating import mate
from inventory.fasteners.shelf import ShelfScrew
from inventory.fasteners.swap import RULES, Offer, WantedScrew
from inventory.records import Outcome, Reason, Verdict


@dataclass(frozen=True, slots=True)
class Suggestion:
    """One lot, judged."""

    offer: Offer
    verdict: Verdict
    reasons: tuple[Reason, ...]

    @property
    def screw(self) -> ShelfScrew:
        """The lot offered."""
        return self.offer.screw

    @property
    def driver(self) -> str:
        """The driver to fetch."""
        return drives.driver_for(self.screw.drive)

    @property
    def tamper(self) -> str:
        """kept, lowered, lost, raised, unserviceable or unknown."""
        return _TAMPER_WORDS[self.offer.tamper]

    @property
    def cautions(self) -> tuple[str, ...]:
        """What to mind before it goes in: everything that is not simply met."""
        return tuple(r.sentence for r in self.reasons if r.outcome is not Outcome.MET)


_TAMPER_WORDS = {
    Tamper.KEPT: "kept",
    Tamper.KEPT_OTHER_BIT: "kept, other bit",
    Tamper.RAISED: "raised",
    Tamper.REDUCED: "lowered",
    Tamper.LOST: "lost",
    Tamper.UNSERVICEABLE: "unserviceable",
    Tamper.UNKNOWN: "unknown",
}


def wanted_screw(text: str, place: Place | None = None) -> WantedScrew:
    """Read a sentence such as ``security hexalobular 15, M4x8 in sheet``.

    A place given beside the sentence wins over the one in it; a sentence that names none leaves
    the hole unknown. The thread must be named.
    """
    name = read_screw(text)
    name.need_thread()
    spoken = hole_kind(name.place) if name.place else HoleKind.UNKNOWN
    where = place or Place(spoken)
    if place is not None and place.kind is HoleKind.UNKNOWN:
        where = replace(place, kind=spoken)
    return WantedScrew(
        name, where, earth=name.earth, high_voltage=True if name.high_voltage else None
    )


def instead(wanted: WantedScrew, shelf: Iterable[ShelfScrew]) -> list[Suggestion]:
    """Every lot on hand, judged and in order: the same, what fits, what to ask, the refused.

    Within a verdict: how the thread goes in, the fewest open questions, what becomes of the
    tamper resistance, then the nearest length, the stronger thread and the larger lot. No
    score outvotes a refusal.
    """
    found = [judge(wanted, screw) for screw in shelf if screw.on_hand != 0]
    return sorted(found, key=lambda suggestion: _order(wanted, suggestion))


def judge(wanted: WantedScrew, screw: ShelfScrew) -> Suggestion:
    """One lot against the rules."""
    mating = mate(wanted.thread, screw.thread, wanted.place)
    offer = Offer(screw, mating, drives.tamper(_drive_to_keep(wanted), screw.drive))
    answers = (rule(wanted, offer) for rule in RULES)
    reasons = tuple(answer for answer in answers if answer is not None)
    return Suggestion(offer, _together(wanted, offer, reasons), reasons)


def _drive_to_keep(wanted: WantedScrew) -> Drive | None:
    """The original's drive; "security" without a name is some tamper-resistant drive."""
    if wanted.name.drive is None and wanted.name.secure:
        return drives.SOME_SECURITY_DRIVE
    return wanted.name.drive


def _together(wanted: WantedScrew, offer: Offer, reasons: tuple[Reason, ...]) -> Verdict:
    """The worst outcome wins; ``same`` needs the same thread, length and drive."""
    outcomes = {reason.outcome for reason in reasons}
    if Outcome.REFUSED in outcomes:
        return Verdict.REFUSED
    if Outcome.ASK in outcomes:
        return Verdict.ASK
    alike = offer.mating.verdict is ThreadVerdict.SAME and _alike(wanted, offer.screw)
    return Verdict.SAME if alike else Verdict.FITS


def _alike(wanted: WantedScrew, screw: ShelfScrew) -> bool:
    """Same drive, head and length; what is not known is not the same."""
    name = wanted.name
    pairs = ((name.drive, screw.drive), (name.head, screw.head))
    known = all(one is not None and one == other for one, other in pairs)
    lengths = name.length is not None and screw.length is not None
    return known and lengths and abs((name.length or 0) - (screw.length or 0)) <= 0.05


_THREAD_ORDER = {verdict: place for place, verdict in enumerate(ThreadVerdict)}
_TAMPER_ORDER = {
    tamper: place
    for place, tamper in enumerate(
        (
            Tamper.KEPT,
            Tamper.KEPT_OTHER_BIT,
            Tamper.RAISED,
            Tamper.UNKNOWN,
            Tamper.REDUCED,
            Tamper.LOST,
            Tamper.UNSERVICEABLE,
        )
    )
}
_VERDICT_ORDER = {verdict: place for place, verdict in enumerate(Verdict)}


def _order(wanted: WantedScrew, suggestion: Suggestion) -> tuple[object, ...]:
    """The documented order; the lot number settles ties, so the shelf's order never matters."""
    offer, screw = suggestion.offer, suggestion.screw
    was, now = wanted.name.length, screw.length
    apart = abs(now - was) if was is not None and now is not None else float("inf")
    return (
        _VERDICT_ORDER[suggestion.verdict],
        _THREAD_ORDER[offer.mating.verdict],
        sum(reason.outcome is Outcome.ASK for reason in suggestion.reasons),
        _TAMPER_ORDER[offer.tamper],
        apart,
        -(offer.mating.strip_ratio or 0.0),
        -(screw.on_hand or 0),
        screw.lot or 0,
        screw.text,
    )
