"""The detailed verdict: 27 worked pairs, and the order of the tests behind it."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from inventory.fasteners.catalogue import machine_threads
from inventory.fasteners.fit import Detail, fit
from inventory.fasteners.thread import Thread
from tests.fasteners.published import table, thread

ROWS = table("screw_in_hole.csv")


@pytest.mark.parametrize(
    "row", ROWS, ids=[f"{r['screw']}-{r['hole']}-{r['engaged']}" for r in ROWS]
)
def test_the_verdict_is_that_worked_out_apart(row: dict[str, str]) -> None:
    """In a ductile hole, over the length the example engages."""
    found = fit(thread(row["screw"]), thread(row["hole"]), float(row["engaged"]), ductile=True)

    assert found.detail == row["verdict"]


@pytest.mark.parametrize("row", [r for r in ROWS if r["shear"]])
def test_the_strength_ratios_are_those_worked_out_apart(row: dict[str, str]) -> None:
    """Shear and tensile strength against the right screw, to 0.01 as printed there."""
    found = fit(thread(row["screw"]), thread(row["hole"]), float(row["engaged"]), ductile=True)

    assert found.numbers.strip_ratio == pytest.approx(float(row["shear"]), abs=0.0051)
    assert found.numbers.tensile == pytest.approx(float(row["tensile"]), abs=0.0076)


@pytest.mark.parametrize(
    ("screw", "hole", "grade"),
    [("#10-32", "M5x0.8", "reduced"), ("#2-56", "M2.2x0.45", "full"), ("M4x0.7", "#8-32", None)],
)
def test_only_a_screw_that_runs_free_is_graded(screw: str, hole: str, grade: str | None) -> None:
    """Full from 0.85, reduced from 0.60 of the right screw's bite. Source: the worked pairs."""
    assert fit(thread(screw), thread(hole), 2.0, ductile=False).grade == grade


def test_a_poor_hold_is_called_poor() -> None:
    """A screw that runs free on little bite is not called reduced."""
    found = fit(thread("#4-40"), thread("M3x0.5"), 0.3, ductile=False)

    assert found.detail is Detail.RUNS_FREE
    assert found.grade == "poor"


def test_a_hard_nut_is_never_forced() -> None:
    """M5 in #10-32 over 4 mm: forces in sheet, binds in a nut, on the same numbers."""
    pair = thread("M5x0.8"), thread("#10-32")

    assert fit(*pair, 4.0, ductile=True).detail is Detail.FORCES
    assert fit(*pair, 4.0, ductile=False).detail is Detail.BINDS_AFTER


@given(st.sampled_from(machine_threads()), st.sampled_from(machine_threads()), st.floats(0.3, 12))
def test_a_hard_hole_never_yields_more_than_a_ductile_one(
    screw: Thread, hole: Thread, engaged: float
) -> None:
    """Only ``forces`` tells the two apart, and only the ductile hole gives it."""
    hard = fit(screw, hole, engaged, ductile=False).detail
    ductile = fit(screw, hole, engaged, ductile=True).detail

    assert hard is not Detail.FORCES
    assert ductile is hard or ductile is Detail.FORCES


@given(st.sampled_from(machine_threads()), st.floats(0.3, 12))
def test_a_thread_is_exact_in_its_own_hole(one: Thread, engaged: float) -> None:
    """Whatever the length: same diameter, pitch and family."""
    found = fit(one, one, engaged, ductile=False)

    assert found.detail is Detail.EXACT
    assert found.numbers.strip_ratio == pytest.approx(1.0)
    assert found.numbers.tensile == pytest.approx(1.0)


def test_few_turns_share_the_load_of_a_wrong_pitch() -> None:
    """#10-32 in M5 some 4 turns, M4 in #8-32 1.2 turns (engineering judgement, ours)."""
    near = fit(thread("#10-32"), thread("M5x0.8"), 8.0, ductile=False)
    far = fit(thread("M4x0.7"), thread("#8-32"), 8.0, ductile=False)
    same = fit(thread("#6-32"), thread("#8-32"), 8.0, ductile=False)

    assert near.load_turns == pytest.approx(4.2, abs=0.05)
    assert far.load_turns == pytest.approx(1.2, abs=0.05)
    assert same.load_turns == pytest.approx(8.0 / 0.79375)


def test_a_crest_that_touches_the_root_is_only_usually_free() -> None:
    """A screw larger than the hole's size is not promised to run with any parts."""
    found = fit(thread("#8-36"), thread("M4x0.75"), 0.1, ductile=False)

    assert found.numbers.crest_touches
    assert found.detail is not Detail.RUNS_FREE
