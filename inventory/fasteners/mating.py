"""One screw in place of another in a given hole: the command's verdict, with reasons.

The detailed verdict of ``fit`` says what two thread profiles do; what that means depends on
what the hole is made of, and some pairs are no pair of profiles at all.
"""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum

from inventory.fasteners import contact, holes
from inventory.fasteners.contact import Condition
from inventory.fasteners.fit import Detail, ThreadFit, fit
from inventory.fasteners.holes import HOLE_NAMES, HoleKind, Place
from inventory.fasteners.thread import FORMS, Form, Thread


class Verdict(StrEnum):
    """The verdicts of ``salvage screw fit``."""

    SAME = "same"
    RUNS_FREE = "runs-free"
    FORCES = "forces"
    BINDS = "binds"
    NO_ENTRY = "no-entry"
    TOO_LOOSE = "too-loose"
    SLIPS = "slips"


CONTRACT = {
    Detail.EXACT: Verdict.SAME,
    Detail.SLIPS: Verdict.SLIPS,
    Detail.TOO_LOOSE: Verdict.TOO_LOOSE,
    Detail.NO_ENTRY: Verdict.NO_ENTRY,
    Detail.NO: Verdict.NO_ENTRY,
    Detail.RUNS_FREE: Verdict.RUNS_FREE,
    Detail.RUNS_FREE_USUALLY: Verdict.RUNS_FREE,
    Detail.SOME_PASS: Verdict.BINDS,
    Detail.FORCES: Verdict.FORCES,
    Detail.BINDS_AFTER: Verdict.BINDS,
}
"""The coarse verdict of each detailed one; ``some_pass`` is not a yes, for most parts bind."""


@dataclass(frozen=True, slots=True)
class Mating:
    """What an offered screw does in the wanted screw's hole."""

    wanted: Thread
    offered: Thread
    place: Place
    engaged: float  # mm
    verdict: Verdict
    detail: Detail
    reasons: tuple[str, ...]
    thread_fit: ThreadFit | None  # None where the two are not both machine threads
    strip_ratio: float | None  # strip strength over the original's; None: does not get home

    @property
    def turns_free(self) -> float | None:
        """Turns before the flanks meet (mean parts); None: no limit, or not that kind of pair."""
        if self.thread_fit is None:
            return 0.0 if self.verdict is Verdict.NO_ENTRY else None
        turns = self.thread_fit.numbers.turns_free[1]
        return None if turns == float("inf") else turns

    @property
    def overlap(self) -> float | None:
        """Per cent of thread, mean parts, on the 0.75 H basis; None where not computed."""
        return None if self.thread_fit is None else self.thread_fit.numbers.percent


LIP_TURNS = 2.0
"""A lip of fewer turns than this does not guide a screw: it is formed anew (our judgement)."""

LIP_PITCH_RATIO = 0.25
"""Pitches further apart than this tear a lip instead of re-forming it (our judgement)."""

LIP_BITE = (40.0, 85.0)
"""Per cent of thread a lip can be formed to: less does not hold, more breaks small screws."""

PRACTICE = "common practice, no source"
"""What the trade does without a published source."""

EARTH_NO = "Never use it as an earthing screw."


def mate(wanted: Thread, offered: Thread, place: Place) -> Mating:
    """What the offered screw does in the hole the wanted screw came out of."""
    engaged, assumed = place.length(wanted)
    judged = _judge(wanted, offered, place, engaged)
    verdict, detail, reasons, thread_fit, strip = judged
    said = [*reasons, *([assumed[0].upper() + assumed[1:] + "."] if assumed else [])]
    if place.kind is HoleKind.UNKNOWN and verdict is not Verdict.SAME:
        said.append("The hole is not known, so it is judged as a hard nut; look at it first.")
    return Mating(wanted, offered, place, engaged, verdict, detail, tuple(said), thread_fit, strip)


Judged = tuple[Verdict, Detail, list[str], ThreadFit | None, float | None]


