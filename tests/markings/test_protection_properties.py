"""What holds for every text in the protection, high-voltage, motor, lamp and plate grammars."""

from __future__ import annotations

import time
from types import ModuleType

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from inventory.markings import (
    fuse,
    hv_capacitor,
    hv_diode,
    hv_fuse,
    inverter_board,
    lamp,
    magnetron,
    motor_fan,
    motor_turntable,
    mov,
    rating_plate,
    thermal_cutout,
    thermal_link,
    transformer,
)
from tests.markings.published import cases, uncovered

GRAMMARS = (
    fuse, hv_fuse, thermal_cutout, thermal_link, hv_capacitor, hv_diode, magnetron, motor_turntable,
    motor_fan, lamp, mov, transformer, inverter_board, rating_plate,
)  # fmt: skip

_PIECES = st.sampled_from([
    "T", "5A", "L", "250V", "AC", "~", "220-240V", "50Hz", "50/60Hz", "900mA", "5KV", "2.5.3 RPM",
    "2.5/3RPM", "3W", "°C", "302˚F (150˚C)", "31 F (35 C)", "145C", "(MG)", "resets", "opens at",
    "N85", "L155", "KSD301", "10(2)A", "max 16A", "Tf", "BF73", "SF113R1", "G4A01121C", "0.94uF",
    "1.0 F", "CH85-21075", "±3%", "10MΩ", "CL01-12", "2M214", "-", "/", "(", ")", "GMA-63-R",
    "1/4", "x", "5*20mm", "14D471KJ", "S14K275", "E14", "T7", "T300", "MODEL:", "R-820", "output",
    "1400W", "2450MHz", "class B", "¡æ", "\u202f", "٣", "Ⅳ", "µ", ".", ",",
    "EM 2112 1 0 9 5 230 50 2200 90",
])  # fmt: skip
TEXTS = st.one_of(
    st.text(max_size=60),
    st.lists(_PIECES, max_size=12).map(" ".join),
    st.lists(_PIECES, max_size=12).map("".join),
)


def _name(module: ModuleType) -> str:
    """The family of a grammar module."""
    return module.__name__.rsplit(".", 1)[1]


@pytest.mark.parametrize("grammar", GRAMMARS, ids=_name)
@settings(max_examples=40, deadline=None)
@given(text=TEXTS)
def test_no_text_raises_and_no_character_vanishes(grammar: ModuleType, text: str) -> None:
    """Marks and unread pieces cover every character that is not white space exactly once."""
    reading = grammar.read(text)

    assert reading.family == _name(grammar)
    assert uncovered(reading) == []
    assert 0 <= grammar.likely(text) <= 1


@pytest.mark.parametrize("grammar", GRAMMARS, ids=_name)
def test_ten_thousand_characters_are_read_like_any_text(grammar: ModuleType) -> None:
    """A long text of good and odd pieces keeps the same promise."""
    text = "T5AL250V 302˚F (150˚C) 2.5.3 RPM ωμ¡æ ٣ 1,000 V " * 210

    assert uncovered(grammar.read(text[:10_000])) == []


@pytest.mark.parametrize("grammar", GRAMMARS, ids=_name)
@pytest.mark.parametrize(
    "noise", ["9", "A", "9.", "(", " 1/", "T5", "max 1A ", "±", "250V/", "1 2 "]
)
def test_the_cost_grows_with_the_length_only(grammar: ModuleType, noise: str) -> None:
    """Ten times the text takes no more than forty times the time, with a floor for small clocks."""
    short, long = (_seconds(grammar, (noise * size)[:size]) for size in (1_000, 10_000))

    assert long < 40 * max(short, 0.004)


def _seconds(grammar: ModuleType, text: str) -> float:
    """The best of three runs, in seconds of this process, whatever else the machine does."""
    took = []
    for _ in range(3):
        start = time.process_time()
        grammar.read(text)
        took.append(time.process_time() - start)
    return min(took)


@pytest.mark.parametrize("name", ["part_markings", "protection_published"])
def test_every_published_reading_survives_being_written_out(name: str) -> None:
    """Canonical text reads back to the same ratings, but for what only damage explains."""
    mine = {_name(grammar): grammar for grammar in GRAMMARS}
    for case in cases(name):
        if case.family not in mine:
            continue
        grammar = mine[case.family]
        first = grammar.read(case.text)
        if first.ratings.get("cf_pair_consistent") is False:
            continue
        again = grammar.read(grammar.canonical(first))
        damage = ("needs_review", "repaired")
        kept = {k: v for k, v in first.ratings.items() if k not in damage}
        assert {k: v for k, v in again.ratings.items() if k not in damage} == kept, case.id
