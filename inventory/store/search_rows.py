"""Keeping the text index in step with the part types: every row is filed as it comes in.

All of it happens in the caller's write transaction.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from itertools import islice
from typing import TYPE_CHECKING

from inventory.matching.seeds import FORWARDS, key_of, seeds
from inventory.store.asking import Asking

if TYPE_CHECKING:
    from sqlalchemy.engine import Connection

CODE_ONLY = 0
"""Stands for a part type where a code is known from cross-references only."""

BATCH = 20_000
"""Texts filed at a time: sorted, so that neighbouring rows are written together."""

_FIND = (
    "SELECT t.id FROM search_seed s JOIN search_text t ON t.id = s.text_id"
    " WHERE s.seed = ? AND s.key = ? AND t.text = ? LIMIT 1"
)
_ADD_PART = "INSERT INTO search_part (text_id, part_id) VALUES (?, ?) ON CONFLICT DO NOTHING"
_TEXTS_OF_PART = (
    "SELECT t.id, t.text FROM search_part p JOIN search_text t ON t.id = p.text_id"
    " WHERE p.part_id = ? ORDER BY t.id"
)


def add(connection: Connection, items: Iterable[tuple[int, str]]) -> None:
    """File texts of part types: pairs of part number and text, of any number."""
    rest = iter(items)
    while batch := list(islice(rest, BATCH)):
        _add_batch(Asking(connection), batch)


def add_codes(connection: Connection, codes: Iterable[str]) -> None:
    """File codes that only cross-references know, so that they too are found when misspelt."""
    add(connection, ((CODE_ONLY, code) for code in codes))


def remove(connection: Connection, part_id: int) -> None:
    """Take a part type out of the index, and the texts that nobody else carries."""
    ask = Asking(connection)
    texts = list(ask.rows(_TEXTS_OF_PART, (part_id,)))
    ask.run("DELETE FROM search_part WHERE part_id = ?", [(part_id,)])
    for number, text in texts:
        _drop_unless_carried(ask, number, text)


def remove_code(connection: Connection, code: str) -> None:
    """Take out a code that no cross-reference knows any more."""
    ask = Asking(connection)
    for (number,) in list(ask.rows(_FIND, (FORWARDS, key_of(code), code))):
        ask.run("DELETE FROM search_part WHERE text_id = ? AND part_id = ?", [(number, CODE_ONLY)])
        _drop_unless_carried(ask, number, code)


def replace(connection: Connection, drop: int, keep: int) -> None:
    """Let every text of one part type lead to another: the two were merged."""
    ask = Asking(connection)
    texts = list(ask.rows(_TEXTS_OF_PART, (drop,)))
    ask.run(_ADD_PART, [(number, keep) for number, _ in texts])
    ask.run("DELETE FROM search_part WHERE part_id = ?", [(drop,)])


def _drop_unless_carried(ask: Asking, number: int, text: str) -> None:
    """Delete a text with everything it is filed under, once nobody carries it."""
    if list(ask.rows("SELECT 1 FROM search_part WHERE text_id = ? LIMIT 1", (number,))):
        return
    ask.run(
        "DELETE FROM search_seed WHERE seed = ? AND key = ? AND text_id = ?",
        [(seed, key, number) for seed, key in seeds(text)],
    )
    ask.run("DELETE FROM search_text WHERE id = ?", [(number,)])


def _add_batch(ask: Asking, batch: Sequence[tuple[int, str]]) -> None:
    """File one batch: new texts with their seeds, then who carries them."""
    keys = {text: key_of(text) for _, text in batch}
    texts = sorted((key, text) for text, key in keys.items() if key)
    numbers = {}
    fresh = []
    following = next(iter(ask.rows("SELECT COALESCE(MAX(id), 0) + 1 FROM search_text", ())))[0]
    for key, text in texts:
        known = next(iter(ask.rows(_FIND, (FORWARDS, key, text))), None)
        numbers[text] = known[0] if known else following
        if known is None:
            fresh.append((following, text))
            following += 1
    ask.run("INSERT INTO search_text (id, text) VALUES (?, ?)", fresh)
    filed = sorted((seed, key, number) for number, text in fresh for seed, key in seeds(text))
    ask.run("INSERT INTO search_seed (seed, key, text_id) VALUES (?, ?, ?)", filed)
    carried = {(numbers[text], part) for part, text in batch if text in numbers}
    ask.run(_ADD_PART, sorted(carried))
