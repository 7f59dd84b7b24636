"""Oven inverter boards: the number with its suffix is the part; little else is printed."""

from __future__ import annotations

import re

from inventory.markings.amounts import (
    GAPS,
    PRACTICE,
    Phrase,
    approvals,
    hertz,
    listed,
    phrases,
    volts,
    watts,
)
from inventory.markings.scanner import Rule, Scanner
from inventory.markings.writing import write
from inventory.records import Reading

_MAGNETRON = re.compile(
    r"(?:for\s)?(?P<type>2M[0-9]{3}[A-Z]{0,2}(?:-[A-Z0-9]{1,5})?)(?![A-Za-z0-9])"
)
_REVISION = re.compile(
    r"(?:REV(?:ISION)?|VER(?:SION)?)\.?\s?[:.]?\s?(?P<rev>[A-Z]|[0-9]{1,2}(?:\.[0-9]{1,2})?)(?![A-Za-z0-9])",
    re.IGNORECASE,
)
_WAYS = re.compile(r"(?P<n>[0-9]{1,2})[ -]?(?:pin|way)s?(?![A-Za-z])", re.IGNORECASE)
_NUMBER = re.compile(
    r"(?=[A-Z0-9-]{0,18}[0-9])(?=[0-9-]{0,18}[A-Z])[A-Z0-9]{3,16}(?:-[A-Z0-9]{1,10}){0,3}(?![A-Za-z0-9])"
)


def _magnetron(scan: Scanner) -> bool:
    """Paired = "for"? magnetron type."""
    found = scan.take(_MAGNETRON, "magnetron it is paired with", PRACTICE)
    if found is None:
        return False
    scan.say("magnetron_type", found["type"])
    return True


def _revision(scan: Scanner) -> bool:
    """Revision = "REV" letter | "VER" figure."""
    found = scan.take(_REVISION, "revision of the board", PRACTICE)
    if found is None:
        return False
    scan.say("revision", found["rev"].upper())
    return True


def _ways(scan: Scanner) -> bool:
    """Ways = figure "pin"."""
    found = scan.take(_WAYS, "ways of the connector", PRACTICE)
    if found is None:
        return False
    scan.say("circuits", int(found["n"]))
    return True


def _number(scan: Scanner) -> bool:
    """BoardNumber = the first code of capitals and figures, suffix included."""
    found = scan.peek(_NUMBER)
    if found is None or "board_number" in scan.ratings or len(found.group()) < 6:
        return False
    scan.take(_NUMBER, "board number with its suffix, as printed", PRACTICE)
    scan.say("board_number", found.group())
    return True


_WORDS = phrases(
    Phrase(r"inverter(?: (?:board|unit|pcb|power supply))?", "it is an inverter board"),
    Phrase(r"board|PCB|P\.?C\.?B\.?|unit|assy|model|type|no|high voltage|caution", "heading"),
)
_VOLTS = volts({"": "voltage_vac", "ac": "voltage_vac", "dc": "voltage_vdc"})
"""A board's plain volts are the mains it is fed with. Source: oven service manuals."""
_LINES: tuple[Rule, ...] = (
    _magnetron, _revision, _ways, hertz, _VOLTS, watts(), _WORDS, approvals, _number, *GAPS,
)  # fmt: skip


def read(text: str) -> Reading:
    """Read the label of an inverter board."""
    scan = Scanner(text)
    scan.sweep(_LINES)
    return scan.reading("inverter_board")


_LIKELY = re.compile(r"\binverter\b", re.IGNORECASE)


def likely(text: str) -> float:
    """How strongly a text looks like an inverter board, 0 to 1."""
    return 0.9 if _LIKELY.search(text[:400]) else 0.0


def canonical(reading: Reading) -> str:
    """The marking written out again; reads back to the same ratings."""
    return write(
        reading.ratings,
        ("board_number", "{}"),
        ("revision", "REV {}"),
        ("voltage_vac", lambda v: f"AC{listed(v)}V"),
        ("voltage_vdc", "{}VDC"),
        ("frequency_hz", lambda v: f"{listed(v, '/')}Hz"),
        ("power_w", "{}W"),
        ("magnetron_type", "{}"),
        ("circuits", "{} pin"),
        ("approvals", "{}"),
    )
