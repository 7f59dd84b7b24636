"""A measured screw: candidates, the inseparable, and what would separate them."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from inventory.errors import WrongInput
from inventory.fasteners.catalogue import machine_threads
from inventory.fasteners.identify import (
    Measured,
    gaps_to_split,
    identify,
    major_window,
    pitch_of,
)
from inventory.fasteners.thread import Thread


def _names(major: float, pitch: float | None = None, **more: float) -> list[str]:
    found = identify(Measured(major, pitch, **more))  # type: ignore[arg-type]
    return [candidate.thread.name for candidate in found.candidates]


# Equal-looking diameters that the pitch must separate (windows of ISO 965, B1.1 and ISO 1478).
APART = [
    (3.40, 0.794, "#6-32"),
    (3.40, 0.635, "#6-40"),
    (3.42, 0.600, "M3.5x0.6"),
    (3.44, 1.270, "ST3.5 / #6-20 AB"),
    (4.10, 0.794, "#8-32"),
    (4.12, 0.790, "#8-32"),
    (4.13, 1.410, "ST4.2 / #8-18 AB"),
    (4.70, 1.058, "#10-24"),
    (4.72, 0.794, "#10-32"),
    (4.70, 1.600, "ST4.8 / #10-16 AB"),
    (6.20, 1.270, "1/4-20"),
    (6.20, 0.907, "1/4-28"),
    (6.15, 1.800, "ST6.3 / 1/4-14 AB"),
    (2.95, 0.500, "M3x0.5"),
    (3.90, 0.700, "M4x0.7"),
]


@pytest.mark.parametrize(("major", "pitch", "name"), APART)
def test_the_pitch_separates_equal_diameters(major: float, pitch: float, name: str) -> None:
    """One candidate and no other, with an ordinary caliper and 0.01 mm on the pitch."""
    assert _names(major, pitch, u_pitch=0.015) == [name]


# Pairs whose windows overlap or nearly, pitches within 1 %: gaps needed at 0.03 mm.
PAIRS = [
    (4.815, 0.797, {"M5x0.8", "#10-32"}, 10),
    (2.43, 0.452, {"M2.5x0.45", "#3-56"}, 17),
    (2.13, 0.452, {"M2.2x0.45", "#2-56"}, 17),
    (1.75, 0.351, {"M1.8x0.35", "#1-72"}, 22),
]


@pytest.mark.parametrize(("major", "pitch", "names", "gaps"), PAIRS)
def test_pairs_a_caliper_cannot_split_come_together(
    major: float, pitch: float, names: set[str], gaps: int
) -> None:
    """Both are named, and over how many threads the pitch would split them."""
    found = identify(Measured(major, pitch))

    assert {c.thread.name for c in found.candidates} == names
    assert f"over {gaps} threads" in found.split_by[0]


@pytest.mark.parametrize(
    ("one", "other", "gaps"),
    [
        (0.8, 0.79375, 10),
        (0.7, 25.4 / 36, 11),
        (0.45, 25.4 / 56, 17),
        (0.6, 0.635, 2),
        (0.7, 0.7, None),
    ],
)
def test_the_gaps_to_split_are_the_published_ones(
    one: float, other: float, gaps: int | None
) -> None:
    """At 0.03 mm; equal pitches are never split that way."""
    assert gaps_to_split(one, other) == gaps


def test_one_pitch_in_two_sizes_is_split_at_the_crest() -> None:
    """With a poor caliper #8-32 and #10-32 overlap; their pitch says nothing."""
    found = identify(Measured(4.4, 0.794, u_major=0.3, u_pitch=0.005))

    assert {c.thread.name for c in found.candidates} == {"#8-32", "#10-32"}
    assert "measure the diameter at the crest" in found.split_by[0]


def test_a_lobed_m4_is_not_taken_for_8_36() -> None:
    """4.03 mm lies in #8-36; the lobed M4 is far more common, and lobes are to be felt."""
    found = identify(Measured(4.03, 0.7, u_pitch=0.01))

    assert found.best is not None
    assert found.best.name == "M4x0.7 trilobular (DIN 7500)"
    assert [t.name for t in found.cannot_split] == ["#8-36"]
    assert "lobed" in found.split_by[0]


