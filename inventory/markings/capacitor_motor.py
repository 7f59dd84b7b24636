"""What only motor capacitors carry: class of duty, protection, two sections, a span of values.

A capacitor of IEC 60252 works on a.c.: its bare volts are a.c. volts. Two values joined by a
plus sign are two capacitors in one can, two joined by a dash are the limits of a starting
capacitor: neither is *the* capacitance, so none is set.
"""

from __future__ import annotations

import re

from inventory.markings.amounts import PRACTICE
from inventory.markings.figures import figure
from inventory.markings.passive_marks import ANY_CASE, legend, word
from inventory.markings.scanner import Rule, Scanner

IEC_60252 = "IEC 60252-1, a.c. motor capacitors; as read at advanceelectrical.co.in"

_NUMBER = r"[0-9]{1,4}(?:[.,][0-9]{1,3})?"
_MICRO = r"(?:[µu]\s?F|MFD)"
_KIND = re.compile(
    r"CBB6[0-9]|CD60|\bmotor\b|\b(?:run|start(?:ing)?|fan)[ -]cap|[0-9]\s?Hz|"
    rf"(?<![0-9A-Za-z.-])[PS][0-3](?![0-9A-Za-z])|{_NUMBER}\s?\+\s?{_NUMBER}\s?{_MICRO}",
    ANY_CASE,
)


def is_for_a_motor(text: str) -> bool:
    """True where a type, a word, a frequency or a protection mark says it works on a.c.

    >>> is_for_a_motor("CBB61 2.5uF 350V"), is_for_a_motor("470uF 25V 105C")
    (True, False)
    """
    return _KIND.search(text) is not None


_SECTIONS = re.compile(
    rf"(?P<first>{_NUMBER})\s?(?P<join>[+/])\s?(?P<second>{_NUMBER})\s?(?P<unit>{_MICRO})"
    r"(?![A-Za-z])",
    ANY_CASE,
)
_SPAN = re.compile(
    rf"(?:(?P<before>{_MICRO})\s?:?\s?)?(?P<low>{_NUMBER})\s?(?:{_MICRO})?\s?(?P<join>-|~|to)\s?"
    rf"(?P<high>{_NUMBER})\s?(?P<unit>{_MICRO}(?![A-Za-z])|(?<!\.)(?![0-9A-Za-z.,]))",
    ANY_CASE,
)


def sections(scan: Scanner) -> bool:
    """Sections = number "+" number "µF": two capacitors in one can."""
    found = scan.peek(_SECTIONS)
    if found is None:
        return False
    both = [figure(found["first"]), figure(found["second"])]
    scan.say("sections_uf", both)
    scan.warn("Two capacitors in one can: no single capacitance is set; match both sections.")
    means = {
        "first": (f"first section {both[0]} µF", PRACTICE),
        "second": (f"second section {both[1]} µF", PRACTICE),
        "unit": ("microfarad", PRACTICE),
    }
    return legend(scan, found, means)


def span(scan: Scanner) -> bool:
    """Span = "MFD"? number "-" number "µF": the limits of a starting capacitor, not its value."""
    found = scan.peek(_SPAN)
    if found is None or not (found["before"] or found["unit"]):
        return False
    low, high = figure(found["low"]), figure(found["high"])
    if low >= high:
        return False
    scan.say("range_uf", [low, high])
    scan.warn("A span of values is printed: a good one measures within it; no value is set.")
    means = f"measures {low} to {high} µF"
    names = ("before", "unit")
    marks = {name: ("microfarad", PRACTICE) for name in names if found[name]}
    return legend(scan, found, {"low": (means, PRACTICE), "high": (means, PRACTICE), **marks})


_PROTECTION = re.compile(r"(?P<mark>[PS][0-3])(?![0-9A-Za-z])")
_PROTECTED = {"0": "no special protection", "1": "may fail open or shorted, protected",
              "2": "fails open", "3": "segmented film"}  # fmt: skip


def protection(scan: Scanner) -> bool:
    """Protection = ("P" | "S") digit: what happens when it fails; S since 2010."""
    found = scan.peek(_PROTECTION)
    if found is None:
        return False
    scan.say("safety_protection", found["mark"])
    spoken = f"class of safety protection: {_PROTECTED[found['mark'][1]]}"
    source = IEC_60252 if found["mark"][1] == "0" else "IEC 60252-1, classes S1 to S3 from memory"
    return legend(scan, found, {"mark": (spoken, source)})


_CLASS = re.compile(r"(?:class\s?)?(?P<letter>[ABCD])(?![0-9A-Za-z.])", ANY_CASE)
_HOURS = {"A": "30 000", "B": "10 000", "C": "3 000", "D": "1 000"}


def duty_class(scan: Scanner) -> bool:
    """Class = "class"? ("A" | "B" | "C" | "D"): hours at its volts."""
    found = scan.peek(_CLASS)
    if found is None or not found["letter"].isupper():
        return False
    scan.say("operating_class", found["letter"])
    spoken = f"class of operation: {_HOURS[found['letter']]} h at its rated voltage"
    source = "IEC 60252-1, life of classes A to D (docplayer.net 21145730)"
    return legend(scan, found, {"letter": (spoken, source)})


TYPES = (
    word("CBB6[0-9][A-Z]?", "motor capacitor, metallised polypropylene", "GB/T 2470; cxriyi.com",
         dielectric="PP", role="motor run"),
    word("CD60[A-Z]?", "motor starting capacitor, electrolytic", IEC_60252,
         dielectric="electrolytic", role="motor start"),
    word("motor[ -]?run|run(?:ning)?(?= cap)", "place of the part", PRACTICE, role="motor run"),
    word("motor[ -]?start(?:ing)?|start(?:ing)?(?= cap)", "place of the part", PRACTICE,
         role="motor start"),
    word("SH", "self-healing", IEC_60252, self_healing=True),
    word("motor|fan|AMP(?:187|250)|tinned|wires?|voltage|single", "word of a listing", PRACTICE),
)  # fmt: skip
"""Type letters and words of motor capacitors."""

LINES: tuple[Rule, ...] = (sections, span, protection, duty_class, *TYPES)
"""Lines asked only where ``is_for_a_motor`` says so, but for sections and span."""
