"""The checklist of a source unit."""

from __future__ import annotations

import random
from typing import Any

import pytest

from inventory.errors import WrongInput
from inventory.stock.demand import GammaPoisson
from inventory.stock.worth_report import Carried, WorthLine, WorthSettings, what_is_worth

RATE = GammaPoisson(6.5, 10)
SHOP = WorthSettings(wage_cents=3600)


def carried(name: str = "relay", **more: Any) -> Carried:
    """The reference's example part: price 32.00, scrap .50, shelf .25 a month, 15 minutes."""
    values: dict[str, Any] = {
        "name": name,
        "family": name,
        "rate": RATE,
        "price_cents": 3200,
        "scrap_cents": 50,
        "shelf_cents": 25,
        "good_seen": 11,
        "pulled_seen": 14,
        "minutes_to_pull": 10,
        "minutes_to_test": 5,
    }
    return Carried(**{**values, **more})


def only(**more: Any) -> WorthLine:
    """The line of one part type."""
    report = what_is_worth([carried(**more)], SHOP)
    return (*report.pulls, *report.skipped)[0]


def test_the_reference_example_in_cents() -> None:
    """Two there already: q MV(2) = .75 x 28.512 = 21.38 against 9.00 of bench time."""
    found = only(free=2)

    assert found.value == pytest.approx(75 * 28.512, abs=0.05)
    assert found.gain == pytest.approx(75 * 28.512 - 900, abs=0.05)
    assert (found.take, found.share_good) == (1, 0.75)


def test_pulling_stops_at_eight() -> None:
    """Of five in the unit with six on the shelf two are pulled. Source: reference section 3."""
    found = only(free=6, pieces=5)

    assert (found.take, found.leave) == (2, 3)
    assert "enough lie there" in found.why


def test_with_enough_there_nothing_is_pulled() -> None:
    """The reason names what it is worth and what it takes."""
    found = only(free=8)

    assert (found.take, found.per_minute) == (0, 0.0)
    assert found.why == "Worth 7.37, takes 9.00 of bench time."


def test_untested_pieces_pulled_before_lower_the_value() -> None:
    """Four untested relays in the box are about three good ones."""
    assert only(free=2, untested=4).value == pytest.approx(only(free=5).value, rel=0.05)


@pytest.mark.parametrize("policy", ["new-only", "never"])
def test_what_the_sheet_forbids_is_skipped_whatever_it_is_worth(policy: str) -> None:
    """A thermal link is new only. Source: design section 5."""
    found = only(policy=policy, price_cents=99999)

    assert (found.take, found.value) == (0, None)
    assert policy in found.why


def test_a_unit_with_a_bad_history_gives_scrap() -> None:
    """A switch from a unit whose monitor blew the fuse is scrap. Source: design section 5."""
    found = only(scrap_because="the monitor switch has blown the line fuse of this unit")

    assert found.take == 0
    assert found.why.startswith("Scrap: the monitor switch")


def test_without_a_price_the_worth_is_not_known() -> None:
    """Not zero: not known."""
    found = only(price_cents=None)

    assert (found.take, found.value) == (0, None)
    assert "No price known" in found.why


def test_a_part_near_its_end_is_worth_less() -> None:
    """Two months of life left; none left is scrap value only."""
    assert (only(remaining_months=2).value or 0) < (only().value or 0)
    assert only(remaining_months=0).value == pytest.approx(0.75 * 50)


def test_the_best_value_per_minute_comes_first() -> None:
    """A quick pull goes before a slow one of the same worth, whatever the order given."""
    quick, slow = carried("quick", minutes_to_pull=2), carried("slow", minutes_to_pull=25)

    for parts in ([quick, slow], [slow, quick]):
        assert [x.name for x in what_is_worth(parts, SHOP).pulls] == ["quick", "slow"]


def test_hazards_stand_at_the_head_once() -> None:
    """Discharging comes before any pull, also for parts that are skipped."""
    first = "Discharge the high-voltage capacitor."
    parts = [
        carried("lamp", price_cents=1, scrap_cents=0),
        carried("capacitor", hazards=(first,)),
        carried("diode", hazards=(first,)),
    ]

    assert what_is_worth(parts, SHOP).hazards == (first,)


def test_totals_are_sums_of_the_lines() -> None:
    """Minutes and gain of what is pulled only."""
    parts = [carried("a", pieces=2), carried("b"), carried("c", free=50)]
    random.Random(2).shuffle(parts)
    report = what_is_worth(parts, SHOP)

    assert report.minutes == pytest.approx(3 * 15)
    assert report.gain == pytest.approx(sum(x.gain for x in report.pulls))
    assert [x.name for x in report.skipped] == ["c"]


def test_families_without_times_take_the_shops() -> None:
    """The sheet may not know how long a pull takes."""
    assert only(minutes_to_pull=None, minutes_to_test=None).minutes == 15.0


def test_settings_that_cannot_be_are_refused() -> None:
    """No horizon, a negative wage."""
    with pytest.raises(WrongInput, match="horizon must be above zero"):
        WorthSettings(horizon=0)
    with pytest.raises(WrongInput, match="wage must not be below zero"):
        WorthSettings(wage_cents=-1)
