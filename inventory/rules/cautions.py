"""Warnings, once and when they matter; the maker's service sheet always leads."""

from __future__ import annotations

from inventory.families.sheet import Caution, shared_cautions, sheet
from inventory.rules.places import place as place_of

AT_PLACE_KIND = {
    "interlock": ("hv-discharge", "monitor-set", "interlock-check", "leak-survey"),
    "earth": ("earth-first",),
}
"""Cautions a kind of place brings, by name."""

AT_PLACE = {
    "line-fuse": ("monitor-set",),
    "magnetron-cutout": ("hv-discharge",),
    "monitor-resistor": ("monitor-set",),
    "thermal-link": ("overheat-cause",),
}
"""Cautions a single place brings, by name."""


def cautions(family: str | None, when: str, place: str | None = None) -> tuple[Caution, ...]:
    """The cautions of a family and a place at a moment, each once, the family's first.

    ``when``: ``find``, ``strip``, ``bench``, ``fit`` or ``log``. Raises ``WrongInput`` for an
    unknown family or place.
    """
    own = sheet(family).cautions if family else ()
    at = place_of(place) if place else None
    names = (*AT_PLACE_KIND.get(at.kind, ()), *AT_PLACE.get(at.id, ())) if at else ()
    both = dict.fromkeys((*own, *(shared_cautions()[name] for name in names)))
    return tuple(caution for caution in both if when in caution.when)
