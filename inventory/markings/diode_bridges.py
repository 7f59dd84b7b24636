"""Rectifier bridges: a body's letters, the amperes, then the volts in hundreds.

Most makers build the name so; where a body's letters fix the amperes, the table below has them.
"""

from __future__ import annotations

import re

from inventory.markings.passive_marks import ANY_CASE, Meaning, legend
from inventory.markings.scanner import Rule, Scanner

NAMED = (
    "bridge names, body, amperes, hundreds of volts: sheets KBL400-410 and KBU1000-1010"
    " (Won-Top), KBL6005-610 (Asemi), GBU1506-1510 (Diodes Inc.)"
)
HUNDREDS = {
    "005": 50, "00": 50, "05": 50, "01": 100, "02": 200, "04": 400, "06": 600, "08": 800,
    "10": 1000, "12": 1200, "16": 1600,
}  # fmt: skip
"""Volts of the last figures."""

_NAMED = re.compile(
    r"(?P<body>GBU|KBU|KBL|GBL|GBJ|KBJ)\s?(?P<amps>35|30|25|20|15|12|10|[1-9])"
    r"(?P<code>005|00|01|02|04|06|08|10)(?P<tail>[GLS]{0,2})(?![0-9A-Za-z])",
    ANY_CASE,
)
_SQUARE = re.compile(
    r"(?P<body>KBPC)\s?(?P<amps>50|35|25|15|[68])(?P<code>005|00|01|02|04|06|08|10|12|16)"
    r"(?P<tail>[WT]?)(?![0-9A-Za-z])",
    ANY_CASE,
)

FIXED = {
    "KBPC1": (3, "KBPC1", "DC Components, KBPC1005-KBPC110 (sekorm 1997197)"),
    "BR3": (3, "BR-3", "DC Components, BR305-BR310 (sekorm 1997197)"),
    "DF15": (1.5, "DF", "DF1506S, 600 V 1.5 A (parts list, pastebin vMXirDGN)"),
    "DF": (1, "DF", "DF005-DF10, from memory"),
    "KBP": (1.5, "KBP", "Won-Top, KBP005M-KBP10M (ic37)"),
    "2KBP": (2, "KBP", "2KBP005M-2KBP10M, from memory"),
    "3KBP": (3, "KBP", "3KBP005M-3KBP10M, from memory"),
    "W": (1.5, "WOB", "W005M-W10M, from memory"),
}
"""Bodies whose letters fix the amperes: amperes, body and source."""

_FIXED = re.compile(
    r"(?P<body>KBPC1|BR3|DF15|DF|[23]?KBP|W)(?P<code>005|01|02|04|06|08|10)(?P<tail>[GMS]{0,2})"
    r"(?![0-9A-Za-z])|(?P<short>BR3)(?P<digit>05|10|[12468])(?![0-9A-Za-z])",
    ANY_CASE,
)
_M_BODIES = frozenset({"KBP", "2KBP", "3KBP", "W"})
"""Bodies whose name ends in M or G: without it the name could mean something else."""


def _say(scan: Scanner, volts: int, amps: float, package: str) -> str:
    """Set what every bridge says and hand back how it is spoken."""
    named = {"vrrm_v": volts, "if_a": amps, "package": package, "kind": "bridge"}
    for name, value in named.items():
        scan.say(name, value)
    return f"bridge, {volts} V, {amps} A"


def by_name(scan: Scanner) -> bool:
    """Bridge = body amperes hundreds-of-volts tail, e.g. KBU1010."""
    found = scan.peek(_NAMED) or scan.peek(_SQUARE)
    if found is None:
        return False
    body = found["body"].upper()
    source = NAMED if body != "KBPC" else "KBPC1510, KBPC2510, KBPC3510, from memory"
    spoken = _say(scan, HUNDREDS[found["code"]], int(found["amps"]), body)
    means: dict[str, Meaning] = {
        "body": (spoken, source),
        "amps": (f"{found['amps']} A", source),
        "code": (f"{HUNDREDS[found['code']]} V", source),
        "tail": _tail(found["tail"]),
    }
    return legend(scan, found, means)


def _tail(letters: str) -> Meaning:
    """What stands behind the volts."""
    glass = "G" in letters.upper()
    return ("glass passivated" if glass else "form of the body or leads"), "makers' endings"


def by_body(scan: Scanner) -> bool:
    """Bridge = body hundreds-of-volts tail, e.g. KBP10M, BR310; the body fixes the amperes."""
    found = scan.peek(_FIXED)
    if found is None:
        return False
    if found["short"]:
        digit = found["digit"]
        volts = {"05": 50, "10": 1000}.get(digit) or 100 * int(digit)
        groups = ("short", "digit")
    else:
        if found["body"].upper() in _M_BODIES and not {"M", "G"} & set(found["tail"].upper()):
            return False
        volts, groups = HUNDREDS[found["code"]], ("body", "code")
    amps, package, source = FIXED[found[groups[0]].upper()]
    spoken = _say(scan, volts, amps, package)
    means = {groups[0]: (spoken, source), groups[1]: (f"{volts} V", source)}
    if found["tail"]:
        means["tail"] = _tail(found["tail"])
    return legend(scan, found, means)


LINES: tuple[Rule, ...] = (by_name, by_body)
"""Lines that take a bridge's name."""

SURE = re.compile(
    r"(?:GBU|KBU|KBL|GBL|GBJ|KBJ|KBPC)\s?[1-9][0-9]|BR3[0-9]|DF[01][0-9]|[23]?KBP[01][0-9]{1,2}[MG]"
    r"|W(?:005|0[1-8]|10)[MG]",
    ANY_CASE,
)
"""The head of such a name."""
