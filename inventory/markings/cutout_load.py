"""Volts and amperes of a cut-out: one rating, several, or the range of a whole series."""

from __future__ import annotations

import re
from dataclasses import dataclass, field
from functools import partial
from typing import Any

from inventory.markings.amounts import (
    NUM,
    PRACTICE,
    SI,
    listed,
    plain_number,
    review,
    thousands,
    volts,
    written,
)
from inventory.markings.scanner import Rule, Scanner

_AMPS = re.compile(
    rf"(?P<most>(?:max(?:imum|\.)?|≤)\s?)?(?P<amps>{NUM})\s?(?:\(\s?(?P<inductive>{NUM})\s?\)\s?)?"
    r"A(?:mps?\.?|mperes?)?(?:\s?(?P<after>max(?:imum|\.)?)(?!\s?[0-9]))?(?![A-Za-z])",
    re.IGNORECASE,
)
BRACKET = "IEC 60730-1: resistive (inductive) amperes, from memory"


@dataclass(slots=True)
class Load:
    """One voltage with the currents printed beside it."""

    volts: dict[str, Any] = field(default_factory=dict)
    amps: list[float] = field(default_factory=list)
    most: float | None = None
    inductive: float | None = None

    def row(self) -> dict[str, Any]:
        """The load as ratings; a figure after "max" alone is the current, marked as a maximum."""
        row = dict(self.volts)
        if self.amps:
            row["current_a"] = self.amps[0] if len(self.amps) == 1 else self.amps
        elif self.most is not None:
            row |= {"current_a": self.most, "is_max": True}
        if self.amps and self.most is not None:
            row["max_a"] = self.most
        return row | ({} if self.inductive is None else {"inductive_a": self.inductive})


@dataclass(slots=True)
class Loads:
    """The loads met so far; the first piece decides whether volts or amperes lead."""

    met: list[Load] = field(default_factory=list)
    volts_lead: bool | None = None

    def for_amps(self) -> Load:
        """The load the next amperes belong to."""
        if self.volts_lead is None:
            self.volts_lead = False
        if not self.met or (not self.volts_lead and self.met[-1].volts):
            self.met.append(Load())
        return self.met[-1]

    def for_volts(self) -> Load:
        """The load the next volts belong to."""
        if self.volts_lead is None:
            self.volts_lead = True
        if not self.met or self.volts_lead or self.met[-1].volts:
            self.met.append(Load())
        return self.met[-1]


def _amps(loads: Loads, scan: Scanner) -> bool:
    """Amperes = "max"? figure ( "(" figure ")" )? "A" "max"?."""
    found = scan.peek(_AMPS)
    if found is None:
        return False
    figure = written(plain_number(found["amps"]))
    means, source = f"rated current {figure} A", SI
    if found["inductive"]:
        bracket = written(plain_number(found["inductive"]))
        means, source = f"{figure} A resistive, {bracket} A inductive", BRACKET
    elif found["most"] or found["after"]:
        means = f"at most {figure} A"
    scan.take(_AMPS, means, source)
    load = loads.for_amps()
    if found["most"] or found["after"]:
        load.most = plain_number(found["amps"])
    else:
        load.amps.append(plain_number(found["amps"]))
    if found["inductive"]:
        load.inductive = plain_number(found["inductive"])
    return True


_VOLTS = volts()


def _volts(loads: Loads, scan: Scanner) -> bool:
    """Volts = voltage, kept with the amperes beside it."""
    kept = dict(scan.ratings)
    if not _VOLTS(scan):
        return False
    load = loads.for_volts()
    for name in ("voltage_v", "voltage_vac", "voltage_vdc"):
        if name in scan.ratings:
            load.volts[name] = scan.ratings.pop(name)
    scan.ratings = kept
    return True


_CYCLES = re.compile(
    r"(?P<n>[0-9]{3,7})\s?(?:cycles|operations|ops|times)(?![A-Za-z])", re.IGNORECASE
)


def _cycles(scan: Scanner) -> bool:
    """Cycles = figure "cycles"."""
    found = scan.take(_CYCLES, lambda m: f"{thousands(int(m['n']))} operating cycles", PRACTICE)
    if found is None:
        return False
    scan.say("cycles", int(found["n"]))
    return True


_HERTZ = re.compile(
    r"(?P<first>[0-9]{2})(?:\s?[-/]\s?(?P<second>[0-9]{2}))?\s?Hz(?![A-Za-z0-9])", re.IGNORECASE
)


def _hertz(scan: Scanner) -> bool:
    """Frequency = figure (("-" | "/") figure)? "Hz": of the mains it switches."""
    found = scan.take(_HERTZ, lambda m: f"for mains of {m[0]}", SI)
    if found is None:
        return False
    figures = [int(figure) for figure in (found["first"], found["second"]) if figure]
    scan.say("frequency_hz", figures if len(figures) > 1 else figures[0])
    return True


def rules(loads: Loads) -> tuple[Rule, ...]:
    """The grammar lines of the load, in order, filling this collection."""
    return (partial(_volts, loads), partial(_amps, loads), _cycles, _hertz)


def _as_contact(row: dict[str, Any]) -> dict[str, Any]:
    """The same load under the names every contact of the shelf carries, to be compared by."""
    volts_said = row.get("voltage_vac", row.get("voltage_v"))
    named = {"resistive_a": row.get("current_a"), "motor_a": row.get("inductive_a")}
    if "voltage_vdc" in row:
        named = {"volts_dc": _several(row["voltage_vdc"]), "dc_a": row.get("current_a")}
    elif volts_said is not None:
        named["volts_ac"] = _several(volts_said)
    return {name: value for name, value in named.items() if value is not None}


def _several(value: Any) -> list[Any]:
    """One figure as a list of one."""
    return value if isinstance(value, list) else [value]


def settle(scan: Scanner, loads: Loads) -> None:
    """One load becomes the ratings themselves; several, or a range, a list of ratings."""
    rows = [load.row() for load in loads.met]
    ranged = any(isinstance(row.get("current_a"), list) or "is_max" in row for row in rows)
    if len(rows) == 1 and not ranged and "max_a" not in rows[0]:
        for name, value in (rows[0] | _as_contact(rows[0])).items():
            scan.say(name, value)
    elif rows:
        scan.say("ratings", rows)
    if ranged or any("max_a" in row for row in rows):
        review(
            scan, "This is the range of a series, not the rating of one part; read the part itself."
        )


def load_text(row: dict[str, Any]) -> str:
    """One load written out again, volts first."""
    kinds = (("voltage_vac", "AC"), ("voltage_vdc", "DC"), ("voltage_v", ""))
    parts = [f"{kind}{listed(row[name], '/')}V" for name, kind in kinds if name in row]
    current = row.get("current_a")
    bracket = f"({listed(row['inductive_a'])})" if "inductive_a" in row else ""
    most = "max " if row.get("is_max") else ""
    values = current if isinstance(current, list) else [current]
    parts += [f"{most}{listed(value)}{bracket}A" for value in values if value is not None]
    return " ".join(parts + ([f"max {listed(row['max_a'])}A"] if "max_a" in row else []))
