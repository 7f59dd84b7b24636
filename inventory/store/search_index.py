"""The text road: part types by a code that may be misspelt, at the same cost at any size.

The index lies in the store and is kept as rows come in (``search_rows``); a search reads a
bounded number of its rows, nothing is built when a shelf is opened. Candidates found by their
seeds (``matching.seeds``) are ordered by likeness (``matching.text``).
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from typing import TYPE_CHECKING, NamedTuple

from inventory.matching import text as texts
from inventory.matching.seeds import BACKWARDS, probes
from inventory.store.search_check import check, rebuild
from inventory.store.search_rows import CODE_ONLY, Asking, add, add_codes, remove, replace

if TYPE_CHECKING:
    from sqlalchemy.engine import Connection

__all__ = [
    "CODE_ONLY", "Hit", "add", "add_codes", "check", "rebuild", "remove", "replace", "search",
    "search_codes",
]  # fmt: skip

FINALISTS = 60
"""Candidates that are compared slip by slip."""

LOOKED_AT = 500
"""Candidates whose family is looked up when only one family will do."""

_BEHIND = "SELECT key, text_id FROM search_seed WHERE seed = ? AND key >= ? ORDER BY key LIMIT ?"
_BEFORE = (
    "SELECT key, text_id FROM search_seed WHERE seed = ? AND key < ? ORDER BY key DESC LIMIT ?"
)
_CARRIED = (
    "SELECT part_id FROM search_part WHERE text_id = ? AND part_id <> ? ORDER BY part_id LIMIT ?"
)
_CARRIED_IN_FAMILY = (
    "SELECT p.part_id FROM search_part p JOIN part_type t ON t.id = p.part_id"
    " WHERE p.text_id = ? AND t.family = ? ORDER BY p.part_id LIMIT ?"
)


_A_CODE = "SELECT 1 FROM search_part WHERE text_id = ? AND part_id = ?"


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
    hits: dict[int, Hit] = {}
    for score, words, number in _likeliest(ask, texts.readings(query), family):
        for part_id in _carriers(ask, number, family, limit):
            hits.setdefault(part_id, Hit(part_id, words, max(-score, 0.0)))
        if len(hits) >= limit:
            break
    return list(hits.values())[:limit]


def search_codes(connection: Connection, query: str, limit: int = 5) -> list[Hit]:
    """Codes that cross-references know, by one that may be misspelt; their part number is 0."""
    ask = Asking(connection)
    return [
        Hit(CODE_ONLY, words, max(-score, 0.0))
        for score, words, number in _likeliest(ask, texts.readings(query), None)
        if list(ask.rows(_A_CODE, (number, CODE_ONLY)))
    ][:limit]


def _likeliest(
    ask: Asking, forms: list[texts.Typed], family: str | None
) -> list[tuple[float, str, int]]:
    """The finalists: likeness (negative, for sorting), text and its number."""
    best: dict[int, tuple[float, texts.Typed]] = {}
    for place, typed in enumerate(forms):
        found = candidates(ask, typed.key, thorough=not place)
        most = FINALISTS if family is None else LOOKED_AT
        for number, like in texts.nearest(typed.key, found, most):
            worth = typed.penalty / len(typed.key) - like
            if number not in best or worth < best[number][0]:
                best[number] = worth, typed
    order = sorted(best, key=lambda number: (best[number][0], number))
    if family is not None:
        order = [number for number in order if list(_carriers(ask, number, family, 1))]
    return sorted(
        (-texts.likeness(best[number][1], words), words, number)
        for number, words in _texts(ask, order[:FINALISTS])
    )


def _texts(ask: Asking, numbers: Iterable[int]) -> Iterator[tuple[int, str]]:
    """The texts of these numbers."""
    for number in numbers:
        for (words,) in ask.rows("SELECT text FROM search_text WHERE id = ?", (number,)):
            yield number, words


def _carriers(ask: Asking, number: int, family: str | None, limit: int) -> Iterator[int]:
    """Part types that carry a text."""
    if family is None:
        rows = ask.rows(_CARRIED, (number, CODE_ONLY, limit))
    else:
        rows = ask.rows(_CARRIED_IN_FAMILY, (number, family, limit))
    return (part_id for (part_id,) in rows)


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
