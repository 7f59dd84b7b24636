"""How close a fit is, and how little of it is left to ask. Both order within a verdict only."""

from __future__ import annotations

from collections.abc import Iterable
from math import fsum

from inventory.families.sheet import Attribute
from inventory.records import Outcome, Reason, Value
from inventory.rules.case import Case, own_codes
from inventory.rules.compare import OPERATORS, deviation, numbers
from inventory.rules.load_rules import headroom

AMPLE = 1.25
"""Head-room up to this factor costs nothing; beyond it the fit is looser. Common practice."""


def closeness(case: Case) -> float:
    """0 to 1 over everything that was wanted: 1 is a match with no more than ample head-room.

    What is wanted and not known of the offered part counts as 0.
    """
    if case.same_type:
        return 1.0
    shares = [*_attributes(case), *(_eased(share) for share in headroom(case).values())]
    return round(fsum(shares) / len(shares), 4) if shares else 0.0


def _attributes(case: Case) -> Iterable[float]:
    """One share for each attribute that was wanted."""
    for attribute in case.sheet.attributes:
        want = case.need.get(attribute.name)
        if want is not None and not attribute.load and attribute.compare in OPERATORS:
            yield _share(attribute, want, case.has.get(attribute.name))


def _share(attribute: Attribute, want: Value, have: Value) -> float:
    """How near one attribute is; words count in full or not at all."""
    if have is None:
        return 0.0
    if attribute.compare in {"at-least", "at-most"}:
        return _by_ratio(want, have)
    gap = deviation(want, have)
    if attribute.compare in {"within", "fit"} and gap is not None:
        return max(0.0, 1.0 - abs(gap))
    return float(OPERATORS[attribute.compare](attribute, want, have)[0] == "met")


def _by_ratio(want: Value, have: Value) -> float:
    """The smaller figure over the larger, with ample head-room forgiven."""
    one, other = sorted((max(numbers(want), default=0.0), max(numbers(have), default=0.0)))
    return _eased(one / other) if one > 0 else float(one == other)


def _eased(ratio: float) -> float:
    """A ratio with ample head-room forgiven.

    >>> _eased(0.9), _eased(0.5)
    (1.0, 0.625)
    """
    return min(1.0, ratio * AMPLE)


def ease(case: Case, reasons: Iterable[Reason]) -> float:
    """0 to 1: the share of what can be seen that is on record, over the questions left open.

    Only where the failed part has no code: else the likeness of the codes says more.
    """
    if own_codes(case.wanted):
        return 0.0
    seen = [a.name for a in case.sheet.attributes if a.must and a.effort <= 3 and not a.load]
    known = sum(case.has.get(name) is not None for name in seen)
    asks = sum(reason.outcome is Outcome.ASK for reason in reasons)
    return round((1 + known) / (1 + len(seen)) / (1 + asks), 4)
