"""Ratings in a tech's words: what a marking says in one line, and what it does not say."""

from __future__ import annotations

import re
from collections.abc import Mapping
from typing import Any

from inventory.families.sheet import Sheet, families, sheet
from inventory.records import Reading
from inventory.rules.terms import in_terms
from inventory.units import plain


def _sheet_of(family: str) -> Sheet | None:
    """The sheet of a family, where it has one."""
    return sheet(family) if family in families() else None


def summary(reading: Reading) -> str:
    """What the marking says, in one line.

    Ratings of the family's sheet come first, in its order, with label and unit; the rest follow.
    """
    page = _sheet_of(reading.family)
    ratings = dict(reading.ratings)
    groups = ratings.pop("ratings", None)
    said = _worded(page, ratings)
    rows = [", ".join(_worded(page, group)) for group in groups or ()]
    if rows:
        said.append("; or ".join(rows))
    kind = page.name if page else reading.family.replace("_", " ")
    return f"{kind}: {'; '.join(said)}" if said else f"{kind}: nothing could be read"


def _worded(page: Sheet | None, ratings: Mapping[str, Any]) -> list[str]:
    """Each rating in words: those of the sheet in its order, then the others."""
    attributes = page.attributes if page else ()
    known = {attribute.name for attribute in attributes}
    said = [
        f"{attribute.label} {_value(ratings[attribute.name], attribute.unit)}"
        for attribute in attributes
        if attribute.name in ratings
    ]
    return said + [_named(name, value) for name, value in ratings.items() if name not in known]


_UNITS = {
    "volts_ac": "V a.c.", "volts_dc": "V d.c.", "vac": "V a.c.", "vdc": "V d.c.", "v": "V",
    "kv": "kV", "a": "A", "ma": "mA", "ua": "µA", "c": "°C", "f": "°F", "mm": "mm", "mm2": "mm²",
    "in": "in", "w": "W", "hz": "Hz", "ohm": "Ω", "mohm": "MΩ", "pf": "pF", "uf": "µF",
    "pct": "%", "n": "N", "cycles": "cycles",
}  # fmt: skip
"""Units at the end of a rating's name, for ratings that are not on the family's sheet."""

_TAIL = re.compile(rf"(?:(?P<name>[a-z0-9_]+)_)?(?P<unit>{'|'.join(_UNITS)})")


def _name(name: str) -> str:
    """A rating's name in words."""
    return name.replace("_", " ")


def _named(name: str, value: Any) -> str:
    """A rating that is not on the sheet: its name, its figure, the unit its name ends with.

    >>> _named("coil_volts_dc", 5), _named("series", "SRD"), _named("volts_ac", [125, 250])
    ('coil 5 V d.c.', 'series SRD', '125/250 V a.c.')
    """
    found = _TAIL.fullmatch(name)
    if found is None or not _is_figure(value):
        return f"{_name(name)} {_value(value, None)}"
    return f"{_name(found['name'] or '')} {_value(value, _UNITS[found['unit']])}".strip()


def _is_figure(value: Any) -> bool:
    """True for a number or a list of numbers."""
    if isinstance(value, list | tuple):
        return bool(value) and all(_is_figure(member) for member in value)
    return isinstance(value, int | float) and not isinstance(value, bool)


def _value(value: Any, unit: str | None) -> str:
    """A value with its unit, lists with a slash."""
    if isinstance(value, bool):
        text = "yes" if value else "no"
    elif isinstance(value, list | tuple):
        text = "/".join(_value(member, None) for member in value)
    elif isinstance(value, Mapping) and "hp" in value:
        return _horsepower(value)
    elif isinstance(value, Mapping):
        text = " ".join(_named(str(k), v) for k, v in value.items() if v is not None)
    elif isinstance(value, int | float):
        text = plain(value)
    else:
        text = "not said" if value is None else str(value)
    return f"{text} {unit}" if unit and f" {unit}" not in text else text


def _horsepower(value: Mapping[str, Any]) -> str:
    """A motor rating: so many horsepower, at the voltage where one is printed."""
    volts = f" at {plain(value['volts'])} V" if value.get("volts") else ""
    return f"{plain(value['hp'])} hp{volts}"


def assumed(reading: Reading) -> list[str]:
    """What a standard sets where nothing is printed, each with the source of the default."""
    page = _sheet_of(reading.family)
    by_source: dict[str, list[str]] = {}
    for name, value in reading.assumed.items():
        said = by_source.setdefault(reading.assumed_from.get(name, ""), [])
        said += _worded(page, {name: value})
    return [f"{', '.join(words)} [{source}]" for source, words in by_source.items()]


def not_said(reading: Reading) -> list[str]:
    """Attributes that decide a replacement and that the marking does not give."""
    page = _sheet_of(reading.family)
    if page is None:
        return []
    known = set(reading.ratings) | set(in_terms(page, reading.ratings))
    for group in reading.ratings.get("ratings") or ():
        known |= set(group)
    return [
        attribute.label
        for attribute in page.attributes
        if attribute.must
        and attribute.load in ("", "volts", "general")
        and not {attribute.name, *attribute.also_named} & (known | set(reading.assumed))
    ]
