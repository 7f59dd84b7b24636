"""What a place asks beyond the rating: interlocks, monitors, protection, suppression, earth."""

from __future__ import annotations

from collections.abc import Iterable, Mapping

from inventory.records import Reason, Value
from inventory.rules.case import Case, ask, met, refuse
from inventory.rules.compare import members, numbers, served, show
from inventory.rules.words import flag, plain_word, throws

LABEL = (
    "LG MB-308DDD service manual and unit label: replace with the same type, listed alternates by"
    " place; Sharp R-1505 and Daewoo KOR-631G1A service manuals"
)
EARTH = "IEC 60335-1 clauses 27.4, 28.3 and 28.4; IECEE CTL decision sheet 261"


def part_belongs_in_the_place(case: Case) -> Iterable[Reason]:
    """A place takes parts of its own kind only."""
    if case.place and case.offered.family not in case.place.families:
        yield refuse(
            "place-family",
            f"The place {case.place.id} takes no part of family {case.offered.family}.",
            case.place.source,
        )


def interlock_takes_listed_types(case: Case) -> Iterable[Reason]:
    """An interlock place takes the same type or one listed for that unit, whatever the ratings."""
    if case.place is None or case.place.kind != "interlock":
        return
    if case.settled:
        yield met("interlock-type", "Same type as wanted or listed for this unit.", LABEL)
        return
    yield ask(
        "interlock-type",
        "An interlock place takes only the same type or one listed for this unit; matching ratings"
        " do not make it one.",
        LABEL,
        "listed alternate",
        effort=9,
    )


def throw_of_the_place(case: Case) -> Iterable[Reason]:
    """A monitor works by its normally closed throw, an interlock by its normally open one."""
    if case.place is None or case.place.contact is None:
        return
    need = case.place.contact
    name = "contact" if case.sheet.id == "thermal_cutout" else "contact_form"
    have = throws(case.has.get(name, ""))
    if have is None:
        if not case.settled:
            sentence = f"The place {case.place.id} works by the {need} throw; the offered part's"
            yield ask("place-throw", f"{sentence} is not known.", case.place.source, name, 1)
    elif need not in have:
        yield refuse(
            "place-throw",
            f"The place {case.place.id} works by the {need} throw, which this part"
            f" ({case.has[name]}) has not.",
            case.place.source,
        )


# protection ----------------------------------------------------------------------


def cut_out_protects_no_later(case: Case) -> Iterable[Reason]:
    """Opening temperature and tolerance together never go above the failed part's.

    Source: common practice; Sharp R-1505 service manual calls for the same set point.
    """
    if not _protects(case, "thermal_cutout"):
        return
    want, have = _upper(case.need), _upper(case.has)
    if want is not None and have is not None and have > want + 1e-9:
        yield refuse(
            "protects-later",
            f"It may open as late as {show(round(have, 1), '°C')}, the failed one at"
            f" {show(round(want, 1), '°C')}: protection never moves up.",
            "Sharp R-1505 service manual; common practice",
        )
    elif want is not None and have is None and not case.settled:
        yield ask(
            "protects-later",
            "Its tolerance is not known: it may open later than the failed one could.",
            "KSD301 family data sheet (±3, ±5, ±10 K)",
            "open_tol_c",
            effort=9,
        )


def _protects(case: Case, family: str) -> bool:
    """Whether this is a protective place and the part of that family."""
    return bool(case.place and case.place.kind == "protective" and case.sheet.id == family)


def _upper(said: Mapping[str, Value]) -> float | None:
    """The latest opening temperature; None unless both figures are known."""
    opens, spread = numbers(said.get("open_c", "")), numbers(said.get("open_tol_c", ""))
    return max(opens) + max(spread) if opens and spread else None


