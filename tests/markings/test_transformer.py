"""High-voltage transformers. Winding figures of oven service manuals; the labels are synthetic."""

from __future__ import annotations

import pytest

from inventory.markings.transformer import canonical, likely, read


def test_windings_are_told_apart_by_word() -> None:
    """Primary, secondary, filament."""
    ratings = read("HV transformer PRI 230V 50Hz SEC 2100V FIL 3.3V class H").ratings

    assert (ratings["primary_v"], ratings["secondary_v"], ratings["filament_v"]) == (230, 2100, 3.3)
    assert (ratings["frequency_hz"], ratings["insulation_class"]) == (50, "H")


def test_windings_are_told_apart_by_size_where_no_word_stands() -> None:
    """Kilovolts are the secondary, a few volts the filament."""
    ratings = read("2.2kV 230-240V~50Hz 3.4V").ratings

    assert ratings["secondary_v"] == 2200
    assert ratings["primary_v"] == [230, 240]
    assert ratings["filament_v"] == 3.4


def test_the_type_is_kept_as_printed() -> None:
    """The first code of capitals and figures."""
    assert read("MD-901EMR-1 220V 50Hz CLASS 220").ratings["type"] == "MD-901EMR-1"


@pytest.mark.parametrize(("text", "least"), [("high voltage transformer", 0.8), ("T5AL250V", 0)])
def test_how_strongly_a_text_looks_like_a_transformer(text: str, least: float) -> None:
    """The word claims it."""
    assert likely(text) >= least
    assert least or likely(text) == 0


def test_a_written_out_transformer_reads_the_same() -> None:
    """Label to label."""
    first = read("MD-901EMR-1 230V 50Hz SEC 2100V FIL 3.3V CLASS 200")

    assert read(canonical(first)).ratings == first.ratings
