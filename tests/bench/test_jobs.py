"""Repairs: opened, readings judged, closed only when the unit may go out, and what became of it."""

from __future__ import annotations

from typing import Any

import pytest

from inventory.bench import jobs, look, moves
from inventory.bench.undo import undo
from inventory.errors import NotFound, Refused, WrongInput
from inventory.rules.closeout import judge_closeout
from inventory.store import lots
from inventory.store.jobs import Job
from inventory.store.shelf import Shelf
from tests.bench.shop import job, lot, repair

GOOD_LEAK = {"leakage_mw_cm2": 0.4}
BAD_LEAK = {"leakage_mw_cm2": 6.0}
"""21 CFR 1030.10(c)(1): 5 mW/cm² at 5 cm once in use."""


def _held(shelf: Shelf, number: int) -> int:
    """Pieces of a lot that are held."""
    with shelf.read() as connection:
        return lots.get(connection, number).held


def test_a_job_needs_to_say_what_unit_it_is(shelf: Shelf) -> None:
    """Maker, model or kind: one of them."""
    with pytest.raises(WrongInput, match="what unit"):
        jobs.open_job(shelf, Job(0, "", complaint="dead"))
    assert jobs.open_job(shelf, Job(0, "", kind="oven")).id == 1


def test_a_dry_opening_leaves_no_job(shelf: Shelf) -> None:
    """Its number is shown, it is not there."""
    assert jobs.open_job(shelf, Job(0, "", kind="oven"), dry_run=True).id == 1
    with pytest.raises(NotFound):
        jobs.job_page(shelf, 1)


def test_a_page_holds_what_was_fitted_and_what_is_held(shelf: Shelf) -> None:
    """Pieces put back are no longer fitted."""
    number, first, second = job(shelf), lot(shelf, quantity=3), lot(shelf, quantity=2)
    moves.fit(shelf, first, job=number, quantity=2, place="monitor")
    moves.put_back(shelf, first, job=number, never_powered=True)
    moves.hold(shelf, second, job=number)
    page = jobs.job_page(shelf, number)
    assert [(row["lot"], row["pieces"], row["place"]) for row in page.fitted] == [
        (first, 1, "monitor")
    ]
    assert [(row["lot"], row["pieces"]) for row in page.held] == [(second, 1)]


def test_open_jobs_are_listed_alone_or_with_the_closed(shelf: Shelf) -> None:
    """Oldest first."""
    first, second = job(shelf), job(shelf)
    jobs.close_job(shelf, first, {}, "us")
    assert [one.id for one in jobs.list_jobs(shelf)] == [second]
    assert [one.id for one in jobs.list_jobs(shelf, all_jobs=True)] == [first, second]


@pytest.mark.parametrize(
    ("readings", "plate", "region", "ok"),
    [
        (GOOD_LEAK, {}, "us", True),
        (BAD_LEAK, {}, "us", False),
        ({"line_current_a": 6.1}, {"current_a": 6.2}, "us", True),
        ({"line_current_a": 3.0}, {"current_a": 6.2}, "us", False),
        ({"line_current_a": 6.1}, {}, "us", None),
        # DIN EN 50678 (VDE 0701), from memory: up to 0.3 ohm with a cord of 5 m
        ({"earth_ohm": 0.2}, {}, "de", True),
        ({"earth_ohm": 2.0}, {}, "de", False),
        ({"colour": 3}, {}, "us", None),
    ],
)
def test_a_reading_is_held_against_its_limit(
    shelf: Shelf, readings: dict[str, Any], plate: dict[str, Any], region: str, *, ok: bool | None
) -> None:
    """The sentence, the method and the source are kept; where no limit is known nobody passes."""
    number = job(shelf, plate=plate)
    (one,) = jobs.record_readings(shelf, number, readings, region)
    assert one.ok is ok
    (row,) = jobs.job_page(shelf, number).readings
    assert (row["within"], row["sentence"]) == (ok, one.sentence)
    assert row["source"]


