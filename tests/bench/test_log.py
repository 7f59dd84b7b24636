"""Parts come in: one lot at a time, what was agreed wins over what was read."""

from __future__ import annotations

from typing import Any

import pytest

from inventory.bench import look
from inventory.bench.log import MOST_PIECES, Piece, log_pieces
from inventory.errors import NotFound, WrongInput
from inventory.store import parts, search_index
from inventory.store.shelf import Shelf
from tests.bench.shop import SWITCH, lot, unit


def test_the_marking_is_kept_as_printed_and_read(shelf: Shelf) -> None:
    """Both are stored, so that a better grammar never rewrites a record (design section 1)."""
    page = look.lot_page(shelf, lot(shelf, " 16(4)A  250V~ T85 5E4"))
    assert page.part.marking == " 16(4)A  250V~ T85 5E4"
    assert page.part.ratings["resistive_a"] == 16
    assert page.part.ratings["motor_a"] == 4


def test_what_the_person_agreed_wins(shelf: Shelf) -> None:
    """A rating read off a data sheet overrides the one that was read from the marking."""
    number = lot(shelf, ratings={"motor_a": 3, "contact_form": "SPDT"})
    ratings = look.lot_page(shelf, number).part.ratings
    assert (ratings["motor_a"], ratings["contact_form"]) == (3, "SPDT")


def test_the_family_is_recognised_where_nobody_says_it(shelf: Shelf) -> None:
    """A speed letter and a breaking capacity make a fuse. Source: IEC 60127-1, marking."""
    number = lot(shelf, "T5AL250V", family=None, state="untested")
    assert look.lot_page(shelf, number).part.family == "fuse"


def test_a_family_in_trade_words_is_understood(shelf: Shelf) -> None:
    """``micro switch`` is the switch family."""
    assert look.lot_page(shelf, lot(shelf, family="micro switch")).part.family == "switch"


def test_a_family_that_no_grammar_reads_keeps_what_was_agreed(shelf: Shelf) -> None:
    """A marking read as another family's says nothing of this one."""
    number = lot(shelf, "T5AL250V", family="other", state="untested", ratings={"pins": 4})
    page = look.lot_page(shelf, number)
    assert page.part.family == "other"
    assert page.part.ratings["pins"] == 4


def test_the_same_part_type_is_there_once(shelf: Shelf) -> None:
    """Family, maker, code, marking and ratings alike: one part type, two lots."""
    first, second = lot(shelf), lot(shelf, bin="B1")
    assert look.lot_page(shelf, first).part.id == look.lot_page(shelf, second).part.id


@pytest.mark.parametrize(
    "other",
    [{"maker": "Orvane"}, {"type_code": "X-9"}, {"ratings": {"poles": 2}}, {"family": "relay"}],
)
def test_what_differs_in_one_thing_is_another_part_type(
    shelf: Shelf, other: dict[str, Any]
) -> None:
    """A part type is what is the same wherever it lies (design section 1)."""
    first = lot(shelf)
    second = lot(shelf, **{"state": "untested", **other})
    assert look.lot_page(shelf, first).part.id != look.lot_page(shelf, second).part.id


def test_one_call_writes_a_new_part_type_once(shelf: Shelf) -> None:
    """Two equal pieces of one call are one part type too."""
    done = log_pieces(shelf, [Piece(SWITCH, family="switch"), Piece(SWITCH, family="switch")])
    assert len({one.part.id for one in done}) == 1
    assert [one.known_before for one in done] == [False, False]


def test_a_marking_of_signs_alone_is_known_again(shelf: Shelf) -> None:
    """Nothing of it can be folded into a search key; it is one part type all the same."""
    first, second = (lot(shelf, "— °", family="other", state="untested") for _ in range(2))
    assert look.lot_page(shelf, first).part.id == look.lot_page(shelf, second).part.id


