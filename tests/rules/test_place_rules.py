"""What places ask: first what each rule leaves alone, then what it must catch.

Sources: LG MB-308DDD, Daewoo KOG-3805, ACP MCS10DS, Sharp R-1505, R-3A88 and LG DLE3777W service
manuals; IEC 60384-14; IEC 60335-1 clauses 27 and 28 with IECEE CTL decision sheet 261.
"""

from __future__ import annotations

from typing import Any

import pytest

from inventory.errors import WrongInput
from inventory.families.sheet import families
from inventory.records import Outcome, Verdict
from inventory.rules.places import PLACES, place
from tests.rules.bench import answer, answers, judged

ASK, NO, MET = Outcome.ASK, Outcome.REFUSED, Outcome.MET
GOOD = {"resistive_a": 16, "motor_a": 4, "volts_ac": [250], "contact_form": "SPST-NO"}


# finding a place ---------------------------------------------------------------------


@pytest.mark.parametrize("name", ["monitor", "Monitor switch", "crowbar", "MONITOR"])
def test_a_place_goes_by_several_names(name: str) -> None:
    """Techs and service manuals call it differently."""
    assert place(name).id == "monitor"


def test_a_misspelt_place_is_answered_with_the_nearest() -> None:
    """One sentence, with what was perhaps meant."""
    with pytest.raises(WrongInput, match="Did you mean 'primary-interlock'"):
        place("primery interlok")


def test_an_unknown_place_stops_the_judging() -> None:
    """A place nobody knows is not judged as no place."""
    with pytest.raises(WrongInput, match="There is no place 'attic'"):
        judged("switch", {}, {}, place="attic")


@pytest.mark.parametrize("one", PLACES.values(), ids=lambda one: one.id)
def test_a_place_takes_families_that_exist(one: Any) -> None:
    """Every place names known families, and a source."""
    assert set(one.families) <= set(families())
    assert one.source


@pytest.mark.parametrize("name", ["primary-interlock", "secondary-interlock", "interlock-relay"])
def test_interlocks_work_by_the_open_throw(name: str) -> None:
    """Closed with the door shut. Source: continuity tables, Daewoo KOG-3805."""
    assert (PLACES[name].kind, PLACES[name].contact) == ("interlock", "NO")


def test_the_monitor_works_by_the_closed_throw() -> None:
    """Closed with the door open. Source: continuity tables, Daewoo KOG-3805, LG MB-308DDD."""
    assert (PLACES["monitor"].kind, PLACES["monitor"].contact) == ("interlock", "NC")


# what may sit there -------------------------------------------------------------------


def test_a_part_of_the_places_family_is_let_in() -> None:
    """Nothing is said."""
    assert answers(judged("fuse", {}, {}, place="line-fuse"), "place-family") == []


@pytest.mark.parametrize(
    ("family", "where"),
    [
        ("fuse", "hv-fuse"),
        ("capacitor", "x-capacitor"),
        ("switch", "line-fuse"),
        ("relay", "monitor"),
    ],
)
def test_a_part_of_another_family_is_refused_in_a_place(family: str, where: str) -> None:
    """A 250 V cartridge never sits in the high-voltage place, and so on."""
    assert answer(judged(family, {}, {}, place=where), "place-family").outcome is NO


# interlocks ----------------------------------------------------------------------------


def test_the_same_type_is_let_into_an_interlock() -> None:
    """Source: LG MB-308DDD: replace with the same type."""
    found = judged("switch", GOOD, GOOD, type_code="V-5230Q", offered_code="V-5230Q",
                   place="primary-interlock")  # fmt: skip

    assert found.verdict is Verdict.SAME


def test_a_listed_alternate_is_let_into_an_interlock() -> None:
    """Source: LG MB-308DDD unit label, alternates by place."""
    found = judged("switch", GOOD, GOOD, alternates=frozenset({"VP-533A-OF"}),
                   offered_code="VP 533A OF", place="primary-interlock")  # fmt: skip

    assert found.verdict is Verdict.SAME


def test_outside_interlocks_ratings_are_enough() -> None:
    """The same pair in a control place fits."""
    assert judged("switch", GOOD, GOOD, place="control-switch").verdict is Verdict.FITS


@pytest.mark.parametrize("where", ["primary-interlock", "secondary-interlock", "door-sensing"])
def test_a_rating_match_alone_is_a_question_in_an_interlock(where: str) -> None:
    """Matching ratings do not make it an interlock switch. Source: design section 5."""
    found = judged("switch", GOOD, GOOD, offered_code="KW-9", place=where)

    assert found.verdict is Verdict.ASK
    assert answer(found, "interlock-type").outcome is ASK


