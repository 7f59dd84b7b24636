"""Makers' ordering codes of interference capacitors."""

from __future__ import annotations

import re
from decimal import Decimal

from inventory.markings.capacitance import say_farads
from inventory.markings.figures import IEC_60062, digit_code
from inventory.markings.passive_marks import legend, say_tolerance
from inventory.markings.scanner import Scanner

MURATA = "Murata, safety recognized ceramic capacitors, part numbering (xonelec DE1B3KX681KA5B)"
MURATA_TYPES = {"KX": ["X1", "Y1"], "KH": ["X1", "Y2"], "KY": ["X1", "Y2"]}
"""Classes of the type letters, all 250 V a.c. Source: the same table."""
_TEMPERATURES = {
    "B3": "B +/-10%",
    "E3": "E +20/-55%",
    "F3": "F +30/-80%",
    "1X": "SL +350 to -1000ppm/C",
}
_PITCH = {"2": 5, "3": 7.5, "4": 10, "5": 10, "7": 7.5}
_PACKING = {"A": "ammo pack", "B": "bulk"}

KEMET = "KEMET R46, class X2, metallized polypropylene, part number system"
_R46_PITCH = {"F": 10, "I": 15, "N": 22.5, "R": 27.5, "W": 37.5}
EPCOS = "EPCOS B32921C/D to B32928C/D, X2 305 V a.c., data sheet"
_B3292_PITCH = {"1": 10, "2": 15, "3": 22.5, "4": 27.5, "6": 37.5, "8": 52.5}


def say_classes(scan: Scanner, classes: list[str]) -> None:
    """Add classes to the list, X before Y, each once."""
    held = set(scan.ratings.get("class", [])) | set(classes)
    scan.ratings["class"] = sorted(held)


_MURATA = re.compile(
    r"(?P<series>DE[12J])(?P<temp>B3|E3|F3|1X)(?P<type>KX|KH|KY|E2)(?P<value>[1-9][0-9]{2})"
    r"(?P<tol>[JKMZ])(?P<lead>[ABCDNP][2-7])(?P<pack>[AB])(?P<own>[A-Z0-9]{0,4})(?![0-9A-Za-z])"
)


def murata(scan: Scanner) -> bool:
    """Code = "DE" series temperature type value tolerance lead packing own?"""
    found = scan.peek(_MURATA)
    if found is None or found["lead"][1] not in _PITCH:
        return False
    classes = MURATA_TYPES.get(found["type"], [])
    if classes:
        say_classes(scan, classes)
    temperature_mark, pitch = _TEMPERATURES[found["temp"]], _PITCH[found["lead"][1]]
    for name, value in (
        ("voltage_vac", 250),
        ("temp_char", temperature_mark),
        ("lead_pitch_mm", pitch),
        ("packaging", _PACKING[found["pack"]]),
    ):
        scan.say(name, value)
    spoken = f"class {' and '.join(classes)}, 250 V a.c." if classes else "250 V a.c., no class"
    means = {
        "series": ("maker's series", MURATA),
        "temp": (f"temperature characteristic {temperature_mark}", MURATA),
        "type": (spoken, MURATA),
        "value": (say_farads(scan, digit_code(found["value"])), IEC_60062),
        "tol": say_tolerance(scan, found["tol"]),
        "lead": (f"leads {pitch} mm apart", MURATA),
        "pack": (_PACKING[found["pack"]], MURATA),
        "own": ("maker's own specification number", MURATA),
    }
    return legend(scan, found, means)


_R46 = re.compile(
    r"(?P<series>R?46)(?P<volts>K)(?P<pitch>[FINRW])(?P<value>[0-9][1-9][0-9]{2})"
    r"(?P<pack>[0-9A-Z]{2})(?P<own>[0-9A-Z]{2})(?P<tol>[JKM])(?P<tail>[0-9A-Z]?)(?![0-9A-Za-z])"
)


