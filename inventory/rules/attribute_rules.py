"""What the family sheet compares, attribute by attribute, and what nobody said."""

from __future__ import annotations

from collections.abc import Iterable

from inventory.families.sheet import Attribute
from inventory.records import Reason, Value
from inventory.rules.case import CODE_IS, Case, ask, note
from inventory.rules.compare import compare


def attributes_agree(case: Case) -> Iterable[Reason]:
    """Every attribute of the sheet, but the contact ratings, which go by rating group."""
    for attribute in case.sheet.attributes:
        if not (attribute.load or _settled_by_type(case, attribute) or _follows(case, attribute)):
            reason = compare(
                attribute,
                _wanted(case, attribute),
                case.has.get(attribute.name),
                settled=case.settled,
            )
            if reason:
                yield reason


FOLLOWS = {"tab_thick": "tab_mm", "actuator_length_mm": "actuator", "pivot": "actuator"}
"""What is seen in one look with another attribute, and is not asked for apart from it."""


def _follows(case: Case, attribute: Attribute) -> bool:
    """Whether a value is unknown together with the one it is seen with, which is asked for."""
    first = FOLLOWS.get(attribute.name, "")
    unknown = case.has.get(attribute.name) is None and case.has.get(first) is None
    leading = case.sheet.attribute(first)
    return bool(leading and leading.must and unknown and case.need.get(first) is not None)


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
    """One line with what to hold side by side, because the failed part's own is not known.

    A contact known by its rating alone is a question: the rating does not show its shape.
    """
    if case.settled:
        return
    unsaid = [a for a in case.sheet.attributes if _open(a, case)]
    if not unsaid:
        return
    sentence = f"Not said of the failed part: {', '.join(a.label for a in unsaid)}."
    if _by_rating_alone(case):
        words = f"{sentence} Hold the two side by side."
        first = unsaid[0].name
        yield ask("not-said", words, "common practice", first, effort=1, of_wanted=True)
    else:
        yield note("not-said", f"{sentence} Compare the two parts.", "common practice")


_SHAPE = ("contact_form", "contact", "body", "actuator", "terminals", "tab_mm", "hole_pitch_mm",
          "footprint", "coil_vdc", "coil_vac", "open_c", "close_on_rise_c")  # fmt: skip
"""What tells contacts of one rating apart. Common practice."""


def _by_rating_alone(case: Case) -> bool:
    """Whether nothing but its rating is known of a failed contact."""
    contacts = any(attribute.load for attribute in case.sheet.attributes)
    said = (case.sheet.attribute(name) for name in _SHAPE)
    return contacts and all(_wanted(case, one) is None for one in said if one)


def _open(attribute: Attribute, case: Case) -> bool:
    """Whether an attribute matters, is no question already, and is not known of the failed part."""
    seen = attribute.effort <= 3  # what takes a data sheet cannot be held side by side
    matters = attribute.must and seen and not attribute.load and attribute.unsaid != "ask"
    if attribute.name in FOLLOWS or attribute.name == "ambient_max_c":
        return False  # seen with the other one; no T mark is the standard's 55 °C
    return matters and case.need.get(attribute.name) is None