def _judge(wanted: Thread, offered: Thread, place: Place, engaged: float) -> Judged:
    """The first pairing that applies decides."""
    if (unlike := _unlike(wanted, offered)) is not None:
        return unlike
    if place.kind is HoleKind.BOSS or wanted.form is Form.PLASTICS:
        return _in_boss(wanted, offered)
    if offered.form is Form.PLASTICS:
        return _no("A plastics screw has a 30 degree thread of twice the pitch.")
    if wanted.form is Form.TAPPING or place.kind is HoleKind.FORMED:
        return _in_spaced(wanted, offered, place)
    if offered.form is Form.TAPPING:
        return _spaced_in_machine(wanted, offered, place)
    return _machine(wanted, offered, place, engaged)


def _no(*reasons: str) -> Judged:
    """Two threads that cannot meet."""
    return Verdict.NO_ENTRY, Detail.NO, list(reasons), None, None


def _same(*reasons: str) -> Judged:
    """The same thread."""
    return Verdict.SAME, Detail.EXACT, ["The same thread.", *reasons], None, 1.0


def _unlike(wanted: Thread, offered: Thread) -> Judged | None:
    """Another hand, or another form: Whitworth, BA and pipe threads hold in their own kind only."""
    if wanted.left is not offered.left:
        hands = ("left-hand", "right-hand") if offered.left else ("right-hand", "left-hand")
        return _no(f"A {hands[0]} screw does not turn into a {hands[1]} thread.")
    if wanted.system not in FORMS and offered.system not in FORMS:
        return None
    if offered.same_as(wanted):
        return _same()
    angles = f"{offered.profile.angle:g} against {wanted.profile.angle:g} degree flanks"
    pitches = f"pitch {offered.pitch:.3f} against {wanted.pitch:.3f} mm"
    return _no(f"{offered.name} in {wanted.name}: {angles}, {pitches}; not offered, however close.")


def _in_boss(wanted: Thread, offered: Thread) -> Judged:
    """A plastic boss keeps the thread its own screw formed."""
    if offered.same_as(wanted):
        return _same("Start it by hand in the old thread; a second thread strips the boss.")
    if offered.form is Form.PLASTICS and offered.major > wanted.major:
        why = "Forms a new thread in the boss; only for one that is stripped, one way."
        return Verdict.FORCES, Detail.FORCES, [why, EARTH_NO], None, None
    return _no(
        f"{offered.name} does not follow the thread {wanted.name} left in the boss.",
        "Offer the same size, the next size up for a stripped boss, or a threaded insert.",
    )


def _in_spaced(wanted: Thread, offered: Thread, place: Place) -> Judged:
    """A hole formed by a tapping screw: pilot hole and helix are that screw's."""
    if offered.same_as(wanted):
        return _same("A formed lip holds less each time; start it by hand in the old thread.")
    if offered.form is not Form.TAPPING:
        if wanted.form is not Form.TAPPING:
            return _machine(wanted, offered, place, place.length(wanted)[0])
        return _machine_in_spaced(wanted, offered, place)
    return _other_tapping(wanted, offered, place)


def _machine_in_spaced(wanted: Thread, offered: Thread, place: Place) -> Judged:
    """A machine screw, half the pitch, in a spaced helix."""
    pitches = f"Pitch {offered.pitch:.2f} mm against a formed helix of {wanted.pitch:.2f} mm"
    reasons = [f"{pitches}: a machine screw of half the pitch tears the lip and holds nothing."]
    pilot = holes.pilot(wanted, place.sheet or holes.SHEET_MM)
    core = holes.core_window(offered)
    if pilot is not None and pilot.hole < core.high + 0.2:
        reasons.append(
            f"The {pilot.hole:.1f} mm hole is not above the screw's core,"
            f" {core.high:.2f} mm, by any useful margin."
        )
    return _no(*reasons)


