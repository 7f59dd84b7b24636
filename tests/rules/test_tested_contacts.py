"""Contacts on the bench: what is good, what is bad, what is not decided.

Sources: continuity tables of Daewoo KOG-3805, LG MB-308DDD and ACP MCS10DS service manuals
(primary and secondary open with the door open, monitor closed); Omron SS and D2D data sheets
(30 to 150 mΩ); Songle SRD and Omron G5LE data sheets (coil ±10 %, pull-in, drop-out).
"""

from __future__ import annotations

from typing import Any

import pytest

from inventory.errors import WrongInput
from inventory.rules.meter import Finding, Typed
from inventory.rules.tested import judge_readings

OL = "OL"


def bench(form: str | None, place: str | None = None, **readings: Any) -> Finding:
    """A micro switch on the bench."""
    ratings = {"contact_form": form} if form else {}
    return judge_readings("switch", ratings, readings, place)


GOOD: list[tuple[str | None, str | None, dict[str, Any]]] = [
    ("SPST-NO", None, {"rest_ohm": OL, "pressed_ohm": 0.1}),
    ("SPST-NO", None, {"rest_ohm": OL, "pressed_ohm": 0.1, "released_ohm": OL, "clicks": True}),
    ("SPST-NC", None, {"rest_ohm": 0.1, "pressed_ohm": OL, "released_ohm": 0.1}),
    ("SPST-NO", None, {"rest_ohm": OL, "pressed_ohm": 0.05, "wires": 4}),
    ("SPST-NO", None, {"rest_ohm": float("inf"), "pressed_ohm": 0.2, "drop_mv_at_1a": 30}),
    ("SPST-NO", None, {"no_rest_ohm": OL, "no_pressed_ohm": 0.1}),
    (None, "primary-interlock", {"rest_ohm": OL, "pressed_ohm": 0.1}),
    (None, "monitor", {"rest_ohm": 0.1, "pressed_ohm": OL}),
    (None, None, {"nc_rest_ohm": 0.1, "nc_pressed_ohm": OL}),
    ("SPDT", None, {"no_rest_ohm": OL, "no_pressed_ohm": 0.1, "nc_rest_ohm": 0.1,
                    "nc_pressed_ohm": OL}),
    ("SPDT", "monitor", {"rest_ohm": 0.1, "pressed_ohm": OL, "no_rest_ohm": OL,
                         "no_pressed_ohm": 0.1}),
    ("SPST-NO", None, {"rest_ohm": OL, "pressed_ohm": "0,2", "insulation_mohm": OL}),
]  # fmt: skip


@pytest.mark.parametrize(("form", "place", "readings"), GOOD)
def test_a_good_contact_clicks(
    form: str | None, place: str | None, readings: dict[str, Any]
) -> None:
    """Closed where it should be, open where it should be."""
    found = bench(form, place, **readings)

    assert (found.state, found.decided, found.missing) == ("clicks", True, ())


def test_a_monitor_is_not_judged_upside_down() -> None:
    """It conducts at rest and opens when pressed. Source: Daewoo KOG-3805, LG MB-308DDD."""
    right = bench(None, "monitor", rest_ohm=0.1, pressed_ohm=OL)
    wrong = bench(None, "monitor", rest_ohm=OL, pressed_ohm=0.1)

    assert right.state == "clicks"
    assert (wrong.state, wrong.decided) == ("untested", False)
    assert any("look-alike" in sentence for sentence in wrong.sentences)


def test_a_primary_is_not_judged_as_a_monitor() -> None:
    """The same readings, the other way round."""
    assert bench(None, "primary-interlock", rest_ohm=0.1, pressed_ohm=OL).state == "untested"


