"""NTC thermistors: resistance at 25 °C, tolerance, B value, disc diameter.

``b_range`` is set only where the two temperatures of B are printed.
"""

from __future__ import annotations

import re
from decimal import Decimal

from inventory.markings.amounts import PRACTICE, written
from inventory.markings.bookkeeping import START
from inventory.markings.figures import (
    IEC_60062,
    OHM_LETTERS,
    digit_code,
    figure,
    ohms,
    on_series,
    tidy,
)
from inventory.markings.ntc_codes import VALUE, say_r25
from inventory.markings.ntc_codes_more import CODES
from inventory.markings.passive_marks import (
    ANY_CASE,
    COMMON,
    NUMBER,
    OHM,
    Meaning,
    amount,
    legend,
    legend_to_tolerance,
    percent,
    say_tolerance,
    temperature,
    tolerance,
    tolerance_letter,
    word,
)
from inventory.markings.scanner import Rule, Scanner
from inventory.markings.writing import faithful, write
from inventory.records import Reading

MF = "MF52 and MF58 type code: three digits, tolerance letter, F and B (scribd 540673889)"
INRUSH = "type code of power NTC: ohms, D, disc diameter (scribd 374540999)"

_MF = re.compile(
    r"(?P<code>[1-9][0-9]{2})(?P<tol>[DFGHJKM])?(?:(?:\s?(?P<f>F)|\s?-?(?P<b_word>B)=?)[\s-]?"
    r"(?P<b>[2-5][0-9]{3})|(?<=[DFGHJKM])(?P<bare_b>[2-5][0-9]{3}))(?P<kelvin>K)?(?![0-9A-Za-z])"
)


def coded(scan: Scanner) -> bool:
    """Code = digits multiplier tolerance? ("F" | "B")? kelvin, e.g. 103F3435."""
    found = scan.peek(_MF)
    if found is None:
        return False
    value = int(found["b"] or found["bare_b"])
    scan.say("b_k", value)
    means: dict[str, Meaning] = {
        "code": (say_r25(scan, digit_code(found["code"])), IEC_60062),
        "b": (f"B value {value} K", MF),
        "bare_b": (f"B value {value} K", MF),
        "b_word": ("B value follows", MF),
        "kelvin": ("kelvin", MF),
    }
    tolerance_at = "tol" if found["tol"] else "f"
    if found["tol"] or found["f"]:
        means[tolerance_at] = say_tolerance(scan, found[tolerance_at])
    return legend(scan, found, means)


_B_ONLY = re.compile(
    r"B\s?(?P<range>25\s?/\s?(?:50|75|80|85|100))?\s?(?:\(\s?K\s?\))?\s?[:=]?\s?(?P<b>[2-5][0-9]{3})"
    r"\s?(?P<kelvin>K)?(?![0-9A-Za-z])"
)


def b_value(scan: Scanner) -> bool:
    """B = "B" ("25/" degrees)? "="? kelvin "K"?"""
    found = scan.peek(_B_ONLY)
    if found is None:
        return False
    scan.say("b_k", int(found["b"]))
    if found["range"]:
        scan.say("b_range", found["range"].replace(" ", ""))
    means = {
        "range": ("temperatures of B, in °C", PRACTICE),
        "b": (f"B value {found['b']} K", PRACTICE),
        "kelvin": ("kelvin", PRACTICE),
    }
    return legend(scan, found, means)


_BARE_B = re.compile(r"(?P<b>[34][0-9]{3})\s?(?P<kelvin>K)?(?![0-9A-Za-z.,])")


def bare_b(scan: Scanner) -> bool:
    """B = kelvin behind a resistance, e.g. 10K 3950."""
    found = scan.peek(_BARE_B)
    if found is None or VALUE not in scan.ratings or "b_k" in scan.ratings:
        return False
    scan.say("b_k", int(found["b"]))
    return legend(scan, found, {"b": (f"B value {found['b']} K", PRACTICE)})


_INRUSH = re.compile(
    rf"(?P<ohm>{NUMBER}|[0-9]R[0-9])\s?(?P<d>D)\s?[-–]?\s?(?P<mm>[5-9]|1[0-9]|2[0-9]|3[0-5])"
    r"(?P<tail>[A-Z]{0,3})(?![0-9A-Za-z])",
    ANY_CASE,
)
_INRUSH_2 = re.compile(
    r"(?P<ohm>[0-9])D(?P<tenth>[0-9])\s?-\s?(?P<mm>[5-9]|1[0-9]|2[0-9]|3[0-5])(?![0-9A-Za-z])",
    ANY_CASE,
)


