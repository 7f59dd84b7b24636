"""The bench test: readings go in, the tested state follows; what was not tested is not judged.

Which contact is closed at rest: Daewoo KOG-3805 and LG MB-308DDD service manuals, continuity
tables (a normally closed contact conducts at rest). Limits in ohms: common practice.
"""

from __future__ import annotations

from typing import Any

import pytest

from inventory.bench import look
from inventory.bench.testing import bench_test
from inventory.errors import Refused, WrongInput
from inventory.store.shelf import Shelf
from tests.bench.shop import lot

OL = float("inf")
NO = {"contact_form": "SPST-NO"}
NC = {"contact_form": "SPST-NC"}
SPDT = {"contact_form": "SPDT"}
CLOSES = {"rest_ohm": OL, "pressed_ohm": 0.05}
OPENS = {"rest_ohm": 0.05, "pressed_ohm": OL}


def _state(shelf: Shelf, number: int) -> str:
    """The tested state of a lot."""
    return look.lot_page(shelf, number).lot.state


@pytest.mark.parametrize(
    ("ratings", "readings", "state"),
    [
        (NO, CLOSES, "clicks"),
        (NC, OPENS, "clicks"),
        (NO, {"rest_ohm": OL, "pressed_ohm": OL}, "open"),
        (NO, {"rest_ohm": 0.05, "pressed_ohm": 0.05}, "welded"),
        (NC, {"rest_ohm": 0.05, "pressed_ohm": 0.05}, "welded"),
        (NO, {"rest_ohm": OL, "pressed_ohm": 3.0}, "weak"),
        (NO, {**CLOSES, "clicks": False}, "weak"),
        (NO, {**CLOSES, "drop_mv_at_1a": 300}, "weak"),
        (
            SPDT,
            {"no_rest_ohm": OL, "no_pressed_ohm": 0.05, "nc_rest_ohm": 0.05, "nc_pressed_ohm": OL},
            "clicks",
        ),
    ],
)
def test_the_state_follows_from_the_readings(
    shelf: Shelf, ratings: dict[str, Any], readings: dict[str, Any], state: str
) -> None:
    """Of a contact that closes, one that opens and one that does both."""
    number = lot(shelf, state="untested", ratings=ratings)
    done = bench_test(shelf, number, readings)
    assert (done.lot.state, _state(shelf, number)) == (state, state)


@pytest.mark.parametrize(
    ("ratings", "readings", "missing"),
    [
        (NC, CLOSES, "contact_form"),  # upside down: the record or the hand is wrong
        ({"contact_form": None}, OPENS, "contact_form"),
        (SPDT, CLOSES, "no_rest_ohm"),  # which throw was measured?
        (SPDT, {"no_rest_ohm": OL, "no_pressed_ohm": 0.05}, "nc_rest_ohm"),
        (NO, {"rest_ohm": OL}, "pressed_ohm"),
    ],
)
def test_an_open_question_leaves_the_state(
    shelf: Shelf, ratings: dict[str, Any], readings: dict[str, Any], missing: str
) -> None:
    """Nothing is called good that was not shown to be; what is missing is named."""
    number = lot(shelf, state="untested", ratings=ratings)
    done = bench_test(shelf, number, readings)
    assert done.finding is not None
    assert (done.finding.decided, missing in done.finding.missing) == (False, True)
    assert _state(shelf, number) == "untested"


def test_a_monitor_contact_is_not_judged_upside_down(shelf: Shelf) -> None:
    """At the monitor's place a contact of unsaid form is closed at rest: OL pressed is good."""
    number = lot(shelf, state="untested")
    assert bench_test(shelf, number, OPENS, place="monitor").lot.state == "clicks"


