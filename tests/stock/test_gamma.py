"""The tail of a gamma distribution against closed forms and against a numerical library."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.special import gammaincc

from inventory.errors import WrongInput
from inventory.stock.gamma import chance_above


@pytest.mark.parametrize("x", [0.0, 0.3, 1.0, 2.0, 9.0, 40.0])
def test_shape_one_is_the_exponential_distribution(x: float) -> None:
    """Q(1, x) = exp(-x). Source: DLMF 8.4.5."""
    assert chance_above(1, x) == pytest.approx(math.exp(-x), rel=1e-12)


@pytest.mark.parametrize("x", [0.01, 0.5, 1.0, 4.0, 16.0])
def test_shape_one_half_is_the_error_function(x: float) -> None:
    """Q(1/2, x) = erfc(sqrt x). Source: DLMF 8.4.6."""
    assert chance_above(0.5, x) == pytest.approx(math.erfc(math.sqrt(x)), rel=1e-12)


@given(
    st.floats(min_value=0.01, max_value=1e5),
    st.floats(min_value=0.01, max_value=10),
)
def test_every_shape_agrees_with_the_library(a: float, times: float) -> None:
    """On both sides of the switch between series and fraction."""
    assert chance_above(a, a * times) == pytest.approx(float(gammaincc(a, a * times)), abs=1e-9)


def test_a_shape_of_nothing_is_refused() -> None:
    """A gamma distribution needs a shape above zero."""
    with pytest.raises(WrongInput):
        chance_above(0, 1)
