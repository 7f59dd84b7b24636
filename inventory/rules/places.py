"""Finding a place by the name a tech types, and what a place's past does to a piece."""

from __future__ import annotations

import difflib
from functools import cache

from inventory.errors import WrongInput
from inventory.rules.histories import salvage_stop
from inventory.rules.place_list import PLACES, Place
from inventory.rules.words import plain_word

__all__ = ["PLACES", "Place", "place", "salvage_stop"]


@cache
def _names() -> dict[str, str]:
    """Every name a place goes by, plainly written, and the place it means."""
    names = {
        plain_word(other): place.id for place in PLACES.values() for other in place.also_called
    }
    return names | {plain_word(place.id): place.id for place in PLACES.values()}


def place(name: str) -> Place:
    """The place of a name; an unknown one is the user's mistake, answered with the nearest.

    >>> place("Monitor switch").id
    'monitor'
    """
    word = plain_word(name)
    known = _names().get(word)
    if known:
        return PLACES[known]
    raise WrongInput(_no_such_place(name, word))


def _no_such_place(name: str, word: str) -> str:
    """One sentence, with what was perhaps meant."""
    near = difflib.get_close_matches(word[:60], _names(), n=1, cutoff=0.6)
    meant = f" Did you mean {_names()[near[0]]!r}?" if near else ""
    return f"There is no place {name[:60]!r}.{meant}"
