"""Bench tests of the other families: good, bad, and not decided, by published limits.

Sources beside each case; where none is published it says common practice or from memory.
"""

from __future__ import annotations

from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from inventory.errors import WrongInput
from inventory.families.sheet import families, sheet
from inventory.rules.family_tests import fuse_limit_ohm, ntc_ohm
from inventory.rules.meter import Finding
from inventory.rules.tested import judge_readings

OL = "OL"
YES, NO = True, False

MF52_PART = {"r25_ohm": 100e3, "b_k": 3950, "tolerance_pct": 1}

CASES: list[tuple[str, dict[str, Any], dict[str, Any], str]] = [
    # fuse: twice the largest drop over the rating. Source: Schurter 0001.2705 data sheet
    ("fuse", {"current_a": 5}, {"cold_ohm": 0.02}, "good"),
    ("fuse", {"current_a": 5}, {"cold_ohm": OL}, "open"),
    ("fuse", {"current_a": 5}, {"cold_mohm": 45}, "drifted"),
    ("fuse", {"current_a": 5}, {"drop_mv_at_1a": 18}, "good"),
    ("fuse", {"current_a": 5}, {"cold_ohm": 0.3}, "untested"),
    ("fuse", {"current_a": 5}, {"cold_ohm": 1.2}, "drifted"),
    ("fuse", {"current_a": 5}, {"cold_ohm": 0.05, "wires": 4}, "drifted"),
    ("fuse", {"current_a": 5}, {"cold_ohm": 0.02, "caps_tight": NO}, "drifted"),
    # 63 mA is 15.75 Ω by design. Source: GMA data sheet
    ("fuse", {"current_a": 0.063}, {"cold_ohm": 15.75}, "untested"),
    ("fuse", {"current_a": 0.063}, {"cold_ohm": 15.75, "reference_ohm": 15.6}, "good"),
    ("fuse", {"current_a": 0.063}, {"cold_ohm": 40, "reference_ohm": 15.6}, "drifted"),
    ("fuse", {}, {"cold_ohm": 0.02}, "untested"),
    ("fuse", {"current_a": 5}, {}, "untested"),
    # high-voltage fuse, links, varistor
    ("hv_fuse", {}, {"cold_ohm": 12}, "good"),
    ("hv_fuse", {}, {"cold_ohm": 12, "spring_stretched": NO}, "open"),
    ("thermal_link", {}, {"cold_ohm": 0.05}, "good"),
    ("thermal_link", {}, {"cold_ohm": OL}, "open"),
    ("mov", {"v1ma_v": 470}, {"v1ma_v": 455, "ohm": OL}, "good"),  # K: ±10 %
    ("mov", {"v1ma_v": 470}, {"v1ma_v": 410}, "drifted"),
    ("mov", {"v1ma_v": 470}, {"v1ma_v": 470, "ohm": 300}, "shorted"),
    ("mov", {}, {"v1ma_v": 470}, "untested"),
    # cut-outs. Sources: LG DLE3777W (below 5 Ω, open infinite), KSD301 classes
    ("thermal_cutout", {"open_c": 85}, {"rest_ohm": 0.1, "opens_at_c": 87}, "clicks"),
    ("thermal_cutout", {"open_c": 85}, {"rest_ohm": 0.1}, "untested"),
    ("thermal_cutout", {"open_c": 85}, {"rest_ohm": 0.1, "opens_at_c": 92}, "untested"),
    ("thermal_cutout", {"open_c": 85, "open_tol_c": 10}, {"rest_ohm": 0.1, "opens_at_c": 92},
     "clicks"),
    ("thermal_cutout", {"open_c": 85, "open_tol_c": 5}, {"rest_ohm": 0.1, "opens_at_c": 92},
     "drifted"),
    ("thermal_cutout", {"open_c": 85}, {"rest_ohm": 0.1, "opens_at_c": 97}, "drifted"),
    ("thermal_cutout", {"open_c": 85}, {"rest_ohm": 0.1, "opens_at_c": "never"}, "welded"),
    ("thermal_cutout", {"open_c": 85}, {"rest_ohm": OL}, "open"),
    ("thermal_cutout", {"open_c": 85}, {"rest_ohm": 7, "opens_at_c": 85}, "drifted"),
    ("thermal_cutout", {"open_c": 85}, {"rest_ohm": 2, "opens_at_c": 85}, "weak"),
    ("thermal_cutout", {"open_c": 85}, {"rest_ohm": 0.1, "hot_ohm": 0.1}, "welded"),
    ("thermal_cutout", {"contact": "NC"}, {"rest_ohm": 0.1, "opens_at_c": 85}, "untested"),
    ("thermal_cutout", {"open_c": 130, "reset_c": 105},
     {"rest_ohm": 0.1, "opens_at_c": 130, "resets_at_c": 108}, "clicks"),
    ("thermal_cutout", {"open_c": 130, "reset_c": 105},
     {"rest_ohm": 0.1, "opens_at_c": 130, "resets_at_c": 80}, "drifted"),
    # the hood thermostat closes at 60 °C. Source: Sharp R-1505
    ("thermal_cutout", {"close_on_rise_c": 60}, {"rest_ohm": OL, "closes_at_c": 61}, "clicks"),
    ("thermal_cutout", {"close_on_rise_c": 60}, {"rest_ohm": 0.1, "hot_ohm": 0.1}, "welded"),
    # high-voltage capacitor. Sources: Sharp R-4G75M, Daewoo KOG-3667OS (bleeder about 9 MΩ)
    ("hv_capacitor", {"capacitance_uf": 0.94},
     {"capacitance_uf": 0.95, "bleeder_mohm": 9, "case_mohm": OL}, "good"),
    ("hv_capacitor", {"capacitance_uf": 0.94},
     {"capacitance_uf": 0.95, "bleeder_mohm": OL, "case_mohm": OL}, "open"),
    ("hv_capacitor", {"capacitance_uf": 0.94},
     {"capacitance_uf": 0.01, "bleeder_mohm": 9, "case_mohm": OL}, "open"),
    ("hv_capacitor", {"capacitance_uf": 0.94},
     {"capacitance_uf": 0.8, "bleeder_mohm": 9, "case_mohm": OL}, "drifted"),
    ("hv_capacitor", {"capacitance_uf": 0.94, "tolerance_pct": 3},
     {"capacitance_uf": 1.0, "bleeder_mohm": 9, "case_mohm": OL}, "drifted"),
    ("hv_capacitor", {"capacitance_uf": 0.94}, {"bleeder_mohm": 0.0001}, "shorted"),
    ("hv_capacitor", {"capacitance_uf": 0.94},
     {"capacitance_uf": 0.95, "bleeder_mohm": 9, "case_mohm": 3}, "leaky"),
    ("hv_capacitor", {"capacitance_uf": 0.94},
     {"capacitance_uf": 0.95, "bleeder_mohm": 9, "case_mohm": OL, "sound": NO}, "drifted"),
    ("hv_capacitor", {"capacitance_uf": 0.94}, {"capacitance_uf": 0.95}, "untested"),
    # high-voltage diode. Source: Sharp R-21AT (a meter with at least 6 V)
    ("hv_diode", {}, {"forward_ohm": 300e3, "reverse_mohm": OL, "battery_v": 9}, "good"),
    ("hv_diode", {}, {"forward_ohm": OL, "reverse_mohm": OL}, "untested"),
    ("hv_diode", {}, {"forward_ohm": OL, "reverse_mohm": OL, "battery_v": 9}, "open"),
    ("hv_diode", {}, {"forward_ohm": 50, "reverse_mohm": 0.00005}, "shorted"),
    ("hv_diode", {}, {"forward_drop_v": 4, "reverse_mohm": OL}, "good"),
    ("hv_diode", {}, {"forward_drop_v": 15, "reverse_mohm": OL}, "open"),
    ("hv_diode", {}, {"forward_ohm": 300e3, "reverse_mohm": 5}, "leaky"),
    ("hv_diode", {}, {"forward_ohm": 300e3, "reverse_mohm": OL, "protector_mohm": 0}, "shorted"),
    # magnetron. Sources: LG 2M214 (100 MΩ), Sharp R-8740 (below 1 Ω), ACP MCS10DS (two thirds)
    ("magnetron", {"output_w": 900}, {"filament_ohm": 0.1, "insulation_mohm": OL}, "untested"),
    ("magnetron", {"output_w": 900},
     {"filament_ohm": 0.1, "insulation_mohm": OL, "output_w": 850}, "good"),
    ("magnetron", {"output_w": 900},
     {"filament_ohm": 0.1, "insulation_mohm": OL, "output_w": 500}, "weak"),
    ("magnetron", {"output_w": 900}, {"filament_ohm": OL}, "open"),
    ("magnetron", {"output_w": 900}, {"filament_ohm": 0.1, "insulation_mohm": 0.001}, "shorted"),
    ("magnetron", {"output_w": 900}, {"filament_ohm": 0.1, "insulation_mohm": 20}, "leaky"),
    ("magnetron", {"output_w": 900}, {"sound": NO}, "weak"),
    # transformer. Sources: Sharp R-8000GK (95 Ω), Daewoo KOR-63B50S (110 ± 10 %)
    ("transformer", {}, {"primary_ohm": 1.2, "secondary_ohm": 95, "filament_ohm": 0.1,
                         "primary_core_mohm": OL}, "good"),
    ("transformer", {"secondary_ohm": 110}, {"secondary_ohm": 80}, "shorted"),
    ("transformer", {}, {"primary_ohm": OL}, "open"),
    ("transformer", {}, {"primary_core_mohm": 2}, "leaky"),
    ("transformer", {}, {"primary_ohm": 1.2}, "untested"),
    # motors: a dead one showed 14.77 kΩ. Source: homeownershub thread
    ("motor_turntable", {}, {"coil_ohm": 14770}, "untested"),
    ("motor_turntable", {}, {"coil_ohm": 14770, "runs": NO}, "seized"),
    ("motor_turntable", {}, {"coil_ohm": 9000, "runs": YES, "starts": 3}, "good"),
    ("motor_turntable", {}, {"runs": YES, "starts": 2}, "seized"),
    ("motor_turntable", {}, {"coil_ohm": OL}, "open"),
    ("motor_fan", {}, {"coil_ohm": 60, "insulation_mohm": 50}, "untested"),
    ("motor_fan", {}, {"runs": "yes", "insulation_mohm": 50}, "good"),
    ("motor_fan", {}, {"runs": "yes", "insulation_mohm": 0.2}, "leaky"),
    ("motor_fan", {}, {"runs": YES, "insulation_mohm": 50, "protector_whole": NO}, "seized"),
    # passive parts
    ("resistor", {"resistance_ohm": 0.8, "tolerance_pct": 5}, {"ohm": 0.83}, "good"),
    ("resistor", {"resistance_ohm": 47300, "tolerance_pct": 1}, {"ohm": 52000}, "drifted"),
    ("resistor", {"resistance_ohm": 47300}, {"ohm": OL}, "open"),
    ("resistor_fusible", {"resistance_ohm": 22}, {"ohm": 22.2}, "good"),
    ("capacitor_safety", {"class": ["X2"], "capacitance_uf": 0.1},
     {"capacitance_uf": 0.098, "insulation_mohm": 30000, "sound": YES}, "good"),
    ("capacitor_safety", {"class": ["X2"], "capacitance_uf": 0.1}, {"capacitance_uf": 0.07},
     "drifted"),
    ("capacitor", {"capacitance_uf": 560}, {"capacitance_uf": 520, "sound": YES}, "good"),
    ("capacitor", {"capacitance_uf": 560, "esr_ohm": 0.1},
     {"capacitance_uf": 520, "sound": YES, "esr_ohm": 0.5}, "drifted"),
    # 100 k, B 3950: 125.4 k at 20 °C, 35.9 k at 50 °C. Source: the B equation, MF52 sheet
    ("ntc", MF52_PART, {"ohm": 125400, "at_c": 20}, "good"),
    ("ntc", MF52_PART, {"ohm": 35900, "at_c": 50}, "good"),
    ("ntc", MF52_PART, {"ohm": 100e3, "at_c": 50},
     "drifted"),
    # 1 % and one kelvin at 50 °C: 34.3 to 37.6 k
    ("ntc", MF52_PART, {"ohm": 34.4e3, "at_c": 50}, "good"),
    ("ntc", MF52_PART, {"ohm": 34.0e3, "at_c": 50}, "drifted"),
    ("ntc", MF52_PART, {"ohm": 37.8e3, "at_c": 50}, "drifted"),
    ("ntc", {"r25_ohm": 100e3}, {"ohm": 101e3, "at_c": 25}, "good"),
    ("ntc", {"r25_ohm": 100e3}, {"ohm": 125400, "at_c": 20}, "untested"),
    ("ntc", {}, {"ohm": 125400, "at_c": 20}, "untested"),
    ("ntc", {"r25_ohm": 100e3, "b_k": 3950}, {"ohm": 125400}, "untested"),
    ("ntc", {"r25_ohm": 10, "diameter_mm": 13}, {"ohm": 11, "at_c": 25}, "good"),
    ("ntc", {"r25_ohm": 100e3, "b_k": 3950}, {"ohm": 0.1, "at_c": 25}, "shorted"),
    ("diode", {}, {"forward_v": 0.6, "reverse_mohm": OL}, "good"),
    ("diode", {}, {"forward_v": 0.0, "reverse_mohm": 0}, "shorted"),
    ("diode", {}, {"forward_v": OL, "reverse_mohm": OL}, "open"),
    ("triac", {}, {"blocking_mohm": OL, "gate_ohm": 40, "triggers": YES}, "good"),
    ("triac", {}, {"blocking_mohm": 0.0001, "triggers": YES}, "shorted"),
    ("triac", {}, {"blocking_mohm": OL, "triggers": NO}, "open"),
    ("inverter_board", {}, {"igbt_ohm": 50e3, "fuse_ohm": 0.1, "sound": YES}, "untested"),
    ("inverter_board", {}, {"igbt_ohm": 200}, "shorted"),
    # lamps, cords, mechanics
    ("lamp", {"voltage_v": 120, "power_w": 40}, {"cold_ohm": 28, "lights": YES}, "good"),
    ("lamp", {}, {"cold_ohm": OL}, "open"),
    ("lamp", {}, {"cold_ohm": 28}, "untested"),
    ("cord", {"earth": True}, {"core_ohm": 0.1, "earth_ohm": 0.1, "insulation_mohm": 100,
                               "sound": YES}, "good"),
    ("cord", {"earth": False}, {"core_ohm": 0.1, "insulation_mohm": 100, "sound": YES}, "good"),
    ("cord", {}, {"core_ohm": 0.1, "insulation_mohm": 100, "sound": YES}, "untested"),
    ("cord", {"earth": True}, {"core_ohm": 0.1, "earth_ohm": 0.9}, "open"),
    ("cord", {}, {"sound": NO}, "damaged"),
    ("tray", {}, {"sound": YES}, "good"),
    ("tray", {}, {"sound": YES, "flat": NO}, "chipped"),
    ("belt", {"length_mm": 2120}, {"sound": YES, "length_mm": 2160}, "worn"),
    ("bearing", {}, {"quiet": YES, "sound": YES}, "good"),
    ("bearing", {}, {"quiet": NO}, "worn"),
    ("other", {}, {"anything": 3}, "untested"),
]  # fmt: skip


