"""What is wanted, what is offered, and what the rules together say of it."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field

from inventory.records import Outcome, Reason, Value, Verdict


@dataclass(frozen=True, slots=True)
class Wanted:
    """The part to be replaced, as far as it is known, and where it sits.

    ``ratings`` is what the failed part says; ``needs`` is what the place needs, typed by the
    tech, and wins over ``ratings`` where both are given.
    """

    family: str | None = None
    marking: str = ""
    type_code: str | None = None
    maker: str | None = None
    ratings: Mapping[str, Value] = field(default_factory=dict)
    assumed: Mapping[str, Value] = field(default_factory=dict)
    needs: Mapping[str, Value] = field(default_factory=dict)
    place: str | None = None
    unit: str | None = None
    # codes (folded) a source lists for this place in this unit, or as the same part
    alternates: frozenset[str] = frozenset()
    # codes (folded) that are the wanted part itself under its own number
    own_codes: frozenset[str] = frozenset()

    def value(self, name: str) -> Value:
        """What is wanted of an attribute; None where nobody said."""
        return self.needs.get(name, self.ratings.get(name))


@dataclass(frozen=True, slots=True)
class Judgement:
    """A verdict with the reasons it follows from."""

    verdict: Verdict
    reasons: tuple[Reason, ...]
    closeness: float = 0.0  # 0 to 1: head-room without excess; orders within a verdict only
    ease: float = 0.0  # 0 to 1: how little is left to ask and to look up; see rules.closeness

    def asks(self) -> tuple[Reason, ...]:
        """What would decide, the least effort first."""
        return tuple(
            sorted((r for r in self.reasons if r.outcome is Outcome.ASK), key=lambda r: r.effort)
        )


def together(reasons: Iterable[Reason], *, same: bool) -> Verdict:
    """One refusal refuses; one question asks; else ``same`` or ``fits``.

    Source: design section 5, "one refused refuses"; no score is looked at here.
    """
    outcomes = {reason.outcome for reason in reasons}
    if Outcome.REFUSED in outcomes:
        return Verdict.REFUSED
    if Outcome.ASK in outcomes:
        return Verdict.ASK
    return Verdict.SAME if same else Verdict.FITS
