"""Stripping a unit: pieces with the past of their unit, and a unit that has gone."""

from __future__ import annotations

import pytest

from inventory.bench import look, moves
from inventory.bench.find import Query, find
from inventory.bench.log import Piece
from inventory.bench.undo import undo
from inventory.errors import Refused, WrongInput
from inventory.store.shelf import Shelf
from tests.bench.shop import SWITCH, lot, unit

DOOR = Piece(SWITCH, family="switch", state="clicks")
LAMP = Piece("25W 240V E14", family="lamp", state="good")


def test_a_unit_and_its_pieces_come_in_together(shelf: Shelf) -> None:
    """Each piece is salvaged and knows its unit."""
    unit(shelf, "U1", DOOR, LAMP, maker="Brenka", model="BK-20M")
    page = look.unit_page(shelf, "U1")
    assert (page.unit.model, page.unit.in_yard) == ("BK-20M", True)
    assert [(lot.origin, part.family) for lot, part in page.lots] == [
        ("salvaged", "switch"),
        ("salvaged", "lamp"),
    ]


def test_a_bad_piece_keeps_the_unit_out_too(shelf: Shelf) -> None:
    """All in one transaction."""
    with pytest.raises(WrongInput):
        unit(shelf, "U1", DOOR, Piece("x", family="switch", state="shiny"))
    with pytest.raises(Exception, match="no source unit 'U1'"):
        look.unit_page(shelf, "U1")


def test_a_known_unit_is_stripped_further(shelf: Shelf) -> None:
    """Its record stays; the second evening's pieces join the first's."""
    unit(shelf, "U1", DOOR, maker="Brenka")
    unit(shelf, "U1", LAMP, maker="somebody else")
    page = look.unit_page(shelf, "U1")
    assert page.unit.maker == "Brenka"
    assert len(page.lots) == 2


@pytest.mark.parametrize(
    ("why", "family", "stopped"),
    [
        # Source: Sharp R-200BW training notes, Daewoo KOG-131A9A service manual: the door
        # switches carried the fault current and are renewed together with the fuse.
        ("fuse-blown-by-monitor", "switch", True),
        ("monitor blew the fuse", "interlock_switch", True),
        ("fuse-blown-by-monitor", "lamp", False),
        # common practice
        ("flooded in the cellar", "relay", True),
        ("caught fire", "magnetron", True),
        ("glass broken", "switch", False),
        (None, "switch", False),
    ],
)
def test_the_past_of_a_unit_ends_some_of_its_pieces(
    shelf: Shelf, why: str | None, family: str, *, stopped: bool
) -> None:
    """They are logged with that past; the others are not touched by it."""
    (number,) = unit(shelf, "U1", Piece("M-100", family=family), why_scrapped=why)
    assert (look.lot_page(shelf, number).lot.history is not None) is stopped


def test_a_door_switch_of_a_blown_monitor_is_never_offered(shelf: Shelf) -> None:
    """Not held, not fitted, not among the stand-ins; a sound one of the same type is.

    Source: Sharp R-200BW training notes: the fault current damages all three switches.
    """
    (bad,) = unit(shelf, "U1", DOOR, why_scrapped="monitor blew the fuse")
    good = lot(shelf)
    offered = [o.lot.id for s in find(shelf, Query(SWITCH)).stand_ins for o in s.lots]
    assert offered == [good]
    for step in (moves.hold, moves.fit):
        with pytest.raises(Refused, match="fault current"):
            step(shelf, bad)


def test_a_history_said_by_the_person_stays(shelf: Shelf) -> None:
    """What the tech saw of this piece counts, whatever became of the unit."""
    (number,) = unit(shelf, "U1", Piece(SWITCH, family="switch", history="flood"))
    assert look.lot_page(shelf, number).lot.history == "flood"


def test_a_unit_that_is_gone_leaves_the_yard(shelf: Shelf) -> None:
    """Said when it is logged or later; it can be taken back like any other write."""
    unit(shelf, "U1", DOOR)
    unit(shelf, "U1", in_yard=False)
    assert look.unit_page(shelf, "U1").unit.in_yard is False
    undo(shelf)
    assert look.unit_page(shelf, "U1").unit.in_yard is True