BAD: list[tuple[str | None, dict[str, Any], str]] = [
    ("SPST-NO", {"rest_ohm": OL, "pressed_ohm": OL}, "open"),
    ("SPST-NC", {"rest_ohm": OL, "pressed_ohm": OL}, "open"),
    ("SPST-NO", {"pressed_ohm": OL}, "open"),
    ("SPST-NO", {"rest_ohm": 0.1, "pressed_ohm": 0.1}, "welded"),
    ("SPST-NC", {"rest_ohm": 0.1, "pressed_ohm": 0.2}, "welded"),
    ("SPST-NO", {"rest_ohm": OL, "pressed_ohm": 0.1, "released_ohm": 0.1}, "welded"),
    ("SPST-NC", {"rest_ohm": 0.1, "pressed_ohm": OL, "released_ohm": OL}, "open"),
    (None, {"rest_ohm": OL, "pressed_ohm": OL}, "open"),
    (None, {"rest_ohm": 0.1, "pressed_ohm": 0.1}, "welded"),
    ("SPST-NO", {"rest_ohm": OL, "pressed_ohm": 3}, "weak"),
    ("SPST-NO", {"rest_ohm": 200e3, "pressed_ohm": 0.1}, "weak"),
    ("SPST-NO", {"rest_ohm": OL, "pressed_ohm": 0.15, "wires": 4}, "weak"),
    ("SPST-NO", {"rest_ohm": OL, "pressed_ohm": 0.1, "drop_mv_at_1a": 180}, "weak"),
    ("SPST-NO", {"rest_ohm": OL, "pressed_ohm": 0.1, "closed_mohm": 180}, "weak"),
    ("SPST-NO", {"rest_ohm": OL, "pressed_ohm": 0.1, "clicks": False}, "weak"),
    ("SPST-NO", {"rest_ohm": OL, "pressed_ohm": 0.1, "insulation_mohm": 0.2}, "weak"),
    ("SPST-NO", {"rest_ohm": OL, "pressed_ohm": 0.1, "spread": 3}, "weak"),
    ("SPDT", {"no_rest_ohm": OL, "no_pressed_ohm": 0.1, "nc_rest_ohm": OL,
              "nc_pressed_ohm": OL}, "open"),
    ("SPST-NO", {"clicks": False}, "weak"),
]  # fmt: skip


@pytest.mark.parametrize(("form", "readings", "state"), BAD)
def test_a_bad_contact_is_named(form: str | None, readings: dict[str, Any], state: str) -> None:
    """One broken limit is enough, and it is said with its source."""
    found = bench(form, **readings)
    (why, *_) = [check for check in found.checks if check.state == state]

    assert (found.state, found.decided) == (state, True)
    assert why.ok is False
    assert why.source


OPEN_QUESTIONS: list[tuple[str | None, dict[str, Any], str]] = [
    ("SPST-NO", {"pressed_ohm": 0.1}, "rest_ohm"),
    ("SPST-NO", {"rest_ohm": OL}, "pressed_ohm"),
    ("SPST-NO", {"clicks": True}, "rest_ohm"),
    ("SPST-NO", {}, "pressed_ohm"),
    (None, {}, "rest_ohm"),
    (None, {"rest_ohm": OL, "pressed_ohm": 0.1}, "contact_form"),
    (None, {"rest_ohm": 0.1, "pressed_ohm": OL}, "contact_form"),
    (None, {"pressed_ohm": 0.1}, "contact_form"),
    ("SPDT", {"rest_ohm": 0.1, "pressed_ohm": OL}, "no_rest_ohm"),
    ("SPDT", {"no_rest_ohm": OL, "no_pressed_ohm": 0.1}, "nc_rest_ohm"),
    ("SPST-NO", {"rest_ohm": 0.1, "pressed_ohm": OL}, "contact_form"),
]


@pytest.mark.parametrize(("form", "readings", "missing"), OPEN_QUESTIONS)
def test_what_is_not_decided_stays_untested(
    form: str | None, readings: dict[str, Any], missing: str
) -> None:
    """Never good on a missing reading; what is missing is named."""
    found = bench(form, **readings)

    assert (found.state, found.decided) == ("untested", False)
    assert missing in found.missing


def test_a_place_tells_which_throw_of_a_changeover_was_measured() -> None:
    """The other throw must be measured as well before the lot clicks."""
    found = bench("SPDT", "monitor", rest_ohm=0.1, pressed_ohm=OL)

    assert set(found.missing) == {"no_rest_ohm", "no_pressed_ohm"}


def test_two_wires_do_not_prove_a_hundred_milliohms() -> None:
    """The reading holds the leads; it is said, and the drop at 1 A takes the doubt away."""
    two = bench("SPST-NO", rest_ohm=OL, pressed_ohm=0.1)
    drop = bench("SPST-NO", rest_ohm=OL, pressed_ohm=0.1, drop_mv_at_1a=40)

    assert any("cannot prove less than 100 mΩ" in sentence for sentence in two.sentences)
    assert not any("cannot prove" in sentence for sentence in drop.sentences)


