"""What holds for every text in the passive, moving, wiring and number grammars."""

from __future__ import annotations

import time
from types import ModuleType

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from inventory.markings import (
    bearing,
    belt,
    capacitor,
    capacitor_safety,
    connector,
    cord,
    coupler,
    diode,
    drive_coupler,
    model_number,
    ntc,
    oem_number,
    plain,
    resistor,
    resistor_fusible,
    roller,
    screw,
    serial_number,
    terminal,
    tray,
    triac,
    wire,
)
from tests.markings.published import cases, uncovered

GRAMMARS = (
    bearing, belt, capacitor, capacitor_safety, connector, cord, coupler, diode, drive_coupler,
    model_number, ntc, oem_number, plain, resistor, resistor_fusible, roller, screw, serial_number,
    terminal, tray, triac, wire,
)  # fmt: skip

_PIECES = st.sampled_from([
    "103", "104K", "2A104K", "0R5", "4n7", "µ47", "470µF", "0.01mF", "25V", "275V~", "X2", "Y1",
    "X1/Y2", "40/100/21", "105°C", "±10%", "+80-20%", "DE1B3KX681KA5B", "R47", "47K3", "5W10RJ",
    "yellow", "violet", "red", "gold", "brown", "white", "C-2F", "FRM-50", "MF52", "103F3435",
    "10D-13", "ND03M00682", "BTA16-600BW", "1N4007L", "HER105", "H05VV-F", "3G1.5", "SJT", "16AWG",
    "3C", "VW-1", "STYLE 1015", "20kV", "C13", "C15A", "NEMA 5-15P", "187", "4.8x0.5", "#250",
    "XHP-3", "B15PS-TBC", "6PK2120", "1270 J5", "9,5x925", "6205-2RS1/C3", "618/8", "M4x8",
    "M4x1/0", "#8-32 x 3/8", "DE59-00002A", "LMXS27626D/00", "2157437135R", "284 mm", "3 lobes",
    "-", "/", "(", "\u2126", "\u212a", "٣", "ß", "１", "\u202f", ",", ".", "%", "x", "K", "R", "M",
])  # fmt: skip
TEXTS = st.one_of(
    st.text(max_size=60),
    st.lists(_PIECES, max_size=10).map(" ".join),
    st.lists(_PIECES, max_size=10).map("".join),
)


def _name(module: ModuleType) -> str:
    """The family of a grammar module."""
    return module.__name__.rsplit(".", 1)[1]


@pytest.mark.parametrize("grammar", GRAMMARS, ids=_name)
@settings(max_examples=15, deadline=None)
@given(text=TEXTS)
def test_no_text_raises_and_no_character_vanishes(grammar: ModuleType, text: str) -> None:
    """Marks and unread pieces cover every character that is not white space exactly once."""
    assert uncovered(grammar.read(text)) == []
    assert 0 <= grammar.likely(text) <= 1


@pytest.mark.parametrize("grammar", GRAMMARS, ids=_name)
@settings(max_examples=20, deadline=None)
@given(text=TEXTS)
def test_what_is_written_out_reads_back_the_same(grammar: ModuleType, text: str) -> None:
    """The plain form gives the same ratings and is its own plain form."""
    reading = grammar.read(text)
    written = grammar.canonical(reading)
    again = grammar.read(written)

    assert again.ratings == reading.ratings
    assert grammar.canonical(again) == written


@pytest.mark.parametrize("grammar", GRAMMARS, ids=_name)
@given(text=st.text(alphabet="٠١٢٣४५六ⅣⅫ²³", max_size=12))
@settings(max_examples=8, deadline=None)
def test_figures_of_other_scripts_are_never_ratings(grammar: ModuleType, text: str) -> None:
    """Only ASCII figures count; the rest is unread."""
    assert dict(grammar.read(text).ratings) == {}


@pytest.mark.parametrize("grammar", GRAMMARS, ids=_name)
@pytest.mark.parametrize("noise", ["1.1.1,", "0mF ", "brown ", "M4x"])
def test_the_cost_grows_with_the_length_and_no_faster(grammar: ModuleType, noise: str) -> None:
    """Ten times the text costs well under a hundred times the time: 1 kB against 10 kB."""
    short, long = (_seconds(grammar, (noise * size)[:size]) for size in (1_000, 10_000))

    assert long < 60 * max(short, 0.002)


def _seconds(grammar: ModuleType, text: str) -> float:
    """Processor time of one reading, the better of two."""
    spent = []
    for _ in range(2):
        start = time.process_time()
        grammar.read(text)
        spent.append(time.process_time() - start)
    return min(spent)


@pytest.mark.slow
@pytest.mark.parametrize("grammar", GRAMMARS, ids=_name)
def test_a_hundred_kilobytes_are_read_in_seconds(grammar: ModuleType) -> None:
    """100 kB of mixed marks take less than ten seconds of processor time."""
    text = " ".join(case.text for case in cases("passive_published"))

    assert _seconds(grammar, (text * 40)[:100_000]) < 10


def test_noise_does_not_pile_up_warnings() -> None:
    """However much is doubtful, a person gets a list that can be read."""
    reading = capacitor.read(" ".join(f"{figure}mF" for figure in range(500)))

    assert len(reading.warnings) <= 41
    assert len(reading.candidates) <= 40
    assert "more to doubt" in reading.warnings[-1]
