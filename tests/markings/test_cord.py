"""Power cords: harmonised and North American codes."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from inventory.markings.cord import likely, read
from inventory.markings.harmonised import CONDUCTORS, MATERIALS, SHAPES, VOLTAGES, code

# Rated voltage of the two figures, as printed at cable-world.co.uk.
HD_361_VOLTS = {"03": "300/300", "05": "300/500", "07": "450/750"}


@pytest.mark.parametrize(("figures", "volts"), HD_361_VOLTS.items())
def test_the_figures_give_the_voltage_pair(figures: str, volts: str) -> None:
    """Uo to earth, U between cores; voltage_v is the second."""
    said = read(f"H{figures}VV-F").ratings

    assert said["voltage"] == volts
    assert said["voltage_v"] == int(volts.split("/")[1])


@given(
    st.sampled_from(sorted(VOLTAGES)),
    st.sampled_from(sorted(set(MATERIALS) - {"E"})),
    st.sampled_from(["", *sorted(set(MATERIALS) - {"E"})]),
    st.sampled_from(["", *sorted(SHAPES)]),
    st.sampled_from(sorted(CONDUCTORS)),
)
def test_every_code_of_the_tables_is_read_letter_by_letter(
    volts: str, insulation: str, sheath: str, shape: str, conductor: str
) -> None:
    """Any combination of the tables' letters comes back as what they stand for."""
    text = f"H{volts}{insulation}{sheath}{shape}-{conductor}"
    said = read(text).ratings

    assert said["voltage"] == VOLTAGES[volts]
    assert said["insulation"] == MATERIALS[insulation]
    assert said.get("sheath") == (MATERIALS[sheath] if sheath else None)
    assert said["conductor"] == CONDUCTORS[conductor]
    assert code(said) == text


def test_g_has_an_earth_and_x_has_none() -> None:
    """3G1.5 is three cores with earth, 2X0.75 two without."""
    assert read("H05VV-F 3G1.5").ratings["earth"] is True
    assert read("H05VV-F 2X0.75").ratings["earth"] is False


def test_a_bare_count_says_nothing_of_the_earth() -> None:
    """Three cores of an American cord: which is the earth is not printed."""
    assert "earth" not in read("SJT 16AWG 3C").ratings
    assert "earth" not in read("3x0.75mm2").ratings


@pytest.mark.parametrize("text", ["H09VV-F", "H05VV", "H05XX-F", "HH05VV-F"])
def test_what_is_no_harmonised_code_is_left_alone(text: str) -> None:
    """Wrong figures, letters or no conductor."""
    assert "harmonised" not in read(text).ratings


# Voltage of cord types, as tabled at iewc.com (UL 62).
UL_62 = {"SPT-1": 300, "SVTO": 300, "SJOOW": 300, "SO": 600, "STO": 600, "SEO": 600, "HSJO": 300}


@pytest.mark.parametrize(("kind", "volts"), UL_62.items())
def test_cord_types_have_the_tabled_voltage(kind: str, volts: int) -> None:
    """J, V and P are 300 V; hard service without them is 600 V."""
    assert read(kind).ratings["voltage_v"] == volts


def test_letters_add_what_they_say() -> None:
    """O is oil-resistant, W is for outdoors. Source: interpower.com."""
    assert "oil_resistant" not in read("SJT").ratings
    assert read("SJTOW").ratings["oil_resistant"] is True
    assert read("SJTW").ratings["outdoor"] is True


def test_the_service_ranks_as_the_sheet_does() -> None:
    """SPT below SVT below SJT below ST."""
    kinds = ("NISPT-2", "SVT", "SJTOW", "STW", "HPN")

    assert [read(k).ratings.get("service") for k in kinds] == ["SPT", "SVT", "SJT", "ST", None]


# Area of the gauges in mm², as printed on cords (cxpowercable.com): 18 AWG 0.824, 16 AWG 1.31.
@pytest.mark.parametrize(("awg", "area"), [(18, 0.824), (16, 1.31)])
def test_the_area_of_a_gauge_is_assumed(awg: int, area: float) -> None:
    """A conversion by the standard, not a print."""
    reading = read(f"SJT {awg}AWG")

    assert reading.assumed["area_mm2"] == pytest.approx(area, abs=0.0015)
    assert "area_mm2" not in reading.ratings


@pytest.mark.parametrize("text", ["SVT 18/3", "SVT 3X18AWG", "SVT 18AWGX3C", "SVT 18 AWG 3/C"])
def test_gauge_and_cores_in_all_spellings(text: str) -> None:
    """18 AWG, three cores."""
    said = read(text).ratings

    assert (said["awg"], said["cores"]) == (18, 3)


def test_a_cord_set_tells_both_ends() -> None:
    """Plug and coupler are read where they are printed."""
    said = read("SJT 18AWG 3C NEMA 5-15P C13").ratings

    assert (said["plug"], said["mates_inlet"]) == ("5-15P", "C14")


def test_likely() -> None:
    """Type letters are sure; a lone ST is hardly a claim."""
    assert likely("H05VV-F 3G1.5") > 0.9
    assert likely("ST") < 0.5
    assert likely("T5AL250V") == 0


def test_iec_types_name_their_harmonised_kin() -> None:
    """60227 IEC 53 is 300/500 V (synthetic row; the correspondence is from memory)."""
    reading = read("60227 IEC 53(RVV) 3x0.75mm2")

    assert (reading.ratings["voltage"], reading.ratings["voltage_v"]) == ("300/500", 500)
    assert any("memory" in mark.source for mark in reading.marks)
    assert "voltage" not in read("60227 IEC 99").ratings


def test_a_printed_voltage_pair_is_read() -> None:
    """300/500 V beside the sizes."""
    assert read("300/500V 3G1.5").ratings["voltage"] == "300/500"


def test_area_and_count_stand_alone_too() -> None:
    """0.75 mm² and 3C in any place."""
    said = read("0.75 mm² 3C").ratings

    assert (said["area_mm2"], said["cores"]) == (0.75, 3)
