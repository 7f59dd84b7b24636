"""Capacitance as it is printed: with its unit, with the letter code, in digits, or bare.

Shared by the grammars of film, electrolytic and interference capacitors.
"""

from __future__ import annotations

import re
from decimal import Decimal

from inventory.markings.amounts import PRACTICE
from inventory.markings.figures import (
    FARAD_LETTERS,
    IEC_60062,
    digit_code,
    farads,
    figure,
    tidy,
    with_letter,
)
from inventory.markings.passive_marks import (
    NUMBER,
    Meaning,
    legend,
    say_tolerance,
    tolerance_letter,
)
from inventory.markings.scanner import Scanner

VALUE = ("capacitance_pf", "value")
"""Ratings behind which a lone letter is a tolerance."""

BARE_V = "Nichicon, plastic film capacitors: a figure without AC is the d.c. rating"
"""Source for a bare voltage being d.c."""

_DECIMAL_UF = "china-jinpei.com and shenmaoec.net: a bare decimal is µF"
_ON_DISC = "pedalprojects.co.uk and fdotstokes.com read R as pF and as µF"


# fmt: off
_MANTISSA = {
    "A": "1", "Q": "1.1", "B": "1.25", "T": "1.5", "C": "1.6", "Z": "1.8", "D": "2", "P": "2.2",
    "E": "2.5", "F": "3.15", "V": "3.5", "G": "4", "W": "4.5", "H": "5", "J": "6.3", "K": "8",
}
# fmt: on
EIA_VOLTS = "EIA voltage code as tabled at oriedza.blogspot.com/2014_04_17_archive.html"


def code_volts(code: str) -> int | float | None:
    """Volts of a two-character voltage code: exponent, then mantissa.

    >>> code_volts("2A"), code_volts("2J"), code_volts("0J")
    (100, 630, 6.3)
    """
    mantissa = _MANTISSA.get(code[1])
    return None if mantissa is None else figure(mantissa, int(code[0]))


def say_farads(scan: Scanner, picofarad: Decimal) -> str:
    """Set the capacitance, in both units, and hand back how it is spoken."""
    scan.say("capacitance_pf", tidy(picofarad))
    scan.say("capacitance_uf", tidy(picofarad.scaleb(-6)))
    return f"capacitance {farads(picofarad)}"


def with_tolerance(scan: Scanner, found: re.Match[str], means: dict[str, Meaning]) -> bool:
    """The legend of a code that may end in a tolerance letter."""
    for name in {"tol", "close"} & found.groupdict().keys():
        if found[name]:
            means[name] = farad_tolerance(scan, found[name])
    return legend(scan, found, means)


SMALL_PF = {"B": 0.1, "C": 0.25, "D": 0.5, "F": 1, "G": 2}
"""Tolerance in picofarad where the value is below 10 pF. Source: IEC 60062:2016, table 8."""

_L_OF_CERAMICS = "electronics360.globalspec.com/article/19056, ceramic capacitors: L is 15 %"


def farad_tolerance(scan: Scanner, letter: str) -> Meaning:
    """Set what a letter says on a capacitor: below 10 pF it is picofarad and not per cent."""
    if letter == "L":
        scan.say("tolerance_pct", 15)
        return "tolerance ±15 %", _L_OF_CERAMICS
    if letter in SMALL_PF and scan.ratings.get("capacitance_pf", 10) < 10:
        scan.say("tolerance_pf", SMALL_PF[letter])
        return f"tolerance ±{SMALL_PF[letter]} pF", IEC_60062
    return say_tolerance(scan, letter)


_UNIT = re.compile(
    r"(?P<number>[0-9]{0,6}[.,][0-9]{1,4}|[0-9]{1,6})\s{0,2}"
    r"(?:(?P<micro>[µu]\s?[Ff]?d?|U\s?F|MFD|mfd|Mfd)|(?P<nano>[nN][Ff])|(?P<pico>[pP][Ff]|MMFD?|mmfd?))"
    r"(?:\s?(?P<tol>[FGHJKMZ])|(?<=[pP][fF])\s?(?P<close>[BCD]))?(?![A-Za-z])"
)
_MICRO_WORDS = "uF, UF, MFD: microfarad"


