"""What keeps failing, member by member."""

from __future__ import annotations

import pytest

from inventory.errors import WrongInput
from inventory.stock.intervals import jeffreys, wilson
from inventory.stock.wear import Tally, warnings
from inventory.stock.wear_report import Fitted, curve_of, what_wears


def member(name: str, failed: int, alive: int, *, age: float = 10, kind: str = "relay") -> Fitted:
    """So many failed at half the age, so many alive at the age."""
    return Fitted(name, kind, (age / 2,) * failed, (age,) * alive)


KIND = [member(f"R{i}", 1, 19) for i in range(8)]
"""Eight part types of one kind, one failure in twenty each."""


def test_a_bad_one_is_flagged_and_stands_first() -> None:
    """Twelve of twenty failed where its kind loses one of twenty."""
    report = what_wears([*KIND, member("R9", 12, 8)])

    assert [line.name for line in report.flagged()] == ["R9"]
    assert report.lines[0].name == "R9"
    assert report.warnings()["R9"].startswith("R9: 12 of 20 failed in 140 piece-months, about ")


def test_a_few_failures_are_not_yet_a_flag() -> None:
    """Three of twenty is not enough against one of twenty; the line says so."""
    report = what_wears([*KIND, member("R9", 3, 17)])
    line = next(line for line in report.lines if line.name == "R9")

    assert report.warnings() == {}
    assert line.sentence().endswith("not enough to call it worse than its kind.")


def test_each_kind_has_its_own_pool() -> None:
    """What is usual for lamps is not held against relays."""
    lamps = [member(f"L{i}", 10, 10, kind="lamp") for i in range(8)]
    report = what_wears([*KIND, *lamps])

    assert report.flagged() == ()
    assert report.pools["lamp"].mean > 3 * report.pools["relay"].mean


def test_a_kind_without_failures_is_left_out() -> None:
    """There is nothing to compare; a member without exposure has no line either."""
    report = what_wears([member("F1", 0, 9, kind="fuse"), *KIND, Fitted("new", "relay")])

    assert "fuse" not in report.pools
    assert {line.name for line in report.lines} == {one.name for one in KIND}


def test_small_numbers_by_jeffreys_large_ones_by_wilson() -> None:
    """Up to 40 pieces. Source: Brown, Cai & DasGupta 2001."""
    small, large = (
        what_wears([member("S", 2, 38)]).lines[0],
        what_wears([member("L", 2, 39)]).lines[0],
    )

    assert (small.share_by, small.share) == ("Jeffreys", jeffreys(2, 40))
    assert (large.share_by, large.share) == ("Wilson", wilson(2, 41))


def test_pieces_still_alive_count() -> None:
    """Exposure holds their months; the curve holds them as censored."""
    line = what_wears([member("R", 2, 6)]).lines[0]

    assert line.rate.exposure == 70
    assert line.curve.at_risk == [8]
    assert line.life.mtbf == 35


def test_none_failed_is_said_in_its_own_words() -> None:
    """A member of a kind with failures, itself without."""
    lines = what_wears([*KIND, member("good", 0, 20)]).lines

    assert (
        next(x for x in lines if x.name == "good").sentence() == "good: none of 20 failed so far."
    )


def test_one_curve_over_several_members() -> None:
    """For the chart of a whole kind."""
    assert curve_of(KIND).pieces == 160
    assert curve_of(KIND).failures == 8


def test_an_age_below_zero_is_refused() -> None:
    """Fitted after it failed cannot be."""
    with pytest.raises(WrongInput, match="R has an age below zero"):
        what_wears([Fitted("R", "relay", failed=(-1.0,))])


@pytest.mark.parametrize("failed", [0, 2, 3, 8, 12, 20])
def test_the_warning_of_a_search_is_the_flag_of_the_report(failed: int) -> None:
    """``find`` asks for the sentences alone and must say what ``wear`` says."""
    members = [*KIND, member("R9", failed, 20 - failed), Fitted("new", "relay")]

    counted = [Tally(x.name, x.kind, x.pieces, len(x.failed), x.exposure) for x in members]
    assert warnings(counted) == what_wears(members).warnings()
