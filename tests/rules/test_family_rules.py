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