def kemet_r46(scan: Scanner) -> bool:
    """Code = "R46" volts pitch zeros-and-three-digits packing own tolerance."""
    found = scan.peek(_R46)
    if found is None:
        return False
    say_classes(scan, ["X2"])
    pitch = _R46_PITCH[found["pitch"]]
    for name, value in (("voltage_vac", 275), ("lead_pitch_mm", pitch), ("dielectric", "PP")):
        scan.say(name, value)
    amount = Decimal(found["value"][1:]).scaleb(int(found["value"][0]))
    means = {
        "series": ("series of class X2, polypropylene", KEMET),
        "volts": ("275 V a.c.", KEMET),
        "pitch": (f"leads {pitch} mm apart", KEMET),
        "value": (f"{say_farads(scan, amount)}: zeros first, then the digits", KEMET),
        "pack": ("lead and packing code, see the maker's table", KEMET),
        "own": ("maker's own code", KEMET),
        "tol": say_tolerance(scan, found["tol"]),
        "tail": ("maker's own code", KEMET),
    }
    return legend(scan, found, means)


_B3292 = re.compile(
    r"(?P<series>B3292(?P<size>[123468]))(?P<version>[CD])(?P<volts>3)"
    r"(?P<value>[1-9][0-9]{2})(?P<tol>[JKM])(?P<pack>[0-9]{3})?(?![0-9A-Za-z])"
)


def epcos(scan: Scanner) -> bool:
    """Code = "B3292" size version volts value tolerance packing?"""
    found = scan.peek(_B3292)
    if found is None:
        return False
    say_classes(scan, ["X2"])
    pitch = _B3292_PITCH[found["size"]]
    for name, value in (("voltage_vac", 305), ("lead_pitch_mm", pitch), ("dielectric", "PP")):
        scan.say(name, value)
    means = {
        "series": (f"class X2, leads {pitch} mm apart", EPCOS),
        "version": ("version", EPCOS),
        "volts": ("305 V a.c.", EPCOS),
        "value": (say_farads(scan, digit_code(found["value"])), IEC_60062),
        "tol": say_tolerance(scan, found["tol"]),
        "pack": ("packing", EPCOS),
    }
    return legend(scan, found, means)


_PME271 = re.compile(
    r"(?P<series>PME\s?271\s?(?P<volts>M))(?P<pitch>[ABD])?\s?(?P<value>[4-6][0-9]{2,3})"
    r"(?P<tol>[KM])?(?P<pack>R[0-9]{2})?(?![0-9A-Za-z])"
)
_P276 = re.compile(
    r"(?P<series>P276)(?P<pitch>[HQCSE])(?P<size>[A-Z])(?P<value>[1-9][0-9]{2})(?P<tol>[KM])"
    r"(?P<volts>275)(?P<pack>[A-Z])?(?![0-9A-Za-z])"
)
KEMET_PME = "KEMET PME271M, metallized paper, class X2, 275 V a.c., part number system"
_PME_PITCH = {"A": 10.2, "B": 15.2, "D": 22.5}
_P276_PITCH = {"H": 10.2, "Q": 15.2, "C": 20.3, "S": 22.5, "E": 25.4}


def metallised_paper(scan: Scanner) -> bool:
    """Code = "PME271M" pitch? value tolerance | "P276" pitch size value tolerance volts.

    The first figure of a PME271 value is the number of digits in picofarad: 610 is 100000 pF.
    """
    found = scan.peek(_PME271) or scan.peek(_P276)
    if found is None:
        return False
    digits_in_all = found["series"].startswith("PME")
    value = found["value"]
    amount = (
        Decimal(value[1:]).scaleb(int(value[0]) - len(value[1:]))
        if digits_in_all
        else digit_code(value)
    )
    say_classes(scan, ["X2"])
    scan.say("voltage_vac", 275)
    scan.say("dielectric", "paper")
    pitch = (_PME_PITCH if digits_in_all else _P276_PITCH).get(found["pitch"] or "")
    if pitch:
        scan.say("lead_pitch_mm", pitch)
    means = {
        "series": ("metallised paper, class X2, 275 V a.c.", KEMET_PME),
        "pitch": (f"leads {pitch} mm apart", KEMET_PME),
        "value": (say_farads(scan, amount), KEMET_PME),
        "pack": ("packing", KEMET_PME),
    }
    if found["tol"]:
        means["tol"] = say_tolerance(scan, found["tol"])
    if not digits_in_all:
        means |= {"size": ("size code", KEMET_PME), "volts": ("275 V a.c.", KEMET_PME)}
    return legend(scan, found, means)
