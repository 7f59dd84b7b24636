"""Whether a lot is offered at all: first the lots left alone, then those stopped or asked about.

Sources: design section 5 (states, untested, policies); Sharp R-200BW training notes and Daewoo
KOG-131A9A service manual (after the monitor blew the fuse); 40 CFR 761.2(a)(4) (oil).
"""

from __future__ import annotations

from typing import Any

import pytest

from inventory.families.sheet import families, sheet
from inventory.records import Lot, Outcome, Part
from inventory.rules.histories import HISTORIES, history_of
from inventory.rules.judge import judge_lot, salvage_stop

ASK, NO = Outcome.ASK, Outcome.REFUSED


def lot(state: str = "good", origin: str = "salvaged", **more: Any) -> Lot:
    """One piece in a bin."""
    return Lot(7, 1, 1, 0, state, "A1-01", origin, **more)


def outcome(family: str, one: Lot, **more: Any) -> Outcome | None:
    """What the lot rules say of a lot."""
    reason = judge_lot(sheet(family), one, **more)
    return reason.outcome if reason else None


GOOD = [("switch", "clicks"), ("motor_fan", "good"), ("tray", "good"), ("relay", "clicks")]


@pytest.mark.parametrize(("family", "state"), GOOD)
def test_a_tested_good_lot_needs_no_word(family: str, state: str) -> None:
    """It is offered as it is."""
    assert outcome(family, lot(state)) is None


BAD = [(family, state.name) for family in families() for state in sheet(family).states
       if not state.good]  # fmt: skip


@pytest.mark.parametrize(("family", "state"), BAD)
@pytest.mark.parametrize("origin", ["salvaged", "new"])
def test_a_lot_in_a_bad_state_is_never_offered(family: str, state: str, origin: str) -> None:
    """Open, welded, shorted, worn: new or not. Source: design section 5."""
    assert outcome(family, lot(state, origin)) is NO


@pytest.mark.parametrize("origin", ["salvaged", "new", "unknown"])
def test_an_untested_lot_is_tested_first(origin: str) -> None:
    """Offered only under test first, whatever its origin. Source: design section 5."""
    reason = judge_lot(sheet("switch"), lot("untested", origin))

    assert reason is not None
    assert (reason.rule, reason.outcome) == ("test-first", ASK)


def test_a_state_the_sheet_does_not_know_is_no_good_state() -> None:
    """A word typed elsewhere is a question, never good."""
    assert outcome("switch", lot("good")) is ASK
    assert outcome("switch", lot("fine", "new")) is ASK


NEW_ONLY = ("thermal_link", "mov", "hv_fuse", "resistor_fusible")


@pytest.mark.parametrize("family", NEW_ONLY)
@pytest.mark.parametrize("origin", ["salvaged", "unknown"])
def test_what_is_fitted_new_only_is_never_salvaged(family: str, origin: str) -> None:
    """An unknown origin counts as salvaged. Source: Thermodisc G4A data sheet; common practice."""
    assert outcome(family, lot("good", origin)) is NO
    assert outcome(family, lot("good", "new")) is None


def test_a_policy_of_never_stops_every_lot() -> None:
    """No family has it today; the rule stands for the first that does."""
    import dataclasses

    banned = dataclasses.replace(sheet("wire"), policy="never")
    reason = judge_lot(banned, lot("good", "new"))

    assert reason is not None
    assert reason.outcome is NO


def test_a_refusal_wins_over_a_question() -> None:
    """An untested thermal link from a scrapped unit is refused, not to be tested."""
    assert outcome("thermal_link", lot("untested")) is NO


# fuses, capacitors, cut-outs --------------------------------------------------------


def test_a_salvaged_fuse_needs_its_history() -> None:
    """One that carried a surge looks whole. Common practice."""
    assert outcome("fuse", lot("good")) is ASK
    assert outcome("fuse", lot("good", "new")) is None
    assert outcome("fuse", lot("good", history="pulled from a working unit")) is None


def test_class_y_is_fitted_new() -> None:
    """By its place, or because it is nothing but a Y capacitor. Common practice."""
    y = Part("capacitor_safety", ratings={"class": ["Y2"]})
    both = Part("capacitor_safety", ratings={"class": ["X1", "Y2"]})

    assert outcome("capacitor_safety", lot(), part=y) is NO
    assert outcome("capacitor_safety", lot(), part=both) is None
    assert outcome("capacitor_safety", lot(), part=both, place_name="y-capacitor") is NO
    assert outcome("capacitor_safety", lot(origin="new"), part=y) is None


def test_a_protective_place_gets_a_new_cut_out() -> None:
    """A salvaged one serves in a control place only. Common practice."""
    assert outcome("thermal_cutout", lot("clicks"), place_name="cavity-cutout") is NO
    assert outcome("thermal_cutout", lot("clicks"), place_name="control-thermostat") is None
    assert outcome("thermal_cutout", lot("clicks", "new"), place_name="cavity-cutout") is None


