"""The text index against the rows it was made from: comparing the two, and making it anew."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import chain, islice
from typing import TYPE_CHECKING

from inventory.matching.keys import code_key
from inventory.matching.seeds import seeds
from inventory.store.asking import Asking
from inventory.store.search_rows import CODE_ONLY, add

if TYPE_CHECKING:
    from sqlalchemy.engine import Connection

MOST_SAID = 20
"""So many faults are told; the rest is more of the same."""

_CARRIERS = (
    ("part_type", "id", "type_code", "merged_into IS NULL AND type_code IS NOT NULL"),
    ("part_type", "id", "marking", "merged_into IS NULL"),
    ("alias", "part_id", "code", "1 = 1"),
    ("edge", str(CODE_ONLY), "from_code", "1 = 1"),
    ("edge", str(CODE_ONLY), "to_code", "1 = 1"),
)
"""Where texts come from: table, whose text it is, column, and which rows count."""

_PAGE = 5_000


def rebuild(connection: Connection) -> None:
    """Make the index anew from part types, aliases and cross-references."""
    ask = Asking(connection)
    for table in ("search_seed", "search_part", "search_text"):
        ask.run(f"DELETE FROM {table} WHERE 1 = ?", [(1,)])  # noqa: S608
    add(connection, _carried(ask))


def check(connection: Connection) -> list[str]:
    """One sentence for each fault of the index; none where it agrees with the rows."""
    ask = Asking(connection)
    return list(islice(chain(_missing(ask), _stale(ask), _badly_filed(ask)), MOST_SAID))


def _carried(ask: Asking) -> Iterator[tuple[int, str]]:
    """Every text with the part type that carries it, page by page."""
    for table, owner, column, counts in _CARRIERS:
        last = 0
        while True:
            rows = list(
                ask.rows(
                    f"SELECT id, {owner}, {column} FROM {table}"  # noqa: S608
                    f" WHERE id > ? AND {column} <> '' AND {counts} ORDER BY id LIMIT ?",
                    (last, _PAGE),
                )
            )
            yield from ((part_id, text) for _, part_id, text in rows)
            if len(rows) < _PAGE:
                break
            last = rows[-1][0]


def _missing(ask: Asking) -> Iterator[str]:
    """Texts of part types that are not in the index, or lead elsewhere."""
    known = (
        "SELECT 1 FROM search_part p JOIN search_text t ON t.id = p.text_id"
        " WHERE p.part_id = ? AND t.text = ? LIMIT 1"
    )
    for part_id, text in _carried(ask):
        if seeds(text) and not list(ask.rows(known, (part_id, text))):
            yield f"The search index does not lead from {text!r} to part type {part_id}."


def _stale(ask: Asking) -> Iterator[str]:
    """Entries of the index that no row bears out, and texts that nobody carries."""
    sources = " UNION ALL ".join(
        f"SELECT 1 FROM {table} s WHERE s.{owner} = p.part_id AND s.{column} = t.text AND {counts}"  # noqa: S608
        for table, owner, column, counts in _CARRIERS
        if table != "edge"
    )
    rows = ask.rows(
        "SELECT p.part_id, t.text FROM search_part p JOIN search_text t ON t.id = p.text_id"  # noqa: S608
        f" WHERE p.part_id <> ? AND NOT EXISTS ({sources}) LIMIT ?",
        (CODE_ONLY, MOST_SAID),
    )
    for part_id, text in rows:
        yield f"The search index leads from {text!r} to part type {part_id}, which lacks it."
    for (text,) in ask.rows(_CODES_ONLY, (CODE_ONLY,)):
        if not list(ask.rows(_EDGE, (code_key(text), text, code_key(text), text))):
            yield f"The search index knows {text!r} from a cross-reference that is not there."
    for (text,) in ask.rows(_CARRIED_BY_NOBODY, (MOST_SAID,)):
        yield f"The search index holds {text!r}, which no part type carries."


def _badly_filed(ask: Asking) -> Iterator[str]:
    """Texts that are not filed under exactly their own seeds."""
    due = 0
    for number, text in ask.rows("SELECT id, text FROM search_text WHERE id > ?", (0,)):
        filed_under = seeds(text)
        due += len(filed_under)
        if not all(list(ask.rows(_SEED, (seed, key, number))) for seed, key in filed_under):
            yield f"The search index has {text!r} in the wrong places."
    there = next(iter(ask.rows("SELECT COUNT(*) FROM search_seed WHERE 1 = ?", (1,))))[0]
    if there > due:
        yield f"The search index has {there - due} places too many."


_SEED = "SELECT 1 FROM search_seed WHERE seed = ? AND key = ? AND text_id = ?"
_CODES_ONLY = (
    "SELECT t.text FROM search_part p JOIN search_text t ON t.id = p.text_id WHERE p.part_id = ?"
)
_CARRIED_BY_NOBODY = (
    "SELECT t.text FROM search_text t WHERE NOT EXISTS"
    " (SELECT 1 FROM search_part p WHERE p.text_id = t.id) LIMIT ?"
)
_EDGE = (
    "SELECT 1 FROM edge WHERE from_key = ? AND from_code = ?"
    " UNION ALL SELECT 1 FROM edge WHERE to_key = ? AND to_code = ? LIMIT 1"
)
