"""What a mark means is said in plain words that carry the figure, for someone with the part."""

from __future__ import annotations

import pytest

from inventory.markings.amounts import thousands
from inventory.markings.reader import read

SAID = [
    # family, text, the piece of it, words its meaning must carry
    ("switch", "16(4)A 250V~ 5E4 T85", "5E4", "50 000 operating cycles"),
    ("switch", "16(4)A 250V~ 5E4 T85", "T85", "0 to 85 °C"),
    ("switch", "16(4)A 250V~ 5E4 T85", "16(4)A", "4 A motor"),
    ("switch", "8/128A 250V AC T85/55", "8/128A", "128 A peak surge"),
    ("switch", "25T125", "25T125", "-25 to 125 °C"),
    ("switch", "10GPA 125/250VAC", "10GPA", "10 A general purpose"),
    ("switch", "10GPA 125/250VAC", "125/250VAC", "125 and 250 V"),
    ("switch", "1/2HP 250VAC", "1/2HP", "a motor of 1/2 hp"),
    ("switch", "TV-5 120VAC", "TV-5", "5 A of tungsten lamps"),
    ("switch", "B300", "B300", "up to 300 V"),
    ("switch", "GWT 850", "GWT 850", "glow-wire test at 850 °C"),
    ("switch", "PTI 250", "PTI 250", "index 250 V"),
    ("fuse", "T5AL250V", "T", "time-lag"),
    ("fuse", "T5AL250V", "5A", "5 A"),
    ("fuse", "T5AL250V", "250V", "250 V"),
    ("thermal_link", "TF 102°C 10A 250V", "10A", "10 A"),
    ("hv_capacitor", "0.95uF 2100VAC", "2100VAC", "2100 V"),
    ("capacitor", "104K", "104", "100 nF"),
    ("resistor", "4R7", "4R7", "4.7 Ω"),
    ("bearing", "608ZZ", "608", "bore 8 mm"),
    ("mov", "14D471K", "471", "470 V"),
    ("relay", "SRD-05VDC-SL-C", "SRD-05VDC", "coil 5 V d.c."),
]  # fmt: skip


@pytest.mark.parametrize(("family", "text", "piece", "words"), SAID)
def test_the_mark_says_its_value_in_words(family: str, text: str, piece: str, words: str) -> None:
    """Not only which kind of mark it is, but what this one says."""
    said = {mark.text: mark.means for mark in read(text, family).marks}

    assert piece in said, said
    assert words in said[piece]


@pytest.mark.parametrize(
    ("figure", "said"), [(50000, "50 000"), (6000, "6 000"), (1000000, "1 000 000"), (100, "100")]
)
def test_a_long_figure_is_grouped(figure: int, said: str) -> None:
    """Groups of three with a space between, as the SI brochure writes them."""
    assert thousands(figure) == said


def test_a_default_of_the_standard_is_not_among_the_marks() -> None:
    """Nothing printed for life or temperature: nothing said of them in a mark."""
    said = " ".join(mark.means for mark in read("16(4)A 250V~", "switch").marks)

    assert "cycles" not in said
    assert "ambient" not in said
