"""More stories from the bench: fuses, suppression, relays, motors, light, cords, moving parts."""

from __future__ import annotations

from typing import Any

import pytest

from inventory.records import Verdict
from inventory.store.shelf import Shelf
from tests.test_scenarios import Bench, new, salvaged, why


@pytest.fixture
def bench(shelf: Shelf) -> Bench:
    """An empty bench."""
    return Bench(shelf)


# fuses ----------------------------------------------------------------------------------


def fuses(bench: Bench) -> Bench:
    """Four 5 A fuses that look alike, and one of 6.3 A."""
    return bench.lay(
        new("fuse", "T5AL250V 5x20"), new("fuse", "F5AL250V 5x20"), new("fuse", "T5AH250V 5x20"),
        new("fuse", "T6.3AL250V 5x20"), new("fuse", "GMC 5A 250V", size_mm=[5, 20]),
    )  # fmt: skip


def test_a_slow_fuse_keeps_its_speed_its_amperes_and_its_system(bench: Bench) -> None:
    """T stays T, 5 A stays 5 A, IEC stays IEC; H may stand in for L.

    Source: IEC 60127-2; UL 248-14; Sharp R-3A88 service manual.
    """
    said = fuses(bench).says("T5AL250V 5x20", family="fuse")
    good = {code for code, verdict in said.items() if verdict in {"same", "fits"}}

    assert good == {"T5AL250V 5x20", "T5AH250V 5x20"}
    assert {said.get("T6.3AL250V 5x20"), said.get("GMC")} <= {None, "refused"}


def test_a_high_capacity_fuse_is_not_replaced_by_a_low_one(bench: Bench) -> None:
    """A glass L fuse bursts where an H one clears. Source: IEC 60127-2, 1500 A against 35 A."""
    answer = fuses(bench).ask("T5AH250V 5x20", family="fuse")

    assert [one.part.marking for one in answer.stand_ins] == ["T5AH250V 5x20"]
    assert "bursts" in why(answer, "T5AL250V 5x20")


def test_a_fuse_of_the_other_system_is_refused_with_the_reason(bench: Bench) -> None:
    """An IEC fuse holds 1.5 times its amperes for an hour, a UL one opens at 1.35 times."""
    answer = fuses(bench).ask("GMC 5A 250V", family="fuse", needs={"size_mm": [5, 20]})
    good = [one.part.marking for one in answer.stand_ins if one.verdict is not Verdict.ASK]

    assert good == ["GMC 5A 250V"]


def test_a_cartridge_never_stands_in_for_the_high_voltage_fuse(bench: Bench) -> None:
    """Its arc does not go out at 4 kV. Source: hi1718 parts note on 5 kV oven fuses."""
    bench.lay(new("fuse", "F0.8AL250V"), new("hv_fuse", "0.8A 5kV"), new("hv_fuse", "0.75A 5kV"))
    said = bench.says("5KV 0.8A", family="hv_fuse")

    assert said["0.8A 5kV"] == "fits"
    assert {said.get("F0.8AL250V"), said.get("0.75A 5kV")} <= {None, "refused"}


def test_a_salvaged_fuse_without_a_history_is_a_question(bench: Bench) -> None:
    """It may have carried a surge and looks whole. Common practice."""
    bench.lay(salvaged("fuse", "T5AL250V 5x20"))
    answer = bench.ask("T5AL250V 5x20", family="fuse")

    assert [one.verdict for one in answer.stand_ins] == [Verdict.ASK]
    assert "fit a new one" in why(answer, "T5AL250V 5x20")


# suppression ------------------------------------------------------------------------------


def test_an_x_capacitor_never_goes_to_metal_that_people_touch(bench: Bench) -> None:
    """X2 in a Y place is refused, X1/Y2 and Y1 serve, a larger Y leaks more.

    Source: IEC 60384-14; IEC 60335-1 clause 13.2.
    """
    bench.lay(new("capacitor_safety", "2200pF 275V~ X2", "SX"),
              new("capacitor_safety", "2200pF 250V~ X1/Y2", "SXY"),
              new("capacitor_safety", "2200pF 400V~ Y1", "SY1"),
              new("capacitor_safety", "2700pF 250V~ Y2", "SY27"))  # fmt: skip
    said = bench.says("222M Y2 250V~", family="capacitor_safety", place="y-capacitor")

    assert (said["SXY"], said["SY1"]) == ("fits", "fits")
    assert {said.get("SX"), said.get("SY27")} <= {None, "refused"}
    wrong = bench.says("2n2 X2 275V~", family="capacitor_safety", place="y-capacitor")
    assert wrong["SX"] == "refused"


def test_the_mains_takes_only_a_capacitor_with_its_class(bench: Bench) -> None:
    """A film capacitor of 630 V d.c. has no business across the line. Source: IEC 60384-14."""
    bench.lay(new("capacitor", "0.1uF 630V", "FILM"),
              new("capacitor_safety", "0.1uF K 275V~ X2", "SX"))  # fmt: skip
    said = bench.says("0.1µF K 275V~ X2", family="capacitor_safety", place="x-capacitor")

    assert said["SX"] == "fits"
    assert said.get("FILM") in {None, "refused"}


# relays -----------------------------------------------------------------------------------

RELAY: dict[str, Any] = {
    "coil_vdc": 12, "contact_form": "SPST-NO", "poles": 1, "footprint": "5 x 20",
    "resistive_a": 16, "volts_ac": [250], "latching": False, "terminals": "pcb",
}  # fmt: skip


