"""Spans of service of fitted pieces, told by the events of one lot on one job."""

from __future__ import annotations

from inventory.stock.service import spans

JAN, MAR, MAY, NOW = "2025-01-01", "2025-03-01", "2025-05-01", "2025-06-01"


def test_a_fitted_piece_is_alive_until_somebody_says_otherwise() -> None:
    """Both pieces serve from the day they were fitted until now."""
    assert spans([("fitted", JAN, 2)], NOW) == ([], [(JAN, NOW), (JAN, NOW)])


def test_a_failure_ends_one_piece() -> None:
    """Of two pieces fitted one after the other, the older one failed; the other still serves."""
    events = [("fitted", JAN, 1), ("fitted", MAR, 1), ("failed", MAY, 0)]
    assert spans(events, NOW) == ([(JAN, MAY)], [(MAR, NOW)])


def test_a_piece_that_came_back_ends_its_service_whole() -> None:
    """What is put back is the piece fitted last; it did not fail."""
    events = [("fitted", JAN, 1), ("fitted", MAR, 1), ("put-back", MAY, -1)]
    assert spans(events, NOW) == ([], [(MAR, MAY), (JAN, NOW)])


def test_more_comes_back_than_went_out_counts_for_what_went_out() -> None:
    """A journal that begins in the middle makes no service out of nothing."""
    assert spans([("fitted", JAN, 1), ("put-back", MAR, -3), ("failed", MAY, 0)], NOW) == (
        [],
        [(JAN, MAR)],
    )