def inrush(scan: Scanner) -> bool:
    """Code = ohms "D" "-"? millimetres, e.g. 10D-13; 2D5-15 puts D for the point."""
    if found := scan.peek(_INRUSH_2):
        amount = Decimal(f"{found['ohm']}.{found['tenth']}")
        return _disc(scan, found, amount)
    found = scan.peek(_INRUSH)
    if found is None:
        return False
    return _disc(scan, found, Decimal(re.sub("[,Rr]", ".", found["ohm"])))


def _disc(scan: Scanner, found: re.Match[str], amount: Decimal) -> bool:
    """Value and diameter of an inrush limiter."""
    scan.say("diameter_mm", int(found["mm"]))
    scan.say("inrush_ohm", tidy(amount))
    means = {
        "ohm": (say_r25(scan, amount), INRUSH),
        "mm": (f"disc of {found['mm']} mm", INRUSH),
    }
    more = {
        "tenth": (f"{amount} Ω, D for the point", INRUSH),
        "d": ("disc", INRUSH),
        "tail": ("maker's ending", PRACTICE),
    }
    return legend(scan, found, means | {n: m for n, m in more.items() if n in found.groupdict()})


_PLAIN = re.compile(
    rf"(?P<number>{NUMBER})\s?(?:(?P<prefix>[kKM])\s?(?P<unit>{OHM})?(?![0-9A-Za-z])|(?P<ohm>{OHM}))"
    r"|(?P<letter>[0-9]{1,3}[RkKM][0-9]{1,2}|[0-9]{1,3}R)(?![0-9A-Za-z])"
)


def plain(scan: Scanner) -> bool:
    """Value = number "k"? "Ω" | letter code."""
    found = scan.peek(_PLAIN)
    if found is None or VALUE in scan.ratings:
        return False
    if found["letter"]:
        letter_at = next(c for c in found["letter"] if not c.isdigit())
        text, power = found["letter"].replace(letter_at, "."), OHM_LETTERS[letter_at]
    else:
        text, power = found["number"], OHM_LETTERS[found["prefix"] or "R"]
    amount = Decimal(str(figure(text.rstrip("."), power)))
    bare = bool(found["prefix"]) and not found["unit"] and len(found["number"]) == 3
    if bare and found["number"].isdigit() and not on_series(amount, figures=2):
        return False  # 103K is 10 kΩ ±10 %: 103 kΩ is no preferred value
    meaning = (say_r25(scan, amount), IEC_60062 if found["letter"] else PRACTICE)
    return legend(scan, found, {"number": meaning, "letter": meaning})


_SPAN = re.compile(
    rf"(?P<low>{NUMBER})\s?[kKM]?\s?(?:{OHM})?\s?(?:-|~|…|to)\s?(?P<high>{NUMBER})\s?(?P<prefix>[kKM])?"
    rf"\s?(?P<unit>{OHM})?(?![0-9A-Za-z])"
)


def span(scan: Scanner) -> bool:
    """Range = number "-" number "k" "Ω"?: what a good one may measure, not its value."""
    found = scan.peek(_SPAN)
    if found is None or not (found["prefix"] or found["unit"]):
        return False
    power = OHM_LETTERS[found["prefix"] or "R"]
    low, high = (Decimal(str(figure(found[side], power))) for side in ("low", "high"))
    if low >= high:
        return False
    scan.say("range_ohm", [tidy(low), tidy(high)])
    scan.warn("A range is what a good one may measure; the value at 25 °C is not said.")
    means = f"measures {ohms(low)} to {ohms(high)}"
    return legend(scan, found, {"low": (means, PRACTICE), "high": (means, PRACTICE)})


_DIGITS = re.compile(
    r"(?P<code>0[1-9][0-9]{2}|[1-9][0-9]{2})(?P<tol>[DFGHJKM])?(?![0-9A-Za-z.,%°])"
)