def test_a_reading_beyond_its_limit_keeps_the_job_open(shelf: Shelf) -> None:
    """Nothing of the closing is written; measured again it closes."""
    number = job(shelf)
    with pytest.raises(Refused, match="stays open"):
        jobs.close_job(shelf, number, BAD_LEAK, "us")
    assert jobs.job_page(shelf, number).readings == ()
    jobs.record_readings(shelf, number, BAD_LEAK, "us")
    with pytest.raises(Refused, match="Measure again"):
        jobs.close_job(shelf, number, {}, "us")
    page, _ = jobs.close_job(shelf, number, GOOD_LEAK, "us")
    assert page.job.closed_at is not None


def test_what_is_given_up_closes_all_the_same(shelf: Shelf) -> None:
    """It does not go back into use; the readings stay with it."""
    number = job(shelf)
    page, _ = jobs.close_job(shelf, number, BAD_LEAK, "us", given_up=True)
    assert (page.job.outcome, len(page.readings)) == ("given-up", 1)


@pytest.mark.parametrize("place", ["primary-interlock", "secondary-interlock", "monitor"])
def test_work_at_the_door_needs_a_leakage_reading(shelf: Shelf, place: str) -> None:
    """Source: California 16 CCR 2743; 21 CFR 1030.10(c)."""
    number, piece = job(shelf), lot(shelf)
    moves.fit(shelf, piece, job=number, place=place)
    with pytest.raises(Refused, match="leakage must be measured"):
        jobs.close_job(shelf, number, {}, "us")
    page, _ = jobs.close_job(shelf, number, GOOD_LEAK, "us")
    assert page.job.closed_at is not None


def test_work_elsewhere_needs_none(shelf: Shelf) -> None:
    """A lamp lets no microwaves out."""
    number = job(shelf)
    piece = lot(shelf, "25W 240V E14", family="lamp", state="good")
    moves.fit(shelf, piece, job=number, place="cavity-lamp")
    assert jobs.close_job(shelf, number, {}, "us")[0].job.closed_at is not None


def test_closing_lets_go_of_what_was_held(shelf: Shelf) -> None:
    """Of this job only."""
    number, other, piece = job(shelf), job(shelf), lot(shelf, quantity=3)
    moves.hold(shelf, piece, job=number)
    moves.hold(shelf, piece, job=other)
    jobs.close_job(shelf, number, {}, "us")
    assert _held(shelf, piece) == 1
    kinds = [event.kind for event in look.history(shelf, "job", number)]
    assert kinds == ["job-opened", "held", "released", "job-closed"]


def test_a_closed_job_stays_closed(shelf: Shelf) -> None:
    """No readings, no second closing, nothing held or fitted for it."""
    number, piece = job(shelf), lot(shelf)
    jobs.close_job(shelf, number, {}, "us", note="new lamp")
    assert jobs.job_page(shelf, number).job.note == "new lamp"
    for step in (
        lambda: jobs.close_job(shelf, number, {}, "us"),
        lambda: jobs.record_readings(shelf, number, GOOD_LEAK, "us"),
        lambda: moves.hold(shelf, piece, job=number),
        lambda: moves.fit(shelf, piece, job=number),
    ):
        with pytest.raises(Refused, match="closed"):
            step()


def test_an_outcome_nobody_knows_is_refused(shelf: Shelf) -> None:
    """At the closing and later."""
    number = job(shelf)
    with pytest.raises(WrongInput, match="outcome is one of"):
        jobs.close_job(shelf, number, {}, "us", outcome="exploded")
    jobs.close_job(shelf, number, {}, "us", outcome="kept-working")
    with pytest.raises(WrongInput, match="outcome is one of"):
        jobs.set_outcome(shelf, number, "exploded")


def test_a_piece_that_failed_again_is_named(shelf: Shelf) -> None:
    """Only one that was fitted on the job; it counts in the wear report from then on."""
    piece, other = lot(shelf, quantity=2), lot(shelf)
    number = repair(shelf, piece)
    assert jobs.set_outcome(shelf, number, "came-back", failed_lot=piece).outcome == "came-back"
    assert look.history(shelf, "lot", piece)[-1].kind == "failed"
    with pytest.raises(Refused, match=f"Nothing of lot {other}"):
        jobs.set_outcome(shelf, number, "came-back", failed_lot=other)


def test_an_open_job_has_no_outcome_yet(shelf: Shelf) -> None:
    """It is closed first."""
    with pytest.raises(Refused, match="still open"):
        jobs.set_outcome(shelf, job(shelf), "kept-working")


