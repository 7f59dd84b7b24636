"""Magnetrons: the suffix is part of the type."""

from __future__ import annotations

import pytest

from inventory.markings.magnetron import canonical, likely, read


@pytest.mark.parametrize(
    ("text", "kind", "suffix"),
    [
        ("2M214-39F", "2M214-39F", "39F"),
        ("2M214 39F", "2M214-39F", "39F"),
        ("OM75P(31)", "OM75P(31)", "31"),
        ("M24FB-610A", "M24FB-610A", "610A"),
        ("2M261-M36", "2M261-M36", "M36"),
    ],
)
def test_type_and_suffix(text: str, kind: str, suffix: str) -> None:
    """Two tubes of one base and different suffix are two types."""
    ratings = read(text).ratings

    assert (ratings["type"], ratings["suffix"]) == (kind, suffix)


def test_a_missing_suffix_is_said() -> None:
    """2M214 alone leaves bracket and antenna open (sheet: rlocman.cn 186255)."""
    reading = read("2M214")

    assert reading.ratings["type"] == "2M214"
    assert any("suffix" in warning.lower() for warning in reading.warnings)


def test_label_figures_go_to_filament_anode_and_output() -> None:
    """3.3 V and 10 A heat, 4 kV and 300 mA feed, 900 W come out at 2450 MHz."""
    ratings = read("2M240 3.3V 10A 4.0kV 300mA 900W 2450MHz").ratings

    assert (ratings["filament_v"], ratings["filament_a"]) == (3.3, 10)
    assert (ratings["anode_kv"], ratings["anode_ma"]) == (4, 300)
    assert (ratings["output_w"], ratings["frequency_mhz"]) == (900, 2450)


def test_mains_volts_are_no_filament_volts() -> None:
    """230 V belongs to no winding of a tube and stays unread."""
    reading = read("2M240 230V")

    assert "filament_v" not in reading.ratings
    assert [piece.text for piece in reading.unread] == ["230V"]


def test_a_part_named_after_the_magnetron_is_not_one() -> None:
    """The magnetron's temperature fuse is a cut-out."""
    assert likely("MAGNETRON TEMPERATURE FUSE 150˚C") < 0.2
    assert likely("2M214") > 0.9


def test_a_written_out_magnetron_reads_the_same() -> None:
    """Suffix and figures survive."""
    first = read("OM75S(31) 2450MHz 900W")

    assert read(canonical(first)).ratings == first.ratings
