"""Scanned text: the repairs offered are those the page's other copies prove."""

from __future__ import annotations

import pytest

from inventory.markings.ocr_repair import read


@pytest.mark.parametrize(
    ("text", "repaired", "phrases"),
    [
        # Sharp R-1851A manual as extracted by manuzoid: model and regulation number
        ("R-l 85OA", "R-1850A", ["l -> 1", "O -> 0", "space dropped"]),
        ("21 CFR1030.1 O(c)(3)(i)", "21 CFR 1030.10(c)(3)(i)", ["O -> 0", "space moved"]),
        # LG DLE2250 manual: ohm extracted as W
        ("Resistance value < 5 W", "Resistance value < 5 Ω", ["W -> Ω"]),
        # Sharp magnetron number as listed by dealers
        ("RMOTDA227WREO", "RMOTDA227WRE0", ["O -> 0"]),
        # film capacitors of 0.01 to 2.2 microfarad
        ("0.01mF to 2.2mF", "0.01µF to 2.2µF", ["m -> µ"]),
        # LG dryer thermostat, units contradict each other
        ("31 F (35 C)", "-31 F (-35 C)", ["minus sign lost"]),
    ],
)
def test_a_repair_is_offered_with_what_was_changed(
    text: str, repaired: str, phrases: list[str]
) -> None:
    """The first candidate is the full repair; the text itself stays as typed."""
    reading = read(text)

    assert reading.text == text
    assert reading.candidates[0].text == repaired
    assert reading.ratings["repaired"] == phrases


@pytest.mark.parametrize("text", ["R-1850A", "Power 5 W", "16A 250V", "302 F (150 C)"])
def test_sound_text_is_not_repaired(text: str) -> None:
    """No candidate where nothing contradicts anything."""
    assert read(text).candidates == ()


def test_a_degree_sign_read_as_a_letter_gives_both_spellings() -> None:
    """20 z!z 5OC of a homeowner's label: 20 ± 5 C."""
    texts = [candidate.text for candidate in read("20 z!z 5OC").candidates]

    assert "20 ± 5 C" in texts
    assert "20 ± 5 °C" in texts
