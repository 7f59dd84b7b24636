"""Screw A in hole B: the numbers and the detailed verdict, for two 60 degree threads.

``contact`` has the geometry, ``mating`` what follows from it in a given kind of hole.
Thresholds are ours, set on worked examples, not published; a bench trial is still owed.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Iterable
from dataclasses import dataclass
from enum import StrEnum

from inventory.fasteners import contact, strength
from inventory.fasteners.contact import Condition
from inventory.fasteners.thread import Thread


class Detail(StrEnum):
    """What the geometry says, finer than the command's verdicts."""

    EXACT = "exact"
    SLIPS = "slips"
    TOO_LOOSE = "too_loose"
    NO_ENTRY = "no_entry"
    RUNS_FREE = "runs_free"
    RUNS_FREE_USUALLY = "runs_free_usually"
    SOME_PASS = "some_pass"  # noqa: S105 - a verdict, not a password
    FORCES = "forces"
    BINDS_AFTER = "binds_after"
    NO = "no"  # not two threads that can meet at all


LEAST_BITE_MEAN, LEAST_BITE_LOOSE = 0.35, 0.25
"""Below these shares of the right screw's bite the thread strips or shakes out (our judgement)."""

MOST_PUSHED_AWAY = 0.25
"""The share of a tooth a ductile hole gives up without tearing (our judgement)."""

LEAST_ENTRY = 0.5
"""Fewer free turns than this, even at best, is cross-threading at once (our judgement)."""

FULL_BITE, REDUCED_BITE = 0.85, 0.60
"""Grades of a hold: full from 0.85, reduced from 0.60 of the right screw's bite."""


@dataclass(frozen=True, slots=True)
class Numbers:
    """What was computed; threes are tight, mean, loose."""

    turns_needed: float  # engaged length in hole pitches
    turns_free: tuple[float, float, float]
    play: tuple[float, float, float]  # mm
    bite: tuple[float, float, float]  # E_rel, 1 = the right screw
    percent: float  # of thread, mean, on the 0.75 H basis
    pushed_away: float  # ρ, mean
    naive_turns: float  # mean, without the end correction
    shear_hole: float  # strip strength over the right screw's, hole side
    shear_screw: float  # the same, screw side
    tensile: float  # breaking strength over the right screw's
    core_enters: bool
    crest_touches: bool

    @property
    def strip_ratio(self) -> float:
        """Strip strength against the original: the weaker of the two sides."""
        return min(self.shear_hole, self.shear_screw)


@dataclass(frozen=True, slots=True)
class ThreadFit:
    """A screw's thread in a hole's thread."""

    screw: Thread
    hole: Thread
    engaged: float  # mm
    detail: Detail
    numbers: Numbers

    @property
    def grade(self) -> str | None:
        """full, reduced or poor, for a screw that runs free; else None."""
        if self.detail not in {Detail.RUNS_FREE, Detail.RUNS_FREE_USUALLY}:
            return None
        mean = self.numbers.bite[1]
        if mean >= FULL_BITE:
            return "full"
        return "reduced" if mean >= REDUCED_BITE else "poor"

    @property
    def load_turns(self) -> float:
        """Turns that share the load, at most those engaged: 1 + δ/|ΔP| with δ = 0.025 P.

        Engineering judgement, not published: elastic give plus slight yield of a tooth.
        """
        drift = abs(self.screw.pitch - self.hole.pitch)
        if drift < 1e-6:
            return self.numbers.turns_needed
        return min(self.numbers.turns_needed, 1 + 0.025 * self.hole.pitch / drift)


def fit(screw: Thread, hole: Thread, engaged: float, *, ductile: bool) -> ThreadFit:
    """The screw driven into the hole's own thread over ``engaged`` mm.

    ``ductile`` says that the hole may be re-formed: mild sheet, aluminium, brass; never a hard
    nut. Both threads must be machine threads.
    """
    numbers = _numbers(screw, hole, engaged)
    same = screw.same_as(hole)
    detail = Detail.EXACT if same else _verdict(numbers, ductile=ductile)
    return ThreadFit(screw, hole, engaged, detail, numbers)


def _numbers(screw: Thread, hole: Thread, engaged: float) -> Numbers:
    """Everything the verdict looks at."""
    corners = [(contact.screw_at(screw, c), contact.hole_at(hole, c)) for c in Condition]
    own = [contact.screw_at(hole, c) for c in Condition]
    needed = engaged / hole.pitch
    mean_screw, mean_hole = corners[1]
    drift = abs(screw.pitch - hole.pitch)
    mean_play = contact.play(mean_screw, mean_hole)
    biggest = corners[0][0]
    return Numbers(
        turns_needed=needed,
        turns_free=_three(contact.free_turns(s, h) for s, h in corners),
        play=_three(contact.play(s, h) for s, h in corners),
        bite=_three(contact.relative_bite(s, h, o) for (s, h), o in zip(corners, own, strict=True)),
        percent=contact.percent_thread(mean_screw, mean_hole),
        pushed_away=contact.pushed_away(mean_screw, mean_hole, needed),
        naive_turns=max(0.0, mean_play) / drift if drift > 1e-6 else math.inf,
        shear_hole=_ratio(strength.shear_area_hole, screw, hole),
        shear_screw=_ratio(strength.shear_area_screw, screw, hole),
        tensile=strength.tensile_ratio(screw, hole),
        core_enters=biggest.root <= corners[2][1].minor,
        crest_touches=biggest.major > hole.major + 1e-9,
    )


def _three(values: Iterable[float]) -> tuple[float, float, float]:
    """Exactly three numbers."""
    tight, mean, loose = values
    return tight, mean, loose


Area = Callable[[Thread, Thread, float], float]


def _ratio(area: Area, screw: Thread, hole: Thread) -> float:
    """A shear area over that of the hole's own screw."""
    return area(screw, hole, 1.0) / area(hole, hole, 1.0)


def _verdict(numbers: Numbers, *, ductile: bool) -> Detail:
    """The first test that answers decides; the order is part of the meaning."""
    tight, mean, loose = numbers.turns_free
    needed = numbers.turns_needed
    forced = ductile and numbers.pushed_away <= MOST_PUSHED_AWAY
    thin = numbers.bite[1] < LEAST_BITE_MEAN or numbers.bite[2] < LEAST_BITE_LOOSE
    tests = (
        (numbers.bite[0] <= 0, Detail.SLIPS),
        (thin, Detail.TOO_LOOSE),
        (not numbers.core_enters, Detail.NO_ENTRY),
        (tight >= needed and not numbers.crest_touches, Detail.RUNS_FREE),
        (mean >= needed, Detail.RUNS_FREE_USUALLY),
        (loose >= needed, Detail.SOME_PASS),
        (forced, Detail.FORCES),
        (loose < LEAST_ENTRY, Detail.NO_ENTRY),
    )
    return next((detail for holds, detail in tests if holds), Detail.BINDS_AFTER)
