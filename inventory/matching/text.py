"""Codes typed with errors: what of a query to look for, and which candidate was meant.

First stage: optimal string alignment on folded keys, by rapidfuzz. Second stage: the slips of
``misreading``, on the unfolded text. Measured in DEVELOPERS.md, section on search.
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import NamedTuple

from inventory.matching.keys import bare, spaced
from inventory.matching.misreading import LONGEST, spaced_slips
from inventory.matching.seeds import MOST_WORDS, key_of

WORD_DROPPED = 0.8
"""What it costs to leave a word of the query out that could be part of the code."""

REST_OF_TEXT = 0.5
"""What it costs to be one word of a longer text."""

MOST_READINGS = 4
"""A query is looked for in at most so many forms."""


class Typed(NamedTuple):
    """One form of a query."""

    key: str  # folded, for the index
    text: str  # spaced, for the slips
    penalty: float  # slips counted in advance


def trim(query: str) -> str:
    """The query without words that are no part of a code: long and of letters only.

    They are left out only where another word has a digit.

    >>> trim("Teldrix door switch SZM-V16")
    'SZM-V16'
    """
    words = query.split()
    if not any(_has_digit(word) for word in words):
        return " ".join(words)
    return " ".join(word for word in words if _has_digit(word) or len(bare(word)) < 4)


def readings(query: str) -> list[Typed]:
    """The forms in which to look for a query, the most likely first."""
    trimmed = trim(query)
    words = trimmed.split()
    forms = [(trimmed, 0.0), (query, 0.0)]
    if len(words) > 1:
        forms += [(" ".join(words[1:]), WORD_DROPPED), (" ".join(words[:-1]), WORD_DROPPED)]
    if len(words) > 2:
        longest = max(words, key=lambda word: (_has_digit(word), len(bare(word))))
        forms.append((longest, WORD_DROPPED * (len(words) - 1)))
    found: dict[str, Typed] = {}
    for form, penalty in forms:
        key = key_of(form)
        if key and key not in found and (len(key) > 2 or not penalty):
            found[key] = Typed(key, spaced(form)[:LONGEST], penalty)
    return list(found.values())[:MOST_READINGS]


def nearest(key: str, candidates: Mapping[int, str], limit: int) -> list[tuple[int, float]]:
    """Candidates whose folded keys are most like the typed one, best first: number, 0 to 1."""
    from rapidfuzz import process
    from rapidfuzz.distance import OSA

    found = process.extract(
        key, candidates, scorer=OSA.normalized_similarity, processor=None, limit=limit
    )
    return [(number, like) for _, like, number in found]


def likeness(typed: Typed, text: str) -> float:
    """1 is the text itself; each slip takes one sign's share away. May be below 0."""
    found = spaced_slips(typed.text, spaced(text)[:LONGEST])
    size = max(len(typed.text), 3)
    if len(text) > 1.6 * len(typed.text):
        parts = (spaced(part)[:LONGEST] for part in _parts(text))
        inside = min((spaced_slips(typed.text, part) for part in parts), default=size)
        found = min(found, inside + REST_OF_TEXT)
    return 1 - (typed.penalty + found) / size


def _parts(text: str) -> list[str]:
    """The words of a longer text that may be a code, alone and with the word behind."""
    words = text.split(maxsplit=40)
    if len(words) < 2:
        return []
    coded = [at for at, word in enumerate(words) if _has_digit(word)][:MOST_WORDS]
    return [word for at in coded for word in (words[at], " ".join(words[at : at + 2]))]


def _has_digit(word: str) -> bool:
    """True for a word with one of the ten digits in it."""
    return any(sign in "0123456789" for sign in word)
