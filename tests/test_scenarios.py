"""Short stories from the bench, told through the library: what a careful technician would answer.

Makers and type codes are invented. Each story names the published source of the rule it turns
on, or says ``common practice``.
"""

from __future__ import annotations

from typing import Any

import pytest

from inventory.bench.find import Answer, Query, find, measured
from inventory.bench.log import Piece, log_pieces, strip_unit
from inventory.bench.testing import bench_test
from inventory.bench.xref import add_edges
from inventory.families.sheet import sheet
from inventory.records import Edge, SourceUnit, Verdict
from inventory.store.shelf import Shelf

OVEN = "Brenka BK-20M"
SWITCH: dict[str, Any] = {
    "resistive_a": 16, "motor_a": 4, "volts_ac": [250], "body": "miniature v",
    "actuator": "pin plunger", "tab_mm": 4.8, "tab_thick": 0.5, "hole_pitch_mm": 22.2,
    "ambient_max_c": 105,
}  # fmt: skip


def new(family: str, marking: str = "", code: str | None = None, **ratings: Any) -> Piece:
    """A new piece that tested good."""
    (good,) = sheet(family).good_states()
    return Piece(marking, family, type_code=code, state=good, origin="new", ratings=ratings)


def salvaged(family: str, marking: str = "", code: str | None = None, **ratings: Any) -> Piece:
    """The same, pulled from a unit."""
    (good,) = sheet(family).good_states()
    return Piece(marking, family, type_code=code, state=good, origin="salvaged", ratings=ratings)


class Bench:
    """A shelf with what lies on it, and the question put to it."""

    def __init__(self, shelf: Shelf) -> None:
        self.shelf = shelf

    def lay(self, *pieces: Piece) -> Bench:
        """Put pieces on the shelf."""
        log_pieces(self.shelf, pieces)
        return self

    def ask(self, marking: str = "", **query: Any) -> Answer:
        """Search the shelf."""
        return find(self.shelf, Query(marking, limit=50, **query))

    def says(self, marking: str = "", **query: Any) -> dict[str, str]:
        """The verdict on each part that came up, by its type code."""
        answer = self.ask(marking, **query)
        every = (*answer.stand_ins, *answer.found.refused)
        return {one.part.type_code or one.part.marking: str(one.verdict) for one in every}


@pytest.fixture
def bench(shelf: Shelf) -> Bench:
    """An empty bench."""
    return Bench(shelf)


def why(answer: Answer, code: str) -> str:
    """All that is said of one part."""
    every = (*answer.stand_ins, *answer.found.refused)
    (one,) = [one for one in every if code in (one.part.type_code, one.part.marking)]
    return " ".join(reason.sentence for reason in one.judgement.reasons)


# the door -----------------------------------------------------------------------------

LISTED = Edge("DOR-63", "VEL-533", "listed-alternate", "label inside the Brenka BK-20M",
              place="primary-interlock", unit=OVEN)  # fmt: skip


def test_an_interlock_takes_the_listed_alternate_and_questions_a_rating_match(
    bench: Bench,
) -> None:
    """The label lists VEL-533; KOR-16 has every rating and still is only a question.

    Source: LG MB-308DDD unit label and service manual: listed alternates by place.
    """
    no = {**SWITCH, "contact_form": "SPST-NO"}
    bench.lay(
        new("interlock_switch", code="DOR-62", **{**SWITCH, "contact_form": "SPST-NC"}),
        new("interlock_switch", code="VEL-533", **no),
        new("switch", code="KOR-16", **no),
    )
    add_edges(bench.shelf, [LISTED])
    place = {"family": "interlock_switch", "place": "primary-interlock", "unit": OVEN}
    said = bench.says(type_code="DOR-63", needs={**no, "volts_ac": 250}, **place)
    answer = bench.ask(type_code="DOR-63", needs={**no, "volts_ac": 250}, **place)

    assert (said["VEL-533"], said["KOR-16"], said["DOR-62"]) == ("same", "ask", "refused")
    assert answer.stand_ins[0].part.type_code == "VEL-533"
    assert "matching ratings do not make it one" in why(answer, "KOR-16")
    assert "normally open and the normally closed version" in why(answer, "DOR-62")


def test_a_listed_alternate_of_another_place_is_not_listed_here(bench: Bench) -> None:
    """What the label lists for the primary switch says nothing of the monitor. LG MB-308DDD."""
    bench.lay(new("interlock_switch", code="VEL-533", **SWITCH, contact_form="SPST-NO"))
    add_edges(bench.shelf, [LISTED])
    said = bench.says(type_code="DOR-63", family="interlock_switch", place="monitor", unit=OVEN)

    assert said["VEL-533"] == "refused"


