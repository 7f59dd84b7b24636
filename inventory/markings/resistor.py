"""Resistors: colour bands, letter code, digits, plain ohms, watts, tolerance, role.

``resistance_ohm`` and ``power_w`` are plain numbers; ``role`` is a word printed beside the part
in a circuit or parts list.
"""

from __future__ import annotations

import re
from decimal import Decimal

from inventory.markings.amounts import PRACTICE
from inventory.markings.bookkeeping import START
from inventory.markings.colour_bands import bands
from inventory.markings.figures import (
    E192,
    IEC_60062,
    OHM_LETTERS,
    digit_code,
    figure,
    ohms,
    on_series,
    tidy,
    with_letter,
)
from inventory.markings.fold import fold
from inventory.markings.passive_marks import (
    ANY_CASE,
    COMMON,
    NUMBER,
    OHM,
    legend,
    legend_to_tolerance,
    percent,
    temperature,
    tolerance,
    tolerance_letter,
    volts,
    word,
)
from inventory.markings.resistor_codes import CODES, SURE, VALUE, say_ohms
from inventory.markings.scanner import Rule, Scanner
from inventory.markings.writing import faithful, write
from inventory.records import Reading

_LETTERED = re.compile(
    rf"(?P<code>[0-9]{{1,4}}[.,][0-9]{{1,3}}[RKkMG]|[0-9]{{1,4}}[RKkMLEG][0-9]{{0,3}}|[RKML][0-9]{{1,4}})\s?(?P<unit>{OHM})?"
    r"(?P<tol>[BCDFGJKM])?(?![0-9A-Za-z])"
)


def lettered(scan: Scanner) -> bool:
    """Value = digits* ("R" | "K" | "M" | ...) digits* "Ω"? tolerance?: the letter is the point.

    With a point of its own, 4.7k, the letter is the prefix alone.
    """
    found = scan.peek(_LETTERED)
    value = with_letter(found["code"], OHM_LETTERS) if found else None
    if found is None or value is None:
        return False
    source = "makers' habit, E for ohm" if "E" in found["code"] else IEC_60062
    means = {"code": (say_ohms(scan, value), source), "unit": ("ohm", PRACTICE)}
    return legend_to_tolerance(scan, found, means)


_WITH_UNIT = re.compile(
    rf"(?P<number>{NUMBER}|[.,][0-9]{{1,4}})\s{{0,2}}(?P<prefix>[kKMGm])?\s?(?P<unit>{OHM})"
    r"\s?(?P<tol>[BCDFGJKM](?![0-9A-Za-z]))?"
)


def with_unit(scan: Scanner) -> bool:
    """Value = number ("k" | "M" | "m")? "Ω" tolerance?"""
    found = scan.peek(_WITH_UNIT)
    if found is None:
        return False
    power = OHM_LETTERS.get(found["prefix"] or "R", 0)
    amount = Decimal(str(figure(found["number"], power)))
    means = {
        "number": (say_ohms(scan, amount), PRACTICE),
        "prefix": (f"times {tidy(Decimal(1).scaleb(power))}", "SI brochure, table 7"),
        "unit": ("ohm", PRACTICE),
    }
    return legend_to_tolerance(scan, found, means)


_POWER = re.compile(
    rf"(?P<number>1/[23468]|{NUMBER}|[.,][0-9]{{1,3}})\s{{0,2}}(?P<unit>W(?:atts?)?)(?![A-QS-Za-z])"
)


def power(scan: Scanner) -> bool:
    """Power = (number | "1/" digit) "W"."""
    found = scan.peek(_POWER)
    if found is None or re.fullmatch(r"\sW[0-9]", scan.view[found.end() - 2 : found.end() + 1]):
        return False  # the W of a week of manufacture stands apart from the figure before it
    watts = _watts(found["number"])
    if "power_w" in scan.ratings and VALUE not in scan.ratings:
        _omega_as_w(scan, found)
    scan.say("power_w", watts)
    means = {"number": (f"rated power {watts} W", PRACTICE), "unit": ("watt", PRACTICE)}
    return legend(scan, found, means)


def _watts(text: str) -> int | float:
    """A printed power; a fraction is a fraction.

    >>> _watts("1/4"), _watts("0,5")
    (0.25, 0.5)
    """
    top, _, bottom = text.partition("/")
    return figure(top) if not bottom else tidy(round(Decimal(top) / Decimal(bottom), 4))


def _omega_as_w(scan: Scanner, found: re.Match[str]) -> None:
    """Two figures in W and none in ohm: one W may be a misread Ω."""
    at = found.start("unit")
    repaired = f"{scan.text[:at]}Ω{scan.text[found.end('unit') :]}"
    amount = _watts(found["number"])
    scan.propose(repaired, "omega is often read as W", **{VALUE: amount})
    scan.warn("Two figures in W and none in Ω: one of them may be ohms. Measure it.")


_DIGITS = re.compile(
    r"(?P<code>[1-9][0-9]{2,3}|0{1,3}[0-9]{3}|0(?=\s*$))(?P<tol>[FGJK])?(?![0-9A-Za-z.,%°]|\s?[°%/]|\s[0-9]{3}\s[0-9]{4})"
)


def digits(scan: Scanner) -> bool:
    """Code = two or three digits, number of zeros, tolerance?"""
    found = scan.peek(_DIGITS)
    if found is None or VALUE in scan.ratings:
        return False
    value = digit_code(found["code"]) if len(found["code"]) > 1 else Decimal(0)
    return legend_to_tolerance(scan, found, {"code": (say_ohms(scan, value), IEC_60062)})


