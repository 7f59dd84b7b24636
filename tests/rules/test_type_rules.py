"""Family, type, look-alike codes and suffixes: first what they leave alone, then what they catch.

Sources: LG MB-308DDD unit label (63/62, 533/532, 5230/5220 are interlock and monitor); Omron D3V
model number legend (a letter G halves the gap); hi1718 note on 5 kV oven fuses.
"""

from __future__ import annotations

import pytest

from inventory.records import Outcome, Part, Verdict
from inventory.rules.judge import judge
from inventory.rules.verdict import Wanted
from tests.rules.bench import answer, answers, judged

ASK, NO, MET = Outcome.ASK, Outcome.REFUSED, Outcome.MET


def test_the_same_family_needs_no_word() -> None:
    """Nothing is said where nothing is wrong."""
    assert answers(judged("fuse", {}, {}), "family") == []


@pytest.mark.parametrize(
    "pair", [("interlock_switch", "switch"), ("capacitor", "capacitor_safety")]
)
def test_a_family_the_sheet_lets_in_is_judged_further(pair: tuple[str, str]) -> None:
    """A V-size switch is a door switch in some ovens; a safety capacitor is also a capacitor."""
    assert answers(judged(pair[0], {}, {}, offered_family=pair[1]), "family") == []


NEVER = [("thermal_link", "thermal_cutout", "resetting"), ("hv_fuse", "fuse", "arc"),
         ("hv_diode", "diode", "chain"), ("resistor_fusible", "resistor", "plain resistor"),
         ("capacitor_safety", "capacitor", "safety marks"), ("hv_capacitor", "capacitor", "d.c."),
         ("motor_turntable", "lamp", "no turntable motor")]  # fmt: skip


@pytest.mark.parametrize(("wanted", "offered", "why"), NEVER)
def test_another_family_is_refused_with_its_reason(wanted: str, offered: str, why: str) -> None:
    """The swaps people try, each with why not."""
    reason = answer(judged(wanted, {}, {}, offered_family=offered), "family")

    assert reason.outcome is NO
    assert why in reason.sentence


def test_a_part_of_no_known_family_is_a_question() -> None:
    """Judged by the offered part's sheet, but somebody must say what failed."""
    found = judge(Wanted(marking="?"), Part("fuse"))

    assert answer(found, "family").outcome is ASK


def test_a_marking_of_no_family_with_a_sheet_is_a_question() -> None:
    """An OEM number is no family of parts."""
    found = judge(Wanted(family="oem_number"), Part("hv_diode"))

    assert answer(found, "family").outcome is ASK


def test_one_code_in_two_families_is_a_wrong_record() -> None:
    """Not refused, not passed: one of the two records is wrong."""
    wanted = Wanted(family="relay", type_code="AB-1234")
    found = judge(wanted, Part("lamp", type_code="AB1234"))

    assert answer(found, "family").outcome is ASK
    assert found.verdict is Verdict.ASK


# the same type -------------------------------------------------------------------------


def test_the_same_code_is_the_same_type() -> None:
    """Hyphens, spaces and capitals do not matter; unrecorded values are alike."""
    wanted = Wanted(family="switch", type_code="V-5230Q", ratings={"resistive_a": 16})
    found = judge(wanted, Part("switch", type_code="v 5230q"))

    assert found.verdict is Verdict.SAME
    assert found.closeness == 1.0


def test_an_alias_is_a_code_of_the_part() -> None:
    """The OEM number on record counts as well."""
    wanted = Wanted(family="hv_diode", own_codes=frozenset({"DE5900002A"}))

    assert judge(wanted, Part("hv_diode", aliases=("DE59-00002A",))).verdict is Verdict.SAME


def test_codes_folded_by_the_caller_count() -> None:
    """A caller with more codes of the offered part hands them over."""
    wanted = Wanted(family="magnetron", type_code="2M-214")
    found = judge(wanted, Part("magnetron"), codes=frozenset({"2m214"}))

    assert found.verdict is Verdict.SAME


def test_a_listed_alternate_is_as_good_as_the_same() -> None:
    """Source: design section 1: same is the identical type or a listed alternate."""
    wanted = Wanted(family="switch", type_code="SZM-V16-FA-63", alternates=frozenset({"VP533AOF"}))
    found = judge(wanted, Part("switch", type_code="VP-533A-OF"))

    assert found.verdict is Verdict.SAME
    assert answer(found, "listed").outcome is MET


def test_the_same_code_of_another_maker_is_not_the_same_type() -> None:
    """Two makers' numbers can meet by chance."""
    wanted = Wanted(family="relay", type_code="K100-12", maker="Nordlys")
    found = judge(wanted, Part("relay", type_code="K100-12", maker="Tallgren"))

    assert found.verdict is not Verdict.SAME


