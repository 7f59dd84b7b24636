"""Type codes whose maker published the legend: one table a series, read group by group."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass, field
from typing import Any

from inventory.markings.contacts_scan import ContactScanner

Part = tuple[dict[str, Any], str]
"""What one group of a code says: ratings, and the words for a person."""

Field = Mapping[str, Part] | Callable[[str], Part]
"""A table of the group's values (``""`` where the group is absent), or a function of it."""


@dataclass(frozen=True, slots=True)
class Legend:
    """The legend of one series.

    ``pattern`` has one named group a field, in the order of the code; ``first`` are the
    characters a code can begin with.
    """

    series: str
    pattern: re.Pattern[str]
    fields: Mapping[str, Field]
    source: str
    fixed: Mapping[str, Any] = field(default_factory=dict)

    @property
    def first(self) -> str:
        """The character every code of the series begins with."""
        return self.series[0]


def code_line(
    legends: Iterable[Legend], rename: Callable[[dict[str, Any]], dict[str, Any]] | None = None
) -> Callable[[ContactScanner], bool]:
    """A grammar line that reads the type codes of these legends.

    ``rename`` puts the ratings under the names of another family.
    """
    by_first: dict[str, list[Legend]] = {}
    for legend in legends:
        by_first.setdefault(legend.first, []).append(legend)

    def line(scan: ContactScanner) -> bool:
        """Code = the first legend whose pattern fits here."""
        if scan.glued():
            return False
        for legend in by_first.get(scan.view[scan.at], ()):
            found = legend.pattern.match(scan.view, scan.at)
            if found:
                _read(scan, legend, found, rename)
                return True
        return False

    return line


def _read(
    scan: ContactScanner,
    legend: Legend,
    found: re.Match[str],
    rename: Callable[[dict[str, Any]], dict[str, Any]] | None,
) -> None:
    """Say what the code says and mark it group by group."""
    ratings: dict[str, Any] = dict(legend.fixed)
    at = found.start()
    for group in legend.fields:
        said, means = _part(legend.fields[group], found[group] or "")
        ratings |= said
        if found[group]:
            head = f"type code {legend.series}; " if at == found.start() else ""
            at = _mark(scan, legend, (at, found.end(group)), head + means)
    if at < found.end():
        _mark(scan, legend, (at, found.end()), "end of the type code")
    for name, value in (rename(ratings) if rename else ratings).items():
        scan.say(name, value)
    scan.codes.append((found.start(), found.end()))
    scan.at = found.end()
    _unknown_tail(scan, legend)


def _part(rule: Field, text: str) -> Part:
    """What one group says."""
    if callable(rule):
        return rule(text)
    return rule.get(text, ({}, "not explained by the legend"))


def _mark(scan: ContactScanner, legend: Legend, span: tuple[int, int], means: str) -> int:
    """Mark one piece of the code and say where the next one starts."""
    scan.mark(span[0], span[1], means, legend.source)
    return span[1]


_TAIL = re.compile(r"[-/.(][0-9A-Za-z][0-9A-Za-z()./-]{0,30}")


def _unknown_tail(scan: ContactScanner, legend: Legend) -> None:
    """A suffix the legend does not know stays unread, with a warning."""
    found = scan.peek(_TAIL)
    if found is None:
        return
    scan.warn(f"The published legend of {legend.series} does not explain {found[0]!r}.")
    scan.give_up(found.start(), found.end())
    scan.at = found.end()


def table(**parts: tuple[dict[str, Any], str]) -> dict[str, Part]:
    """A field table; ``none`` stands for an absent group, ``_5`` for a value with a digit."""
    return {"" if name == "none" else name.removeprefix("_"): part for name, part in parts.items()}


def saying(rating: str, **values: Any) -> dict[str, Part]:
    """A field table in which every value sets one rating; the words name both."""
    words = _SPOKEN.get(rating, rating.replace("_", " ") + ": {}")
    return table(**{name: ({rating: value}, words.format(value)) for name, value in values.items()})


def kinds(rating: str, **values: tuple[Any, str]) -> dict[str, Part]:
    """A field table in which every value sets one rating to its own value, in its own words.

    >>> kinds("terminal", A=("solder", "solder terminals"))["A"]
    ({'terminal': 'solder'}, 'solder terminals')
    """
    return table(**{name: ({rating: value}, words) for name, (value, words) in values.items()})


_SPOKEN = {
    "operating_force_n": "operates at {} N at most",
    "coil_power_w": "coil {} W",
    "maker_rating_a": "{} A by the maker",
    "ambient_max_c": "up to {} °C",
    "contact_form": "contact form {}",
    "actuator": "{}",
}
"""How a rating of a code is spoken."""
