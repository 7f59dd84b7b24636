"""Number schemes of surge varistors, and which of their digits are a code or plain volts."""

from __future__ import annotations

import re

from inventory.markings.amounts import PRACTICE, review
from inventory.markings.scanner import Scanner

SHEET = "varistor sheet, pdf.elecfans.com 5166012: 14 mm disc, 47 x 10^1 V, K, J high surge"
TVR = "TVR series part number code, docobook.com: body size, V1mA code, K ±10 %"
FNR = "FNR how to order, scribd.com/document/615246926: 05 type, K tolerance, 180 volts code"
TNR = "listing of TNR 10V271K, tokopedia.com: 10 mm, 175 V a.c."
KD = f"{PRACTICE}, from memory"
SIOV = "SIOV-S type designation, dtsheet.com/doc/231890: S disc, 14 mm, K ±10 %, 130 = V a.c. max"
SIZES = r"(?:0?5|0?7|0?9|10|14|20|25|32|34|40|53)"
CODE = r"[1-9][0-9][0-4]"
_HEAD = r"(?:(?P<maker>[A-Z]{2,4})[- ]?)?"
_STOP = r"(?![A-Za-z0-9])"
_D = rf"(?P<d>{SIZES})"
_C = rf"(?P<code>{CODE})(?P<tol>[JKLM])?"
_SCHEMES = tuple(
    (re.compile(pattern + _STOP, re.IGNORECASE), source)
    for pattern, source in (
        (rf"(?P<maker>TNR|ERZ)[- ]?V?{_D}[VD]\s?{_C}", TNR),
        (rf"{_HEAD}{_D}(?P<shape>[DS])\s?{_C}(?P<surge>J)?", SHEET),
        (rf"(?P<maker>TVR|VDR|HVR|MVR|ZNR|CNR|JVR)[- ]?{_D}V?{_C}[A-Z]{{0,4}}", TVR),
        (rf"(?P<maker>FNR|MYG|GNR|INR|ZOV)[- ]?{_D}(?P<tol>K|M)-?(?P<code>{CODE})[A-Z]?", FNR),
        (rf"(?P<code>{CODE})(?P<tol>[JKLM])(?P<shape>D){_D}(?P<surge>J)?", KD),
    )
)
"""The makers' orders of size, shape, code and tolerance; the first that fits is taken."""

_SIOV = re.compile(
    rf"(?:SIOV-?\s?)?S(?P<d>{SIZES})K(?P<vac>[1-9][0-9]{{1,3}})(?P<tail>[A-Z][A-Z0-9]{{0,6}})?{_STOP}"
)


def code_volts(code: str) -> int:
    """Varistor voltage of a three-digit code: two figures and the number of noughts.

    >>> code_volts("471"), code_volts("180"), code_volts("102")
    (470, 18, 1000)
    """
    return int(code[:2] + "0" * int(code[2]))


def disc(scan: Scanner) -> bool:
    """Varistor = maker-letters? size ("D" | "S")? code tolerance? "J"?, in the maker's order."""
    for pattern, source in _SCHEMES:
        found = scan.peek(pattern)
        if found:
            _say_disc(scan, found, source)
            return True
    return False


_TOLERANCE = {"J": "±5 %", "K": "±10 %", "L": "±15 %", "M": "±20 %"}
"""Tolerance letters. Source: IEC 60062 and the varistor sheet; L from memory."""


def _say_disc(scan: Scanner, found: re.Match[str], source: str) -> None:
    """Mark and rate the pieces of one varistor code."""
    said = found.groupdict()
    volts = code_volts(found["code"])
    means = {"maker": "maker's series", "d": f"{int(found['d'])} mm across",
             "shape": "a square" if said.get("shape") in ("S", "s") else "a disc",
             "code": f"varistor voltage {volts} V at 1 mA",
             "tol": f"tolerance {_TOLERANCE.get((said.get('tol') or '').upper(), 'letter')};"
                    " wider on some low-voltage types",
             "surge": "high surge version"}  # fmt: skip
    _mark_run(scan, found, {name: text for name, text in means.items() if said.get(name)}, source)
    if said.get("maker"):
        scan.say("series", found["maker"].upper())
    scan.say("diameter_mm", int(found["d"]))
    if said.get("shape"):
        scan.say("shape", "disc" if found["shape"] in "Dd" else "square")
    scan.say("v1ma_v", code_volts(found["code"]))
    if said.get("tol"):
        scan.say("tolerance_letter", found["tol"].upper())
    if said.get("surge"):
        scan.say("high_surge", value=True)
    scan.at = found.end()


def _mark_run(scan: Scanner, found: re.Match[str], means: dict[str, str], source: str) -> None:
    """Mark the groups of a code so that each ends where the next begins."""
    names = sorted(means, key=found.start)
    starts = [found.start(), *(found.start(name) for name in names[1:]), found.end()]
    for name, start, end in zip(names, starts, starts[1:], strict=False):
        scan.mark(start, end, means[name], source)


def _siov_words(found: re.Match[str]) -> str:
    """What a plain-volts type says."""
    return f"disc {int(found['d'])} mm, ±10 %, for at most {int(found['vac'])} V a.c."


