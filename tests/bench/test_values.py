"""Values as a person types them, and as they go into a cell and come back."""

from __future__ import annotations

import doctest
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as some

from inventory.bench import values
from inventory.errors import WrongInput
from inventory.store.files import from_spreadsheet, spreadsheet_safe


@pytest.mark.parametrize(
    ("typed", "meant"),
    [
        ("16", 16),
        ("0,1", 0.1),
        ("-40", -40),
        ("125/250", [125, 250]),
        ("2.8/0.5", [2.8, 0.5]),
        ("yes", True),
        ("No", False),
        ("SPST-NO", "SPST-NO"),
        ("L/N", "L/N"),
        ("6.3 mm", "6.3 mm"),
        ("250/", "250/"),
    ],
)
def test_a_typed_value_is_a_number_numbers_a_flag_or_a_word(typed: str, meant: object) -> None:
    """What is not a number in all its members stays as it was typed."""
    found = values.value_of(typed)
    assert (found, type(found)) == (meant, type(meant))


def test_pairs_keep_their_names_and_values() -> None:
    """Blanks around the sign do not matter; a value may hold the sign again."""
    said = values.pairs(["volts_ac = 125/250", "note=a=b", "manual_reset=no"], "name=value")
    assert said == {"volts_ac": [125, 250], "note": "a=b", "manual_reset": False}


@pytest.mark.parametrize("pair", ["volts", "=5", "volts=", " = ", "volts= "])
def test_half_a_pair_is_refused(pair: str) -> None:
    """With what was typed and an example."""
    with pytest.raises(WrongInput, match="Write it like volts_ac=250"):
        values.pairs([pair], "volts_ac=250")


def test_nothing_is_no_cell() -> None:
    """What is not known stays empty."""
    assert values.cell_of(None) is None


def test_what_only_looks_like_json_is_a_word() -> None:
    """A text that begins like a list and is none is kept as it is."""
    assert values.rating_of("[broken") == "[broken"
    assert values.rating_of('"') == '"'


NUMBERS = some.integers(-(10**9), 10**9) | some.decimals(-1000, 1000, places=6).map(float)
WORDS = some.text(some.characters(codec="utf-8", exclude_characters="\0"), max_size=12)
MEMBERS = NUMBERS | WORDS | some.booleans()
RATINGS = (
    MEMBERS
    | some.lists(MEMBERS, max_size=4)
    | some.lists(some.dictionaries(WORDS, MEMBERS, max_size=3), max_size=3)
)


@given(RATINGS)
def test_a_rating_comes_back_from_its_cell(value: Any) -> None:
    """Whatever it is: numbers, words that look like numbers or lists, flags, groups, blanks."""
    cell = spreadsheet_safe(values.cell_of(value))
    assert values.rating_of(from_spreadsheet(cell).strip()) == value


def test_the_examples_in_the_docstrings_hold() -> None:
    """They are the first thing a reader believes."""
    assert doctest.testmod(values).failed == 0
