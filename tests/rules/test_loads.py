"""Contact ratings: first what carries, then what does not, then what nobody can say.

Sources: Omron V-15-1C5 data sheet (a.c. and d.c.), Cherry D4 data sheet (bracket and horsepower
of one switch), NEC table 430.248 (full-load currents), Omron G5LE data sheet (NO and NC apart).
"""

from __future__ import annotations

from typing import Any

import pytest

from inventory.records import Outcome
from inventory.rules.loads import Duty, duties, needed, voltage_class
from tests.rules.bench import answer, answers, judged

MET, NOTE, ASK, NO = Outcome.MET, Outcome.NOTE, Outcome.ASK, Outcome.REFUSED

Ratings = dict[str, Any]


def at(volts: int, **amps: float) -> Ratings:
    """A rating at one a.c. voltage."""
    return {**amps, "volts_ac": [volts]}


def horse(power: float, *volts: int | None) -> Ratings:
    """A horsepower at one or several voltages."""
    return {"hp": [{"hp": power, "volts": one} for one in volts]}


BOTH = {"ratings": [{"resistive_a": 20, "volts_ac": [125]}, {"resistive_a": 16, "volts_ac": [250]}]}
"""20 A at 125 V and 16 A at 250 V, as data sheets print it."""

CARRIES: list[tuple[Ratings, Ratings]] = [
    (at(250, resistive_a=16), at(250, resistive_a=16)),
    (at(250, resistive_a=16), at(250, resistive_a=21)),
    (at(125, resistive_a=10), {"resistive_a": 10, "volts_ac": [125, 250]}),
    (at(125, resistive_a=16), at(250, resistive_a=16)),
    (at(250, resistive_a=16), BOTH),
    (at(125, resistive_a=20), BOTH),
    (BOTH, BOTH),
    ({"resistive_a": 10}, at(250, resistive_a=10)),
]


@pytest.mark.parametrize(("need", "has"), CARRIES)
def test_a_rating_carries_its_own_kind(need: Ratings, has: Ratings) -> None:
    """As much current at no lower voltage is enough."""
    assert set(answers(judged("switch", need, has), "resistive_a")) == {MET}


FAILS: list[tuple[Ratings, Ratings]] = [
    (at(250, resistive_a=16), at(250, resistive_a=10)),
    (at(250, resistive_a=16), at(125, resistive_a=20)),
    (at(125, resistive_a=25), BOTH),
    (at(250, resistive_a=20), BOTH),
    ({"resistive_a": 25}, BOTH),
]


@pytest.mark.parametrize(("need", "has"), FAILS)
def test_a_weaker_rating_is_refused(need: Ratings, has: Ratings) -> None:
    """Less current, or the current at a lower voltage only."""
    assert answer(judged("switch", need, has), "resistive_a").outcome is NO


def test_amperes_without_volts_are_a_question() -> None:
    """The offered part says how much, but not at which voltage."""
    reason = answer(judged("switch", at(250, resistive_a=10), {"resistive_a": 16}), "resistive_a")

    assert (reason.outcome, reason.decides) == (ASK, "volts_ac")


def test_a_place_without_volts_is_a_question_where_it_matters() -> None:
    """20 A is there, but at 125 V only."""
    reason = answer(judged("switch", {"resistive_a": 20}, BOTH), "resistive_a")

    assert (reason.outcome, reason.decides) == (ASK, "volts_ac")


def test_a_failed_part_of_two_ratings_asks_for_the_mains() -> None:
    """It carried 20 A at 125 V too; which mains it sits on decides."""
    found = judged("switch", BOTH, at(250, resistive_a=16))

    assert sorted(answers(found, "resistive_a")) == [ASK, MET]


def test_the_stated_mains_decides_between_two_ratings() -> None:
    """Once the tech says 250 V the 125 V figure does not count."""
    found = judged("switch", BOTH, at(250, resistive_a=16), needs={"volts_ac": 250})

    assert answers(found, "resistive_a") == [MET]


def test_a_stated_need_wins_over_what_the_failed_part_could() -> None:
    """The place needs 10 A; the failed part's 16(4) A was head-room."""
    need = {"resistive_a": 16, "motor_a": 4, "volts_ac": [250]}
    found = judged("switch", need, at(250, resistive_a=10), needs={"resistive_a": 10})

    assert answers(found, "resistive_a") == [MET]
    assert answers(found, "motor_a") == []


