"""Film, ceramic and electrolytic capacitors: value, tolerance, volts, temperature.

A value is given in both units, ``capacitance_pf`` and ``capacitance_uf``. Classes X and Y have
their own grammar.
"""

from __future__ import annotations

import re
from decimal import Decimal

from inventory.markings import capacitor_motor
from inventory.markings.amounts import PRACTICE, hertz
from inventory.markings.bookkeeping import START
from inventory.markings.capacitance import (
    BARE_V,
    EIA_VOLTS,
    VALUE_LINES,
    code_volts,
    decimal,
    digits,
    letter,
    say_farads,
    with_tolerance,
)
from inventory.markings.capacitor_electrolytic import CODES, SURE
from inventory.markings.figures import IEC_60062, digit_code, farads, figure, tidy
from inventory.markings.passive_marks import (
    COMMON,
    climatic,
    legend,
    percent,
    temperature,
    tolerance,
    volts,
    word,
)
from inventory.markings.scanner import Rule, Scanner
from inventory.markings.writing import Line, faithful, write
from inventory.records import Reading

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
        "volts": (f"{rated} V d.c.", EIA_VOLTS),
        "code": (say_farads(scan, digit_code(found["code"])), IEC_60062),
    }
    return with_tolerance(scan, found, means)


_VOLTS_CODE = re.compile(r"(?P<volts>[0-3][A-Z])(?=\s{0,2}[0-9]{0,3}[pnuµ][0-9])")
_UNCODED_PF = 10_000_000  # from 10 µF on values are printed plainly, and 2A is a current
_VOLTS_BEHIND = re.compile(r"(?P<volts>[0-3][A-Z])(?![0-9A-Za-z])")


def volts_code(scan: Scanner) -> bool:
    """Volts = exponent and mantissa letter, before a lettered value or behind any: 2E 4n7J."""
    found = scan.peek(_VOLTS_CODE)
    coded_value = 0 < scan.ratings.get("capacitance_pf", 0) < _UNCODED_PF
    if found is None and coded_value and "voltage_vdc" not in scan.ratings:
        found = scan.peek(_VOLTS_BEHIND)
    rated = code_volts(found["volts"]) if found else None
    if found is None or rated is None:
        return False
    scan.say("voltage_vdc", rated)
    return legend(scan, found, {"volts": (f"{rated} V d.c.", EIA_VOLTS)})


_TEMPERATURE_CODE = re.compile(r"(?P<code>[XYZ][4-9][FPRSTUV]|C0G|NP0)(?![0-9A-Za-z])")


def temperature_code(scan: Scanner) -> bool:
    """Characteristic = lowest, highest temperature and change, e.g. Y5V; C0G is the stable one."""
    found = scan.peek(_TEMPERATURE_CODE)
    if found is None:
        return False
    scan.say("temp_char", found["code"])
    source = "EIA-198, ceramic temperature codes"
    return legend(scan, found, {"code": ("ceramic: change with temperature", source)})


_BARE_VOLTS = re.compile(
    r"(?P<volts>50|63|100|160|200|250|275|400|450|500|630|800|1000|1250|1600|2000)"
    r"\s?(?P<ac>~)?(?![0-9A-Za-z.,%°]|\s?[/-]\s?[0-9])"
)


def bare_volts(kind: str, why: str) -> Rule:
    """Make the line of a usual rating without V, a.c. or d.c. as the ``kind`` of part has it."""

    def rule(scan: Scanner) -> bool:
        """Volts = figure, once the value was read, e.g. 100n J 630 | figure "~"."""
        found = scan.peek(_BARE_VOLTS)
        if found is None or not (found["ac"] or "capacitance_pf" in scan.ratings):
            return False
        if {"voltage_vdc", "voltage_vac"} & scan.ratings.keys():
            return False
        said, source = ("a", PRACTICE) if found["ac"] else (kind, why)
        scan.say(f"voltage_v{said}c", int(found["volts"]))
        return legend(scan, found, {"volts": (f"{found['volts']} V {said}.c.", source)})

    return rule


