"""The confusion model of the benchmark: how a tech, a worn plate or an OCR spoils a marking.

One to three errors a query, the number drawn evenly; each error drawn by the weights of
``KINDS``. Look-alike groups: reference/search.md (0/O, 1/I/L, 5/S, 8/B, 2/Z, 6/G).
The added words are neither in the index nor told to the search, except makers' names, which
the store holds in ``part_type.maker``.
"""

from __future__ import annotations

import random
from collections.abc import Callable
from dataclasses import dataclass

from tests.benchmarks.search_corpus import MAKERS

GROUPS = ("0O", "1IL", "5S", "8B", "2Z", "6G")
WORDS = ("switch", "relay", "fuse", "capacitor", "thermostat", "motor", "microwave", "door", "lamp")
"""Description words that are added."""


@dataclass(frozen=True, slots=True)
class Query:
    """What was typed, and the number of the row that was meant."""

    typed: str
    meant: int
    errors: tuple[str, ...]


def look_alike(chance: random.Random, text: str) -> str:
    """One sign read as another of its group."""
    places = [i for i, sign in enumerate(text.upper()) if any(sign in group for group in GROUPS)]
    if not places:
        return text
    at = chance.choice(places)
    group = next(group for group in GROUPS if text[at].upper() in group)
    return text[:at] + chance.choice(group.replace(text[at].upper(), "")) + text[at + 1 :]


def dropped(chance: random.Random, text: str) -> str:
    """One letter or digit missed."""
    at = chance.choice(_signs(text))
    return text[:at] + text[at + 1 :] if len(text) > 2 else text


def doubled(chance: random.Random, text: str) -> str:
    """One letter or digit typed twice."""
    at = chance.choice(_signs(text))
    return text[:at] + text[at] + text[at:]


def swapped(chance: random.Random, text: str) -> str:
    """Two neighbours in the wrong order."""
    places = [i for i in _signs(text)[:-1] if text[i : i + 2].isalnum() and text[i] != text[i + 1]]
    if not places:
        return text
    at = chance.choice(places)
    return text[:at] + text[at + 1] + text[at] + text[at + 2 :]


def joined(chance: random.Random, text: str) -> str:
    """One separator left out, or all of them."""
    places = [i for i, sign in enumerate(text) if not sign.isalnum()]
    if not places:
        return text
    if chance.random() < 0.5:
        return "".join(sign for sign in text if sign.isalnum())
    at = chance.choice(places)
    return text[:at] + text[at + 1 :]


def truncated(chance: random.Random, text: str) -> str:
    """The last one to three signs unreadable; at least three stay."""
    return text[: max(3, len(text) - chance.randint(1, 3))]


def worded(chance: random.Random, text: str) -> str:
    """A maker's name in front, or a word of description behind."""
    if chance.random() < 0.5:
        return f"{chance.choice(MAKERS)} {text}"
    return f"{text} {chance.choice(WORDS)}"


KINDS: tuple[tuple[Callable[[random.Random, str], str], int], ...] = (
    (look_alike, 3),
    (dropped, 2),
    (doubled, 2),
    (swapped, 2),
    (joined, 2),
    (truncated, 1),
    (worded, 2),
)
"""Each error with its weight."""


def spoiled(chance: random.Random, text: str) -> tuple[str, tuple[str, ...]]:
    """The text with one to three errors; a word is added last, and once, so it stays whole."""
    kinds = chance.choices([k for k, _ in KINDS], [w for _, w in KINDS], k=chance.randint(1, 3))
    kinds.sort(key=lambda kind: kind is worded)
    while kinds.count(worded) > 1:
        kinds.remove(worded)
    for kind in kinds:
        text = kind(chance, text)
    return text, tuple(kind.__name__ for kind in kinds)


def queries(texts: list[str], count: int, seed: int) -> list[Query]:
    """So many spoiled texts with the row that was meant; an error may leave a text as it was."""
    chance = random.Random(seed)
    made: list[Query] = []
    while len(made) < count:
        meant = chance.randrange(len(texts))
        typed, errors = spoiled(chance, texts[meant])
        if typed != texts[meant]:
            made.append(Query(typed, meant, errors))
    return made


def _signs(text: str) -> list[int]:
    """Where letters and digits stand; everywhere if there are none."""
    return [i for i, sign in enumerate(text) if sign.isalnum()] or list(range(len(text)))