def with_unit(scan: Scanner) -> bool:
    """Value = number ("µF" | "uF" | "MFD" | "nF" | "pF" | "MMF") tolerance?"""
    found = scan.peek(_UNIT)
    if found is None:
        return False
    power = 6 if found["micro"] else 3 if found["nano"] else 0
    unit = "micro" if found["micro"] else "nano" if found["nano"] else "pico"
    amount = Decimal(str(figure(found["number"], power)))
    means = {
        "number": (say_farads(scan, amount), PRACTICE),
        unit: (f"{unit}farad", _MICRO_WORDS if found["micro"] else PRACTICE),
    }
    return with_tolerance(scan, found, means)


_MILLI = re.compile(rf"(?P<number>{NUMBER}|[.,][0-9]{{1,4}})\s{{0,2}}(?P<unit>[mM]F)(?![A-Za-z])")
_LOST_MICRO = "printed mF where µF was meant: the micro sign is often lost, factor 1000"


def milli(scan: Scanner) -> bool:
    """Damaged = number "mF": either microfarad with its µ lost, or true millifarad."""
    found = scan.peek(_MILLI)
    if found is None:
        return False
    _offer_micro(scan, found.start("unit"), found["number"], f"{found['number']} µF")
    means = "a capacitance whose unit is not certain"
    return legend(scan, found, {"number": (means, PRACTICE), "unit": (_LOST_MICRO, PRACTICE)})


def _offer_micro(scan: Scanner, unit_at: int, number: str, spoken: str) -> None:
    """Propose the micro reading and keep the printed one beside it."""
    pico = figure(number, 6)
    repaired = f"{scan.text[:unit_at]}µ{scan.text[unit_at + 1 :]}"
    scan.propose(repaired, _LOST_MICRO, capacitance_pf=pico)
    scan.propose(scan.text, "as printed, millifarad", capacitance_pf=figure(number, 9))
    scan.warn(f"mF is printed; {spoken} is likely, a thousand times less. Measure it.")


_LETTERED = re.compile(
    r"(?P<code>[0-9]{1,4}[.,][0-9]{1,4}[pnuµU](?![0-9Ff])|[0-9]{0,4}[pnuµUmF][0-9]{1,4}|[0-9]{1,4}[pnuµU])\s?(?P<tol>[BCDGHJKMZ])?(?![A-Za-z])"
)


def lettered(scan: Scanner) -> bool:
    """Value = digits* ("p" | "n" | "µ" | "m") digits* tolerance?: the letter is the point."""
    found = scan.peek(_LETTERED)
    value = with_letter(found["code"], FARAD_LETTERS) if found else None
    if found is None or value is None:
        return False
    if "m" in found["code"]:
        at = found.start() + found["code"].index("m")
        _offer_micro(scan, at, found["code"].replace("m", "."), found["code"].replace("m", "µ"))
        means = {"code": ("a value with m for the point, milli or micro", IEC_60062)}
        return with_tolerance(scan, found, means)
    return with_tolerance(scan, found, {"code": (say_farads(scan, value), IEC_60062)})


_R_POINT = re.compile(
    r"(?P<code>[0-9]{1,3}R[0-9]{0,3}|R[0-9]{1,3})\s?(?P<tol>[BCDFGJKM])?(?![A-Za-z0-9])"
)


def r_point(scan: Scanner) -> bool:
    """Value = digits "R" digits: R is the decimal point, of µF on an electrolytic, else of pF."""
    found = scan.peek(_R_POINT)
    if found is None:
        return False
    value = Decimal(f"0{found['code'].replace('R', '.')}")
    scan.say("value", tidy(value))
    scan.say("r_is_decimal_point", value=True)
    here, there = scan.text[: found.start()], scan.text[found.end("code") :]
    for unit, power in (("µF", 6), ("pF", 0)):
        body = "an aluminium electrolytic" if power else "a ceramic disc"
        scan.propose(
            f"{here}{tidy(value)} {unit}{there}",
            f"on {body} R is the point of {unit}",
            capacitance_pf=tidy(value.scaleb(power)),
        )
    scan.warn(f"R is the decimal point: {tidy(value)} µF or pF, the body decides.")
    return with_tolerance(scan, found, {"code": (f"{tidy(value)}, R is the point", _ON_DISC)})


