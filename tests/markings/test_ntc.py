"""NTC thermistors."""

from __future__ import annotations

import pytest

from inventory.markings.ntc import likely, read
from inventory.markings.ntc_codes import AVX_B

# AVX catalogue, table of values ND06/NV06 and ND03/NE03: material letter and B.
AVX_TABLE = {
    "F": 2800, "G": 3030, "H": 3160, "I": 3250, "J": 3480, "K": 3630, "L": 3790, "M": 3950,
    "N": 4080, "P": 4220, "Q": 4300, "R": 4400, "S": 4520, "T": 4630,
}  # fmt: skip


@pytest.mark.parametrize(("letter", "kelvin"), AVX_TABLE.items())
def test_material_letters_agree_with_the_catalogue(letter: str, kelvin: int) -> None:
    """B follows from the material."""
    assert AVX_B[letter] == kelvin
    assert read(f"ND06{letter}00103K").ratings["b_k"] == kelvin


def test_a_material_that_is_not_tabled_gives_no_b() -> None:
    """K of the chips stands in the catalogue without a B we saw; that of the discs is another."""
    assert "b_k" not in read("NB20K00103M").ratings
    assert read("ND06K00471K").ratings["b_k"] == 3630


def test_an_inrush_disc_has_ohms_and_a_diameter_and_no_b() -> None:
    """10D-13 is 10 Ω in a 13 mm disc."""
    assert dict(read("NTC 10D-13").ratings) == {
        "diameter_mm": 13,
        "r25_ohm": 10,
        "inrush_ohm": 10,
    }


@pytest.mark.parametrize(("text", "ohm"), [("2.5D-15", 2.5), ("8D2-10", 8.2), ("5D9", 5)])
def test_inrush_codes_in_all_spellings(text: str, ohm: float) -> None:
    """With a point, with D for the point, without the hyphen."""
    assert read(text).ratings["r25_ohm"] == ohm


def test_a_varistor_is_not_an_inrush_disc() -> None:
    """14D471K has no NTC value."""
    assert "r25_ohm" not in read("14D471K").ratings


@pytest.mark.parametrize(
    "text", ["103F3435", "103F 3435", "MF52 103F3435", "10K 1% B=3435K", "R25=10K 1% B25/85 3435"]
)
def test_one_sensor_in_many_spellings(text: str) -> None:
    """10 kΩ, 1 %, B 3435."""
    said = read(text).ratings

    assert (said["r25_ohm"], said["tolerance_pct"], said["b_k"]) == (10000, 1, 3435)


def test_the_range_of_b_only_where_it_is_printed() -> None:
    """25/85 is said by one, by none of the codes."""
    assert read("10K B25/85 3435").ratings["b_range"] == "25/85"
    assert "b_range" not in read("103F3435").ratings


def test_a_leading_zero_fills_a_four_figure_code() -> None:
    """0103 is 10 kΩ. Source: AVX, resistance 10 kΩ."""
    assert read("0103").ratings["r25_ohm"] == 10000


def test_a_range_oven_sensor_is_no_sensor_of_this_kind() -> None:
    """1.09 kohm is read as a value, and nothing is added: no B, no NTC claim."""
    assert "b_k" not in read("1.09 kohm").ratings
    assert likely("1.09 kohm ±10%") == 0


def test_likely_takes_words_codes_and_values_with_b() -> None:
    """NTC, MF52, 10K 3950; not a bare value."""
    assert min(likely(t) for t in ("NTC 5D-9", "MF52 103F3950", "10K 3950", "10D-7")) > 0.5
    assert likely("4K7") == 0


def test_a_current_and_a_plain_letter_code_are_read() -> None:
    """4K7 at 25 °C, 3 A, 5 % by a lone letter."""
    said = read("NTC 4K7 J 3A").ratings

    assert (said["r25_ohm"], said["tolerance_pct"], said["imax_a"]) == (4700, 5, 3)


def test_one_sensor_code_rests_on_memory_and_says_so() -> None:
    """103AT-2 is 10 kΩ; the series is from memory."""
    reading = read("103AT-2")

    assert reading.ratings["r25_ohm"] == 10000
    assert any("memory" in mark.source for mark in reading.marks)


def test_b_in_kelvin_behind_a_value() -> None:
    """10K 3950, and 103K with its letter."""
    assert read("10K 3950").ratings == {"r25_ohm": 10000, "b_k": 3950}
    assert read("103K").ratings == {"r25_ohm": 10000, "tolerance_pct": 10}
