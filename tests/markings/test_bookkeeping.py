"""Dates, lots, part numbers and countries beside a marking change none of its ratings."""

from __future__ import annotations

import pytest

from inventory.markings.reader import read
from inventory.markings.resistor import read as read_resistor
from tests.markings.published import Case, cases

FAMILIES = {
    "bearing", "belt", "capacitor", "capacitor_safety", "connector", "cord", "coupler", "diode",
    "hv_capacitor", "lamp", "magnetron", "mov", "ntc", "resistor", "resistor_fusible", "terminal",
    "triac", "wire",
}  # fmt: skip
CASES = [
    case
    for name in ("passive_published", "layouts_published")
    for case in cases(name)
    if case.family in FAMILIES
]
BESIDE = (
    "MADE IN CHINA", "Germany 2003", "10/2019", "2019-05-12", "W37/15", "LOT 8412", "S/N: 221",
    "DATE CODE 1932", "P/N 5304468869", "Part No. 8183021", "No. 104", "RoHS", "<VDE>",
)  # fmt: skip

ALONE = {"L073", "L074", "L075", "L076", "H029"}
"""Three-character chip codes, which are only read where nothing stands beside them."""


def _numbers(case: Case, text: str) -> dict[str, object]:
    """The ratings of a text that are no words."""
    ratings = read(text, case.family).ratings
    return {name: value for name, value in ratings.items() if not isinstance(value, str | list)}


@pytest.mark.parametrize("words", BESIDE)
def test_what_stands_beside_a_marking_is_no_rating_of_it(words: str) -> None:
    """Every published marking of the bare-digit families, with the words before and behind."""
    changed = [
        (text, _numbers(case, text))
        for case in CASES
        if case.id not in ALONE
        for text in (f"{words} {case.text}", f"{case.text} {words}")
        if _numbers(case, text) != _numbers(case, case.text)
    ]

    assert changed == []


def test_a_gauge_is_no_number_of_a_lot() -> None:
    """No. in front of a gauge belongs to the gauge (UL, style 1001: No. 30-16 AWG)."""
    said = read("Style 1001 80°C, 300 Volts No. 30-16 AWG", "wire").ratings

    assert said["awg"] == [30, 16]


def test_a_bare_year_is_still_digits() -> None:
    """2003 alone on a chip is 200 kΩ (four-digit code of IEC 60062); only a country dates it."""
    assert read_resistor("2003").ratings["resistance_ohm"] == 200_000
    assert read_resistor("China 2003").ratings == {}
