"""What nobody said of the failed part: asked once, of the failed part, and shape before rating."""

from __future__ import annotations

from typing import Any

import pytest

from inventory.records import Outcome, Verdict
from tests.rules.bench import answer, answers, judged

RATED: dict[str, Any] = {"resistive_a": 16, "motor_a": 4, "volts_ac": [250], "ambient_max_c": 85}
"""16(4)A 250V~ T85, as printed on many switches of many shapes."""

SHAPED: dict[str, Any] = {**RATED, "body": "miniature v", "hole_pitch_mm": 22.2,
                          "actuator": "pin plunger", "tab_mm": 6.3, "tab_thick": 0.8}  # fmt: skip


def offered(form: str | None, **more: Any) -> dict[str, Any]:
    """A switch with all its data but perhaps its contact form."""
    return {**SHAPED, "contact_form": form, **more}


@pytest.mark.parametrize("form", ["SPST-NO", "SPST-NC", None])
def test_a_single_throw_asks_for_the_throw_of_the_failed_part(form: str | None) -> None:
    """Normally open or normally closed: only the failed part tells."""
    reason = answer(judged("switch", RATED, offered(form)), "contact_form")

    assert (reason.outcome, reason.decides, reason.of_wanted) == (Outcome.ASK, "contact_form", True)


def test_a_changeover_serves_whatever_throw_the_failed_part_used() -> None:
    """The spare tab is insulated. Source: Crouzet 83161 data sheet (forms I, R, C)."""
    reason = answer(judged("switch", RATED, offered("SPDT")), "contact_form")

    assert reason.outcome is Outcome.MET
    assert "with the spare tab insulated" in reason.sentence


def test_a_rating_alone_is_a_question_of_shape() -> None:
    """A rating does not show body, lever and tabs: hold the two side by side."""
    found = judged("switch", RATED, offered("SPDT"))
    (asked,) = found.asks()

    assert found.verdict is Verdict.ASK
    assert (asked.rule, asked.effort, asked.of_wanted) == ("not-said", 1, True)
    assert "body size" in asked.sentence


SEEN: list[dict[str, Any]] = [{"contact_form": "SPDT"}, {"actuator": "pin plunger"},
                              {"tab_mm": 6.3}, {"body": "miniature v"}]  # fmt: skip


@pytest.mark.parametrize("said", SEEN)
def test_a_described_part_is_only_reminded_of_the_rest(said: dict[str, Any]) -> None:
    """Who has looked at the part has seen its shape: one line, no question."""
    found = judged("switch", {**RATED, **said}, offered("SPDT"))

    assert answers(found, "not-said") == [Outcome.NOTE]
    assert found.verdict is Verdict.FITS


def test_other_families_are_known_by_their_ratings() -> None:
    """A fuse's marking is the fuse."""
    ratings = {"current_a": 5, "time_characteristic": "T", "breaking_class": "L", "voltage_v": 250}

    assert judged("fuse", ratings, ratings).verdict is Verdict.FITS


def test_what_is_unknown_of_the_offered_part_is_asked_of_it() -> None:
    """The question names the part it is to be answered from."""
    need = {**SHAPED, "contact_form": "SPDT"}
    reason = answer(judged("switch", need, {**need, "tab_mm": None}), "tab_mm")

    assert (reason.outcome, reason.of_wanted) == (Outcome.ASK, False)


def test_ease_is_much_on_record_and_little_left_to_ask() -> None:
    """A shelf part with all its data comes above one with the bare rating."""
    full = judged("switch", RATED, offered("SPDT"))
    single = judged("switch", RATED, offered("SPST-NO"))
    bare = judged("switch", RATED, RATED)

    assert full.ease > single.ease > bare.ease > 0
    assert full.closeness == bare.closeness


def test_ease_leaves_codes_to_their_likeness() -> None:
    """A misspelt code finds its own by its letters, not by what is on record."""
    assert judged("switch", RATED, offered("SPDT"), type_code="AB-1234").ease == 0


ROWS: list[dict[str, Any]] = [
    {"resistive_a": 16, "volts_ac": [250], "ambient_max_c": 85},
    {"resistive_a": 10, "volts_ac": [250], "ambient_max_c": 125},
]
"""16 A to 85 °C and 10 A to 125 °C. Source: IEC 61058-1, ratings bound to a T mark."""


@pytest.mark.parametrize(("wanted", "outcome"), [(85, Outcome.MET), (105, Outcome.ASK),
                                                 (150, Outcome.REFUSED)])  # fmt: skip
def test_of_bound_ambients_only_the_coolest_is_sure(wanted: int, outcome: Outcome) -> None:
    """Which of its ratings is used decides in between."""
    need = {"resistive_a": 10, "volts_ac": [250], "ambient_max_c": wanted}

    assert answers(judged("switch", need, {"ratings": ROWS}), "ambient_max_c") == [outcome]


def test_of_bound_ambients_the_hottest_is_asked_for() -> None:
    """The failed part stood 125 °C with one of its ratings."""
    found = judged("switch", {"ratings": ROWS}, {**RATED, "ambient_max_c": 85})

    assert answers(found, "ambient_max_c") == [Outcome.REFUSED]


def test_two_ambient_marks_count_like_bound_ones() -> None:
    """Two approvals, two T marks: the cooler one is sure."""
    has = {"resistive_a": 10, "volts_ac": [250],
           "ambients": [{"ambient_max_c": 85}, {"ambient_max_c": 125}]}  # fmt: skip
    need = {"resistive_a": 10, "volts_ac": [250], "ambient_max_c": 85}

    assert answers(judged("switch", need, has), "ambient_max_c") == [Outcome.MET]
    assert answers(judged("switch", {**need, "ambient_max_c": 100}, has), "ambient_max_c") == [
        Outcome.ASK
    ]


def test_one_look_is_asked_for_once() -> None:
    """Width and thickness of a tab, lever and its length: one caliper, one question."""
    need = {**SHAPED, "contact_form": "SPDT", "actuator": "lever", "actuator_length_mm": 15}
    lost = dict.fromkeys(("tab_mm", "tab_thick", "actuator", "actuator_length_mm"))
    asks = [reason.decides for reason in judged("switch", need, {**need, **lost}).asks()]

    assert sorted(name or "" for name in asks) == ["actuator", "tab_mm"]


def test_a_known_width_leaves_the_thickness_to_be_asked() -> None:
    """4.8 mm tabs come in 0.5 and 0.8. Source: UL 310."""
    need = {**SHAPED, "contact_form": "SPDT", "tab_mm": 4.8, "tab_thick": 0.5}
    (asked,) = judged("switch", need, {**need, "tab_thick": None}).asks()

    assert asked.decides == "tab_thick"
