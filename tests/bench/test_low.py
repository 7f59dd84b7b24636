"""What runs short: only what is known to be good counts, and an earlier day says what it said.

Rules: design section 5 (bad states, untested), reference/stock.md sections 0 to 2.
"""

from __future__ import annotations

from dataclasses import asdict
from typing import Any

import pytest

from inventory.bench import jobs, moves, orders
from inventory.bench.log import Piece
from inventory.bench.low import FIGURES, low, set_figure
from inventory.bench.pools import pools_of
from inventory.bench.testing import bench_test
from inventory.bench.undo import undo
from inventory.errors import NotFound, WrongInput
from inventory.stock.report import LowLine
from inventory.store.shelf import Shelf
from tests.bench.shop import SWITCH, job, lot, on, repair, unit


def _line(shelf: Shelf, part: int = 1, as_of: str | None = None) -> LowLine:
    """The report's line of one part type."""
    return next(line for line in low(shelf, as_of=as_of).lines if line.part_id == part)


@pytest.mark.parametrize("state", ["untested", "open", "welded", "weak"])
def test_only_what_tested_good_counts(shelf: Shelf, state: str) -> None:
    """Untested is shown apart, the failed nowhere."""
    lot(shelf, quantity=2)
    lot(shelf, quantity=5, state=state)
    line = _line(shelf)
    assert (line.good, line.untested) == (2, 5 if state == "untested" else 0)


def test_what_is_held_is_taken_off(shelf: Shelf) -> None:
    """It is promised to a job."""
    moves.hold(shelf, lot(shelf, quantity=5), quantity=2, job=job(shelf))
    line = _line(shelf)
    assert (line.good, line.held, line.position) == (5, 2, 3)


def test_what_is_on_order_counts_as_coming(shelf: Shelf) -> None:
    """Until it is here."""
    lot(shelf)
    orders.order(shelf, 1, 4)
    assert (_line(shelf).on_order, _line(shelf).position) == (4, 5)
    orders.receive(shelf, 1, 4)
    assert (_line(shelf).on_order, _line(shelf).untested) == (0, 4)


def test_a_piece_with_a_bad_past_is_no_stock(shelf: Shelf) -> None:
    """It will never be offered, so it must not hide a shortage.

    Source: Sharp R-200BW training notes (the fault current damages the door switches).
    """
    bad = Piece(SWITCH, family="switch", state="clicks")
    unit(shelf, "U1", bad, why_scrapped="monitor blew the fuse")
    assert (_line(shelf).good, _line(shelf).untested) == (0, 0)


def test_a_salvaged_piece_of_a_family_used_only_new_is_no_stock(shelf: Shelf) -> None:
    """A thermal link is new only (design section 5); a bought one counts."""
    link = {"marking": "SF226E", "family": "thermal_link", "state": "good"}
    lot(shelf, **link, origin="salvaged")
    assert _line(shelf).good == 0
    lot(shelf, **link)
    assert _line(shelf).good == 1


def test_a_part_nobody_used_says_so(shelf: Shelf) -> None:
    """A figure out of the prior alone is called that (issue 6, number 5)."""
    lot(shelf)
    assert "no history: prior only" in _line(shelf).basis


def test_demand_is_what_jobs_took_or_lacked_less_what_came_back(shelf: Shelf) -> None:
    """A hold, a count or a scrapped piece is no demand."""
    taken = lot(shelf, quantity=20)
    repair(shelf, taken, 2)
    orders.lacked(shelf, 1, 1, job=job(shelf))
    number = job(shelf)
    moves.fit(shelf, taken, job=number)
    moves.put_back(shelf, taken, job=number, never_powered=True)
    before = _line(shelf).per_month
    moves.scrap(shelf, taken, quantity=5)
    moves.count(shelf, taken, 10)
    moves.hold(shelf, taken)
    assert _line(shelf).per_month == before
    assert "2 jobs" in _line(shelf).basis


def test_demand_that_was_undone_never_was(shelf: Shelf) -> None:
    """A piece fitted by a slip of the finger is no demand once it is taken back."""
    moves.fit(shelf, lot(shelf, quantity=3), job=job(shelf))
    undo(shelf)
    assert "prior only" in _line(shelf).basis


@pytest.mark.parametrize(
    ("name", "value", "sentence"),
    [
        ("service_levl", "0.9", "Did you mean service_level"),
        ("service_level", "often", "Not a number"),
        ("service_level", "7", "service"),
        ("shortage_cost", "1.234", "Not a price"),
    ],
)
def test_a_figure_that_makes_no_sense_is_refused(
    shelf: Shelf, name: str, value: str, sentence: str
) -> None:
    """The report would be wrong from then on."""
    with pytest.raises(WrongInput, match=sentence):
        set_figure(shelf, name, value)


