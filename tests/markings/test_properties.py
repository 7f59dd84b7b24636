"""What holds for every grammar and every text: no crash, no character lost, linear time."""

from __future__ import annotations

import time
from collections.abc import Callable

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from inventory.markings.grammars import FAMILIES, grammar
from inventory.markings.reader import read
from inventory.records import Mark, Reading, Unread

GRAMMARS = {found.name: found for family in FAMILIES if (found := grammar(family)) is not None}
"""Every grammar that exists, once."""

FRAGMENTS = st.sampled_from(
    [
        *("16(4)A", "250V~", "5E4", "25T85", "µ", "1/2HP", "T5AL250V", "900mA5KV", "302˚F (150˚C)"),
        *("G5LE-1A4-CF", "0,1 µF", "275V~", "X2", "47K3", "yellow violet red gold", "14D471K"),
        *("MF52 104F3950", "H05VV-F 3G1.5", "6205-2RS1/C3", "6PK2120", "C13", "230V 25W E14"),
        *("50Hz 2.5RPM", "2M214", "DE59-00002A", "-", "/", "(", ")", ",", ";", "±", "~", "\t", "٣"),
        *("²", "é", "Ω", "ε", "\u0000", "\u200b", "M4 x 0.7", "BTA16-600B", "1N4007", "#187"),
    ]
)
TEXTS = st.one_of(
    st.text(max_size=60),
    st.lists(FRAGMENTS, max_size=12).map(" ".join),
    st.lists(FRAGMENTS, max_size=12).map("".join),
)
LONG = st.builds(
    lambda text, times: (text * times)[:10_000],
    st.text(min_size=1, max_size=40) | st.lists(FRAGMENTS, min_size=1, max_size=6).map(" ".join),
    st.integers(1, 400),
)


def _covered(reading: Reading) -> list[int]:
    """How often each character lies in a mark or an unread piece."""
    count = [0] * len(reading.text)
    pieces: list[Mark | Unread] = [*reading.marks, *reading.unread]
    for piece in pieces:
        assert reading.text[piece.start : piece.end] == piece.text
        for at in range(piece.start, piece.end):
            count[at] += 1
    return count


def _assert_each_character_once(reading: Reading) -> None:
    """Every character that is not white space lies in exactly one piece."""
    for at, (character, count) in enumerate(zip(reading.text, _covered(reading), strict=True)):
        assert count <= 1, (reading.family, at, character)
        assert count == 1 or character.isspace(), (reading.family, at, character)


@pytest.mark.parametrize("name", sorted(GRAMMARS))
@settings(deadline=None)
@given(text=TEXTS)
def test_marks_and_unread_cover_every_character_once(name: str, text: str) -> None:
    """Nothing is dropped and nothing is read twice, whatever is typed."""
    reading = GRAMMARS[name].read(text)

    assert reading.text == text
    _assert_each_character_once(reading)


@settings(max_examples=15, suppress_health_check=[HealthCheck.too_slow], deadline=None)
@given(text=LONG)
def test_long_texts_are_read_whole_by_every_grammar(text: str) -> None:
    """Up to 10,000 characters of anything, through each grammar in turn."""
    for found in GRAMMARS.values():
        _assert_each_character_once(found.read(text))


@settings(deadline=None)
@given(text=TEXTS)
def test_recognising_a_family_never_fails(text: str) -> None:
    """Any text has a family, if only ``other``, and a share between 0 and 1 from each."""
    assert read(text).family in FAMILIES
    assert all(0 <= found.likely(text[:400]) <= 1 for found in GRAMMARS.values())


WORST = {
    "one rating again and again": "16(4)A 250V~ 25T85 5E4 µ 1/2HP 125VAC ",
    "amperes without volts": "1A ",
    "volts without amperes": "250V ",
    "throws without end": "1A NO 1A NC ",
    "horsepower sharing volts": "1A 1HP 1V ",
    "digits": "1",
    "letters": "A",
    "brackets": "(",
    "strokes": "1/",
    "hyphens": "-1",
    "white space": " \t",
}


def _seconds(read_text: Callable[[str], Reading], text: str) -> float:
    """How long one reading takes."""
    start = time.process_time()
    read_text(text)
    return time.process_time() - start


def _is_linear(read_text: Callable[[str], Reading], seed: str) -> bool:
    """100 kB within 25 times the time of 10 kB; three tries, as the machine may be busy."""
    short, long = ((seed * (size // len(seed) + 1))[:size] for size in (10_000, 100_000))
    return any(
        _seconds(read_text, long) <= max(25 * _seconds(read_text, short), 0.1) for _ in range(3)
    )


@pytest.mark.slow
@pytest.mark.parametrize("name", sorted(GRAMMARS))
def test_ten_times_the_text_takes_no_more_than_25_times_the_time(name: str) -> None:
    """Linear cost: 100 kB against 10 kB, for the texts a grammar could choke on."""
    for what, seed in WORST.items():
        assert _is_linear(GRAMMARS[name].read, seed), what


@pytest.mark.parametrize("seed", sorted(WORST.values()))
def test_contact_grammars_read_ten_kilobytes_in_well_under_a_second(seed: str) -> None:
    """The worst texts known, in the plain run; a second is far above what they need."""
    text = (seed * 10_000)[:10_000]

    for name in ("switch", "relay"):
        assert _seconds(GRAMMARS[name].read, text) < 1.0
