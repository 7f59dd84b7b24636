"""What a measured screw is: candidates, those a caliper cannot split, and what would split them.

A crest is cut 0.02 to 0.2 mm under the nominal size on purpose, so readings are held against
the windows of the standards, never against the nominal size.
"""

from __future__ import annotations

import math
from collections.abc import Iterable
from dataclasses import dataclass, replace
from functools import cache

from inventory.errors import WrongInput
from inventory.fasteners import catalogue, foreign
from inventory.fasteners.thread import FORMS, INCH, Form, Thread, Window
from inventory.fasteners.threads import limits

CALIPER = 0.03
"""Uncertainty of a caliper on a thread crest, mm (common practice)."""

COMMON_WEIGHT = math.log(2)
"""Each step of commonness doubles the prior odds (our judgement, for ranking only)."""


@dataclass(frozen=True, slots=True)
class Measured:
    """What was measured; pitch None means that only the diameter is known."""

    major: float  # mm
    pitch: float | None = None  # mm
    u_major: float = CALIPER
    u_pitch: float | None = None  # mm; None: from the number of gaps
    gaps: int = 1  # pitches the pitch was measured over

    @property
    def pitch_uncertainty(self) -> float:
        """0.03 mm shared among the gaps, and 0.01 mm that does not shrink; 0.03 for one gap."""
        if self.u_pitch is not None:
            return self.u_pitch
        return CALIPER if self.gaps <= 1 else CALIPER / self.gaps + 0.01


@dataclass(frozen=True, slots=True)
class Candidate:
    """A thread the readings allow."""

    thread: Thread
    distance: float  # 0 inside its windows, else in uncertainties

    @property
    def rank(self) -> tuple[float, float, str]:
        """Distance against commonness, nearest first; the name settles ties."""
        odds = self.distance**2 / 2 - COMMON_WEIGHT * self.thread.common
        return odds, self.distance, self.thread.name


@dataclass(frozen=True, slots=True)
class Identity:
    """The answer, best first."""

    candidates: tuple[Candidate, ...]
    ask: str | None  # what to measure first
    split_by: tuple[str, ...]  # what would tell the candidates apart

    @property
    def best(self) -> Thread | None:
        """The likeliest thread; None when nothing fits."""
        return self.candidates[0].thread if self.candidates else None

    @property
    def cannot_split(self) -> tuple[Thread, ...]:
        """The others that the readings leave open."""
        return tuple(candidate.thread for candidate in self.candidates[1:])


@cache
def major_window(thread: Thread) -> Window:
    """The window of a real screw's major diameter, mm."""
    if thread.crest is not None:
        return thread.crest
    if thread.is_machine:
        return limits(thread).screw_mm().major
    return Window(thread.major - 0.1, thread.major + 0.1)


def pitch_window(thread: Thread) -> Window:
    """The pitch, mm; a tapping screw's lies between the inch figure and the rounded one of ISO."""
    if thread.form is not Form.TAPPING:
        return Window(thread.pitch, thread.pitch)
    rounded = math.floor(thread.pitch * 10 + 0.5) / 10
    return Window(min(rounded, thread.pitch), max(rounded, thread.pitch))


def identify(measured: Measured) -> Identity:
    """Threads whose windows hold the readings within their uncertainty, likeliest first.

    British and pipe threads are candidates only where no living thread is near; a better caliper
    never brings them in.
    """
    if not 0.5 <= measured.major <= 60:
        raise WrongInput("A major diameter is given in mm, from 0.5 to 60.")
    if measured.pitch is not None and not 0.1 <= measured.pitch <= 6:
        raise WrongInput("A pitch is given in mm, from 0.1 to 6; or give threads per inch.")
    living = _fitting(measured, _all_threads(old=False))
    inside = any(major_window(c.thread).gap(measured.major) == 0 for c in living)
    found = living if inside else [*living, *_fitting(measured, _all_threads(old=True))]
    other = _fitting(_near(measured), foreign.threads())
    if not _fitting(replace(measured, u_major=CALIPER, u_pitch=CALIPER), _all_threads(old=False)):
        found = [*found, *other]
    ranked = tuple(sorted(_drop_lobed(found, measured), key=lambda c: c.rank))
    splitters = (*_splitters(ranked, measured), *_other_forms(ranked, other, measured))
    return Identity(ranked, _ask(ranked, measured), splitters)


