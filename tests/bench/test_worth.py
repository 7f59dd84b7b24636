"""What is worth pulling: figures worked by hand, and what is never pulled whatever it is worth.

By hand: uses of a part type are NB(a, b/(b + 12)) over the twelve months looked ahead, with
Gamma(a = 0.5 + jobs, b = 2 + months watched); the next piece beside s good ones is worth
price x P(uses > s) x the share of good ones, (good + 1)/(tested + 2).
Source: reference/stock.md sections 0 and 3.
"""

from __future__ import annotations

import pytest

from inventory.bench import moves, orders
from inventory.bench.log import Piece
from inventory.bench.low import set_figure
from inventory.bench.testing import bench_test
from inventory.bench.undo import undo
from inventory.bench.worth import Worth, as_rows, worth
from inventory.errors import NotFound, WrongInput
from inventory.stock.worth_report import WorthLine
from inventory.store.shelf import Shelf
from tests.bench.shop import SWITCH, lot, on, unit

OVEN = {"maker": "Brenka", "model": "BK-20M"}
MINUTES = 4 + 3
"""To pull and to test a switch, as its sheet says."""


def _yard(shelf: Shelf, *pieces: Piece, **said: object) -> list[int]:
    """One oven stripped and one of the same model in the yard; the lots of the first."""
    with on("2025-06-10"):
        made = unit(shelf, "U1", *(pieces or (Piece(SWITCH, family="switch"),)), **OVEN)
        unit(shelf, "U2", **OVEN, **said)
    return made


def _line(found: Worth) -> WorthLine:
    """The only line of a pull list."""
    (line,) = (*found.report.pulls, *found.report.skipped)
    return line


def test_a_piece_is_worth_what_it_saves_times_the_chance_that_it_is_used(shelf: Shelf) -> None:
    """One switch at 100.00, none good on the shelf, one tested and found open.

    a = 0.5, b = 2 + 1 month (June, all of it): P(no use) = (3/15)^0.5 = 0.447214.
    Share good: (0 + 1)/(1 + 2) = 1/3. Value 10000 x 0.552786 / 3 = 1842.62 cents; seven minutes
    at 30.00 an hour cost 350.
    """
    (pulled,) = _yard(shelf)
    with on("2025-06-11"):
        bench_test(shelf, pulled, {}, state="open")
        lot(shelf, quantity=1, price_cents=10_000, state="open")

    found = worth(shelf, "U2", as_of="2025-06-30")

    line = _line(found)
    assert (found.units_before, line.take, line.leave, line.minutes) == (1, 1, 0, MINUTES)
    assert line.share_good == pytest.approx(1 / 3)
    assert line.value == pytest.approx(1842.62, abs=0.01)
    assert line.gain == pytest.approx(1842.62 - 350, abs=0.01)
    assert line.why == "Worth 18.43 for 3.50 of bench time."
    (row,) = as_rows(found.report.pulls)
    assert (row["value_cents"], row["gain_cents"], row["share_good"]) == (1843, 1493, 0.333)


def test_a_good_piece_on_the_shelf_makes_the_next_worth_less(shelf: Shelf) -> None:
    """With s = 1 and the share (1 + 1)/(1 + 2).

    P(uses > 1) = 1 - 0.447214 x (1 + 0.5 x 0.8) = 0.373901.
    """
    (pulled,) = _yard(shelf)
    with on("2025-06-11"):
        bench_test(shelf, pulled, {}, state="clicks")
        lot(shelf, price_cents=10_000, state="open")
    line = _line(worth(shelf, "U2", as_of="2025-06-30"))
    assert line.value == pytest.approx(10_000 * 0.373901 * 2 / 3, abs=0.05)