def digits(scan: Scanner) -> bool:
    """Code = "0"? digits multiplier tolerance?, e.g. 0103."""
    found = scan.peek(_DIGITS)
    if found is None or VALUE in scan.ratings:
        return False
    means = {"code": (say_r25(scan, digit_code(found["code"])), IEC_60062)}
    return legend_to_tolerance(scan, found, means)


def letter(scan: Scanner) -> bool:
    """Tolerance = a letter alone behind the value."""
    return tolerance_letter(scan, after=(VALUE,))


_SERIES = re.compile(r"(?P<series>MF(?:11|5[1-9]|7[2-4])[A-Z]?[0-9]?)(?=[\s-]|$)")
_AT_25 = re.compile(r"R\s?25\s?=?|@?\s?25\s?(?:°\s?C|℃)\s?[=:]?|R\s?=", ANY_CASE)


def series(scan: Scanner) -> bool:
    """Series = "MF" number letters?"""
    found = scan.peek(_SERIES)
    if found is None:
        return False
    scan.say("series", found["series"])
    return legend(scan, found, {"series": ("series of NTC thermistors", MF)})


def at_25(scan: Scanner) -> bool:
    """Words = "R25" | "25 °C": the temperature of the value."""
    return scan.take(_AT_25, "the value is that at 25 °C", PRACTICE) is not None


RULES: tuple[Rule, ...] = (
    *START,
    *CODES,
    series,
    coded,
    b_value,
    inrush,
    at_25,
    span,
    plain,
    bare_b,
    amount("A", "imax_a", "carries"),
    temperature,
    tolerance,
    digits,
    letter,
    word("NTC|thermistors?|sensor", "falls in resistance as it warms", PRACTICE),
    *COMMON,
)


def read(text: str) -> Reading:
    """Read what is printed on an NTC thermistor."""
    scan = Scanner(text)
    scan.sweep(RULES)
    return scan.reading("ntc")


_SURE = re.compile(
    r"\bNTC|thermistor|\bB\s?25\s?/|\bR\s?25\s?=|\bMF(?:11|5[1-9]|7[2-4])|\bN[DEV]?0[369][F-U]0|\bNB\s?(?:12|20|21)\s?[F-U]|\bTTC0[35][0-9]{3}|\bSCK[0-3][0-9]|\bNF\s?[012][0-9]\s?AA|\bB57[0-9]{3}[SKM]|[0-9]AT-[0-9]"
    r"|(?<![0-9A-Za-z])[1-9][0-9]{2}[DFGHJK]?[FB]?[34][0-9]{3}(?![0-9A-Za-z])",
    ANY_CASE,
)
_VALUE_AND_B = re.compile(
    r"[0-9]\s?[kK]\s?(?:Ω|ohm)?\s?[A-Z%±0-9]{0,4}\s(?:B\s?)?[34][0-9]{3}(?![0-9])"
)
_AT_ROOM = re.compile(
    r"[0-9]\s?[kKM]?\s?(?:Ω|[oO]hms?|OHMS?)\s{0,2}(?:@|at|bei|à|a)?\s?25\s?(?:°\s?C|℃)"
)
_DISC = re.compile(
    r"\s*(?:MF72[ -]?)?[0-9]{1,3}(?:[.,][0-9])?D-?(?:[5-9]|1[0-9]|2[05])\s*", ANY_CASE
)


def likely(text: str) -> float:
    """How strongly a text looks like this family, 0 to 1."""
    if _SURE.search(text):
        return 0.9
    if _DISC.fullmatch(text):
        return 0.8
    if _VALUE_AND_B.search(text) or _AT_ROOM.search(text):
        return 0.6
    return 0.15 if _DIGITS.fullmatch(text.strip()) else 0.0


def canonical(reading: Reading) -> str:
    """Value, tolerance, B and diameter in their plainest form."""
    return faithful(reading, _written(reading), read)


def _written(reading: Reading) -> str:
    """The ratings written out."""
    said = dict(reading.ratings)
    if "diameter_mm" in said and VALUE in said:
        said["disc"] = f"{written(said.pop(VALUE))}D-{said['diameter_mm']}"
    return write(
        {"word": "NTC", **said},
        ("word", "{}"),
        ("disc", "{}"),
        (VALUE, ohms),
        ("tolerance_pct", percent),
        ("b_k", f"B{said.get('b_range', '')}={{}}K"),
        ("imax_a", "{} A"),
    )
