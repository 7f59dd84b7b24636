"""What became of fitted pieces: in service, back on the shelf, or failed, from the events."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, field


@dataclass(slots=True)
class InUnits:
    """The pieces of one lot that are out on one job."""

    fitted: list[str] = field(default_factory=list)  # a moment for each piece, oldest first
    ended: list[tuple[str, str, bool]] = field(default_factory=list)  # from, to, failed

    def take(self, kind: str, at: str, pieces: int) -> None:
        """One event of the journal: ``fitted``, ``put-back`` (pieces below zero) or ``failed``.

        A piece that comes back is the one fitted last, it was only tried; one that fails is the
        one that was longest in service. A failure ends one piece, not all of the job's.
        """
        if kind == "fitted":
            self.fitted += [at] * pieces
        elif kind == "failed":
            if self.fitted:
                self.ended.append((self.fitted.pop(0), at, True))
        else:
            for _ in range(min(-pieces, len(self.fitted))):
                self.ended.append((self.fitted.pop(), at, False))


def in_units(events: Iterable[tuple[str, str, int]]) -> InUnits:
    """What became of the pieces of one lot on one job; ``events`` as in ``spans``."""
    out = InUnits()
    for kind, at, pieces in events:
        out.take(kind, at, pieces)
    return out


def spans(
    events: Iterable[tuple[str, str, int]], now: str
) -> tuple[list[tuple[str, str]], list[tuple[str, str]]]:
    """Spans of service of failed pieces, and of those that came back or are still alive.

    ``events`` are kind, moment and pieces of one lot on one job, oldest first.

    >>> spans([("fitted", "2025-01-01", 2), ("failed", "2025-03-01", 0)], "2025-06-01")
    ([('2025-01-01', '2025-03-01')], [('2025-01-01', '2025-06-01')])
    """
    out = in_units(events)
    failed = [(start, end) for start, end, broke in out.ended if broke]
    whole = [(start, end) for start, end, broke in out.ended if not broke]
    return failed, [*whole, *((start, now) for start in out.fitted)]
