"""Rules of single families: first what they leave alone, then what they catch.

Sources: Omron G5RL data sheet; IEC 60335-1 clause 13; LFD and PTI Latam bearing designations;
ISO 9982; IEC 60320-1 (2cit).
"""

from __future__ import annotations

from typing import Any

import pytest

from inventory.records import Outcome
from tests.rules.bench import answer, answers, judged

ASK, NO, MET, NOTE = Outcome.ASK, Outcome.REFUSED, Outcome.MET, Outcome.NOTE

PLAIN = {"series": "G5RL", "contact": "SPST-NO", "coil_vdc": 5}
LATCHING = {**PLAIN, "latching": "single winding"}


def test_two_plain_relays_need_no_word_on_latching() -> None:
    """Both codes were read and neither latches."""
    assert answers(judged("relay", PLAIN, PLAIN), "latching") == [MET]


def test_a_latching_relay_never_replaces_a_plain_one() -> None:
    """It stays closed when the supply goes. Source: Omron G5RL data sheet, U type."""
    assert NO in answers(judged("relay", PLAIN, LATCHING), "latching")


def test_a_plain_relay_does_not_replace_a_latching_one() -> None:
    """It drops out again after the pulse."""
    assert NO in answers(judged("relay", LATCHING, PLAIN), "latching")


def test_latching_of_one_winding_is_not_latching_of_two() -> None:
    """Source: Omron G5RL data sheet, U and K types."""
    assert NO in answers(
        judged("relay", LATCHING, {**PLAIN, "latching": "double winding"}), "latching"
    )


def test_a_latching_relay_for_one_nobody_knows_is_a_question() -> None:
    """The failed relay's code was not read."""
    found = judged("relay", {"contact_form": "SPST-NO"}, LATCHING)

    assert answer(found, "latching").outcome is ASK


def test_a_coil_of_the_other_kind_is_refused() -> None:
    """12 V a.c. is not 12 V d.c. Source: Omron G5RL data sheet."""
    assert answer(judged("relay", {"coil_vdc": 12}, {"coil_vac": 12}), "coil-kind").outcome is NO
    assert answer(judged("relay", {"coil_vac": 24}, {"coil_vdc": 24}), "coil-kind").outcome is NO
    assert answers(judged("relay", {"coil_vdc": 12}, {"coil_vdc": 12}), "coil-kind") == []


# capacitors -----------------------------------------------------------------------

Y2 = {"class": ["Y2"], "capacitance_pf": 2200, "voltage_vac": 250}


@pytest.mark.parametrize(("picofarads", "outcomes"), [(2200, []), (3300, [NO]), (1500, [ASK])])
def test_a_y_capacitor_never_grows(picofarads: int, outcomes: list[Outcome]) -> None:
    """Its value is the leakage current. Source: IEC 60335-1 clause 13."""
    found = judged("capacitor_safety", Y2, {**Y2, "capacitance_pf": picofarads})

    assert answers(found, "y-capacitance") == outcomes


def test_an_x_capacitor_may_be_a_little_larger() -> None:
    """Within 20 % it filters as before. Common practice."""
    x2 = {"class": ["X2"], "capacitance_uf": 0.1, "voltage_vac": 275}

    assert (
        answers(judged("capacitor_safety", x2, {**x2, "capacitance_uf": 0.11}), "y-capacitance")
        == []
    )


@pytest.mark.parametrize(("farads", "outcomes"), [(470, []), (560, []), (330, [NO])])
def test_an_electrolytic_is_not_made_smaller(farads: int, outcomes: list[Outcome]) -> None:
    """-0/+50 %. Common practice."""
    need = {"dielectric": "electrolytic", "capacitance_uf": 470}
    found = judged("capacitor", need, {"dielectric": "electrolytic", "capacitance_uf": farads})

    assert answers(found, "filter-capacitance") == outcomes


# iron, bearings, belts, couplers -----------------------------------------------------


@pytest.mark.parametrize(("has", "outcomes"), [([50, 60], []), (50, []), (60, [NO])])
def test_iron_for_sixty_hertz_is_refused_on_fifty(has: Any, outcomes: list[Outcome]) -> None:
    """It saturates. From memory."""
    found = judged("transformer", {"frequency_hz": 50}, {"frequency_hz": has})

    assert answers(found, "iron-frequency") == outcomes


@pytest.mark.parametrize(("has", "outcomes"), [("2 shields", []), ("2 contact seals", [ASK])])
def test_contact_seals_for_shields_are_a_question(has: str, outcomes: list[Outcome]) -> None:
    """They drag. Source: PTI Latam bearing designations."""
    found = judged("bearing", {"seals": "2 shields"}, {"seals": has})

    assert answers(found, "seal-drag") == outcomes


@pytest.mark.parametrize(("ribs", "outcomes"), [(6, []), (8, [ASK])])
def test_more_ribs_need_a_look(ribs: int, outcomes: list[Outcome]) -> None:
    """Only where both pulleys have room. Source: ISO 9982 (PTI Latam)."""
    assert answers(judged("belt", {"ribs": 6}, {"ribs": ribs}), "more-ribs") == outcomes


@pytest.mark.parametrize(("has", "outcomes"), [("C15", []), ("C13", [NO])])
def test_a_cool_coupler_is_refused_on_a_hot_appliance(has: str, outcomes: list[Outcome]) -> None:
    """C13 stands 70 °C, C15 120 °C. Source: IEC 60320-1 (2cit)."""
    assert answers(judged("coupler", {"sheet": "C15"}, {"sheet": has}), "coupler-heat") == outcomes


