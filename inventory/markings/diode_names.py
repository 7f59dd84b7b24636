"""Zener diodes, and what the registries' letters say of a diode whose sheet is not at hand.

A Zener's voltage is ``vz_v``: it is what the diode holds, not what it blocks, so it is never a
reverse voltage. Pro Electron tells the use by letters, JEDEC tells only that it is a diode.
"""

from __future__ import annotations

import re
from decimal import Decimal

from inventory.markings.figures import E24, tidy
from inventory.markings.passive_marks import ANY_CASE, Meaning, legend
from inventory.markings.scanner import Rule, Scanner

PRO_ELECTRON = "Pro Electron type designation: letters, tolerance letter and Zener voltage"
JEDEC = "JEDEC type designation: 1N, a device of two terminals"
CODES = "pockeyeurope.com, how to read a Zener diode code: BZX85C22, BZY85C22, 1N4746"

WATTS = {"BZX85": 1, "BZY85": 0.5, "BZX55": 0.5, "BZV55": 0.5}
"""Power of a series. Sources: pockeyeurope.com; m7diode.com for BZX55 and BZV55."""

_PCT = {"A": 1, "B": 2, "C": 5, "D": 10, "E": 20}
_PRO_ZENER = re.compile(
    r"(?P<series>BZ[A-Z][0-9]{2})[ /-]?(?P<tol>[A-E])(?P<volts>[0-9]{1,3}(?:V[0-9])?)"
    r"(?![0-9A-Za-z])",
    ANY_CASE,
)


def pro_electron_zener(scan: Scanner) -> bool:
    """Zener = "BZ" series tolerance volts, V for the point, e.g. BZY88C4V7."""
    found = scan.peek(_PRO_ZENER)
    if found is None:
        return False
    series, pct = found["series"].upper(), _PCT[found["tol"].upper()]
    held = tidy(Decimal(found["volts"].upper().replace("V", ".")))
    _say_zener(scan, held, WATTS.get(series))
    scan.say("tolerance_pct", pct)
    power = f", {WATTS[series]} W" if series in WATTS else ""
    means: dict[str, Meaning] = {
        "series": (f"silicon Zener diode{power}", PRO_ELECTRON),
        "tol": (f"tolerance ±{pct} %", PRO_ELECTRON),
        "volts": (f"holds {held} V", PRO_ELECTRON),
    }
    return legend(scan, found, means)


def _say_zener(scan: Scanner, held: float, watts: float | None) -> None:
    """Set what a Zener says."""
    scan.say("kind", "zener diode")
    scan.say("vz_v", held)
    if watts is not None:
        scan.say("power_w", watts)


_JEDEC_ZENER = re.compile(r"(?P<number>1N47(?:2[89]|[345][0-9]|6[0-4]))(?P<tail>A?)(?![0-9A-Za-z])")
_FIRST, _FIRST_STEP = 4728, E24.index(33)


def zener_volts(number: int) -> float:
    """Volts of 1N4728 to 1N4764: the E24 steps from 3.3 V on.

    >>> zener_volts(4733), zener_volts(4746), zener_volts(4764)
    (5.1, 18, 100)
    """
    decade, step = divmod(_FIRST_STEP + number - _FIRST, len(E24))
    return tidy(Decimal(E24[step]).scaleb(decade - 1))


def jedec_zener(scan: Scanner) -> bool:
    """Zener = "1N47" two figures "A"?; 1 W, the number counts the steps of E24."""
    found = scan.peek(_JEDEC_ZENER)
    if found is None:
        return False
    held = zener_volts(int(found["number"][2:]))
    _say_zener(scan, held, 1)
    means = {"number": (f"Zener diode, holds {held} V, 1 W", CODES), "tail": ("closer", JEDEC)}
    return legend(scan, found, means)


_BY127 = re.compile(r"(?P<type>BY127)(?![0-9])", ANY_CASE)
_PRO = re.compile(r"(?P<type>[AB][ABY][A-Z]?[0-9]{2,3}[A-Z]?)(?![0-9A-Za-z])")
_REGISTERED = re.compile(r"(?P<type>1N[0-9]{2,4}[A-Z]{0,2})(?![0-9A-Za-z])", ANY_CASE)
_USES = {"A": "signal diode", "B": "capacitance diode", "Y": "rectifier diode"}


def registered(scan: Scanner) -> bool:
    """Type = "1N" figures | Pro Electron letters figures: a diode; its ratings stand elsewhere."""
    if found := scan.peek(_BY127):
        scan.say("vrrm_v", 1250)
        scan.say("if_a", 1)
        return legend(
            scan, found, {"type": ("rectifier, 1250 V, 1 A", f"{PRO_ELECTRON}; BY127 1250 V, 1 A")}
        )
    if found := scan.peek(_REGISTERED):
        means, source = "registered type of a diode; its ratings are in its sheet", JEDEC
    elif found := scan.peek(_PRO):
        stuff = "silicon" if found[0][0] == "B" else "germanium"
        means, source = f"{stuff} {_USES[found[0][1]]}; its ratings are in its sheet", PRO_ELECTRON
    else:
        return False
    scan.say("type", found["type"].upper())
    return legend(scan, found, {"type": (means, source)})


ZENERS: tuple[Rule, ...] = (pro_electron_zener, jedec_zener)
"""Lines of Zener diodes."""

SURE = re.compile(r"BZ[A-Z][0-9]{2}[ /-]?[A-E][0-9]|BY[A-Z]?[0-9]{2,3}", ANY_CASE)
"""The head of a European name of a Zener or a rectifier."""