def test_a_data_sheet_limit_replaces_the_usual_one() -> None:
    """A signal switch may show 150 mΩ new. Source: Omron SS data sheet (0.25 N model)."""
    readings: dict[str, Any] = {"rest_ohm": OL, "pressed_ohm": 0.2, "drop_mv_at_1a": 140}
    ratings = {"contact_form": "SPST-NO", "contact_mohm_max": 150}

    assert judge_readings("switch", ratings, readings).state == "clicks"
    assert bench("SPST-NO", **readings).state == "weak"


def test_a_check_names_the_reading_it_rests_on() -> None:
    """So that the bench can write limit and source beside each reading."""
    found = bench("SPST-NC", rest_ohm=0.1, pressed_ohm=OL)

    assert {check.reading for check in found.checks} == {"rest_ohm", "pressed_ohm"}
    assert {check.unit for check in found.checks if check.ok} == {"Ω"}


def test_a_reading_without_a_limit_is_kept_and_decides_nothing() -> None:
    """A slip of the pen does not vanish."""
    found = bench("SPST-NO", rest_ohm=OL, presed_ohm=0.1)

    assert found.state == "untested"
    assert any("presed_ohm" in sentence for sentence in found.sentences)


@pytest.mark.parametrize("value", ["fast", float("nan"), -1, "-0.5"])
def test_a_reading_that_is_no_figure_is_the_users_mistake(value: Any) -> None:
    """One sentence, nothing concluded."""
    with pytest.raises(WrongInput, match="rest_ohm cannot be"):
        bench("SPST-NO", rest_ohm=value, pressed_ohm=0.1)


# relays ---------------------------------------------------------------------------------

RELAY = {"contact_form": "SPST-NO", "coil_ohm": 70, "coil_vdc": 5}
PULLS: dict[str, Typed] = {"coil_ohm": 68, "rest_ohm": OL, "pressed_ohm": 0.1, "drop_mv_at_1a": 60}


def relay(**readings: Any) -> Finding:
    """A relay whose coil table says 70 Ω. Source: Songle SRD data sheet, 5 V 0.36 W."""
    return judge_readings("relay", RELAY, {**PULLS, **readings})


def test_a_relay_that_pulls_and_closes_is_good() -> None:
    """Coil within ±10 %, contact below 200 mV at 1 A."""
    assert relay(pull_in_v=3.5, drop_out_v=0.9, energised_ohm=0.1).state == "clicks"


BAD_RELAYS = [
    ({"coil_ohm": 80}, "weak"), ({"coil_ohm": 62}, "weak"), ({"coil_ohm": OL}, "open"),
    ({"pull_in_v": 4.0}, "weak"), ({"drop_out_v": 0.4}, "weak"), ({"drop_mv_at_1a": 260}, "weak"),
    ({"rest_ohm": 0.2}, "welded"), ({"insulation_mohm": 20}, "weak"),
]  # fmt: skip


@pytest.mark.parametrize(("readings", "state"), BAD_RELAYS)
def test_a_bad_relay_is_named(readings: dict[str, Any], state: str) -> None:
    """Source: Songle SRD data sheet: coil ±10 %, pull-in 75 %, drop-out 10 %, 100 MΩ."""
    assert relay(**readings).state == state


def test_contact_ohms_alone_do_not_make_a_relay_good() -> None:
    """Continuity alone is never good for a relay: the drop at 1 A is needed. Common practice."""
    readings = {name: value for name, value in PULLS.items() if name != "drop_mv_at_1a"}
    found = judge_readings("relay", RELAY, readings)

    assert found.missing == ("drop_mv_at_1a",)


def test_four_wires_do_instead_of_the_drop() -> None:
    """0.06 Ω by four wires is the contact itself."""
    readings: dict[str, Typed] = {
        "coil_ohm": 68, "rest_ohm": OL, "pressed_ohm": 0.06, "wires": 4,
    }  # fmt: skip

    assert judge_readings("relay", RELAY, readings).state == "clicks"


def test_a_coil_of_unknown_resistance_cannot_be_judged() -> None:
    """The rating is missing, so the reading decides nothing."""
    found = judge_readings("relay", {"contact_form": "SPST-NO", "coil_vdc": 5}, PULLS)

    assert "coil_ohm" in found.missing
    assert found.state == "untested"
