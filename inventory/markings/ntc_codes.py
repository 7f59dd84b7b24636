"""Makers' ordering codes of NTC thermistors."""

from __future__ import annotations

import re
from decimal import Decimal

from inventory.markings.figures import IEC_60062, digit_code, ohms, tidy
from inventory.markings.passive_marks import Meaning, legend, legend_to_tolerance, say_tolerance
from inventory.markings.scanner import Scanner

VALUE = "r25_ohm"
"""The rating every value line sets."""

AVX = "AVX ND/NE/NV disc thermistors, how to order and tables of values"
EPCOS = "EPCOS, inrush current limiters B57235S to B57238S, data sheets 05/02 and 2015"
VISHAY = "Vishay NTCLE100E3 data sheet, as listed at novapart.co and icgoo.net"
AVX_B = {
    "F": 2800,
    "G": 3030,
    "H": 3160,
    "I": 3250,
    "J": 3480,
    "K": 3630,
    "L": 3790,
    "M": 3950,
    "N": 4080,
    "P": 4220,
    "Q": 4300,
    "R": 4400,
    "S": 4520,
    "T": 4630,
    "U": 4840,
}
"""B in kelvin of the material letter. Source: AVX NTC catalogue, tables ND03, ND06 and NB20."""


def say_r25(scan: Scanner, amount: Decimal) -> str:
    """Set the resistance at 25 °C and hand back how it is spoken."""
    scan.say(VALUE, tidy(amount))
    return f"{ohms(amount)} at 25 °C"


_AVX = re.compile(
    r"(?P<type>N[DEV]?\s?0[369]|NB\s?(?:12|20|21))\s?-?\s?\s?(?P<material>[F-NP-U])(?P<fill>\s?[05])?\s?(?P<value>0[0-9]{3})"
    r"\s?(?P<tol>[GHJKM](?![A-Z]{3}))?(?:\s?(?P<tail>[A-Z-]{1,3})(?=\s|$))?(?![0-9A-Za-z])"
)


def avx(scan: Scanner) -> bool:
    """Code = type material "0" value tolerance? packing?, e.g. ND03N00103J."""
    found = scan.peek(_AVX)
    if found is None:
        return False
    scan.say("series", found["type"].replace(" ", ""))
    means = {
        "type": ("disc thermistor and its size", AVX),
        "fill": ("fills the code", AVX),
        "material": _material(scan, found),
        "value": (say_r25(scan, digit_code(found["value"][1:])), AVX),
        "tail": ("packing", AVX),
    }
    return legend_to_tolerance(scan, found, means)


def _material(scan: Scanner, found: re.Match[str]) -> Meaning:
    """What the material letter says of B; of the chips only J stands in the table at hand."""
    letter = found["material"]
    if letter not in AVX_B or (found["type"].startswith("NB") and letter != "J"):
        return "material, its B is not in the table at hand", AVX
    scan.say("b_k", AVX_B[letter])
    return f"material of B {AVX_B[letter]} K", AVX


_EPCOS = re.compile(
    r"(?P<series>B57(?P<size>235|236|237|238|364|464)S)(?P<fill>0)"
    r"(?P<value>[0-9]{3})(?P<tol>[KLM])(?P<tail>[0-9]{0,4})(?![0-9A-Za-z])"
)


def epcos(scan: Scanner) -> bool:
    """Code = "B57" size letter "0" value tolerance packing, e.g. B57236S0509M000."""
    found = scan.peek(_EPCOS)
    if found is None:
        return False
    scan.say("series", f"B57{found['size']}")
    means = {
        "series": ("inrush current limiter", EPCOS),
        "fill": ("fills the code", EPCOS),
        "value": (say_r25(scan, digit_code(found["value"])), EPCOS),
        "tol": _epcos_tolerance(scan, found["tol"]),
        "tail": ("packing", EPCOS),
    }
    return legend(scan, found, means)


def _epcos_tolerance(scan: Scanner, letter: str) -> Meaning:
    """The maker's L is 15 %; the other letters are the standard's."""
    if letter != "L":
        return say_tolerance(scan, letter)
    scan.say("tolerance_pct", 15)
    return "tolerance ±15 %", "EPCOS, B57238S0259L002 data sheet"


_VISHAY = re.compile(
    r"(?P<series>NTCLE[0-9]{3}E[0-9])(?P<value>[0-9]{3})(?P<tol>[FGHJK]?)(?P<tail>[0-9A-Z]{0,4})"
    r"(?![0-9A-Za-z])"
)


def vishay(scan: Scanner) -> bool:
    """Code = "NTCLE" number "E" lead value tolerance tail, e.g. NTCLE100E3103JB0."""
    found = scan.peek(_VISHAY)
    if found is None:
        return False
    scan.say("series", found["series"][:8])
    means = {
        "series": ("series", VISHAY),
        "value": (say_r25(scan, digit_code(found["value"])), VISHAY),
        "tail": ("maker's ending", VISHAY),
    }
    return legend_to_tolerance(scan, found, means)


_AT = re.compile(r"(?P<value>[1-9][0-9]{2})(?P<series>AT)-?(?P<size>[0-9]{1,2})(?![0-9A-Za-z])")


def semitec(scan: Scanner) -> bool:
    """Code = value "AT-" size, e.g. 103AT-2."""
    found = scan.peek(_AT)
    if found is None:
        return False
    scan.say("series", f"AT-{found['size']}")
    means = {
        "value": (say_r25(scan, digit_code(found["value"])), IEC_60062),
        "series": ("series AT", "from memory"),
        "size": ("size", "from memory"),
    }
    return legend(scan, found, means)
