"""Cartridge fuses: letters, series, sizes, and what must never be made of them.

Sources: IEC 60127-1 symbols (OPC 40400-1, 7.11.12.2), Swe-Check fuse markings table, GMA, AGX,
MDL, GMD data sheets; the rows themselves are in tests/cases/protection_published.jsonl.
"""

from __future__ import annotations

from typing import Any

import pytest

from inventory.markings.fuse import canonical, likely, read

IEC = {
    "T 3,15 A / 250 V": {"time_characteristic": "T", "current_a": 3.15, "voltage_v": 250},
    "F500mAL250V": {"time_characteristic": "F", "current_a": 0.5, "breaking_class": "L"},
    "FF2A H 250V~": {"time_characteristic": "FF", "current_a": 2, "breaking_class": "H"},
    "TT1AH": {"time_characteristic": "TT", "current_a": 1, "breaking_class": "H"},
    "250V T6.3AH": {"time_characteristic": "T", "current_a": 6.3, "breaking_class": "H"},
    "3.15AT 250V": {"time_characteristic": "T", "current_a": 3.15, "voltage_v": 250},
    "t5al250v": {"time_characteristic": "T", "current_a": 5, "breaking_class": "L"},
    "T2AE250V": {"time_characteristic": "T", "current_a": 2, "breaking_class": "E"},
}


@pytest.mark.parametrize(("text", "expected"), IEC.items())
def test_an_iec_mark_gives_letter_current_and_class(text: str, expected: dict[str, Any]) -> None:
    """Spaces, commas, order and case do not change what the mark says."""
    ratings = read(text).ratings

    assert {name: ratings.get(name) for name in expected} == expected
    assert ratings["standard"] == "IEC 60127"


@pytest.mark.parametrize(("text", "amps"), [("T315L250V", 0.315), ("T3.15L250V", 3.15)])
def test_a_figure_without_unit_is_milliamperes_below_one_ampere(text: str, amps: float) -> None:
    """IEC 60127-1 marks currents under 1 A in milliamperes; from memory of its marking clause."""
    assert read(text).ratings["current_a"] == amps


def test_the_letter_a_can_be_the_decimal_point() -> None:
    """T1A6 is 1.6 A, while T5A250V stays 5 A at 250 V."""
    assert read("T1A6 250V").ratings["current_a"] == 1.6
    assert read("T5A250V").ratings["current_a"] == 5


def test_mt_is_the_older_m() -> None:
    """The older mT (mittelträge) is read as M; the doubt stands in the mark's source."""
    reading = read("mT 500mA")

    assert reading.ratings["time_characteristic"] == "M"
    assert any("from memory" in mark.source for mark in reading.marks)


@pytest.mark.parametrize("text", ["T3A", "3A", "FUSE M8A"])
def test_what_is_not_printed_stays_unknown(text: str) -> None:
    """No volts, no class and no size are made up for a bare mark."""
    assert {"breaking_class", "voltage_v", "size_mm"}.isdisjoint(read(text).ratings)


def test_a_slow_blow_in_words_is_no_iec_t() -> None:
    """A '3A slow-blow' names no system: it must not become IEC 60127 T (calibration differs)."""
    ratings = read("3A slow-blow 250V").ratings

    assert ratings["speed"] == "time-delay"
    assert {"time_characteristic", "standard"}.isdisjoint(ratings)


def test_the_letter_decides_over_the_body() -> None:
    """A ceramic tube marked L is low breaking, and the reading says why it warns."""
    reading = read("T3AL250V ceramic body")

    assert reading.ratings["breaking_class"] == "L"
    assert any("letter decides" in warning for warning in reading.warnings)


@pytest.mark.parametrize(("text", "offered"), [("T315A", [3.15, 0.315]), ("T63A", [6.3, 0.063])])
def test_a_lost_point_is_offered_and_not_read(text: str, offered: list[float]) -> None:
    """More amperes than any miniature fuse carries are only candidates."""
    reading = read(text)

    assert "current_a" not in reading.ratings
    assert [candidate.ratings["current_a"] for candidate in reading.candidates] == offered


@pytest.mark.parametrize("text", ["100A 250V", "63A"])
def test_bare_amperes_beyond_a_miniature_fuse_need_a_person(text: str) -> None:
    """A figure that is a breaking capacity or damage never becomes the rated current."""
    assert "current_a" not in read(text).ratings


def test_a_dash_number_between_the_series_ranges_is_refused() -> None:
    """GMA knows 1 to 15 A and 63 to 800 mA (forum.digikey.com/t/936): 40 is neither."""
    reading = read("GMA-40-R")

    assert "current_a" not in reading.ratings
    assert reading.ratings["needs_review"]


@pytest.mark.parametrize(
    ("text", "size"),
    [("5*20mm", [5, 20]), ("6.3 x 32", [6.3, 32]), ('1/4" x 1-1/4"', [6.3, 32]), ("5×20", [5, 20])],
)
def test_sizes_in_mm_and_inches(text: str, size: list[float]) -> None:
    """1/4 x 1-1/4 inch is the 6.3 x 32 mm fuse. Source: MDL data sheet."""
    assert read(f"T2A {text}").ratings["size_mm"] == size