def test_a_type_without_a_marking_is_enough(shelf: Shelf) -> None:
    """A supplier's bag often carries the code alone; it is known again by it."""
    first, second = (lot(shelf, "", type_code="KSD-301", family="other", state="untested")
                     for _ in range(2))  # fmt: skip
    page = look.lot_page(shelf, second)
    assert page.part.type_code == "KSD-301"
    assert look.lot_page(shelf, first).part.id == page.part.id


def test_another_code_is_kept_and_found_by(shelf: Shelf) -> None:
    """What else a part goes by finds it, misspelt too."""
    number = look.lot_page(shelf, lot(shelf, aliases=("DE47-20018A",))).part.id
    with shelf.read() as connection:
        assert [hit.part_id for hit in search_index.search(connection, "DE47-2OO18A")] == [number]


def test_another_code_of_a_part_already_known_is_added_once(shelf: Shelf) -> None:
    """It was silently lost before; said twice it is there once."""
    number = look.lot_page(shelf, lot(shelf)).part.id
    assert number is not None
    for _ in range(2):
        lot(shelf, aliases=("DE47-20018A", "DE47-20018A"))
    with shelf.read() as connection:
        assert parts.get(connection, number).aliases == ("DE47-20018A",)


@pytest.mark.parametrize("quantity", [0, -1, MOST_PIECES + 1])
def test_a_number_of_pieces_must_make_sense(shelf: Shelf, quantity: int) -> None:
    """Nothing, less than nothing and a slip of the finger are refused."""
    with pytest.raises(WrongInput, match="quantity"):
        lot(shelf, quantity=quantity)


@pytest.mark.parametrize(
    ("said", "sentence"),
    [
        ({"marking": ""}, "marking or a type"),
        ({"state": "clciks"}, "Did you mean clicks"),
        ({"family": "swich"}, "Did you mean switch"),
        ({"origin": "bought"}, "origin"),
        ({"note": "a\0b"}, "NUL"),
        ({"maker": "x" * 5000}, "longer than"),
        ({"aliases": ("a\ud800",)}, "no text"),
    ],
)
def test_what_cannot_be_stored_is_said_in_one_sentence(
    shelf: Shelf, said: dict[str, Any], sentence: str
) -> None:
    """Nothing is written then."""
    with pytest.raises(WrongInput, match=sentence):
        lot(shelf, **said)
    with pytest.raises(NotFound):
        look.lot_page(shelf, 1)


def test_a_piece_from_a_unit_is_salvaged_and_a_bought_one_new(shelf: Shelf) -> None:
    """Unless the person says otherwise."""
    unit(shelf, "U1")
    lots = (
        lot(shelf),
        lot(shelf, source_unit="U1"),
        lot(shelf, origin="salvaged"),
        lot(shelf, source_unit="1"),
    )
    origins = [look.lot_page(shelf, number).lot.origin for number in lots]
    assert origins == ["new", "salvaged", "salvaged", "salvaged"]


def test_an_unknown_unit_is_answered_with_near_ones(shelf: Shelf) -> None:
    """A label mistyped by one sign."""
    unit(shelf, "U12")
    with pytest.raises(WrongInput, match="Did you mean U12"):
        lot(shelf, source_unit="U1Z")


def test_a_dry_run_gives_the_number_it_would_have(shelf: Shelf) -> None:
    """And writes neither the lot nor its part type."""
    done = log_pieces(shelf, [Piece(SWITCH, family="switch")], dry_run=True)
    assert done[0].lot.id == 1
    with pytest.raises(NotFound):
        look.part_page(shelf, 1)


def test_the_order_in_which_ratings_were_said_makes_no_second_part_type(shelf: Shelf) -> None:
    """The same part told again with its figures in another order is known."""
    one = Piece("EX-1", family="other", ratings={"resistive_a": 16, "volts_ac": [250]})
    two = Piece("EX-1", family="other", ratings={"volts_ac": [250], "resistive_a": 16})
    more = Piece("EX-1", family="other", ratings={"volts_ac": [125], "resistive_a": 16})

    done = log_pieces(shelf, [one, two]) + log_pieces(shelf, [two, more])

    first = done[0].part.id
    assert [each.part.id == first for each in done] == [True, True, True, False]
