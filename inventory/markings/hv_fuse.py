"""High-voltage fuses of ovens: milliamperes and kilovolts, never a mains cartridge."""

from __future__ import annotations

import re

from inventory.markings.amounts import (
    GAPS,
    NUM,
    Phrase,
    amps,
    approvals,
    listed,
    mended,
    phrases,
    review,
    size,
    volts,
    written,
)
from inventory.markings.scanner import Rule, Scanner
from inventory.markings.writing import write
from inventory.records import Reading

SOURCE = "oven fuse list, m.hi1718.com/baike/view/4751.html: 500 mA to 1 A, 5 kV, 6.5 x 40 mm"
CURRENT_A = (0.1, 2.0)
"""What the oven's high-voltage circuit can ask for; the list stops at 1 A, the rest is margin."""

VOLTS = (1000, 20000)
"""The list's fuses are 5 kV; below lie mains cartridges, above nothing an oven holds."""

_WORDS = phrases(
    Phrase(r"(?:H\.?V\.?|high[ -]?voltage)[ -]?fuse(?:[ -]?(?:link|assembly|assy|holder))?",
           "high-voltage fuse"),
    Phrase(r"microwave(?: oven)?|oven", "of a microwave oven"),
    Phrase(r"fuse", "it is a fuse"),
    Phrase(r"spring(?:[ -]?loaded)?", "spring-tensioned element", {"spring_loaded": True}),
    Phrase(r"glass(?: tube)?", "glass body", {"body": "glass"}),
    Phrase(r"ceramic(?: tube)?", "ceramic body", {"body": "ceramic"}),
    Phrase(r"with (?:holder|sleeve|case)|in (?:holder|sleeve)", "in its holder", {"holder": True}),
)  # fmt: skip
_VOLTS = volts({"": "voltage_v", "ac": "voltage_v", "dc": "voltage_dc_v"})
_LINES: tuple[Rule, ...] = (_WORDS, size, _VOLTS, amps(), approvals, *GAPS)


def read(text: str) -> Reading:
    """Read the marking of an oven's high-voltage fuse."""
    scan = Scanner(text)
    scan.sweep(_LINES)
    _doubt_current(scan)
    volts_said = scan.ratings.get("voltage_v")
    if isinstance(volts_said, (int, float)) and not VOLTS[0] <= volts_said <= VOLTS[1]:
        review(scan, f"{written(volts_said)} V is no rating of an oven's high-voltage fuse.")
    return scan.reading("hv_fuse")


def _doubt_current(scan: Scanner) -> None:
    """A current no oven asks for is not read; the same digits with a point or an m are offered."""
    current = scan.ratings.get("current_a")
    if not isinstance(current, (int, float)) or CURRENT_A[0] <= current <= CURRENT_A[1]:
        return
    del scan.ratings["current_a"]
    reason = f"{written(current)} A is outside what an oven's high-voltage circuit carries"
    review(scan, f"{reason}; a point or an m may be lost.")
    for meant in (current / 10, current / 100, current / 1000):
        if CURRENT_A[0] <= meant <= CURRENT_A[1]:
            value = round(meant, 4)
            text = mended(scan, "rated current", f"{written(value)}A")
            scan.propose(text, reason, current_a=value)


_LIKELY = (
    (re.compile(r"(?:h\.?v\.?|high[ -]?voltage)[ -]?fuse", re.IGNORECASE), 0.95),
    (re.compile(rf"{NUM}\s?m?A(?![A-Za-z]).{{0,12}}?{NUM}\s?kV", re.IGNORECASE), 0.85),
    (re.compile(rf"{NUM}\s?kV.{{0,12}}?{NUM}\s?m?A(?![A-Za-z])", re.IGNORECASE), 0.85),
    (re.compile(rf"{NUM}\s?m?A\s?/?\s?[1-9][0-9]{{3}}\s?V(?!\s?AC)", re.IGNORECASE), 0.6),
)  # fmt: skip
_OTHER = re.compile(
    r"diode|rectifier|capacitor|transformer|magnetron|\bCL[0-9]|HVM"
    r"|\b[XY][124]\b|(?<![0-9.,])(?:[89]|1[0-9])(?:[.,][0-9])?\s?kV",
    re.IGNORECASE,
)
"""Words and figures of neighbours: eight kilovolts and more are a diode's reverse voltage."""


def likely(text: str) -> float:
    """How strongly a text looks like an oven's high-voltage fuse, 0 to 1."""
    head = text[:400]
    score = next((score for pattern, score in _LIKELY if pattern.search(head)), 0.0)
    return score * 0.3 if _OTHER.search(head) else score


def canonical(reading: Reading) -> str:
    """The marking written out again; reads back to the same ratings."""
    return write(
        reading.ratings,
        ("current_a", "{}A"),
        ("voltage_v", lambda v: f"{listed(v, '/')}V"),
        ("voltage_dc_v", "{}VDC"),
        ("size_mm", lambda v: f"{listed(v, 'x')}mm"),
        ("spring_loaded", {True: "spring loaded"}),
        ("body", "{}"),
        ("holder", {True: "with holder"}),
        ("approvals", "{}"),
    )
