"""Facts said of the whole part: once, twice the same, or differing from rating to rating."""

from __future__ import annotations

from typing import Any

from inventory.markings.contacts_groups import Group, Groups
from inventory.markings.contacts_items import Fact, Number
from inventory.markings.contacts_scan import ContactScanner
from inventory.markings.damage import cf_pair

COLLECTED = frozenset({"standard", "pilot_duty", "contact_material"})
"""Facts that may be said several times: one stays a text, several become a list."""

Limits = dict[str, Number]


def bind_facts(scan: ContactScanner, groups: Groups) -> None:
    """Say every fact; ambient and endurance that differ are bound to their own ratings."""
    facts = [item for item in scan.items if isinstance(item, Fact)]
    _ambient(scan, groups, [fact for fact in facts if fact.name == "ambient"])
    _cycles(scan, groups, [fact for fact in facts if fact.name == "endurance_cycles"])
    _fahrenheit(scan, [fact for fact in facts if fact.name == "ambient_f"])
    for name in COLLECTED:
        _collected(scan, name, [fact.value for fact in facts if fact.name == name])
    approvals = [fact.value for fact in facts if fact.name == "approvals"]
    if approvals:
        scan.say("approvals", list(dict.fromkeys(approvals)))
    for fact in facts:
        if fact.name not in _OWN_WAY:
            scan.say(fact.name, fact.value)


_OWN_WAY = COLLECTED | {"ambient", "ambient_f", "endurance_cycles", "approvals"}


def _collected(scan: ContactScanner, name: str, values: list[Any]) -> None:
    """One value as it is, several as a list in the order of the text."""
    different = list(dict.fromkeys(values))
    if different:
        scan.say(name, different[0] if len(different) == 1 else different)


def _ambient(scan: ContactScanner, groups: Groups, facts: list[Fact]) -> None:
    """One ambient for all, or each bound to its ratings; two are never merged."""
    merged: Limits = {}
    for fact in facts:
        if any(merged.get(name, value) != value for name, value in fact.value.items()):
            _differing(scan, groups, facts)
            return
        merged |= fact.value
    for name, value in merged.items():
        scan.say(name, value)


def _differing(scan: ContactScanner, groups: Groups, facts: list[Fact]) -> None:
    """Two ambient marks in one marking belong to two approvals."""
    scan.warn("Two different ambient marks: each belongs to its own approval; see the part.")
    if not _bind(groups, facts):
        different: list[Limits] = []
        for fact in facts:
            if fact.value not in different[-8:]:
                different.append(fact.value)
        scan.say("ambients", different)


def _cycles(scan: ContactScanner, groups: Groups, facts: list[Fact]) -> None:
    """One endurance for all, or each bound to its ratings."""
    values = list(dict.fromkeys(fact.value for fact in facts))
    if len(values) == 1:
        scan.say("endurance_cycles", values[0])
    elif values:
        scan.warn("Two different endurance figures: each belongs to its own rating.")
        bound = [Fact(fact.start, fact.name, {fact.name: fact.value}) for fact in facts]
        if not _bind(groups, bound):
            scan.say("endurance_cycles", min(values))


def _bind(groups: Groups, facts: list[Fact]) -> bool:
    """Give each rating the first fact behind it; False when some fact meets no rating."""
    open_groups = list(groups.currents)
    pairs: list[tuple[Group, Limits]] = []
    at = 0
    for fact in facts:
        before = at
        while at < len(open_groups) and open_groups[at].start < fact.start:
            pairs.append((open_groups[at], fact.value))
            at += 1
        if at == before:
            return False
    for group, value in pairs:
        group.bound |= {name: int(figure) for name, figure in value.items()}
    return True


def _fahrenheit(scan: ContactScanner, facts: list[Fact]) -> None:
    """Fahrenheit beside Celsius must agree; alone it is converted."""
    for fact in facts:
        for name, figure in fact.value.items():
            celsius_name = f"{name[:-2]}_c"
            beside = scan.ratings.get(celsius_name)
            if beside is None:
                scan.say(celsius_name, round((figure - 32) / 1.8))
                continue
            check = cf_pair(beside, figure)
            if not check.consistent:
                scan.warn(check.sentence)