@pytest.mark.parametrize(("family", "ratings", "readings", "state"), CASES)
def test_the_state_follows_from_the_readings(
    family: str, ratings: dict[str, Any], readings: dict[str, Any], state: str
) -> None:
    """Good only when everything needed was measured; bad as soon as one limit is broken."""
    found = judge_readings(family, ratings, readings)

    assert found.state == state
    assert found.decided is (state != "untested")
    assert bool(found.missing) is (state == "untested")


@pytest.mark.parametrize("family", families())
def test_nothing_measured_is_nothing_known(family: str) -> None:
    """Without a reading no family is good."""
    found = judge_readings(family, {}, {})

    assert (found.state, found.decided) == ("untested", False)
    assert found.missing


READINGS = st.dictionaries(
    st.sampled_from(sorted({limit.reading for f in families() for limit in sheet(f).limits}
                           | {"rest_ohm", "pressed_ohm", "at_c", "wires", "battery_v"})),
    st.floats(0, 1e9) | st.just(float("inf")) | st.booleans() | st.just("OL"), max_size=8,
)  # fmt: skip


@given(st.sampled_from(families()), READINGS)
def test_any_readings_are_judged(family: str, readings: dict[str, Any]) -> None:
    """The state is one of the family's, and every check has a sentence and a source."""
    found = judge_readings(family, {}, readings)

    assert found.state in sheet(family).state_names()
    assert all(check.sentence and check.source for check in found.checks)
    if found.state in sheet(family).good_states():
        assert not found.missing