def test_after_the_monitor_blew_the_fuse_the_four_are_one_set(bench: Bench) -> None:
    """Switches from such an oven are scrap, and the search says what belongs together.

    Source: Daewoo KOG-131A9A service manual; Sharp R-200BW training notes.
    """
    unit = SourceUnit(0, "U1", "microwave oven", "Brenka", "BK-20M",
                      why_scrapped="monitor blew the fuse")  # fmt: skip
    pulled = [Piece(family="interlock_switch", type_code=code, state="clicks",
                    ratings={**SWITCH, "contact_form": form})
              for code, form in (("DOR-63", "SPST-NO"), ("DOR-62", "SPST-NC"))]  # fmt: skip
    strip_unit(bench.shelf, unit, [*pulled, Piece("T8AH250V", "fuse", state="good")])
    at_monitor = bench.ask(type_code="DOR-62", place="monitor", unit=OVEN)
    fuse = bench.ask("T8AH250V", family="fuse", place="line-fuse")

    assert not at_monitor.stand_ins
    assert "fault current" in why(at_monitor, "DOR-62")
    assert not fuse.stand_ins
    assert any("one set: renew all four" in caution.text for caution in at_monitor.cautions)
    assert any("one set: renew all four" in caution.text for caution in fuse.cautions)


def test_the_same_switch_from_a_sound_oven_is_offered(bench: Bench) -> None:
    """Only the fault ends it: the same type from an oven with a dead magnetron. Common practice."""
    unit = SourceUnit(0, "U2", "microwave oven", "Brenka", "BK-20M", why_scrapped="dead magnetron")
    piece = Piece(family="interlock_switch", type_code="DOR-62", state="clicks",
                  ratings={**SWITCH, "contact_form": "SPST-NC"})  # fmt: skip
    strip_unit(bench.shelf, unit, [piece])

    assert bench.says(type_code="DOR-62", place="monitor", unit=OVEN) == {"DOR-62": "same"}


def test_a_monitor_switch_is_tested_the_right_way_round(bench: Bench) -> None:
    """Closed at rest, open when pressed: that is a good monitor, not a welded switch.

    Source: continuity tables of Daewoo KOG-3805 and LG MB-308DDD service manuals.
    """
    piece = Piece(
        family="interlock_switch", type_code="DOR-62", ratings={"contact_form": "SPST-NC"}
    )
    (logged,) = log_pieces(bench.shelf, [piece])
    readings = {"rest_ohm": 0.05, "pressed_ohm": float("inf"), "clicks": True}

    assert bench_test(bench.shelf, logged.lot.id, readings).lot.state == "clicks"


# one failed switch of which only the print is left ----------------------------------------


def test_a_bare_print_gets_few_questions_and_the_best_known_part_first(bench: Bench) -> None:
    """``16(4)A 250V~ T85 5E4``: the part with all its data first, each with four asks at most."""
    print_ = "16(4)A 250V~ T85 5E4"
    bench.lay(
        new("switch", "16(4)A 250V~ T85", "ORV-0"),
        new("switch", "16(4)A 250V~ T105 5E4", "ORV-1", **SWITCH, contact_form="SPST-NO"),
        new("switch", "16(4)A 250V~ T105 5E4", "ORV-2", **SWITCH, contact_form="SPDT"),
        new("switch", "10(4)A 250V~ T85 5E4", "ORV-3", **{**SWITCH, "resistive_a": 10}),
    )
    answer = bench.ask(print_, family="switch")
    asks = [one.judgement.asks() for one in answer.stand_ins]

    assert [one.part.type_code for one in answer.stand_ins] == ["ORV-2", "ORV-1", "ORV-0"]
    assert [len(asked) for asked in asks] == [1, 2, 2]
    assert all(asked[0].effort == 1 and asked[0].of_wanted for asked in asks)
    assert str(answer.found.refused[0].verdict) == "refused"


def test_a_look_at_the_failed_part_turns_the_question_into_a_fit(bench: Bench) -> None:
    """Once form and shape are said, the electrical fit is a fit. Common practice."""
    bench.lay(new("switch", "16(4)A 250V~ T105", "ORV-2", **SWITCH, contact_form="SPDT"))
    seen = {"contact_form": "SPST-NO", "body": "miniature v", "actuator": "pin plunger"}

    assert bench.says("16(4)A 250V~ T85", family="switch") == {"ORV-2": "ask"}
    assert bench.says("16(4)A 250V~ T85", family="switch", needs=seen) == {"ORV-2": "fits"}


def test_a_measured_tab_settles_the_offered_part(bench: Bench) -> None:
    """The failed switch has 6.3 mm tabs; one caliper answer on the shelf part decides. UL 310."""
    bare = {name: value for name, value in SWITCH.items() if not name.startswith("tab")}
    bench.lay(new("switch", "16(4)A 250V~ T105", "ORV-2", **bare, contact_form="SPDT"))
    seen = {"contact_form": "SPDT", "tab_mm": 6.3}
    before = bench.ask("16(4)A 250V~", family="switch", needs=seen)
    (asked,) = before.stand_ins[0].judgement.asks()
    measured(bench.shelf, before.stand_ins[0].part.id or 0, {"tab_mm": 4.8})

    assert (asked.decides, asked.of_wanted) == ("tab_mm", False)
    assert bench.says("16(4)A 250V~", family="switch", needs=seen) == {"ORV-2": "refused"}


