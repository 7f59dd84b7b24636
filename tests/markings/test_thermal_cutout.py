"""Thermostats and cut-outs: which way they switch, when they reset, when nothing may be read.

Sources: oven and dryer service manuals named in tests/cases/protection_published.jsonl.
"""

from __future__ import annotations

from typing import Any

import pytest

from inventory.markings.thermal_cutout import canonical, likely, read

DIRECTIONS = {
    "opens at 160C, resets 105C": {"contact": "NC", "open_c": 160, "reset_c": 105, "reset": "auto"},
    "hood thermostat closes at 60 C and opens again at 45 C": {
        "contact": "NO", "close_on_rise_c": 60, "open_on_fall_c": 45, "location": "hood",
    },
    "KSD301 N.O. 60C ±5C": {"contact": "NO", "close_on_rise_c": 60, "close_on_rise_tol_c": 5},
    "KSD301 NO 60/45C": {"contact": "NO", "close_on_rise_c": 60, "open_on_fall_c": 45},
    "KSD301 NC 145C": {"contact": "NC", "open_c": 145},
    "top heater 170/155˚C": {"contact": "NC", "open_c": 170, "reset_c": 155},
    "TC 145C/120C": {"open_c": 145, "reset_c": 120, "reset": "auto"},
    "hi-limit 125±5/105±5℃": {"open_c": 125, "open_tol_c": 5, "reset_c": 105, "reset_tol_c": 5},
}  # fmt: skip


@pytest.mark.parametrize(("text", "expected"), DIRECTIONS.items())
def test_words_and_figures_together_say_which_contact_it_is(
    text: str, expected: dict[str, Any]
) -> None:
    """Closing above opening is a normally open contact, opening above reset a closed one."""
    ratings = read(text).ratings

    assert {name: ratings.get(name) for name in expected} == expected


def test_a_normally_open_contact_has_no_opening_temperature_on_rise() -> None:
    """Reading its figure as open_c would turn its function round."""
    assert "open_c" not in read("KSD301 60C NO").ratings


def test_a_printed_form_against_its_points_needs_a_person() -> None:
    """N.O. beside 'opens at 145, resets at 120' contradicts itself."""
    assert read("N.O. opens at 145C resets at 120C").ratings["needs_review"]


@pytest.mark.parametrize(
    ("text", "reset"),
    [
        ("150C manual reset", "manual"),
        ("150C auto reset", "auto"),
        ("temperature fuse 150C", "none"),
        ("150C does not reset", "none"),
        ("130C one-shot", "none"),
    ],
)
def test_how_it_resets_is_said_in_words(text: str, reset: str) -> None:
    """Manual, automatic, or never."""
    assert read(text).ratings["reset"] == reset


def test_nothing_is_said_of_the_reset_where_nothing_is_printed() -> None:
    """A stamp with a temperature says no reset."""
    for text in ("N85", "L155", "TC 145C (MG)", "KSD301 85C 250V 10A"):
        assert "reset" not in read(text).ratings


def test_a_reset_far_below_freezing_is_no_automatic_reset() -> None:
    """A dryer's safety thermostat opens at 130 °C and resets at -35 °C: once, in a house."""
    reading = read("Open at 266 ± 12°F (130 ± 7°C) Auto reset -31°F (-35°C)")

    assert (reading.ratings["reset_c"], reading.ratings["reset"]) == (-35, "one-shot")
    assert any("opens once" in warning for warning in reading.warnings)


def test_the_lost_minus_sign_is_offered_and_the_reset_left_open() -> None:
    """31 °F is -0.6 °C: read as printed, a one-shot would become self-resetting."""
    reading = read("31 F (35 C) auto reset")

    assert reading.ratings == {"cf_pair_consistent": False, "needs_review": True}
    assert [candidate.text for candidate in reading.candidates] == ["-31 F (-35 C) auto reset"]


def test_swapped_scales_are_offered_the_right_way_round() -> None:
    """150 °F (302 °C) is 302 °F (150 °C) with the letters swapped."""
    reading = read("150˚F (302˚C)")

    assert "open_c" not in reading.ratings
    assert [dict(candidate.ratings) for candidate in reading.candidates] == [
        {"open_c": 150, "open_f": 302}
    ]


def test_a_bare_pair_is_a_temperature_fuse_that_a_person_confirms() -> None:
    """R-1505 manual: 'will open at 302˚F (150˚C) ... This is a fuse. It does not reset.'"""
    reading = read("302˚F (150˚C)")

    assert (reading.ratings["reset"], reading.ratings["needs_review"]) == ("none", True)


@pytest.mark.parametrize(
    ("text", "opens_f", "differential"), [("L140-20F", 140, 20), ("L290-40", 290, 40)]
)
def test_a_dash_number_on_an_l_stamp_is_its_differential(
    text: str, opens_f: int, differential: int
) -> None:
    """From memory: the reset that follows is assumed, not read."""
    reading = read(text)

    assert reading.ratings["open_f"] == opens_f
    assert reading.ratings["differential_f"] == differential
    assert reading.assumed["reset_f"] == opens_f - differential
    assert "reset_f" not in reading.ratings


