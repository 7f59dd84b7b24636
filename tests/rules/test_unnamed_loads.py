"""Loads, volts and currents that nobody named: asked for, never guessed.

Sources: NEC table 430.248 (horsepower and mains voltages); IEC 60947-5-1 (utilization
categories); design section 5 (separate quantities).
"""

from __future__ import annotations

from typing import Any

import pytest

from inventory.records import Outcome
from inventory.rules.loads import Duty, duties
from tests.rules.bench import answer, judged

ASK, NO, MET = Outcome.ASK, Outcome.REFUSED, Outcome.MET
Ratings = dict[str, Any]


def at(volts: int, **loads: Any) -> Ratings:
    """Ratings at one a.c. voltage."""
    return {**loads, "volts_ac": [volts]}


def horse(power: float, volts: int | None) -> Ratings:
    """A horsepower at one voltage, or at none."""
    return {"hp": [{"hp": power, "volts": volts}]}


UNNAMED: list[tuple[Ratings, Ratings]] = [
    (at(250, amps=5), at(250, resistive_a=5)),
    ({"amps": 5, "volts": [24]}, {"dc_a": 10, "volts_dc": [24]}),
    ({"amps": 5, "volts": [24]}, {"amps": 5, "volts": [24]}),
]


@pytest.mark.parametrize(("need", "has"), UNNAMED)
def test_a_wanted_figure_without_its_load_is_a_question(need: Ratings, has: Ratings) -> None:
    """Nobody knows what a bare figure switches: one look at the failed part's wiring."""
    reason = answer(judged("switch", need, has), "amps")

    assert (reason.outcome, reason.effort, reason.of_wanted) == (ASK, 1, True)


@pytest.mark.parametrize("load", ["resistive_a", "gp_a", "motor_a", "dc_a"])
def test_an_offered_figure_without_its_load_stands_for_no_rating(load: str) -> None:
    """``10 A 24 V`` of an unknown kind is no 5 A of a known one."""
    volts = "volts_dc" if load == "dc_a" else "volts_ac"
    found = judged("switch", {load: 5, volts: [24]}, {"amps": 10, "volts": [24]})
    reason = answer(found, load)

    assert reason.outcome is ASK
    assert "10 A at 24 V without the load" in reason.sentence


def test_a_rated_current_on_direct_current_alone_is_no_alternating_one() -> None:
    """A thermostat rated 10 A 24 V d.c. says nothing of the mains."""
    has = {"current_a": 10, "dc_a": 10, "voltage_vdc": 24, "volts_dc": [24]}
    found = judged("thermal_cutout", at(250, resistive_a=5), has)

    assert answer(found, "resistive_a").outcome is ASK


def test_a_makers_own_figure_in_a_row_counts() -> None:
    """A code's rating beside a printed one: rows of one marking."""
    rows = {"ratings": [{"maker_rating_a": 16, "volts_ac": [250]},
                        {"gp_a": 10, "volts_ac": [125]}]}  # fmt: skip

    assert Duty("resistive_a", 16.0, 250.0) in duties(rows)


CATEGORIES = [("ac15_a", "AC-15 current"), ("locked_rotor_a", "Locked-rotor current"),
              ("motor_fla_a", "Motor full-load current")]  # fmt: skip


@pytest.mark.parametrize(("load", "name"), CATEGORIES)
def test_a_category_is_a_quantity_of_its_own(load: str, name: str) -> None:
    """AC-15 is a test with coils; full-load amperes are a motor's. Source: IEC 60947-5-1."""
    reason = answer(judged("switch", at(250, **{load: 3}), at(250, resistive_a=16)), load)

    assert reason.outcome is ASK
    assert reason.sentence.startswith(name)


@pytest.mark.parametrize(("want", "have"), [(250, 240), (125, 120)])
def test_a_neighbouring_name_of_one_mains_is_a_question(want: int, have: int) -> None:
    """240 and 250 V are one mains by two names. Source: NEC table 430.248, voltage columns."""
    found = judged("switch", at(want, resistive_a=10), at(have, resistive_a=10))
    reason = answer(found, "resistive_a")

    assert (reason.outcome, reason.decides, reason.of_wanted) == (ASK, "volts_ac", True)
    settled = judged("switch", at(want, resistive_a=10), at(have, resistive_a=10),
                     needs={"volts_ac": have})  # fmt: skip
    assert answer(settled, "resistive_a").outcome is MET


def test_direct_current_has_no_neighbouring_names() -> None:
    """Every volt of a d.c. arc counts."""
    found = judged("switch", {"dc_a": 1, "volts_dc": [125]}, {"dc_a": 1, "volts_dc": [120]})

    assert answer(found, "dc_a").outcome is NO


def test_a_refused_load_says_why_the_figure_matters() -> None:
    """The sentence carries both figures, their units and the reason."""
    sentence = answer(judged("switch", at(250, resistive_a=16), at(250, resistive_a=10)),
                      "resistive_a").sentence  # fmt: skip

    assert sentence == (
        "Resistive current: wanted 16 A at 250 V; offered 10 A at 250 V:"
        " a lighter contact overheats and welds."
    )


ANY_MAINS = [
    ({"resistive_a": 10}, at(250, resistive_a=10), MET),
    ({"resistive_a": 10}, at(125, resistive_a=10), ASK),
    ({"resistive_a": 10}, {"resistive_a": 10}, ASK),
    ({"resistive_a": 10}, at(250, resistive_a=5), NO),
    ({"dc_a": 1}, {"dc_a": 1, "volts_dc": [30]}, ASK),
]


@pytest.mark.parametrize(("need", "has", "outcome"), ANY_MAINS)
def test_a_duty_without_volts_is_met_on_any_mains_only(
    need: Ratings, has: Ratings, outcome: Outcome
) -> None:
    """Nobody said 120 or 230 V: a 125 V contact is a question. Common practice."""
    (load,) = need

    assert answer(judged("switch", need, has), load).outcome is outcome


def test_horsepower_on_one_mains_says_nothing_of_the_other() -> None:
    """1/6 hp is 4.4 A at 115 V; 1/4 hp at 230 V is 2.9 A. Source: NEC table 430.248."""
    reason = answer(judged("switch", horse(0.1667, None), horse(0.25, 250)), "hp")

    assert (reason.outcome, reason.of_wanted) == (ASK, True)


def test_a_stated_mains_is_no_question_any_more() -> None:
    """The tech said 250 V: 240 V printed on the offered part is not enough."""
    found = judged("switch", at(250, resistive_a=10), at(240, resistive_a=10),
                   needs={"volts_ac": 250})  # fmt: skip

    assert answer(found, "resistive_a").outcome is NO


def test_a_load_that_is_not_met_makes_the_fit_looser() -> None:
    """A part without any d.c. rating is no close fit for one with it."""
    need = {**at(240, resistive_a=10), "dc_a": 10, "volts_dc": [28]}
    whole, half = judged("switch", need, need), judged("switch", need, at(250, resistive_a=10))

    assert whole.closeness == 1.0
    assert half.closeness == 0.5