def test_a_figure_changes_the_report(shelf: Shelf) -> None:
    """A longer lead time keeps more on the shelf."""
    repair(shelf, lot(shelf, quantity=9), 5)
    before = _line(shelf).order_up_to
    set_figure(shelf, "lead_time_months", "6")
    assert _line(shelf).order_up_to > before


def test_money_in_the_figures_is_money(shelf: Shelf) -> None:
    """With a price and a cost of being short the level follows from both."""
    repair(shelf, lot(shelf, quantity=9, price_cents=450), 3)
    before = _line(shelf).order_up_to
    set_figure(shelf, "shortage_cost", "300,00")
    set_figure(shelf, "order_cost", "1")
    assert _line(shelf).order_up_to > before


def test_every_figure_has_its_meaning() -> None:
    """What ``salvage figure`` lists."""
    assert all(FIGURES.values())


def test_equals_can_be_counted_as_one(shelf: Shelf) -> None:
    """A shelf full of equals is not short (issue 6, number 1); a bigger one is no equal."""
    full = {"contact_form": "SPST-NO", "body": "V3", "actuator": "pin plunger"}
    for type_code, amps in (("KA-1", 16), ("KA-1", 16), ("KB-1", 25)):
        lot(shelf, f"{type_code} {amps}A 250V~", type_code=type_code, maker="Orvane",
            quantity=1 + amps, ratings=full)  # fmt: skip
    pools = pools_of(shelf)
    assert all(len(members) > 1 for members in pools.values())
    lines = low(shelf, pools=pools).lines
    assert sum(line.good for line in lines) == 17 + 17 + 26


def test_an_empty_shelf_has_nothing_to_report(shelf: Shelf) -> None:
    """No lines, no crash."""
    assert low(shelf).lines == ()


# an earlier day ----------------------------------------------------------------------


def _comparable(shelf: Shelf, as_of: str | None = None) -> list[dict[str, Any]]:
    """The report without the moment of the day it was asked at."""
    return [asdict(line) for line in low(shelf, as_of=as_of).lines]


def _spring(shelf: Shelf) -> int:
    """A shop's spring: two lots, a repair, a hold, an order, a level, a figure."""
    with on("2025-01-07"):
        unit(shelf, "U1", Piece("lamp 25W", family="lamp"), maker="Brenka", model="BK-20M")
        unit(shelf, "U2", maker="Brenka", model="BK-20M")
        taken = lot(shelf, quantity=9, price_cents=400)
        lot(shelf, quantity=2, state="untested")
    with on("2025-02-11"):
        repair(shelf, taken, 2)
        moves.hold(shelf, taken, job=job(shelf))
        bench_test(shelf, 1, {}, state="good")
    with on("2025-03-11"):
        orders.order(shelf, 2, 3)
        orders.keep_at_least(shelf, 2, 4)
        set_figure(shelf, "lead_time_months", "2")
    return taken


def _summer(shelf: Shelf, taken: int) -> None:
    """All that could change what the spring's report says, if time were not an argument."""
    with on("2025-06-10"):
        repair(shelf, taken, 4)
        bench_test(shelf, 3, {}, state="weak")
        undo(shelf)
        bench_test(shelf, 3, {}, state="welded")
        bench_test(shelf, 1, {}, state="open")
        orders.receive(shelf, 2, 3, price_cents=900)
        orders.keep_at_least(shelf, 2, None)
        set_figure(shelf, "lead_time_months", "6")
        set_figure(shelf, "service_level", "0.5")
        unit(shelf, "U2", Piece("lamp 25W", family="lamp"), in_yard=False)
        unit(shelf, "U3", maker="Brenka", model="BK-20M")
        moves.scrap(shelf, taken)


def test_an_earlier_day_says_what_was_said_then(shelf: Shelf) -> None:
    """Recomputed from the journal, whatever came later (issue 6, number 6)."""
    taken = _spring(shelf)
    with on("2025-03-31"):
        then = _comparable(shelf, "2025-03-31")
    _summer(shelf, taken)
    assert _comparable(shelf, "2025-03-31") == then


def test_today_by_the_journal_is_today_by_the_lots(shelf: Shelf) -> None:
    """Both ways of counting agree."""
    taken = _spring(shelf)
    _summer(shelf, taken)
    with on("2025-06-10"):
        now = {line.part_id: (line.good, line.held, line.untested) for line in low(shelf).lines}
        then = low(shelf, as_of="2025-06-10").lines
    assert {line.part_id: (line.good, line.held, line.untested) for line in then} == now


