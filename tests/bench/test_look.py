"""Looking without changing anything: pages, bins, journals."""

from __future__ import annotations

import pytest

from inventory.bench import look, moves
from inventory.bench.xref import add_edges
from inventory.errors import NotFound, WrongInput
from inventory.records import Edge
from inventory.store.shelf import Shelf
from tests.bench.shop import job, lot, repair, unit


def test_a_lots_page_names_the_unit_it_came_from(shelf: Shelf) -> None:
    """A bought one came from none."""
    unit(shelf, "U1")
    salvaged, bought = lot(shelf, source_unit="U1"), lot(shelf)
    page = look.lot_page(shelf, salvaged)
    assert page.unit is not None
    assert page.unit.label == "U1"
    assert look.lot_page(shelf, bought).unit is None


def test_a_part_types_page_has_its_lots_and_cross_references(shelf: Shelf) -> None:
    """By any of its codes, each edge once."""
    lot(shelf, type_code="KA-1", aliases=("DE47",))
    lot(shelf, type_code="KA-1", bin="B1")
    add_edges(
        shelf,
        [
            Edge("KA-2", "KA-1", "supersedes", "list"),
            Edge("DE47", "KA-1", "other-number", "bag"),
            Edge("XX-1", "XX-2", "other-number", "bag"),
        ],
    )
    page = look.part_page(shelf, 1)
    assert [one.id for one in page.lots] == [1, 2]
    assert sorted(edge.from_code for edge in page.edges) == ["DE47", "KA-2"]


def test_bins_are_told_with_what_lies_in_them(shelf: Shelf) -> None:
    """A bin that was emptied is still a bin."""
    lot(shelf, bin="A1", quantity=3)
    lot(shelf, bin="A1")
    moves.move(shelf, lot(shelf, bin="B1"), "C1")
    assert look.bins(shelf) == [
        {"bin": "A1", "lots": 2, "pieces": 4},
        {"bin": "B1", "lots": 0, "pieces": 0},
        {"bin": "C1", "lots": 1, "pieces": 1},
    ]
    assert [one.id for one, _ in look.in_bin(shelf, "A1")] == [1, 2]
    assert look.in_bin(shelf, "B1") == []


@pytest.mark.parametrize(("typed", "meant"), [("A1-O7", "A1-07"), ("a1-07", "A1-07")])
def test_a_mistyped_bin_is_answered_with_a_near_one(shelf: Shelf, typed: str, meant: str) -> None:
    """An O for a 0, capitals forgotten."""
    lot(shelf, bin="A1-07")
    with pytest.raises(WrongInput, match=f"Did you mean {meant}"):
        look.in_bin(shelf, typed)


def test_a_unit_that_is_nothing_like_any_other_is_not_guessed(shelf: Shelf) -> None:
    """No hint is better than a wrong one."""
    unit(shelf, "U1")
    with pytest.raises((NotFound, WrongInput), match="no source unit 'fridge'") as caught:
        look.unit_page(shelf, "fridge")
    assert "Did you mean" not in str(caught.value)


def test_a_journal_is_told_oldest_first(shelf: Shelf) -> None:
    """Of a lot, a job, a unit; the last events of the whole shelf."""
    unit(shelf, "U1")
    taken = lot(shelf, quantity=2, source_unit="U1")
    number = repair(shelf, taken)
    kinds = [event.kind for event in look.history(shelf, "job", number)]
    assert kinds == ["job-opened", "fitted", "job-closed"]
    assert [e.kind for e in look.history(shelf, "unit", 1)] == ["unit-logged", "logged"]
    assert [e.kind for e in look.latest(shelf, 2)] == ["fitted", "job-closed"]
    assert look.latest(shelf, 1000)[0].seq == 1


def test_an_empty_shelf_has_no_journal(shelf: Shelf) -> None:
    """Nothing happened yet."""
    assert look.latest(shelf, 5) == []


def test_lots_of_a_family_are_told_with_their_part_types(shelf: Shelf) -> None:
    """Those with pieces on hand."""
    there = lot(shelf)
    moves.scrap(shelf, lot(shelf))
    lot(shelf, "T5AL250V", family="fuse", state="good")
    assert [one.id for _, one in look.lots_of_family(shelf, "switch")] == [there]


def test_a_row_for_a_program_says_all_that_a_table_does(shelf: Shelf) -> None:
    """Lot and part type in one mapping."""
    page = look.lot_page(shelf, lot(shelf, price_cents=120))
    row = look.lot_row(page.lot, page.part)
    assert (row["lot"], row["family"], row["bin"], row["price_cents"]) == (
        1,
        "switch",
        "A1-01",
        120,
    )
    job(shelf)
    assert look.event_row(look.latest(shelf, 1)[0])["kind"] == "job-opened"


def test_a_bin_that_is_new_is_said_to_be(shelf: Shelf) -> None:
    """A slip in a nought would lose a part; the bin it looks like is named."""
    assert look.new_bin(shelf, "A2-05") is None  # the first bin of all surprises nobody
    lot(shelf, bin="A2-05")
    assert look.new_bin(shelf, "A2-05") is None
    assert look.new_bin(shelf, "a2-5") == "Bin a2-5 is new; there is a bin A2-05 too."
    assert look.new_bin(shelf, "Q-1") == "Bin Q-1 is new."