def test_a_region_without_limits_is_refused(shelf: Shelf) -> None:
    """Its name is answered with the known ones."""
    with pytest.raises(WrongInput, match="no region"):
        jobs.record_readings(shelf, job(shelf), GOOD_LEAK, "mars")


def test_a_piece_fails_once(shelf: Shelf) -> None:
    """Said twice it would count twice; of two pieces the second may fail later."""
    piece = lot(shelf, quantity=2)
    number = repair(shelf, piece, 2)
    for _ in range(2):
        jobs.set_outcome(shelf, number, "came-back", failed_lot=piece)
    with pytest.raises(Refused, match=f"Every piece of lot {piece} on job {number} has failed"):
        jobs.set_outcome(shelf, number, "came-back", failed_lot=piece)


def test_a_failure_said_by_mistake_can_be_said_again(shelf: Shelf) -> None:
    """Once it is undone the piece serves as if nothing had been said."""
    piece = lot(shelf)
    number = repair(shelf, piece)
    jobs.set_outcome(shelf, number, "came-back", failed_lot=piece)
    undo(shelf)
    jobs.set_outcome(shelf, number, "came-back", failed_lot=piece)
    assert [e.kind for e in look.history(shelf, "lot", piece)].count("failed") == 2


def test_a_fit_that_was_undone_asks_for_no_reading(shelf: Shelf) -> None:
    """It was said of the wrong job; one that was put back was worked on all the same."""
    number, piece = job(shelf), lot(shelf)
    moves.fit(shelf, piece, job=number, place="monitor")
    undo(shelf)
    assert jobs.close_job(shelf, number, {}, "us")[0].job.closed_at is not None
    other = job(shelf)
    moves.fit(shelf, piece, job=other, place="monitor")
    moves.put_back(shelf, piece, job=other)
    with pytest.raises(Refused, match="leakage must be measured"):
        jobs.close_job(shelf, other, {}, "us")


def test_a_door_switch_without_a_place_still_wants_the_leakage(shelf: Shelf) -> None:
    """A place left unsaid is no way round the survey. Source: 21 CFR 1030.10(c)."""
    number = job(shelf)
    taken = lot(shelf, "NFD-V16-63 16(4)A 250V~", family="interlock_switch")
    moves.fit(shelf, taken, job=number)
    with pytest.raises(Refused, match="a door-interlock switch was fitted"):
        jobs.close_job(shelf, number, {"earth_ohm": 0.05}, "us")
    page, _ = jobs.close_job(shelf, number, {"leakage": 0.4}, "us")
    assert page.job.closed_at


def test_the_beginning_of_a_reading_is_enough(shelf: Shelf) -> None:
    """It is kept and judged under its whole name; one that could be two stays as typed."""
    number = job(shelf)
    checked = jobs.record_readings(shelf, number, {"leakage": 6.0, "line": 1.0}, "us")
    assert [(one.name, one.ok) for one in checked] == [("leakage_mw_cm2", False), ("line", None)]


def test_every_reading_that_is_asked_for_has_a_limit() -> None:
    """A name a person is offered is one the close-out judges."""
    checked = judge_closeout(dict.fromkeys(jobs.READINGS, 1.0), {}, "us")
    assert {one.name for one in checked if one.source != "no source"} == set(jobs.READINGS)


def test_the_place_of_the_hold_is_the_place_of_the_fit(shelf: Shelf) -> None:
    """What was said once is not asked for again."""
    number, taken = job(shelf), lot(shelf)
    moves.hold(shelf, taken, job=number, place="primary-interlock")
    assert moves.fit(shelf, taken, job=number).place == "primary-interlock"
    with pytest.raises(Refused, match="primary-interlock was worked on"):
        jobs.close_job(shelf, number, {}, "us")


def test_one_reading_under_two_names_is_refused(shelf: Shelf) -> None:
    """A good figure never takes the place of a bad one because its name is shorter."""
    number = job(shelf)
    with pytest.raises(WrongInput, match="twice"):
        jobs.record_readings(shelf, number, {"leakage_mw_cm2": 9.0, "leakage": 0.4}, "us")
