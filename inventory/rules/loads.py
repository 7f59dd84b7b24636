"""Contact ratings: what a contact may switch, compared rating by rating.

Resistive, general-purpose, motor-bracket, horsepower, lamp, ballast, surge, TV, pilot-duty and
d.c. figures are separate quantities. Each is compared with its own kind only, at its own
voltage; across schemes the answer is a question, never a conversion.

Source: design section 5; Cherry D4 data sheet (the same switch is 10(3) A and 1/2 hp, 21(8) A
and 2 hp: no fixed ratio); Omron V-15-1C5 data sheet (15 A a.c., 0.6 A at 125 V d.c.).
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, replace
from typing import Any

from inventory.records import Value
from inventory.rules.compare import numbers, show
from inventory.rules.words import form

CIRCLES: Mapping[str, tuple[str, ...]] = {
    "general": ("resistive_a", "gp_a"),
    "running": ("motor_a", "hp", "motor_kw", "motor_fla_a"),
    "locked rotor": ("locked_rotor_a", "motor_lra_a"),
    "lamp": ("lamp_a", "lamp_w"),
    "lamp peak": ("lamp_inrush_a",),
    "ballast": ("ballast_a",),
    "inductive": ("inductive_a",),
    "inrush": ("inrush_a",),
    "tv": ("tv",),
    "pilot": ("pilot_duty",),
    "direct-current pilot": ("pilot_duty_dc",),
    "dc": ("dc_a",),
    "inductive dc": ("dc_inductive_a",),
    "motor dc": ("dc_motor_a",),
    "lamp dc": ("dc_lamp_a",),
    **{name: (f"{name}_a",) for name in ("ac1", "ac3", "ac12", "ac13", "ac14", "ac15")},
    **{name: (f"{name}_a",) for name in ("dc1", "dc3", "dc12", "dc13", "dc14")},
    "not named": ("amps",),
}
"""Loads that state one duty in two schemes: meeting it in either is enough.

Source: Cherry D4 data sheet, which prints the IEC and the UL figure of one contact; utilization
categories of IEC 60947-5-1 and 60947-4-1, each a test of its own.
"""

UNNAMED = "amps"
"""A figure printed without saying a.c. or d.c., or without its load: it stands for no other."""

LOADS = tuple(load for loads in CIRCLES.values() for load in loads)
"""All contact ratings that carry a figure of their own."""

_LABELS = {
    "motor_fla_a": "motor full-load current", "locked_rotor_a": "locked-rotor current",
    "motor_lra_a": "locked-rotor current", "dc_motor_a": "d.c. motor current",
    "dc_lamp_a": "d.c. lamp current", "inductive_a": "inductive current",
    "lamp_a": "lamp current", UNNAMED: "current without its load",
}  # fmt: skip


def load_label(load: str) -> str:
    """A load as a tech says it, where no sheet has a line for it.

    >>> load_label("ac15_a"), load_label("lamp_a")
    ('AC-15 current', 'lamp current')
    """
    category = re.fullmatch(r"([ad]c)([0-9]{1,2})_a", load)
    if category:
        return f"{category[1].upper()}-{category[2]} current"
    return _LABELS.get(load, load.replace("_", " "))


DIRECT = frozenset({load for load in LOADS if load.startswith("dc")} | {"pilot_duty_dc"})
"""Loads on direct current."""

_PILOT_CURRENT = {"A": 10.0, "B": 5.0, "C": 2.5, "D": 1.0, "E": 0.5}
_PILOT_DIRECT = {"N": 10.0, "P": 5.0, "Q": 2.5, "R": 1.0}
"""Thermal current [A] of the contact codes. Source: IEC 60947-5-1 annex A (Eaton catalogue);
the letters C and D: from memory."""

_CODES = frozenset({"hp", "tv", "pilot_duty", "pilot_duty_dc"})
"""Loads that are not written as plain amperes."""

_VOLTAGE_CLASSES = (
    (100.0, 130.0, 120.0),
    (190.0, 215.0, 208.0),
    (220.0, 250.0, 240.0),
    (265.0, 300.0, 277.0),
)
"""Horsepower is printed at 115, 120 or 125 V and means the same mains.

