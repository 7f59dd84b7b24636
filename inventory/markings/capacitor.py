"""Film, ceramic and electrolytic capacitors: value, tolerance, volts, temperature.

A value is given in both units, ``capacitance_pf`` and ``capacitance_uf``. Classes X and Y have
their own grammar.
"""

from __future__ import annotations

import re

from inventory.markings.amounts import PRACTICE
from inventory.markings.capacitance import (
    BARE_V,
    VALUE_LINES,
    decimal,
    digits,
    letter,
    say_farads,
    with_tolerance,
)
from inventory.markings.figures import IEC_60062, digit_code, figure
from inventory.markings.passive_marks import (
    COMMON,
    climatic,
    legend,
    percent,
    rest_of_word,
    temperature,
    tolerance,
    volts,
    word,
)
from inventory.markings.scanner import Scanner
from inventory.markings.writing import Line, write
from inventory.records import Reading

# fmt: off
_MANTISSA = {
    "A": "1", "Q": "1.1", "B": "1.25", "T": "1.5", "C": "1.6", "Z": "1.8", "D": "2", "P": "2.2",
    "E": "2.5", "F": "3.15", "V": "3.5", "G": "4", "W": "4.5", "H": "5", "J": "6.3", "K": "8",
}
# fmt: on
_EIA = "EIA voltage code as tabled at oriedza.blogspot.com/2014_04_17_archive.html"


def code_volts(code: str) -> int | float | None:
    """Volts of a two-character voltage code: exponent, then mantissa.

    >>> code_volts("2A"), code_volts("2J"), code_volts("0J")
    (100, 630, 6.3)
    """
    mantissa = _MANTISSA.get(code[1])
    return None if mantissa is None else figure(mantissa, int(code[0]))


_CODED = re.compile(
    r"(?P<volts>[0-3][A-Z])\s?(?P<code>[1-9][0-9][0-9])\s?(?P<tol>[BCDFGHJKMNZ])?(?![0-9A-Za-z])"
)


def coded(scan: Scanner) -> bool:
    """Coded = volts-code digits multiplier tolerance?, e.g. 2A104K."""
    found = scan.peek(_CODED)
    rated = code_volts(found["volts"]) if found else None
    if found is None or rated is None:
        return False
    scan.say("voltage_vdc", rated)
    means = {
        "volts": (f"{rated} V d.c.", _EIA),
        "code": (say_farads(scan, digit_code(found["code"])), IEC_60062),
    }
    return with_tolerance(scan, found, means)


_BARE_VOLTS = re.compile(
    r"(?P<volts>50|63|100|160|200|250|275|400|450|500|630|800|1000|1250|1600|2000)"
    r"\s?(?P<ac>~)?(?![0-9A-Za-z.,%°])"
)


def bare_volts(scan: Scanner) -> bool:
    """Volts = a usual rating without V, once the value was read, e.g. 100n J 630 | number "~"."""
    found = scan.peek(_BARE_VOLTS)
    if found is None or not (found["ac"] or "capacitance_pf" in scan.ratings):
        return False
    if {"voltage_vdc", "voltage_vac"} & scan.ratings.keys():
        return False
    kind = "a" if found["ac"] else "d"
    scan.say(f"voltage_v{kind}c", int(found["volts"]))
    means = (f"{found['volts']} V {kind}.c.", PRACTICE if found["ac"] else BARE_V)
    return legend(scan, found, {"volts": means})


FILMS = (
    word(
        "MKP|MPP|CBB[0-9]{0,3}", "metallised polypropylene", "DIN 41379; GB/T 2470", dielectric="PP"
    ),
    word(
        "MKT|MKS|MPE|CL[0-9]{1,3}", "metallised polyester", "DIN 41379; GB/T 2470", dielectric="PET"
    ),
    word("FKP|PP|KP", "polypropylene film and foil", "DIN 41379", dielectric="PP"),
    word("FKS|FKT|KT|PET", "polyester film and foil", "DIN 41379", dielectric="PET"),
)
"""Letters of the film. Sources: DIN 41379; GB/T 2470 for the Chinese letters."""

_SIZE = re.compile(
    r"(?P<d>[0-9]{1,2}(?:[.,][0-9])?)\s?[x×*]\s?(?P<h>[0-9]{1,3}(?:[.,][0-9])?)\s?(?:mm)?(?![0-9A-Za-z])"
)


def size(scan: Scanner) -> bool:
    """Size = diameter "x" height "mm"?"""
    found = scan.peek(_SIZE)
    if found is None:
        return False
    scan.say("size_mm", [figure(found["d"]), figure(found["h"])])
    return scan.take(_SIZE, "diameter and height in mm", PRACTICE) is not None


RULES = (
    rest_of_word,
    climatic,
    temperature,
    volts("voltage_vdc", BARE_V),
    size,
    coded,
    *VALUE_LINES,
    bare_volts,
    digits,
    tolerance,
    decimal,
    letter,
    *FILMS,
    word("BP|NP|bi-?polar|non-?polar", "not polarised", PRACTICE, polarised=False),
    word("capacitors?|condensateur|kondensator|elko|cap", "the word for the part", PRACTICE),
    *COMMON,
)


def read(text: str) -> Reading:
    """Read what is printed on a film, ceramic or electrolytic capacitor."""
    scan = Scanner(text)
    scan.sweep(RULES)
    return scan.reading("capacitor")


_SURE = re.compile(
    r"[0-9]\s?(?:[µu]F|UF|nF|pF|MFD)(?![A-Za-z])"
    r"|(?<![0-9A-Za-z])[0-3][A-Z][1-9][0-9]{2}[JKMZ](?![0-9A-Za-z])"
)
_MAYBE = re.compile(
    r"(?<![0-9A-Za-z])(?:[0-9]{1,3}[pnµu][0-9]{0,3}|[pnµu][0-9]{1,3}|[1-9][0-9]{2})[JKM]?(?![0-9A-Za-z])"
)
_ALONE = re.compile(r"\s*(?:[1-9][0-9]{2}|0?[.,][0-9]{1,3}|[0-9]R[0-9])[JKM]?\s*")
_OTHERS = re.compile(r"(?<![A-Za-z])[XY][1-4](?![0-9])|AC\s?[12][0-9]{3}|[12][0-9]{3}\s?V")


def likely(text: str) -> float:
    """How strongly a text looks like this family, 0 to 1."""
    if _SURE.search(text):
        return 0.35 if _OTHERS.search(text) else 0.7
    if _ALONE.fullmatch(text):
        return 0.35
    lettered_code = _MAYBE.search(text)
    return 0.4 if lettered_code and not lettered_code[0].isdigit() else 0.0


def canonical(reading: Reading) -> str:
    """The marking in its plainest form; it reads back to the same ratings."""
    return write(reading.ratings, *LINES)


LINES: tuple[Line, ...] = (
    ("capacitance_pf", "{}pF"),
    ("tolerance_pct", percent),
    ("voltage_vac", "{}VAC"),
    ("voltage_vdc", "{}VDC"),
    ("temp_c", "{}°C"),
)
"""How the ratings are written out."""
