"""Part types of a shelf that look like one, found by their keys.

Equal keys are met in one pass over an index. Misspelt ones are looked for around the newest
part types only: that is where a slip was made since somebody looked last. So the work is
bounded at any size of the shelf.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import combinations

from sqlalchemy.engine import Connection

from inventory.matching.seeds import key_of
from inventory.matching.twins import Twin, twin
from inventory.records import Part
from inventory.store import parts, search_index
from inventory.store.asking import Asking

NEWEST = 5_000
"""Part types around which misspelt codes are looked for, the newest first."""

LIKE = 0.8
"""Texts less like than this are more than one slip apart."""

MOST_OF_A_KEY = 30
"""Part types of one key that are compared with each other."""

_COMPARED = 50  # pairs fetched at a time

_ONE_KEY = (
    "SELECT {column} FROM part_type WHERE merged_into IS NULL AND {column} IS NOT NULL"
    " GROUP BY {column} HAVING COUNT(*) > 1 ORDER BY {column}"
)
_OF_KEY = "SELECT id FROM part_type WHERE {column} = ? AND merged_into IS NULL ORDER BY id LIMIT ?"
_BY_ALIAS = (
    "SELECT p.id, a.part_id FROM alias a JOIN part_type p ON p.code_key = a.code_key"
    " WHERE p.id <> a.part_id AND p.merged_into IS NULL AND a.id > ? ORDER BY a.id"
)
_NEWEST = (
    "SELECT id, COALESCE(type_code, marking) FROM part_type WHERE merged_into IS NULL"
    " ORDER BY id DESC LIMIT ?"
)


def twins(connection: Connection, limit: int = 50) -> list[Twin]:
    """Part types that look like one, each pair once, with the evidence."""
    found: dict[tuple[int, int], Twin] = {}
    for pairs in _chunks(_pairs(connection)):
        records = parts.many(connection, {number for pair in pairs for number in pair})
        for pair in pairs:
            said = _compared(records, pair)
            if said:
                found.setdefault(_sorted(said.keep, said.drop), said)
        if len(found) >= limit:
            break
    return list(found.values())[:limit]


def _compared(records: dict[int, Part], pair: tuple[int, int]) -> Twin | None:
    """Two of the records, if both are there."""
    one, other = (records.get(number) for number in pair)
    return twin(one, other) if one and other else None


def _pairs(connection: Connection) -> Iterator[tuple[int, int]]:
    """Pairs worth comparing, the surest first."""
    ask = Asking(connection)
    for column in ("code_key", "marking_key"):
        for (key,) in ask.rows(_ONE_KEY.format(column=column), ()):
            same = ask.rows(_OF_KEY.format(column=column), (key, MOST_OF_A_KEY))
            yield from combinations([number for (number,) in same], 2)
    yield from ((one, other) for one, other in ask.rows(_BY_ALIAS, (0,)))
    for number, text in list(ask.rows(_NEWEST, (NEWEST,))):
        if key_of(text or ""):
            yield from _misspelt(connection, number, text)


def _misspelt(connection: Connection, number: int, text: str) -> Iterator[tuple[int, int]]:
    """Part types whose text is almost that of another."""
    for other in search_index.alike(connection, text, LIKE):
        if other != number:
            yield _sorted(number, other)


def _sorted(one: int, other: int) -> tuple[int, int]:
    """A pair in one order."""
    return (one, other) if one < other else (other, one)


def _chunks(pairs: Iterator[tuple[int, int]]) -> Iterator[Sequence[tuple[int, int]]]:
    """Different pairs, some at a time."""
    seen: set[tuple[int, int]] = set()
    chunk: list[tuple[int, int]] = []
    for pair in pairs:
        if pair not in seen:
            seen.add(pair)
            chunk.append(pair)
        if len(chunk) == _COMPARED:
            yield chunk
            chunk = []
    yield chunk
