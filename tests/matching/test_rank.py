"""One key orders stand-ins, whatever order they come in."""

from __future__ import annotations

from dataclasses import replace
from random import Random

import pytest
from hypothesis import given
from hypothesis import strategies as st

from inventory.matching.rank import Offer, Road, StandIn, in_order, key, steps
from inventory.records import Lot, Outcome, Part, Reason, Verdict
from inventory.rules.verdict import Judgement

TEST_FIRST = Reason("test-first", Outcome.ASK, "Lot 1 is untested: test first.", "rule")


def _offer(
    number: int = 1, *, good: bool = True, bin_code: str = "A1", at: str = "2026-01"
) -> Offer:
    """A lot, tested good or to be tested first."""
    lot = Lot(number, 1, 1, 0, "good" if good else "untested", bin_code, "salvaged", logged_at=at)
    return Offer(lot, None if good else TEST_FIRST, good)


def _stand_in(
    number: int = 1, verdict: Verdict = Verdict.FITS, *, close: float = 0.9, like: float = 0.0
) -> StandIn:
    """A stand-in with one good lot."""
    judged = Judgement(verdict, (), close)
    return StandIn(Part("switch", id=number), judged, (_offer(number),), like)


def _order(*found: StandIn, near_bin: str | None = None) -> list[int | None]:
    """Numbers of the offered part types, best first."""
    return [one.part.id for one in in_order(found, near_bin=near_bin).stand_ins]


def test_the_verdict_comes_first() -> None:
    """The closest fit with an open question stands below the loosest without one."""
    asks = _stand_in(1, Verdict.ASK, close=1.0, like=1.0)

    assert _order(asks, _stand_in(2, close=0.1), _stand_in(3, Verdict.SAME, close=0.0)) == [3, 2, 1]


def test_untested_pieces_stand_below_every_tested_one() -> None:
    """Design rule: offered only under "test first", below every tested one."""
    untested = replace(_stand_in(1, Verdict.SAME, close=1.0), lots=(_offer(1, good=False),))

    assert _order(untested, _stand_in(2, Verdict.ASK, close=0.0), _stand_in(3)) == [3, 2, 1]
    assert untested.verdict is Verdict.SAME
    assert untested.offered_as is Verdict.ASK


def test_a_new_piece_stands_between_tested_and_untested() -> None:
    """It was good when it was made."""
    new = replace(_stand_in(1), lots=(Offer(_offer().lot, None, good=False),))

    assert _order(new, _stand_in(2, close=0.0)) == [2, 1]


@pytest.mark.parametrize(
    ("better", "worse"),
    [
        (_stand_in(2, close=0.9), _stand_in(1, close=0.8)),
        (_stand_in(2, like=0.9), _stand_in(1, like=0.8)),
        (
            replace(_stand_in(2), roads=(Road("cross-reference", "", "", 0.0, 1),)),
            replace(_stand_in(1), roads=(Road("cross-reference", "", "", 0.0, 2),)),
        ),
        (
            replace(_stand_in(2), lots=(_offer(2, at="2025-01"),)),
            replace(_stand_in(1), lots=(_offer(1, at="2026-01"),)),
        ),
        (
            replace(_stand_in(2), lots=(_offer(2, bin_code="A1"),)),
            replace(_stand_in(1), lots=(_offer(1, bin_code="B1"),)),
        ),
        (_stand_in(1), _stand_in(2)),
    ],
)
def test_each_part_of_the_key_decides_where_those_before_it_are_equal(
    better: StandIn, worse: StandIn
) -> None:
    """Closeness, likeness, distance, age, bin, number: in this order."""
    assert key(better) < key(worse)
    assert _order(worse, better) == [better.part.id, worse.part.id]


def test_the_nearest_bin_goes_first_where_the_tech_says_where_he_stands() -> None:
    """The same rack before another one."""
    far = replace(_stand_in(1), lots=(_offer(1, bin_code="A1-01"),))
    near = replace(_stand_in(2), lots=(_offer(2, bin_code="B7-03"),))

    assert _order(far, near) == [1, 2]
    assert _order(far, near, near_bin="B7-05") == [2, 1]


def test_a_bin_that_is_the_tech_s_own_is_the_nearest() -> None:
    """All signs agree."""
    own = replace(_stand_in(2), lots=(_offer(2, bin_code="B7"),))

    assert _order(_stand_in(1), own, near_bin="B7") == [2, 1]


