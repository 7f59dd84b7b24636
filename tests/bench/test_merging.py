"""Two part types that are one: lots and codes move, the journal stays, families never mix."""

from __future__ import annotations

import pytest

from inventory.bench import look, moves, orders
from inventory.bench.find import measured
from inventory.bench.log import Piece, log_pieces
from inventory.bench.low import low
from inventory.bench.merging import merge
from inventory.bench.testing import bench_test
from inventory.bench.undo import undo
from inventory.errors import NotFound, Refused, WrongInput
from inventory.stock.report import LowLine
from inventory.store import journal, lots, parts, search_index
from inventory.store.check import check
from inventory.store.shelf import Shelf
from tests.bench.shop import job, on, repair
from tests.store.shelves import again


@pytest.fixture
def twins(shelf: Shelf) -> Shelf:
    """A shelf with one switch under two codes, as part types 1 and 2, and a lamp as 3."""
    log_pieces(
        shelf,
        [
            Piece("16A 250V~", family="switch", type_code="QX-100", state="clicks"),
            Piece("16A 250V~", family="switch", type_code="KLM-77", aliases=("OLD-9",)),
            Piece("230V 25W", family="lamp"),
        ],
    )
    return shelf


def test_lots_codes_and_measures_move(twins: Shelf) -> None:
    """What lay under the dropped number lies under the kept one."""
    measured(twins, 2, {"actuator": "roller"})

    done = merge(twins, 1, 2)

    assert done.lots == 1
    with twins.read() as connection:
        assert {lot.part_id for lot in lots.where(connection, "id IN (1, 2)")} == {1}
        kept = parts.get(connection, 1)
    assert set(kept.aliases) == {"OLD-9", "KLM-77"}
    assert kept.ratings["actuator"] == "roller"
    assert check(twins) == []


def test_the_dropped_code_still_finds_the_piece(twins: Shelf) -> None:
    """Under every code either of them went by."""
    merge(twins, 1, 2)

    with twins.read() as connection:
        for code in ("QX-100", "KLM-77", "OLD-9"):
            assert search_index.search(connection, code)[0].part_id == 1


def test_the_journal_keeps_what_was_written_before(twins: Shelf) -> None:
    """Events of the dropped number stay as they are."""
    with twins.read() as connection:
        before = list(journal.events(connection))
    merge(twins, 1, 2)

    with twins.read() as connection:
        after = list(journal.events(connection))
    assert after[:-1] == before
    assert (after[-1].kind, after[-1].detail["drop"]) == ("merged", 2)


def test_a_moved_lot_goes_on(twins: Shelf) -> None:
    """It can be held and fitted like before."""
    merge(twins, 1, 2)

    assert moves.hold(twins, 2).part.id == 1


@pytest.mark.parametrize(
    ("keep", "drop", "error", "said"),
    [
        (1, 1, WrongInput, "is itself"),
        (1, 3, Refused, "they stay two"),
        (1, 99, NotFound, "no part type 99"),
    ],
)
def test_what_cannot_be_one_is_refused(
    twins: Shelf, keep: int, drop: int, error: type[Exception], said: str
) -> None:
    """Nothing changes."""
    with pytest.raises(error, match=said):
        merge(twins, keep, drop)
    with twins.read() as connection:
        assert [lot.part_id for lot in lots.where(connection)] == [1, 2, 3]


def test_a_part_type_is_merged_once(twins: Shelf) -> None:
    """One that became another is no longer there, on either side."""
    merge(twins, 1, 2)

    for keep, drop in ((1, 2), (2, 1)):
        with pytest.raises(Refused, match="merged into 1 already"):
            merge(twins, keep, drop)


def test_a_dry_merge_changes_nothing(twins: Shelf) -> None:
    """It tells how many lots would move."""
    assert merge(twins, 1, 2, dry_run=True).lots == 1
    with twins.read() as connection:
        assert [lot.part_id for lot in lots.where(connection)] == [1, 2, 3]


# after a merge, under either number -----------------------------------------------------


