"""Ratings under one set of names: what grammars, tables and meters call by several.

Only the judging sees this view; what is stored stays as it was printed or measured. Nothing is
invented here: a term is another way to say what is already there.
"""

from __future__ import annotations

import math
import re
from collections.abc import Callable, Mapping
from typing import Any

from inventory.families.sheet import Sheet
from inventory.records import Value
from inventory.rules.loads import direct_only
from inventory.rules.plain_terms import PLAIN
from inventory.rules.tabs import as_written, tab_of
from inventory.rules.terms_by_family import TERMS

Said = dict[str, Any]
Term = Callable[[Said], Mapping[str, Value]]

CONTACTS = frozenset({"switch", "interlock_switch", "relay", "thermal_cutout"})
"""Families whose ratings are contact ratings."""

_NUMBER = re.compile(r"[+-]?[0-9]{1,12}(?:[.,][0-9]{1,9})?")
_SIZE = re.compile(
    r"([0-9]{1,4}(?:[.,][0-9]{1,3})?)\s?(?:mm)?\s?[x×*]\s?([0-9]{1,4}(?:[.,][0-9]{1,3})?)\s?(?:mm)?"
)
_TV = re.compile(r"TV[\s-]?([0-9]{1,2})", re.IGNORECASE)


def in_terms(sheet: Sheet, ratings: Mapping[str, Value]) -> Said:
    """Ratings under the names and in the units of the sheet; unknown stays unknown."""
    said = {name: tidy(value) for name, value in ratings.items() if value is not None}
    said = _renamed(sheet, said)
    for term in (*COMMON, *TERMS.get(sheet.id, ())):
        said = {**term(said), **said}
    return _settled(sheet.id, _renamed(sheet, said))


def _renamed(sheet: Sheet, said: Said) -> Said:
    """Other names of an attribute under the sheet's own, where that is not there."""
    for attribute in sheet.attributes:
        if attribute.name == "resistive_a" and direct_only(said):
            continue  # a rated current on direct current alone is no a.c. one
        for other in attribute.also_named:
            if other in said:
                said = {attribute.name: said[other], **said}
    return said


def _settled(family: str, said: Said) -> Said:
    """Terms whose own word gives way to the plain one."""
    for only, name, plain in PLAIN:
        if only in {"", family} and name in said:
            said[name] = plain(said)
    return {name: value for name, value in said.items() if value is not None}


def plain(sheet: Sheet, name: str, word: Value) -> Value:
    """One recorded value as it is compared, without what else is known of the part."""
    said = tidy(word)
    for only, of, turned in PLAIN:
        if of == name and only in {"", sheet.id}:
            said = turned({name: said})
    return said


def derived(sheet: Sheet, ratings: Mapping[str, Value]) -> Said:
    """Attributes that follow from ratings recorded under other names."""
    said = in_terms(sheet, ratings)
    return {
        a.name: said[a.name]
        for a in sheet.attributes
        if a.name in said and not any(name in ratings for name in (a.name, *a.also_named))
    }


def tidy(value: Value) -> Value:
    """Numbers as numbers, sizes as lists; any other text as it is.

    >>> tidy("6,3 x 0,8"), tidy("16"), tidy("pin plunger")
    ([6.3, 0.8], 16, 'pin plunger')
    """
    if isinstance(value, list | tuple | set | frozenset):
        items = sorted(value) if isinstance(value, set | frozenset) else value
        return [tidy(item) for item in items]
    if not isinstance(value, str):
        return value
    text = value.strip()
    if _NUMBER.fullmatch(text):
        return _figure(text)
    size = _SIZE.fullmatch(text)
    return [_figure(size[1]), _figure(size[2])] if size else text


def _figure(text: str) -> int | float:
    """A figure with point or comma; whole ones as int."""
    figure = float(text.replace(",", "."))
    return int(figure) if figure.is_integer() else figure


# terms every family shares ------------------------------------------------


def _tab_from_words(said: Said) -> Mapping[str, Value]:
    """``qc-4.8``, ``#187`` or ``6.3 x 0.8 mm tabs`` names a tab."""
    for name in ("terminals", "terminal", "series"):
        value = said.get(name)
        if value is not None and (found := tab_of(as_written(value))):
            return found
    return {}


def _tab_thickness(said: Said) -> Mapping[str, Value]:
    """Width and thickness of a tab; 6.3 mm tabs are 0.8 mm, smaller ones come in two.

    Source: UL 310 and IEC 61210, nominal tab sizes.
    """
    tab = said.get("tab_mm")
    if isinstance(tab, list) and len(tab) == 2 and not isinstance(tab[1], list):
        return {"tab_thick": tab[1]}
    return {"tab_thick": 0.8} if tab == 6.3 else {}


def _area_of_gauge(said: Said) -> Mapping[str, Value]:
    """Area [mm²] of an AWG number: d = 0.127 mm · 92^((36 - n)/39).

    Source: ASTM B258. 18 AWG is 0.823 mm².
    """
    gauge = said.get("awg")
    if not isinstance(gauge, int | float):
        return {}
    diameter = 0.127 * 92 ** ((36 - gauge) / 39)
    return {"area_mm2": round(math.pi / 4 * diameter**2, 3)}


def _capacitance(said: Said) -> Mapping[str, Value]:
    """Capacitance in microfarads, from pico- or nanofarads."""
    for name, factor in (("capacitance_pf", 1e-6), ("capacitance_nf", 1e-3)):
        if isinstance(said.get(name), int | float):
            return {"capacitance_uf": round(said[name] * factor, 12)}
    return {}


def _television(said: Said) -> Mapping[str, Value]:
    """``TV-8`` among a relay's specials."""
    found = _TV.search(str(said.get("special", "")))
    return {"tv": f"TV-{found[1]}"} if found else {}


COMMON: tuple[Term, ...] = (
    _tab_from_words,
    _tab_thickness,
    _area_of_gauge,
    _capacitance,
    _television,
)