Source: NEC table 430.248, columns 115, 200/208 and 230 V; 277 V: from memory.
"""


_UNITS = {"hp": "hp", "lamp_w": "W", "motor_kw": "kW"}
"""Units of loads that are not amperes."""


@dataclass(frozen=True, slots=True)
class Duty:
    """One figure a contact is rated for: what kind, how much, at which voltage, on which throw."""

    load: str
    amount: float  # A; hp for "hp"; thermal A for pilot duty; TV number for "tv"
    volts: float | None = None
    throw: str | None = None  # "NO" or "NC" where the rating is for one throw only
    text: str = ""  # as it was written, for codes

    def words(self) -> str:
        """The duty as a tech says it: ``16 A at 250 V``."""
        amount = self.text or show(round(self.amount, 4), _UNITS.get(self.load, "A"))
        volts = f" at {show(self.volts, 'V')}" if self.volts else ""
        throw = f" ({self.throw})" if self.throw else ""
        return f"{amount}{volts}{throw}"


def duties(said: Mapping[str, Value]) -> tuple[Duty, ...]:
    """Every figure of a set of ratings, group by group."""
    groups = said.get("ratings")
    listed = groups if isinstance(groups, list | tuple) else ()
    rows = [said, *(row for row in listed if isinstance(row, dict))]
    return tuple(dict.fromkeys(duty for row in rows for duty in _group(row)))


def _group(row: Mapping[str, Any]) -> Iterable[Duty]:
    """The duties of one rating group: its currents at its own volts."""
    if any(name in row for name in ("is_max", "max_a")):
        return  # the range of a whole series is nobody's rating
    throw = form(row.get("contact", ""))
    side = throw if throw in {"NO", "NC"} else None
    alternating = highest(_first(row, "volts_ac", "voltage_vac", "voltage_v"))
    direct = highest(_first(row, "volts_dc", "voltage_vdc"))
    for load, amps in _currents(row):
        volts = direct if load in DIRECT else alternating
        if load == UNNAMED:
            volts = highest(_first(row, "volts", "volts_ac", "volts_dc"))
        yield Duty(load, amps, volts, side)
    yield from _horsepower(row, side, alternating)
    yield from _codes(row, side)


def _currents(row: Mapping[str, Any]) -> Iterable[tuple[str, float]]:
    """Loads in amperes; a rated current on a.c. is resistive, a list is the choice of a series."""
    rated = "dc_a" if direct_only(row) else "resistive_a"
    named = {name: name for name in LOADS if name not in _CODES}
    also = {} if rated in row else dict.fromkeys(_RATED, rated)
    for name, load in (named | also).items():
        if isinstance(row.get(name), int | float):
            yield load, float(row[name])


_RATED = ("current_a", "maker_rating_a")
"""Names of the rated current of a contact, whatever it switches on the mains."""


def direct_only(row: Mapping[str, Any]) -> bool:
    """Whether a rating gives d.c. volts and no others, so that its current is a direct one."""
    other = _first(row, "volts_ac", "voltage_vac", "voltage_v")
    return other is None and _first(row, "volts_dc", "voltage_vdc") is not None


def _first(row: Mapping[str, Any], *names: str) -> Value:
    """The first of several names that is there."""
    return next((row[name] for name in names if row.get(name) is not None), None)


def highest(value: Value) -> float | None:
    """The highest of one or several volts; None where none is known.

    >>> highest([125, 250]), highest(None)
    (250.0, None)
    """
    return max(numbers(value), default=None) if value is not None else None


def _horsepower(
    row: Mapping[str, Any], side: str | None, alternating: float | None
) -> Iterable[Duty]:
    """Horsepower entries, each at its own voltage class."""
    entries = _fraction(row.get("hp"))
    if isinstance(entries, int | float):
        yield Duty("hp", float(entries), voltage_class(alternating), side)
        return
    for entry in entries if isinstance(entries, list | tuple) else ():
        if isinstance(entry, dict) and isinstance(entry.get("hp"), int | float):
            throw = form(entry.get("contact", "")) or side
            volts = voltage_class(highest(entry.get("volts")))
            yield Duty("hp", float(entry["hp"]), volts, throw)


_FRACTION = re.compile(r"\s?([0-9]{1,2})\s?/\s?([1-9][0-9]?)\s?(?:HP)?\s?", re.IGNORECASE)


def _fraction(value: Value) -> Value:
    """Horsepower written as a fraction, as a figure; anything else as it is.

    >>> _fraction("1/2 hp"), _fraction(0.5), _fraction("half")
    (0.5, 0.5, 'half')
    """
    found = _FRACTION.fullmatch(value) if isinstance(value, str) else None
    return round(int(found[1]) / int(found[2]), 4) if found else value


def voltage_class(volts: float | None) -> float | None:
    """The mains a horsepower voltage stands for: 115, 120 and 125 V are one.

    >>> voltage_class(125), voltage_class(250), voltage_class(None)
    (120.0, 240.0, None)
    """
    if volts is None:
        return None
    classes = (mains for low, top, mains in _VOLTAGE_CLASSES if low <= volts <= top)
    return next(classes, volts)


def _codes(row: Mapping[str, Any], side: str | None) -> Iterable[Duty]:
    """TV-8 and B300: codes, not amperes."""
    television = re.search(r"[0-9]{1,2}", str(row.get("tv", "")))
    if television:
        yield Duty("tv", float(television[0]), None, side, f"TV-{television[0]}")
    for code in _listed(row.get("pilot_duty")):
        found = re.fullmatch(r"([A-ENPQR])(150|300|600)", str(code).strip().upper())
        if found:
            alternating = found[1] in _PILOT_CURRENT
            amps = (_PILOT_CURRENT if alternating else _PILOT_DIRECT)[found[1]]
            load = "pilot_duty" if alternating else "pilot_duty_dc"
            yield Duty(load, amps, float(found[2]), side, found[0])


def _listed(value: Value) -> Iterable[Value]:
    """One value or several."""
    return value if isinstance(value, list | tuple) else (value,) if value is not None else ()


def unread(said: Mapping[str, Value]) -> tuple[str, ...]:
    """Loads that are written down and could not be read as a figure or a code, in order.

    >>> unread({"resistive_a": "10 or 16", "hp": "1/2"})
    ('resistive_a',)
    """
    groups = said.get("ratings")
    rows = [said, *(groups if isinstance(groups, list | tuple) else ())]
    return tuple(
        dict.fromkeys(
            load
            for row in rows
            if isinstance(row, Mapping) and not {"is_max", "max_a"} & set(row)
            for load in LOADS
            if row.get(load) not in _NOTHING and not _any_of(load, row)
        )
    )


_NOTHING: tuple[Value, ...] = (None, "", [], ())


def _any_of(load: str, row: Mapping[str, Any]) -> bool:
    """Whether a group gives a duty of a kind; d.c. contact codes stand under ``pilot_duty``."""
    kinds = {load, f"{load}_dc"}
    return any(duty.load in kinds for duty in _group(row))


def needed(
    wanted: Mapping[str, Value], needs: Mapping[str, Value], volts: float | None
) -> tuple[Duty, ...]:
    """What the place asks of the contact.

    What the tech states of the place wins: a stated load replaces the failed part's ratings, a
    stated voltage picks the ratings that hold there.
    """
    if any(load in needs for load in (*LOADS, "ratings")):
        return duties({**_without_loads(wanted), **needs})
    found = duties(wanted)
    return found if volts is None else _at(found, volts)


def _without_loads(wanted: Mapping[str, Value]) -> dict[str, Value]:
    """Everything but the load figures."""
    dropped = {*LOADS, *_RATED, "ratings"}
    return {name: value for name, value in wanted.items() if name not in dropped}


def _at(found: Iterable[Duty], volts: float) -> tuple[Duty, ...]:
    """The figures that hold at a voltage, the largest of each kind; codes and d.c. stay."""
    kinds: dict[tuple[str, str | None], list[Duty]] = {}
    stay: list[Duty] = []
    for duty in found:
        if duty.load in _FIXED:
            stay.append(duty)
        else:
            kinds.setdefault((duty.load, duty.throw), []).append(duty)
    return (*(_best_at(group, volts) for group in kinds.values()), *stay)


_FIXED = DIRECT | {"tv", "pilot_duty", UNNAMED}
"""Figures that a statement of the mains voltage does not touch."""


def _best_at(group: list[Duty], volts: float) -> Duty:
    """The strongest figure that holds at a voltage; where none does, the strongest there is."""
    if group[0].load == "hp":
        here = [duty for duty in group if duty.volts == voltage_class(volts)]
        return max(here or group, key=lambda duty: duty.amount)
    here = [duty for duty in group if duty.volts is None or duty.volts >= volts]
    return replace(max(here or group, key=lambda duty: duty.amount), volts=volts)
