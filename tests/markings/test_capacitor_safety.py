"""Interference capacitors, class X and Y."""

from __future__ import annotations

import pytest

from inventory.markings.capacitor_safety import canonical, likely, read


def test_a_part_can_carry_two_classes() -> None:
    """X1/Y2 is both, X first."""
    assert read("Y2/X1 2n2 250V~").ratings["class"] == ["X1", "Y2"]


def test_no_class_is_invented() -> None:
    """A mains voltage alone does not make a class."""
    assert "class" not in read("0.1µF K 275V~").ratings


@pytest.mark.parametrize("text", ["X10", "Y25", "AX2", "X2Z"])
def test_letters_that_only_look_like_a_class_are_left_alone(text: str) -> None:
    """A class stands alone."""
    assert "class" not in read(text).ratings


def test_volts_of_each_class_stay_apart() -> None:
    """X1 440 V, Y2 250 V: what holds for both is 250 V."""
    reading = read("X1 440V Y2 250V")

    assert reading.ratings["voltage_vac_by_class"] == {"X1": 440, "Y2": 250}
    assert reading.ratings["voltage_vac"] == 250
    assert "own voltage" in reading.warnings[0]


def test_one_voltage_for_both_classes_is_one_rating() -> None:
    """No table by class where all are equal."""
    said = read("X1 250V~ Y2 250V~").ratings

    assert said["voltage_vac"] == 250
    assert "voltage_vac_by_class" not in said


# Peak impulse in kV. Source: IEC 60384-14, as tabled at techoverflow.net/2019/08/07.
@pytest.mark.parametrize(
    ("text", "kilovolt"),
    [("X1 100nF", 4.0), ("X2 100nF", 2.5), ("Y1 1nF", 8.0), ("Y2 1nF", 5.0), ("X2 2.2µF", 1.69)],
)
def test_the_impulse_of_the_class_is_assumed_not_read(text: str, kilovolt: float) -> None:
    """Above 1 µF it falls with the root of the value; it is never a printed rating."""
    reading = read(text)

    assert reading.assumed["peak_impulse_kv"] == kilovolt
    assert "peak_impulse_kv" not in reading.ratings


@pytest.mark.parametrize(("mark", "classes"), [("KX", ["X1", "Y1"]), ("KY", ["X1", "Y2"])])
def test_the_letters_on_a_disc_give_its_classes(mark: str, classes: list[str]) -> None:
    """Source: Murata, types KX, KH, KY."""
    assert read(f"{mark} 102M 250~").ratings["class"] == classes


def test_a_type_alone_is_for_250_volts_and_a_printed_figure_stands() -> None:
    """Source: Murata, KX, KH and KY are AC250V."""
    assert read("KH").ratings == {"class": ["X1", "Y2"], "voltage_vac": 250}
    assert read("KH 300V~").ratings["voltage_vac"] == 300


def test_the_japanese_series_has_no_class() -> None:
    """DEJ is made to the Electrical Appliance Law and carries no X or Y. Source: Murata."""
    said = read("DEJE3E2102ZA3B").ratings

    assert "class" not in said
    assert said["voltage_vac"] == 250


def test_a_built_in_resistor_is_told() -> None:
    """1 MΩ across the capacitor discharges it."""
    assert read("X2 0.47µF 1MΩ 275V~").ratings["discharge_resistor_ohm"] == 1_000_000


def test_a_climatic_category_gives_the_temperatures() -> None:
    """40/100/21 is -40 to 100 °C, 21 days of damp heat."""
    said = read("MKP X2 0.1µF K 275V~ 40/100/21").ratings

    assert (said["temp_min_c"], said["temp_c"]) == (-40, 100)


def test_a_film_printed_mf_stays_open() -> None:
    """The series list that says 0.01mF to 2.2mF means µF and is not read as a value."""
    reading = read("0.01mF to 2.2mF X2")

    assert "capacitance_pf" not in reading.ratings
    assert len(reading.candidates) == 4


def test_glued_marks_are_taken_apart() -> None:
    """104K275VX2 is four marks."""
    said = read("104K275VX2").ratings

    assert (said["capacitance_pf"], said["tolerance_pct"], said["class"]) == (100000, 10, ["X2"])


def test_likely_needs_a_class_or_a_maker_s_code() -> None:
    """Plain film is not claimed."""
    assert likely("DE1B3KX681KA5B") > 0.8
    assert likely("100nF 63V") == 0


def test_volts_by_class_are_written_out_by_class() -> None:
    """The plain form keeps each class beside its volts."""
    written = canonical(read("X1 440V Y2 250V 2n2"))

    assert written == "X1 440V~ Y2 250V~ 2.2 nF"
