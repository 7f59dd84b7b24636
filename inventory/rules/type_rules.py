"""Is it the right kind of part at all, is it the same type, and is its code a false friend."""

from __future__ import annotations

from collections.abc import Iterable, Mapping

from inventory.records import Reason
from inventory.rules.case import Case, ask, met, note, own_codes, refuse
from inventory.rules.words import code_key

NEVER_FOR: Mapping[tuple[str, str], tuple[str, str]] = {
    ("thermal_link", "thermal_cutout"): (
        "A resetting bimetal never takes the place of a thermal link: it puts power back on.",
        "Thermodisc G4A data sheet; common practice",
    ),
    ("hv_fuse", "fuse"): (
        "A 250 V cartridge never takes the place of a 5 kV fuse: its arc does not go out.",
        "hi1718 parts note on 5 kV oven fuses; common practice",
    ),
    ("hv_diode", "diode"): (
        "A chain of low-voltage diodes never takes the place of a high-voltage diode.",
        "common practice",
    ),
    ("resistor_fusible", "resistor"): (
        "A plain resistor never takes the place of a fusible one: it does not open in time.",
        "Eurocap FRS data sheet",
    ),
    ("capacitor_safety", "capacitor"): (
        "A capacitor without safety marks never stands across the mains or to touchable metal.",
        "IEC 60384-14",
    ),
    ("hv_capacitor", "capacitor"): (
        "A capacitor with a d.c. rating never takes the place of the oven's high-voltage one.",
        "common practice",
    ),
}
"""Pairs (wanted, offered) people try, each with the reason why not."""

TWIN_FAMILIES = frozenset({"switch", "interlock_switch", "relay", "thermal_cutout"})
"""Families in which one character of a code turns the contact round."""


def family_is_kept(case: Case) -> Iterable[Reason]:
    """Another family is refused, unless the sheet lets it stand in."""
    mine, theirs = case.wanted.family, case.offered.family
    if mine != case.sheet.id:
        yield ask(
            "family",
            f"Nobody has said what kind of part failed; this is a {case.sheet.name}.",
            "common practice",
            "family",
            effort=1,
        )
    elif theirs not in {mine, *case.sheet.stand_in_families}:
        yield _wrong_family(case)


def _wrong_family(case: Case) -> Reason:
    """Why this family does not do; an equal code means that one record is wrong."""
    if case.same_type:
        return ask(
            "family",
            f"The code is the same but one is recorded as {case.wanted.family} and the other as"
            f" {case.offered.family}: one record is wrong.",
            "common practice",
            "family",
            effort=1,
        )
    known = NEVER_FOR.get((case.sheet.id, case.offered.family))
    sentence, source = known or (
        f"A part of family {case.offered.family} is no {case.sheet.name}.",
        "common practice",
    )
    return refuse("family", sentence, source)


def type_is_the_same(case: Case) -> Iterable[Reason]:
    """The same type code, or one a source lists for this place or as the same part."""
    if case.same_type:
        code = case.offered.type_code or case.wanted.type_code
        yield met("same-type", f"Same type code {code}.", "makers' replacement notes")
    if case.listed:
        code = case.offered.type_code or "it"
        yield met("listed", f"A source lists {code} as an alternate.", "cross-reference on record")


def same_type_only(case: Case) -> Iterable[Reason]:
    """Families of which makers want the same type: a likeness is at best a question."""
    if case.place and case.place.kind == "interlock":
        return  # the place asks the same
    if case.sheet.policy == "same-type-only" and not case.settled:
        yield ask(
            "same-type-only",
            f"{case.sheet.policy_reason} This one is neither the same type nor listed for it.",
            "LG MB-308DDD and inverter-oven service manuals",
            "type_code",
            effort=9,
        )


def code_may_be_a_twin(case: Case) -> Iterable[Reason]:
    """Codes one character apart: in contacts that is often NO for NC.

    Source: LG MB-308DDD unit label (63/62, 533/532, 5230/5220: interlock and monitor).
    """
    if case.settled or case.sheet.id not in TWIN_FAMILIES or not _twins(case):
        return
    sentence = (
        f"The code {case.offered.type_code} is one character from the wanted one: such pairs are"
        " often the normally open and the normally closed version."
    )
    source = "LG MB-308DDD unit label (63/62, 533/532, 5230/5220)"
    forms = case.need.get("contact_form"), case.has.get("contact_form")
    if None in forms:
        yield ask("look-alike-code", sentence, source, "contact_form", effort=1)
    else:
        yield note("look-alike-code", sentence, source)


def _twins(case: Case) -> bool:
    """Whether the offered code is one substituted character from a wanted one."""
    mine = own_codes(case.wanted) | {code_key(code) for code in case.wanted.alternates}
    theirs = code_key(case.offered.type_code or "")
    return any(_one_apart(code, theirs) for code in mine)


def _one_apart(one: str, other: str) -> bool:
    """Whether two codes of one length differ in exactly one character."""
    if len(one) != len(other) or len(one) < 4:
        return False
    return sum(a != b for a, b in zip(one, other, strict=True)) == 1


def suffix_is_no_detail(case: Case) -> Iterable[Reason]:
    """A code with more or fewer letters at its end may be another revision, market or gap.

    Source: Omron D3V legend (a letter G halves the contact gap); Samsung DE59-00002A.
    """
    theirs = code_key(case.offered.type_code or "")
    if case.settled or len(theirs) < 5:
        return
    if any(_suffixed(code, theirs) for code in own_codes(case.wanted)):
        yield ask(
            "suffix",
            f"The code {case.offered.type_code} differs from the wanted one in its suffix, which"
            " may be a revision, a market or another gap.",
            "Omron D3V model number legend; common practice",
            "type_code",
            effort=9,
        )


def _suffixed(one: str, other: str) -> bool:
    """Whether one code is the other and up to four characters more."""
    short, long = sorted((one, other), key=len)
    return len(short) >= 5 and long.startswith(short) and 0 < len(long) - len(short) <= 4


def coil_makes_a_relay(case: Case) -> Iterable[Reason]:
    """A part with a coil is a relay, under whatever family it is recorded; 5 V is not 12 V."""
    if case.sheet.id not in {"switch", "interlock_switch"}:
        return
    coils = ("coil_volts_dc", "coil_volts_ac", "coil_vdc", "coil_vac")
    mine, theirs = ([said.get(name) for name in coils] for said in (case.need, case.has))
    if mine == theirs or (case.settled and not (any(mine) and any(theirs))):
        return
    both = any(mine) and any(theirs)
    yield refuse(
        "coil",
        "The coil voltages differ." if both else "One has a coil: that is a relay, not a switch.",
        "common practice",
    )
