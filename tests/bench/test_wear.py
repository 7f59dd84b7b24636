"""What keeps failing: ages worked by hand, and one truth for the report and the search.

Days are turned into months of 30.4375 days, the mean month of the Gregorian calendar.
"""

from __future__ import annotations

import pytest

from inventory.bench import jobs, moves
from inventory.bench.find import Query, find
from inventory.bench.log import Piece
from inventory.bench.merging import merge
from inventory.bench.undo import undo
from inventory.bench.wear import months_between, warnings_for, wear
from inventory.errors import WrongInput
from inventory.stock.wear_report import WearReport
from inventory.store import parts
from inventory.store.shelf import Shelf
from tests.bench.shop import SWITCH, job, lot, on, repair, unit


def _failed(shelf: Shelf, number: int, of: int) -> None:
    """A repair came back: the piece of that lot had failed."""
    jobs.set_outcome(shelf, number, "came-back", failed_lot=of)


def test_ages_are_those_of_the_calendar(shelf: Shelf) -> None:
    """Fitted on 1 January at ten; one fails 31 days later, one serves to the end of 1 March.

    By hand: 31 / 30.4375 = 1.018480 months; 59 days and 14 hours = 59.583333 / 30.4375 = 1.957563.
    """
    with on("2025-01-01"):
        piece = lot(shelf, quantity=2)
        number = repair(shelf, piece, 2)
    with on("2025-02-01"):
        _failed(shelf, number, piece)

    (line,) = wear(shelf, as_of="2025-03-01").lines

    assert (line.name, line.kind, line.pieces, line.failures) == (SWITCH, "switch", 2, 1)
    assert line.rate.exposure == pytest.approx(1.018480 + 1.957563, abs=2e-6)
    assert line.rate.raw == pytest.approx(1 / 2.976044, rel=1e-5)
    # alone in its kind it is drawn to itself: (1.5 + 1)/(1.5 E + E) = 1/E
    assert line.rate.shrunk == pytest.approx(line.rate.raw)
    assert not line.flag


def test_before_a_failure_nothing_had_failed(shelf: Shelf) -> None:
    """A kind without a failure has no rate to compare with; what was undone never was."""
    with on("2025-01-01"):
        piece = lot(shelf)
        number = repair(shelf, piece)
    with on("2025-02-01"):
        _failed(shelf, number, piece)
    assert wear(shelf, as_of="2025-01-31").lines == ()
    undo(shelf)
    assert wear(shelf).lines == ()


def test_a_month_is_never_below_nothing() -> None:
    """A clock that was set back makes no age below zero."""
    assert months_between("2025-02-01T00:00:00+00:00", "2025-01-01T00:00:00+00:00") == 0
    assert months_between("2025-01-01T00:00:00+00:00", "2025-01-31T10:30:00+00:00") == 1


@pytest.mark.parametrize(
    ("by", "names"),
    [("part", ["AX-1", "BX-1"]), ("maker", ["Orvane", "Brenka"]), ("unit", ["Brenka BK-20M"])],
)
def test_pieces_are_counted_under_what_was_asked(shelf: Shelf, by: str, names: list[str]) -> None:
    """Part type, maker, or the model they were pulled from; a bought piece is of no model."""
    with on("2025-01-01"):
        piece = Piece(SWITCH, family="switch", state="clicks", type_code="AX-1", maker="Orvane")
        (salvaged,) = unit(shelf, "U1", piece, maker="Brenka", model="BK-20M")
        bought = lot(shelf, type_code="BX-1", maker="Brenka")
        first, _ = repair(shelf, salvaged), repair(shelf, bought)
    with on("2025-02-01"):
        _failed(shelf, first, salvaged)
    assert [line.name for line in wear(shelf, by).lines] == names


def test_an_unknown_grouping_is_refused(shelf: Shelf) -> None:
    """The known ones are named."""
    with pytest.raises(WrongInput, match="by part, maker, unit, not by 'colour'"):
        wear(shelf, "colour")


def _weak_and_sound(shelf: Shelf) -> tuple[int, int]:
    """Six of seven weak ones fail within a month, one of them put back; thirty sound ones serve."""
    with on("2024-01-01"):
        sound = lot(shelf, quantity=30, type_code="SOUND-1")
        weak = lot(shelf, quantity=9, type_code="WEAK-1")
        repair(shelf, sound, 30)
    numbers = list[int]()
    for month in range(1, 8):
        with on(f"2024-0{month}-01"):
            if numbers:
                _failed(shelf, numbers[-1], weak)
        with on(f"2024-0{month}-02"):
            numbers.append(repair(shelf, weak))
    with on("2024-09-01"):
        moves.put_back(shelf, weak, job=numbers[0])
        tried = job(shelf)
        moves.fit(shelf, weak, job=tried)
    with on("2024-09-11"):
        moves.put_back(shelf, weak, job=tried)
    return weak, sound


def _both(shelf: Shelf) -> tuple[dict[int, str], WearReport]:
    """The warnings a search shows, by part type, and the report."""
    with shelf.read() as connection:
        offered = parts.many(connection, parts.standing(connection)).values()
        return warnings_for(connection, offered), wear(shelf)


def test_the_search_warns_in_the_words_of_the_report(shelf: Shelf) -> None:
    """The quick count of the one is the long count of the other, to the piece-month."""
    with on("2025-01-01"):
        _weak_and_sound(shelf)
        quick, report = _both(shelf)
        (flagged,) = report.flagged()
        # by hand, in days: each from the 2nd to the 1st; 2 July to 1 January; and 10 on trial
        days = 30 + 28 + 30 + 29 + 30 + 29 + 183 + 10
        assert flagged.rate.exposure * 30.4375 == pytest.approx(days)
        assert quick == {2: flagged.sentence()}
        found = find(shelf, Query("WEAK-1"))
    assert flagged.sentence().startswith("WEAK-1: 6 of 8 failed in 12 piece-months, about")
    assert found.wear[2] == flagged.sentence()


def test_a_merged_part_keeps_its_failures(shelf: Shelf) -> None:
    """Under the kept number, in the search and in the report; a day before the merge has two."""
    with on("2024-01-01"):
        other = lot(shelf, quantity=2, type_code="OTHER-1")
    with on("2025-01-01"):
        _weak_and_sound(shelf)
        repair(shelf, other)
    with on("2025-02-01"):
        merge(shelf, 1, 3)
        quick, report = _both(shelf)
    assert quick == {1: report.flagged()[0].sentence()}
    assert report.flagged()[0].name == "OTHER-1"
    names = {line.name for line in wear(shelf, as_of="2025-01-31").lines}
    assert names == {"OTHER-1", "WEAK-1", "SOUND-1"}


def test_two_failures_are_no_evidence(shelf: Shelf) -> None:
    """Three are the least a warning needs. Source: reference/stock.md section 4."""
    with on("2025-01-01"):
        sound, weak = lot(shelf, quantity=9, type_code="S-1"), lot(shelf, quantity=9)
        repair(shelf, sound, 9)
        numbers = [repair(shelf, weak) for _ in range(2)]
    with on("2025-01-03"):
        for number in numbers:
            _failed(shelf, number, weak)
    with on("2025-12-01"):
        quick, report = _both(shelf)
        assert quick == {}
        assert report.flagged() == ()
        assert find(shelf, Query(SWITCH)).wear == {}