_DIGITS = re.compile(
    r"(?<![:][ ])(?<!:)(?<![0-9][/+])(?P<code>[1-9][0-9][0-9])\s?(?P<tol>[BCDFGHJKLMNZ])?"
    r"(?:(?<=[A-Z])(?=[0-9]{2,4}(?:V|AC))|(?![A-Za-z°℃%]|[.,]?[0-9]|\s?[V°℃%]))"
)


def digits(scan: Scanner) -> bool:
    """Code = two digits, multiplier, tolerance?; in picofarad."""
    found = scan.peek(_DIGITS)
    if found is None or "capacitance_pf" in scan.ratings:
        return False
    value = digit_code(found["code"])
    if found["code"].endswith("0"):
        scan.warn(f"{found['code']} is {farads(value)} by the code; some print plain picofarad.")
        scan.propose(f"{found['code']} pF", "plain picofarad", capacitance_pf=int(found["code"]))
    return with_tolerance(scan, found, {"code": (say_farads(scan, value), IEC_60062)})


_DECIMAL = re.compile(
    r"(?P<number>[0-9]{0,3}[.,][0-9]{1,4})(?:\s?(?P<tol>[JKMZ])(?P<bare>[0-9]{2,4})?)?(?![A-Za-z%]|\s?[V%°])"
)


def decimal(scan: Scanner) -> bool:
    """Bare = number with a point, no unit: µF below one, else µF or pF, tolerance? volts?"""
    found = scan.peek(_DECIMAL)
    if found is None or "capacitance_pf" in scan.ratings:
        return False
    micro = Decimal(str(figure(f"0{found['number']}"))).scaleb(6)
    if micro >= 10**6:
        return _two_units(scan, found, tidy(micro))
    scan.warn(f"No unit is printed; {found['number']} is read as microfarad.")
    means = {"number": (say_farads(scan, micro), _DECIMAL_UF)}
    if found["bare"]:
        scan.say("voltage_vdc", int(found["bare"]))
        means["bare"] = (f"{found['bare']} V d.c.", BARE_V)
    return with_tolerance(scan, found, means)


def _two_units(scan: Scanner, found: re.Match[str], micro: float) -> bool:
    """A bare decimal of one or more: both units are offered, neither is set."""
    number = found["number"]
    scan.propose(f"{number} µF", f"a bare decimal is µF by {_DECIMAL_UF}", capacitance_pf=micro)
    scan.propose(f"{number} pF", "a ceramic may mean pF", capacitance_pf=figure(number))
    scan.warn(f"No unit is printed: {number} µF or {number} pF. Measure it.")
    return with_tolerance(scan, found, {"number": ("a value without its unit", _DECIMAL_UF)})


_CLOSE = re.compile(r"(?P<letter>[BCD])(?![0-9A-Za-z.])")
_CLOSE_PF = 10_000


def letter(scan: Scanner) -> bool:
    """Tolerance = a letter alone behind the value.

    On ten nanofarads and more a lone B, C or D is a class of duty or of flame, not a tolerance.
    """
    found = scan.peek(_CLOSE)
    if found is None:
        return tolerance_letter(scan, after=VALUE)
    said = scan.ratings
    if said.get("capacitance_pf", _CLOSE_PF) >= _CLOSE_PF or "tolerance_pct" in said:
        return False
    return legend(scan, found, {"letter": farad_tolerance(scan, found["letter"])})


VALUE_LINES = (lettered, with_unit, milli, r_point)
"""Values that say their unit, or say that they do not."""
