"""Terminals in words: kind, width and thickness. Source: UL 310 and IEC 61210, nominal sizes."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from inventory.families.sheet import sheet
from inventory.markings.reader import read
from inventory.records import Outcome
from inventory.rules.tabs import as_written, tab_of, terminal_kind
from inventory.rules.terms import in_terms
from tests.rules.bench import answers, judged

TABS = [
    ("qc-2.8", 2.8, None), ("qc-4.8", 4.8, None), ("qc-6.3", 6.3, None), ("#187", 4.8, None),
    ("#250 tabs", 6.3, None), (".110 x .032", 2.8, 0.8), ("0.187 x 0.020 in tabs", 4.8, 0.5),
    ("6,3 x 0,8 mm", 6.3, 0.8), ("tabs 4.8x0.5", 4.8, 0.5), ("quick-connect 250", 6.3, None),
    ("Faston 6.3", 6.3, None), ("4.8 mm spade", 4.8, None), ("6.3 mm tabs, COM 6.3", 6.3, None),
]  # fmt: skip


@pytest.mark.parametrize(("text", "width", "thick"), TABS)
def test_words_name_a_tab(text: str, width: float, thick: float | None) -> None:
    """The width in millimetres, the thickness where it is said."""
    assert tab_of(text) == {"tab_mm": width} | ({"tab_thick": thick} if thick else {})
    assert terminal_kind(text) == "tabs"


NO_TABS = ["solder", "pcb pins, 2.8 mm pitch", "screw and clamp", "leads 250 mm", "250", "plug-in",
           "6.3 mm and 4.8 mm tabs", "weld", ""]  # fmt: skip


@pytest.mark.parametrize("text", NO_TABS)
def test_other_words_name_none(text: str) -> None:
    """Pins, leads and two widths at once give no tab width."""
    assert tab_of(text) == {}


KINDS = [("solder", "solder"), ("PC board", "pcb"), ("moulded lead wires", "leads"),
         ("welding terminals", "weld"), ("plug-in", "plug-in"), ("screw", "screw"),
         ("qc-4.8", "tabs"), ("odd", "odd")]  # fmt: skip


@pytest.mark.parametrize(("text", "kind"), KINDS)
def test_terminals_have_a_kind(text: str, kind: str) -> None:
    """The kind alone is compared; sizes have names of their own."""
    assert terminal_kind(text) == kind


CODES = [("SS-10-3T", 2.8, None), ("V-16-1C5", 6.3, 0.8), ("V-16-1C25", 4.8, None)]
"""Type codes whose legends name the terminals. Sources: Omron SS and V data sheets; a 6.3 mm tab
is 0.8 mm thick (UL 310)."""


@pytest.mark.parametrize(("code", "width", "thick"), CODES)
def test_a_type_code_names_its_tabs(code: str, width: float, thick: float | None) -> None:
    """What the legend says comes out as a width to compare; what it does not say stays unknown."""
    terms = in_terms(sheet("switch"), read(code, "switch").ratings)

    assert (terms["tab_mm"], terms.get("tab_thick")) == (width, thick)


def test_a_parts_files_words_meet_a_codes() -> None:
    """``qc-6.3`` of a code and ``6.3 mm tabs`` of a file are one thing; 4.8 mm is another."""
    need = {"resistive_a": 10, "volts_ac": [250], "contact_form": "SPDT", "terminal": "qc-6.3"}
    good = judged("switch", need, {**need, "terminal": None, "terminals": "6.3 x 0.8 mm tabs"})
    bad = judged("switch", need, {**need, "terminal": None, "terminals": "4.8 mm tabs"})

    assert answers(good, "tab_mm") == answers(good, "terminals") == [Outcome.MET]
    assert answers(bad, "tab_mm") == [Outcome.REFUSED]


@given(st.text(max_size=60))
def test_any_text_has_a_kind_and_no_invented_tab(text: str) -> None:
    """No text breaks it, and a width is one of the nominal ones."""
    assert isinstance(terminal_kind(text), str)
    assert tab_of(text).get("tab_mm", 2.8) in {2.8, 4.8, 5.2, 6.3, 9.5}


def test_tidied_figures_are_written_as_a_size_again() -> None:
    """A file's ``6,3 x 0,8`` comes as two figures."""
    assert tab_of(as_written([6.3, 0.8])) == {"tab_mm": 6.3, "tab_thick": 0.8}
    assert tab_of(as_written(4.8)) == {"tab_mm": 4.8}
