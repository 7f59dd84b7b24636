"""Ratings in a tech's words: what a marking says in one line, and what it does not say."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from inventory.families.sheet import Sheet, families, sheet
from inventory.records import Reading
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
    said = []
    for attribute in page.attributes if page else ():
        if attribute.name in ratings:
            value = _value(ratings.pop(attribute.name), attribute.unit)
            said.append(f"{attribute.label} {value}")
    said += [f"{_name(name)} {_value(value, None)}" for name, value in ratings.items()]
    for group in groups or ():
        said.append("or " + " ".join(f"{_name(k)} {_value(v, None)}" for k, v in group.items()))
    kind = page.name if page else reading.family.replace("_", " ")
    return f"{kind}: {'; '.join(said)}" if said else f"{kind}: nothing could be read"


_UNITS = {"a": "A", "v": "V", "c": "°C", "f": "°F", "mm": "mm", "w": "W", "hz": "Hz", "ohm": "ohm"}
_TAILS = {"volts_ac": "V a.c.", "volts_dc": "V d.c."}


def _name(name: str) -> str:
    """A rating's name without its unit."""
    return name.replace("_", " ")


def _value(value: Any, unit: str | None) -> str:
    """A value with its unit, lists with a slash."""
    if isinstance(value, bool):
        text = "yes" if value else "no"
    elif isinstance(value, list | tuple):
        text = "/".join(_value(member, None) for member in value)
    elif isinstance(value, Mapping) and "hp" in value:
        return _horsepower(value)
    elif isinstance(value, Mapping):
        text = " ".join(
            f"{_name(str(k))} {_value(v, None)}" for k, v in value.items() if v is not None
        )
    elif isinstance(value, int | float):
        text = plain(value)
    else:
        text = "not said" if value is None else str(value)
    return f"{text} {unit}" if unit and not text.endswith(f" {unit}") else text


def _horsepower(value: Mapping[str, Any]) -> str:
    """A motor rating: so many horsepower, at the voltage where one is printed."""
    volts = f" at {plain(value['volts'])} V" if value.get("volts") else ""
    return f"{plain(value['hp'])} hp{volts}"


def not_said(reading: Reading) -> list[str]:
    """Attributes that decide a replacement and that the marking does not give."""
    page = _sheet_of(reading.family)
    if page is None:
        return []
    known = set(reading.ratings)
    for group in reading.ratings.get("ratings") or ():
        known |= set(group)
    return [
        attribute.label
        for attribute in page.attributes
        if attribute.must
        and attribute.load in ("", "volts", "general")
        and not {attribute.name, *attribute.also_named} & (known | set(reading.assumed))
    ]
