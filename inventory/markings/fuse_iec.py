"""The IEC 60127 mark of a cartridge fuse: letter, current, breaking class."""

from __future__ import annotations

import re

from inventory.markings.amounts import NUM, figure, plain_number, review, written
from inventory.markings.scanner import Scanner

IEC_1 = "IEC 60127-1, marking clause"
TIME = {
    "FF": "very fast acting",
    "F": "fast acting",
    "M": "medium time-lag",
    "T": "time-lag",
    "TT": "long time-lag",
}
"""Source: IEC 60127-1 symbols, listed alike in OPC 40400-1 clause 7.11.12.2."""

BREAKING = {
    "L": ("low breaking capacity", "IEC 60127-2; FST data sheet: L = low (glass tube)"),
    "H": ("high breaking capacity", "IEC 60127-2; SPT data sheet: H = high (ceramic tube)"),
    "E": ("enhanced breaking capacity", "IEC 60127-2, from memory"),
    "I": ("intermediate breaking capacity", "IEC 60127-4, from memory"),
}
LARGEST_A = 32
"""IEC 60127 and UL 248-14 miniature fuses stop here; a larger figure lost its point or its m."""

_TIME = r"(?P<time>FF|TT|mT|F|T|M)"
_CLASS = r"(?:\s?(?P<breaking>[LHEI])(?![A-Za-z]))"
_STOP = r"(?![A-Za-z])(?![0-9](?![0-9.,]{0,6}\s?k?V))"
_BARE_CLASS = re.compile(
    rf"(?P<amps>{NUM})\s?A\s?(?P<breaking>[LHE])(?=\s?[0-9]{{2,3}}\s?V)", re.IGNORECASE
)
_AMPS = rf"(?P<amps>{NUM}|\.[0-9]{{1,3}})"  # behind its letter a figure may begin with the point
_IEC = re.compile(rf"{_TIME}\s?{_AMPS}\s?(?P<unit>mA|A)(?:{_CLASS}|{_STOP})", re.IGNORECASE)
_POINT = re.compile(
    rf"{_TIME}\s?(?P<amps>[0-9]{{1,2}}A[0-9]{{1,2}})(?P<unit>)(?![0-9.,]|\s?V){_CLASS}?{_STOP}",
    re.IGNORECASE,
)
_BARE = re.compile(
    rf"{_TIME}\s?{_AMPS}(?P<unit>)(?:{_CLASS}|(?=\s?/?\s?[0-9]{{2,3}}\s?V))", re.IGNORECASE
)
_AFTER = re.compile(
    rf"(?P<amps>{NUM})\s?(?P<unit>mA|A)\s?{_TIME}(?:{_CLASS}|(?![A-Za-z0-9]))", re.IGNORECASE
)


def iec(scan: Scanner) -> bool:
    """IecMark = time current ("mA" | "A") class? | time current class | current "A" time class?."""
    for pattern in (_POINT, _IEC, _BARE, _AFTER):
        found = scan.peek(pattern)
        if found:
            _say_iec(scan, found)
            scan.at = found.end()
            return True
    return False


def bare_class(scan: Scanner) -> bool:
    """``12AH250V``: amperes and class, the letter of the speed worn away; it stays unknown."""
    found = scan.peek(_BARE_CLASS)
    value = found and figure(scan, found["amps"])
    if not found or not value or value > LARGEST_A:
        return False
    scan.mark(found.start(), found.start("breaking"), f"rated current {written(value)} A", IEC_1)
    scan.say("current_a", value)
    breaking = found["breaking"].upper()
    scan.mark(*found.span("breaking"), *BREAKING[breaking])
    scan.say("breaking_class", breaking)
    scan.warn("No letter says how fast this fuse is: it may be worn away; look at the cap again.")
    scan.at = found.end()
    return True


def _say_iec(scan: Scanner, found: re.Match[str]) -> None:
    """Mark and rate the three pieces of an IEC fuse mark."""
    letter = found["time"].upper().replace("MT", "M")
    source = "mT for M on older marks, from memory" if len(found["time"]) > len(letter) else IEC_1
    scan.mark(*found.span("time"), TIME[letter], source)
    scan.say("time_characteristic", letter)
    scan.say("standard", "IEC 60127")
    before = "current_a" in scan.ratings
    _current(scan, found)
    read = not before and "current_a" in scan.ratings
    spoken = f"rated current {written(scan.ratings['current_a'])} A" if read else "rated current"
    scan.mark(found.start("amps"), max(found.end("amps"), found.end("unit")), spoken, IEC_1)
    if found["breaking"]:
        breaking = found["breaking"].upper()
        scan.mark(*found.span("breaking"), *BREAKING[breaking])
        scan.say("breaking_class", breaking)


def _current(scan: Scanner, found: re.Match[str]) -> None:
    """Say the current; a figure no miniature fuse has is only a candidate."""
    text = re.sub("A", ".", found["amps"], flags=re.IGNORECASE)
    unit = found["unit"].upper()
    bare = not unit and "." not in text and "," not in text
    milli = unit == "MA" or (bare and plain_number(text) >= LARGEST_A)
    value = figure(scan, text, "0.001" if milli else "1")
    if value is None:
        return
    if value <= LARGEST_A:
        scan.say("current_a", value)
    else:
        _too_large(scan, found, value)


def _too_large(scan: Scanner, found: re.Match[str], value: float) -> None:
    """Offer the figure with its point, and in milliamperes; read neither."""
    digits = written(value)
    reason = f"{digits} A is more than any miniature fuse carries; a point or an m is lost."
    review(scan, reason)
    pointed = f"{digits[0]}.{digits[1:].replace('.', '')}"
    scan.propose(f"{found['time']}{pointed}A", reason, current_a=plain_number(pointed))
    scan.propose(f"{found['time']}{digits}mA", reason, current_a=plain_number(digits, "0.001"))
