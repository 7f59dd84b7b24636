"""Close-out readings held against their limits, region by region.

Sources: Sharp R-21AT and LG MS-1949G service manuals (worked water tests), Daewoo KOR-145M0P
service manual (seconds per watt), Celtek (JIS factor), Histonet (35 W/K); 21 CFR 1030.10; C.R.C.
c. 1370; IEC 60335-2-25; VDE 0701-0702 (Benning ST 755 manual); UK and AU/NZ test practice.
"""

from __future__ import annotations

from typing import Any

import pytest

from inventory.errors import WrongInput
from inventory.rules.closeout import CheckedReading, judge_closeout
from inventory.rules.water import bowl_heat, method, output_power

Passed = bool | None
"""What a check says: passed, failed, or nobody can say."""


def one(region: str, plate: dict[str, Any], **readings: Any) -> CheckedReading:
    """The one judged reading of a set."""
    (checked,) = judge_closeout(readings, plate, region)
    return checked


# water -------------------------------------------------------------------------------

# seconds for 10 K of 1000 g, by the printed power. Source: Daewoo KOR-145M0P service manual
DAEWOO = {600: 70, 650: 64, 700: 60, 750: 56, 800: 52, 850: 49, 900: 47, 950: 44, 1000: 42,
          1050: 40, 1100: 38}  # fmt: skip


@pytest.mark.parametrize(("watts", "seconds"), DAEWOO.items())
def test_the_formula_gives_the_makers_table(watts: int, seconds: int) -> None:
    """P = 4187 · 10 / t, to the whole second of the table."""
    assert output_power(1.0, 10.0, seconds) == pytest.approx(watts, rel=0.012)


def test_the_worked_example_without_bowl() -> None:
    """11 to 21 °C in 42 s is 1000 W. Source: Sharp R-21AT service manual."""
    checked = one("us", {"output_w": 1000}, water_method="iec", water_start_c=11, water_end_c=21,
                  water_seconds=42)  # fmt: skip

    assert checked.value == pytest.approx(997, abs=0.5)
    assert (checked.name, checked.ok, checked.method) == ("output_w", True, "iec")


def test_the_worked_example_with_bowl() -> None:
    """10 to 19.8 °C in 47 s, bowl 600 g at 20 °C: 872 W. Source: LG MS-1949G service manual."""
    checked = one("us", {"output_w": 900}, water_method="iec", water_start_c=10, water_end_c=19.8,
                  water_seconds=47, bowl_g=600, ambient_c=20)  # fmt: skip

    assert round(checked.value) == 872
    assert bowl_heat(600, 19.8, 20.0) == pytest.approx(-66)


# factor in watts per kelvin: Celtek (JIS 70), Histonet (35), twice of it for two litres
FACTORS = {"jis": 70.0, "1l-2min": 35.0, "2l-2min": 70.0}


@pytest.mark.parametrize(("how", "factor"), FACTORS.items())
def test_the_published_factors_are_met(how: str, factor: float) -> None:
    """P = factor · rise."""
    checked = one("us", {}, water_method=how, water_start_c=18, water_end_c=39)

    assert checked.value == pytest.approx(21 * factor, rel=0.005)
    assert checked.ok is None  # no rated output on the plate


def test_the_worked_jis_example() -> None:
    """9.2 K is 644 W. Source: Celtek Electronics, microwave oven power test."""
    checked = one("us", {"output_w": 700}, water_method="jis", water_start_c=20, water_end_c=29.2)

    assert checked.value == pytest.approx(644, rel=0.005)
    assert checked.ok is True


@pytest.mark.parametrize(("seconds", "ok"), [(49, True), (50, False)])
def test_output_below_85_per_cent_fails(seconds: int, ok: Passed) -> None:
    """850 of 1000 W is the limit. Source: Sharp R-21AT service manual: within 15 %."""
    checked = one("us", {"output_w": 1000}, water_method="iec", water_start_c=10, water_end_c=20,
                  water_seconds=seconds)  # fmt: skip

    assert checked.ok is ok


def test_methods_are_never_compared() -> None:
    """700 W traditional is 800 W IEC. Source: G. Gallawa."""
    checked = one("us", {"output_w": 800, "output_method": "iec"}, water_method="1l-2min",
                  water_start_c=18, water_end_c=38)  # fmt: skip

    assert checked.ok is None
    assert "never compared across methods" in checked.sentence


