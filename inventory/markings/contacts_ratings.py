"""Rating groups to ratings: flat where one a.c. and one d.c. rating are said, else a list."""

from __future__ import annotations

from typing import Any

from inventory.markings.contacts_groups import Group, Groups
from inventory.markings.contacts_items import Nature, Number, Volts
from inventory.markings.contacts_scan import ContactScanner

AC_NAMES = {
    "resistive": "resistive_a",
    "general": "gp_a",
    "inductive": "inductive_a",
    "motor": "motor_a",
    "lamp": "lamp_a",
    "ballast": "ballast_a",
}
"""Rating name of an a.c. figure by its load; a utilization category names itself."""

DC_NAMES = {"inductive": "dc_inductive_a", "motor": "dc_motor_a", "lamp": "dc_lamp_a"}
"""Rating name of a d.c. figure by its load; all else is ``dc_a``."""

MAINS_FROM = 100
"""Volts from which a bare V on a contact is taken for a.c., with a warning. Common practice."""

Entry = dict[str, Any]
"""One rating: amperes by load, ``volts_ac`` or ``volts_dc``, and what binds it alone."""


def entries(scan: ContactScanner, groups: Groups) -> list[Entry]:
    """One entry a group and kind of supply, in the order of the text."""
    found: list[Entry] = []
    for group in groups.currents:
        for nature, volts in _by_nature(scan, group):
            found.append(_entry(group, nature, volts))
    if any(group.only_cycles for group in groups.currents) and len(found) > 1:
        found = [_unnamed(entry) for entry in found]
    return _merged(found)


def _by_nature(scan: ContactScanner, group: Group) -> list[tuple[Nature | None, list[Number]]]:
    """The volts of a group by a.c., d.c. or not said; one empty list where there are none."""
    kinds: dict[Nature | None, list[Number]] = {}
    for volts in group.volts:
        for nature in _natures(scan, group, volts):
            figures = kinds.setdefault(nature, [])
            figures += [value for value in volts.values if value not in figures]
    if kinds:
        return list(kinds.items())
    return [("dc" if group.nature == "dc" else "ac", [])]


def _natures(scan: ContactScanner, group: Group, volts: Volts) -> tuple[Nature | None, ...]:
    """a.c., d.c., both, or None where neither the text nor the figure tells."""
    nature = volts.nature or group.nature
    if nature == "both":
        return ("ac", "dc")
    if nature is not None:
        return (nature,)
    if group.current.more or group.current.general or {"general", "ballast"} & set(group.loads):
        return ("ac",)
    if min(volts.values) >= MAINS_FROM:
        scan.warn(f"{volts.values[0]} V: a.c. or d.c. is not printed; taken as a.c., never as d.c.")
        return ("ac",)
    scan.warn(f"{volts.values[0]} V: a.c. or d.c. is not printed; the rating is left open.")
    return (None,)


def _entry(group: Group, nature: Nature | None, volts: list[Number]) -> Entry:
    """The rating of one group under one kind of supply."""
    entry: Entry = {}
    for name in _names(group, nature):
        entry[name] = group.current.amps
    if nature != "dc":
        entry |= group.current.more
    if volts:
        entry[{"ac": "volts_ac", "dc": "volts_dc"}.get(nature or "", "volts")] = volts
    if group.throw:
        entry["contact"] = group.throw
    if group.only_cycles:
        entry["endurance_cycles"] = group.only_cycles
    return entry | group.bound


def _names(group: Group, nature: Nature | None) -> list[str]:
    """Under which names the ampere figure goes."""
    loads = ["general"] if group.current.general else []
    loads += [load for load in group.loads if load not in loads]
    if nature is None:
        return ["amps"]
    table = AC_NAMES if nature == "ac" else DC_NAMES
    plain = "resistive_a" if nature == "ac" else "dc_a"
    if group.current.more and nature == "ac":
        return [plain]  # a bracket or stroke says itself what it holds for
    names = [_category(load, nature) or table.get(load, plain) for load in loads]
    return list(dict.fromkeys(names)) or [plain]


def _category(load: str, nature: Nature) -> str | None:
    """``ac15_a`` or ``dc13_a`` for a utilization category of the same supply."""
    if load[:2] == nature and load[2:].isdigit():
        return f"{load}_a"
    return None


def _unnamed(entry: Entry) -> Entry:
    """Where one rating is bound to another life, plain a.c. figures stay bare ``amps``."""
    if "resistive_a" in entry and not set(entry) & {"motor_a", "inrush_a", "lamp_inrush_a"}:
        return {"amps" if key == "resistive_a" else key: value for key, value in entry.items()}
    return entry


_BONDS = (
    "contact",
    "endurance_cycles",
    "ambient_min_c",
    "ambient_max_c",
    "ambient_partial_max_c",
)
_CONDITIONS = ("volts_ac", "volts_dc", "volts", *_BONDS)


