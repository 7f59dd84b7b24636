"""Two part types that are one: lots and codes move, the journal stays, families never mix."""

from __future__ import annotations

import pytest

from inventory.bench import moves
from inventory.bench.find import measured
from inventory.bench.log import Piece, log_pieces
from inventory.bench.merging import merge
from inventory.errors import NotFound, Refused, WrongInput
from inventory.store import journal, lots, parts, search_index
from inventory.store.check import check
from inventory.store.shelf import Shelf


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
