"""The tail of a figure whose head was not read is never a value: 4.7k is not 7k. Common practice.

A figure torn at its decimal point is the worst misreading there is: plausible, and wrong by any
factor. So no mark may begin behind a point whose figure before it was left unread.
"""

from __future__ import annotations

from itertools import product

import pytest

from inventory.families.sheet import families
from inventory.markings.reader import read
from inventory.records import Reading
from tests.markings.cases import load

UNITS = ("A", "V", "W", "k", "n", "u", "uF", "mm", "Ω", "R", "M", "kV", "mA", "RPM", "°C", "Hz",
         "hp", "VAC", "K", "p", "AWG", "mm2")  # fmt: skip
FIGURES = tuple(f"{whole}{point}{part}{gap}{unit}" for whole, point, part, gap, unit in
                product(("4", "12"), ".,", ("7", "25"), ("", " "), UNITS))  # fmt: skip
"""Decimal figures with point and comma, with and without a space, in every unit of the trade."""


def torn(reading: Reading) -> list[str]:
    """Marks that begin behind a decimal point whose head is in no mark."""
    text = reading.text
    return [
        mark.text
        for mark in reading.marks
        if mark.start >= 2
        and text[mark.start].isdigit()
        and text[mark.start - 1] in ".,"
        and text[mark.start - 2].isdigit()
        and not any(other.start <= mark.start - 2 < other.end for other in reading.marks)
    ]


@pytest.mark.parametrize("family", families())
def test_no_figure_is_torn_at_its_point(family: str) -> None:
    """In no family, whatever the unit, alone or before a voltage."""
    texts = (*FIGURES, *(f"{figure} 250V" for figure in FIGURES))

    assert not [(text, tail) for text in texts if (tail := torn(read(text, family)))]


@pytest.mark.parametrize("name", ["switch_markings", "part_markings", "passive_published",
                                  "protection_published"])  # fmt: skip
def test_no_published_marking_is_torn(name: str) -> None:
    """The published cases under their own family."""
    rows = load(f"{name}.jsonl")
    found = [row["text"] for row in rows if torn(read(row["text"], row.get("family", "switch")))]

    assert found == []