def _other_tapping(wanted: Thread, offered: Thread, place: Place) -> Judged:
    """Another size of tapping screw in a formed lip."""
    sheet = place.sheet or holes.SHEET_MM
    pilot, needs = holes.pilot(wanted, sheet), holes.pilot(offered, sheet)
    if pilot is None or needs is None or offered.crest is None or wanted.crest is None:
        return _no("No pilot hole is listed for this pair.")
    if offered.major < wanted.major:
        held = (offered.crest.middle - pilot.hole) / (wanted.crest.middle - pilot.hole)
        why = f"Bites {100 * held:.0f} % of what the right screw bites in the formed lip."
        return Verdict.TOO_LOOSE, Detail.TOO_LOOSE, [why], None, max(0.0, held)
    if needs.takes(pilot.hole, sheet):
        why = f"Forms its own thread in the {pilot.hole:.1f} mm hole; one way."
        return Verdict.FORCES, Detail.FORCES, [why, EARTH_NO], None, None
    return _no(
        f"{offered.name} {needs.says(sheet)}; the hole was made {pilot.hole:.1f} mm.",
        "The next size up is for a stripped hole, or for one drilled out to its size.",
    )


def _spaced_in_machine(wanted: Thread, offered: Thread, place: Place) -> Judged:
    """A tapping screw where a machine screw came out."""
    sheet = place.sheet or holes.SHEET_MM
    if place.kind is not HoleKind.SHEET:
        return _no(
            f"A spaced thread of {offered.pitch:.2f} mm pitch does not start in a"
            f" {wanted.pitch:.2f} mm thread; forced, it ruins the {HOLE_NAMES[place.kind]}."
        )
    bore = _bore(wanted)
    needs = holes.pilot(offered, sheet)
    if needs is None or not needs.takes(bore, sheet):
        need = needs.says(sheet) if needs else "has no listed pilot hole"
        return _no(f"{offered.name} {need}; the hole is about {bore:.1f} mm.")
    reasons = [
        "Cuts a spaced thread into the sheet; the machine thread is lost, one way.",
        "Not for a cover that is removed for service (UL 353, 6.3.2).",
        "A spaced-thread screw never makes an earth connection.",
    ]
    return Verdict.FORCES, Detail.FORCES, reasons, None, None


def _bore(thread: Thread) -> float:
    """The hole under a machine thread in sheet, mm: mean minor diameter, or as DIN 7500 wants."""
    forming = holes.pilot(thread, 2.0)
    if thread.form is Form.FORMING and forming is not None:
        return forming.hole
    return contact.hole_at(thread, Condition.MEAN).minor


def _machine(wanted: Thread, offered: Thread, place: Place, engaged: float) -> Judged:
    """Two 60 degree threads."""
    if offered.same_as(wanted):
        return _same_machine(wanted, offered, place, engaged)
    result = fit(offered, wanted, engaged, ductile=place.ductile)
    if place.kind is HoleKind.SHEET and forms_lip(result):
        return _lip(result)
    detail = result.detail
    verdict = CONTRACT[detail]
    forced = place.ductile and result.numbers.pushed_away <= 0.25
    if detail is Detail.SOME_PASS and forced:
        verdict = Verdict.FORCES
    home = verdict in {Verdict.RUNS_FREE, Verdict.FORCES, Verdict.TOO_LOOSE}
    strip = result.numbers.strip_ratio if home else None
    return verdict, detail, sentences(result, verdict, place), result, strip


def _same_machine(wanted: Thread, offered: Thread, place: Place, engaged: float) -> Judged:
    """The same thread; a lobed screw is not for a tapped nut."""
    result = fit(offered, wanted, engaged, ductile=place.ductile)
    if offered.form is Form.FORMING and wanted.form is not Form.FORMING:
        if not place.ductile:
            why = "A lobed screw is up to 0.1 mm larger than a tapped thread allows; it jams."
            return Verdict.BINDS, Detail.BINDS_AFTER, [why], result, None
        why = "A lobed screw re-forms the thread as it goes in: tight, one way."
        return Verdict.FORCES, Detail.FORCES, [why, EARTH_NO], result, 1.0
    reasons = ["The same thread."]
    if wanted.form is Form.FORMING and offered.form is Form.MACHINE:
        reasons.append("The formed thread takes an ordinary screw of the size; tight at first.")
    return Verdict.SAME, Detail.EXACT, reasons, result, 1.0


