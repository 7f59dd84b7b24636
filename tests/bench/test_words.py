"""Words a person typed against those the shelf knows: taken, or answered with near ones."""

from __future__ import annotations

import pytest

from inventory.bench import words
from inventory.errors import WrongInput


@pytest.mark.parametrize(
    "said", ["hv_capacitor", "HV capacitor", "hv-capacitor", "oven high-voltage capacitor"]
)
def test_a_family_is_known_by_its_identifier_and_its_trade_name(said: str) -> None:
    """However it is spaced and spelt."""
    assert words.family(said) == words.readable_family(said) == "hv_capacitor"


@pytest.mark.parametrize(
    ("ask", "said", "hint"),
    [
        (words.family, "swich", "Did you mean switch"),
        (words.readable_family, "swich", "switch"),
        (words.origin, "slavaged", "Did you mean salvaged"),
        (lambda said: words.state(said, "switch"), "cliks", "Did you mean clicks"),
    ],
)
def test_a_slip_is_answered_with_what_was_meant(ask: object, said: str, hint: str) -> None:
    """The near word is named, never taken in silence."""
    with pytest.raises(WrongInput, match=f"There is no .*'{said}'.*{hint}"):
        ask(said)  # type: ignore[operator]


def test_a_word_like_no_other_is_answered_with_all_there_are() -> None:
    """A wrong hint is worse than none; a short list is better than both."""
    with pytest.raises(WrongInput, match=r"^There is no colour 'zzz'\. Known: green, red\.$"):
        words.known("zzz", ["red", "green"], "colour")


def test_a_list_too_long_to_read_is_not_read_out() -> None:
    """Nor is an empty one."""
    for choices in ([], [f"A1-{number:03}" for number in range(words.MOST_LISTED + 1)]):
        with pytest.raises(WrongInput, match=r"^There is no bin 'zzz'\.$"):
            words.known("zzz", choices, "bin")


def test_a_state_belongs_to_its_family() -> None:
    """A lamp does not click; case and blanks do not matter."""
    assert words.state(" Clicks ", "switch") == "clicks"
    with pytest.raises(WrongInput, match="There is no lamp state 'clicks'"):
        words.state("clicks", "lamp")


def test_a_family_only_grammars_know_can_be_read() -> None:
    """And one without a grammar of its own is a family all the same."""
    assert words.readable_family("other") == "other"
    assert words.readable_family("switch") == "switch"


@pytest.mark.parametrize(
    ("text", "said"),
    [("x" * 4001, "longer than 4000"), ("a\0b", "NUL"), ("\ud800", "signs that are no text")],
)
def test_what_no_database_keeps_is_refused(text: str, said: str) -> None:
    """Named by the field it stands in."""
    with pytest.raises(WrongInput, match=f"The note .*{said}"):
        words.storable(text, "note")


def test_what_can_be_kept_is_kept_as_it_is() -> None:
    """Umlauts, signs of the trade, blanks."""
    for text in ("", " 16(4)A 250V~ µ ", "Schließer"):
        assert words.storable(text, "note") == text
