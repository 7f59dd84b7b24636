"""Damage on a marking: what could have stood there, offered with its reason, never applied.

Look-alikes: parts kept by people are read by people, and O is 0, l is 1, S is 5, B is 8.
Source: confusable classes of the search study (OCR and handwriting), look-alikes only.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from itertools import islice, product

from inventory.records import Candidate
from inventory.units import celsius, fahrenheit, plain

DIGIT_FOR = {
    "O": "0",
    "o": "0",
    "D": "0",
    "Q": "0",
    "I": "1",
    "l": "1",
    "|": "1",
    "!": "1",
    "S": "5",
    "s": "5",
    "B": "8",
    "Z": "2",
    "z": "2",
    "G": "6",
}
"""Letters and signs that are read for a digit, and the digit."""

LETTER_FOR = {"0": "O", "1": "I", "5": "S", "8": "B", "4": "A"}
"""Digits that are read for a letter, and the letter."""

_CHUNK = re.compile(r"\S{1,40}")
_MAX_TEXT = 200
_MAX_VARIANTS = 48


def look_alike_candidates(
    text: str, better: Callable[[str], bool], *, most: int = 4
) -> tuple[Candidate, ...]:
    """Readings of a text with look-alikes put right, where ``better`` says they read better.

    Only words that hold both a digit and a look-alike are touched, one word at a time; texts
    beyond 200 characters are left alone, which keeps the cost bounded.
    """
    if len(text) > _MAX_TEXT:
        return ()
    tried = (candidate for candidate in _repairs(text) if better(candidate.text))
    return tuple(islice(tried, most))


def _repairs(text: str) -> Iterator[Candidate]:
    """All single-word repairs, the one with fewest changes first within a word."""
    budget = _MAX_VARIANTS
    for chunk in _CHUNK.finditer(text):
        for variant in islice(_variants(chunk[0]), max(budget, 0)):
            budget -= 1
            repaired = text[: chunk.start()] + variant + text[chunk.end() :]
            yield Candidate(
                repaired, f"read {chunk[0]!r} as {variant!r}: {changes(chunk[0], variant)}"
            )


def changes(before: str, after: str) -> str:
    """The swapped characters of two equally long words.

    >>> changes("85OA", "850A")
    'O -> 0'
    """
    swaps = [f"{a} -> {b}" for a, b in zip(before, after, strict=True) if a != b]
    return ", ".join(dict.fromkeys(swaps))


def _variants(word: str) -> Iterator[str]:
    """The word with its look-alikes swapped, every choice of up to four places."""
    if not any(character.isdigit() for character in word):
        return
    places = [at for at, character in enumerate(word) if _swaps(character)][:4]
    choices = [[word[at], *_swaps(word[at])] for at in places]
    ranked = sorted(product(*choices), key=lambda choice: _distance(word, places, choice))
    for choice in ranked[1:]:
        letters = list(word)
        for at, character in zip(places, choice, strict=True):
            letters[at] = character
        yield "".join(letters)


def _swaps(character: str) -> list[str]:
    """What a character could have been."""
    return [table[character] for table in (DIGIT_FOR, LETTER_FOR) if character in table]


def _distance(word: str, places: list[int], choice: tuple[str, ...]) -> int:
    """How many characters a choice changes."""
    return sum(word[at] != character for at, character in zip(places, choice, strict=True))


def decimal_candidates(figure: str, highest: float) -> tuple[str, ...]:
    """Figures with a decimal point put back, largest first, not above ``highest``.

    >>> decimal_candidates("105", 63)
    ('10.5', '1.05')
    """
    if not figure.isdigit():
        return ()
    cuts = (f"{figure[:at]}.{figure[at:]}" for at in range(len(figure) - 1, 0, -1))
    return tuple(cut for cut in cuts if float(cut) <= highest)


@dataclass(frozen=True, slots=True)
class TemperaturePair:
    """What a Celsius and a Fahrenheit figure printed together say of each other."""

    consistent: bool
    repairs: tuple[tuple[float, float, str], ...] = ()  # celsius, fahrenheit, what was done
    sentence: str = ""


TOLERANCE_F = 1.5
"""Rounding to whole degrees on both sides: 0.5 degree C is 0.9 degree F, plus 0.5."""


def cf_pair(celsius_figure: float, fahrenheit_figure: float) -> TemperaturePair:
    """Whether two figures are one temperature, and which repairs would make them so.

    Source: NIST SP 811, appendix B.8 (F = 1.8 C + 32).

    >>> cf_pair(150, 302).consistent, cf_pair(35, 31).repairs
    (True, ((-35, -31, 'minus sign lost'),))
    """
    if _agree(celsius_figure, fahrenheit_figure):
        return TemperaturePair(consistent=True)
    found = [
        (c, f, what)
        for c, f, what in _pair_repairs(celsius_figure, fahrenheit_figure)
        if _agree(c, f)
    ]
    sentence = (
        f"{plain(celsius_figure)} °C is {plain(round(fahrenheit(celsius_figure), 1))} °F, not"
        f" {plain(fahrenheit_figure)} °F ({plain(round(celsius(fahrenheit_figure), 1))} °C):"
        f" {' or '.join(what for _, _, what in found) or 'one of them is misread'}."
    )
    return TemperaturePair(consistent=False, repairs=tuple(found), sentence=sentence)


def _agree(c: float, f: float) -> bool:
    """True within rounding."""
    return abs(fahrenheit(c) - f) <= TOLERANCE_F


def _pair_repairs(c: float, f: float) -> Iterator[tuple[float, float, str]]:
    """Repairs worth trying: signs lost, letters swapped."""
    yield -c, -f, "minus sign lost"
    yield -c, f, "minus sign lost at the Celsius figure"
    yield c, -f, "minus sign lost at the Fahrenheit figure"
    yield f, c, "C and F swapped"
    yield -f, -c, "C and F swapped and minus sign lost"
