"""V-belts by section and length, and toothed belts by pitch, length and width.

Which unit the length has is the section's matter: inches inside for A to E, tenths of an inch
outside for the wedge and light-duty sections, millimetres for the metric ones.
"""

from __future__ import annotations

import re

from inventory.markings.amounts import PRACTICE
from inventory.markings.figures import figure
from inventory.markings.passive_marks import ANY_CASE, Meaning, legend
from inventory.markings.scanner import Scanner

ISO_4184 = "ISO 4184, classical and narrow V-belts, top widths from memory"
NUMBERS = "mastertoolrepair.com and beltshed.com, how V-belt numbers are read"
RMA = "RMA IP-23, single V-belts 3L, 4L, 5L: outside length in tenths of an inch; from memory"

CLASSICAL_MM = {"Y": 6, "Z": 10, "A": 13, "B": 17, "C": 22, "D": 32, "E": 40}
NARROW_MM = {"SPZ": 10, "SPA": 13, "SPB": 16, "SPC": 22, "XPZ": 10, "XPA": 13, "XPB": 16}
"""Top width of V-belt sections in mm. Source: ISO 4184, from memory."""

_NARROW = re.compile(
    r"(?P<profile>[SX]P[ZABC])X?\s?-?\s?(?P<length>[1-9][0-9]{2,3})(?:\s?mm)?(?![0-9A-Za-z])",
    ANY_CASE,
)
_CLASSICAL = re.compile(
    r"(?P<profile>[ABC][XK]|[ZABCDE])\s?-?\s?(?P<inch>[1-9][0-9]{1,2})(?:[.,](?P<part>[0-9]{1,2}))?"
    r"(?![0-9A-Za-z.])",
    ANY_CASE,
)
_METRIC = re.compile(
    r"(?P<profile>[YZABCDE])\s?-?\s?(?P<length>[4-9][0-9]{2}|[1-9][0-9]{3})(?:\s?mm)?(?![0-9A-Za-z.])",
    ANY_CASE,
)
"""Four hundred inches would be ten metres: such a figure is the datum length in mm (ISO 4184)."""

_LIGHT = re.compile(
    r"(?P<width>[345])L\s?-?\s?(?P<length>[1-9][0-9]{2,3})(?P<kevlar>K)?(?![0-9A-Za-z.])", ANY_CASE
)
_LIGHT_MM = {"3": 9.5, "4": 12.7, "5": 16.7}
_WEDGE = re.compile(
    r"(?P<profile>[358]V)(?P<kind>[XK])?\s?-?\s?(?P<length>[1-9][0-9]{2,3})(?![0-9A-Za-z.])",
    ANY_CASE,
)
_KINDS = {"X": "cogged", "K": "aramid cords"}


def v_belt(scan: Scanner) -> bool:
    """V = narrow mm | light tenths-of-inch | wedge tenths-of-inch | classical (mm | inch)."""
    if found := scan.peek(_NARROW):
        return _millimetres(scan, found, "narrow V-belt", "pitch length")
    if found := scan.peek(_LIGHT):
        return _light_duty(scan, found)
    if found := scan.peek(_WEDGE):
        return _wedge(scan, found)
    if found := scan.peek(_METRIC):
        return _millimetres(scan, found, "V-belt", "which length is not said")
    found = scan.peek(_CLASSICAL)
    return found is not None and _inches_inside(scan, found)


def _millimetres(scan: Scanner, found: re.Match[str], kind: str, length: str) -> bool:
    """Metric = section length in millimetres."""
    profile = found["profile"].upper()
    scan.say("profile", profile)
    scan.say("length_mm", int(found["length"]))
    width = {**NARROW_MM, **CLASSICAL_MM}.get(profile)
    means = {
        "profile": (f"{kind}, {width} mm wide at the top", ISO_4184),
        "length": (f"{found['length']} mm long; {length}", ISO_4184),
    }
    return legend(scan, found, means)


def _inches_inside(scan: Scanner, found: re.Match[str]) -> bool:
    """Classical = section inches, inside; X behind the section means cogged."""
    profile = found["profile"].upper()
    scan.say("profile", profile)
    scan.say("length_in", figure(f"{found['inch']}.{found['part'] or 0}"))
    kind = f", {_KINDS[profile[1]]}" if len(profile) > 1 else ""
    means = {
        "profile": (f"V-belt, {CLASSICAL_MM[profile[0]]} mm wide at the top{kind}", ISO_4184),
        "inch": ("inches, inside length", NUMBERS),
        "part": ("tenths of an inch", PRACTICE),
    }
    return legend(scan, found, means)