def _near(measured: Measured) -> Measured:
    """The readings with no more than a caliper's uncertainty."""
    return replace(
        measured,
        u_major=min(measured.u_major, CALIPER),
        u_pitch=min(measured.pitch_uncertainty, CALIPER),
    )


def _other_forms(
    ranked: tuple[Candidate, ...], other: list[Candidate], measured: Measured
) -> tuple[str, ...]:
    """A word on a British thread that the readings suit better than the best of the list."""
    if not ranked or measured.pitch is None or ranked[0].thread.system in FORMS:
        return ()
    best = _pitch_gap(ranked[0].thread, measured.pitch)
    nearer = [c for c in other if _pitch_gap(c.thread, measured.pitch) < min(best, 0.01)]
    return tuple(
        f"an old British {c.thread.name} reads alike ({c.thread.pitch:.2f} mm,"
        f" {c.thread.profile.angle:g} degrees): lay a thread gauge on"
        for c in nearer[:1]
    )


def _pitch_gap(thread: Thread, pitch: float) -> float:
    """How far a pitch lies from a thread's, mm."""
    return pitch_window(thread).gap(pitch)


def _all_threads(*, old: bool) -> list[Thread]:
    """Machine, lobed, tapping and plastics threads; obsolete ones apart."""
    machine = [t for t in catalogue.machine_threads() if (t.series == "old") is old]
    if old:
        return machine
    others = catalogue.forming_threads() + catalogue.tapping_threads()
    return [*machine, *others, *catalogue.plastics_threads()]


def _fitting(measured: Measured, threads: Iterable[Thread]) -> list[Candidate]:
    """Every thread within the uncertainty of both readings."""
    found = []
    for thread in threads:
        distance = _distance(thread, measured)
        if distance is not None:
            found.append(Candidate(thread, distance))
    return found


def _distance(thread: Thread, measured: Measured) -> float | None:
    """How far the readings lie outside the windows, in uncertainties; None: too far."""
    gap = major_window(thread).gap(measured.major)
    if gap > measured.u_major + 1e-9:
        return None
    along = gap / measured.u_major if measured.u_major > 0 else 0.0
    if measured.pitch is None:
        return along
    step = pitch_window(thread).gap(measured.pitch)
    if step > measured.pitch_uncertainty + 1e-9:
        return None
    return math.hypot(along, step / measured.pitch_uncertainty if step else 0.0)


def _drop_lobed(found: list[Candidate], measured: Measured) -> list[Candidate]:
    """A lobed screw is named only where a plain one of its size would be too small."""
    plain = {
        (c.thread.major, c.thread.pitch)
        for c in found
        if c.thread.form is Form.MACHINE and measured.major <= major_window(c.thread).high
    }
    return [
        c
        for c in found
        if c.thread.form is not Form.FORMING or (c.thread.major, c.thread.pitch) not in plain
    ]


def _ask(ranked: tuple[Candidate, ...], measured: Measured) -> str | None:
    """The one thing to measure first."""
    if measured.pitch is None and len(ranked) != 1:
        return "pitch: measure it over ten threads, or lay a thread gauge on"
    return None


def _splitters(ranked: tuple[Candidate, ...], measured: Measured) -> tuple[str, ...]:
    """What would split the best from each of the others."""
    if not ranked or measured.pitch is None:
        return ()
    best = ranked[0].thread
    said = [_splitter(best, other.thread) for other in ranked[1:]]
    return tuple(dict.fromkeys(said))


def _splitter(one: Thread, other: Thread) -> str:
    """The measurement that splits two threads."""
    if Form.FORMING in {one.form, other.form}:
        return "turn the screw in the caliper: a lobed one reads more across three lobes"
    gaps = gaps_to_split(one.pitch, other.pitch)
    if gaps is None:
        return f"{one.name} and {other.name} have one pitch: measure the diameter at the crest"
    return f"measure the pitch over {gaps} threads to split {one.name} from {other.name}"


def gaps_to_split(one: float, other: float, uncertainty: float = CALIPER) -> int | None:
    """Pitches to measure over so that two pitches, mm, stand about two uncertainties apart.

    >>> gaps_to_split(0.8, 0.79375)
    10
    """
    apart = abs(one - other)
    if apart < 1e-6:
        return None
    return max(1, math.floor(2 * uncertainty / apart + 0.5))


def pitch_of(tpi: float) -> float:
    """Threads per inch as a pitch in mm."""
    if not 4 <= tpi <= 120:
        raise WrongInput("Threads per inch are a number from 4 to 120.")
    return INCH / tpi