def test_a_higher_place_voltage_than_any_rating_asks_for_the_whole_current() -> None:
    """Nothing of the failed part holds at 400 V: its largest figure must do there."""
    found = needed(at(250, resistive_a=10), {}, 400.0)

    assert found == (Duty("resistive_a", 10.0, 400.0),)


# direct current -------------------------------------------------------------------


def test_alternating_current_never_carries_direct() -> None:
    """15 A at 250 V a.c. says nothing of 5 A at 30 V d.c. Source: Omron V-15-1C5."""
    direct = {"dc_a": 5, "volts_dc": [30]}
    reason = answer(judged("switch", direct, at(250, resistive_a=15)), "dc_a")

    assert (reason.outcome, reason.decides) == (ASK, "dc_a")


def test_direct_current_is_compared_at_its_own_volts() -> None:
    """0.6 A at 125 V d.c. is not 0.6 A at 250 V d.c. Source: Omron V-15-1C5."""
    has = {"dc_a": 0.6, "volts_dc": [125]}

    assert answer(judged("switch", {"dc_a": 0.6, "volts_dc": [250]}, has), "dc_a").outcome is NO
    assert answer(judged("switch", {"dc_a": 0.5, "volts_dc": [30]}, has), "dc_a").outcome is MET


def test_direct_current_does_not_count_on_the_mains() -> None:
    """A place on a.c. mains does not use the d.c. figure of the failed part."""
    need = {**at(250, resistive_a=10), "dc_a": 0.5, "volts_dc": [125]}
    found = judged("relay", need, at(250, resistive_a=10), place="power-relay")

    assert answers(found, "dc_a") == []


def test_one_current_without_kind_and_only_direct_volts_is_direct() -> None:
    """``0.1A 80 VDC`` is no a.c. rating."""
    assert duties({"current_a": 0.1, "volts_dc": [80]}) == (Duty("dc_a", 0.1, 80.0),)


# motors ------------------------------------------------------------------------------


def test_the_bracket_is_compared_with_the_bracket() -> None:
    """10(3) A is not 10(4) A. Source: IEC 61058-1; Cherry D4 data sheet."""
    has = {"resistive_a": 10, "motor_a": 3, "volts_ac": [250]}

    assert answer(judged("switch", at(250, motor_a=3), has), "motor_a").outcome is MET
    assert answer(judged("switch", at(250, motor_a=4), has), "motor_a").outcome is NO


def test_a_resistive_figure_never_stands_in_for_a_bracket() -> None:
    """21 A resistive says nothing of a 4 A motor: a question, never a conversion."""
    reason = answer(judged("switch", at(250, motor_a=4), at(250, resistive_a=21)), "motor_a")

    assert (reason.outcome, reason.decides) == (ASK, "motor_a")


def test_horsepower_is_compared_at_its_own_voltage() -> None:
    """1/2 hp is 9.8 A at 115 V and 4.9 A at 230 V. Source: NEC table 430.248."""
    met = judged("switch", horse(0.5, 125), horse(0.5, 115))
    less = judged("switch", horse(0.5, 250), horse(0.25, 240))
    elsewhere = judged("switch", horse(0.5, 125), horse(0.5, 250))

    assert [answer(one, "hp").outcome for one in (met, less, elsewhere)] == [MET, NO, ASK]


def test_horsepower_and_bracket_are_never_converted() -> None:
    """D44 is 10(3) A and 1/2 hp, D48 21(8) A and 2 hp. Source: Cherry D4 data sheet."""
    has = {"resistive_a": 10, "motor_a": 3, "volts_ac": [250]}
    reason = answer(judged("switch", horse(0.5, 250), has), "hp")

    assert reason.outcome is ASK


def test_one_known_scheme_is_enough_for_one_duty() -> None:
    """A part with bracket and horsepower is met by either. Source: Cherry D4 data sheet."""
    need = {**at(250, motor_a=3), **horse(0.5, 250)}
    found = judged("switch", need, horse(0.5, 250))

    assert answers(found, "hp") == [MET]
    assert answers(found, "motor_a") == [NOTE]


