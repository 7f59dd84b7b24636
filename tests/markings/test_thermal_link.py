"""Thermal links: Tf from the body, from a type only where published pairs allow it."""

from __future__ import annotations

import pytest

from inventory.markings.tables import rows
from inventory.markings.thermal_link import canonical, likely, read


@pytest.mark.parametrize("text", ["SF70E", "SF226E", "SF113R1", "SFH240R0", "SM126A"])
def test_the_number_of_an_sf_type_is_never_the_temperature(text: str) -> None:
    """The series sheets list Tf apart from the number; the reading says so."""
    reading = read(text)

    assert "tf_c" not in reading.ratings
    assert any("not the temperature" in warning for warning in reading.warnings)


def test_the_body_gives_the_temperature_of_an_sf_type() -> None:
    """Tf beside the type is what counts."""
    assert read("SF226E Tf 228C 10A 250V").ratings["tf_c"] == 228


def test_type_and_body_that_differ_need_a_person_and_the_body_counts() -> None:
    """BF77 with Tf 73 on the body is a conflict."""
    reading = read("BF77 Tf 73C")

    assert (reading.ratings["tf_c"], reading.ratings["needs_review"]) == (73, True)


@pytest.mark.parametrize(
    ("text", "name", "value"),
    [
        ("Tf 150 Th 126 Tm 200", "th_c", 126),
        ("Tf:121℃ Tc 106℃", "tc_c", 106),
        ("TF 115℃ 10A 250V", "tf_c", 115),
        ("holding temp. 45C", "th_c", 45),
        ("maximum temperature limit 150C", "tm_c", 150),
        ("rated functioning temp. 73C", "tf_c", 73),
    ],
)
def test_each_temperature_goes_by_its_symbol_or_name(text: str, name: str, value: int) -> None:
    """Tf functioning, Th and Tc holding, Tm limit. Source: NEC definitions, hkdtupc.cn."""
    assert read(text).ratings[name] == value


def test_the_actual_opening_is_a_pair_of_limits() -> None:
    """76+0/-4 °C opens between 72 and 76 (chengcong.cn, BF77)."""
    assert read("BF77 opens 76+0/-4℃").ratings["actual_open_c"] == [72, 76]


@pytest.mark.parametrize("text", ["Tf 20C", "Tf 999C"])
def test_a_temperature_no_link_has_is_not_read(text: str) -> None:
    """Links function between 60 and 300 °C."""
    reading = read(text)

    assert "tf_c" not in reading.ratings
    assert reading.ratings["needs_review"]


def test_a_series_current_is_assumed_from_the_catalogue() -> None:
    """SF/K is a 6 A series; one part of it does not print so."""
    reading = read("SF113K")

    assert reading.assumed["current_a"] == 6
    assert "current_a" not in reading.ratings


@pytest.mark.parametrize("row", rows("thermal_links"), ids=lambda row: str(row["type"]))
def test_every_row_of_the_makers_tables_is_read_off_its_type(row: dict[str, str]) -> None:
    """The temperature comes from the table, never from the digits."""
    assert read(row["type"]).ratings["tf_c"] == int(row["tf_c"])


@pytest.mark.parametrize("row", rows("thermal_links"), ids=lambda row: str(row["type"]))
def test_the_makers_tables_hold_together(row: dict[str, str]) -> None:
    """It holds below where it opens and opens within ten kelvin below Tf (IEC 60691: +0/-10)."""
    if row["open_from_c"]:
        opens = int(row["open_from_c"]), int(row["open_to_c"])
        assert int(row["th_c"]) < opens[0] <= opens[1] <= int(row["tf_c"])
        assert opens[0] >= int(row["tf_c"]) - 10
    assert row["source"]


def test_a_pair_that_disagrees_gives_no_temperature() -> None:
    """°C and °F swapped on the body are offered, not read."""
    reading = read("121F 250C 10A 250V")

    assert "tf_c" not in reading.ratings
    assert reading.candidates[0].ratings == {"tf_c": 121, "tf_f": 250}


def test_how_strongly_a_text_looks_like_a_link() -> None:
    """Types and Tf claim it; a fuse's T does not."""
    assert likely("G4A01121C") > 0.9
    assert likely("T3A") == 0


def test_a_written_out_link_reads_the_same() -> None:
    """Type, limits and leads survive."""
    first = read("F7 150 145±2 126 2A 250V long leads")

    assert read(canonical(first)).ratings == first.ratings


def test_a_series_name_is_no_part() -> None:
    """SF/E names a series; its current is the catalogue's, SF/K 6 A."""
    assert read("SF/E").ratings == {"series": "SF/E"}
    assert read("SF/K").assumed == {"current_a": 6}


def test_a_number_outside_the_range_of_links_is_no_temperature() -> None:
    """G4A01999C is not 999 °C."""
    assert "tf_c" not in read("G4A01999C").ratings


def test_a_limit_no_link_has_is_not_read() -> None:
    """Tm 1500 °C is damage."""
    assert "tm_c" not in read("Tf 73C Tm 1500C").ratings
