"""Oven high-voltage transformers: windings told apart by word or by size."""

from __future__ import annotations

import re
from dataclasses import dataclass
from functools import partial

from inventory.markings.amounts import (
    END,
    GAPS,
    NUM,
    PRACTICE,
    SI,
    Phrase,
    approvals,
    hertz,
    listed,
    phrases,
    plain_number,
    watts,
)
from inventory.markings.scanner import Rule, Scanner
from inventory.markings.writing import write
from inventory.records import Reading

_VOLTS = re.compile(
    rf"(?:AC|~)?\s?(?P<a>{NUM})(?:\s?(?:-|/)\s?(?P<b>{NUM}))?\s?(?P<k>k?)V(?:AC|~)?{END}",
    re.IGNORECASE,
)
_WINDING = re.compile(
    r"(?:(?P<primary_v>pri(?:mary|m)?\.?|input)|(?P<secondary_v>sec(?:ondary)?\.?|H\.?V\.?|output)"
    r"|(?P<filament_v>fil(?:ament)?\.?|heater))(?:\s?(?:winding|voltage|volts))?\s?[:=]?(?![A-Za-z0-9])",
    re.IGNORECASE,
)
_CLASS = re.compile(
    r"class\s?(?P<c>[AEBFHNRC]|1[0-9]{2}|2[0-4][0-9])(?![A-Za-z0-9])", re.IGNORECASE
)
_TYPE = re.compile(
    r"(?=[A-Z0-9-]{0,18}[0-9])[A-Z]{2,6}-?[A-Z0-9]{2,12}(?:-[A-Z0-9]{1,6}){0,3}(?![A-Za-z0-9])"
)


@dataclass(slots=True)
class Winding:
    """Which winding the next volts belong to, if a word said so."""

    name: str | None = None


def _winding(winding: Winding, scan: Scanner) -> bool:
    """Winding = "PRI" | "SEC" | "FIL"."""
    found = scan.take(_WINDING, "name of a winding", PRACTICE)
    if found is None:
        return False
    winding.name = found.lastgroup
    return True


def _by_size(volts_said: float) -> str:
    """The winding a voltage belongs to when no word says it. Source: oven service manuals."""
    if volts_said >= 1000:
        return "secondary_v"
    return "filament_v" if volts_said <= 6 else "primary_v"


def _volts(winding: Winding, scan: Scanner) -> bool:
    """Volts = figure (span figure)? "k"? "V", of the winding named or told by size."""
    found = scan.peek(_VOLTS)
    if found is None:
        return False
    factor = "1000" if found["k"] else "1"
    values = [plain_number(found[name], factor) for name in ("a", "b") if found[name]]
    name = winding.name or _by_size(values[0])
    winding.name = None
    scan.take(_VOLTS, name.replace("_v", " voltage"), SI)
    scan.say(name, values if len(values) > 1 else values[0])
    return True


def _class(scan: Scanner) -> bool:
    """Class = "CLASS" (letter | degrees)."""
    found = scan.take(_CLASS, "insulation class", "IEC 60085 thermal classes")
    if found is None:
        return False
    scan.say("insulation_class", found["c"].upper())
    return True


def _type(scan: Scanner) -> bool:
    """Type = the first code of capitals and figures; kept as printed."""
    if "type" in scan.ratings or scan.take(_TYPE, "type as printed", PRACTICE) is None:
        return False
    scan.say("type", scan.marks[-1].text)
    return True


_WORDS = phrases(
    Phrase(r"(?:(?:HV|H\.V\.|high[ -]voltage|microwave|power) ){0,3}transformer|trans\.?",
           "it is a transformer"),
    Phrase(r"thermostat", "thermostat in the primary", {"thermostat": True}),
    Phrase(r"model|type|input|output", "heading"),
)  # fmt: skip


def _lines(winding: Winding) -> tuple[Rule, ...]:
    """The whole grammar, in order."""
    return (
        _class, partial(_winding, winding), hertz, partial(_volts, winding),
        watts("output_w", "oven output it serves"), _WORDS, approvals, _type, *GAPS,
    )  # fmt: skip


def read(text: str) -> Reading:
    """Read the label of an oven's high-voltage transformer."""
    scan = Scanner(text)
    scan.sweep(_lines(Winding()))
    return scan.reading("transformer")


_WORD = re.compile(r"\btransformer\b", re.IGNORECASE)
_CLASSED = re.compile(r"\bclass\s?(?:200|220|180|H|N)\b", re.IGNORECASE)


def likely(text: str) -> float:
    """How strongly a text looks like a transformer, 0 to 1."""
    head = text[:400]
    if _WORD.search(head):
        return 0.85
    return 0.5 if _CLASSED.search(head) and "V" in head else 0.0


def canonical(reading: Reading) -> str:
    """The marking written out again; reads back to the same ratings."""
    return write(
        reading.ratings,
        ("type", "{}"),
        ("primary_v", lambda v: f"PRI {listed(v)}V"),
        ("secondary_v", lambda v: f"SEC {listed(v)}V"),
        ("filament_v", lambda v: f"FIL {listed(v)}V"),
        ("frequency_hz", lambda v: f"{listed(v, '/')}Hz"),
        ("output_w", "{}W"),
        ("insulation_class", "class {}"),
        ("thermostat", {True: "thermostat"}),
        ("approvals", "{}"),
    )
