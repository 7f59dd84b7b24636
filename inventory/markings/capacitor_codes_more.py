"""More makers' ordering codes of interference capacitors: discs of TDK, films of two makers."""

from __future__ import annotations

import re

from inventory.markings.capacitance import farad_tolerance, say_farads
from inventory.markings.capacitor_codes import (
    epcos,
    kemet_r46,
    metallised_paper,
    murata,
    say_classes,
)
from inventory.markings.figures import IEC_60062, digit_code
from inventory.markings.passive_marks import Meaning, legend
from inventory.markings.scanner import Rule, Scanner

TDK = "TDK, CS series, part number construction (icpdf CS45SL2GA220JAGKA; dtsheet 1275846)"
_TEMPERATURES = {
    "B": "B +/-10%",
    "E": "E +20/-55%",
    "F": "F +30/-80%",
    "SL": "SL +350 to -1000ppm/C",
    "ZU": "Z5U +22/-56%",
}
_TDK = re.compile(
    r"(?P<series>CS[0-9]{2})-?(?P<temp>SL|ZU|[BEF])(?P<volts>2GA)(?P<value>[1-9][0-9]{2})"
    r"(?P<tol>[JKM])(?:(?P<grade>AGK|AKA|AVK|ANK)(?P<free>A)?|(?P<type>Y)(?P<tail>[A-Z]{1,3}))"
    r"(?![0-9A-Za-z])"
)


def tdk(scan: Scanner) -> bool:
    """Code = "CS" size temperature "2GA" value tolerance (grade | "Y" leads).

    Only the newer code says which volts 2GA stands for; of the older one none are set.
    """
    found = scan.peek(_TDK)
    if found is None:
        return False
    scan.say("temp_char", _TEMPERATURES[found["temp"]])
    spoken = "rated voltage, by the sheet"
    if found["grade"]:
        say_classes(scan, ["X1", "Y2"])
        scan.ratings["voltage_vac_by_class"] = {"X1": 440, "Y2": 300}
        spoken = "class X1 440 V a.c., class Y2 300 V a.c."
    means: dict[str, Meaning] = {
        "series": ("safety-approved ceramic disc and its size", TDK),
        "temp": (f"temperature characteristic {_TEMPERATURES[found['temp']]}", TDK),
        "volts": (spoken, TDK),
        "value": (say_farads(scan, digit_code(found["value"])), IEC_60062),
        "tol": farad_tolerance(scan, found["tol"]),
        "grade": ("grade, leads and safety approval", TDK),
        "free": ("halogen-free", TDK),
        "type": ("class Y", TDK),
        "tail": ("leads and safety standard", TDK),
    }
    return legend(scan, found, means)


BFC2 = "Vishay MKP338 2, MKP336 2 and MKP338 4, as listed at novapart.co (BFC233820103)"
_BFC2_VOLTS = {"3382": 310, "3362": 310, "3384": 300}
_BFC2 = re.compile(
    r"(?P<series>BFC2\s?(?P<type>3382|3362|3384))\s?(?P<own>[0-9])(?P<value>[1-9][0-9]{2})"
    r"(?![0-9A-Za-z])"
)


def vishay_bfc2(scan: Scanner) -> bool:
    """Code = "BFC2" type own value; the last figure of the value counts the noughts."""
    found = scan.peek(_BFC2)
    if found is None:
        return False
    rated = _BFC2_VOLTS[found["type"]]
    say_classes(scan, ["X2"])
    scan.say("voltage_vac", rated)
    scan.say("dielectric", "PP")
    means = {
        "series": (f"class X2, {rated} V a.c., polypropylene", BFC2),
        "own": ("tolerance and packing, by the sheet", BFC2),
        "value": (say_farads(scan, digit_code(found["value"])), BFC2),
    }
    return legend(scan, found, means)


DAIN = "Dain, MPX class X2, code system (scribd 805422418)"
_MPX = re.compile(
    r"(?P<series>MPX)(?P<value>[1-9][0-9]{2})(?P<tol>[JKM])(?P<volts>250|275|310)(?P<kind>AC)"
    r"(?P<tail>[0-9A-Z]{0,4})(?![0-9A-Za-z])"
)


def mpx(scan: Scanner) -> bool:
    """Code = "MPX" value tolerance volts "AC" leads."""
    found = scan.peek(_MPX)
    if found is None:
        return False
    say_classes(scan, ["X2"])
    scan.say("voltage_vac", int(found["volts"]))
    scan.say("dielectric", "PP")
    means = {
        "series": ("class X2, metallised polypropylene", DAIN),
        "value": (say_farads(scan, digit_code(found["value"])), IEC_60062),
        "tol": farad_tolerance(scan, found["tol"]),
        "volts": (f"{found['volts']} V", DAIN),
        "kind": ("a.c.", DAIN),
        "tail": ("pitch and leads", DAIN),
    }
    return legend(scan, found, means)


CODES: tuple[Rule, ...] = (murata, kemet_r46, epcos, metallised_paper, tdk, vishay_bfc2, mpx)
"""Lines that take a maker's whole code."""

SURE = re.compile(
    r"(?<![0-9A-Za-z])(?:CS[0-9]{2}-?(?:SL|ZU|[BEF])2GA|BFC2\s?33[68]|MPX[0-9]{3}[JKM])"
)
"""The heads of the codes of this module."""
