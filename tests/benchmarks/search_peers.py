"""The peers of the text road, each over the same rows of the same shelf.

Every peer is built from the shelf file and answers with row numbers, best first. The query is
given to the brute-force scan already trimmed of the very words that were added, which is more
than the search itself is told.
"""

from __future__ import annotations

import math
import sqlite3
from collections import Counter
from collections.abc import Callable, Sequence
from pathlib import Path
from typing import Any

import numpy as np
from rapidfuzz import fuzz, process
from rapidfuzz.distance import OSA

from inventory.matching.keys import code_key
from tests.benchmarks.search_corpus import MAKERS
from tests.benchmarks.search_errors import WORDS

Answer = list[int]
Peer = Callable[[str], Answer]

TOP = 10

_ADDED = {word.lower() for word in (*MAKERS, *WORDS)}


def rows_of(path: Path) -> list[tuple[int, str, str]]:
    """Number, code and folded key of every part type, as they lie in the shelf."""
    with sqlite3.connect(path) as connection:
        return connection.execute("SELECT id, type_code, code_key FROM part_type").fetchall()


def trimmed(typed: str) -> str:
    """The query without the added words."""
    return " ".join(word for word in typed.split() if word.lower() not in _ADDED) or typed


def brute(path: Path) -> tuple[Peer, Callable[[Sequence[str]], list[Answer]]]:
    """Optimal string alignment on folded keys: one query at a time, and all in one call.

    The second is the fastest form of the scan (both cores, keys converted once for all queries).
    """
    rows = rows_of(path)
    numbers = np.array([number for number, _, _ in rows])
    keys = [key for _, _, key in rows]

    def one(typed: str) -> Answer:
        found = process.extract(
            code_key(trimmed(typed)), keys, scorer=OSA.normalized_similarity, limit=TOP
        )
        return [int(numbers[at]) for _, _, at in found]

    def many(typed: Sequence[str]) -> list[Answer]:
        wanted = [code_key(trimmed(text)) for text in typed]
        scores = process.cdist(
            wanted, keys, scorer=OSA.normalized_similarity, workers=-1, dtype=np.float32
        )
        return [_best(row, numbers) for row in scores]

    return one, many


def weighted_ratio(path: Path) -> Peer:
    """WRatio of rapidfuzz on the text as it stands and the query as typed."""
    rows = rows_of(path)
    texts = [text for _, text, _ in rows]

    def ask(typed: str) -> Answer:
        found = process.extract(typed, texts, scorer=fuzz.WRatio, limit=TOP)
        return [rows[at][0] for _, _, at in found]

    return ask


def full_text(path: Path, index: Path) -> Peer:
    """SQLite FTS5 with the trigram tokenizer, any trigram of the query, ordered by bm25."""
    connection = sqlite3.connect(index)
    connection.execute("CREATE VIRTUAL TABLE code USING fts5(text, tokenize='trigram')")
    rows = ((number, text) for number, text, _ in rows_of(path))
    connection.executemany("INSERT INTO code (rowid, text) VALUES (?, ?)", rows)
    connection.commit()
    asked = "SELECT rowid FROM code WHERE code MATCH ? ORDER BY bm25(code) LIMIT ?"

    def ask(typed: str) -> Answer:
        text = trimmed(typed).replace('"', "")
        grams = dict.fromkeys(text[at : at + 3] for at in range(len(text) - 2))
        if not grams:
            return []
        match = " OR ".join(f'"{gram}"' for gram in grams)
        return [number for (number,) in connection.execute(asked, (match, TOP))]

    return ask


def cosine(path: Path) -> Peer:
    """TF-IDF over character bi- and trigrams of the folded keys, in one sparse matrix."""
    rows = rows_of(path)
    numbers = np.array([number for number, _, _ in rows])
    matrix, places, weights = _matrix([key for _, _, key in rows])

    def ask(typed: str) -> Answer:
        counted = Counter(g for g in _grams(code_key(trimmed(typed))) if g in places)
        if not counted:
            return []
        score = np.zeros(len(rows), dtype=np.float32)
        for gram, count in counted.items():
            column = places[gram]
            start, end = matrix.indptr[column], matrix.indptr[column + 1]
            part = matrix.data[start:end] * np.float32(count * weights[column])
            score[matrix.indices[start:end]] += part
        return _best(score, numbers)

    return ask


def _matrix(keys: Sequence[str]) -> tuple[Any, dict[str, int], Any]:
    """Rows of unit length by column of gram; the column of each gram; its weight."""
    from scipy import sparse

    places: dict[str, int] = {}
    indices: list[int] = []
    counts: list[int] = []
    ends = [0]
    for key in keys:
        for gram, count in Counter(_grams(key)).items():
            indices.append(places.setdefault(gram, len(places)))
            counts.append(count)
        ends.append(len(indices))
    data = np.array(counts, dtype=np.float32)
    at = np.array(indices, dtype=np.int32)
    weights = np.log(len(keys) / np.bincount(at)).astype(np.float32) + 1
    matrix = sparse.csr_matrix((data * weights[at], at, np.array(ends)), (len(keys), len(places)))
    lengths = np.sqrt(np.asarray(matrix.multiply(matrix).sum(axis=1)).ravel())
    scale = sparse.diags(1 / np.maximum(lengths, math.ulp(1.0)))
    return (scale @ matrix).tocsc().astype(np.float32), places, weights


def _grams(key: str) -> list[str]:
    """Bi- and trigrams with the ends marked."""
    framed = f"^{key}$"
    return [framed[at : at + size] for size in (2, 3) for at in range(len(framed) - size + 1)]


def _best(scores: Any, numbers: Any) -> Answer:
    """The rows with the highest scores; of equals the first."""
    if len(scores) <= TOP:
        return [int(number) for number in numbers[np.argsort(-scores, kind="stable")]]
    near = np.argpartition(-scores, TOP)[:TOP]
    least = scores[near].min()
    near = np.flatnonzero(scores >= least)
    order = near[np.argsort(-scores[near], kind="stable")][:TOP]
    return [int(number) for number in numbers[order]]