def forms_lip(result: ThreadFit) -> bool:
    """A screw that would not follow a thin lip, but forms a new thread in it and holds.

    This is the trade's #8-32 where an M4 cover screw came out of sheet. Common practice, no
    source; the limits are ours.
    """
    numbers = result.numbers
    follows = numbers.turns_free[1] >= numbers.turns_needed
    apart = abs(result.screw.pitch - result.hole.pitch) / result.hole.pitch
    return (
        not follows
        and numbers.turns_needed <= LIP_TURNS
        and numbers.core_enters
        and apart <= LIP_PITCH_RATIO
        and LIP_BITE[0] <= numbers.percent <= LIP_BITE[1]
    )


def _lip(result: ThreadFit) -> Judged:
    """A new thread in the lip."""
    numbers = result.numbers
    spoilt = min(1.0, numbers.pushed_away)
    lost = f"the {result.hole.name} thread is lost"
    reasons = [
        f"Forces a new thread of {result.screw.pitch:.2f} mm pitch in the sheet; it holds.",
        f"One way: {lost}, and the original screw will not hold there again.",
        f"{100 * spoilt:.0f} % of each tooth is pushed away.",
        "Not for a hard nut, a cage nut or a weld nut: there it cross-threads.",
        EARTH_NO,
        f"Source: {PRACTICE}.",
    ]
    strip = numbers.strip_ratio * (1 - spoilt)
    return Verdict.FORCES, Detail.FORCES, reasons, result, strip


def sentences(result: ThreadFit, verdict: Verdict, place: Place) -> list[str]:
    """The reasons of a machine thread's verdict."""
    numbers = result.numbers
    tight, mean, loose = numbers.turns_free
    turns = f"{_turns(mean)} ({_turns(tight)} to {_turns(loose)})"
    need = f"{numbers.turns_needed:.1f} turns are engaged"
    bite = f"{100 * numbers.bite[1]:.0f} % of the right screw's bite"
    pushed = f"{100 * numbers.pushed_away:.0f} % of each tooth"
    drift = 1000 * (result.screw.pitch - result.hole.pitch)
    said = {
        Verdict.RUNS_FREE: [
            f"Runs {turns} turns before the flanks meet; {need}.",
            f"Holds with {bite}: {result.grade or 'some'} strength.",
        ],
        Verdict.FORCES: [
            f"Runs {turns} turns, then re-forms the softer thread; {need}.",
            f"{pushed} is pushed away in the {HOLE_NAMES[place.kind]}.",
            "One way: the original screw is loose afterwards.",
            "Not for a hard nut.",
            EARTH_NO,
        ],
        Verdict.BINDS: [
            f"Starts, then binds after {turns} turns; {need}. Never run it in with power.",
        ],
        Verdict.NO_ENTRY: [
            "The core is too thick for the hole."
            if not numbers.core_enters
            else f"Cross-threads at once: {turns} free turns; {need}.",
        ],
        Verdict.TOO_LOOSE: [f"Turns, but bites only {bite}: it strips or shakes out."],
        Verdict.SLIPS: ["Never grips: even the largest screw is smaller than the bore."],
    }[verdict]
    if abs(drift) > 1e-3:
        said.append(f"Pitches differ by {drift:+.1f} micrometres a turn.")
    if result.detail is Detail.RUNS_FREE_USUALLY:
        said.append("Most parts run; the largest screw in the smallest hole would bind. Try it.")
    if result.detail is Detail.SOME_PASS:
        said.append("Only small screws in large holes run the whole way.")
    return said


def _turns(value: float) -> str:
    """A number of turns; no limit in words."""
    return "any number of" if value == float("inf") else f"{value:.1f}"