def test_a_plain_reading_is_not_called_lobed() -> None:
    """Within the window of the ordinary screw the lobed one is not named."""
    assert _names(3.97, 0.7, u_pitch=0.01) == ["M4x0.7"]


def test_without_a_pitch_it_is_asked_for() -> None:
    """Several threads share a diameter; the question comes first."""
    found = identify(Measured(4.1))

    assert found.ask is not None
    assert found.ask.startswith("pitch")
    assert len(found.candidates) > 2
    assert found.split_by == ()


def test_a_diameter_only_one_thread_has_asks_nothing() -> None:
    """9.0 mm fits none; 1.56 mm only M1.6."""
    assert identify(Measured(1.56)).ask is None
    assert identify(Measured(9.0)).candidates == ()


def test_an_old_size_is_named_only_where_no_living_one_fits() -> None:
    """M3x0.6 of before 1965; M2.6x0.45 at 2.55 is the lobed M2.5 first."""
    assert _names(2.95, 0.6, u_pitch=0.01) == ["M3x0.6"]
    assert _names(4.93, 0.9, u_pitch=0.01) == ["M5x0.9"]
    assert "M2.6x0.45" not in _names(2.45, 0.45, u_pitch=0.01)


def test_more_gaps_shrink_the_uncertainty() -> None:
    """0.03 mm for one gap, 0.03/k + 0.01 for k. Source: reference section 4."""
    assert Measured(4.0, 0.7).pitch_uncertainty == 0.03
    assert Measured(4.0, 0.7, gaps=10).pitch_uncertainty == pytest.approx(0.013)
    assert Measured(4.0, 0.7, u_pitch=0.02, gaps=10).pitch_uncertainty == 0.02


def test_the_nearer_of_two_common_screws_comes_first() -> None:
    """Between #10-32 (to 4.803) and M5 (from 4.826)."""
    assert _names(4.808, 0.797)[0] == "#10-32"
    assert _names(4.822, 0.797)[0] == "M5x0.8"


def test_a_certain_caliper_is_allowed() -> None:
    """No uncertainty at all still matches inside the window, and only there."""
    assert _names(3.9, 0.7, u_major=0.0, u_pitch=0.0) == ["M4x0.7"]
    assert _names(3.99, 0.5, u_major=0.0, u_pitch=0.0) == []


@pytest.mark.parametrize(
    "measured", [Measured(0.1), Measured(100.0), Measured(4.0, 0.01), Measured(4.0, 9.0)]
)
def test_readings_that_are_no_screw_are_refused(measured: Measured) -> None:
    """In mm, within the range of screws."""
    with pytest.raises(WrongInput, match="given in mm"):
        identify(measured)


def test_threads_per_inch_become_a_pitch() -> None:
    """32 is 0.79375 mm; 3 is no screw."""
    assert pitch_of(32) == pytest.approx(0.79375)
    with pytest.raises(WrongInput, match="from 4 to 120"):
        pitch_of(3)


living = [t for t in machine_threads() if t.series != "old"]


@given(st.sampled_from(living), st.floats(0, 1))
def test_a_screw_within_its_limits_is_always_among_the_candidates(
    thread: Thread, share: float
) -> None:
    """Wherever in its window a real screw lies, its true pitch finds it."""
    window = major_window(thread)
    reading = window.low + share * (window.high - window.low)

    assert thread.name in _names(reading, thread.pitch)


@given(st.floats(1, 12), st.floats(0.2, 2))
def test_a_better_caliper_never_adds_candidates(major: float, pitch: float) -> None:
    """Smaller uncertainty, fewer or the same threads."""
    rough = set(_names(major, pitch, u_major=0.05, u_pitch=0.05))
    fine = set(_names(major, pitch, u_major=0.01, u_pitch=0.01))

    assert {n for n in fine if "trilobular" not in n and n not in OLD} <= rough


OLD = {t.name for t in machine_threads() if t.series == "old"}
