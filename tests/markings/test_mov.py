"""Varistors: two number schemes that look alike."""

from __future__ import annotations

from typing import Any

import pytest

from inventory.markings.mov import canonical, likely, read
from inventory.markings.mov_codes import SIOV_VOLTS, code_volts

CODES = {
    "14D471KJ": {"diameter_mm": 14, "v1ma_v": 470, "tolerance_letter": "K", "high_surge": True},
    "TVR14471KSY": {"series": "TVR", "diameter_mm": 14, "v1ma_v": 470},
    "471KD14": {"diameter_mm": 14, "shape": "disc", "v1ma_v": 470},
    "MYG14K-471": {"series": "MYG", "diameter_mm": 14, "v1ma_v": 470},
    "10D 391K": {"diameter_mm": 10, "v1ma_v": 390},
    "20S102M": {"shape": "square", "v1ma_v": 1000, "tolerance_letter": "M"},
    "07D471K 300VAC 385VDC 1.2kA": {"vac_max": 300, "vdc_max": 385, "imax_a": 1200},
    "14K471": {"diameter_mm": 14, "v1ma_v": 470},
}


@pytest.mark.parametrize(("text", "expected"), CODES.items())
def test_a_code_gives_size_and_varistor_voltage(text: str, expected: dict[str, Any]) -> None:
    """Two figures and the noughts, in each maker's order."""
    ratings = read(text).ratings

    assert {name: ratings.get(name) for name in expected} == expected


# SIOV StandarD series, dtsheet.com/doc/231890: type and its highest a.c. voltage.
SIOV = {"S05K20": 20, "S10K25": 25, "S14K130": 130, "S14K275": 275, "S20K460": 460, "S14K510": 510}


@pytest.mark.parametrize(("text", "volts"), SIOV.items())
def test_plain_volts_are_never_read_as_a_code(text: str, volts: int) -> None:
    """S14K510 stands 510 V a.c.; its varistor voltage is 820 V, not 51."""
    ratings = read(text).ratings

    assert ratings["vac_max"] == volts
    assert "v1ma_v" not in ratings


@pytest.mark.parametrize("text", ["14K250", "10K130", "20K320"])
def test_a_number_that_fits_both_schemes_is_read_as_neither(text: str) -> None:
    """14K250 is 25 V by code or 250 V a.c. plainly: both are offered."""
    reading = read(text)

    assert {"v1ma_v", "vac_max"}.isdisjoint(reading.ratings)
    assert [set(candidate.ratings) for candidate in reading.candidates] == [{"v1ma_v"}, {"vac_max"}]


@pytest.mark.parametrize(
    ("code", "volts"), [("180", 18), ("820", 82), ("241", 240), ("102", 1000), ("112", 1100)]
)
def test_codes_of_the_sheets(code: str, volts: int) -> None:
    """TVR and FNR code tables."""
    assert code_volts(code) == volts


def test_no_band_is_made_of_the_tolerance_letter() -> None:
    """K is ±10 % at mains voltages but 15 to 22 V at 18 V: only the letter is read."""
    assert {"v1ma_range_v", "tolerance_pct"}.isdisjoint(read("14D180K").ratings)


def test_plain_volts_against_the_code_are_a_conflict() -> None:
    """470 V code beside 390 V."""
    reading = read("14D471K 390V")

    assert reading.ratings["v1ma_v"] == 470
    assert reading.ratings["needs_review"]


def test_the_voltage_steps_are_those_of_a_series() -> None:
    """Mains steps are among them, code figures such as 471 are not."""
    assert {130, 250, 275, 460} <= SIOV_VOLTS
    assert 471 not in SIOV_VOLTS


def test_how_strongly_a_text_looks_like_a_varistor() -> None:
    """Codes claim it, capacitor codes do not."""
    assert likely("HEL-10D471K") > 0.9
    assert likely("474K 275V X2") == 0


@pytest.mark.parametrize("text", [*CODES, *SIOV, "FNR-05K180", "TNR 10V271K"])
def test_a_written_out_varistor_reads_the_same(text: str) -> None:
    """In the order of its series."""
    first = read(text)

    assert read(canonical(first)).ratings == first.ratings


def test_plain_print_without_a_code() -> None:
    """Volts and millimetres, in words."""
    first = read("varistor 14mm 470V disc")

    assert first.ratings == {"diameter_mm": 14, "v1ma_v": 470, "shape": "disc"}
    assert read("470V varistor").ratings == read(canonical(read("470V varistor"))).ratings


def test_a_bare_number_that_fits_neither_scheme_is_offered_as_volts() -> None:
    """14K455 is no code and no step of the plain series."""
    reading = read("14K455")

    assert {"v1ma_v", "vac_max"}.isdisjoint(reading.ratings)
    assert [dict(candidate.ratings) for candidate in reading.candidates] == [{"vac_max": 455}]


def test_plain_volts_step_without_series_letters() -> None:
    """14K275 cannot be a code: 27 and five noughts is no varistor."""
    assert read("14K275").ratings["vac_max"] == 275