def test_a_rating_mismatch_is_refused_in_an_interlock_all_the_same() -> None:
    """The question does not soften the refusal."""
    found = judged("switch", GOOD, {**GOOD, "motor_a": 3}, place="primary-interlock")

    assert found.verdict is Verdict.REFUSED


# throws --------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("form", "where"), [("SPST-NC", "monitor"), ("SPDT", "monitor"), ("SPDT", "primary-interlock")]
)
def test_a_throw_that_is_there_needs_no_word(form: str, where: str) -> None:
    """A changeover has both throws."""
    assert answers(judged("switch", {}, {"contact_form": form}, place=where), "place-throw") == []


@pytest.mark.parametrize(
    ("form", "where"), [("SPST-NO", "monitor"), ("SPST-NC", "primary-interlock")]
)
def test_a_throw_that_is_missing_is_refused(form: str, where: str) -> None:
    """The look-alike version with the other throw."""
    found = judged("switch", {}, {"contact_form": form}, place=where)

    assert answer(found, "place-throw").outcome is NO


def test_a_throw_nobody_knows_is_a_question() -> None:
    """One look at the part decides."""
    reason = answer(judged("switch", {}, {}, place="monitor"), "place-throw")

    assert (reason.outcome, reason.decides, reason.effort) == (ASK, "contact_form", 1)


def test_one_type_has_the_throw_of_its_place() -> None:
    """What the maker lists for the place has the throw the place needs."""
    found = judged("switch", {}, {}, alternates=frozenset({"V5220Q"}), offered_code="V-5220Q",
                   place="monitor")  # fmt: skip

    assert answers(found, "place-throw") == []


def test_a_hood_thermostat_closes_on_rise() -> None:
    """Source: Sharp R-1505 service manual: closes at 60 °C."""
    has = {"contact": "NC", "open_c": 60}
    found = judged("thermal_cutout", {"close_on_rise_c": 60}, has, place="hood-thermostat")

    assert answer(found, "place-throw").outcome is NO


# protection -----------------------------------------------------------------------------

CUTOUT = {"open_c": 145, "open_tol_c": 5, "reset": "auto", "reset_c": 120, "contact": "NC",
          "resistive_a": 10, "volts_ac": [250]}  # fmt: skip


def test_the_identical_cut_out_serves_in_a_safety_place() -> None:
    """Source: Sharp R-3A88 service manual, magnetron cut-out 145 °C."""
    found = judged("thermal_cutout", CUTOUT, CUTOUT, type_code="TC-145", offered_code="TC145",
                   place="magnetron-cutout")  # fmt: skip

    assert found.verdict is Verdict.SAME


def test_another_type_in_a_safety_place_is_a_question() -> None:
    """Makers ask for the identical type. Source: Samsung MD1200WD service manual."""
    found = judged("thermal_cutout", CUTOUT, CUTOUT, place="cavity-cutout")

    assert found.verdict is Verdict.ASK
    assert answer(found, "safety-cutout-type").outcome is ASK


def test_a_tighter_cut_out_protects_no_later() -> None:
    """±3 K in place of ±5 K opens no later."""
    found = judged("thermal_cutout", CUTOUT, {**CUTOUT, "open_tol_c": 3}, place="cavity-cutout")

    assert answers(found, "protects-later") == []


def test_a_cut_out_that_may_open_later_is_refused() -> None:
    """±10 K in place of ±5 K may open at 155 °C. Source: KSD301 tolerance classes."""
    found = judged("thermal_cutout", CUTOUT, {**CUTOUT, "open_tol_c": 10}, place="cavity-cutout")

    assert answer(found, "protects-later").outcome is NO


def test_an_unknown_tolerance_is_a_question_in_a_safety_place() -> None:
    """It may open later than the failed one could."""
    has = {name: value for name, value in CUTOUT.items() if name != "open_tol_c"}
    found = judged("thermal_cutout", CUTOUT, has, place="cavity-cutout")

    assert answer(found, "protects-later").decides == "open_tol_c"


def test_the_reset_temperature_is_kept_in_a_safety_place() -> None:
    """In a control place five kelvins do not matter, in a safety place they do."""
    has = {**CUTOUT, "reset_c": 116}

    assert answers(judged("thermal_cutout", CUTOUT, has), "reset-moves") == []
    found = judged("thermal_cutout", CUTOUT, has, place="cavity-cutout")
    assert answer(found, "reset-moves").outcome is NO


