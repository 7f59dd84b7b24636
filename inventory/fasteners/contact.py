"""One screw in one hole, both with 60 degree threads: play, free turns, overlap.

Our own derivation, checked against a brute-force collision of the two profiles in the tests.
Lengths mm. A screw is the smaller or larger of its class; ``at`` picks a condition.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from enum import StrEnum

from inventory.fasteners.thread import TAN30, Thread
from inventory.fasteners.threads import External, Internal, limits


class Condition(StrEnum):
    """Which corner of the two tolerance classes is looked at."""

    TIGHT = "tight"  # largest screw, smallest hole
    MEAN = "mean"
    LOOSE = "loose"  # smallest screw, largest hole


@dataclass(frozen=True, slots=True)
class Screw:
    """A screw as it may really be."""

    major: float
    pitch_diameter: float
    pitch: float

    @property
    def root(self) -> float:
        """d3 = d2 - 2/3 H: the rounded root goes with the flank. Source: ISO 68-1."""
        return self.pitch_diameter - TAN30 * self.pitch


@dataclass(frozen=True, slots=True)
class Hole:
    """A hole as it may really be; ``major`` is the nominal size its root reaches at least."""

    major: float
    pitch_diameter: float
    minor: float
    pitch: float

    @property
    def height(self) -> float:
        """H of the hole's thread."""
        return math.sqrt(3) / 2 * self.pitch


def screw_at(thread: Thread, condition: Condition) -> Screw:
    """An ordinary screw (6g or 2A) at one condition."""
    window: External = limits(thread).screw_mm()
    if condition is Condition.TIGHT:
        return Screw(window.major.high, window.pitch.high, thread.pitch)
    if condition is Condition.LOOSE:
        return Screw(window.major.low, window.pitch.low, thread.pitch)
    return Screw(window.major.middle, window.pitch.middle, thread.pitch)


def hole_at(thread: Thread, condition: Condition) -> Hole:
    """An ordinary hole (6H or 2B) at one condition."""
    window: Internal = limits(thread).hole_mm()
    if condition is Condition.TIGHT:
        return Hole(thread.major, window.pitch.low, window.minor.low, thread.pitch)
    if condition is Condition.LOOSE:
        return Hole(thread.major, window.pitch.high, window.minor.high, thread.pitch)
    return Hole(thread.major, window.pitch.middle, window.minor.middle, thread.pitch)


def play(screw: Screw, hole: Hole) -> float:
    """Axial play, the same at every diameter because both flanks lean alike.

    (PB - PA)/2 + (D2B - d2A) tan 30.
    """
    diametral = hole.pitch_diameter - screw.pitch_diameter
    return (hole.pitch - screw.pitch) / 2 + diametral * TAN30


def same_pitch(screw: Screw, hole: Hole) -> bool:
    """True where the helices never drift apart."""
    return math.isclose(screw.pitch, hole.pitch, abs_tol=1e-6)


def turns_unclamped(screw: Screw, hole: Hole) -> float:
    """Turns until the flanks meet; may be negative; infinite or minus infinite at equal pitch.

    play/|PA - PB| is up to 0.7 turn wrong, because in a nut with flat faces the two flanks of a
    tooth enter and leave at different heights; the second term puts that right.
    """
    gap = play(screw, hole)
    if same_pitch(screw, hole):
        return math.inf if gap >= -1e-9 else -math.inf
    first_guess = gap / abs(screw.pitch - hole.pitch)
    return first_guess + end_correction(screw, hole)


def end_correction(screw: Screw, hole: Hole) -> float:
    """What the flat faces of the hole add (coarser screw) or take (finer screw), in turns."""
    if screw.pitch > hole.pitch:
        outside = hole.pitch / 4 - (screw.major - hole.pitch_diameter) / 2 * TAN30
        return 2 * max(0.0, outside) / hole.pitch
    deepest = max(hole.minor, screw.root)
    inside = hole.pitch / 4 + (hole.pitch_diameter - deepest) / 2 * TAN30
    return -2 * inside / hole.pitch


def free_turns(screw: Screw, hole: Hole) -> float:
    """Turns of engaged helix before the flanks meet; ``inf`` means no limit, 0 no entry.

    Play just below zero still leaves a coarser screw a few hundredths of a turn: its flanks
    meet only where the hole is high enough. The collision in the tests says the same.
    """
    return max(0.0, turns_unclamped(screw, hole))


def overlap(screw: Screw, hole: Hole) -> float:
    """Radial bite of the screw into the hole's thread, mm; below zero nothing holds."""
    return (min(screw.major, hole.major) - hole.minor) / 2


def percent_thread(screw: Screw, hole: Hole) -> float:
    """Bite over 0.75 H of the hole. Source: FED-STD-H28/2B, where 83.3 % is the most."""
    return 100 * overlap(screw, hole) / (0.75 * hole.height)


def relative_bite(screw: Screw, hole: Hole, own: Screw) -> float:
    """E_rel: the bite against that of the hole's own screw at the same condition."""
    return overlap(screw, hole) / overlap(own, hole)


def pushed_away(screw: Screw, hole: Hole, turns_needed: float) -> float:
    """ρ: the share of a tooth that must go when the whole length is driven."""
    drift = abs(screw.pitch - hole.pitch)
    if same_pitch(screw, hole):
        return 0.0 if play(screw, hole) >= 0 else -2 * play(screw, hole) / hole.pitch
    missing = drift * (turns_needed - turns_unclamped(screw, hole))
    return max(0.0, missing / (hole.pitch / 2))