def cut_out_resets_as_before(case: Case) -> Iterable[Reason]:
    """In a protective place the reset temperature is kept, not only near."""
    if not _protects(case, "thermal_cutout"):
        return
    want, have = numbers(case.need.get("reset_c", "")), numbers(case.has.get("reset_c", ""))
    if want and have and abs(max(want) - max(have)) > 0.5:
        yield refuse(
            "reset-moves",
            f"It resets at {show(max(have), '°C')}, the failed one at {show(max(want), '°C')}.",
            "LG DLE3777W service manual (safety thermostat); common practice",
        )


def reset_never_turns_automatic(case: Case) -> Iterable[Reason]:
    """Manual and one-shot protectors never give way to one that resets itself."""
    want, have = plain_word(case.need.get("reset", "")), plain_word(case.has.get("reset", ""))
    if want in {"manual", "one shot"} and have == "auto":
        yield refuse(
            "reset-type",
            "An automatic reset in place of a manual or one-shot one puts power back on a fault.",
            "IEC 60730-1, manual-reset action; design rule",
        )


def safety_cut_out_is_identical(case: Case) -> Iterable[Reason]:
    """A cut-out in a safety position: makers ask for the identical type."""
    if _protects(case, "thermal_cutout") and not case.settled:
        yield ask(
            "safety-cutout-type",
            "In a safety position makers ask for the identical type; figures alone do not prove"
            " how the cap takes up the heat.",
            "Samsung MD1200WD service manual; common practice",
            "type_code",
            effort=9,
        )


# suppression ---------------------------------------------------------------------


def x_never_serves_as_y(case: Case) -> Iterable[Reason]:
    """A Y place takes a Y class, an X place an X class or better."""
    kind = case.place.kind if case.place else ""
    if kind not in {"class-x", "class-y"} or case.sheet.id != "capacitor_safety":
        return
    have = case.has.get("class")
    if have is None:
        sentence = f"The place {kind[-1].upper()} asks for a safety class; the offered one's"
        yield ask("place-class", f"{sentence} is not known.", "IEC 60384-14", "class", 1)
    elif not any(name.startswith(kind[-1].upper()) for name in served(have)):
        yield refuse(
            "place-class",
            f"{show(sorted(members(have)))} never serves as class {kind[-1].upper()}: it stands"
            " between the mains and metal that people touch."
            if kind == "class-y"
            else f"{show(sorted(members(have)))} is no class X capacitor.",
            "IEC 60384-14, impulse voltages of the classes",
        )


# screws and earth ----------------------------------------------------------------


def earth_screw_holds_the_earth(case: Case) -> Iterable[Reason]:
    """Earth goes through a metal screw with a real thread; one sheet-metal screw is not enough."""
    if case.place is None or case.place.id != "earth-screw" or case.sheet.id != "screw":
        return
    kind, material = case.has.get("thread_kind"), plain_word(case.has.get("material", ""))
    if material in {"plastic", "nylon", "pa", "polyamide"}:
        yield refuse("earth-screw", "A plastic screw does not carry the earth.", EARTH)
    if kind is None or not material:
        what, name = ("kind of thread", "thread_kind") if kind is None else ("metal", "material")
        yield ask("earth-screw", f"Its {what} is not known.", EARTH, name, effort=1)
    elif any(word in plain_word(kind) for word in ("tapping", "sheet", "space")):
        yield refuse(
            "earth-screw",
            "A single sheet-metal screw does not make an earth connection: two would be needed.",
            EARTH,
        )
    if flag(case.has.get("painted", "")):
        yield refuse("earth-screw", "Paint under the head breaks the earth.", EARTH)


def cover_screw_is_not_longer(case: Case) -> Iterable[Reason]:
    """A longer screw in the cover reaches what the cover keeps away."""
    if case.place is None or case.place.kind != "cover":
        return
    want, have = numbers(case.need.get("length_mm", "")), numbers(case.has.get("length_mm", ""))
    if want and have and max(have) > max(want) + 0.6:
        yield refuse(
            "cover-screw",
            f"{show(max(have), 'mm')} is longer than {show(max(want), 'mm')}: behind the cover"
            " are wires and the high-voltage parts.",
            "common practice",
        )