def test_the_readings_and_their_limits_are_kept(shelf: Shelf) -> None:
    """With the source of each limit, the meter and the note; an open circuit as ``OL``."""
    number = lot(shelf, state="untested", ratings=NO)
    bench_test(shelf, number, CLOSES, instrument="bridge 2", note="cold")
    (test,) = look.lot_page(shelf, number).tests
    assert (test["judged_by"], test["instrument"], test["note"]) == ("limits", "bridge 2", "cold")
    rows = {row["name"]: row for row in test["readings"]}
    assert (rows["rest_ohm"]["word"], rows["rest_ohm"]["number"]) == ("OL", None)
    assert rows["pressed_ohm"]["number"] == 0.05
    assert rows["pressed_ohm"]["source"]


def test_a_state_by_hand_is_written_down_as_such(shelf: Shelf) -> None:
    """The whole lot, with no finding; a reading taken along is kept."""
    number = lot(shelf, state="untested", quantity=3)
    done = bench_test(shelf, number, {"clicks": True}, state="clicks")
    assert (done.finding, done.lot.on_hand, done.rest_lot) == (None, 3, None)
    (test,) = look.lot_page(shelf, number).tests
    assert (test["judged_by"], test["readings"][0]["word"]) == ("hand", "True")


def test_a_reading_speaks_for_the_piece_it_was_taken_on(shelf: Shelf) -> None:
    """One of five becomes a lot of its own, the rest stays untested."""
    number = lot(shelf, state="untested", quantity=5, ratings=NO)
    done = bench_test(shelf, number, CLOSES)
    assert (done.lot.id, done.lot.on_hand, done.lot.state) == (2, 1, "clicks")
    assert done.rest_lot is not None
    assert (done.rest_lot.on_hand, done.rest_lot.state) == (4, "untested")


@pytest.mark.parametrize(("pieces", "lots"), [(2, 2), (5, 1)])
def test_the_tech_says_how_many_were_tested(shelf: Shelf, pieces: int, lots: int) -> None:
    """All of them leave the lot in one."""
    number = lot(shelf, state="untested", quantity=5, ratings=NO)
    done = bench_test(shelf, number, CLOSES, pieces=pieces)
    assert (done.lot.id, done.lot.on_hand) == (lots, pieces)


def test_held_pieces_are_not_split_off(shelf: Shelf) -> None:
    """What is promised to a job stays where it is."""
    from inventory.bench import moves

    number = lot(shelf, quantity=2)
    moves.hold(shelf, number, quantity=2)
    with pytest.raises(Refused, match="0 free"):
        bench_test(shelf, number, {}, state="weak", pieces=1)


@pytest.mark.parametrize(
    ("said", "error"),
    [
        ({"readings": {}}, WrongInput),
        ({"readings": {}, "state": "shiny"}, WrongInput),
        ({"readings": {"rest_ohm": "lots"}}, WrongInput),
        ({"readings": CLOSES, "pieces": 2}, WrongInput),
        ({"readings": CLOSES, "pieces": 0}, WrongInput),
        ({"readings": CLOSES, "place": "nowhere"}, WrongInput),
    ],
)
def test_a_test_that_makes_no_sense_is_refused(
    shelf: Shelf, said: dict[str, Any], error: type[Exception]
) -> None:
    """Nothing is written then."""
    number = lot(shelf, state="untested", ratings=NO)
    with pytest.raises(error):
        bench_test(shelf, number, **said)
    assert look.lot_page(shelf, number).tests == ()


def test_an_empty_lot_has_nothing_to_test(shelf: Shelf) -> None:
    """All pieces are gone."""
    from inventory.bench import moves

    number = lot(shelf)
    moves.scrap(shelf, number)
    with pytest.raises(Refused, match="empty"):
        bench_test(shelf, number, {}, state="clicks")


def test_a_dry_run_judges_and_writes_nothing(shelf: Shelf) -> None:
    """The finding is shown, the lot stays as it was."""
    number = lot(shelf, state="untested", ratings=NO)
    done = bench_test(shelf, number, CLOSES, dry_run=True)
    assert done.lot.state == "clicks"
    assert (_state(shelf, number), look.lot_page(shelf, number).tests) == ("untested", ())
