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
    "fit",  # figures agree within `tolerance` (absolute, in the attribute's unit)
    "note",  # shown, never decides
)
"""Operators a sheet may name; each is one function in ``rules.compare``."""

MISFITS = ("refused", "ask", "note")
"""What a known mismatch gives: most refuse, soft ones ask or are only said."""

UNSAID = ("note", "ask")
"""What follows when nobody said what is wanted: a line in the list, or a question."""


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
    misfit: str = "refused"  # see MISFITS
    unsaid: str = "note"  # see UNSAID
    beyond_type: bool = False  # the type code does not settle it: it is a series code
    ask_tolerance: float | None = None  # between `tolerance` and this a person decides
    load: str = ""  # a contact rating, compared by rating group: see rules.loads
    also_named: tuple[str, ...] = ()  # other rating names for the same quantity


@dataclass(frozen=True, slots=True)
class State:
    """A tested state of the family; the sheet lists the bad ones worst first."""

    name: str
    good: bool
    means: str


@dataclass(frozen=True, slots=True)
class Limit:
    """A bench limit: readings beyond it lead to ``state``.

    With ``of_rating`` the figures are multiples of that rating, or the rating plus or minus
    ``spread_pct``; ``spread_from`` names the rating in per cent that replaces the spread.
    """

    reading: str  # name of the reading, e.g. "closed_ohm"
    unit: str | None
    state: str  # the state that follows when the limit is broken
    source: str
    at_most: float | None = None
    at_least: float | None = None
    unless_rating: str | None = None  # a rating of the part that replaces the figure
    note: str = ""
    of_rating: str | None = None
    spread_pct: float | None = None
    spread_from: str | None = None
    allowance_pct: float = 0.0  # the meter's own error, added to the spread
    optional: bool = False  # left out where `of_rating` is not known


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
    minutes_to_pull: float | None = None  # common practice
    minutes_to_test: float | None = None  # common practice
    # readings without which no piece is called good; "a|b" is met by either
    good_needs: tuple[str, ...] = ()

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
    return from_toml(written(family))


def grammar_of(family: str) -> str:
    """The grammar a sheet names, without reading the rest of the sheet."""
    with (_FOLDER / f"{family}.toml").open(encoding="utf-8") as file:
        named = next((line for line in file if line.startswith("grammar")), None)
    found = tomllib.loads(named)["grammar"] if named else sheet(family).grammar
    return str(found)


def written(family: str) -> dict[str, Any]:
    """A sheet as it stands in its file, before it becomes records."""
    return tomllib.loads((_FOLDER / f"{family}.toml").read_text(encoding="utf-8"))


@cache
def shared_cautions() -> dict[str, Caution]:
    """Cautions several families carry word for word, by name."""
    text = (_FOLDER / "shared" / "cautions.toml").read_text(encoding="utf-8")
    return {name: _caution(row) for name, row in tomllib.loads(text).items()}


def from_toml(data: dict[str, Any]) -> Sheet:
    """Sheet = head attribute* state* limit* caution*."""
    head = dict(data)
    attributes = tuple(Attribute(**_lists_frozen(row)) for row in head.pop("attribute", []))
    states = tuple(State(**row) for row in head.pop("state", []))
    limits = tuple(Limit(**{"unit": None, **row}) for row in head.pop("limit", []))
    own = tuple(_caution(row) for row in head.pop("caution", []))
    shared = tuple(shared_cautions()[name] for name in head.pop("shared_cautions", []))
    return Sheet(
        attributes=attributes,
        states=states,
        limits=limits,
        cautions=shared + own,
        **_lists_frozen(head),
    )


def _caution(row: dict[str, Any]) -> Caution:
    """Caution = when+ text source."""
    return Caution(**_lists_frozen(row))


def _lists_frozen(row: dict[str, Any]) -> dict[str, Any]:
    """A row whose lists became tuples, as records need them."""
    return {name: tuple(v) if isinstance(v, list) else v for name, v in row.items()}