def _wedge(scan: Scanner, found: re.Match[str]) -> bool:
    """Wedge = eighths-of-inch "V" kind? outside length in tenths of an inch, e.g. 3V425."""
    inches = int(found["length"]) / 10
    scan.say("profile", f"{found['profile']}{found['kind'] or ''}".upper())
    scan.say("length_in", inches)
    scan.say("length_system", "La")
    means: dict[str, Meaning] = {
        "profile": (f"wedge belt, {found['profile'][0]}/8 inch wide at the top", NUMBERS),
        "length": (f"{inches} inch long outside", NUMBERS),
    }
    if found["kind"]:
        means["kind"] = (_KINDS[found["kind"].upper()], NUMBERS)
    return legend(scan, found, means)


def _light_duty(scan: Scanner, found: re.Match[str]) -> bool:
    """LightDuty = width-digit "L" outside length in tenths of an inch, e.g. 4L380."""
    scan.say("profile", f"{found['width']}L")
    scan.say("width_mm", _LIGHT_MM[found["width"]])
    scan.say("length_in", int(found["length"]) / 10)
    scan.say("length_system", "La")
    means = {
        "width": (f"light-duty V-belt, {_LIGHT_MM[found['width']]} mm wide at the top", RMA),
        "length": (f"{int(found['length']) / 10} inch long outside", RMA),
        "kevlar": ("aramid cords", RMA),
    }
    return legend(scan, found, means)


_TIMING = re.compile(
    r"(?P<length>[1-9][0-9]{1,3})\s?-?\s?(?P<profile>[358]M|14M|S[358]M|GT[235]|MXL|XL|T5|T10|T2[.,]5|AT5|AT10)\s?-?\s?"
    r"(?P<width>[1-9][0-9]{0,2})?(?![0-9A-Za-z])"
    r"|(?P<profile2>AT5|AT10|T2[.,]5|T5|T10|HTD\s?[358]M)\s?[/-]\s?(?P<length2>[1-9][0-9]{1,3})(?![0-9A-Za-z])"
)
_INCH_TIMING = re.compile(
    r"(?P<length>[1-9][0-9]{1,3})(?P<profile>MXL|XL|L|XH|XXH|H)(?P<width>025|03[17]|050|075|[1-4]00)"
    r"(?![0-9A-Za-z])"
)
TOOTHED = "ISO 13050 and ISO 5296, toothed belts, from memory"
INCH_TOOTHED = "allpartsin.com: 240L075 is 24.0 inch long, pitch L, 0.75 inch wide"


def timing(scan: Scanner) -> bool:
    """Toothed = length profile width? | profile "/" length, e.g. 300-3M-9 | 240L075."""
    if inch := scan.peek(_INCH_TIMING):
        return _inch_timing(scan, inch)
    found = scan.peek(_TIMING)
    if found is None:
        return False
    scan.say("profile", (found["profile"] or found["profile2"]).replace(",", "."))
    length = int(found["length"] or found["length2"])
    if found["profile"] in ("MXL", "XL"):
        scan.say("length_in", length / 10)
    else:
        scan.say("length_mm", length)
    if found["width"]:
        scan.say("width_mm", int(found["width"]))
    names = ("length", "profile", "width", "profile2", "length2")
    texts = ("length", "toothed profile", "width in mm", "toothed profile", "length in mm")
    return legend(scan, found, {n: (t, TOOTHED) for n, t in zip(names, texts, strict=True)})


def _inch_timing(scan: Scanner, found: re.Match[str]) -> bool:
    """InchToothed = tenths of an inch, pitch letters, three figures of hundredths of an inch."""
    length, width = int(found["length"]) / 10, int(found["width"]) / 100
    scan.say("profile", found["profile"])
    scan.say("length_in", length)
    scan.say("length_system", "Lp")
    scan.say("width_in", width)
    means = {
        "length": (f"{length} inch long", INCH_TOOTHED),
        "profile": (f"toothed, pitch {found['profile']}", INCH_TOOTHED),
        "width": (f"{width} inch wide", INCH_TOOTHED),
    }
    return legend(scan, found, means)
