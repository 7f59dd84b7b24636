"""Whether a lot may be offered at all: tested state, origin, reuse policy, history."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

from inventory.families.sheet import Sheet
from inventory.records import Lot, Part, Reason
from inventory.rules.case import ask, refuse
from inventory.rules.compare import members
from inventory.rules.histories import salvage_stop
from inventory.rules.places import Place, place
from inventory.rules.words import flag

PCB_YEAR = 1979
"""Oil capacitors made before 2 July 1979 count as PCB. Source: 40 CFR 761.2(a)(4)."""


@dataclass(frozen=True, slots=True)
class _Look:
    """A lot with all that the lot rules look at."""

    sheet: Sheet
    lot: Lot
    place: Place | None
    part: Part | None

    @property
    def salvaged(self) -> bool:
        """Whether it was pulled from a unit; an unknown origin counts as salvaged."""
        return self.lot.origin != "new"


ANSWERS = {"hv_capacitor": frozenset({"no_pcb", "made_year", "made_before_1979"})}
"""What a person can say of a part type, by family, that only these rules ask for."""

LotRule = Callable[[_Look], Reason | None]


def judge_lot(
    sheet: Sheet, lot: Lot, *, place_name: str | None = None, part: Part | None = None
) -> Reason | None:
    """Why a lot is not offered, or what must be done first; None where nothing is to be said.

    The first refusal counts, else the first question, else the first note, so the answer does
    not hang on the order of the rules.
    """
    look = _Look(sheet, lot, place(place_name) if place_name else None, part)
    said = [reason for rule in LOT_RULES if (reason := rule(look))]
    return min(said, key=lambda reason: _SEVERITY.index(reason.outcome.value), default=None)


_SEVERITY = ("refused", "ask", "note", "met")


def bad_state_is_never_offered(look: _Look) -> Reason | None:
    """Open, welded, shorted, drifted, worn, ...: no lot in a bad state is offered."""
    state = next((s for s in look.sheet.states if s.name == look.lot.state), None)
    if state is None or state.good:
        return None
    return refuse(
        "state", f"Lot {look.lot.id} tested {state.name}: {state.means}.", "design rule: bad states"
    )


def untested_is_tested_first(look: _Look) -> Reason | None:
    """An untested piece, or one in a state the sheet does not know, is tested first."""
    if look.lot.state in look.sheet.good_states():
        return None
    known = look.lot.state in look.sheet.state_names()
    words = look.lot.state if known else f"in an unknown state ({look.lot.state[:40]})"
    new = "" if look.salvaged else "new and "
    sentence = f"Lot {look.lot.id} is {new}{words}: test first."
    return ask("test-first", sentence, "design rule: untested", "bench test", effort=5)


def new_only_is_new(look: _Look) -> Reason | None:
    """Families of which a used piece cannot be shown to be sound."""
    if look.sheet.policy != "new-only" or not look.salvaged:
        return None
    sentence = f"Only new: {look.sheet.policy_reason}"
    return refuse("new-only", sentence, look.sheet.sources[0])


def never_is_never(look: _Look) -> Reason | None:
    """Families that are never fitted again."""
    if look.sheet.policy != "never":
        return None
    return refuse("never", f"Never fitted: {look.sheet.policy_reason}", look.sheet.sources[0])


def history_stops(look: _Look) -> Reason | None:
    """A past that ends the piece."""
    return salvage_stop(look.sheet.id, look.lot.history, None)


def fuse_history_is_known(look: _Look) -> Reason | None:
    """A salvaged fuse without a history may have carried a surge."""
    if look.sheet.id != "fuse" or not look.salvaged or look.lot.history:
        return None
    return ask(
        "fuse-history",
        "A salvaged fuse of unknown history may be aged by a surge: fit a new one.",
        "common practice",
        "history",
        effort=9,
    )


def door_switch_history_is_known(look: _Look) -> Reason | None:
    """At the door a salvaged switch counts by its past: a fault current does not show at 1 A.

    Source: Sharp R-200BW training notes: the fault current permanently damages the contacts.
    """
    at_the_door = bool(look.place and look.place.kind == "interlock")
    known = look.lot.history or look.lot.source_unit is not None
    if not (at_the_door and look.salvaged) or known:
        return None
    return ask(
        "door-history",
        f"Lot {look.lot.id} is salvaged from an unknown unit: if its fuse was blown by the monitor"
        " the contact is damaged, and no bench test shows it.",
        "Sharp R-200BW training notes",
        "history",
        effort=9,
    )


def class_y_is_new(look: _Look) -> Reason | None:
    """A salvaged capacitor is not put between the mains and metal that people touch."""
    if look.sheet.id != "capacitor_safety" or not look.salvaged:
        return None
    held = members((look.part.ratings if look.part else {}).get("class", []))
    in_y = bool(look.place and look.place.kind == "class-y")
    if not in_y and not (held and all(name.startswith("Y") for name in held)):
        return None
    return refuse("class-y-new", "Class Y is fitted new only.", "common practice")


def safety_cut_out_is_new(look: _Look) -> Reason | None:
    """A salvaged cut-out does not go back into a protective place."""
    protective = bool(look.place and look.place.kind == "protective")
    if look.sheet.id != "thermal_cutout" or not look.salvaged or not protective:
        return None
    return refuse(
        "safety-cutout-new",
        "A protective place gets a new cut-out of the identical type: a salvaged one may have"
        " been overheated.",
        "common practice",
    )


def oil_is_known(look: _Look) -> Reason | None:
    """An oil capacitor without a date and a mark counts as PCB."""
    if look.sheet.id != "hv_capacitor" or not look.salvaged:
        return None
    said = look.part.ratings if look.part else {}
    year = said.get("made_year")
    # older records have it in the plural
    free = said.get("no_pcb", said.get("no_pcbs", ""))
    if flag(free) or (isinstance(year, int) and year > PCB_YEAR):
        return None
    source = "40 CFR 761.2(a)(4)"
    if flag(said.get("made_before_1979", "")) or isinstance(year, int):
        return refuse("oil", "Made before July 1979, or too near to it: it counts as PCB.", source)
    sentence = "Neither a date nor a 'No PCBs' mark is on record: look before it is kept."
    return ask("oil", sentence, source, "no_pcb", effort=1)


LOT_RULES: tuple[LotRule, ...] = (
    bad_state_is_never_offered,
    untested_is_tested_first,
    new_only_is_new,
    never_is_never,
    history_stops,
    fuse_history_is_known,
    door_switch_history_is_known,
    class_y_is_new,
    safety_cut_out_is_new,
    oil_is_known,
)
"""All lot rules, in the order they are asked."""