def _line(shelf: Shelf, part: int = 1, as_of: str | None = None) -> LowLine:
    """The low report's line of one part type."""
    return next(line for line in low(shelf, as_of=as_of).lines if line.part_id == part)


@pytest.mark.parametrize("asked", [1, 2])
def test_what_was_ordered_before_can_be_received_after(twins: Shelf, asked: int) -> None:
    """The report and the goods-in desk count the same pieces on order, once."""
    orders.order(twins, 2, 3)
    merge(twins, 1, 2)
    assert _line(twins).on_order == 3

    done = orders.receive(twins, asked, 3)

    assert (done.lot.part_id, _line(twins).on_order) == (1, 0)
    with pytest.raises(Refused, match="Only 0 of part type 1"):
        orders.receive(twins, asked, 1)


def test_an_order_that_came_in_under_the_kept_number_stays(twins: Shelf) -> None:
    """Taking the order back would leave fewer than none on order."""
    orders.order(twins, 2, 3)
    other = again(twins, "other")
    merge(other, 1, 2)
    orders.receive(other, 1, 3)

    with pytest.raises(Refused, match="came in since"):
        undo(twins)


def test_the_dropped_number_still_means_the_part(twins: Shelf) -> None:
    """Ordered, wanted, measured or looked at: it is the kept one."""
    merge(twins, 1, 2)

    assert orders.order(twins, 2, 4) == 4
    orders.lacked(twins, 2)
    orders.keep_at_least(twins, 2, 7)
    measured(twins, 2, {"actuator": "roller"})

    line, page = _line(twins), look.part_page(twins, 2)
    assert (line.on_order, line.jobs_seen, line.keep_at_least) == (4, 1, 7)
    assert (page.part.id, len(page.lots), page.part.ratings["actuator"]) == (1, 2, "roller")


def test_more_of_the_dropped_one_is_more_of_the_kept_one(twins: Shelf) -> None:
    """Logged again in the same words it is no third part type."""
    merge(twins, 1, 2)

    (again,) = log_pieces(
        twins,
        [Piece("16A 250V~", family="switch", type_code="KLM-77", aliases=("OLD-9",))],
    )

    assert (again.lot.part_id, again.known_before) == (1, True)


@pytest.mark.parametrize(
    ("kept", "dropped", "held_to"), [(None, 5, 5), (3, 5, 5), (5, 3, 5), (5, None, 5)]
)
def test_of_two_levels_the_higher_holds(
    twins: Shelf, kept: int | None, dropped: int | None, held_to: int
) -> None:
    """A level set by hand does not vanish from the report; undone, each has its own again."""
    orders.keep_at_least(twins, 1, kept)
    orders.keep_at_least(twins, 2, dropped)

    merge(twins, 1, 2)

    assert _line(twins).keep_at_least == held_to
    undo(twins)
    with twins.read() as connection:
        levels = [parts.get(connection, number).keep_at_least for number in (1, 2)]
    assert levels == [kept, dropped]
    assert check(twins) == []


def test_the_history_of_both_is_watched_from_the_first_day(shelf: Shelf) -> None:
    """Three months of one and one of the other are three months, not one."""
    with on("2025-01-01"):
        log_pieces(shelf, [Piece("16A 250V~", family="switch", type_code="QX-100")])
    with on("2025-03-01"):
        log_pieces(shelf, [Piece("16A 250V~", family="switch", type_code="KLM-77")])
    with on("2025-03-31"):
        merge(shelf, 2, 1)

        assert _line(shelf, 2).basis == "never used in 3 months"


# before a merge -----------------------------------------------------------------------


def _told(shelf: Shelf, as_of: str) -> dict[int, tuple[object, ...]]:
    """What the report of a day says of every part type."""
    return {
        line.part_id: (line.name, line.good, line.held, line.on_order, line.untested,
                       line.jobs_seen, line.keep_at_least, line.basis, line.target)
        for line in low(shelf, as_of=as_of).lines
    }  # fmt: skip


