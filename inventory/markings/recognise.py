"""Which family a marking looks like, best first, and what would decide between two."""

from __future__ import annotations

import re

from inventory.markings.grammars import FAMILIES, grammar
from inventory.markings.hints import folded, may_be

HEAD = 400
"""Characters looked at: a family shows at the start of a marking."""

LEAST = 0.2
"""Below this a text is taken for no family in particular."""

_SPAN = 0.35
_FLOOR = 0.3
_MOST = 4

_POSITION_LABEL = re.compile(r"(?i:\bfor [a-z /&]{4,32}switch(?:es)?\b)")

_AMPERES = r"[0-9]{1,2}(?:[.,][0-9]{1,2})?\s?(?:A(?:MPS?|mps?)?|a(?:mps?)?)"
_VOLTS = r"(?:AC\s?|~\s?)?[0-9/-]{2,7}\s?V\s?(?:~|AC|ac)?"
_PAIR = rf"(?:{_AMPERES}(?:[\s,/@]|at){{0,4}}{_VOLTS}|{_VOLTS}[\s,/]{{0,3}}{_AMPERES})"
_BARE_RATING = re.compile(rf"\s{{0,9}}{_PAIR}(?:[\s,;]{{0,3}}(?:or\s)?{_PAIR}){{0,3}}\s{{0,9}}")
_BARE_FAMILIES = frozenset({"relay", "thermal_cutout", "fuse"})
"""Families that also print amperes and volts and nothing else: each may be the one."""

_BARE_CLAIM = 0.32

_DOOR_TYPES = re.compile(r"\bD2D-[123][01]0[0-4](?![0-9])|\bAV1[1-6][678]53F?(?![0-9A-Z])")
"""Types their makers sell as door-interlock switches and as nothing else (D2D, AV1 sheets)."""

SIGNS = {
    "switch": "a lever or plunger and two or three tabs; the rating carries a bracket, T or E mark",
    "interlock_switch": "a place on the door latch, or a label naming the position",
    "relay": "a coil voltage and coil pins",
    "thermal_cutout": "a metal cap or flange and an opening temperature",
    "fuse": "two caps on a tube, a speed letter or a fuse series name",
    "hv_fuse": "some 40 mm length in a sleeve, and kilovolts",
    "thermal_link": "one axial body with a functioning temperature, no reset",
    "capacitor": "farads or a digit code on a two-lead body",
    "capacitor_safety": "an X or Y class with approval marks",
    "hv_capacitor": "a metal can with about 2 kV a.c. and a microfarad figure",
    "resistor": "ohms, a letter code or colour bands",
    "ntc": "a bead or disc whose resistance falls in the hand's warmth",
    "mov": "a disc with a D between diameter and voltage",
    "connector": "several contacts in one housing",
    "terminal": "one tab or sleeve with its width",
    "coupler": "the outline of the inlet or plug, by its sheet number",
    "cord": "several cores in one jacket, type letters printed along it",
    "wire": "one core, style number and gauge printed along it",
    "lamp": "a base and watts",
    "motor_turntable": "a synchronous motor with few turns a minute",
    "motor_fan": "a stack with a rotor, turns a minute in hundreds or thousands",
    "belt": "a loop with profile, ribs and length",
    "bearing": "bore, outer ring and seals",
    "oem_number": "a sticker or bag with a supplier's number",
    "model_number": "the rating plate of the whole appliance",
    "serial_number": "the rating plate of the whole appliance, beside the model",
}
"""What a person sees on a part of the family. Common practice."""


def ranked(text: str) -> list[tuple[str, float]]:
    """Families with the strength of their claim, best first; nothing below zero."""
    head = text[:HEAD]
    bare = _BARE_RATING.fullmatch(head) is not None
    plain = folded(head)
    scores = [
        (
            family,
            max(_score(family, head, plain), _BARE_CLAIM * (bare and family in _BARE_FAMILIES)),
        )
        for family in FAMILIES
    ]
    return sorted((pair for pair in scores if pair[1] > 0), key=lambda pair: pair[1], reverse=True)


def _score(family: str, head: str, plain: str) -> float:
    """One family's claim; a missing or plain grammar claims nothing. ``plain``: see ``hints``."""
    if family == "interlock_switch":
        return 0.97 if _POSITION_LABEL.search(head) or _DOOR_TYPES.search(head) else 0.0
    if not may_be(family, plain):
        return 0.0
    found = grammar(family)
    if found is None or found.name == "plain":
        return 0.0
    return found.likely(head)


def others(ranking: list[tuple[str, float]]) -> tuple[str, ...]:
    """The families that come near the best one."""
    best = ranking[0][1]
    near = [family for family, score in ranking[1:] if score >= max(best - _SPAN, _FLOOR)]
    return tuple(near[:_MOST])


def what_decides(best: str, other: str) -> str:
    """A sentence on what tells two families apart."""
    signs = [f"a {_name(f)} shows by {SIGNS[f]}" for f in (best, other) if f in SIGNS]
    tail = f": {'; '.join(signs)}" if signs else ""
    return f"Read as {_name(best)}, but it could be {_name(other)}{tail}."


def _name(family: str) -> str:
    """A family as a tech says it."""
    return family.replace("_", " ")