def test_an_unknown_family_or_place_is_the_users_mistake() -> None:
    """One sentence each."""
    with pytest.raises(WrongInput, match="no family"):
        judge_readings("toaster", {}, {})
    with pytest.raises(WrongInput, match="no place"):
        judge_readings("switch", {}, {}, "attic")


# the published figures ------------------------------------------------------------------

# T/H 5 x 20, largest drop at rated current. Source: Schurter 0001.2705 data sheet
SCHURTER = {1.0: 0.5, 2.0: 0.19, 3.15: 0.0889, 5.0: 0.04, 10.0: 0.02}


@pytest.mark.parametrize(("amps", "ohms"), SCHURTER.items())
def test_the_fuse_limit_is_twice_the_largest_drop(amps: float, ohms: float) -> None:
    """R = 2 Vmax / In."""
    assert fuse_limit_ohm(amps) == pytest.approx(ohms, rel=1e-3)


def test_between_two_fuse_figures_the_larger_drop_counts() -> None:
    """1.6 A takes the 250 mV of 1 A, not the 190 mV of 2 A."""
    assert fuse_limit_ohm(1.6) == pytest.approx(0.3125)
    assert fuse_limit_ohm(0.1) is None


# R25 100 k, B 3950. Source: the B equation; figures as tabulated for MF52 104F3950
MF52 = {20: 125.4, 30: 80.4, 50: 35.9, 100: 6.98}


@pytest.mark.parametrize(("celsius", "kiloohms"), MF52.items())
def test_the_ntc_equation_gives_the_tabled_figures(celsius: float, kiloohms: float) -> None:
    """Rounded to the digits of the table."""
    assert ntc_ohm(100e3, 3950, celsius) / 1000 == pytest.approx(kiloohms, rel=2e-3)


def test_a_reading_is_said_with_its_limit_and_source() -> None:
    """So that a tech can check the judge."""
    found: Finding = judge_readings("magnetron", {}, {"insulation_mohm": 20})
    (leaky,) = [check for check in found.checks if check.state == "leaky"]

    assert leaky.limit == "at least 100 MΩ"
    assert "2M214" in leaky.source
    assert "20 MΩ" in leaky.sentence
