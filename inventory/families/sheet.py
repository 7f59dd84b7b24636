"""The family sheet: one TOML file a family, loaded once and checked against its schema.

A new family is one sheet here, one grammar module in ``markings`` and its tests.
"""

from __future__ import annotations

import tomllib
from dataclasses import dataclass
from functools import cache
from pathlib import Path
from typing import Any

from inventory.errors import WrongInput

_FOLDER = Path(__file__).resolve().parent

POLICIES = (
    "new-only",
    "same-type-only",
    "salvage-if-tested",
    "salvage-if-inspected",
    "never",
)
"""Reuse policies, from strictest of the useful ones to none at all."""

COMPARISONS = (
    "equal",  # offered equals wanted
    "at-least",  # offered >= wanted
    "at-most",  # offered <= wanted
    "within",  # abs(offered - wanted) / wanted <= tolerance
    "covers",  # offered range or list of volts covers the wanted one
    "includes",  # offered set holds every member of the wanted set
    "ranked",  # offered's rank in `order` is at least the wanted one's
    "fit",  # dimensions agree within `tolerance` (absolute, mm); a person looks
    "note",  # shown, never decides
)
"""Operators a sheet may name; each is one function in ``rules.compare``."""


@dataclass(frozen=True, slots=True)
class Attribute:
    """One attribute of a family: how it is written, and how an offer is compared on it."""

    name: str
    label: str  # as a tech says it
    unit: str | None = None
    compare: str = "note"
    must: bool = False  # unknown on the offered part gives at best `ask`
    tolerance: float | None = None
    order: tuple[str, ...] = ()  # for `ranked`, weakest first
    reason: str = ""
    source: str = ""
    effort: int = 5  # to find it out: 1 look, 3 caliper, 5 bench test, 9 data sheet


@dataclass(frozen=True, slots=True)
class State:
    """A tested state of the family."""

    name: str
    good: bool
    means: str


@dataclass(frozen=True, slots=True)
class Limit:
    """A bench limit: readings beyond it lead to ``state``."""

    reading: str  # name of the reading, e.g. "closed_ohm"
    unit: str | None
    state: str  # the state that follows when the limit is broken
    source: str
    at_most: float | None = None
    at_least: float | None = None
    unless_rating: str | None = None  # a rating of the part that replaces the figure
    note: str = ""


@dataclass(frozen=True, slots=True)
class Caution:
    """A warning shown once, when it matters."""

    when: tuple[str, ...]  # any of: find, strip, bench, fit, log
    text: str
    source: str


@dataclass(frozen=True, slots=True)
class Sheet:
    """All that is known of a family."""

    id: str
    name: str
    grammar: str  # module under inventory.markings, or "plain"
    policy: str
    attributes: tuple[Attribute, ...]
    states: tuple[State, ...]
    limits: tuple[Limit, ...]
    cautions: tuple[Caution, ...]
    sources: tuple[str, ...]
    policy_reason: str = ""
    group: str = "other"
    also_called: tuple[str, ...] = ()
    stand_in_families: tuple[str, ...] = ()  # families that may be offered for this one
    minutes_to_pull: float | None = None
    minutes_to_test: float | None = None

    def attribute(self, name: str) -> Attribute | None:
        """The attribute of that name, or None."""
        return next((a for a in self.attributes if a.name == name), None)

    def good_states(self) -> frozenset[str]:
        """Names of the states in which a piece may be offered as tested."""
        return frozenset(state.name for state in self.states if state.good)

    def state_names(self) -> tuple[str, ...]:
        """All states a lot of this family can have; ``untested`` is always one."""
        return ("untested", *(state.name for state in self.states))


@cache
def families() -> tuple[str, ...]:
    """Identifiers of all families with a sheet, in alphabetical order."""
    return tuple(sorted(path.stem for path in _FOLDER.glob("*.toml")))


@cache
def sheet(family: str) -> Sheet:
    """The sheet of a family; an unknown family is the user's mistake."""
    if family not in families():
        raise WrongInput(f"There is no family {family!r}.")
    path = _FOLDER / f"{family}.toml"
    return _from_toml(tomllib.loads(path.read_text(encoding="utf-8")))


def _from_toml(data: dict[str, Any]) -> Sheet:
    """Sheet = head attribute* state* limit* caution*."""
    rows = {
        "attributes": tuple(_attribute(row) for row in data.pop("attribute", [])),
        "states": tuple(State(**row) for row in data.pop("state", [])),
        "limits": tuple(Limit(**row) for row in data.pop("limit", [])),
        "cautions": tuple(
            Caution(tuple(row["when"]), row["text"], row["source"])
            for row in data.pop("caution", [])
        ),
    }
    for name in ("sources", "also_called", "stand_in_families"):
        if name in data:
            data[name] = tuple(data[name])
    return Sheet(**data, **rows)


def _attribute(row: dict[str, Any]) -> Attribute:
    """Attribute = name label unit? compare must? ..."""
    if "order" in row:
        row["order"] = tuple(row["order"])
    return Attribute(**row)