def _two(shelf: Shelf) -> None:
    """Two part types of 3 and 4 pieces with a price each; the second is used, held, ordered."""
    for code, quantity, price in (("QX-100", 3, 200), ("KLM-77", 4, 500)):
        piece = Piece("16A 250V~", family="switch", type_code=code, quantity=quantity,
                      state="clicks", price_cents=price)  # fmt: skip
        log_pieces(shelf, [piece])
    repair(shelf, 2)
    moves.hold(shelf, 2, job=job(shelf))
    orders.order(shelf, 2, 6)
    orders.keep_at_least(shelf, 2, 9)


def test_a_day_before_the_merge_still_has_two(shelf: Shelf) -> None:
    """Recomputed from the journal, whatever was merged, or taken apart again, later."""
    with on("2025-01-10"):
        _two(shelf)
    before = _told(shelf, "2025-01-31")
    assert {number: told[1] for number, told in before.items()} == {1: 3, 2: 3}

    with on("2025-02-10"):
        merge(shelf, 1, 2)
        merged = _told(shelf, "2025-02-28")
        assert {number: told[1:4] for number, told in merged.items()} == {1: (6, 1, 6)}
    assert _told(shelf, "2025-01-31") == before
    with on("2025-03-10"):
        undo(shelf)

    assert _told(shelf, "2025-01-31") == before
    assert _told(shelf, "2025-02-28") == merged
    assert _told(shelf, "2025-03-31").keys() == before.keys()


def test_a_day_between_two_merges_has_what_was_merged_by_then(shelf: Shelf) -> None:
    """Three become two, then one; on each day its own."""
    with on("2025-01-10"):
        for code in ("QX-100", "KLM-77", "OLD-9"):
            log_pieces(shelf, [Piece("16A 250V~", family="switch", type_code=code, state="clicks")])
    with on("2025-02-10"):
        merge(shelf, 2, 3)
    with on("2025-03-10"):
        merge(shelf, 1, 2)

    good = [
        {number: told[1] for number, told in _told(shelf, day).items()}
        for day in ("2025-01-31", "2025-02-28", "2025-03-31")
    ]
    assert good == [{1: 1, 2: 1, 3: 1}, {1: 1, 2: 2}, {1: 3}]


# taking it back ---------------------------------------------------------------------------


def test_a_merge_others_went_on_from_stays(twins: Shelf) -> None:
    """The kept part type became another one since."""
    log_pieces(twins, [Piece("16A 250V~", family="switch", type_code="ZZ-5")])
    merge(twins, 1, 2)
    merge(again(twins, "other"), 4, 1)

    with pytest.raises(Refused, match="merged into 4 since"):
        undo(twins)
    assert check(twins) == []


@pytest.mark.parametrize("what", ["fitted", "split-off", "logged"])
def test_pieces_used_as_one_cannot_be_told_apart(twins: Shelf, what: str) -> None:
    """They would stay with the wrong part type."""
    merge(twins, 1, 2)
    other = again(twins, "other")
    if what == "fitted":
        moves.fit(other, 2, job=job(other), untested=True)
    elif what == "split-off":
        moves.count(other, 2, 3)
        moves.move(other, 2, "C9", quantity=1)
    else:
        log_pieces(other, [Piece("16A 250V~", family="switch", type_code="KLM-77")])

    with pytest.raises(Refused, match=f"{what}.*came since"):
        undo(twins)


def test_what_leaves_every_piece_its_own_is_no_hindrance(twins: Shelf) -> None:
    """Held, counted, tested or fitted from the kept one's own lot; a slip taken back."""
    merge(twins, 1, 2)
    other = again(twins, "other")
    moves.hold(other, 2)
    moves.count(other, 2, 4)
    bench_test(other, 2, {}, state="clicks")
    moves.fit(other, 1, job=job(other))
    moves.fit(other, 2)
    undo(other)

    assert [event.kind for event in undo(twins).events] == ["merged"]
    with twins.read() as connection:
        assert [lot.part_id for lot in lots.where(connection)] == [1, 2, 3]