def test_a_test_that_was_undone_leaves_the_state_of_before(shelf: Shelf) -> None:
    """By the journal too, not only in the lot."""
    with on("2025-01-07"):
        number = lot(shelf, quantity=3)
        bench_test(shelf, number, {}, state="weak")
        undo(shelf)
    assert _line(shelf, as_of="2025-01-31").good == 3


def test_a_unit_that_left_later_was_still_to_be_pulled_from(shelf: Shelf) -> None:
    """And one that came later was not."""
    taken = _spring(shelf)
    with on("2025-05-01"):
        orders.keep_at_least(shelf, 1, 5)
    _summer(shelf, taken)
    with on("2025-07-01"):
        lines = low(shelf, as_of="2025-05-31").lines
    told = " ".join(a.sentence for line in lines for a in line.actions if line.part_id == 1)
    assert "U2" in told
    assert "U3" not in told


def test_a_clock_that_went_back_loses_no_event(shelf: Shelf) -> None:
    """The journal's times never go back; now is never before its last event."""
    with on("2025-06-10"):
        repair(shelf, lot(shelf, quantity=3))
    with on("2025-01-01"):
        assert "1 job" in _line(shelf).basis


@pytest.mark.parametrize("said", ["yesterday", "31.10.2025", "2025-13-01", ""])
def test_a_day_that_is_none_is_refused(shelf: Shelf, said: str) -> None:
    """One sentence with an example."""
    with pytest.raises(WrongInput, match="Write it like 2026-03-31"):
        low(shelf, as_of=said)


def test_before_the_shelf_began_nothing_is_known(shelf: Shelf) -> None:
    """No empty report, which would read as that nothing ran short."""
    lot(shelf)
    with pytest.raises(WrongInput, match="Nothing is known of 2001-01-01"):
        low(shelf, as_of="2001-01-01")
    with pytest.raises(NotFound):
        jobs.job_page(shelf, 1)


# by hand ----------------------------------------------------------------------------------


def test_the_figures_are_those_worked_by_hand(shelf: Shelf) -> None:
    """One repair in June, asked at the end of June: Gamma(0.5 + 1 jobs, 2 + 1 months).

    A month: 1.5 / 3 = 0.5 pieces. Over lead time and review, two months, the demand is
    NB(1.5, 3/5): 0.464758, 0.278855, 0.139427, 0.065066, 0.029280, in all 0.948106 up to three
    and 0.977386 up to four, so four are kept for 95 of 100 months. Over the lead time it is
    NB(1.5, 3/4): one free piece runs out with 1 - 0.649519 - 0.243570 = 0.106911.
    Source: reference/stock.md sections 0 and 2.
    """
    with on("2025-06-10"):
        repair(shelf, lot(shelf, quantity=2))
    line = _line(shelf, as_of="2025-06-30")
    assert (line.good, line.position, line.keep_at_least, line.order_up_to) == (1, 1, 4, 4)
    assert line.per_month == pytest.approx(0.5)
    assert line.p_run_out == pytest.approx(0.106911, abs=1e-6)
    assert line.months_without_shortage == pytest.approx(0.977386, abs=1e-6)
    assert line.months_of_cover == pytest.approx(2)
    assert (line.short, line.missing, line.basis) == (True, 3, "1 job in 1 month")
    assert [(one.kind, one.pieces) for one in line.actions] == [("buy", 3)]


def test_a_level_set_by_hand_leads(shelf: Shelf) -> None:
    """What the model would keep is shown beside it; taken back the model leads again."""
    with on("2025-06-10"):
        repair(shelf, lot(shelf, quantity=2))
        orders.keep_at_least(shelf, 1, 2)
        line = _line(shelf)
        assert (line.keep_at_least, line.order_up_to, line.target_from) == (2, 2, "set by hand")
        orders.keep_at_least(shelf, 1, None)
        assert _line(shelf).keep_at_least == line.level_by_model


def test_no_piece_is_counted_twice(shelf: Shelf) -> None:
    """Held, fitted, put back, moved, tested or scrapped: what is there is there once."""
    taken = lot(shelf, quantity=10)
    number = job(shelf)
    moves.hold(shelf, taken, quantity=3, job=number)
    moves.fit(shelf, taken, quantity=2, job=number)
    moves.put_back(shelf, taken, job=number)
    moves.move(shelf, taken, "B9", quantity=2)
    bench_test(shelf, taken, {}, state="weak", pieces=1)
    moves.scrap(shelf, taken)
    line = _line(shelf)
    # ten, less one out, one untested, one weak, one scrapped; one of the three still held
    assert (line.good, line.untested, line.held) == (10 - 1 - 1 - 1 - 1, 1, 1)
    for _ in range(7):
        undo(shelf)
    assert (_line(shelf).good, _line(shelf).untested, _line(shelf).held) == (10, 0, 0)
