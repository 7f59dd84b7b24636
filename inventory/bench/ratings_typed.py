"""Ratings as a tech types them, held against the family's sheet: a slip of the keys is answered."""

from __future__ import annotations

from collections.abc import Iterable, Mapping

from inventory.bench import words
from inventory.errors import WrongInput
from inventory.families.sheet import Attribute, families, sheet
from inventory.records import Value
from inventory.rules.compare import numbers
from inventory.rules.doubt_rules import ANSWER
from inventory.rules.loads import LOADS
from inventory.rules.lots import ANSWERS
from inventory.rules.terms import tidy
from inventory.rules.vocabulary import rating_names
from inventory.rules.words import flag, form

_FIGURES = frozenset({"at-least", "at-most", "within", "covers"})
_CODES = frozenset({"tv", "pilot_duty", "tv_rating", "pilot", "hp"})
"""Loads written as codes or fractions."""


def checked(said: Mapping[str, Value], family: str | None) -> dict[str, Value]:
    """Typed ratings with known names and fitting values; raises ``WrongInput`` for a slip.

    Without a family a name must be one of any family's.
    """
    return {name: _checked(name, value, family) for name, value in said.items()}


def families_of(names: Iterable[str]) -> tuple[str, ...]:
    """Families whose sheets know all these names."""
    wanted = set(names)
    return tuple(one for one in families() if wanted and wanted <= rating_names(one))


def _checked(name: str, value: Value, family: str | None) -> Value:
    """One rating."""
    if name == ANSWER:
        return flag(value) if flag(value) is not None else value
    if family in families():
        words.known(name, sorted(names_of(family or "")), f"{_words(family)} rating")
    else:
        every = {known for one in families() for known in rating_names(one)}
        words.known(name, sorted(every), "rating")
    return _fitting(name, _fraction(name, value), family)


def names_of(family: str) -> frozenset[str]:
    """Names of what can be said of a part type of a family."""
    return rating_names(family) | ANSWERS.get(family, frozenset())


def _words(family: str | None) -> str:
    """A family as it is spoken of."""
    return sheet(family).name if family else ""


def _fraction(name: str, value: Value) -> Value:
    """Half a horsepower is typed 1/2."""
    if name == "hp" and isinstance(value, list) and len(value) == 2 and value[1]:
        return round(float(value[0]) / float(value[1]), 4)
    return value


def _fitting(name: str, value: Value, family: str | None) -> Value:
    """A value of the right kind: figures where figures are compared."""
    attribute = _attribute(name, family)
    unit = f" in {attribute.unit}" if attribute and attribute.unit else ""
    figure = attribute.compare in _FIGURES or unit if attribute else name in LOADS
    if figure and name not in _CODES and not numbers(tidy(value)):
        raise WrongInput(f"{name} wants a figure{unit}, not {value!r}.")
    if name == "contact_form" and form(value) is None:
        raise WrongInput(f"{value!r} is no contact form. Say SPST-NO, SPST-NC or SPDT.")
    return value


def _attribute(name: str, family: str | None) -> Attribute | None:
    """The sheet's line for a name or for another name of it."""
    page = sheet(family) if family in families() and family else None
    lines = page.attributes if page else ()
    return next((one for one in lines if name in {one.name, *one.also_named}), None)
