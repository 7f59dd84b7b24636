"""A tech's search on a small shelf: what is offered, what is refused and why, and what is asked.

Rules: design section 5 (bad states, untested, interlock places, histories).
"""

from __future__ import annotations

import pytest

from inventory.bench import jobs, moves
from inventory.bench.find import MOST_SIGNS, Answer, Query, find, find_many, measured, refined
from inventory.bench.log import Piece
from inventory.bench.merging import merge
from inventory.bench.testing import bench_test
from inventory.bench.undo import undo
from inventory.bench.xref import add_edges
from inventory.errors import NotFound, WrongInput
from inventory.matching.rank import StandIn
from inventory.records import Edge, Verdict
from inventory.store.shelf import Shelf
from tests.bench.shop import job, lot, unit

OLD = "NFD-V16-63 16(4)A 250V~ T105 1E5"
ALIKE = "16(4)A 250V~ T105 1E5"
SEEN = {"contact_form": "SPST-NO", "body": "V3", "actuator": "pin plunger", "terminals": "qc-6.3"}
OVEN, DOOR = "Brenka BK-20M", "primary-interlock"


@pytest.fixture
def stocked(shelf: Shelf) -> Shelf:
    """Part types 1 to 5: the same one (good and welded), alike, too small, untested, burnt."""
    lot(shelf, OLD, type_code="NFD-V16-63", maker="Nordfeld", ratings=SEEN)
    lot(shelf, ALIKE, type_code="KLM-77", ratings=SEEN)
    lot(shelf, "10(3)A 250V~ T105 1E5", type_code="TOO-10", ratings=SEEN)
    lot(shelf, OLD, type_code="NFD-V16-63", maker="Nordfeld", ratings=SEEN, state="welded")
    lot(shelf, ALIKE, type_code="UNT-1", ratings=SEEN, state="untested", bin="C3")
    burnt = Piece(ALIKE, family="switch", type_code="BAD-1", state="clicks", ratings=SEEN)
    unit(shelf, "U9", burnt, why_scrapped="monitor blew the fuse")
    return shelf


def _offers(found: tuple[StandIn, ...]) -> list[tuple[str | None, Verdict, list[int]]]:
    """Type, verdict and lots."""
    return [(one.part.type_code, one.verdict, [o.lot.id for o in one.lots]) for one in found]


def _why(found: tuple[StandIn, ...]) -> str:
    """All sentences."""
    return " ".join(reason.sentence for one in found for reason in one.judgement.reasons)


def test_the_same_one_comes_first_then_what_fits_then_what_is_untested(stocked: Shelf) -> None:
    """The welded lot is offered nowhere, the burnt one refused, the weaker one not at all."""
    found = find(stocked, Query(OLD))
    assert _offers(found.stand_ins) == [
        ("NFD-V16-63", Verdict.SAME, [1]),
        ("KLM-77", Verdict.FITS, [2]),
        ("UNT-1", Verdict.FITS, [5]),
    ]
    assert found.stand_ins[2].offered_as is Verdict.ASK
    assert _offers(found.found.refused) == [("BAD-1", Verdict.REFUSED, [6])]
    assert "fault current" in _why(found.found.refused)
    assert found.units == {1: "U9"}


def test_at_the_door_only_the_same_type_is_sure(stocked: Shelf) -> None:
    """A rating match alone is a question; one listed for that unit is as good as the same."""
    query = Query(OLD, place=DOOR, unit=OVEN)
    assert [one[:2] for one in _offers(find(stocked, query).stand_ins)] == [
        ("NFD-V16-63", Verdict.SAME),
        ("KLM-77", Verdict.ASK),
        ("UNT-1", Verdict.ASK),
    ]
    listed = Edge("NFD-V16-63", "KLM-77", "listed-alternate", "list", place=DOOR, unit=OVEN)
    add_edges(stocked, [listed])
    assert _offers(find(stocked, query).stand_ins)[1] == ("KLM-77", Verdict.SAME, [2])
    undo(stocked)
    assert _offers(find(stocked, query).stand_ins)[1] == ("KLM-77", Verdict.ASK, [2])


def test_the_last_piece_is_offered_until_it_is_gone(stocked: Shelf) -> None:
    """Scrapped or fitted it is known but not here; undone it is offered again, once."""
    for step in (moves.scrap, moves.fit):
        step(stocked, 1)
        found = find(stocked, Query(OLD))
        assert "NFD-V16-63" not in [one.part.type_code for one in found.stand_ins]
        undo(stocked)
        assert _offers(find(stocked, Query(OLD)).stand_ins)[0][2] == [1]


def test_a_held_piece_is_not_offered_to_another(stocked: Shelf) -> None:
    """It is promised; let go it is free again."""
    moves.hold(stocked, 1, job=job(stocked))
    assert find(stocked, Query(OLD)).stand_ins[0].part.type_code == "KLM-77"
    undo(stocked)
    assert _offers(find(stocked, Query(OLD)).stand_ins)[0][2] == [1]


def test_a_piece_that_comes_back_is_tested_before_it_is_good(stocked: Shelf) -> None:
    """Put back it stands below the tested ones, with a test it is as good as before."""
    moves.fit(stocked, 1, job=job(stocked))
    moves.put_back(stocked, 1)
    assert find(stocked, Query(OLD)).stand_ins[0].part.type_code == "KLM-77"
    bench_test(stocked, 1, {}, state="clicks")
    assert _offers(find(stocked, Query(OLD)).stand_ins)[0] == ("NFD-V16-63", Verdict.SAME, [1])


