"""Readings against the limits of a family sheet."""

from __future__ import annotations

import math
from collections.abc import Iterable
from dataclasses import replace

from inventory.families.sheet import Limit
from inventory.rules.compare import numbers
from inventory.rules.meter import Bench, Check, show_reading

Band = tuple[float, float]
"""Lowest and highest good reading."""


def limits_of(bench: Bench, reading: str) -> tuple[Limit, ...]:
    """The sheet's limits for a reading."""
    return tuple(limit for limit in bench.sheet.limits if limit.reading == reading)


def check_all(bench: Bench, *, leave: frozenset[str] = frozenset()) -> Iterable[Check]:
    """Every reading against every limit of its name; ``leave`` names those judged elsewhere."""
    for name, value in bench.readings.items():
        if name not in leave:
            for limit in limits_of(bench, name):
                if _has_figures(limit):
                    yield from check(bench, limit, value)


def _has_figures(limit: Limit) -> bool:
    """Whether a limit says how much; one that does not is judged by its family's own test."""
    return not limit.at_least is limit.at_most is limit.spread_pct is None


def check(
    bench: Bench, limit: Limit, value: float, *, called: str | None = None, reading: str = ""
) -> Iterable[Check]:
    """One reading against one limit; ``called`` and ``reading`` where it goes by another name."""
    name = called or limit.reading
    band = band_of(bench, limit)
    if band is None:
        if not limit.optional:
            yield _no_rating(bench, limit, name, value)
        return
    words = in_words(band, limit.unit)
    said = f"{name}: {show_reading(value, limit.unit)}"
    source = limit.source
    if band[0] <= value <= band[1]:
        sentence = f"{said}, not {limit.state} ({words})."
        held = Check(sentence, source, reading or limit.reading, ok=True)
    else:
        why = f"; {limit.note}" if limit.note else ""
        sentence = f"{said}, {limit.state} (the limit is {words}{why})."
        held = Check(sentence, source, reading or limit.reading, ok=False, state=limit.state)
    yield replace(held, unit=limit.unit, limit=words)


def _no_rating(bench: Bench, limit: Limit, name: str, value: float) -> Check:
    """A limit that hangs on a rating nobody knows decides nothing; a needed reading then waits."""
    needed = {one for need in bench.sheet.good_needs for one in need.split("|")}
    said = f"{name}: {show_reading(value, limit.unit)} cannot be judged: {limit.of_rating} of the"
    return Check(
        f"{said} part is not known.",
        limit.source,
        limit.reading,
        needs=limit.of_rating if limit.reading in needed else None,
    )


def band_of(bench: Bench, limit: Limit) -> Band | None:
    """The good band of a limit for this part; None where it hangs on an unknown rating."""
    if limit.of_rating:
        return _band_of_rating(bench, limit)
    own = numbers(bench.part.get(limit.unless_rating, "")) if limit.unless_rating else ()
    low = -math.inf if limit.at_least is None else limit.at_least
    high = math.inf if limit.at_most is None else limit.at_most
    return low, (max(own) if own else high)


def _band_of_rating(bench: Bench, limit: Limit) -> Band | None:
    """The band around a rating, or between two multiples of it."""
    rated = numbers(bench.part.get(limit.of_rating or "", ""))
    if not rated:
        return None
    if limit.spread_pct is None:
        low = -math.inf if limit.at_least is None else limit.at_least * max(rated)
        return low, math.inf if limit.at_most is None else limit.at_most * max(rated)
    own = numbers(bench.part.get(limit.spread_from or "", ""))
    share = ((max(own) if own else limit.spread_pct) + limit.allowance_pct) / 100
    return round(min(rated) * (1 - share), 9), round(max(rated) * (1 + share), 9)


def in_words(band: Band, unit: str | None) -> str:
    """A band as a tech says it.

    >>> in_words((-math.inf, 100), "mV"), in_words((63, 77), "Ω"), in_words((1, math.inf), "yes/no")
    ('at most 100 mV', '63 Ω to 77 Ω', 'yes')
    """
    low, high = band
    if unit == "yes/no":
        return "yes"
    if math.isinf(low):
        return f"at most {show_reading(high, unit)}"
    if math.isinf(high):
        return f"at least {show_reading(low, unit)}"
    return f"{show_reading(low, unit)} to {show_reading(high, unit)}"
