"""The judge: every rule is asked, the worst answer decides, and no score is looked at.

Refusing a good part costs a walk to another bin; passing a bad one can kill. So one refusal
refuses, one question asks, and what is not known is never taken as good.
"""

from __future__ import annotations

from collections.abc import Iterable

from inventory.records import Outcome, Part, Reason
from inventory.rules import (
    attribute_rules,
    doubt_rules,
    family_rules,
    load_rules,
    place_rules,
    type_rules,
    unsaid_rules,
)
from inventory.rules.case import Rule, case_of
from inventory.rules.closeness import closeness, ease
from inventory.rules.histories import salvage_stop
from inventory.rules.lots import judge_lot
from inventory.rules.verdict import Judgement, Wanted, together

__all__ = ["RULES", "judge", "judge_lot", "order_of", "salvage_stop"]

RULES: tuple[Rule, ...] = (
    # what kind of part it is
    type_rules.family_is_kept,
    type_rules.type_is_the_same,
    type_rules.same_type_only,
    type_rules.code_may_be_a_twin,
    type_rules.suffix_is_no_detail,
    type_rules.coil_makes_a_relay,
    # whether what was read can be trusted
    doubt_rules.reading_of_the_failed_part_is_sure,
    doubt_rules.reading_of_the_offered_part_is_sure,
    # what the sheet compares
    attribute_rules.attributes_agree,
    load_rules.loads_are_carried,
    # what the place asks
    place_rules.part_belongs_in_the_place,
    place_rules.interlock_takes_listed_types,
    place_rules.throw_of_the_place,
    place_rules.cut_out_protects_no_later,
    place_rules.cut_out_resets_as_before,
    place_rules.reset_never_turns_automatic,
    place_rules.safety_cut_out_is_identical,
    place_rules.x_never_serves_as_y,
    place_rules.earth_screw_holds_the_earth,
    place_rules.cover_screw_is_not_longer,
    # what single families ask
    family_rules.latching_never_for_plain,
    family_rules.coil_kind_is_kept,
    family_rules.y_capacitance_never_grows,
    family_rules.electrolytic_keeps_its_farads,
    family_rules.iron_keeps_its_frequency,
    family_rules.contact_seals_drag,
    family_rules.more_ribs_need_room,
    family_rules.hot_coupler_shape,
    family_rules.supply_kind_is_kept,
    family_rules.class_voltages_are_held,
    family_rules.bleeder_of_the_failed_part,
    family_rules.small_loads_want_a_small_contact,
    # what must be known of the failed part
    unsaid_rules.coil_of_the_relay_is_known,
    unsaid_rules.sensor_curve_is_known,
    unsaid_rules.bearing_is_named_or_measured,
    unsaid_rules.polarity_of_the_failed_part,
    unsaid_rules.three_cores_want_their_earth,
    unsaid_rules.cavity_lamp_stands_the_heat,
    # what is left to a person's eye
    attribute_rules.what_nobody_said,
)
"""All rules, in one list; the verdict does not hang on their order."""

SEVERITY = (Outcome.REFUSED, Outcome.ASK, Outcome.NOTE, Outcome.MET)
"""The order reasons are given in: what decides comes first."""


def judge(
    wanted: Wanted,
    offered: Part,
    *,
    codes: frozenset[str] | None = None,
    rules: Iterable[Rule] = RULES,
) -> Judgement:
    """One offered part judged for one wanted part.

    ``codes``: the offered part's codes, where the caller has more than its type code and aliases.
    Raises ``WrongInput`` for a place nobody knows.
    """
    case = case_of(wanted, offered, codes)
    reasons = tuple(sorted({reason for rule in rules for reason in rule(case)}, key=order_of))
    verdict = together(reasons, same=case.settled)
    return Judgement(verdict, reasons, closeness(case), ease(case, reasons))


def order_of(reason: Reason) -> tuple[int, int, str, str]:
    """Refusals first, then questions by effort, notes, and what is met; then by name."""
    return (SEVERITY.index(reason.outcome), reason.effort, reason.rule, reason.sentence)
