"""Classes of demand by spacing and unevenness."""

from __future__ import annotations

import pytest

from inventory.stock.pattern import Pattern, demand_class, demand_label


def test_empty_months_before_the_first_demand_are_dropped() -> None:
    """... and those after the last are kept: (8 - 2)/3. Source: reference section 2."""
    assert demand_class([0, 0, 1, 0, 1, 1, 0, 0]).adi == pytest.approx(2.0)


def test_the_sample_variance_is_used() -> None:
    """Sizes 1 and 3: variance 2 (n - 1), mean 2, CV² 0.5."""
    assert demand_class([1, 3]).cv2 == pytest.approx(0.5)


# Corners of the four fields. Source: Syntetos, Boylan & Croston 2005, cuts 1.32 and .49.
@pytest.mark.parametrize(
    ("adi", "cv2", "label"),
    [
        (1.31, 0.48, "smooth"),
        (1.33, 0.48, "intermittent"),
        (1.31, 0.50, "erratic"),
        (1.33, 0.50, "lumpy"),
    ],
)
def test_the_cuts(adi: float, cv2: float, label: str) -> None:
    """1.32 months and CV² .49 part four classes."""
    assert demand_label(adi, cv2) == label


def test_a_history_has_its_class() -> None:
    """Two big sizes far apart are lumpy."""
    assert demand_class([1, 0, 0, 9, 0, 0, 1]).label == "lumpy"


def test_too_little_history_is_not_put_in_a_class() -> None:
    """No demand, or one only: not known is not smooth."""
    assert demand_class([0, 0]) == Pattern(None, None, None)
    assert demand_class([0, 2, 0]) == Pattern(2.0, None, None)
