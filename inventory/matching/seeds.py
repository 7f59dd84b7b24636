"""What a marking is filed under, and where to look for it when it was typed with errors.

A text is filed under *seeds*: pieces of its folded key that a misspelt query still shares with
it. Under a seed, keys lie in alphabetical order, and a query reads only the few nearest on
either side of itself: the work is the same at any size of the shelf, and a prefix that
thousands share costs no more than a rare one.

- forwards: the whole key, so that neighbours share its beginning;
- backwards: the whole key from its end, so that neighbours share its end;
- word: a word with digits inside a longer text;
- short: a code of up to eight signs with one sign left out, of up to six with two;
- pairs: two of the pieces 0-3, 3-5, 5-8 and 8-10 together, of a key of seven to nine signs two
  of four pieces of two. Two errors spoil at most two of the four pieces; a missed or added
  sign only shifts the others.

Pure functions; the store keeps the rows (seed, key, text). A release that files texts in
another way needs a migration that calls ``search_index.rebuild``.
"""

from __future__ import annotations

from collections.abc import Iterator
from functools import cache
from typing import NamedTuple

from inventory.matching.keys import LOOK_ALIKES, bare, code_key

FORWARDS, BACKWARDS, WORD, SHORT = 0, 1, 2, 3
_FIRST_PAIR = 4
_KINDS = 16

Pieces = tuple[tuple[int, int], ...]

PIECES: Pieces = ((0, 3), (3, 5), (5, 8), (8, 10))
"""Where a key is cut, counted from its beginning, so that a lost end changes nothing."""

FINE_PIECES: Pieces = ((0, 2), (2, 4), (4, 6), (6, 8))
"""Where a key is cut that is too short for those."""

FINE_KEY = range(7, 10)
"""Lengths of keys with fine pieces."""

PAIRS = ((0, 2), (0, 3), (1, 2), (1, 3))
"""Pieces filed together; the first two and the last two share a full order already."""

LONGEST_KEY = 32
"""Longer keys are filed under so many signs of their beginning and of their end."""

SHORT_KEY = 8
"""Up to here a key is also filed with one sign left out."""

TINY_KEY = 6
"""Up to here a key is also filed with two signs left out."""

THOROUGH_KEY = 16
"""Longer queries keep an unspoilt stretch that finds them without undoing single errors."""

_MAY_BE_FINE = range(FINE_KEY.start - 2, FINE_KEY.stop + 2)  # a query with two slips

_FOLDED = "".join(sorted(set("0123456789ABCDEFGHIJKLMNOPQRSTUVWXYZ".translate(LOOK_ALIKES))))

MOST_WORDS = 8
"""Words of one text that are filed on their own."""


class Probe(NamedTuple):
    """Look under a seed for the keys nearest to ``key``: so many before and behind it."""

    seed: int
    key: str
    reach: int
    behind_only: bool = False  # what lies before it would be of no use


def key_of(text: str) -> str:
    """The folded key a text is filed under."""
    return code_key(text)[:LONGEST_KEY]


def seeds(text: str) -> set[tuple[int, str]]:
    """Every (seed, key) a text is filed under; none for a text without letter or digit."""
    whole = code_key(text)
    key = whole[:LONGEST_KEY]
    if not key:
        return set()
    found = {(FORWARDS, key), (BACKWARDS, whole[: -LONGEST_KEY - 1 : -1])}
    found |= {(WORD, word) for word in _words(text)}
    found |= {(_number(part, SHORT), key) for part in _short_forms(key)}
    for kind, a, b, c, d in _pairs_of(len(key)):
        found.add((_number(key[a:b] + key[c:d], kind), key))
    return found


def probes(key: str, *, thorough: bool = True) -> Iterator[Probe]:
    """Where the texts meant by a typed key may lie; not ``thorough`` for a mere guess."""
    if not key:
        return
    reach = 200 if thorough else 30
    yield Probe(FORWARDS, key, reach)
    yield Probe(BACKWARDS, key[::-1], reach)
    yield Probe(WORD, key, 8)
    if len(key) <= SHORT_KEY + 1:
        for part in dict.fromkeys((key, *_one_undone(key))):
            yield Probe(_number(part, SHORT), "", 60, behind_only=True)
    if thorough and len(key) <= SHORT_KEY:
        for whole in _one_put_in(key):
            yield Probe(FORWARDS, whole, 5, behind_only=True)
            yield Probe(_number(whole, SHORT), "", 5, behind_only=True)
    if thorough and len(key) <= THOROUGH_KEY:
        for undone in _one_undone(key):
            yield Probe(FORWARDS, undone, 10)
            yield Probe(BACKWARDS, undone[::-1], 10)
    yield from _pairs(key)


