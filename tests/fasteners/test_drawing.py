"""The two profiles drawn over each other."""

from __future__ import annotations

from xml.etree import ElementTree as ET

import pytest
from hypothesis import given
from hypothesis import strategies as st

from inventory.fasteners import drawing
from inventory.fasteners.catalogue import machine_threads
from inventory.fasteners.thread import Thread
from tests.fasteners.published import thread

SVG = "{http://www.w3.org/2000/svg}"


def _drawn(screw: str, hole: str, engaged: float) -> drawing.Section:
    return drawing.section(thread(screw), thread(hole), engaged)


def test_the_drawing_fits_80_columns_and_plain_ascii() -> None:
    """No colour, no box characters, nothing wider than a terminal."""
    text = drawing.as_text(_drawn("#8-32", "M4x0.7", 3.0))

    assert text.isascii()
    assert all(len(line) <= 80 and line.rstrip() == line for line in text.splitlines())


def test_metal_on_metal_is_drawn_where_the_flanks_meet() -> None:
    """#8-32 in M4 clashes at once; M4 in its own hole never."""
    clash, own = _drawn("#8-32", "M4x0.7", 3.0), _drawn("M4x0.7", "M4x0.7", 3.0)

    assert "X" in drawing.as_text(clash).split("---")[0]
    assert "flanks meet at once" in drawing.as_text(clash)
    assert "X" not in drawing.as_text(own).split("---")[0]
    assert "never meet" in drawing.as_text(own)
    assert own.contacts() == ()


def test_the_turns_in_the_legend_are_those_of_the_formula() -> None:
    """M4 in #8-32 runs 1.15 turns (published case), not what one section would show."""
    assert "flanks meet after 1.2 turns" in drawing.as_text(_drawn("M4x0.7", "#8-32", 3.0))


def test_a_pair_that_runs_is_drawn_without_contact() -> None:
    """#10-32 runs 17 turns and more in M5."""
    assert _drawn("#10-32", "M5x0.8", 4.0).contacts() == ()


def test_a_narrow_terminal_gets_a_narrow_drawing() -> None:
    """The body is as wide as asked; the legend may be folded by the screen."""
    body = drawing.as_text(_drawn("M4x0.7", "M4x0.7", 3.0), 36).split("  ---")[0]

    assert max(len(line) for line in body.splitlines()) <= 38


def test_no_more_than_eight_pitches_are_drawn() -> None:
    """The rest only repeats."""
    assert _drawn("M4x0.7", "M4x0.7", 50.0).length == pytest.approx(8 * 0.7)


def test_the_svg_is_one_sound_document() -> None:
    """Two outlines, a title, a white ground, marks where metal meets, and no script."""
    root = ET.fromstring(drawing.as_svg(_drawn("#8-32", "M4x0.7", 3.0)))  # noqa: S314 - our own
    classes = [path.get("class") for path in root.iter(f"{SVG}path")]

    assert classes == ["hole", "screw"]
    assert "#8-32 in M4x0.7" in (root.findtext(f"{SVG}title") or "")
    assert len(list(root.iter(f"{SVG}line"))) >= 2
    assert list(root.iter(f"{SVG}script")) == []


def test_a_pair_without_contact_has_no_marks_in_the_svg() -> None:
    """Nothing touches, nothing is marked."""
    root = ET.fromstring(drawing.as_svg(_drawn("M4x0.7", "M4x0.7", 3.0)))  # noqa: S314 - our own

    assert list(root.iter(f"{SVG}line")) == []


def test_the_outlines_lie_between_root_and_crest() -> None:
    """A screw's surface never leaves its root and major diameter, a hole's never its minor."""
    drawn = _drawn("M4x0.7", "#8-32", 3.0)
    places = [index * 0.01 for index in range(300)]

    assert all(
        drawn.screw.root / 2 <= drawn.screw_radius(z) <= drawn.screw.major / 2 for z in places
    )
    assert all(drawn.hole_radius(z) >= drawn.hole.minor / 2 for z in places)


@given(st.sampled_from(machine_threads()), st.sampled_from(machine_threads()), st.floats(0.2, 20))
def test_any_two_threads_can_be_drawn(screw: Thread, hole: Thread, engaged: float) -> None:
    """No pair breaks the drawing or its frame."""
    text = drawing.as_text(drawing.section(screw, hole, engaged))

    assert len(text.splitlines()) == drawing.HEIGHT + 3
    assert max(map(len, text.splitlines())) <= 80
