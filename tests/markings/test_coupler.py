"""Appliance couplers of IEC 60320."""

from __future__ import annotations

import pytest

from inventory.markings.coupler import SHEETS, likely, read


@pytest.mark.parametrize("name", SHEETS)
def test_an_inlet_takes_the_connector_one_number_lower(name: str) -> None:
    """Rule of the source (2cit.com.au): the connector's number is one below the inlet's."""
    number = int(name[1:].rstrip("A"))
    inlet = read(SHEETS[name].inlet).ratings

    assert SHEETS[name].inlet == f"C{number + 1}{'A' if name.endswith('A') else ''}"
    assert inlet["mates_connector"] == name
    assert "mates_inlet" not in inlet


@pytest.mark.parametrize("text", ["C25", "C0", "C13B", "AC13", "C130"])
def test_numbers_without_a_sheet_are_left_alone(text: str) -> None:
    """Only the sheets of the standard."""
    assert "sheet" not in read(text).ratings


def test_class_two_has_no_earth_pin() -> None:
    """C7 is class II, C5 class I."""
    assert read("C7").ratings["class"] == "II"
    assert read("C5").ratings["class"] == "I"


def test_a_printed_current_stands_and_the_table_fills_the_rest() -> None:
    """10 A and 15 A: IEC first, North America second."""
    said = read("C13 10A/15A 250V/125V").ratings

    assert (said["current_a"], said["current_us_a"]) == (10, 15)
    assert (said["voltage_vac"], said["voltage_us_vac"]) == (250, 125)


def test_no_voltage_is_invented() -> None:
    """The sheet sets current and temperature; 250 V is said only where printed."""
    assert "voltage_vac" not in read("C13").ratings


def test_less_than_the_sheet_asks_is_warned_of() -> None:
    """A C19 marked 10 A is odd."""
    assert any("less than sheet" in w for w in read("C19 10A").warnings)


def test_hot_and_cold_couplers_carry_their_caution() -> None:
    """A C13 never serves a hot C16 inlet."""
    assert "never on a hot C16" in read("C13").warnings[0]
    assert read("C19").warnings == ()


def test_a_second_sheet_is_kept_apart() -> None:
    """A C13 to C14 lead has two ends."""
    said = read("C13 C14").ratings

    assert (said["sheet"], said["also_inlet"]) == ("C13", "C14")


def test_a_mains_plug_is_named_with_its_rating() -> None:
    """NEMA 5-15P: 15 A, 125 V, earthed."""
    said = read("NEMA 5-15P").ratings

    assert (said["plug"], said["current_a"], said["voltage_vac"]) == ("5-15P", 15, 125)


def test_likely() -> None:
    """A lone sheet number is a claim, a capacitor class is not."""
    assert likely("C13") > 0.7
    assert likely("C3 clearance") == 0


def test_a_hot_inlet_names_its_connector_and_mounting() -> None:
    """C16A takes a C15A; snap-in is told."""
    said = read("C16A snap-in").ratings

    assert (said["mates_connector"], said["mount"], said["temp_c"]) == ("C15A", "snap-in", 155)


def test_an_old_plug_without_earth_says_no_class() -> None:
    """NEMA 10-30 has no earth pin of its own: its class is not set."""
    assert "class" not in read("NEMA 10-30P").ratings
