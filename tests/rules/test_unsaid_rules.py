"""What must be known of a failed part before anything is good; sources stand in the rules."""

from __future__ import annotations

from typing import Any

import pytest

from inventory.records import Outcome, Verdict
from inventory.rules.loads import unread
from tests.rules.bench import answer, answers, judged

CONTACT: dict[str, Any] = {"contact_form": "SPST-NO", "resistive_a": 10, "volts_ac": [250]}
SENSOR: dict[str, Any] = {"r25_ohm": 10_000, "b_k": 3950}
FILM: dict[str, Any] = {"capacitance_uf": 4.7, "voltage_vdc": 400}
CORE: dict[str, Any] = {"cores": 3, "area_mm2": 1.5, "voltage_v": 500}
BULB: dict[str, Any] = {"base": "E14", "voltage_v": 230, "power_w": 25}

LEFT_ALONE: list[tuple[str, str, dict[str, Any], dict[str, Any]]] = [
    ("coil-unsaid", "relay", {**CONTACT, "coil_vdc": 12}, {**CONTACT, "coil_vdc": 12}),
    ("curve-unsaid", "ntc", SENSOR, SENSOR),
    ("curve-unsaid", "ntc", {"r25_ohm": 10, "diameter_mm": 13}, {"r25_ohm": 10, "diameter_mm": 13}),
    ("size-unsaid", "bearing", {"bore_mm": 8, "series": "60"}, {"bore_mm": 8, "series": "60"}),
    ("size-unsaid", "bearing", {"bore_mm": 8, "outer_mm": 22, "width_mm": 7}, {"bore_mm": 8}),
    ("dielectric-unsaid", "capacitor", {**FILM, "capacitance_uf": 0.01}, FILM),
    ("dielectric-unsaid", "capacitor", FILM, {**FILM, "dielectric": "PP"}),
    ("dielectric-unsaid", "capacitor", {**FILM, "capacitance_uf": 470}, FILM),
    ("earth-unsaid", "cord", CORE, {**CORE, "earth": True}),
    ("earth-unsaid", "cord", {**CORE, "cores": 2}, {**CORE, "cores": 2, "earth": False}),
]

CAUGHT: list[tuple[str, str, dict[str, Any], dict[str, Any]]] = [
    ("coil-unsaid", "relay", CONTACT, {**CONTACT, "coil_vdc": 12}),
    ("curve-unsaid", "ntc", {"r25_ohm": 10_000}, {**SENSOR, "b_k": 3435}),
    ("curve-unsaid", "ntc", {}, SENSOR),
    ("size-unsaid", "bearing", {"bore_mm": 8}, {"bore_mm": 8, "series": "60", "outer_mm": 22}),
    ("dielectric-unsaid", "capacitor", FILM, {**FILM, "dielectric": "electrolytic"}),
    ("dielectric-unsaid", "capacitor", FILM, FILM),
    ("earth-unsaid", "cord", CORE, {**CORE, "earth": False}),
]


@pytest.mark.parametrize(("rule", "family", "need", "has"), LEFT_ALONE)
def test_what_is_known_is_not_asked(
    rule: str, family: str, need: dict[str, Any], has: dict[str, Any]
) -> None:
    """The rule is silent where the figure is there or cannot matter."""
    assert answers(judged(family, need, has), rule) == []


@pytest.mark.parametrize(("rule", "family", "need", "has"), CAUGHT)
def test_what_decides_and_is_not_known_is_asked_of_the_failed_part(
    rule: str, family: str, need: dict[str, Any], has: dict[str, Any]
) -> None:
    """However well the rest agrees, it is no more than a question."""
    found = judged(family, need, has)
    reason = answer(found, rule)

    assert (reason.outcome, reason.of_wanted) == (Outcome.ASK, True)
    assert found.verdict in {Verdict.ASK, Verdict.REFUSED}


@pytest.mark.parametrize("family", ["relay", "ntc", "bearing", "capacitor", "cord"])
def test_one_type_settles_what_nobody_said(family: str) -> None:
    """The same code is the same coil, curve and size."""
    found = judged(family, {}, {}, type_code="QX-77", offered_code="QX-77")

    assert not {reason.rule for reason in found.reasons} & {rule for rule, *_ in CAUGHT}


def test_a_cavity_lamp_of_unknown_heat_is_asked_for() -> None:
    """An ordinary lamp's cement fails in the cavity; in a hood it does not matter."""
    cavity = judged("lamp", BULB, BULB, place="cavity-lamp")
    hood = judged("lamp", BULB, BULB, place="hood-lamp")

    assert answers(cavity, "heat-unsaid") == [Outcome.ASK]
    assert "offered: not known" in answer(cavity, "heat-unsaid").sentence
    assert answers(hood, "heat-unsaid") == []


UNREAD = [
    ({"hp": "half"}, ("hp",)),
    ({"hp": "1/2 HP"}, ()),
    ({"lamp_a": [1, 2]}, ("lamp_a",)),
    ({"pilot_duty": "R300"}, ()),
    ({"pilot_duty": "X9"}, ("pilot_duty",)),
    ({"ratings": [{"motor_a": "some", "volts_ac": 250}]}, ("motor_a",)),
    ({"resistive_a": 16, "motor_a": None}, ()),
]


@pytest.mark.parametrize(("said", "loads"), UNREAD)
def test_a_load_that_cannot_be_read_is_not_left_out(
    said: dict[str, Any], loads: tuple[str, ...]
) -> None:
    """It was written down, so the contact was made for it."""
    assert unread(said) == loads


def test_an_unread_load_of_the_failed_part_is_a_question() -> None:
    """Neither as a group nor by itself does it vanish; of the offered part it does not count."""
    whole = {**CONTACT, "body": "miniature v"}
    row = {"ratings": [{"motor_a": "some", "volts_ac": 250}]}

    assert answers(judged("switch", {**whole, "hp": "half"}, whole), "unread-load") == [Outcome.ASK]
    assert answers(judged("switch", {**whole, **row}, whole), "unread-load") == [Outcome.ASK]
    assert answers(judged("switch", whole, {**whole, "hp": "half"}), "unread-load") == []


VOLTS = [("SJTW", 300), ("SPT-2", 300), ("SVT", 300), ("HPN", 300), ("ST", 600)]


@pytest.mark.parametrize(("service", "volts"), VOLTS)
def test_a_service_cord_is_as_good_as_its_letters(service: str, volts: int) -> None:
    """UL 62: J, V, P and HP cords are for 300 V, plain S for 600 V."""
    need = {**CORE, "voltage_v": volts, "earth": True}
    has = {"cores": 3, "area_mm2": 1.5, "service": service, "earth": True}
    more = {**need, "voltage_v": volts + 1}

    assert answers(judged("cord", need, has), "voltage_v") == [Outcome.MET]
    assert answers(judged("cord", more, has), "voltage_v") == [Outcome.REFUSED]