COILS = [
    ({"coil_volts_dc": 12}, {"coil_volts_dc": 5}, True),
    ({"coil_volts_dc": 12}, {}, True),
    ({}, {"coil_volts_dc": 12}, True),
    ({"coil_volts_dc": 12}, {"coil_volts_dc": 12}, False),
    ({}, {}, False),
]


@pytest.mark.parametrize(("need", "has", "refused"), COILS)
def test_a_coil_makes_a_relay_of_a_switch(
    need: dict[str, Any], has: dict[str, Any], *, refused: bool
) -> None:
    """SRD-12VDC under the switches is a relay, and 5 V is not 12 V. Common practice."""
    said = {"resistive_a": 10, "volts_ac": [250], "contact_form": "SPDT"}
    found = judged("switch", {**said, **need}, {**said, **has})

    assert answers(found, "coil") == ([NO] if refused else [])


SUPPLIES = [
    ("motor_fan", {"voltage_vac": 230}, {"voltage_vdc": 12}, True),
    ("motor_fan", {"voltage_vdc": 12}, {"voltage_vac": 230}, True),
    ("motor_fan", {"voltage_vac": 230}, {"voltage_vac": 230, "voltage_vdc": 12}, False),
    ("motor_fan", {"voltage_vac": 230}, {"voltage_v": 230}, False),
    ("lamp", {"voltage_vac": 12}, {"voltage_dc_v": 12}, True),
    ("fuse", {"voltage_vac": 250}, {"voltage_vdc": 125}, False),
]


@pytest.mark.parametrize(("family", "need", "has", "refused"), SUPPLIES)
def test_direct_and_alternating_current_are_kept_apart(
    family: str, need: dict[str, Any], has: dict[str, Any], *, refused: bool
) -> None:
    """A 12 V d.c. fan is none for the mains. Common practice."""
    assert answers(judged(family, need, has), "supply-kind") == ([NO] if refused else [])


BY_CLASS = [
    ({"X1": 440, "Y2": 250}, {"class": ["X2"], "voltage_vac": 275}, []),
    ({"X1": 440, "Y2": 250}, {"class": ["X1", "Y2"], "voltage_vac": 300}, [NO]),
    ({"X1": 440, "Y2": 250}, {"voltage_vac_by_class": {"X1": 440, "Y1": 400}}, []),
    ({"X1": 440, "Y2": 300}, {"voltage_vac_by_class": {"X1": 440, "Y2": 250}}, [NO]),
]


@pytest.mark.parametrize(("need", "has", "outcomes"), BY_CLASS)
def test_each_wanted_class_keeps_its_voltage(
    need: dict[str, int], has: dict[str, Any], outcomes: list[Outcome]
) -> None:
    """X1 440 V~, Y2 250 V~ are two ratings of one part. Source: IEC 60384-14."""
    wanted = {"class": list(need), "voltage_vac_by_class": need, "capacitance_uf": 0.0022}
    offered = {"capacitance_uf": 0.0022, "class": list(has.get("voltage_vac_by_class", ())), **has}

    assert answers(judged("capacitor_safety", wanted, offered), "class-voltage") == outcomes


def test_two_poles_are_not_replaced_by_one() -> None:
    """One pole leaves one lead live. Source: IEC 61058-1."""
    said = {"resistive_a": 10, "volts_ac": [250]}
    found = judged("switch", {**said, "contact_form": "DPDT"}, {**said, "contact_form": "SPDT"})
    turned = judged("switch", {**said, "contact_form": "SPDT"}, {**said, "contact_form": "DPDT"})

    assert answers(found, "poles") == [NO]
    assert NO not in answers(turned, "poles")


def test_a_fuse_that_interrupts_less_is_refused() -> None:
    """100 A at 250 V is no 1500 A. Source: UL 248-14, interrupting ratings."""
    said = {"current_a": 5, "speed": "fast", "standard": "UL 248-14", "voltage_v": 250}
    rows = [{"a": 10000, "voltage_v": 125}, {"a": 100, "voltage_v": 250}]
    found = judged("fuse", {**said, "breaking_capacity_a": 1500}, {**said, "interrupting": rows})

    assert answers(found, "breaking_capacity_a") == [NO]


@pytest.mark.parametrize(
    ("want", "have", "asked"), [(0.1, 10, True), (0.1, 0.1, False), (0.1, 1, False), (5, 10, False)]
)
def test_a_power_contact_for_a_signal_is_a_question(
    want: float, have: float, *, asked: bool
) -> None:
    """Silver made for amperes stays open on milliamperes. Source: Omron SS, micro-load types."""
    found = judged("switch", {"dc_a": want, "volts_dc": [30]}, {"dc_a": have, "volts_dc": [30]})

    assert answers(found, "small-load") == ([ASK] if asked else [])


BLEEDERS = [
    ({}, {"bleeder": False}, [ASK]),
    ({}, {"bleeder": True}, []),
    ({}, {}, []),
    ({"bleeder": True}, {"bleeder": False}, [NO]),
    ({"bleeder": False}, {"bleeder": True}, [MET]),
    ({"bleeder": True}, {}, [ASK]),
]


@pytest.mark.parametrize(("need", "has", "outcomes"), BLEEDERS)
def test_the_charge_never_stays_for_want_of_a_bleeder(
    need: dict[str, Any], has: dict[str, Any], outcomes: list[Outcome]
) -> None:
    """With one where none was does no harm; without one is a question or a refusal.

    Source: Daewoo KOG-3667OS service manual (about 9 MΩ).
    """
    said = {"capacitance_uf": 1.0, "voltage_vac": 2100}

    found = judged("hv_capacitor", {**said, **need}, {**said, **has})

    assert answers(found, "bleeder") == outcomes
