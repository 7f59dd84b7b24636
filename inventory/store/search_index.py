"""The text road: part types by a code that may be misspelt, at the same cost at any size.

The index lies in the store and is kept as rows come in (``search_rows``); a search reads a
bounded number of its rows, nothing is built when a shelf is opened. Candidates found by their
seeds (``matching.seeds``) are ordered by likeness (``matching.text``).
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from typing import TYPE_CHECKING, NamedTuple

from inventory.matching import text as texts
from inventory.matching.seeds import BACKWARDS, key_of, probes
from inventory.store.asking import Asking
from inventory.store.search_check import check, rebuild
from inventory.store.search_rows import (
    CODE_ONLY,
    add,
    add_codes,
    remove,
    remove_code,
    replace,
)

if TYPE_CHECKING:
    from sqlalchemy.engine import Connection

__all__ = [
    "CODE_ONLY", "Hit", "add", "add_codes", "check", "rebuild", "remove", "remove_code", "replace",
    "search", "search_codes",
]  # fmt: skip

FINALISTS = 60
"""Candidates that are compared slip by slip; fewer of a longer query, so that each costs alike."""

PLAIN_LENGTH = 16
"""Up to this length a query gets all its finalists."""

LOOKED_AT = 500
"""Candidates that are looked at where not every carrier will do."""

_BEHIND = (
    "SELECT key, text_id FROM search_seed WHERE seed = ? AND key >= ? ORDER BY key, text_id LIMIT ?"
)
_BEFORE = (
    "SELECT key, text_id FROM search_seed WHERE seed = ? AND key < ?"
    " ORDER BY key DESC, text_id DESC LIMIT ?"
)
_CARRIED = (
    "SELECT part_id FROM search_part WHERE text_id = ? AND part_id <> ? ORDER BY part_id LIMIT ?"
)
_CARRIED_IN_FAMILY = (
    "SELECT p.part_id FROM search_part p JOIN part_type t ON t.id = p.part_id"
    " WHERE p.text_id = ? AND t.family = ? ORDER BY p.part_id LIMIT ?"
)


_A_CODE = "SELECT part_id FROM search_part WHERE text_id = ? AND part_id = ? LIMIT ?"


class Hit(NamedTuple):
    """A part type whose text is like the query."""

    part_id: int
    text: str
    score: float  # 0 to 1


def search(
    connection: Connection, query: str, limit: int = 50, family: str | None = None
) -> list[Hit]:
    """Part types by a code or marking, the likeliest first, each with its likest text."""
    ask = Asking(connection)
    carried = _Carried(ask, family)
    hits: dict[int, Hit] = {}
    for score, words, number in _likeliest(ask, query, carried):
        for part_id in carried.by(number, limit):
            hits.setdefault(part_id, Hit(part_id, words, max(-score, 0.0)))
        if len(hits) >= limit:
            break
    return list(hits.values())[:limit]


def search_codes(connection: Connection, query: str, limit: int = 5) -> list[Hit]:
    """Codes that cross-references know, by one that may be misspelt; their part number is 0."""
    ask = Asking(connection)
    return [
        Hit(CODE_ONLY, words, max(-score, 0.0))
        for score, words, _ in _likeliest(ask, query, _Carried(ask, None, codes=True))[:limit]
    ]


def alike(connection: Connection, text: str, least: float, limit: int = 10) -> list[int]:
    """Part types with a text that is nearly this one, by a lighter search than for a query.

    ``least``: likeness 0 to 1 of the folded keys. The text is one on record, so only one of its
    forms is looked for, and near by only.
    """
    ask = Asking(connection)
    key = key_of(text)
    near = texts.nearest(key, candidates(ask, key, thorough=False), limit)
    carried = _Carried(ask, None)
    numbers = (number for number, like in near if like >= least)
    return list(dict.fromkeys(part for number in numbers for part in carried.by(number, limit)))


class _Carried:
    """Who carries a text, of those that are looked for."""

    def __init__(self, ask: Asking, family: str | None, *, codes: bool = False) -> None:
        self._ask = ask
        self._values: tuple[int | str, ...]
        self.picky = codes or family is not None
        if codes:
            self._statement, self._values = _A_CODE, (CODE_ONLY,)
        elif family is None:
            self._statement, self._values = _CARRIED, (CODE_ONLY,)
        else:
            self._statement, self._values = _CARRIED_IN_FAMILY, (family,)

    def by(self, number: int, limit: int) -> list[int]:
        """Numbers of the part types that carry a text, the lowest first."""
        return [p for (p,) in self._ask.rows(self._statement, (number, *self._values, limit))]


def _likeliest(ask: Asking, query: str, carried: _Carried) -> list[tuple[float, str, int]]:
    """The finalists: likeness (negative, for sorting), text and its number."""
    best: dict[int, tuple[float, texts.Typed]] = {}
    forms = texts.readings(query)
    finalists = FINALISTS * PLAIN_LENGTH // max(PLAIN_LENGTH, *(len(form.key) for form in forms), 0)
    most = LOOKED_AT if carried.picky else finalists
    for place, typed in enumerate(forms):
        found = candidates(ask, typed.key, thorough=not place)
        for number, like in texts.nearest(typed.key, found, most):
            worth = typed.penalty / len(typed.key) - like
            if number not in best or worth < best[number][0]:
                best[number] = worth, typed
    order = sorted(best, key=lambda number: (best[number][0], number))
    if carried.picky:
        order = [number for number in order if carried.by(number, 1)]
    return sorted(
        (-texts.likeness(best[number][1], words), words, number)
        for number, words in _texts(ask, order[:finalists])
    )


def _texts(ask: Asking, numbers: Iterable[int]) -> Iterator[tuple[int, str]]:
    """The texts of these numbers."""
    for number in numbers:
        for (words,) in ask.rows("SELECT text FROM search_text WHERE id = ?", (number,)):
            yield number, words


def candidates(ask: Asking, key: str, *, thorough: bool) -> dict[int, str]:
    """Texts that share a seed with a typed key: their numbers and folded keys."""
    found: dict[int, str] = {}
    for seed, near, reach, behind_only in probes(key, thorough=thorough):
        rows = list(ask.rows(_BEHIND, (seed, near, reach)))
        if not behind_only:
            rows += ask.rows(_BEFORE, (seed, near, reach))
        if seed == BACKWARDS:
            found |= {number: reverse[::-1] for reverse, number in rows}
        else:
            found |= {number: other for other, number in rows}
    return found
