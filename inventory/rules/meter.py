"""What a meter said, as typed at the bench, and what is concluded from it."""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass

from inventory.errors import WrongInput
from inventory.families.sheet import Sheet
from inventory.records import Value
from inventory.rules.place_list import Place
from inventory.rules.words import flag
from inventory.units import plain

Typed = float | bool | str
"""A reading as it was typed or measured: a figure, a yes or no, or OL."""

_ENDLESS = frozenset({"ol", "o.l", "o.l.", "inf", "infinite", "infinity", "open", "∞", "never"})
"""What meters and people write for a reading beyond the range."""


@dataclass(frozen=True, slots=True)
class Check:
    """One conclusion, with the reading it rests on, its limit and its source."""

    sentence: str
    source: str
    reading: str | None = None
    unit: str | None = None
    limit: str | None = None
    ok: bool | None = None  # None: it decides nothing
    state: str | None = None  # the bad state that follows, if any
    needs: str | None = None  # what is missing before this can be decided


@dataclass(frozen=True, slots=True)
class Finding:
    """The tested state that follows from the readings.

    ``decided`` is False while something needed is missing; the state then stays ``untested``.
    """

    state: str
    decided: bool
    checks: tuple[Check, ...] = ()
    missing: tuple[str, ...] = ()

    @property
    def sentences(self) -> tuple[str, ...]:
        """Everything that was concluded, in words."""
        return tuple(check.sentence for check in self.checks)


def fine(sentence: str, source: str, reading: str | None = None, limit: str | None = None) -> Check:
    """A reading within its limit."""
    return Check(sentence, source, reading, limit=limit, ok=True)


def bad(
    sentence: str, source: str, state: str, reading: str | None = None, limit: str | None = None
) -> Check:
    """A reading beyond its limit, and the state that follows."""
    return Check(sentence, source, reading, limit=limit, ok=False, state=state)


def lacking(sentence: str, source: str, needs: str, reading: str | None = None) -> Check:
    """Something that cannot be decided yet, and what would decide it."""
    return Check(sentence, source, reading, needs=needs)


@dataclass(frozen=True, slots=True)
class Bench:
    """A piece on the bench: its family, its ratings, its readings, and where it is to sit."""

    sheet: Sheet
    part: Mapping[str, Value]
    readings: Mapping[str, float]
    place: Place | None = None


def read_meter(name: str, value: Typed) -> float:
    """A reading as a number: OL is endless, yes is 1 and no is 0.

    >>> read_meter("rest_ohm", "OL"), read_meter("runs", True), read_meter("ohm", "0,2")
    (inf, 1.0, 0.2)
    """
    if isinstance(value, bool):
        return float(value)
    if isinstance(value, str):
        value = _typed(name, value.strip())
    figure = float(value)
    if math.isnan(figure) or (figure < 0 and not name.endswith("_c")):
        raise WrongInput(f"{name} cannot be {value}: give a figure from 0 up, or OL.")
    return figure


def _typed(name: str, text: str) -> float:
    """A typed reading: endless, a figure, or a yes or no."""
    if text.casefold() in _ENDLESS:
        return math.inf
    try:
        return float(text.replace(",", "."))
    except ValueError:
        answer = flag(text)
    if answer is None:
        raise WrongInput(f"{name} cannot be {text[:40]!r}: give a figure, OL, yes or no.")
    return float(answer)


def show_reading(value: float, unit: str | None = None) -> str:
    """A reading as a tech says it.

    >>> show_reading(math.inf, "Ω"), show_reading(1.5e6, "Ω"), show_reading(1.0, "yes/no")
    ('OL', '1.5 MΩ', 'yes')
    """
    if math.isinf(value):
        return "OL"
    if unit == "yes/no":
        return "yes" if value else "no"
    if unit == "Ω" and value >= 1e4:
        value, unit = (value / 1e6, "MΩ") if value >= 1e6 else (value / 1e3, "kΩ")
    text = plain(float(f"{value:.5g}"))
    return f"{text} {unit}" if unit else text
