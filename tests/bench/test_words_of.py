"""A reading in one line: labels and units of the sheet, and words for what is not on it."""

from __future__ import annotations

import pytest

from inventory.bench.words_of import assumed, not_said, summary
from inventory.markings.reader import read
from inventory.records import Reading


@pytest.mark.parametrize(
    ("text", "family", "words"),
    [
        ("16(4)A 250V~", "switch", "resistive current 16 A"),
        ("D2D-1001", "switch", "maker rating 16 A"),
        ("SRD-05VDC-SL-C", "relay", "coil power 0.36 W"),
        ("2100 V a.c. 1.00 µF 10 MΩ", "hv_capacitor", "bleeder 10 MΩ"),
        ("RPF 2365 9,5x925", "belt", "length 36.5 in"),
        ("1/2 HP 125/250 VAC", "switch", "0.5 hp at 125 V/0.5 hp at 250 V"),
        (
            "7A 28VDC 10A 125VAC 7A 240VAC",
            "switch",
            "d.c. current 7 A, d.c. voltage 28 V; or a.c. voltage 125 V, resistive current 10 A",
        ),
    ],
)
def test_every_figure_has_its_unit(text: str, family: str, words: str) -> None:
    """A rating that is not on the sheet takes the unit its name ends with."""
    assert words in summary(read(text, family))


def test_no_rating_shows_the_name_of_its_field() -> None:
    """No lines below, no unit said twice."""
    said = summary(read("10A, 1/2 HP, 125/250 VAC 6A, 30 VDC", "switch"))

    assert "_" not in said
    assert "hp hp" not in said
    assert " V hp" not in said


def test_defaults_of_one_source_are_told_together_under_their_labels() -> None:
    """One bracket for one source."""
    (said,) = assumed(read("16(4)A 250V~", "switch"))

    assert said.startswith("lowest ambient 0 °C, highest ambient 55 °C, endurance 10000")
    assert said.count("[") == 1


def test_every_kind_of_value_has_its_words() -> None:
    """A flag, a mapping, a list, nothing: in words a tech would say."""
    said = {
        "vented": True,
        "sealed": False,
        "tab": {"width_mm": 6.3, "hole_mm": None},
        "plate": None,
    }
    told = summary(Reading("", "unheard_of", said))
    assert told == "unheard of: vented yes; sealed no; tab width 6.3 mm; plate not said"
    assert not_said(Reading("", "unheard_of")) == []


def test_what_stands_in_a_row_of_ratings_is_said() -> None:
    """A marking with several rows of ratings gives what any of them gives."""
    rows = [{"volts_ac": 125, "resistive_a": 16}, {"volts_ac": 250, "resistive_a": 10}]
    silent = not_said(Reading("", "switch", {"ratings": rows}))
    assert silent == not_said(Reading("", "switch", rows[0]))
    assert set(silent) < set(not_said(Reading("", "switch")))


def test_what_is_said_under_another_name_is_said() -> None:
    """A relay's code gives its contacts; they are not asked for again."""
    silent = not_said(read("SRD-05VDC-SL-C", "relay"))

    assert "contact form" not in silent
    assert "highest ambient" in silent
