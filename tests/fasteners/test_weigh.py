"""Counting on a scale."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from inventory.errors import WrongInput
from inventory.fasteners.weigh import count_by_weight, grams


def test_the_example_of_the_task_is_counted() -> None:
    """38 g at 6.2 g for ten: 61.3, and the scale leaves a few open."""
    found = count_by_weight(38.0, 6.2)

    assert found.pieces == 61
    assert found.low <= 60
    assert found.high >= 62
    assert not found.is_sure
    assert found.advice is not None
    assert found.piece == pytest.approx(0.62)


def test_a_small_heap_on_a_fine_scale_is_sure() -> None:
    """Seven heavy screws on a scale of 0.01 g."""
    found = count_by_weight(35.0, 50.0, step=0.01)

    assert (found.low, found.pieces, found.high) == (7, 7, 7)
    assert found.is_sure
    assert found.advice is None


@given(
    st.integers(1, 400),
    st.floats(0.3, 5),
    st.floats(-1, 1),
    st.floats(-1, 1),
    st.integers(10, 50),
)
def test_the_true_number_is_within_the_bounds(
    pieces: int, each: float, heap_error: float, sample_error: float, sample: int
) -> None:
    """However the scale errs within its step, the heap holds a number between low and high."""
    step = 0.1
    heap = pieces * each + heap_error * step
    ten = sample * each + sample_error * step

    found = count_by_weight(heap, ten, sample_pieces=sample, step=step)

    assert found.low <= pieces <= found.high


@given(st.floats(1, 500), st.floats(1, 50))
def test_a_finer_scale_never_widens_the_count(heap: float, ten: float) -> None:
    """A hundredth of a gram leaves no more open than a tenth."""
    fine, rough = (count_by_weight(heap, ten, step=step) for step in (0.01, 0.1))

    assert rough.low <= fine.low <= fine.high <= rough.high


@pytest.mark.parametrize(("typed", "weight"), [("38g", 38.0), ("6,2 g", 6.2), ("0.5 kg", 500.0)])
def test_a_weight_is_read_in_grams(typed: str, weight: float) -> None:
    """With or without a space, comma or point."""
    assert grams(typed) == pytest.approx(weight)


@pytest.mark.parametrize("typed", ["38", "38 V", "-3 g", "heavy"])
def test_what_is_no_weight_is_refused(typed: str) -> None:
    """A unit is needed, and it is grams."""
    with pytest.raises(WrongInput):
        grams(typed)


@pytest.mark.parametrize(
    ("ten", "sample", "sentence"), [(0.1, 10, "no more than the scale"), (6.2, 0, "at least one")]
)
def test_a_sample_that_says_nothing_is_refused(ten: float, sample: int, sentence: str) -> None:
    """Too light for the scale, or empty."""
    with pytest.raises(WrongInput, match=sentence):
        count_by_weight(38.0, ten, sample_pieces=sample)
