"""How much of a screw holds, and whether another length will do."""

from __future__ import annotations

from dataclasses import dataclass

from inventory.fasteners.thread import Thread

LEAST_TURNS = 2.0
"""Full threads a screw needs in sheet. Source: NEC 250.8(A)(5) and (6) for earthing; UL 73,
12.2.3.10 extrudes the metal to give two; taken for every screw in sheet."""

CLOSE = 1e-6


@dataclass(frozen=True, slots=True)
class Engagement:
    """Turns of thread in the metal."""

    length: float  # mm
    turns: float

    @property
    def enough(self) -> bool:
        """At least two full threads."""
        return self.turns >= LEAST_TURNS - CLOSE


def engaged_turns(thread: Thread, height: float) -> Engagement:
    """Turns a hole of that height gives.

    >>> from inventory.fasteners.catalogue import metric
    >>> round(engaged_turns(metric(4, 0.7), 1.0).turns, 2)
    1.43
    """
    return Engagement(height, height / thread.pitch)


def engaged_length(length: float, stack: float, height: float, chamfer: float) -> float:
    """Thread in mesh, mm: the hole's height, or what of the screw reaches into it.

    ``stack`` is what lies under the head, ``chamfer`` what point and countersink lose.
    Source: FED-STD-H28/2B, 70.7.2 (half a countersink counts; a point is at most 1 P).
    """
    return max(0.0, min(height, length - stack - chamfer))


@dataclass(frozen=True, slots=True)
class LengthCheck:
    """A substitute's length against the original's."""

    original: float  # engaged mm
    candidate: float  # engaged mm
    turns: float
    longer_by: float  # mm; negative when shorter
    reasons: tuple[str, ...]  # empty when it will do

    @property
    def ok(self) -> bool:
        """No reason against it."""
        return not self.reasons


@dataclass(frozen=True, slots=True)
class Joint:
    """What a screw of some length goes through, mm."""

    stack: float
    height: float
    chamfer: float = 0.0
    back_is_clear: bool = False


def check_length(
    original: tuple[Thread, float], candidate: tuple[Thread, float], joint: Joint
) -> LengthCheck:
    """Is the substitute long enough, and not too long?

    Rules: two turns where the original had them; never less thread in mesh than the original;
    never more than one pitch longer unless somebody looked behind (high-voltage parts, wiring,
    a cavity wall).
    """
    before = engaged_length(original[1], joint.stack, joint.height, joint.chamfer)
    after = engaged_length(candidate[1], joint.stack, joint.height, joint.chamfer)
    turns = after / candidate[0].pitch
    longer = candidate[1] - original[1]
    reasons = []
    had_two = before / original[0].pitch >= LEAST_TURNS - CLOSE
    if turns < LEAST_TURNS - CLOSE and (had_two or after < before - CLOSE):
        reasons.append(f"{turns:.2f} turns < {LEAST_TURNS:.0f}")
    if after < before - CLOSE:
        reasons.append("shorter than the original engagement")
    if longer > candidate[0].pitch + CLOSE and not joint.back_is_clear:
        reasons.append(f"{longer:.1f} mm longer: look behind first")
    return LengthCheck(before, after, turns, longer, tuple(reasons))