# high voltage -------------------------------------------------------------------------


def test_a_high_voltage_capacitor_may_be_five_per_cent_off(bench: Bench) -> None:
    """1.14 for 1.20 µF does, 1.08 is a question, 2000 V and no bleeder are none.

    Source: common practice (± 5 %); Daewoo KOG-3667OS service manual (bleeder).
    """
    bench.lay(
        new("hv_capacitor", "2100VAC 1.14uF", "HC-114", bleeder=True),
        new("hv_capacitor", "2100VAC 1.08uF", "HC-108", bleeder=True),
        new("hv_capacitor", "2100VAC 1.20uF", "HC-120-N", bleeder=False),
    )
    needs = {"capacitance_uf": 1.2, "voltage_vac": 2100, "bleeder": True}
    answer = bench.ask("2100V~ 1.20µF", family="hv_capacitor", needs=needs)

    assert bench.says("2100V~ 1.20µF", family="hv_capacitor", needs=needs) == {
        "HC-114": "fits", "HC-108": "ask", "HC-120-N": "refused",
    }  # fmt: skip
    assert "1.14 µF, wanted 1.2 µF (-5 %, allowed ± 5 %)" in why(answer, "HC-114")


def test_a_film_capacitor_is_no_high_voltage_capacitor(bench: Bench) -> None:
    """The same microfarads at 630 V d.c.: never. Common practice."""
    bench.lay(new("capacitor", "1.2uF 630V", "FK-12"))
    answer = bench.ask("2100V~ 1.2µF", family="hv_capacitor")

    assert not [one for one in answer.stand_ins if one.part.type_code == "FK-12"]


# heat ---------------------------------------------------------------------------------


def test_a_manual_cut_out_is_never_replaced_by_one_that_resets_itself(bench: Bench) -> None:
    """Power would come back on the fault. Source: IEC 60730-1, manual-reset action."""
    bench.lay(new("thermal_cutout", "145C 250V 16A NC", "TC-A", reset="auto"),
              new("thermal_cutout", "145C 250V 16A NC", "TC-M", reset="manual"))  # fmt: skip
    said = bench.says("145°C 16A 250V~ NC", family="thermal_cutout", needs={"reset": "manual"})

    assert said.get("TC-A") in {None, "refused"}
    assert said["TC-M"] == "fits"


def test_a_cut_out_whose_reset_nobody_saw_is_asked_for_it(bench: Bench) -> None:
    """Button or no button: one look at the failed part. Common practice."""
    bench.lay(new("thermal_cutout", "145C 250V 16A NC", "TC-A", reset="auto"))
    answer = bench.ask("145°C 16A 250V~ NC", family="thermal_cutout")

    assert [one.verdict for one in answer.stand_ins] == [Verdict.ASK]
    assert "reset of the failed part (offered: auto)" in why(answer, "TC-A")


def test_a_safety_cut_out_is_new_and_of_the_identical_type(bench: Bench) -> None:
    """Figures alone are a question there, and a salvaged one is refused.

    Source: Samsung MD1200WD service manual; common practice.
    """
    ratings = {"reset": "manual", "open_tol_c": 5}
    bench.lay(new("thermal_cutout", "145C 250V 16A NC", "TC-N", **ratings),
              salvaged("thermal_cutout", "145C 250V 16A NC", "TC-S", **ratings))  # fmt: skip
    said = bench.says("145°C manual reset 16A 250V~", family="thermal_cutout",
                      place="cavity-cutout")  # fmt: skip

    assert said == {"TC-N": "ask", "TC-S": "refused"}


def test_a_thermal_link_keeps_its_temperature_and_is_new(bench: Bench) -> None:
    """A higher Tf lets it burn, a salvaged one may have moved, a bimetal puts power back on.

    Source: Thermodisc G4A data sheet; common practice.
    """
    bench.lay(new("thermal_link", "Tf 152C 250V 10A", "TL-152"),
              new("thermal_link", "Tf 167C 250V 10A", "TL-167"),
              salvaged("thermal_link", "Tf 152C 250V 15A", "TL-S"),
              new("thermal_cutout", "152C 250V 10A", "TC-152", reset="auto"))  # fmt: skip
    said = bench.says("Tf 152°C 10A 250V", family="thermal_link")

    assert said["TL-152"] == "fits"
    assert said["TL-S"] == "refused"
    assert {said.get(code) for code in ("TL-167", "TC-152")} <= {None, "refused"}
