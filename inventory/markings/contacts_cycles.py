"""Operating cycles of a contact marking: 5E4, 25x103, 50.000 cycles, 6K."""

from __future__ import annotations

import re

from inventory.markings.contacts_items import Number
from inventory.markings.contacts_scan import ContactScanner, bounded
from inventory.markings.scanner import number

CYCLES = "IEC 61058-1, operating cycles (as explained by cxswitch: 5E4 = 50 000)"
SHEET_CYCLES = "makers' data sheets: cycles written out, UL life in thousands (Cherry D4)"

_E_CYCLES = bounded(r"(?P<figure>[0-9]{1,3}(?:[.,][0-9])?)\s?[Ee]\s?0?(?P<power>[1-7])")
_SUPERS = {"²": 2, "³": 3, "⁴": 4, "⁵": 5, "⁶": 6, "⁷": 7}
_TIMES_TEN = re.compile(
    r"(?P<figure>[0-9]{1,3}(?:[.,][0-9]{1,2})?)\s?[x×X*·]\s?10\s?\^?(?P<power>[3-7²³⁴⁵⁶⁷])(?![0-9])"
)
_POWER = re.compile(r"10(?:\^(?P<digit>[3-6])|(?P<raised>[³⁴⁵⁶]))(?![0-9])")
_UNIT_WORD = r"(?:cycles?|cyc\.?|ops?\.?|operations?|OPS|CYCLES|times|switching cycles|life|Zyklen)"
_CYCLE_UNIT = re.compile(rf"\s{{0,2}}(?:min\.?\s)?{_UNIT_WORD}(?![A-Za-z])(?:\smin\.?)?")
_THOUSANDS = re.compile(r"(?P<figure>[0-9]{1,3}[., ][0-9]{3}|[0-9]{4,6})(?![0-9A-Za-z/])\*?")
_KILO = bounded(r"(?P<figure>[0-9]{1,3})\s?[Kk]")
_L_CIRCLE = re.compile("Ⓛ")

PREFERRED_CYCLES = frozenset(
    {300, 1_000, 3_000, 6_000, 10_000, 15_000, 20_000, 25_000, 30_000, 50_000, 100_000}
    | {200_000, 300_000, 500_000, 1_000_000}
)
"""Endurance figures of IEC 61058-1 (from memory), IEC 60730 and makers' sheets."""


def cycles(scan: ContactScanner) -> bool:
    """Endurance: 5E4, 25x103 (lost superscript), 50.000 cycles, 6K, Ⓛ."""
    found = scan.take(_E_CYCLES, "operating cycles, scientific notation", CYCLES)
    if found:
        return _endurance(scan, number(found["figure"]) * 10 ** int(found["power"]))
    found = scan.take(_TIMES_TEN, "operating cycles; the last digit is a power of ten", CYCLES)
    if found:
        power = _SUPERS.get(found["power"]) or int(found["power"])
        return _endurance(scan, number(found["figure"]) * 10**power)
    found = scan.take(_POWER, "operating cycles, a power of ten", CYCLES)
    if found:
        return _endurance(scan, 10 ** int(found["digit"] or _SUPERS[found["raised"]]))
    return _written_out(scan) or _thousands(scan)


def circled_l(scan: ContactScanner) -> bool:
    """L in a circle: 100 000 operations under UL 1054. Source: Cherry D4 data sheet."""
    if not scan.take(_L_CIRCLE, "100 000 operations, UL 1054", "Cherry D4 data sheet"):
        return False
    return _endurance(scan, 100_000)


def _written_out(scan: ContactScanner) -> bool:
    """50,000; 50.000 cycles; 10000 ops."""
    found = scan.peek(_THOUSANDS)
    if found is None:
        return False
    value = int(re.sub("[., ]", "", found["figure"]))
    unit = _CYCLE_UNIT.match(scan.view, found.end())
    grouped = not found["figure"].isdigit()
    if not unit and not (grouped and value in PREFERRED_CYCLES):
        return False
    scan.take(_THOUSANDS, f"{value} operating cycles", SHEET_CYCLES)
    return _endurance(scan, value)


def _thousands(scan: ContactScanner) -> bool:
    """6K, 100K life."""
    found = scan.take(_KILO, "thousands of operating cycles", SHEET_CYCLES)
    return _endurance(scan, int(found["figure"]) * 1000) if found else False


def _endurance(scan: ContactScanner, value: Number) -> bool:
    """Note the endurance and take the word behind it."""
    scan.fact("endurance_cycles", int(value) if value == int(value) else value)
    scan.take(_CYCLE_UNIT, "operating cycles", SHEET_CYCLES)
    return True
