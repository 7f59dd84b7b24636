"""Operating cycles of a contact marking: 5E4, 25x103, 50.000 cycles, 6K."""

from __future__ import annotations

import re
from collections.abc import Callable
from functools import partial

from inventory.markings.contacts_items import Number
from inventory.markings.contacts_scan import ContactScanner, bounded
from inventory.markings.scanner import number

CYCLES = "IEC 61058-1, operating cycles (as explained by cxswitch: 5E4 = 50 000)"
SHEET_CYCLES = "makers' data sheets: cycles written out, UL life in thousands (Cherry D4)"

_E_CYCLES = re.compile(
    r"(?P<figure>[0-9]{1,3}(?:[.,][0-9])?)\s?[Ee]\s?\+?0?(?P<power>[1-7])"
    r"(?:(?![0-9A-Za-z])|(?=IP[0-9])|(?=[0-9]{0,2}[Tt][0-9]{2,3}(?![0-9])))"
)
_SUPERS = {"²": 2, "³": 3, "⁴": 4, "⁵": 5, "⁶": 6, "⁷": 7}
_TIMES_TEN = re.compile(
    r"(?P<figure>[0-9]{1,3}(?:[.,][0-9]{1,2})?)\s?[x×X*·]\s?10\s?\^?(?P<power>[3-7²³⁴⁵⁶⁷])(?![0-9])"
)
_POWER = re.compile(r"10(?:\^(?P<digit>[3-6])|(?P<raised>[³⁴⁵⁶]))(?![0-9])")
_UNIT_WORD = r"(?:cycles?|cyc\.?|ops?\.?|operations?|OPS|CYCLES|times|switching cycles|life|Zyklen)"
_CYCLE_UNIT = re.compile(rf"\s{{0,2}}(?:min\.?\s)?{_UNIT_WORD}(?![A-Za-z])(?:\smin\.?)?")
_THOUSANDS = re.compile(r"(?P<figure>[0-9]{1,3}[., ][0-9]{3}|[0-9]{4,6})(?![0-9A-Za-z/])\*?")
_KILO = bounded(r"(?P<figure>[0-9]{1,3})\s?[Kk]")
_L_CIRCLE = re.compile("[Ⓛⓛ]")

PREFERRED_CYCLES = frozenset(
    {300, 1_000, 3_000, 6_000, 10_000, 15_000, 20_000, 25_000, 30_000, 50_000, 100_000}
    | {200_000, 300_000, 500_000, 1_000_000}
)
"""Endurance figures of IEC 61058-1 (from memory), IEC 60730 and makers' sheets."""


def cycles(scan: ContactScanner) -> bool:
    """Endurance: 5E4, 25x103 (lost superscript), 50.000 cycles, 6K, Ⓛ."""
    for pattern, value_of in _SCIENTIFIC:
        found = scan.take(pattern, partial(_match_words, value_of), CYCLES)
        if found:
            return _endurance(scan, value_of(found))
    return _written_out(scan) or _thousands(scan)


def _words(value: Number) -> str:
    """A number of cycles in words.

    >>> _words(50000)
    '50 000 operating cycles'
    """
    return f"{value:,.0f} operating cycles".replace(",", " ")


def _match_words(value_of: Callable[[re.Match[str]], Number], found: re.Match[str]) -> str:
    """The cycles a match stands for, in words."""
    return _words(value_of(found))


def _e_value(found: re.Match[str]) -> Number:
    """The cycles of ``5E4``."""
    return _shifted(number(found["figure"]), int(found["power"]))


def _shifted(figure: Number, power: int) -> Number:
    """A figure times a power of ten."""
    tens: int = 10**power
    return figure * tens


def _times_value(found: re.Match[str]) -> Number:
    """The cycles of ``25x103``: the last digit is a power of ten."""
    return _shifted(number(found["figure"]), _SUPERS.get(found["power"]) or int(found["power"]))


def _power_value(found: re.Match[str]) -> Number:
    """The cycles of ``10^5``."""
    return _shifted(1, int(found["digit"] or _SUPERS[found["raised"]]))


_SCIENTIFIC: tuple[tuple[re.Pattern[str], Callable[[re.Match[str]], Number]], ...] = (
    (_E_CYCLES, _e_value),
    (_TIMES_TEN, _times_value),
    (_POWER, _power_value),
)
"""Ways to write a power of ten, each with its value."""


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
    scan.take(_THOUSANDS, _words(value), SHEET_CYCLES)
    return _endurance(scan, value)


def _thousands(scan: ContactScanner) -> bool:
    """6K, 100K life."""
    found = scan.take(_KILO, lambda m: _words(int(m["figure"]) * 1000), SHEET_CYCLES)
    return _endurance(scan, int(found["figure"]) * 1000) if found else False


def _endurance(scan: ContactScanner, value: Number) -> bool:
    """Note the endurance and take the word behind it."""
    scan.fact("endurance_cycles", int(value) if value == int(value) else value)
    scan.take(_CYCLE_UNIT, "operating cycles", SHEET_CYCLES)
    return True
