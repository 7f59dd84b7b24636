"""More ordering codes of NTC thermistors: sensors TTC, inrush limiters SCK and NF."""

from __future__ import annotations

import re
from decimal import Decimal

from inventory.markings.figures import digit_code, figure, tidy
from inventory.markings.ntc_codes import avx, epcos, say_r25, semitec, vishay
from inventory.markings.passive_marks import Meaning, legend
from inventory.markings.scanner import Rule, Scanner

TTC = "Thinking, TTC05 series, part number code (dtsheet 654579)"
SCK = "Thinking, SCK series, part number code (docobook, NTC thermistor catalogue)"
NF = "AVX, inrush limiters NF08 to NF20, how to order (dtsheet 1397306)"

_PCT = {"F": 1, "G": 2, "H": 3, "J": 5, "K": 10, "L": 15, "M": 20, "N": 25}
"""Tolerance letters of these makers: L and N are theirs, not the standard's."""


def _tolerance(scan: Scanner, letter: str, source: str) -> Meaning:
    """Set what a maker's tolerance letter says."""
    scan.say("tolerance_pct", _PCT[letter])
    return f"tolerance ±{_PCT[letter]} %", source


def _limiter(scan: Scanner, body: str, amount: Decimal) -> str:
    """Set body and cold resistance of an inrush limiter."""
    scan.say("diameter_mm", int(body))
    scan.say("inrush_ohm", tidy(amount))
    return say_r25(scan, amount)


_TTC = re.compile(
    r"(?P<series>TTC)(?P<body>0[35])(?P<value>[0-9]{3})(?P<tol>[FGHJKL])?(?P<tail>[A-Z0-9]{0,6})"
    r"(?![0-9A-Za-z])"
)


def ttc(scan: Scanner) -> bool:
    """Code = "TTC" body value tolerance? tail; below 100 ohm the value is plain: 050 is 50."""
    found = scan.peek(_TTC)
    if found is None:
        return False
    value = found["value"]
    amount = Decimal(int(value)) if value[0] == "0" else digit_code(value)
    scan.say("series", "TTC")
    scan.say("diameter_mm", int(found["body"]))
    means: dict[str, Meaning] = {
        "series": ("sensor thermistor", TTC),
        "body": (f"body of {int(found['body'])} mm", TTC),
        "value": (say_r25(scan, amount), TTC),
        "tail": ("leads and maker's number", TTC),
    }
    if found["tol"]:
        means["tol"] = _tolerance(scan, found["tol"], TTC)
    return legend(scan, found, means)


_SCK = re.compile(
    r"(?P<series>SCK)(?P<body>05|08|10|13|15)(?P<value>[0-9]R[0-9]|0[1-9]|[1-9][0-9]{1,2}?)"
    r"(?P<amps>X[1-9]|[1-9]X|1[0-6]|[1-9])(?P<tol>[LMN])(?P<tail>[SFTI][A-Z0-9]{0,5})?"
    r"(?![0-9A-Za-z])"
)
_SCK_LARGE = re.compile(
    r"(?P<series>SCK)(?P<body>20|25|30)(?P<value>[0-9]R[0-9]|[1-9][0-9]{2})(?P<tol>[LMN])"
    r"(?P<tail>[SFTI][A-Z0-9]{0,5})?(?![0-9A-Za-z])"
)


def _amps(code: str) -> int | float:
    """Steady current of its code.

    >>> _amps("8"), _amps("2X"), _amps("X3")
    (8, 2.5, 0.3)
    """
    if code.startswith("X"):
        return figure(f"0.{code[1]}")
    return figure(f"{code[0]}.5") if code.endswith("X") else int(code)


def sck(scan: Scanner) -> bool:
    """Code = "SCK" body plain-ohms amperes tolerance tail | "SCK" body digits tolerance tail.

    From 20 mm on no amperes are coded, and the ohms count noughts: 100 is 10 ohm.
    """
    small = scan.peek(_SCK)
    found = small or scan.peek(_SCK_LARGE)
    if found is None:
        return False
    value = found["value"]
    if "R" in value:
        amount = Decimal(value.replace("R", "."))
    else:
        amount = Decimal(int(value)) if small else digit_code(value)
    scan.say("series", "SCK")
    means: dict[str, Meaning] = {
        "series": ("inrush limiter", SCK),
        "body": (f"disc of {int(found['body'])} mm", SCK),
        "value": (_limiter(scan, found["body"], amount), SCK),
        "tol": _tolerance(scan, found["tol"], SCK),
        "tail": ("leads, packing and maker's letters", SCK),
    }
    if small:
        scan.say("imax_a", _amps(found["amps"]))
        means["amps"] = (f"carries {_amps(found['amps'])} A", SCK)
    return legend(scan, found, means)


_NF = re.compile(
    r"(?P<series>NF)\s?(?P<body>08|10|13|15|20)\s?(?P<own>AA)\s?(?P<fill>0)(?P<value>[0-9]{3})"
    r"\s?(?P<tol>[LM])(?P<tail>[A-Z0-9-]{0,4})(?![0-9A-Za-z])"
)


def nf(scan: Scanner) -> bool:
    """Code = "NF" body "AA" "0" value tolerance leads, e.g. NF13AA0509M."""
    found = scan.peek(_NF)
    if found is None:
        return False
    scan.say("series", "NF")
    means = {
        "series": ("inrush limiter", NF),
        "body": (f"disc of {int(found['body'])} mm", NF),
        "own": ("maker's letters", NF),
        "fill": ("fills the code", NF),
        "value": (_limiter(scan, found["body"], digit_code(found["value"])), NF),
        "tol": _tolerance(scan, found["tol"], NF),
        "tail": ("leads and packing", NF),
    }
    return legend(scan, found, means)


CODES: tuple[Rule, ...] = (avx, epcos, vishay, semitec, ttc, sck, nf)
"""Lines that take a maker's whole code."""
