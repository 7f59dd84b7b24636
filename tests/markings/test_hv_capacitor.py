"""Oven capacitors: plain figures, the CH85 code from memory, and damage that kills."""

from __future__ import annotations

import pytest

from inventory.markings.hv_capacitor import canonical, likely, read


@pytest.mark.parametrize(
    ("text", "microfarads", "volts"),
    [
        ("CAPACITOR 0.94µF AC2200V", 0.94, 2200),  # R-820BK service manual
        ("2100V~ 0.88uF", 0.88, 2100),
        ("1.05 MFD 2100VAC", 1.05, 2100),
        ("950nF 2.1kV~", 0.95, 2100),
        ("0,91 µF 2100 V.AC", 0.91, 2100),
    ],
)
def test_microfarads_and_alternating_volts(text: str, microfarads: float, volts: int) -> None:
    """Every spelling of the unit and of a.c."""
    ratings = read(text).ratings

    assert (ratings["capacitance_uf"], ratings["voltage_vac"]) == (microfarads, volts)


@pytest.mark.parametrize(
    ("code", "volts", "microfarads"),
    [("CH85-21095", 2100, 0.95), ("CH85-21075", 2100, 0.75), ("CH85 25114", 2500, 1.14)],
)
def test_the_code_is_read_with_its_doubt(code: str, volts: int, microfarads: float) -> None:
    """From memory: the mark's source and a warning say so."""
    reading = read(code)

    assert (reading.ratings["voltage_vac"], reading.ratings["capacitance_uf"]) == (
        volts,
        microfarads,
    )
    assert "from memory" in reading.marks[0].source
    assert reading.warnings


def test_code_and_plain_figure_that_differ_are_a_conflict() -> None:
    """sg966.com prints CH85-21075 beside 0.88 µF: the plain figure stays, a person measures."""
    reading = read("2100V 0.88UF Capacitor Model: CH85-21075")

    assert reading.ratings["capacitance_uf"] == 0.88
    assert any(warning.startswith("Conflict") for warning in reading.warnings)
    assert reading.candidates[0].ratings == {"capacitance_uf": 0.75}


def test_code_and_plain_figures_that_agree_are_silent() -> None:
    """The code tells that the plain volts are a.c."""
    reading = read("CH85-21095 2100V 0.95uF")

    assert reading.ratings["voltage_vac"] == 2100
    assert not reading.warnings


@pytest.mark.parametrize("text", ["1.0 F", "1.0F AC2500V", "0.94mF AC2200V"])
def test_the_lost_micro_is_offered_and_never_read(text: str) -> None:
    """A farad at two kilovolts is no oven part (AMANA manual prints 1.0 F)."""
    reading = read(text)

    assert "capacitance_uf" not in reading.ratings
    assert "uF" in reading.candidates[0].text


def test_the_lost_point_is_offered_and_never_read() -> None:
    """94 µF is 0.94 µF with its point lost."""
    reading = read("94uF 2200VAC")

    assert "capacitance_uf" not in reading.ratings
    assert reading.candidates[0].text == "0.94uF 2200VAC"


def test_plain_volts_are_assumed_alternating_not_printed_so() -> None:
    """The oven capacitor's rating is r.m.s. a.c. (IEC 61270-1, from memory)."""
    reading = read("2100V 0.91uF")

    assert reading.assumed == {"voltage_vac": 2100}
    assert "voltage_vac" not in reading.ratings


def test_a_direct_voltage_needs_a_person() -> None:
    """A d.c.-only capacitor never serves the doubler."""
    assert read("1uF 2100VDC").ratings["needs_review"]


def test_bleeder_tolerance_climate_and_oil() -> None:
    """The rest of a full label."""
    ratings = read("0.95uF ±3% 2100VAC 50/60Hz 10MΩ -10/85/21 No PCBs").ratings

    assert (ratings["bleeder_mohm"], ratings["bleeder"]) == (10, True)
    assert (ratings["tolerance_pct"], ratings["no_pcb"]) == (3, True)
    assert (ratings["temp_min_c"], ratings["temp_max_c"]) == (-10, 85)
    assert ratings["frequency_hz"] == [50, 60]


def test_how_strongly_a_text_looks_like_an_oven_capacitor() -> None:
    """Kilovolts with microfarads claim it; a film capacitor does not."""
    assert likely("0.95uF 2100VAC") > 0.9
    assert likely("0.1uF 275VAC X2") == 0


def test_a_written_out_capacitor_reads_the_same() -> None:
    """Code and label say the same again."""
    first = read("CH85-21095 2100VAC 0.95uF ±3% 10MΩ")

    assert read(canonical(first)).ratings == first.ratings


def test_a_doubtful_comma_gives_no_capacitance() -> None:
    """1,000 uF could be one or a thousand microfarads."""
    assert "capacitance_uf" not in read("1,000uF 2100VAC").ratings


def test_a_tolerance_letter_behind_the_figure() -> None:
    """K is ten per cent (IEC 60062)."""
    assert read("0.95uF K 2100VAC").ratings["tolerance_pct"] == 10


def test_two_voltages_are_written_without_the_code() -> None:
    """A code holds one voltage only."""
    first = read("2100/2200VAC 0.95uF CH85-21095")

    assert first.ratings["voltage_vac"] == [2100, 2200]
    assert canonical(first).startswith("0.95uF")
