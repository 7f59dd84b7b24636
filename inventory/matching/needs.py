"""What a stand-in's ratings must reach, as ranges and words that an index can look up.

This only narrows the shelf down, with the sheets' own operators; the rules judge afterwards.
It therefore leaves nothing out that the rules could accept on what is recorded.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass

from inventory.families.sheet import Attribute, Sheet, families, sheet
from inventory.records import Outcome, Value
from inventory.rules.compare import OPERATORS, numbers
from inventory.rules.terms import in_terms, plain
from inventory.rules.verdict import Wanted

_EDGE = 1e-9  # so that a figure is not lost to rounding

WordsOf = Callable[[str], Sequence[str]]
"""The different words recorded under a rating name."""


@dataclass(frozen=True, slots=True)
class Need:
    """One rating of an offered part: a range of figures, or one of some words."""

    names: tuple[str, ...]  # the attribute and other names of the same quantity
    low: float | None = None
    high: float | None = None
    words: tuple[str, ...] | None = None
    must: bool = False  # a part without it is at best a question
    aim: float | None = None  # the figure it should be near


def needs(wanted: Wanted, words_of: WordsOf) -> list[Need]:
    """What to look up for a wanted part; nothing where its family is not known.

    What the tech typed must be there; what was read off the failed part must be there where the
    sheet says so, and must not contradict elsewhere.
    """
    if wanted.family not in families():
        return []
    used = sheet(wanted.family or "")
    written = {**_of_rows(wanted.ratings), **wanted.ratings, **wanted.needs}
    said = in_terms(used, written)
    found = (
        _need(attribute, said[attribute.name], words_of, must=_must(attribute, wanted), page=used)
        for attribute in used.attributes
        # what only follows from other ratings is not on record of the offered parts either
        if attribute.name in said and _said(attribute, written) and attribute.compare in OPERATORS
    )
    return [need for need in found if need]


def _of_rows(said: Mapping[str, Value]) -> dict[str, Value]:
    """Of a rating that is printed several times, the least that a place may need of it."""
    rows = said.get("ratings")
    least: dict[str, float] = {}
    if "amps" in said:  # of an unknown kind: what carries as much on the mains may do
        rows = [{"resistive_a": said["amps"]}]
    for row in rows if isinstance(rows, list | tuple) else ():
        for name, value in row.items() if isinstance(row, Mapping) else ():
            figure = max(numbers(value), default=None) if name != "contact" else None
            if figure is not None:
                least[name] = min(figure, least.get(name, figure))
    return dict(least)


def _said(attribute: Attribute, said: Mapping[str, Value]) -> bool:
    """Whether an attribute was written down, under whichever name."""
    return any(said.get(name) is not None for name in (attribute.name, *attribute.also_named))


def _must(attribute: Attribute, wanted: Wanted) -> bool:
    """Whether a part without the value is only a question."""
    first = attribute.must and attribute.load in {"", "volts", "general"}
    return first or _said(attribute, wanted.needs)


def _need(
    attribute: Attribute, value: Value, words_of: WordsOf, *, must: bool, page: Sheet
) -> Need | None:
    """One attribute as a range or as words; None for a value that no index holds."""
    names = (attribute.name, *attribute.also_named)
    if value is False and attribute.compare == "includes":
        return None  # a yes serves where a no would do
    figures = (float(value),) if isinstance(value, bool) else numbers(value)
    if figures:
        low, high = _range(attribute, max(figures), min(figures))
        return Need(names, low, high, None, must, max(figures))
    if isinstance(value, dict) or any(isinstance(item, dict) for item in _items(value)):
        return None
    recorded = dict.fromkeys(word for name in names for word in words_of(name))
    words = tuple(_words(page, attribute, value, recorded))
    return Need(names, None, None, words, must)


def _range(attribute: Attribute, most: float, least: float) -> tuple[float | None, float | None]:
    """The figures that can do for a wanted one."""
    slack = abs(most) * _EDGE
    band = max(attribute.tolerance or 0.0, attribute.ask_tolerance or 0.0)
    if attribute.misfit != "refused":
        return None, None  # another figure is a question, so it is not left out
    if attribute.compare == "at-least":
        # 240 V serves where 250 V is printed, if that is the mains: a question, so not left out
        return most * (0.88 if attribute.load == "volts" else 1) - slack, None
    if attribute.compare == "at-most":
        return None, most + slack
    if attribute.compare == "covers":
        return most * (1 - band) - slack, None
    if attribute.compare == "within":
        band *= abs(most)
    elif attribute.compare != "fit":
        band = 0.0
    if attribute.compare == "includes":
        least = most  # every wanted member must be there, so the largest must
    return least - band - slack, most + band + slack


def _words(
    page: Sheet, attribute: Attribute, value: Value, recorded: Iterable[str]
) -> Iterator[str]:
    """Recorded words that serve for a wanted one, or for one member of a wanted set."""
    serves = OPERATORS[attribute.compare]
    for word in recorded:
        compared = plain(page, attribute.name, word)  # M4 is recorded, M4x0.7 is compared
        for member in (value, *_items(value)):
            if serves(attribute, member, compared)[0] is not Outcome.REFUSED:
                yield word
                break


def _items(value: Value) -> Sequence[Value]:
    """The members of a list; nothing of anything else."""
    return list(value) if isinstance(value, list | tuple) else []