FILMS = (
    word(
        "MKP[0-9]{0,3}|MPP|CBB[0-9]{0,3}",
        "metallised polypropylene",
        "DIN 41379; GB/T 2470",
        dielectric="PP",
    ),
    word(
        "MKT[0-9]{0,3}|MKS[0-9]{0,3}|MPE|CL[0-9]{1,3}",
        "metallised polyester",
        "DIN 41379; GB/T 2470",
        dielectric="PET",
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


def _rules(*, motor: bool) -> tuple[Rule, ...]:
    """The whole grammar, in order; a motor capacitor's bare volts are a.c."""
    bare = ("voltage_vac", capacitor_motor.IEC_60252) if motor else ("voltage_vdc", BARE_V)
    return (
        *START,
        *CODES,
        capacitor_motor.sections,
        capacitor_motor.span,
        climatic,
        temperature,
        hertz,
        volts(*bare),
        *(capacitor_motor.LINES if motor else ()),
        size,
        coded,
        volts_code,
        temperature_code,
        *VALUE_LINES,
        *(() if motor else (bare_volts("d", BARE_V),)),
        digits,
        tolerance,
        decimal,
        letter,
        *FILMS,
        word("BP|NP|bi-?polar|non-?polar", "not polarised", PRACTICE, polarised=False),
        word("electrolytic|elko|elco", "electrolytic", PRACTICE, dielectric="electrolytic"),
        word("capacitors?|condensateur|kondensator|cap", "the word for the part", PRACTICE),
        *COMMON,
    )


_PLAIN, _MOTOR = _rules(motor=False), _rules(motor=True)


def read(text: str) -> Reading:
    """Read what is printed on a film, ceramic, electrolytic or motor capacitor."""
    scan = Scanner(text)
    scan.sweep(_MOTOR if capacitor_motor.is_for_a_motor(scan.view) else _PLAIN)
    _small_electrolytic(scan)
    return scan.reading("capacitor")


def _small_electrolytic(scan: Scanner) -> None:
    """A tiny value at a few volts: on an electrolytic the digits may count µF.

    Source: forum.allaboutcircuits.com 210680, an electrolytic marked 471 6.3V is 470 µF.
    """
    pico, rated = scan.ratings.get("capacitance_pf"), scan.ratings.get("voltage_vdc", 100)
    if pico is None or rated > 16 or pico > 10_000:
        return
    scan.propose(
        f"{tidy(Decimal(str(pico)))} µF {rated} V",
        "an electrolytic may count microfarad in digits",
        capacitance_pf=tidy(Decimal(str(pico)).scaleb(6)),
        capacitance_uf=pico,
    )
    scan.warn("So little at so few volts: if it is an electrolytic the digits may mean µF.")


_SURE = re.compile(
    r"[0-9]\s?(?:[µu]F|UF|nF|pF|MFD|mfd)(?![A-Za-z])|(?<![A-Za-z])(?i:CBB6[0-9]|CD60|MFD)"
    r"|(?<![0-9A-Za-z])[0-3][A-Z][1-9][0-9]{2}[JKMZ](?![0-9A-Za-z])"
)
_MAYBE = re.compile(
    r"(?<![0-9A-Za-z])(?:(?:[0-9]{1,3}[pnµu][0-9]{0,3}|[pnµu][0-9]{1,3})[BCDGJKM]?|[1-9][0-9]{2}[JKMZ]?)"
    r"(?![0-9A-Za-z])"
)
_ALONE = re.compile(
    r"\s*(?:(?:[0-3][A-Z]\s)?[1-9][0-9]{2}\s?[BCDFGJKLMZ]?(?:\s[XYZ][4-9][A-Z])?|0?[.,][0-9]{1,3}(?:[JKM][0-9]{0,3})?|[0-9]R[0-9])\s*"
)
_OTHERS = re.compile(r"(?<![A-Za-z])[XY][1-4](?![0-9])|AC\s?[12][0-9]{3}|[12][0-9]{3}\s?V")


def likely(text: str) -> float:
    """How strongly a text looks like this family, 0 to 1."""
    if SURE.match(text):
        return 0.9
    if _SURE.search(text):
        return 0.35 if _OTHERS.search(text) else 0.7
    if _ALONE.fullmatch(text):
        return 0.35
    lettered_code = _MAYBE.search(text)
    return 0.4 if lettered_code and not lettered_code[0].isdigit() else 0.0


def canonical(reading: Reading) -> str:
    """The marking in its plainest form; it reads back to the same ratings."""
    return faithful(reading, _written(reading), read)


def _written(reading: Reading) -> str:
    """The ratings written out."""
    return write(reading.ratings, *LINES)


LINES: tuple[Line, ...] = (
    ("capacitance_pf", farads),
    ("value", lambda value: str(value).replace(".", "R") if "." in str(value) else f"{value}R"),
    ("tolerance_pct", percent),
    ("voltage_vac", "{}VAC"),
    ("voltage_vdc", "{}VDC"),
    ("temp_c", "{}°C"),
    ("temp_char", "{}"),
    ("dielectric", {"PP": "MKP", "PET": "MKT", "electrolytic": "electrolytic"}),
)
"""How the ratings are written out."""