def test_a_latching_relay_is_none_that_drops_out(bench: Bench) -> None:
    """It stays closed when the supply goes. Source: Omron G5RL data sheet, types U and K."""
    bench.lay(new("relay", code="ORL-16", **RELAY),
              new("relay", code="ORL-16U", **{**RELAY, "latching": True}),
              new("relay", code="ORL-24", **{**RELAY, "coil_vdc": 24}),
              new("relay", code="ORL-10", **{**RELAY, "resistive_a": 10}))  # fmt: skip
    said = bench.says(family="relay", needs=RELAY)
    answer = bench.ask(family="relay", type_code="QRX-7", needs=RELAY)

    assert said["ORL-16"] == "fits"
    assert {said.get(code) for code in ("ORL-16U", "ORL-24", "ORL-10")} <= {None, "refused"}
    assert [one.part.type_code for one in answer.stand_ins] == ["ORL-16"]


# motors and light -------------------------------------------------------------------------


def test_turntable_motors_of_three_voltages_look_alike(bench: Bench) -> None:
    """21 V burns on 230 V, 230 V stands still on 21 V, 120 and 240 V are two mains.

    Source: common practice; a field report of a 2.5/3 r/min motor (homeownershub).
    """
    bench.lay(new("motor_turntable", "AC 21V 50/60Hz 2.5/3RPM 3W", "TM-21"),
              new("motor_turntable", "AC 220-240V 50/60Hz 2.5/3RPM 4W", "TM-230"),
              new("motor_turntable", "AC 120V 60Hz 2.5/3RPM 3W", "TM-120"))  # fmt: skip

    for volts, code in (("220-240", "TM-230"), ("120", "TM-120"), ("21", "TM-21")):
        said = bench.says(f"AC {volts}V 2.5/3RPM 3W", family="motor_turntable")
        assert {name for name, verdict in said.items() if verdict != "refused"} == {code}


def test_a_lamp_may_be_weaker_and_never_stronger(bench: Bench) -> None:
    """25 W for 40 W is only darker; 40 W for 25 W cooks the holder. Common practice."""
    bench.lay(new("lamp", "E14 25W 240V 300°C", "L25"), new("lamp", "E14 40W 240V 300°C", "L40"),
              new("lamp", "E14 15W 240V", "L15"))  # fmt: skip

    assert bench.says("E14 40W 240V 300°C") == {"L40": "fits", "L25": "fits", "L15": "ask"}
    assert bench.says("E14 25W 230V 300°C") == {"L25": "fits", "L15": "ask", "L40": "refused"}


# cords and moving parts -----------------------------------------------------------------


def test_a_cord_never_loses_its_earth_or_its_copper(bench: Bench) -> None:
    """Two cores for three, 0.75 for 1.5 mm²: refused. Source: IEC 60335-1 clause 27; HD 361."""
    bench.lay(new("cord", "H05VV-F 3G1.5", "C3"), new("cord", "H05VV-F 2X1.5", "C2"),
              new("cord", "H05VV-F 3G0.75", "C075"),
              new("cord", "H05VV-F 3G2.5", "C25"))  # fmt: skip
    answer = bench.ask("H05VV-F 3G1.5", family="cord")
    said = bench.says("H05VV-F 3G1.5", family="cord")

    assert said == {"C3": "fits", "C25": "fits", "C2": "refused", "C075": "refused"}
    assert "without earth kills" in why(answer, "C2")


def test_cords_of_one_type_are_not_one_part(bench: Bench) -> None:
    """SJT is a kind of jacket: 18/2 is not 16/3. Source: UL 62 type letters."""
    bench.lay(new("cord", "SJT 16/3"), new("cord", "SJT 18/2"))

    assert bench.says("SJT 16/3", family="cord") == {"SJT 16/3": "fits", "SJT 18/2": "refused"}


def test_a_bearing_keeps_its_clearance(bench: Bench) -> None:
    """6203 is not 6204, and C3 is asked for where it is not printed.

    Source: LFD bearing designations.
    """
    bench.lay(new("bearing", "6203-2RS C3"), new("bearing", "6203-2RS"), new("bearing", "6204-2RS"))

    assert bench.says("6203-2RS C3", family="bearing") == {
        "6203-2RS C3": "fits", "6203-2RS": "ask", "6204-2RS": "refused",
    }  # fmt: skip


def test_a_belt_keeps_its_ribs(bench: Bench) -> None:
    """Fewer slip, more need room on both pulleys. Source: ISO 9982; common practice."""
    bench.lay(new("belt", "1270J5"), new("belt", "1270J4"), new("belt", "1270J6"))
    said = bench.says("1270 PJ5", family="belt")

    assert (said["1270J5"], said["1270J6"]) == ("fits", "ask")
    assert said.get("1270J4") in {None, "refused"}


def test_the_earth_goes_through_metal_with_a_real_thread(bench: Bench) -> None:
    """Plastic and a single sheet-metal screw are refused.

    Source: IEC 60335-1 clauses 27.4, 28.3 and 28.4; IECEE CTL decision sheet 261.
    """
    bench.lay(new("screw", "M4x8", "S-M4", material="steel"),
              new("screw", "M4x8 PA", "S-PA", material="nylon"),
              new("screw", "ST4.2x9.5", "S-ST", material="steel"),
              new("screw", "M4x8", "S-TAP", material="steel",
                  thread_kind="self-tapping"))  # fmt: skip
    said = bench.says("M4x8", family="screw", place="earth-screw")

    assert said["S-M4"] == "fits"
    assert {said.get(code) for code in ("S-PA", "S-ST", "S-TAP")} <= {None, "refused"}
    assert said["S-PA"] == "refused"