def test_a_power_measured_elsewhere_is_taken_as_it_is() -> None:
    """With its method, if one was named."""
    plate = {"output_w": 800, "output_method": "IEC"}

    assert one("us", plate, output_w=790, water_method="iec").ok is True
    assert one("us", {"output_w": 800}, output_w=500).ok is False


BROKEN = [
    ({"water_end_c": 30, "water_start_c": 20}, "water_method"),
    ({"water_method": "iec", "water_end_c": 20, "water_start_c": 10}, "water_seconds"),
    ({"water_method": "iec", "water_end_c": 20, "water_seconds": 42}, "water_start_c"),
    ({"water_method": "iec", "water_end_c": 20, "water_start_c": 10, "water_seconds": 0},
     "no time"),
    ({"water_method": "kettle", "water_end_c": 20, "water_start_c": 10}, "no water test"),
    ({"water_method": "iec", "water_end_c": 20, "water_start_c": 10, "water_seconds": 42,
      "bowl_g": 600}, "ambient_c"),
]  # fmt: skip


@pytest.mark.parametrize(("readings", "says"), BROKEN)
def test_a_water_test_with_a_hole_is_the_users_mistake(readings: dict[str, Any], says: str) -> None:
    """What is missing is named."""
    with pytest.raises(WrongInput, match=says):
        judge_closeout(readings, {}, "us")


def test_a_method_is_found_however_it_is_typed() -> None:
    """Spaces and capitals do not matter."""
    assert method(" 1L 2min ").id == "1l-2min"


# leakage -----------------------------------------------------------------------------

LEAKAGE = [
    ("us", {}, 4.9, True), ("us", {}, 5.1, False),
    ("us", {"before_sale": True}, 1.2, False), ("us", {"before_sale": True}, 0.9, True),
    ("ca", {}, 1.2, False), ("ca", {"leakage_load": False}, 4.0, True),
    ("eu", {}, 5.0, True), ("au", {}, 5.5, False), ("uk", {}, 0.3, True),
]  # fmt: skip


@pytest.mark.parametrize(("region", "more", "value", "ok"), LEAKAGE)
def test_leakage_has_its_limit_by_region(
    region: str,
    more: dict[str, Any],
    value: float,
    ok: Passed,
) -> None:
    """Sources: 21 CFR 1030.10(c)(1); C.R.C. c. 1370; IEC 60335-2-25 (50 W/m²)."""
    assert one(region, {}, leakage_mw_cm2=value, **more).ok is ok


def test_the_makers_stricter_leakage_limit_wins() -> None:
    """Source: Daewoo service manual: re-adjust above 4 mW/cm²."""
    assert one("us", {"leakage_mw_cm2": 4}, leakage_mw_cm2=4.5).ok is False
    assert one("us", {"leakage_mw_cm2": 9}, leakage_mw_cm2=5.5).ok is False


# earth, insulation, currents -----------------------------------------------------------

EARTH = [
    ("de", {}, 0.3, True), ("de", {}, 0.35, False), ("de", {"cord_m": 12.5}, 0.4, True),
    ("de", {"cord_m": 12.5}, 0.45, False),
    ("de", {"cord_m": 12.6}, 0.45, True), ("de", {"cord_m": 200}, 1.1, False),
    ("eu", {"cord_m": 4}, 0.31, False), ("au", {}, 0.9, True), ("nz", {}, 1.1, False),
    ("uk", {}, 0.12, False), ("uk", {"cord_m": 2, "cord_mm2": 1.0}, 0.13, True),
    ("us", {}, 0.08, True), ("us", {}, 0.11, False),
]  # fmt: skip


@pytest.mark.parametrize(("region", "more", "value", "ok"), EARTH)
def test_earth_has_its_limit_by_region_and_cord(
    region: str,
    more: dict[str, Any],
    value: float,
    ok: Passed,
) -> None:
    """Sources: VDE 0701-0702 (0.3 Ω to 5 m, 0.1 Ω each 7.5 m), UK 0.1 Ω + cord, AS/NZS 3760."""
    assert one(region, {}, earth_ohm=value, **more).ok is ok