def test_two_that_were_merged_are_offered_as_one(stocked: Shelf) -> None:
    """With the lots of both, each once; taken apart again they are two."""
    merge(stocked, 1, 2)
    found = find(stocked, Query(OLD))
    assert _offers(found.stand_ins)[0] == ("NFD-V16-63", Verdict.SAME, [1, 2])
    assert find(stocked, Query("KLM-77")).stand_ins[0].part.id == 1
    undo(stocked)
    assert len(find(stocked, Query(OLD)).stand_ins) == 3


def test_what_repaired_such_a_unit_before_is_remembered(stocked: Shelf) -> None:
    """The piece fitted last at the place; one that was tried and put back repaired nothing."""
    number = job(stocked)
    moves.count(stocked, 2, 2)
    moves.fit(stocked, 1, job=number, place=DOOR)
    moves.put_back(stocked, 1, job=number)
    moves.fit(stocked, 2, job=number, place=DOOR)
    readings = {"leakage_mw_cm2": 0.1}
    jobs.close_job(stocked, number, readings, "us", outcome="kept-working")
    found = find(stocked, Query(OLD, place=DOOR, unit=OVEN))
    offered = {one.part.type_code: [road.name for road in one.roads] for one in found.stand_ins}
    assert "past jobs" in offered["KLM-77"]
    assert "past jobs" not in offered.get("NFD-V16-63", [])


def test_needs_alone_are_a_search(stocked: Shelf) -> None:
    """With the family that only they can mean, or that was said; else it is asked for."""
    needs = {"resistive_a": 16, "contact_form": "SPST-NO"}
    found = find(stocked, Query(family="switch", needs=needs))
    assert {one.part.type_code for one in found.stand_ins} == {"NFD-V16-63", "KLM-77", "UNT-1"}
    with pytest.raises(WrongInput, match=r"Say --family too.*is said of: "):
        find(stocked, Query(needs={"resistive_a": 16}))


def test_a_place_in_a_unit_is_a_search(stocked: Shelf) -> None:
    """The place says the family where only one sits there."""
    assert find(stocked, Query(unit=OVEN, place="magnetron")).wanted.family == "magnetron"


@pytest.mark.parametrize(
    ("query", "said"),
    [
        (Query(), "Say what to look for"),
        (Query("  "), "Say what to look for"),
        (Query(unit=OVEN), "Say what to look for"),
        (Query("x" * (MOST_SIGNS + 1)), "no marking"),
        (Query("a\0b"), "NUL"),
        (Query(OLD, family="swich"), "Did you mean switch"),
        (Query(OLD, place="primary-interlok"), "primary-interlock"),
        (Query(OLD, needs={"resistiv_a": 16}), "resistive_a"),
    ],
)
def test_a_query_that_says_nothing_is_refused(stocked: Shelf, query: Query, said: str) -> None:
    """In one sentence, with what was meant where it is near."""
    with pytest.raises(WrongInput, match=said):
        find(stocked, query)


def test_nothing_on_the_shelf_is_an_answer(stocked: Shelf) -> None:
    """No stand-in, and what was understood of the query."""
    found = find(stocked, Query("ZZTOP-99"))
    assert (found.stand_ins, found.wanted.type_code, found.wanted.family) == ((), "ZZTOP-99", None)


def test_many_queries_are_answered_one_by_one(stocked: Shelf) -> None:
    """Each as it would be alone."""
    query = Query(OLD)
    many = list(find_many(stocked, [query, refined(query, limit=1), Query("KLM-77")]))
    assert [len(one.stand_ins) for one in many] == [3, 1, 3]
    assert many[0].stand_ins == find(stocked, query).stand_ins


def test_a_code_two_records_share_says_what_they_agree_on(shelf: Shelf) -> None:
    """What they differ in is not known of the wanted one."""
    lot(shelf, "16A 250V~", type_code="TWO-1", ratings={"contact_form": "SPST-NO", "body": "V3"})
    lot(shelf, "16A 250V~", type_code="TWO-1", ratings={"contact_form": "SPST-NC", "body": "V3"})
    wanted = find(shelf, Query("TWO-1")).wanted
    assert wanted.ratings["body"] == "V3"
    assert "contact_form" not in wanted.ratings


def test_what_was_seen_of_a_part_answers_the_question(shelf: Shelf) -> None:
    """Measured once it is on record; undone, it is asked again; a wrong name is refused."""
    lot(shelf, "16A 250V~", type_code="ASK-1")
    query = Query(family="switch", needs={"contact_form": "SPST-NO", "resistive_a": 16})

    def verdict(found: Answer) -> Verdict:
        return found.stand_ins[0].verdict

    assert verdict(find(shelf, query)) is Verdict.ASK
    measured(shelf, 1, {"contact_form": "SPST-NO"}, dry_run=True)
    assert verdict(find(shelf, query)) is Verdict.ASK
    measured(shelf, 1, {"contact_form": "SPST-NO"})
    assert verdict(find(shelf, query)) is Verdict.FITS
    undo(shelf)
    assert verdict(find(shelf, query)) is Verdict.ASK
    with pytest.raises(WrongInput, match="contact_form"):
        measured(shelf, 1, {"contact_fom": "SPST-NO"})
    with pytest.raises(NotFound):
        measured(shelf, 9, {"contact_form": "SPST-NO"})
