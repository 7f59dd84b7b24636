"""Turns in the metal, and other lengths."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from inventory.fasteners.catalogue import metric, unified
from inventory.fasteners.length import Joint, check_length, engaged_length, engaged_turns

M4 = metric(4, 0.7)
EIGHT = unified("#8", 0.164, 32)


def test_one_millimetre_of_sheet_is_less_than_two_turns_of_m4() -> None:
    """1.43 turns. Source: two-thread rule as quoted of NEC 250.8(A)(5) and (6)."""
    found = engaged_turns(M4, 1.0)

    assert found.turns == pytest.approx(1.43, abs=0.01)
    assert not found.enough


def test_a_plunged_hole_gives_enough_turns() -> None:
    """2 to 2.5 mm of extrusion: 2.9 to 3.6 turns of M4 (tooling makers' figures)."""
    assert engaged_turns(M4, 2.0).turns == pytest.approx(2.9, abs=0.05)
    assert engaged_turns(M4, 2.5).enough


@pytest.mark.parametrize(
    ("stack", "candidate", "engaged", "ok"),
    [(1.0, 6.0, 2.0, True), (4.0, 6.0, 1.3, False), (1.0, 8.0, 2.0, True)],
)
def test_a_substitutes_length_is_judged_by_what_engages(
    stack: float,
    candidate: float,
    engaged: float,
    ok: bool,  # noqa: FBT001
) -> None:
    """Engaged = min(extrusion, L - stack - chamfer). Source: the published cases."""
    found = check_length((M4, 8.0), (M4, candidate), Joint(stack, 2.0, 0.7))

    assert found.original == pytest.approx(2.0)
    assert found.candidate == pytest.approx(engaged)
    assert found.ok is ok


def test_too_few_turns_and_too_little_thread_are_both_said() -> None:
    """The reasons as the published case words them."""
    found = check_length((M4, 8.0), (M4, 6.0), Joint(4.0, 2.0, 0.7))

    assert found.reasons == ("1.86 turns < 2", "shorter than the original engagement")


def test_a_longer_screw_needs_somebody_to_look_behind() -> None:
    """More than a pitch longer is refused until the back is known to be clear."""
    joint, clear = Joint(1.0, 2.0), Joint(1.0, 2.0, back_is_clear=True)

    assert check_length((M4, 8.0), (EIGHT, 9.525), joint).reasons == (
        "1.5 mm longer: look behind first",
    )
    assert check_length((M4, 8.0), (EIGHT, 9.525), clear).ok


def test_in_thin_sheet_the_original_had_no_two_turns_either() -> None:
    """The same engagement is not refused for being what it always was."""
    assert check_length((M4, 8.0), (M4, 8.0), Joint(1.0, 1.0)).ok


lengths = st.floats(0, 50, allow_nan=False)


@given(lengths, lengths, lengths, lengths)
def test_engagement_is_never_more_than_the_hole_nor_the_screw(
    length: float, stack: float, height: float, chamfer: float
) -> None:
    """And never below zero."""
    found = engaged_length(length, stack, height, chamfer)

    assert 0 <= found <= height
    assert found <= length


@given(lengths, lengths, lengths)
def test_a_screw_never_replaces_a_longer_one_with_less_thread(
    original: float, candidate: float, stack: float
) -> None:
    """Less engaged than the original always has a reason against it."""
    found = check_length((M4, original), (M4, candidate), Joint(stack, 2.0))

    if found.candidate < found.original - 1e-6:
        assert not found.ok