INSULATION = [
    ({"protection_class": "I"}, 1.0, True), ({"protection_class": "I"}, 0.9, False),
    ({"protection_class": "II"}, 1.5, False), ({"protection_class": "class 2"}, 2.0, True),
    ({"protection_class": "III"}, 0.25, True),
    ({"protection_class": "I", "heating": True}, 0.3, True),
    ({"protection_class": "II", "heating": True}, 0.3, False),
    ({}, 2.0, True), ({}, 0.1, False), ({}, 1.5, None),
]  # fmt: skip


@pytest.mark.parametrize(("plate", "value", "ok"), INSULATION)
def test_insulation_has_its_limit_by_class(
    plate: dict[str, Any],
    value: float,
    ok: Passed,
) -> None:
    """Source: VDE 0701-0702: 1.0, 2.0 and 0.25 MΩ, heating elements 0.3 MΩ."""
    assert one("de", plate, insulation_mohm=value).ok is ok


CURRENTS = [
    ("de", {}, {"touch_current_ma": 0.5}, True), ("de", {}, {"touch_current_ma": 0.6}, False),
    ("uk", {"protection_class": "II"}, {"touch_current_ma": 0.3}, False),
    ("de", {}, {"protective_current_ma": 3.5}, True),
    ("de", {}, {"protective_current_ma": 3.6}, False),
    ("de", {"heating_kw": 6}, {"protective_current_ma": 5.5}, True),
    ("de", {"heating_kw": 15}, {"protective_current_ma": 10.5}, False),
]  # fmt: skip


@pytest.mark.parametrize(("region", "plate", "readings", "ok"), CURRENTS)
def test_leakage_currents_have_their_limits(
    region: str,
    plate: dict[str, Any],
    readings: dict[str, Any],
    ok: Passed,
) -> None:
    """Source: VDE 0701-0702: 0.5 mA, 3.5 mA, 1 mA per kW up to 10; UK 0.25 mA in class II."""
    assert one(region, plate, **readings).ok is ok


# line current ---------------------------------------------------------------------------

LINE = [
    ({"current_a": 6.2}, {"line_current_a": 6.0}, True),
    ({"current_a": 6.2}, {"line_current_a": 3.0}, False),
    ({"current_a": 6.2}, {"line_current_a": 12.0}, False),
    ({"current_a": "6.2", "voltage_v": 230}, {"line_current_a": 5.0, "line_voltage_v": 207}, True),
    ({}, {"line_current_a": 6.0}, None),
    ({"power_w": 1400}, {"line_power_w": 1350}, True),
    ({"power_w": 1400}, {"line_power_w": 1600}, False),
    ({}, {"line_power_w": 1350}, None),
]


@pytest.mark.parametrize(("plate", "readings", "ok"), LINE)
def test_line_current_and_power_are_held_against_the_plate(
    plate: dict[str, Any],
    readings: dict[str, Any],
    ok: Passed,
) -> None:
    """0.85 to 1.10 of the plate, at the measured voltage. Common practice."""
    assert one("us", plate, **readings).ok is ok


# the whole -------------------------------------------------------------------------------


def test_every_reading_comes_back_with_limit_method_and_source() -> None:
    """A job's close-out is read again years later."""
    readings = {"leakage_mw_cm2": 0.4, "earth_ohm": 0.08, "line_current_a": 6.0}
    checked = judge_closeout(readings, {"current_a": 6.2}, "US")

    assert [entry.name for entry in checked] == ["line_current_a", "leakage_mw_cm2", "earth_ohm"]
    assert all(e.ok and e.limit and e.method and e.source and e.sentence for e in checked)


def test_a_reading_without_a_limit_is_kept_and_decides_nothing() -> None:
    """It is neither passed nor failed."""
    checked = one("us", {}, noise_db=42)

    assert (checked.ok, checked.value) == (None, 42)


@pytest.mark.parametrize("region", ["", "mars"])
def test_an_unknown_region_is_the_users_mistake(region: str) -> None:
    """Limits are the region's; a guess would be one too."""
    with pytest.raises(WrongInput, match="There is no region"):
        judge_closeout({"earth_ohm": 0.1}, {}, region)


def test_a_reading_that_is_no_figure_is_the_users_mistake() -> None:
    """Nothing is judged."""
    with pytest.raises(WrongInput, match="earth_ohm cannot be"):
        judge_closeout({"earth_ohm": "fine"}, {}, "us")