OIL: list[tuple[dict[str, Any], Outcome | None]] = [
    ({"no_pcb": True}, None),
    ({"no_pcbs": True}, None),
    ({"no_pcb": False, "no_pcbs": True}, ASK),
    ({"made_year": 1994}, None),
    ({"made_year": 1979}, NO),
    ({"made_year": 1975}, NO),
    ({"made_before_1979": True}, NO),
    ({}, ASK),
]


@pytest.mark.parametrize(("ratings", "expected"), OIL)
def test_an_oil_capacitor_without_a_date_counts_as_pcb(
    ratings: dict[str, Any], expected: Outcome | None
) -> None:
    """Made before 2 July 1979, or unknown. Source: 40 CFR 761.2(a)(4)."""
    part = Part("hv_capacitor", ratings=ratings)

    assert outcome("hv_capacitor", lot(), part=part) is expected


def test_a_new_oil_capacitor_is_not_asked_for_its_date() -> None:
    """It is not from 1979."""
    assert outcome("hv_capacitor", lot(origin="new")) is None


# histories ----------------------------------------------------------------------------

HARMLESS = [("switch", "dead magnetron", None), ("magnetron", "fuse-blown-by-monitor", None),
            ("switch", None, None), ("switch", "fuse-blown-by-monitor", "control-switch"),
            ("tray", "flood", None)]  # fmt: skip


@pytest.mark.parametrize(("family", "history", "where"), HARMLESS)
def test_a_past_that_does_not_touch_the_piece_is_left_alone(
    family: str, history: str | None, where: str | None
) -> None:
    """A magnetron does not mind what blew the fuse; a timer switch was not in the fault."""
    assert salvage_stop(family, history, where) is None


STOPPED = [("switch", "fuse-blown-by-monitor", "monitor"),
           ("switch", "Fuse blown by monitor switch", "primary-interlock"),
           ("interlock_switch", "monitor blew the fuse", None),
           ("fuse", "fuse-blown-by-monitor", "line-fuse"),
           ("switch", "fuse-blown-by-monitor", "somewhere odd"),
           ("thermal_cutout", "tripped", None), ("mov", "surge", None), ("relay", "flood", None),
           ("thermal_cutout", "grease", None), ("wire", "caught fire", None),
           ("fuse", "blown", None), ("relay", "conducted-fault", None)]  # fmt: skip


@pytest.mark.parametrize(("family", "history", "where"), STOPPED)
def test_a_past_that_ends_the_piece_makes_it_scrap(
    family: str, history: str, where: str | None
) -> None:
    """The fault current damaged all three. Source: Sharp R-200BW training notes."""
    reason = salvage_stop(family, history, where)

    assert reason is not None
    assert reason.outcome is NO
    assert reason.source


def test_the_three_switches_and_the_fuse_are_one_set() -> None:
    """Source: Daewoo KOG-131A9A service manual: renew primary, secondary, monitor and fuse."""
    past = "fuse-blown-by-monitor"
    places = ("primary-interlock", "secondary-interlock", "monitor")

    assert all(salvage_stop("interlock_switch", past, where) for where in places)
    assert salvage_stop("fuse", past, "line-fuse")


def test_a_lot_with_such_a_past_is_refused_though_it_clicks() -> None:
    """A test at one ampere does not see the damage."""
    reason = judge_lot(sheet("switch"), lot("clicks", history="fuse-blown-by-monitor"))

    assert reason is not None
    assert (reason.rule, reason.outcome) == ("history", NO)


@pytest.mark.parametrize("name", HISTORIES)
def test_a_history_is_known_by_its_name(name: str) -> None:
    """What one bench writes another reads."""
    assert history_of(name) == name


@pytest.mark.parametrize("text", ["no hot water", "misfires", "does not heat", "", None])
def test_other_words_tell_of_no_history(text: str | None) -> None:
    """A complaint is not a history."""
    assert history_of(text) is None


@pytest.mark.parametrize("place", ["primary-interlock", "monitor", "door-sensing"])
def test_a_salvaged_door_switch_of_no_known_unit_is_asked_about(place: str) -> None:
    """A fault current does not show on the bench. Source: Sharp R-200BW training notes."""
    unknown = judge_lot(sheet("switch"), lot("clicks"), place_name=place)

    assert unknown is not None
    assert (unknown.rule, unknown.outcome) == ("door-history", ASK)
    assert "no bench test shows it" in unknown.sentence


def test_a_door_switch_of_a_known_unit_or_a_new_one_needs_no_word() -> None:
    """Its unit says how it ended; elsewhere than at the door its past is not asked."""
    door = {"place_name": "monitor"}

    assert outcome("switch", lot("clicks", source_unit=3), **door) is None
    assert outcome("switch", lot("clicks", "new"), **door) is None
    assert outcome("switch", lot("clicks"), place_name="control-switch") is None