@pytest.mark.parametrize("was", ["manual", "one-shot", "none"])
@pytest.mark.parametrize("where", [None, "control-thermostat", "safety-cutout"])
def test_reset_never_goes_to_automatic(was: str, where: str | None) -> None:
    """In any place. Source: IEC 60730-1, manual-reset action; design section 5."""
    found = judged("thermal_cutout", {"reset": was}, {"reset": "auto"}, place=where)

    assert answer(found, "reset-type").outcome is NO


def test_a_frost_reset_is_a_one_shot() -> None:
    """Reset at -35 °C never comes. Source: LG DLE3777W service manual."""
    need = {"reset": "auto", "reset_c": -35}
    found = judged("thermal_cutout", need, {"reset": "auto", "reset_c": 65})

    assert answer(found, "reset-type").outcome is NO


@pytest.mark.parametrize("has", ["manual", "one-shot"])
def test_a_like_reset_is_left_alone(has: str) -> None:
    """Only the way to automatic is barred here."""
    assert answers(judged("thermal_cutout", {"reset": has}, {"reset": has}), "reset-type") == []


# suppression -----------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("held", "where"),
    [
        (["Y1"], "y-capacitor"),
        (["X1", "Y2"], "y-capacitor"),
        (["X2"], "x-capacitor"),
        (["Y2"], "x-capacitor"),
    ],
)
def test_a_class_that_serves_is_let_in(held: list[str], where: str) -> None:
    """Source: IEC 60384-14 impulse voltages: Y2 5 kV stands where X2 2.5 kV does."""
    found = judged("capacitor_safety", {}, {"class": held}, place=where)

    assert answers(found, "place-class") == []


@pytest.mark.parametrize("held", [["X1"], ["X2"], ["X1", "X2"]])
def test_an_x_capacitor_never_serves_as_y(held: list[str]) -> None:
    """Whatever its voltage. Source: IEC 60384-14; design section 5."""
    found = judged("capacitor_safety", {}, {"class": held}, place="y-capacitor")

    assert answer(found, "place-class").outcome is NO


def test_a_capacitor_without_class_is_a_question_in_its_place() -> None:
    """One look at the marks decides."""
    found = judged("capacitor_safety", {}, {}, place="x-capacitor")

    assert answer(found, "place-class").outcome is ASK


def test_a_class_that_is_neither_is_refused_across_the_line() -> None:
    """A word that is no class serves nowhere."""
    found = judged("capacitor_safety", {}, {"class": ["Z"]}, place="x-capacitor")

    assert answer(found, "place-class").outcome is NO


# screws -------------------------------------------------------------------------------------


def test_a_metal_machine_screw_holds_the_earth() -> None:
    """Source: IEC 60335-1 clauses 27.4 and 28.3."""
    has = {"thread_kind": "machine", "material": "steel"}

    assert answers(judged("screw", {}, has, place="earth-screw"), "earth-screw") == []


BAD_EARTH = [
    {"thread_kind": "tapping", "material": "steel"},
    {"thread_kind": "sheet-metal", "material": "steel"},
    {"thread_kind": "machine", "material": "nylon"},
    {"thread_kind": "machine", "material": "steel", "painted": True},
]


@pytest.mark.parametrize("has", BAD_EARTH)
def test_a_screw_that_does_not_hold_the_earth_is_refused(has: dict[str, Any]) -> None:
    """One space-threaded screw is not enough. Source: IECEE CTL decision sheet 261."""
    assert NO in answers(judged("screw", {}, has, place="earth-screw"), "earth-screw")


@pytest.mark.parametrize(
    ("has", "decides"),
    [({"material": "steel"}, "thread_kind"), ({"thread_kind": "machine"}, "material")],
)
def test_an_earth_screw_must_be_looked_at(has: dict[str, Any], decides: str) -> None:
    """Unknown thread or metal is a question."""
    assert answer(judged("screw", {}, has, place="earth-screw"), "earth-screw").decides == decides


@pytest.mark.parametrize(("length", "outcomes"), [(8, []), (8.5, []), (12, [NO])])
def test_a_cover_screw_is_not_longer(length: float, outcomes: list[Outcome]) -> None:
    """Behind the cover are wires and the high-voltage parts. Common practice."""
    found = judged("screw", {"length_mm": 8}, {"length_mm": length}, place="cover-screw")

    assert answers(found, "cover-screw") == outcomes
