"""Surge varistors: disc size and varistor voltage at 1 mA, or the maximum a.c. voltage.

Two number schemes look alike and mean different things: in ``14D471K`` and ``TVR14471`` the three
digits are the varistor voltage as a code (47 and one nought), in ``S14K275`` they are the highest
a.c. voltage in plain volts.
"""

from __future__ import annotations

import re
from typing import Any

from inventory.markings.amounts import (
    GAPS,
    PRACTICE,
    SI,
    Phrase,
    approvals,
    phrases,
    plain_number,
    review,
)
from inventory.markings.mov_codes import CODE, SIZES, bare, disc, mains_la, ordered, siov
from inventory.markings.scanner import Rule, Scanner
from inventory.markings.writing import faithful, write
from inventory.records import Reading

_LIMIT = re.compile(
    r"(?P<n>[0-9]{2,4})\s?V\s?(?P<kind>AC|DC|~|rms|RMS|⎓)(?![A-Za-z])"
    r"|(?:AC|~)\s?(?P<ac>[0-9]{2,4})\s?V(?![A-Za-z])"
)
_PLAIN = re.compile(r"(?P<n>[0-9]{2,4})\s?V(?![A-Za-z0-9])")


def _limit(scan: Scanner) -> bool:
    """Limit = figure "V" ("AC" | "DC"): the highest continuous voltage."""
    found = scan.take(_LIMIT, lambda m: f"highest continuous voltage {m['n'] or m['ac']} V", SI)
    if found is None:
        return False
    direct = (found["kind"] or "") in ("DC", "⎓")
    scan.say("vdc_max" if direct else "vac_max", int(found["n"] or found["ac"]))
    return True


def _volts(scan: Scanner) -> bool:
    """Volts = figure "V": the varistor voltage, if it is the one the code says."""
    found = scan.peek(_PLAIN)
    if found is None:
        return False
    value = int(found["n"])
    scan.take(_PLAIN, f"varistor voltage {value} V", PRACTICE)
    if scan.ratings.get("v1ma_v", value) == value:
        scan.say("v1ma_v", value)
    else:
        review(scan, f"{value} V stands beside a code of {scan.ratings['v1ma_v']} V.")
    return True


_SURGE = re.compile(
    r"(?P<n>[0-9]{1,5}(?:\.[0-9])?)\s?(?P<k>k?)A(?:\s?\(?8/20\s?[uµ]s\)?)?(?![A-Za-z])"
)
_MM = re.compile(r"(?:ø|Ø|Φ)?\s?(?P<n>[0-9]{1,2})\s?mm(?![A-Za-z])")


def _surge(scan: Scanner) -> bool:
    """Surge = figure "k"? "A" "8/20 µs"?."""
    found = scan.take(_SURGE, lambda m: f"peak surge current {m['n']} {m['k']}A, 8/20 µs", SI)
    if found is None:
        return False
    scan.say("imax_a", plain_number(found["n"], "1000" if found["k"] else "1"))
    return True


def _millimetres(scan: Scanner) -> bool:
    """Diameter = figure "mm"."""
    found = scan.take(_MM, lambda m: f"disc diameter {int(m['n'])} mm", SI)
    if found is None:
        return False
    scan.say("diameter_mm", int(found["n"]))
    return True


_WORDS = phrases(
    Phrase(r"(?:metal[ -]oxide )?varistor|MOV|VDR|surge (?:absorber|suppressor)|ZNR",
           "it is a varistor"),
    Phrase(r"dis[ck]", "disc", {"shape": "disc"}),
    Phrase(r"radial", "radial leads"),
)  # fmt: skip
_LINES: tuple[Rule, ...] = (
    ordered, mains_la, disc, siov, bare, _limit, _volts, _surge, _millimetres, _WORDS, approvals,
    *GAPS,
)  # fmt: skip


def read(text: str) -> Reading:
    """Read the print of a surge varistor."""
    scan = Scanner(text)
    scan.sweep(_LINES)
    return scan.reading("mov")


_LIKELY = (
    (re.compile(r"varistor|\bMOV\b", re.IGNORECASE), 0.95),
    (re.compile(rf"(?:^|[\s-]){SIZES}D\s?{CODE}[JKLM]?J?(?:\s|$)", re.IGNORECASE), 0.95),
    (re.compile(rf"(?:^|\s)(?:B722[0-2][0-9][FQSTUX]|V[0-9]{{2,4}}LA[0-9]|ERZ\s?V{SIZES})"), 0.95),
    (
        re.compile(rf"(?:^|\s)(?:TVR|FNR|TNR|MYG|ZNR|CNR|JVR)[- ]?{SIZES}|(?:^|\s)S{SIZES}K[0-9]"),
        0.95,
    ),
    (re.compile(rf"(?:^|\s){CODE}[JKLM]D{SIZES}"), 0.9),
    (re.compile(r"^\s*(?:10|14|20|07|05)K-?[0-9]{3}\s*$"), 0.8),
)


def likely(text: str) -> float:
    """How strongly a text looks like a surge varistor, 0 to 1."""
    head = text[:400]
    return next((score for pattern, score in _LIKELY if pattern.search(head)), 0.0)


def _code_text(volts_said: int) -> str:
    """The three-digit code of a varistor voltage."""
    text = str(volts_said)
    return f"{text[:2]}{len(text) - 2}"


_ORDERS = {"FNR": "{s}-{d:02d}{t}{c}", "MYG": "{s}-{d:02d}{t}{c}", "GNR": "{s}-{d:02d}{t}{c}",
           "INR": "{s}-{d:02d}{t}{c}", "ZOV": "{s}-{d:02d}{t}{c}", "TNR": "{s} {d:02d}V{c}{t}",
           "ERZ": "{s}V{d:02d}D{c}{t}"}  # fmt: skip


def _type_text(said: dict[str, Any]) -> str:
    """Size, code and letters in the order of the series; nothing where one is missing."""
    if not {"v1ma_v", "diameter_mm"} <= said.keys():
        return ""
    shape = {"disc": "D", "square": "S"}.get(said.get("shape", ""), "")
    series, size = said.get("series", ""), said["diameter_mm"]
    code, letter = _code_text(said["v1ma_v"]), said.get("tolerance_letter", "")
    if shape:
        head = f"{series}-" if series else ""
        return f"{head}{size}{shape}{code}{letter}{'J' if 'high_surge' in said else ''}"
    if series:
        order = _ORDERS.get(series, "{s}{d:02d}{c}{t}")
        return order.format(s=series, d=size, c=code, t=letter)
    return f"{size}K{code}" if letter else f"varistor {size}mm {said['v1ma_v']}V"


def canonical(reading: Reading) -> str:
    """The marking written out again; reads back to the same ratings."""
    return faithful(reading, _written(reading), read)


def _written(reading: Reading) -> str:
    """Type, limits, surge and approvals."""
    said = dict(reading.ratings)
    body = _type_text(said)
    if not body and {"vac_max", "diameter_mm", "tolerance_letter"} <= said.keys():
        disc_letter = "S" if said.get("shape") == "disc" else ""
        body = f"{disc_letter}{said['diameter_mm']:02d}K{said.pop('vac_max')}"
    elif not body:
        body = write(said, ("v1ma_v", "{}V"), ("diameter_mm", "{}mm"), ("shape", {"disc": "disc"}))
    return f"{body} {_tail(said)}".strip()


def _tail(said: dict[str, Any]) -> str:
    """Limits, surge and approvals."""
    return write(
        said, ("vac_max", "{}VAC"), ("vdc_max", "{}VDC"), ("imax_a", "{}A"), ("approvals", "{}")
    )