def test_the_range_of_a_series_is_no_rating_of_one_part() -> None:
    """KSD301 page: AC 125V max 15A; AC250V 5A 10A 15A max 16A; 0~250 °C."""
    reading = read("KSD301 AC250V 5A 10A 15A max 16A 0~250℃")

    assert reading.ratings["ratings"] == [
        {"voltage_vac": 250, "current_a": [5, 10, 15], "max_a": 16}
    ]
    assert {"current_a", "resistive_a", "open_c"}.isdisjoint(reading.ratings)
    assert reading.ratings["needs_review"]


def test_the_bracket_is_the_inductive_current() -> None:
    """10(2)A 250V: resistive ten, inductive two, under the shelf's contact names too."""
    ratings = read("KSD301 10(2)A 250V").ratings

    assert (ratings["current_a"], ratings["inductive_a"]) == (10, 2)
    assert (ratings["resistive_a"], ratings["motor_a"], ratings["volts_ac"]) == (10, 2, [250])


def test_two_loads_stay_two_ratings() -> None:
    """15 A at 125 V and 10 A at 250 V are not one rating."""
    ratings = read("15A 125VAC 10A 250VAC").ratings

    assert ratings["ratings"] == [
        {"voltage_vac": 125, "current_a": 15},
        {"voltage_vac": 250, "current_a": 10},
    ]
    assert "current_a" not in ratings


def test_a_direct_current_rating_is_kept_apart() -> None:
    """30 V d.c. says nothing of a.c."""
    ratings = read("KSD301 5A 30VDC").ratings

    assert (ratings["volts_dc"], ratings["dc_a"]) == ([30], 5)
    assert {"volts_ac", "resistive_a"}.isdisjoint(ratings)


@pytest.mark.parametrize("text", ["thermostat 85C 65C", "top heater 170/155"])
def test_figures_without_words_or_units_are_only_offered(text: str) -> None:
    """Which one opens, or in which scale, is not said: nothing is read."""
    reading = read(text)

    assert {"open_c", "reset_c"}.isdisjoint(reading.ratings)
    assert reading.candidates


def test_a_body_mark_is_not_the_opening_temperature() -> None:
    """T150 is what the body may reach (IEC 60730-1, from memory)."""
    ratings = read("KSD301 95C 10A 250V T150").ratings

    assert (ratings["open_c"], ratings["body_max_c"]) == (95, 150)


def test_a_series_number_is_no_temperature() -> None:
    """KSD301 names a series; 301 is no degree."""
    assert "open_c" not in read("KSD301 250V 10A").ratings


@pytest.mark.parametrize(("text", "least"), [("N85", 0.5), ("TC 145C (MG)", 0.9), ("T5AL250V", 0)])
def test_how_strongly_a_text_looks_like_a_cutout(text: str, least: float) -> None:
    """Stamps and the word claim it, a fuse does not."""
    assert likely(text) >= least
    assert least or likely(text) == 0


@pytest.mark.parametrize("text", list(DIRECTIONS))
def test_a_written_out_cutout_reads_the_same(text: str) -> None:
    """The canonical form keeps direction, points and place."""
    first = read(text)

    assert read(canonical(first)).ratings == first.ratings


def test_a_reset_above_the_opening_needs_a_person() -> None:
    """Opens at 85, resets at 105: a figure is wrong."""
    assert read("opens at 85C, resets at 105C").ratings["needs_review"]


def test_fahrenheit_alone_is_kept_and_converted() -> None:
    """Both figures are in the reading, only the printed one is written out."""
    first = read("opens at 250F")

    assert (first.ratings["open_f"], first.ratings["open_c"]) == (250, 121.1)
    assert read(canonical(first)).ratings == first.ratings


def test_a_plain_range_from_high_to_low_is_no_range() -> None:
    """150-45C is not a range of settings; nothing is read of it."""
    assert "range_c" not in read("150-45C").ratings


def test_a_single_load_with_a_maximum_is_a_range() -> None:
    """Max 16A alone is the top of a series."""
    assert read("AC250V max 16A").ratings["ratings"] == [
        {"voltage_vac": 250, "current_a": 16, "is_max": True}
    ]


def test_a_direction_without_a_figure_changes_nothing() -> None:
    """'On rise' before any figure has nothing to belong to."""
    assert read("on rise 85C").ratings == {"open_c": 85}


def test_a_stamp_with_the_manuals_words_beside_it_reads_the_same_written_out() -> None:
    """The stamp, the printed point in both scales and the reset all survive."""
    text = "Safety N130: open at 266±12°F (130±7°C), auto reset at -31°F (-35°C)"
    first = read(text)

    assert first.ratings["reset"] == "one-shot"
    assert read(canonical(first)).ratings == first.ratings


def test_a_temperature_no_disc_is_made_for_is_not_read() -> None:
    """1450 °C is 145 with a figure too many."""
    reading = read("TC 1450C (MG)")

    assert "open_c" not in reading.ratings
    assert reading.ratings["needs_review"]
