"""Relay markings: the coil never lands among the contacts, a body style is no temperature."""

from __future__ import annotations

import pytest

from inventory.markings import relay
from inventory.markings.reader import read


@pytest.mark.parametrize(
    ("text", "volts"),
    [
        ("G5LE-14 DC12", 12),
        ("G5LE-1 12 VDC", 12),
        ("SRD-05VDC-SL-C 10A 250VAC 10A 30VDC", 5),
        ("COIL 12VDC 10A 250VAC", 12),
        ("10A 250VAC 24VDC COIL", 24),
        ("JQC-3FF-S-Z 10A 250VAC DC12V", 12),
    ],
)
def test_the_coil_voltage_stays_out_of_the_contact_rating(text: str, volts: int) -> None:
    """Omron writes the coil behind the code, Songle inside it, others beside the word."""
    reading = relay.read(text)

    assert reading.ratings["coil_vdc"] == volts
    assert volts not in reading.ratings.get("volts_dc", [])


def test_a_contact_voltage_is_not_taken_for_the_coil() -> None:
    """10 A at 250 V a.c. and 30 V d.c. on one line are two contact ratings (Songle SRD)."""
    reading = relay.read("10A 250VAC 10A 30VDC")

    assert reading.ratings == {
        "resistive_a": 10,
        "volts_ac": [250],
        "dc_a": 10,
        "volts_dc": [30],
    }


def test_t90_is_a_body_style_and_no_temperature() -> None:
    """SHA-T90 beside SHA-12VDC-S-A, as a relay shop lists it."""
    reading = relay.read("SHA-T90 SHA-12VDC-S-A")

    assert reading.ratings["body"] == "T90"
    assert "ambient_max_c" not in reading.ratings
    assert reading.ratings["coil_vdc"] == 12


def test_a_t_mark_behind_a_rating_is_a_temperature() -> None:
    """Behind an ampere group the same letters are an ambient mark."""
    assert relay.read("16A 250V~ T85").ratings["ambient_max_c"] == 85


def test_throws_are_rated_apart() -> None:
    """Omron G5LE-E: 16 A on NO, 12 A on NC."""
    reading = relay.read("16 A at 250 VAC (NO) 12 A at 250 VAC (NC)")

    assert reading.ratings["ratings"] == [
        {"resistive_a": 16, "volts_ac": [250], "contact": "NO"},
        {"resistive_a": 12, "volts_ac": [250], "contact": "NC"},
    ]
    assert relay.read("NO 10A NC 6A").ratings["ratings"] == [
        {"resistive_a": 10, "contact": "NO"},
        {"resistive_a": 6, "contact": "NC"},
    ]


def test_a_latching_code_says_so() -> None:
    """G5RL-U is single-winding latching. Source: Omron G5RL-U/-K legend."""
    assert relay.read("G5RL-U1A-E 5 VDC").ratings["latching"] == "single winding"


def test_the_high_capacity_letter_is_read_by_the_edition_of_its_legend() -> None:
    """16 A where the legend prints it (LN, HR), high capacity where it prints that (TV8)."""
    assert relay.read("G5RL-1A-E-LN").ratings["current_a"] == 16
    assert "current_a" not in relay.read("G5RL-1A-E-TV8").ratings


def test_coil_data_beside_the_contacts_are_read() -> None:
    """70 ohm for 5 V. Source: Songle SRD coil table, 0.36 W."""
    reading = relay.read("Coil: 5 VDC 70Ω 10A 250VAC")

    assert (reading.ratings["coil_vdc"], reading.ratings["coil_ohm"]) == (5, 70)


def test_the_same_code_has_the_names_of_the_family_asked_for() -> None:
    """A relay code among switches uses the names of a contact marking."""
    assert read("SRD-12VDC-SL-C", "switch").ratings == {
        "coil_volts_dc": 12,
        "sealed": True,
        "contact_form": "SPDT",
    }
    assert read("SRD-12VDC-SL-C", "relay").ratings["contact"] == "SPDT"