def test_the_best_lot_of_a_stand_in_is_its_first() -> None:
    """Tested before untested, old before new."""
    lots = (_offer(1, good=False), _offer(2, at="2026-02"), _offer(3, at="2026-01"))

    (found,) = in_order([replace(_stand_in(), lots=lots)]).stand_ins

    assert [offer.lot.id for offer in found.lots] == [3, 2, 1]


def test_refused_ones_and_ones_without_a_piece_are_kept_apart() -> None:
    """No refused part is among the stand-ins, whatever its scores."""
    refused = _stand_in(1, Verdict.REFUSED, close=1.0, like=1.0)
    none_here = replace(_stand_in(2), lots=())

    found = in_order([refused, none_here, _stand_in(3), _stand_in(4)], limit=1)

    assert [one.part.id for one in found.stand_ins] == [3]
    assert [one.part.id for one in found.refused] == [1]
    assert [one.part.id for one in found.not_here] == [2]
    assert found.more == 1


STAND_INS = st.builds(
    lambda number, verdict, close, like, good: replace(
        _stand_in(number, verdict, close=close, like=like), lots=(_offer(number, good=good),)
    ),
    st.integers(1, 9),
    st.sampled_from(list(Verdict)),
    st.sampled_from([0.0, 0.5, 1.0]),
    st.sampled_from([0.0, 0.7]),
    st.booleans(),
)


@given(st.lists(STAND_INS, max_size=9, unique_by=lambda one: one.part.id), st.randoms())
def test_the_order_does_not_hang_on_the_order_of_the_rows(
    found: list[StandIn], chance: Random
) -> None:
    """Shuffled candidates come out alike, and no refused one among the offered."""
    shuffled = list(found)
    chance.shuffle(shuffled)

    assert in_order(found) == in_order(shuffled)
    assert all(one.verdict is not Verdict.REFUSED for one in in_order(found).stand_ins)


def test_the_steps_tell_the_key_in_words() -> None:
    """What ``--why`` prints: verdict, state, closeness, likeness, roads, age, bin."""
    asks = Judgement(
        Verdict.ASK, (Reason("body", Outcome.ASK, "Body size is not known.", "sheet"),), 0.5
    )
    road = Road("ratings", "its ratings reach the needs", "this shelf")

    lines = steps(replace(_stand_in(), judgement=asks, roads=(road,)))

    assert lines == (
        "verdict ask: Body size is not known",
        "tested state: tested good (lot 1, good)",
        "closeness of fit 0.50",
        "likeness of the text 0.00",
        "found by ratings: its ratings reach the needs (this shelf)",
        "on the shelf since 2026-01",
        "in bin A1",
    )


def test_the_steps_of_one_without_a_piece_say_so() -> None:
    """No lot, no bin."""
    lines = steps(replace(_stand_in(verdict=Verdict.FITS), lots=()))

    assert lines[:2] == ("verdict fits: no rule objects", "tested state: none here")


def test_the_score_lies_within_zero_and_one() -> None:
    """Closeness and likeness together; it orders within a verdict only."""
    assert _stand_in(close=1.0, like=1.0).score == 1.0
    assert _stand_in(close=0.0, like=0.0).score == 0.0


def _eased(number: int, ease: float, like: float = 0.0) -> StandIn:
    """A stand-in that asks, with so little left to ask."""
    judged = Judgement(Verdict.ASK, (), 1.0, ease)
    return StandIn(Part("switch", id=number), judged, (_offer(number),), like)


def test_of_equal_fits_the_one_with_little_left_to_ask_comes_first() -> None:
    """All its data on record and one question beat a bare rating with three."""
    assert _order(_eased(1, 0.1, 0.8), _eased(2, 0.4, 0.2)) == [2, 1]


def test_the_very_same_marking_comes_before_what_is_only_easier() -> None:
    """The same text on both parts says more than a tidy record."""
    assert _order(_eased(1, 0.4, 0.9), _eased(2, 0.1, 1.0)) == [2, 1]


def test_the_steps_say_how_little_is_left_to_ask() -> None:
    """The explanation names what the order went by."""
    assert "little left to ask 0.40" in steps(_eased(1, 0.4))


def test_of_the_refused_the_one_with_the_least_against_it_comes_first() -> None:
    """One figure too low is nearer than a wrong throw and a wrong place."""
    no = Reason("rule", Outcome.REFUSED, "No.", "rule")
    also = replace(no, rule="other")
    two = StandIn(Part("switch", id=1), Judgement(Verdict.REFUSED, (no, also), 0.9), (_offer(1),))
    one = StandIn(Part("switch", id=2), Judgement(Verdict.REFUSED, (no,), 0.9), (_offer(2),))

    assert [found.part.id for found in in_order([two, one]).refused] == [2, 1]
