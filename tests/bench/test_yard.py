"""What the yard still holds, by what units of the same model gave."""

from __future__ import annotations

from inventory.bench.log import Piece
from inventory.bench.merging import merge
from inventory.bench.testing import bench_test
from inventory.bench.undo import undo
from inventory.bench.yard import Given, donors, family_yields, given, in_yard
from inventory.store.shelf import Shelf
from tests.bench.shop import SWITCH, lot, on, unit

OVEN = {"maker": "Brenka", "model": "BK-20M"}
END = "2099-01-01T00:00:00.000000+00:00"


def _switch(quantity: int = 1, code: str | None = None) -> Piece:
    """Switches pulled from a unit."""
    return Piece(SWITCH, family="switch", quantity=quantity, type_code=code)


def _donors(shelf: Shelf, at: str = END) -> dict[int, list[tuple[str, int]]]:
    """Units and pieces by part type."""
    with shelf.read() as connection:
        found = donors(connection, at)
    return {part: [(one.unit, one.pieces) for one in units] for part, units in found.items()}


def test_pieces_a_unit_are_those_a_unit_gave_on_the_mean() -> None:
    """Three and two of two units are two and a half, rounded to the even two; never none."""
    gave = Given({("Brenka", "BK20M"): {7: {1: 3, 2: 2}, 8: {1: 0}}})
    assert gave.each(("Brenka", "BK20M")) == {7: (2, 2), 8: (1, 1)}
    assert gave.each(("Brenka", "OTHER")) == {}


def test_a_unit_of_the_same_model_should_still_carry_what_another_gave(shelf: Shelf) -> None:
    """Not one of another maker or model, not one that gave it already, not one that is gone."""
    unit(shelf, "U1", _switch(3), **OVEN)
    for label, said in (
        ("U2", OVEN),
        ("U3", {**OVEN, "maker": "Orvane"}),
        ("U4", {**OVEN, "model": "BK-30"}),
        ("U5", {**OVEN, "in_yard": False}),
        ("U6", {}),
    ):
        unit(shelf, label, **said)
    assert _donors(shelf) == {1: [("U2", 3)]}
    unit(shelf, "U2", _switch(), **OVEN)
    assert _donors(shelf) == {}
    undo(shelf)
    assert _donors(shelf) == {1: [("U2", 3)]}


def test_a_lot_that_was_tested_piece_by_piece_gave_its_pieces_once(shelf: Shelf) -> None:
    """Splitting a lot pulls nothing from the unit."""
    (pulled,) = unit(shelf, "U1", _switch(3), **OVEN)
    unit(shelf, "U2", **OVEN)
    bench_test(shelf, pulled, {}, state="clicks", pieces=1)
    assert _donors(shelf) == {1: [("U2", 3)]}


def test_two_that_were_merged_are_one_in_the_yard(shelf: Shelf) -> None:
    """What one unit gave under either number is one part type of one unit."""
    with on("2025-01-10"):
        unit(shelf, "U1", _switch(2, "AX-1"), _switch(1, "BX-1"), **OVEN)
        unit(shelf, "U2", **OVEN)
    with on("2025-02-10"):
        merge(shelf, 1, 2)
    assert _donors(shelf) == {1: [("U2", 3)]}
    before = "2025-01-31T00:00:00.000000+00:00"
    assert _donors(shelf, before) == {1: [("U2", 2)], 2: [("U2", 1)]}


def test_the_yard_of_an_earlier_day(shelf: Shelf) -> None:
    """Units that came later were not there, those that left later were."""
    with on("2025-01-10"):
        unit(shelf, "U1", **OVEN)
    with on("2025-02-10"):
        unit(shelf, "U1", **OVEN, in_yard=False)
        unit(shelf, "U2", **OVEN)
    with shelf.read() as connection:
        labels = [
            [one.label for one in in_yard(connection, f"2025-0{month}-28T00:00:00.000000+00:00")]
            for month in (1, 2)
        ]
    assert labels == [["U1"], ["U2"]]


def test_the_first_test_tells_what_was_pulled(shelf: Shelf) -> None:
    """Salvaged lots only, each once, struck-out tests not at all."""
    good, bad, undone = unit(shelf, "U1", _switch(), _switch(code="B"), _switch(code="C"), **OVEN)
    bought = lot(shelf, state="untested")
    for number, state in ((good, "clicks"), (good, "weak"), (bad, "welded"), (bought, "clicks")):
        bench_test(shelf, number, {}, state=state)
    bench_test(shelf, undone, {}, state="clicks")
    undo(shelf)
    with shelf.read() as connection:
        assert family_yields(connection, END) == ({"switch": 1}, {"switch": 2})
        assert set(given(connection, END).by_unit) == {1}