_EIA_96 = re.compile(r"(?P<place>0[1-9]|[1-8][0-9]|9[0-6])(?P<power>[ZYXSABHCDEF])(?![0-9A-Za-z])")
_EIA_POWERS = {"Z": -3, "Y": -2, "X": -1, "S": -1, "A": 0, "B": 1, "H": 1, "C": 2, "D": 3}
_EIA_POWERS |= {"E": 4, "F": 5}


def small_print(scan: Scanner) -> bool:
    """Code = place in the E96 series, letter of the multiplier, e.g. 01C; 1 %, all alone."""
    found = scan.peek(_EIA_96)
    if found is None or found[0] != scan.view.strip():
        return False
    figures = E192[2 * (int(found["place"]) - 1)]
    amount = Decimal(figures).scaleb(_EIA_POWERS[found["power"]])
    if found["power"] == "E" and on_series(int(found["place"]), figures=2):
        small = f"{ohms(amount)} where it is a chip with a three-character code"
        scan.propose(small, "E may count noughts", **{VALUE: tidy(amount)})
        return False
    source = "IEC 60062:2016, three-character code for E96"
    scan.assume("tolerance_pct", 1, source)
    means = {
        "place": (f"figures {figures}; {say_ohms(scan, amount)}", source),
        "power": (f"times 10^{_EIA_POWERS[found['power']]}", source),
    }
    return legend(scan, found, means)


_TCR = re.compile(r"±?\s?(?P<ppm>[0-9]{1,4})\s?ppm(?:\s?/\s?(?:°\s?C|℃|K))?(?![A-Za-z])", ANY_CASE)


def tcr(scan: Scanner) -> bool:
    """Coefficient = number "ppm/°C"."""
    found = scan.peek(_TCR)
    if found is None:
        return False
    scan.say("tcr_ppm", int(found["ppm"]))
    return scan.take(_TCR, f"changes by {found['ppm']} ppm a degree", PRACTICE) is not None


def letter(scan: Scanner) -> bool:
    """Tolerance = a letter alone behind the value."""
    return tolerance_letter(scan, after=(VALUE,))


ROLES = (
    word("monitor(?:ing)?", "place of the part", PRACTICE, role="monitor"),
    word("bleed(?:er)?|discharge", "place of the part", PRACTICE, role="bleeder"),
    word("in-?rush|surge(?:[ -]limit(?:ing|er))?", "place of the part", PRACTICE, role="inrush"),
    word("current[ -]sens(?:e|ing)|shunt", "place of the part", PRACTICE, role="current sense"),
    word("dropp(?:ing|er)", "place of the part", PRACTICE, role="dropper"),
    word("snubber", "place of the part", PRACTICE, role="snubber"),
)
"""Words a parts list puts beside a resistor."""

KINDS = (
    word("wire-?wound|KNP|SQP|SQM", "wire-wound", PRACTICE, construction="wirewound"),
    word("metal[ -]film|MFR", "metal film", PRACTICE, construction="metal film"),
    word("metal[ -]oxide|MOR|RSS", "metal oxide", PRACTICE, construction="metal oxide"),
    word("carbon[ -]film|CFR", "carbon film", PRACTICE, construction="carbon film"),
    word("cement|ceramic", "in a ceramic case", PRACTICE),
    word("flame-?proof|flame[ -]retardant", "does not flame", PRACTICE, flameproof=True),
    word("resistors?|résistance|widerstand|R", "the word for the part", PRACTICE),
)
"""Words for what it is made of."""

VALUE_LINES: tuple[Rule, ...] = (bands, *CODES, lettered, with_unit)
"""Lines that give a resistance."""

RULES: tuple[Rule, ...] = (
    *START,
    small_print,
    *VALUE_LINES,
    power,
    tcr,
    temperature,
    volts("voltage_v"),
    tolerance,
    digits,
    letter,
    *ROLES,
    *KINDS,
    word("fus(?:e|i)ble|fusing", "opens like a fuse when overloaded", PRACTICE, fusible=True),
    *COMMON,
)


def read(text: str) -> Reading:
    """Read what is printed or painted on a resistor."""
    scan = Scanner(text)
    scan.sweep(RULES)
    return scan.reading("resistor")


_SURE = re.compile(
    r"[0-9]\s?[kKMm]?\s?(?:Ω|ohms?(?![a-z]))|[0-9]\s?W\s?[0-9]{0,4}R[0-9]{0,3}[JKFG]?(?![A-Za-z])|resistor",
    ANY_CASE,
)
_CODE = re.compile(r"\s*(?:[0-9]{1,3}[RKkM][0-9]{0,2}|R[0-9]{2,3})[FGJKM]?\s*")
_COLOURS = re.compile(
    r"(?:(?:black|brown|red|orange|yellow|green|blue|violet|purple|gr[ea]y|white|gold|silver|pink)"
    r"[\s,/-]{0,3}){3,6}",
    ANY_CASE,
)


def likely(text: str) -> float:
    """How strongly a text looks like this family, 0 to 1."""
    if _COLOURS.search(fold(text)):
        return 0.95
    if _SURE.search(text):
        return 0.8
    if SURE.match(text):
        return 0.9
    if _CODE.fullmatch(text):
        return 0.6
    if _EIA_96.fullmatch(text.strip()):
        return 0.25
    return 0.3 if _DIGITS.fullmatch(text.strip()) else 0.0


def canonical(reading: Reading) -> str:
    """Value, tolerance, power and the words in their plainest form."""
    return faithful(reading, written(reading), read)


def written(reading: Reading) -> str:
    """The ratings written out."""
    return write(
        reading.ratings,
        (VALUE, ohms),
        ("tolerance_pct", percent),
        ("tcr_ppm", "{} ppm"),
        ("power_w", "{} W"),
        ("fusible", {True: "fusible"}),
        ("flameproof", {True: "flameproof"}),
        ("construction", "{}"),
        ("role", "{}"),
    )