def test_a_known_failure_in_one_scheme_is_not_outvoted() -> None:
    """The bracket is enough, the horsepower is not: refused."""
    need = {**at(250, motor_a=3), **horse(0.5, 250)}
    has = {**at(250, motor_a=4), **horse(0.25, 250)}

    assert answer(judged("switch", need, has), "hp").outcome is NO


def test_horsepower_without_volts() -> None:
    """Met where every offered voltage is enough, a question where only one is."""
    every = judged("switch", horse(0.5, None), horse(0.5, 125, 250))
    one = judged("switch", horse(0.5, None),
                 {"hp": [{"hp": 0.5, "volts": 250}, {"hp": 0.25, "volts": 125}]})  # fmt: skip

    assert answer(every, "hp").outcome is MET
    assert answer(one, "hp").outcome is ASK


def test_the_stated_mains_picks_the_horsepower_of_its_class() -> None:
    """At 230 V the 125 V horsepower does not count."""
    need = {"hp": [{"hp": 1, "volts": 240}, {"hp": 0.5, "volts": 120}]}
    found = judged("relay", need, horse(1, 250), needs={"volts_ac": 230})

    assert answers(found, "hp") == [MET]


def test_one_plain_horsepower_figure_is_read() -> None:
    """``--need hp=0.5 --need volts_ac=250``."""
    assert duties({"hp": 0.5, "volts_ac": 250}) == (Duty("hp", 0.5, 240.0),)
    assert voltage_class(400) == 400


# other schemes ------------------------------------------------------------------------

APART = [
    ("lamp_a", 5, {"lamp_a": 4}, NO),
    ("lamp_a", 5, {"lamp_a": 5}, MET),
    ("lamp_a", 5, {"resistive_a": 50}, ASK),
    ("ballast_a", 8, {"gp_a": 20}, ASK),
    ("inrush_a", 128, {"resistive_a": 16}, ASK),
    ("inrush_a", 128, {"inrush_a": 100}, NO),
    ("inductive_a", 3, {"resistive_a": 10}, ASK),
    ("gp_a", 10, {"resistive_a": 15}, ASK),
    ("gp_a", 10, {"gp_a": 8}, NO),
    ("lamp_inrush_a", 60, {"inrush_a": 128}, ASK),
    ("lamp_w", 1000, {"lamp_w": 500}, NO),
    ("motor_kw", 0.5, {"motor_kw": 0.55}, MET),
]


@pytest.mark.parametrize(("load", "amount", "has", "outcome"), APART)
def test_schemes_stay_apart(load: str, amount: float, has: Ratings, outcome: Outcome) -> None:
    """Each kind of load is compared with its own kind. Source: design section 5."""
    found = judged("switch", at(250, **{load: amount}), {**has, "volts_ac": [250]})

    assert answer(found, load).outcome is outcome


def test_general_purpose_never_serves_as_resistive_by_itself() -> None:
    """The two are tested at other power factors: a question."""
    found = judged("switch", at(250, resistive_a=10), at(250, gp_a=15))

    assert answer(found, "resistive_a").outcome is ASK


CODES = [
    ({"tv": "TV-8"}, {"tv": "TV-8"}, "tv", MET),
    ({"tv": "TV-8"}, {"tv": "TV-5"}, "tv", NO),
    ({"tv": "TV-8"}, {"resistive_a": 16, "volts_ac": [250]}, "tv", ASK),
    ({"pilot_duty": "B300"}, {"pilot_duty": "A300"}, "pilot_duty", MET),
    ({"pilot_duty": "A300"}, {"pilot_duty": "B300"}, "pilot_duty", NO),
    ({"pilot_duty": "B300"}, {"pilot_duty": "B150"}, "pilot_duty", NO),
    ({"pilot_duty": "R300"}, {"pilot_duty": ["A300", "Q300"]}, "pilot_duty", MET),
    ({"pilot_duty": "R300"}, {"pilot_duty": "A300"}, "pilot_duty", ASK),
]


@pytest.mark.parametrize(("need", "has", "rule", "outcome"), CODES)
def test_codes_are_no_amperes(need: Ratings, has: Ratings, rule: str, outcome: Outcome) -> None:
    """Sources: UL 508 (TV-8), IEC 60947-5-1 contact codes as printed by Eaton."""
    assert answer(judged("relay", need, has), rule).outcome is outcome


