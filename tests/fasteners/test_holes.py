"""Kinds of hole, and the holes tables ask for."""

from __future__ import annotations

import pytest

from inventory.errors import WrongInput
from inventory.fasteners import holes
from inventory.fasteners.catalogue import metric, plastics_threads
from inventory.fasteners.designation import read_screw
from inventory.fasteners.holes import HoleKind, Place
from inventory.fasteners.thread import INCH, Thread


def _thread(name: str) -> Thread:
    return read_screw(name).need_thread()


@pytest.mark.parametrize(
    ("words", "kind"),
    [
        ("hard tapped nut", HoleKind.NUT),
        ("cage-nut", HoleKind.NUT),
        ("plain sheet with formed lip", HoleKind.SHEET),
        ("extruded and tapped sheet", HoleKind.EXTRUDED),
        ("plunged", HoleKind.EXTRUDED),
        ("thread formed by a tapping screw", HoleKind.FORMED),
        ("plastic boss", HoleKind.BOSS),
        ("unknown", HoleKind.UNKNOWN),
        ("", HoleKind.UNKNOWN),
        *((kind.value, kind) for kind in HoleKind),
    ],
)
def test_a_hole_is_known_by_its_words(words: str, kind: HoleKind) -> None:
    """The kinds of the task in full words, in short, and by their value."""
    assert holes.hole_kind(words) is kind


def test_a_word_that_is_no_hole_is_refused() -> None:
    """The sentence lists the kinds."""
    with pytest.raises(WrongInput, match="use one of nut, sheet, extruded"):
        holes.hole_kind("chocolate")


@pytest.mark.parametrize(
    ("place", "length", "assumed"),
    [
        (Place(HoleKind.SHEET), 1.0, "sheet not measured"),
        (Place(HoleKind.SHEET, sheet=0.8), 0.8, None),
        (Place(HoleKind.EXTRUDED), 2.0, "sheet not measured"),
        (Place(HoleKind.NUT), 3.2, "engaged length not given"),
        (Place(HoleKind.BOSS), 8.0, "engaged length not given"),
        (Place(HoleKind.NUT, engaged=5.0), 5.0, None),
    ],
)
def test_an_assumed_length_is_called_assumed(
    place: Place, length: float, assumed: str | None
) -> None:
    """A measured length is silent, an assumed one is a sentence."""
    found, said = place.length(metric(4, 0.7))

    assert found == pytest.approx(length)
    assert (said or "").startswith(assumed or "")
    assert (said is None) is (assumed is None)


def test_an_unknown_hole_is_not_ductile() -> None:
    """Nothing is forced where nobody looked."""
    assert not Place(HoleKind.UNKNOWN).ductile
    assert not Place(HoleKind.NUT).ductile
    assert Place(HoleKind.SHEET).ductile


# Drilled pilot holes in steel from a public ISO 1478 hole table, and DIN 7500-2.
PILOTS = [
    ("ST4.2", 1.0, 3.2),
    ("ST4.2", 1.2, 3.3),
    ("ST4.2", 2.0, 3.5),
    ("ST4.8", 1.0, 3.7),
    ("ST2.9", 0.7, 2.3),
    ("M4 DIN 7500", 1.5, 3.6),
    ("M4 DIN 7500", 4.0, 3.65),
]


@pytest.mark.parametrize(("name", "sheet", "hole"), PILOTS)
def test_pilot_holes_are_the_printed_ones(name: str, sheet: float, hole: float) -> None:
    """By size and thickness of steel."""
    found = holes.pilot(_thread(name), sheet)

    assert found is not None
    assert found.hole == hole


def test_a_size_the_steel_table_lacks_takes_the_ab_drill() -> None:
    """ST5.5 is #12-14 AB: drill .182 in in light metal. Source: ASME AB hole sizes."""
    found = holes.pilot(_thread("ST5.5"), 1.0)

    assert found is not None
    assert found.hole == pytest.approx(0.182 * INCH, abs=0.005)
    assert found.says(1.0) == "needs 4.62 mm"


@pytest.mark.parametrize("name", ["M4", "K40", "DIN 7500 M8"])
def test_a_thread_without_a_listed_pilot_hole_has_none(name: str) -> None:
    """None, not a guess."""
    assert holes.pilot(_thread(name), 1.0) is None


def test_an_odd_tapping_or_forming_size_has_no_pilot_hole() -> None:
    """A size neither table lists stays without."""
    from dataclasses import replace

    assert holes.pilot(replace(_thread("ST4.2"), major=4.4), 1.0) is None
    assert holes.pilot(replace(_thread("DIN 7500 M4"), major=4.4), 1.0) is None


@pytest.mark.parametrize(
    ("hole", "right"), [(3.05, False), (3.1, True), (3.2, True), (3.5, True), (3.6, False)]
)
def test_a_pilot_hole_is_right_up_to_the_punched_size(hole: float, right: bool) -> None:  # noqa: FBT001
    """ST4.2 in 1 mm: 3.2 drilled, 3.5 punched."""
    found = holes.pilot(_thread("ST4.2"), 1.0)

    assert found is not None
    assert found.takes(hole, 1.0) is right


@pytest.mark.parametrize(
    ("name", "mm"), [("M4", 3.3), ("M8", 6.8), ("#8-32", 3.4544), ("M8x1", 7.0)]
)
def test_tap_drills_are_the_printed_ones(name: str, mm: float) -> None:
    """Metric as printed, #29 for #8-32 (FED-STD-H28/2B II.A.1), d - P where none is printed."""
    assert holes.tap_drill(_thread(name)) == pytest.approx(mm)


def test_an_inch_size_without_a_listed_drill_has_none() -> None:
    """No formula is published for it here."""
    assert holes.tap_drill(_thread("5/16-20")) is None


# ISO 273:1979 fine, medium, coarse [mm] as printed publicly.
CLEARANCE = {"M3": (3.2, 3.4, 3.6), "M4": (4.3, 4.5, 4.8), "M12": (13.0, 13.5, 14.5)}


@pytest.mark.parametrize(("name", "printed"), CLEARANCE.items())
def test_clearance_holes_are_the_printed_ones(name: str, printed: tuple[float, ...]) -> None:
    """Fine, medium, coarse."""
    found = holes.clearance(_thread(name))

    assert found is not None
    assert tuple(found.values()) == printed


def test_a_10_does_not_pass_an_m4_hole() -> None:
    """#10 is 4.80 mm over the thread, ISO 273 medium for M4 is 4.5 mm; #8 passes."""
    assert not holes.passes(_thread("#10-32"), 4.5)
    assert holes.passes(_thread("#8-32"), 4.5)


@pytest.mark.parametrize(
    ("name", "widest"), [("ST4.2", 4.22), ("M4 DIN 7500", 4.07), ("K40", 4.1), ("M4", 3.978)]
)
def test_the_widest_part_of_a_thread_is_its_upper_limit(name: str, widest: float) -> None:
    """Over the crest or the lobes."""
    assert holes.widest(_thread(name)) == pytest.approx(widest)


def test_the_core_of_m4_is_3_12_mm_at_most() -> None:
    """d3 = d2 max - 0.57735 P = 3.119. Source: ISO 68-1 with the 6g table."""
    assert holes.core_window(_thread("M4")).high == pytest.approx(3.119, abs=0.001)
    assert holes.core_window(plastics_threads()[2]).high == 2.17