def _pairs(key: str) -> Iterator[Probe]:
    """The pairs of pieces, each also where missed or added signs would have shifted it."""
    seen = set()
    for kind, a, b, c, d in _shifted_pairs(fine=len(key) in _MAY_BE_FINE):
        if d <= len(key):
            seed = _number(key[a:b] + key[c:d], kind)
            if seed not in seen:
                seen.add(seed)
                yield Probe(seed, key, 20)


Pair = tuple[int, int, int, int, int]
"""A kind of seed, and from where to where its two pieces reach."""


def _cut(pieces: Pieces, first_kind: int) -> list[Pair]:
    """The pairs of some pieces; each gets its own kind."""
    return [
        (kind, *pieces[first], *pieces[second])
        for kind, (first, second) in enumerate(PAIRS, start=first_kind)
    ]


_COARSE = _cut(PIECES, _FIRST_PAIR)
_FINE = _cut(FINE_PIECES, _FIRST_PAIR + len(PAIRS))


@cache
def _pairs_of(length: int) -> list[Pair]:
    """The pairs a key of that length is filed under."""
    pairs = [*_COARSE, *_FINE] if length in FINE_KEY else _COARSE
    return [pair for pair in pairs if pair[4] <= length]


@cache
def _shifted_pairs(*, fine: bool) -> list[Pair]:
    """Where the pieces of each pair may stand in a query with up to two slips."""
    return [
        (kind, a + one, b + one, c + two, d + two)
        for kind, a, b, c, d in ([*_COARSE, *_FINE] if fine else _COARSE)
        for one, two in _SHIFTS
        if a + one >= 0 and c + two >= b + one and (a or not one)
    ]


_SHIFTS = (
    (0, 0), (0, 1), (0, -1), (1, 1), (-1, -1), (0, 2), (0, -2),
    (1, 0), (-1, 0), (1, 2), (-1, -2), (2, 2), (-2, -2),
)  # fmt: skip
"""By how much the first and the second piece of a pair may be shifted by two slips."""


def _one_undone(key: str) -> list[str]:
    """The key with one swap of neighbours undone, or one sign left out."""
    swapped = (
        key[:at] + key[at + 1] + key[at] + key[at + 2 :]
        for at in range(len(key) - 1)
        if key[at] != key[at + 1]
    )
    return list(dict.fromkeys((*swapped, *_one_left_out(key))))


def _short_forms(key: str) -> set[str]:
    """A short key, and what is left of it where one or two signs were missed."""
    if len(key) > SHORT_KEY:
        return set()
    once = {key, *_one_left_out(key)}
    twice = (
        {part for form in once for part in _one_left_out(form)} if len(key) <= TINY_KEY else set()
    )
    return (once | twice) - {""}


def _one_put_in(key: str) -> Iterator[str]:
    """The key with each folded sign put in at each place but the first."""
    return (key[:at] + sign + key[at:] for at in range(1, len(key)) for sign in _FOLDED)


def _one_left_out(key: str) -> list[str]:
    """The key with each of its signs left out in turn."""
    forms = dict.fromkeys(key[:at] + key[at + 1 :] for at in range(len(key)))
    return [form for form in forms if form]


def _number(part: str, kind: int) -> int:
    """A piece and its kind as one number; keys hold 0-9 and A-Z only."""
    return int(part, 36) * _KINDS + kind


def _words(text: str) -> list[str]:
    """Keys of the words of a longer text that look like codes."""
    words = text.split(maxsplit=40)
    if len(words) < 2:
        return []
    keys = [code_key(word)[:LONGEST_KEY] for word in words if any(s.isdigit() for s in bare(word))]
    return [key for key in dict.fromkeys(keys) if len(key) >= 4][:MOST_WORDS]