def _merged(found: list[Entry]) -> list[Entry]:
    """Entries of equal conditions and different loads are one; repeated ones go."""
    merged: dict[tuple[Any, ...], list[Entry]] = {}
    order: list[Entry] = []
    for entry in found:
        slot = merged.setdefault(_key(entry), [])
        for other in slot[-4:]:
            if all(other.get(name) == value for name, value in entry.items()):
                break
            if _one_figure(entry, other):
                other.update(entry)
                break
        else:
            slot.append(entry)
            order.append(entry)
    return order


_BRACKETED = frozenset({"motor_a", "inrush_a", "lamp_inrush_a"})


def _one_figure(entry: Entry, other: Entry) -> bool:
    """Whether two entries are one rating: other loads, or the same amperes said of more loads."""
    shared = _loads(entry) & _loads(other)
    bracketed = _BRACKETED & (_loads(entry) | _loads(other))
    return not shared or (not bracketed and all(entry[name] == other[name] for name in shared))


def _key(entry: Entry) -> tuple[Any, ...]:
    """What must agree for two entries to be one rating."""
    return tuple(str(entry.get(name)) for name in _CONDITIONS)


def _loads(entry: Entry) -> set[str]:
    """The ampere names of an entry."""
    return set(entry) - set(_CONDITIONS)


def say_currents(scan: ContactScanner, groups: Groups) -> None:
    """Set the ampere ratings: flat, or as the list ``ratings``."""
    found = entries(scan, groups)
    contacts = list(dict.fromkeys(e["contact"] for e in found if "contact" in e))
    if len(contacts) <= 1 and not (contacts and _partly(found)):
        found = _merged([{k: v for k, v in e.items() if k != "contact"} for e in found])
    found = _with_maker_rating(scan, found)
    if _is_flat(found):
        _say_flat(scan, found)
    else:
        scan.say("ratings", found)
    _say_contact(scan, groups, found)


def _with_maker_rating(scan: ContactScanner, found: list[Entry]) -> list[Entry]:
    """A code's own rating becomes a row where the printed rating has other volts."""
    names = [name for name in ("volts_ac", "volts_dc") if name in scan.ratings]
    differs = any(
        entry.get(n, scan.ratings[n]) != scan.ratings[n] for entry in found for n in names
    )
    if "maker_rating_a" not in scan.ratings or not differs:
        return found
    row = {name: scan.ratings.pop(name) for name in ("maker_rating_a", *names)}
    motor = {"motor_a": scan.ratings.pop("motor_a")} if "motor_a" in scan.ratings else {}
    return [row | motor, *found]


def _partly(found: list[Entry]) -> bool:
    """True when only some of the ratings are bound to a contact."""
    return not all("contact" in entry for entry in found)


def _is_flat(found: list[Entry]) -> bool:
    """One a.c. rating, one d.c. rating and no bonds of their own."""
    kinds = [_kind(entry) for entry in found]
    bound = any(name in entry for entry in found for name in _BONDS)
    coded = any("maker_rating_a" in entry for entry in found)
    return len(kinds) == len(set(kinds)) and not coded and (not bound or len(found) == 1)


def _kind(entry: Entry) -> str:
    """``dc``, ``open`` or ``ac``."""
    if "volts_dc" in entry or any(name.startswith("dc") for name in entry):
        return "dc"
    return "open" if "volts" in entry else "ac"


def _say_flat(scan: ContactScanner, found: list[Entry]) -> None:
    """All names at the top."""
    for entry in found:
        for name, value in entry.items():
            scan.say(name, value)


def _say_contact(scan: ContactScanner, groups: Groups, found: list[Entry]) -> None:
    """The one contact everything holds for, at the top."""
    if "contact" in scan.ratings or any("contact" in entry for entry in found):
        return
    if len(groups.throws) == 1:
        scan.say("contact", groups.throws[0])
    elif groups.throws and groups.currents:
        scan.say("contact", "/".join(groups.throws))


def say_motors(scan: ContactScanner, groups: Groups) -> None:
    """Horsepower, one row a voltage; ``volts`` None where it is not printed."""
    rows: list[Entry] = []
    for motor in groups.motors:
        printed = [value for volts in motor.volts for value in volts.values]
        figures: list[Number | None] = list(dict.fromkeys(motor.horse.volts or printed))
        for volts in figures or [None]:
            row: Entry = {"hp": motor.horse.hp, "volts": volts}
            row |= {
                name: value
                for name, value in (("fla", motor.horse.fla), ("lra", motor.horse.lra))
                if value is not None
            }
            if row not in rows[-8:]:
                rows.append(row)
    if rows:
        scan.say("hp", rows)
