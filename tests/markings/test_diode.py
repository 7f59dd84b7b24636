"""Rectifier diodes and bridges."""

from __future__ import annotations

import pytest

from inventory.markings.diode import RECTIFIERS, STEPS, likely, read

# Diodes Inc., 1N4001-1N4007 (dtsheet 260565).
VOLTS_1N400X = dict(zip(range(1, 8), (50, 100, 200, 400, 600, 800, 1000), strict=True))


@pytest.mark.parametrize(("last", "volts"), VOLTS_1N400X.items())
def test_the_1n400x_have_the_data_sheet_s_volts(last: int, volts: int) -> None:
    """One ampere, DO-41."""
    said = read(f"1N400{last}").ratings

    assert (said["vrrm_v"], said["if_a"], said["package"]) == (volts, 1, "DO-41")


def test_the_suffix_l_is_the_small_body() -> None:
    """Source: Diodes Inc., suffix L is A-405."""
    assert read("1N4007L").ratings["package"] == "A-405"
    assert read("1N4007G").ratings["package"] == "DO-41"


@pytest.mark.parametrize("text", ["1N4008", "1N400", "RL208", "1N40071", "CL01-12", "GBU8Z"])
def test_types_that_are_not_tabled_give_nothing(text: str) -> None:
    """No voltage is guessed from a neighbour."""
    assert "vrrm_v" not in read(text).ratings


def test_a_name_two_makers_number_differently_is_left_open() -> None:
    """HER105 is 400 V of one maker, 600 V of another: both offered, none set."""
    reading = read("HER105")

    assert "vrrm_v" not in reading.ratings
    assert [c.ratings["vrrm_v"] for c in reading.candidates] == [400, 600]


def test_a_name_all_makers_number_alike_is_read() -> None:
    """HER103 is 200 V of both. Sources: Diotech and Secos data sheets."""
    assert read("HER103").ratings["vrrm_v"] == 200


def test_every_row_has_its_source_and_rising_volts() -> None:
    """A table whose members do not rise was typed wrongly."""
    for row in RECTIFIERS:
        volts = list(row.members.values())
        assert row.source
        assert volts == sorted(volts), row.stem


def test_the_usual_seven_steps() -> None:
    """50 to 1000 V. Source: every data sheet above."""
    assert STEPS == (50, 100, 200, 400, 600, 800, 1000)


def test_a_voltage_that_contradicts_the_type_is_warned_of() -> None:
    """1N4004 beside 1000 V."""
    assert any("printed twice" in w for w in read("1N4004 1000V").warnings)


def test_the_signal_diode_claims_no_current() -> None:
    """The current of a 1N4148 differs by maker and is not set."""
    assert "if_a" not in read("1N4148").ratings


def test_likely() -> None:
    """Tabled types are sure, a high-voltage diode is not ours."""
    assert likely("1N5408") > 0.9
    assert likely("CL01-12") == 0
