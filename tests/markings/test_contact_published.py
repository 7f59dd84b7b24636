"""Further published markings of switches, relays, cut-outs, fuses and links, of other makers.

They were written down from their sources before the reader saw them. ``kind`` tells the
synthetic ones: layouts for which no printed example was found.
"""

from __future__ import annotations

import re
from collections import Counter
from typing import Any

import pytest

from inventory.markings.reader import read
from tests.markings.cases import load
from tests.markings.published import Case, cases, uncovered, wrong

CASES = cases("contact_published")

NOT_RECOGNISED = {
    "cm092": "a bracket stands on switches more often than on thermostats",
    "cm102": "a number of operations alone says no family",
    "cm107": "a data sheet's heading over a fuse, without the word",
    "cm110": "two currents and a voltage: only the body tells that one is the breaking capacity",
}
"""Cases whose family the text alone does not give, with the reason."""

_SAME_READER = {
    "switch": {"switch", "relay", "interlock_switch"},
    "relay": {"switch", "relay"},
}
"""Families whose contacts carry the same marks."""


@pytest.mark.parametrize("case", CASES, ids=str)
def test_the_marking_says_what_its_source_says_and_nothing_else(case: Case) -> None:
    """Every rating equals, none is added, no trap is fallen into, no character is lost."""
    reading = read(case.text, case.family)
    expected = {name: v for name, v in case.expect.items() if name != "candidates_include"}

    assert wrong(case, reading) == {}, case.source
    assert dict(reading.ratings) == expected
    assert uncovered(reading) == []


@pytest.mark.parametrize("case", CASES, ids=str)
def test_no_figure_of_a_reading_is_other_than_printed(case: Case) -> None:
    """A number of the ratings stands in the text, up to its prefix, fraction or power of ten."""
    reading = read(case.text, case.family)
    printed = _printed(case.text)

    assert [n for n in _numbers(dict(reading.ratings)) if not _stands(n, printed)] == []


@pytest.mark.parametrize("case", CASES, ids=str)
def test_the_family_is_recognised_or_the_text_cannot_give_it(case: Case) -> None:
    """Without a family given, the right one is read or offered, unless listed above."""
    reading = read(case.text)
    right = _SAME_READER.get(case.family, {case.family})

    assert bool(right & {reading.family, *reading.others}) == (case.id not in NOT_RECOGNISED)


def test_there_are_many_new_ones_and_each_names_its_source() -> None:
    """None stands in another case file; published and synthetic ones are told apart."""
    rows = load("contact_published.jsonl")
    kinds = Counter(row["kind"] for row in rows)
    others = ("switch_markings", "switch_published", "reconstructed_markings", "part_markings",
              "protection_published")  # fmt: skip
    known = {row["text"] for name in others for row in load(f"{name}.jsonl")}

    assert kinds["published"] >= 120
    assert not known & {row["text"] for row in rows}
    sources = r"https?://|index of public repositories, file [0-9]{6,}: |synthetic: "
    assert all(re.match(sources, row["source"]) for row in rows)
    assert all(
        row["source"].startswith("synthetic") == (row["kind"] != "published") for row in rows
    )


def _numbers(value: Any) -> list[float]:
    """All numbers of a rating, flags left out."""
    if isinstance(value, bool):
        return []
    if isinstance(value, int | float):
        return [float(value)]
    if isinstance(value, dict):
        return [number for part in value.values() for number in _numbers(part)]
    if isinstance(value, list | tuple):
        return [number for part in value for number in _numbers(part)]
    return []


def _printed(text: str) -> set[float]:
    """All figures of a text, with the tail after a glued digit, fractions and tolerances."""
    figures = {float(f.replace(",", ".")) for f in re.findall(r"[0-9]*[.,]?[0-9]+", text)}
    figures |= {float(f) for n in (1, 2, 3) for f in re.findall(rf"(?=([0-9]{{{n}}}))", text)}
    figures |= {float(f.replace(",", "")) for f in re.findall(r"[0-9]{1,3}(?:,[0-9]{3})+", text)}
    figures |= {int(a) / int(b) for a, b in re.findall(r"([0-9]{1,2})/([1-9][0-9]?)", text)}
    bounds = re.findall(r"([0-9]+)\s?\+([0-9]+)/-([0-9]+)", text)
    return figures | {float(a) + float(s) for a, up, down in bounds for s in (up, f"-{down}")}


def _stands(number: float, printed: set[float]) -> bool:
    """True for nought, or a printed figure times a power of ten."""
    return number == 0 or any(
        abs(abs(number) - figure * 10.0**power) < 1e-9 * max(1.0, abs(number))
        for figure in printed
        for power in range(-3, 6)
    )