def siov(scan: Scanner) -> bool:
    """SiovType = "S" size "K" highest a.c. volts; the figure is volts, not a code."""
    found = scan.take(_SIOV, _siov_words, SIOV)
    if found is None:
        return False
    scan.say("diameter_mm", int(found["d"]))
    scan.say("shape", "disc")
    scan.say("tolerance_letter", "K")
    scan.say("vac_max", int(found["vac"]))
    return True


SIOV_VOLTS = frozenset({
    11, 14, 17, 20, 25, 30, 35, 40, 50, 60, 75, 95, 115, 130, 140, 150, 175, 210, 230, 250, 275,
    300, 320, 385, 420, 440, 460, 510, 550, 625, 680, 1000, 1100,
})  # fmt: skip
"""A.c. voltages the plain scheme comes in. Source: SIOV StandarD series tables; the steps
between 25 and 1100 V in part from memory."""

_BARE = re.compile(rf"(?P<d>10|14|20|0?7|0?5)K-?(?P<n>[0-9]{{3}}){_STOP}")


def bare(scan: Scanner) -> bool:
    """BareCode = size "K" three digits; without series letters it may be either scheme."""
    found = scan.take(_BARE, "diameter, K, and a voltage code or plain a.c. volts", PRACTICE)
    if found is None:
        return False
    scan.say("diameter_mm", int(found["d"]))
    scan.say("tolerance_letter", "K")
    code, plain = re.fullmatch(CODE, found["n"]), int(found["n"]) in SIOV_VOLTS
    if code and not plain:
        scan.say("v1ma_v", code_volts(found["n"]))
    elif plain and not code:
        scan.say("vac_max", int(found["n"]))
    else:
        _either(scan, found)
    return True


def _either(scan: Scanner, found: re.Match[str]) -> None:
    """Both schemes fit: neither voltage is read, both are offered."""
    digits = found["n"]
    review(scan, f"{found.group()}: {digits} may be a voltage code or plain volts a.c.")
    if re.fullmatch(CODE, digits):
        scan.propose(f"{found['d']}D{digits}K", "as a code", v1ma_v=code_volts(digits))
    scan.propose(f"S{found['d']}K{digits}", "as plain volts", vac_max=int(digits))


EPCOS = "EPCOS, leaded varistors, ordering code system (manualshelf B72207S0500K101)"
_ORDER = re.compile(
    r"(?P<head>B722)(?P<d>05|07|10|14|20|25)(?P<shape>[FQSTUX])(?P<line>[0-4])"
    rf"(?P<volts>[1-9][0-9][0-2])(?P<tol>[JKS])(?P<tail>[0-9]{{0,4}}){_STOP}"
)


def exact_volts(code: str) -> int | None:
    """Highest a.c. volts of an ordering code, whose two figures leave the last one out.

    >>> exact_volts("271"), exact_volts("141"), exact_volts("381"), exact_volts("991")
    (275, 140, 385, None)
    """
    low, step = code_volts(code), 10 ** int(code[2])
    return next((volts for volts in sorted(SIOV_VOLTS) if low <= volts < low + step), None)


def ordered(scan: Scanner) -> bool:
    """Order = "B722" size design series a.c.-volts tolerance leads."""
    found = scan.peek(_ORDER)
    volts = exact_volts(found["volts"]) if found else None
    if found is None or volts is None:
        return False
    means = {
        "head": "monolithic varistor", "d": f"{int(found['d'])} mm across", "shape": "design",
        "line": "series", "volts": f"for at most {volts} V a.c.", "tail": "leads and packing",
        "tol": f"tolerance {_TOLERANCE.get(found['tol'], 'special')}",
    }  # fmt: skip
    _mark_run(scan, found, {name: text for name, text in means.items() if found[name]}, EPCOS)
    scan.say("diameter_mm", int(found["d"]))
    scan.say("vac_max", volts)
    if found["tol"] != "S":
        scan.say("tolerance_letter", found["tol"])
    scan.at = found.end()
    return True


LITTELFUSE = "V275LA20AP, specified for 275 V r.m.s. (historiaignorada.com, varistor code)"
_LA = re.compile(
    rf"(?P<head>V)(?P<volts>[1-9][0-9]{{1,3}})(?P<line>LA)(?P<size>[0-9]{{1,2}}[A-D]?)(?P<tail>[PX0-9]{{0,4}}){_STOP}"
)


def mains_la(scan: Scanner) -> bool:
    """Type = "V" a.c.-volts "LA" energy letter tail, e.g. V275LA20AP."""
    found = scan.peek(_LA)
    if found is None:
        return False
    means = {
        "head": "varistor", "volts": f"for at most {found['volts']} V a.c.", "line": "series LA",
        "size": "relative energy and selection", "tail": "maker's ending",
    }  # fmt: skip
    _mark_run(scan, found, {n: text for n, text in means.items() if found[n]}, LITTELFUSE)
    scan.say("vac_max", int(found["volts"]))
    scan.at = found.end()
    return True