def test_interrupting_ratings_stand_apart_from_the_current() -> None:
    """10 kA at 125 V and 35 A at 250 V belong to UL 248-14, not to the rated current."""
    ratings = read("GMA-1-R 10,000A@125V 35A@250V").ratings

    assert ratings["current_a"] == 1
    assert ratings["interrupting"] == [
        {"a": 10000, "voltage_v": 125},
        {"a": 35, "voltage_v": 250},
    ]


@pytest.mark.parametrize(
    ("text", "standard"),
    [("IEC 60127-2/3 T2A", "IEC 60127"), ("UL 248-14 5A", "UL 248-14"), ("BS1362 13A", "BS 1362")],
)
def test_a_printed_standard_names_the_system(text: str, standard: str) -> None:
    """The part of the standard is kept beside the system it belongs to."""
    assert read(text).ratings["standard"] == standard


def test_both_systems_on_one_fuse_are_a_warning() -> None:
    """An IEC letter beside a UL series differs in calibration; the first is kept and said."""
    reading = read("GMA-1-R T1A")

    assert any("differs" in warning for warning in reading.warnings)


def test_a_makers_series_name_is_no_speed_letter() -> None:
    """FST is a series name of one maker; without a mark beside it no speed is read."""
    ratings = read("FST 0.5A").ratings

    assert ratings["series"] == "FST"
    assert "time_characteristic" not in ratings


def test_the_unknown_last_letter_is_kept_verbatim_and_unread() -> None:
    """T10 AL 250V P: no source explains the P, so it is compared and not decoded."""
    reading = read("T10 AL 250V P")

    assert reading.ratings["unknown_suffix"] == "P"
    assert [piece.text for piece in reading.unread] == ["P"]


def test_a_stock_number_is_not_torn_apart() -> None:
    """EBR-123A is no fuse of 123 A."""
    reading = read("EBR-123A")

    assert reading.ratings == {}
    assert [piece.text for piece in reading.unread] == ["EBR-123A"]


def test_a_comma_that_may_mean_thousands_is_not_read() -> None:
    """5,000 V could be five or five thousand: neither is taken."""
    reading = read("T1A 5,000V")

    assert "voltage_v" not in reading.ratings
    assert any("thousands" in warning for warning in reading.warnings)


def test_the_values_a_standard_sets_are_assumed_not_printed() -> None:
    """H means 1500 A in IEC 60127-2, L the larger of 35 A and ten times the rating."""
    assert read("T2AH250V").assumed["breaking_capacity_a"] == 1500
    assert read("T10AL250V").assumed["breaking_capacity_a"] == 100
    assert "breaking_capacity_a" not in read("T10AL250V").ratings


@pytest.mark.parametrize(
    ("text", "least"), [("T5AL250V", 0.9), ("GMA-63-R", 0.9), ("900mA5KV", 0.0), ("10D471K", 0.0)]
)
def test_how_strongly_a_text_looks_like_a_fuse(text: str, least: float) -> None:
    """A mark or series claims the text; kilovolts and varistors do not."""
    assert likely(text) >= least
    assert least > 0 or likely(text) <= 0.1


def test_a_written_out_fuse_keeps_its_series_lead_and_rohs_letter() -> None:
    """The canonical form is a marking of the same fuse."""
    first = read("BK/GMA-V-5-R")

    assert read(canonical(first)).ratings == first.ratings


def test_kilovolts_belong_to_another_fuse() -> None:
    """A fuse for 5 kV read as a cartridge needs a person."""
    assert read("900mA 5KV").ratings["needs_review"]


def test_a_comma_in_the_current_is_doubtful_only_before_three_digits() -> None:
    """T1,000A could be one or a thousand; T3,15A is 3.15."""
    assert "current_a" not in read("T1,000A").ratings
    assert read("T3,15A").ratings["current_a"] == 3.15


def test_a_class_in_words_is_written_in_words() -> None:
    """Without a letter the class keeps its words."""
    first = read("10A 250V high breaking")

    assert first.ratings["breaking_class"] == "H"
    assert read(canonical(first)).ratings == first.ratings


def test_an_old_glass_size_names_no_standard() -> None:
    """3AG is a size, 1/4 x 1-1/4 inch of glass; approvals are listed once."""
    reading = read("3AG 10A 250V UL UL")

    assert (reading.ratings["series"], reading.ratings["approvals"]) == ("3AG", ["UL"])
    assert reading.assumed == {"size_mm": [6.3, 32], "body": "glass"}
    assert "standard" not in reading.ratings


def test_a_fraction_without_a_denominator_is_no_current() -> None:
    """AGX-1/00 is damage, not an error of ours and not a current."""
    assert "current_a" not in read("AGX-1/00").ratings
