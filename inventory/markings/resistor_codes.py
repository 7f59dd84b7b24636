"""Type codes of leaded resistors: moulded carbon, and the ordering code of film and wire."""

from __future__ import annotations

import re
from decimal import Decimal

from inventory.markings.figures import (
    IEC_60062,
    OHM_LETTERS,
    digit_code,
    ohms,
    tidy,
    with_letter,
)
from inventory.markings.passive_marks import legend, say_tolerance
from inventory.markings.scanner import Rule, Scanner

VALUE = "resistance_ohm"
"""The rating every value line sets."""


def say_ohms(scan: Scanner, amount: Decimal) -> str:
    """Set the resistance and hand back how it is spoken."""
    scan.say(VALUE, tidy(amount))
    return f"resistance {ohms(amount)}"


_MOULDED = re.compile(r"(?P<watts>[BCEGH]B)(?P<code>[1-9][0-9][0-9])(?P<tol>[125])(?![0-9A-Za-z])")
_MOULDED_WATTS = {"BB": 0.125, "CB": 0.25, "EB": 0.5, "GB": 1, "HB": 2}
_MOULDED_PCT = {"1": 10, "2": 20, "5": 5}
_MOULDED_SOURCE = "en.wikipedia.org/wiki/BS_1852, letters, value and tolerance; HB from memory"


def moulded(scan: Scanner) -> bool:
    """Code = watts-letters digits multiplier tolerance-figure, e.g. EB1041."""
    found = scan.peek(_MOULDED)
    if found is None:
        return False
    watts, percent_said = _MOULDED_WATTS[found["watts"]], _MOULDED_PCT[found["tol"]]
    scan.say("power_w", watts)
    scan.say("tolerance_pct", percent_said)
    means = {
        "watts": (f"rated power {watts} W", _MOULDED_SOURCE),
        "code": (say_ohms(scan, digit_code(found["code"])), _MOULDED_SOURCE),
        "tol": (f"tolerance ±{percent_said} %", _MOULDED_SOURCE),
    }
    return legend(scan, found, means)


_ORDERED = re.compile(
    r"(?P<series>CFR|FCR|MFR|FMF|RSF|KNP)-?(?P<size>12|25|50|100|200|1W|2W|3W|5W)"
    r"-?(?P<tol>[BCDFGJ])(?P<pack>[TRB])-?(?P<tcr>[A-Z])?-?(?P<lead>[0-9]{2})-?"
    r"(?P<value>[0-9]{1,3}[RKM][0-9]{0,3})(?![0-9A-Za-z])"
)
_ORDERED_WATTS = {"12": 0.1667, "25": 0.25, "50": 0.5, "100": 1, "200": 2}
_ORDERED_WATTS |= {"1W": 1, "2W": 2, "3W": 3, "5W": 5}
_MADE_OF = {
    "CFR": "carbon film",
    "FCR": "carbon film",
    "MFR": "metal film",
    "FMF": "metal film",
    "RSF": "metal oxide",
    "KNP": "wirewound",
}
YAGEO = "Yageo, leaded resistors, series and explanations of the ordering code (datasheet.live)"


def ordered(scan: Scanner) -> bool:
    """Code = series size tolerance packing coefficient? lead value, e.g. MFR-25FRF52-10K0."""
    found = scan.peek(_ORDERED)
    value = with_letter(found["value"], OHM_LETTERS) if found else None
    if found is None or value is None:
        return False
    watts, made_of = _ORDERED_WATTS[found["size"]], _MADE_OF[found["series"]]
    scan.say("power_w", watts)
    scan.say("construction", made_of)
    if found["series"].startswith("F"):
        scan.say("flameproof", value=True)
    means = {
        "series": (f"series {found['series']}, {made_of}", YAGEO),
        "size": (f"rated power {watts} W", YAGEO),
        "tol": say_tolerance(scan, found["tol"]),
        "pack": ("packing", YAGEO),
        "tcr": ("temperature coefficient, by the sheet", YAGEO),
        "lead": ("lead form", YAGEO),
        "value": (say_ohms(scan, value), IEC_60062),
    }
    return legend(scan, found, means)


CODES: tuple[Rule, ...] = (moulded, ordered)
"""Lines that take a whole code."""

SURE = re.compile(rf"\s{{0,9}}(?:{re.sub('[?]P<[a-z]+>', '?:', _ORDERED.pattern)})"
                  r"|\s{0,9}[BCEGH]B[1-9][0-9]{2}[125]\s{0,9}\Z")  # fmt: skip
"""Texts that begin with such a code."""
