"""The appliance's plate: which watts are which, and figures that cannot be."""

from __future__ import annotations

import pytest

from inventory.markings.rating_plate import canonical, likely, read

PLATE = (
    "MODEL NO. R-820BK SERIAL NO. 123456 AC 120V 60Hz 13.0A INPUT 1.5kW OUTPUT 900W 2450MHz"
    " Class I IPX4 12.5 kg DATE: 2011.06"
)


def test_a_whole_plate_is_read() -> None:
    """Synthetic plate; what a plate carries: IEC 60335-1, from memory."""
    assert read(PLATE).ratings == {
        "model": "R-820BK", "serial": "123456", "voltage_vac": 120, "frequency_hz": 60,
        "current_a": 13, "power_in_w": 1500, "power_out_w": 900, "frequency_mhz": 2450,
        "protection_class": "I", "ip": "IPX4", "weight_kg": 12.5, "made": "2011.06",
    }  # fmt: skip


@pytest.mark.parametrize(
    "text",
    [
        "INPUT 1480W OUTPUT 1000W",
        "1480W INPUT 1000W OUTPUT",
        "Rated input power (microwave): 1480 W, rated output: 1000 W",
        "input: 1.48kW output: 1000W",
    ],
)
def test_input_and_output_are_told_apart_wherever_the_word_stands(text: str) -> None:
    """Mixing them up would make a wrong oven of it."""
    ratings = read(text).ratings

    assert (ratings["power_in_w"], ratings["power_out_w"]) == (1480, 1000)


def test_watts_without_a_word_stay_watts() -> None:
    """Nothing is said of in or out."""
    assert read("230V 50Hz 1400W").ratings["power_w"] == 1400


@pytest.mark.parametrize(
    "text", ["input 700W output 900W 230V", "AC 120V 1A input 1500W", "AC 100-120V 2A input 900W"]
)
def test_figures_that_cannot_be_need_a_person(text: str) -> None:
    """More out than in, or more watts than volts times amperes (reference 3.3, consistency)."""
    assert read(text).ratings["needs_review"]


def test_grill_and_convection_are_their_own_powers() -> None:
    """A combination oven prints four."""
    ratings = read("microwave input 1400W output 900W grill 1000W convection 2500W").ratings

    assert (ratings["grill_w"], ratings["convection_w"]) == (1000, 2500)


def test_mains_and_microwave_frequency_are_kept_apart() -> None:
    """50 Hz and 2450 MHz."""
    ratings = read("230V~50Hz 2450 MHz").ratings

    assert (ratings["frequency_hz"], ratings["frequency_mhz"]) == (50, 2450)


@pytest.mark.parametrize(
    ("text", "name", "value"),
    [
        ("M/N: NN-SD452W", "model", "NN-SD452W"),
        ("S/N 6A12345678", "serial", "6A12345678"),
        ("PNC 944 ", "product_code", "944"),
        ("Type R-1", "type", "R-1"),
        ("CLASS 1", "protection_class", "I"),
    ],
)
def test_labels_of_many_makers(text: str, name: str, value: str) -> None:
    """Model, serial, product code, type, class."""
    assert read(text).ratings[name] == value


def test_how_strongly_a_text_looks_like_a_plate() -> None:
    """Labels, band and supply together claim it; a fuse does not."""
    assert likely(PLATE) > 0.8
    assert likely("T5AL250V") < 0.3


def test_a_written_out_plate_reads_the_same() -> None:
    """Plate to plate."""
    first = read(PLATE)

    assert read(canonical(first)).ratings == first.ratings
