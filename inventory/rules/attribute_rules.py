"""What the family sheet compares, attribute by attribute, and what nobody said."""

from __future__ import annotations

from collections.abc import Iterable

from inventory.families.sheet import Attribute
from inventory.records import Reason
from inventory.rules.case import Case, note
from inventory.rules.compare import compare


def attributes_agree(case: Case) -> Iterable[Reason]:
    """Every attribute of the sheet, but the contact ratings, which go by rating group."""
    for attribute in case.sheet.attributes:
        if not attribute.load:
            reason = compare(
                attribute,
                case.need.get(attribute.name),
                case.has.get(attribute.name),
                settled=case.settled,
            )
            if reason:
                yield reason


def what_nobody_said(case: Case) -> Iterable[Reason]:
    """One line with what to hold side by side, because the failed part's own is not known."""
    if case.settled:
        return
    names = [a.label for a in case.sheet.attributes if _open(a, case)]
    if names:
        yield note(
            "not-said",
            f"Not said of the failed part: {', '.join(names)}. Hold them side by side.",
            "common practice",
        )


def _open(attribute: Attribute, case: Case) -> bool:
    """Whether an attribute matters, is no question already, and is not known of the failed part."""
    matters = attribute.must and not attribute.load and attribute.unsaid != "ask"
    return matters and case.need.get(attribute.name) is None
