"""What a stock report starts from."""

from __future__ import annotations

import pytest

from inventory.errors import WrongInput
from inventory.stock.asked import Donor, LowSettings, Month, month_number, pool_parts
from tests.stock.parts import NOW, part


def test_months_are_numbered_through_the_years() -> None:
    """January follows December."""
    assert month_number("2025-01-01") == month_number("2024-12-31") + 1


@pytest.mark.parametrize("date", ["", "2025-13-01", "2025-00", "yesterday", "٢٠٢٥-01-01x"])
def test_what_is_no_date_is_refused(date: str) -> None:
    """One sentence that shows the form."""
    with pytest.raises(WrongInput, match="Write it like 2025-03-14"):
        month_number(date)


def test_untested_and_held_pieces_are_no_stock() -> None:
    """Position = good - held + on order. Source: reference section 1."""
    one = part(good=5, held=2, on_order=1, untested=9)

    assert (one.free, one.position) == (3, 4)


def test_a_pool_adds_up() -> None:
    """Stock, demand by month, yields and donors of all its members."""
    a = part(1, jobs=2, good=1, price_cents=500, untested=1, good_seen=3, pulled_seen=4)
    b = part(2, jobs=3, good=4, held=1, price_cents=300, donors=(Donor("U-1"),), months=30)
    pool = pool_parts([a, b], "16 A relays")

    assert (pool.good, pool.held, pool.untested, pool.jobs, pool.price_cents) == (5, 1, 1, 5, 300)
    assert pool.history[-1] == Month(NOW - 1, 2, 2)
    assert pool.first_month == NOW - 30
    assert pool.members == (1, 2)
    assert pool.donors == (Donor("U-1"),)


def test_a_pool_salvages_only_what_may_be_salvaged() -> None:
    """Untested pieces and donors of a new-only member bring nothing."""
    new_only = part(1, policy="new-only", untested=5, donors=(Donor("U-1"),))
    pool = pool_parts([new_only, part(2, untested=1)], "both")

    assert (pool.untested, pool.donors, pool.policy) == (1, (), "salvage-if-tested")
    assert pool_parts([new_only], "alone").policy == "new-only"


def test_what_is_not_known_stays_unknown_in_a_pool() -> None:
    """No price and no lead time of its own is None, not zero."""
    pool = pool_parts([part(1), part(2)], "both")

    assert (pool.price_cents, pool.lead_time, pool.service) == (None, None, None)


def test_a_pool_of_nothing_is_refused() -> None:
    """There is nothing to count."""
    with pytest.raises(WrongInput, match="needs a part type"):
        pool_parts([], "empty")


def test_settings_that_cannot_be_are_refused() -> None:
    """A review every zero months, a service of 100 %."""
    with pytest.raises(WrongInput, match="review must be above zero"):
        LowSettings(as_of_month=NOW, review=0)
    with pytest.raises(WrongInput, match="service must lie between"):
        LowSettings(as_of_month=NOW, service=1.0)