def test_what_is_on_order_lies_there_already(shelf: Shelf) -> None:
    """Ordered, held or scrapped: only what will be free counts, and once."""
    (pulled,) = _yard(shelf)
    with on("2025-06-11"):
        bench_test(shelf, pulled, {}, state="clicks")
        lot(shelf, price_cents=10_000, state="open")
        one = _line(worth(shelf, "U2", as_of="2025-06-30")).value
        orders.order(shelf, 1, 1)
        two = _line(worth(shelf, "U2", as_of="2025-06-30")).value
        moves.hold(shelf, pulled)
        assert _line(worth(shelf, "U2", as_of="2025-06-30")).value == one
        undo(shelf)
        assert _line(worth(shelf, "U2", as_of="2025-06-30")).value == two
        undo(shelf)
        assert _line(worth(shelf, "U2", as_of="2025-06-30")).value == one
    assert one is not None
    assert two is not None
    assert two < one


def test_the_shop_s_wage_decides(shelf: Shelf) -> None:
    """At 200.00 an hour the seven minutes cost 23.33, more than the piece is worth."""
    (pulled,) = _yard(shelf)
    with on("2025-06-11"):
        bench_test(shelf, pulled, {}, state="open")
        lot(shelf, price_cents=10_000, state="open")
        set_figure(shelf, "wage_per_hour", "200")
    line = _line(worth(shelf, "U2", as_of="2025-06-30"))
    assert (line.take, line.why) == (0, "Worth 18.43, takes 23.33 of bench time.")
    assert _line(worth(shelf, "U2", as_of="2025-06-10")).why.startswith("No price known")


def test_nothing_is_pulled_twice(shelf: Shelf) -> None:
    """What the unit gave already is not on its list; what was logged by mistake is again."""
    _yard(shelf)
    lot(shelf, price_cents=900)
    unit(shelf, "U2", Piece(SWITCH, family="switch"), **OVEN)
    report = worth(shelf, "U2").report
    assert (report.pulls, report.skipped) == ((), ())
    undo(shelf)
    assert _line(worth(shelf, "U2")).part_id == 1


def test_a_model_says_what_any_unit_of_it_carries(shelf: Shelf) -> None:
    """With its maker or without, however it is spaced."""
    _yard(shelf, Piece(SWITCH, family="switch", quantity=3))
    for said in ("BK-20M", "bk 20 m", "Brenka BK-20M"):
        line = _line(worth(shelf, said))
        assert (line.part_id, line.take + line.leave) == (1, 3)


@pytest.mark.parametrize(
    ("piece", "why"),
    [
        (Piece("SF226E", family="thermal_link"), "Not reused: the family sheet says new-only."),
        (Piece(SWITCH, family="switch"), "Scrap: "),
        (Piece("230V 25W", family="lamp"), "No price known, so its worth cannot be told."),
    ],
)
def test_what_must_not_or_cannot_be_judged_is_left(shelf: Shelf, piece: Piece, why: str) -> None:
    """A link is new only; a door switch of an oven whose monitor blew the fuse is scrap.

    Source: design section 5.
    """
    _yard(shelf, piece, why_scrapped="monitor blew the fuse")
    if "price" not in why:
        lot(shelf, piece.marking, family=piece.family, state="untested", price_cents=50_000)
    line = _line(worth(shelf, "U2"))
    assert line.take == 0
    assert line.why.startswith(why)


def test_hazards_come_before_hands(shelf: Shelf) -> None:
    """A magnetron is discharged first."""
    _yard(shelf, Piece("2M214", family="magnetron"))
    assert any("ischarge" in text for text in worth(shelf, "U2").report.hazards)


def test_nothing_is_invented_of_a_model_nobody_took_apart(shelf: Shelf) -> None:
    """It is said how many of its kind are known; a slip is answered with what was meant."""
    _yard(shelf)
    unit(shelf, "U3", maker="Brenka", model="BK-30")
    with pytest.raises(NotFound, match="model of 'U3' gave a part yet; 3 of its kind are known"):
        worth(shelf, "U3")
    with pytest.raises(NotFound, match="No unit of model 'BK-30' gave a part yet"):
        worth(shelf, "BK-30")
    with pytest.raises(WrongInput, match="no unit or model 'U4'"):
        worth(shelf, "U4")
    with pytest.raises(WrongInput, match="Nothing is known of 2025-06-09"):
        worth(shelf, "U2", as_of="2025-06-09")
