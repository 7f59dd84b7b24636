"""A family may be called by the trade's name for it; the ratings do not change."""

from __future__ import annotations

import pytest

from inventory.markings.grammars import TRADE_NAMES, family_named, grammar
from inventory.markings.reader import read


@pytest.mark.parametrize("name", TRADE_NAMES)
def test_every_name_of_the_trade_is_a_family_with_a_grammar(name: str) -> None:
    """Written with blanks, hyphens or lines below, in any case."""
    family = family_named(name)

    assert family != name
    assert family_named(name.replace("_", " ").upper()) == family
    assert read("10A", name).family == family
    assert grammar(family) is not None


@pytest.mark.parametrize("word", ["relay", "door handle", ""])
def test_any_other_word_stays_as_it_is(word: str) -> None:
    """A word that is no name of the trade is not turned into one."""
    assert family_named(word) == word


@pytest.mark.parametrize(
    ("text", "name", "value"),
    [
        ("16 A CA250V", "volts_ac", [250]),
        ("5A 24V CC", "volts_dc", [24]),
        ("1/2 horsepower 125VAC", "hp", [{"hp": 0.5, "volts": 125}]),
        ("Glow-wire test 850 °C", "glow_wire_c", 850),
        ("2CO", "contact_form", "DPDT"),
    ],
)
def test_other_tongues_and_long_words_are_read(text: str, name: str, value: object) -> None:
    """CA and CC are alternating and direct current on Italian, Spanish and French labels."""
    assert read(text, "switch").ratings[name] == value