def test_the_range_of_a_series_is_nobodys_rating() -> None:
    """``AC 250 V 5 A 10 A 15 A max 16 A`` is a catalogue, not one part."""
    rows = [{"voltage_vac": 250, "current_a": [5, 10, 15], "max_a": 16},
            {"voltage_vac": 125, "current_a": 15, "is_max": True}]  # fmt: skip

    assert duties({"ratings": rows}) == ()


# throws -------------------------------------------------------------------------------

APART_THROWS = {"ratings": [{"resistive_a": 16, "volts_ac": [250], "contact": "NO"},
                            {"resistive_a": 12, "volts_ac": [250], "contact": "NC"}],
                "contact_form": "SPDT"}  # fmt: skip
"""G5LE-E: 16 A on NO, 12 A on NC. Source: Omron G5LE data sheet."""


@pytest.mark.parametrize(("form", "outcome"), [("SPST-NO", MET), ("SPST-NC", NO), (None, ASK)])
def test_each_throw_has_its_own_rating(form: str | None, outcome: Outcome) -> None:
    """16 A is carried on NO, not on NC; without a throw it is a question."""
    need = {**at(250, resistive_a=16), "contact_form": form}

    assert answer(judged("relay", need, APART_THROWS), "resistive_a").outcome is outcome


def test_both_throws_enough_is_enough() -> None:
    """12 A is carried on either throw."""
    assert (
        answer(judged("relay", at(250, resistive_a=12), APART_THROWS), "resistive_a").outcome is MET
    )


def test_a_rating_of_the_other_throw_does_not_count() -> None:
    """Rated for NO only; the monitor works by NC."""
    has = {**at(250, resistive_a=16), "contact": "NO", "contact_form": "SPDT"}
    found = judged("switch", at(250, resistive_a=10), has, place="monitor")

    assert answer(found, "resistive_a").outcome is ASK


ODD: list[Ratings] = [
    {"hp": ["half", {"hp": "half", "volts": 250}]},
    {"hp": "half"},
    {"pilot_duty": ["Z900", "B30"]},
    {"ratings": "16 A"},
    {"ratings": [16, None]},
    {"resistive_a": "sixteen"},
    {"resistive_a": [10, 16]},
]


@pytest.mark.parametrize("said", ODD)
def test_what_is_no_figure_is_no_rating(said: Ratings) -> None:
    """A word where a figure belongs is unknown, not zero."""
    assert duties(said) == ()


def test_a_stated_mains_voltage_replaces_that_of_each_kind() -> None:
    """At 230 V the best figure that holds there; codes stay as they are."""
    said = {**BOTH, "tv": "TV-8", "dc_a": 1, "volts_dc": [30]}
    found = needed(said, {"volts_ac": 230}, 230.0)

    assert Duty("resistive_a", 16.0, 230.0) in found
    assert {duty.load for duty in found} == {"resistive_a", "tv", "dc_a"}


def test_horsepower_of_no_class_here_stays_where_it_is() -> None:
    """Only a 125 V horsepower is known and the place has 230 V: still a question."""
    found = judged("relay", horse(0.5, 125), horse(0.5, 250), needs={"volts_ac": 230})

    assert answer(found, "hp").outcome is ASK


def test_a_load_the_sheet_does_not_know_is_judged_all_the_same() -> None:
    """A thermostat's sheet has no lamp line; the figure still counts."""
    found = judged("thermal_cutout", at(250, lamp_a=5), at(250, lamp_a=2))

    assert answer(found, "lamp_a").outcome is NO


# nothing said --------------------------------------------------------------------------


def test_a_place_whose_load_nobody_said_is_a_question() -> None:
    """Which current? One look at the failed part."""
    reason = answer(judged("switch", {"contact_form": "SPDT"}, BOTH), "resistive_a")

    assert (reason.outcome, reason.effort) == (ASK, 1)


def test_families_without_contacts_are_left_alone() -> None:
    """A fuse's amperes are no contact rating."""
    assert answers(judged("fuse", {"current_a": 5}, {"current_a": 5}), "resistive_a") == []
