"""What the family sheet compares, attribute by attribute, and what nobody said."""

from __future__ import annotations

from collections.abc import Iterable

from inventory.families.sheet import Attribute
from inventory.records import Reason, Value
from inventory.rules.case import CODE_IS, Case, note
from inventory.rules.compare import compare


def attributes_agree(case: Case) -> Iterable[Reason]:
    """Every attribute of the sheet, but the contact ratings, which go by rating group."""
    for attribute in case.sheet.attributes:
        if not attribute.load and not _settled_by_type(case, attribute):
            reason = compare(
                attribute,
                _wanted(case, attribute),
                case.has.get(attribute.name),
                settled=case.settled,
            )
            if reason:
                yield reason


def _settled_by_type(case: Case, attribute: Attribute) -> bool:
    """A listed successor carries another code, and is as good as the same."""
    return case.settled and attribute.name == CODE_IS.get(case.sheet.id)


def _wanted(case: Case, attribute: Attribute) -> Value:
    """What is wanted of an attribute; a place that uses one throw says so of the contact."""
    need = case.need.get(attribute.name)
    if need is None and attribute.name in {"contact_form", "contact"} and case.place:
        return case.place.contact
    return need


def what_nobody_said(case: Case) -> Iterable[Reason]:
    """One line with what to hold side by side, because the failed part's own is not known."""
    if case.settled:
        return
    names = [a.label for a in case.sheet.attributes if _open(a, case)]
    if names:
        yield note(
            "not-said",
            f"Not said of the failed part: {', '.join(names)}. Compare the two parts.",
            "common practice",
        )


def _open(attribute: Attribute, case: Case) -> bool:
    """Whether an attribute matters, is no question already, and is not known of the failed part."""
    seen = attribute.effort <= 3  # what takes a data sheet cannot be held side by side
    matters = attribute.must and seen and not attribute.load and attribute.unsaid != "ask"
    return matters and case.need.get(attribute.name) is None