def test_a_makers_name_may_be_written_in_short() -> None:
    """``Tallgren`` and ``Tallgren Oy`` are one maker."""
    wanted = Wanted(family="relay", type_code="K100-12", maker="Tallgren Oy")

    assert (
        judge(wanted, Part("relay", type_code="K100-12", maker="TALLGREN")).verdict is Verdict.SAME
    )


def test_a_refusal_is_not_outvoted_by_the_same_code() -> None:
    """Two records of one code that differ in rating: one is wrong, and it is not fitted."""
    wanted = Wanted(family="hv_diode", type_code="CL01-12", ratings={"vrrm_kv": 12})
    found = judge(wanted, Part("hv_diode", type_code="CL01-12", ratings={"vrrm_kv": 8}))

    assert found.verdict is Verdict.REFUSED


def test_a_series_code_does_not_make_two_parts_the_same() -> None:
    """A KSD301 of unknown temperature is not the wanted one. Source: KSD301 family data sheet."""
    wanted = Wanted(family="thermal_cutout", type_code="KSD301", ratings={"open_c": 145})
    found = judge(wanted, Part("thermal_cutout", type_code="KSD301"))

    assert found.verdict is Verdict.ASK


# same type only --------------------------------------------------------------------------


@pytest.mark.parametrize("family", ["interlock_switch", "inverter_board"])
def test_some_families_take_the_same_type_only(family: str) -> None:
    """A likeness is at best a question, and asks for the type code."""
    reason = answer(judged(family, {}, {}), "same-type-only")

    assert (reason.outcome, reason.decides) == (ASK, "type_code")


def test_families_that_are_compared_are_not_asked_for_the_type() -> None:
    """A lamp is a lamp."""
    assert answers(judged("lamp", {}, {}), "same-type-only") == []


# false friends -----------------------------------------------------------------------------

TWINS = (("SZM-V16-FA-63", "SZM-V16-FA-62"), ("VP-533A-OF", "VP-532A-OF"), ("V-5230Q", "V-5220Q"))


@pytest.mark.parametrize(("wanted", "offered"), TWINS)
def test_a_code_one_character_apart_is_a_false_friend(wanted: str, offered: str) -> None:
    """The NO and NC versions of a door switch. Source: LG MB-308DDD unit label."""
    found = judged("switch", {}, {}, type_code=wanted, offered_code=offered)

    assert answer(found, "look-alike-code").outcome is ASK
    assert found.verdict is not Verdict.SAME


def test_a_false_friend_of_known_form_is_only_said() -> None:
    """Where both forms are on record the forms decide."""
    form = {"contact_form": "SPST-NO"}
    found = judged("switch", form, form, type_code="V-5230Q", offered_code="V-5220Q")

    assert answer(found, "look-alike-code").outcome is Outcome.NOTE


def test_a_twin_of_a_listed_alternate_is_a_false_friend_too() -> None:
    """The list names the interlock version; the shelf has the monitor version."""
    found = judged("switch", {}, {}, alternates=frozenset({"VP533AOF"}), offered_code="VP-532A-OF")

    assert answer(found, "look-alike-code").outcome is ASK


@pytest.mark.parametrize("offered", ["V-7777Q", "V-5230QX", None])
def test_other_codes_are_no_twins(offered: str | None) -> None:
    """Two characters apart, another length, or no code at all."""
    found = judged("switch", {}, {}, type_code="V-5230Q", offered_code=offered)

    assert answers(found, "look-alike-code") == []


def test_fuses_have_no_twins() -> None:
    """Only contacts turn round with one character."""
    found = judged("fuse", {}, {}, type_code="AB1234", offered_code="AB1235")

    assert answers(found, "look-alike-code") == []


# suffixes ------------------------------------------------------------------------------------

SUFFIXES = (("D3V-16-1C5", "D3V-16-1C5-K"), ("2M253K-T", "2M253K"))


@pytest.mark.parametrize(("wanted", "offered"), SUFFIXES)
def test_a_suffix_is_a_question(wanted: str, offered: str) -> None:
    """Revision, market or another hole: never the same, never refused for it."""
    found = judged("switch", {}, {}, type_code=wanted, offered_code=offered)

    assert answer(found, "suffix").outcome is ASK


@pytest.mark.parametrize("offered", ["D3V-16-1C5", "D3V-16-1C5-ABCDEF", "X1", None])
def test_other_codes_have_no_suffix(offered: str | None) -> None:
    """The same code, a much longer one, a short one, none."""
    found = judged("switch", {}, {}, type_code="D3V-16-1C5", offered_code=offered)

    assert answers(found, "suffix") == []
