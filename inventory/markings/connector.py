"""Board and wire connectors: series, circuits, pitch, entry, gender.

The series is what makes two connectors mate; the same pitch is not the same series. Where a
trade name says another pitch than its maker does, both are told.
"""

from __future__ import annotations

import re
from typing import NamedTuple

from inventory.markings.amounts import PRACTICE
from inventory.markings.bookkeeping import START
from inventory.markings.figures import figure
from inventory.markings.passive_marks import (
    ANY_CASE,
    COMMON,
    Meaning,
    amount,
    legend,
    temperature,
    word,
)
from inventory.markings.scanner import Rule, Scanner
from inventory.markings.writing import faithful, write
from inventory.records import Reading


class Family(NamedTuple):
    """A connector series: its pitch, and where that is printed."""

    pitch_mm: float
    source: str


SERIES = {
    "PH": Family(2.0, "JST PH data sheet, B13B-PH-K-S"),
    "XH": Family(2.5, "szfrs.com, XH 2.5 mm 3 A"),
    "VH": Family(3.96, "JST VH data sheet, as quoted at keszoox.com"),
    "EH": Family(2.5, "JST EH, as quoted at keszoox.com"),
    "SH": Family(1.0, "szfrs.com, SH 1.0 mm 1 A"),
    "GH": Family(1.25, "JST GH, series table"),
    "ZH": Family(1.5, "JST ZH, series table"),
    "TB": Family(2.5, "JST TB header data sheet"),
    "BC": Family(2.0, "JST BC header data sheet"),
    "KR": Family(2.0, "JST KR family data sheet"),
    "PHN": Family(2.0, "JST KR family data sheet"),
    "SM": Family(2.5, "JST SM, from memory"),
    "VL": Family(6.2, "JST VL, from memory"),
    "NH": Family(2.5, "JST NH, from memory"),
    "PA": Family(2.0, "JST PA, from memory"),
    "XA": Family(2.5, "JST XA, as listed at keszoox.com"),
}
"""JST series and their pitch in mm."""

JST = "JST model numbers: header B or S, circuits, post, series"
ALIASES = {"SRSS": "SH", "GHS": "GH", "PASK": "PA", "XASK": "XA", "ZR": "ZH"}
"""What board headers call the series of their housing. From memory."""

_NAMES = "|".join(sorted(SERIES, key=len, reverse=True))

_HEADER = re.compile(
    rf"(?P<entry>[BS]M?)\s?(?P<ways>0?[1-9]|[1-9][0-9])(?P<post>PS|P|B)(?P<tier>[0-9])?\s?-\s?(?P<series>{'|'.join(ALIASES)}|{_NAMES})"
    r"(?P<variant>[A-Z]?(?:-[A-Z0-9]{1,4}){0,4})(?P<free>(?:\((?:LF|SN|HF)\)(?:\((?:LF|SN|HF)\))?))?(?![0-9A-Za-z])"
)
_HOUSING = re.compile(
    rf"(?P<series>{_NAMES})(?P<kind>R|P)\s?-\s?(?P<ways>0?[1-9]|[1-9][0-9])(?P<variant>V?[A-Z]?(?:-[A-Z0-9]{{1,4}}){{0,3}})"
    r"(?![0-9A-Za-z])"
)
_TRADE = re.compile(
    rf"(?<![0-9A-Za-z-])(?:JST\s?-?\s?)?(?P<series>{_NAMES})\s?-?\s?(?P<pitch>[1-9][.,][0-9]{{1,2}}|[1-9](?=\s?mm))?\s?(?P<unit>mm)?"
    r"(?:\s?-?\s?(?P<ways>[1-9][0-9]?)\s?(?P<pin>P(?:IN)?S?|WAYS?|CIRCUITS?|POS)(?![A-Za-z]))?(?![0-9A-Za-z])",
    ANY_CASE,
)


def header(scan: Scanner) -> bool:
    """Model = ("B" | "S") circuits ("P" | "PS" | "B") "-" series variant finish?"""
    found = scan.peek(_HEADER)
    if found is None:
        return False
    side = found["entry"][0] == "S" or found["post"] == "PS"
    entry = "side" if side else "top"
    scan.say("entry", entry)
    scan.say("gender", "header")
    means = _common(scan, found)
    means |= {
        "entry": (f"board header, {entry} entry" if found["post"] != "PS" else "board header", JST),
        "post": ("side entry" if found["post"] == "PS" else "posts", JST),
        "tier": ("variant", JST),
        "free": ("lead-free, tin-plated", JST),
    }
    return legend(scan, found, means)


def housing(scan: Scanner) -> bool:
    """Model = series ("R" | "P") "-" circuits variant: the plug on the wire."""
    found = scan.peek(_HOUSING)
    if found is None:
        return False
    scan.say("gender", "housing")
    means = _common(scan, found)
    means["kind"] = ("housing on the wire", JST)
    return legend(scan, found, means)


def _common(scan: Scanner, found: re.Match[str]) -> dict[str, Meaning]:
    """Series, circuits and pitch, which every model number gives."""
    said = found["series"].upper()
    name, ways = ALIASES.get(said, said), int(found["ways"])
    family = SERIES[name]
    for rating, value in (("series", name), ("circuits", ways), ("pitch_mm", family.pitch_mm)):
        scan.say(rating, value)
    return {
        "series": (f"series {name}, pitch {family.pitch_mm} mm", family.source),
        "ways": (f"{ways} circuits", JST),
        "variant": ("variant", JST),
    }


def trade(scan: Scanner) -> bool:
    """Name = "JST"? series pitch "mm"? (number "P")?, as sold."""
    found = scan.peek(_TRADE)
    if found is None:
        return False
    name = found["series"].upper()
    family = SERIES[name]
    scan.say("series", name)
    scan.say("pitch_mm", family.pitch_mm)
    if found["pitch"] and figure(found["pitch"]) != family.pitch_mm:
        scan.warn(
            f"Series {name} has {family.pitch_mm} mm by its maker; {found['pitch']} mm is said."
        )
        scan.propose(
            f"pitch {found['pitch']} mm", "as said, another series", pitch_mm=figure(found["pitch"])
        )
    if found["ways"]:
        scan.say("circuits", int(found["ways"]))
    means = {
        "series": (f"series {name}, pitch {family.pitch_mm} mm", family.source),
        "pitch": (f"pitch {found['pitch']} mm as said", PRACTICE),
        "unit": ("millimetres", PRACTICE),
        "ways": ("circuits", PRACTICE),
        "pin": ("circuits", PRACTICE),
    }
    return legend(scan, found, means)


_RAST = re.compile(r"(?P<series>RAST)\s?-?\s?(?P<pitch>2[.,]5|5)(?![0-9A-Za-z])", ANY_CASE)


def rast(scan: Scanner) -> bool:
    """Series = "RAST" ("2.5" | "5"): the appliance makers' system, named by its pitch."""
    found = scan.peek(_RAST)
    if found is None:
        return False
    pitch = figure(found["pitch"])
    scan.say("series", f"RAST {pitch}")
    scan.say("pitch_mm", pitch)
    source = "RAST connector systems of the appliance industry, from memory"
    return legend(scan, found, {"series": ("system", source), "pitch": (f"{pitch} mm", source)})


_PITCH = re.compile(
    r"(?:pitch\s?[:=]?\s?)?(?P<pitch>[1-9][.,]?[0-9]{0,2})\s?mm\s?(?:pitch)?(?![0-9A-Za-z])",
    ANY_CASE,
)
_WAYS = re.compile(
    r"(?P<ways>[1-9][0-9]?)\s?-?\s?(?P<unit>P(?:INS?)?|WAYS?|CIRCUITS?|POS(?:ITIONS?)?|C(?:ORES?)?)(?![0-9A-Za-z])",
    ANY_CASE,
)


def pitch(scan: Scanner) -> bool:
    """Pitch = number "mm"."""
    found = scan.peek(_PITCH)
    if found is None:
        return False
    scan.say("pitch_mm", figure(found["pitch"]))
    return scan.take(_PITCH, f"pitch {found['pitch']} mm", PRACTICE) is not None


def ways(scan: Scanner) -> bool:
    """Circuits = number ("P" | "pin" | "way")."""
    found = scan.peek(_WAYS)
    if found is None:
        return False
    scan.say("circuits", int(found["ways"]))
    return scan.take(_WAYS, f"{found['ways']} circuits", PRACTICE) is not None


RULES: tuple[Rule, ...] = (
    *START,
    header,
    housing,
    rast,
    trade,
    ways,
    pitch,
    temperature,
    amount("A", "current_a", "rated current"),
    amount("V(?:AC|DC)?", "voltage_v", "rated voltage"),
    word("top[ -]entry|vertical|straight", "cable leaves upward", PRACTICE, entry="top"),
    word("side[ -]entry|right[ -]angle", "cable leaves to the side", PRACTICE, entry="side"),
    word("male|header|plug", "the side with pins", PRACTICE),
    word("female|housing|receptacle|socket", "the side with sockets", PRACTICE),
    word("JST|connectors?|wire|board|to|series|molex", "a word of the trade", PRACTICE),
    *COMMON,
)


def read(text: str) -> Reading:
    """Read what is moulded on a connector, or its model number."""
    scan = Scanner(text)
    scan.sweep(RULES)
    return scan.reading("connector")


_SURE = re.compile(
    rf"(?<![0-9A-Za-z])(?:[BS]M?\s?[0-9]{{1,2}}(?:PS?|B)[0-9]?-(?:{'|'.join(ALIASES)}|{_NAMES})|(?:{_NAMES})[RP]-[0-9]{{1,2}}|JST|RAST\s?[25])",
    ANY_CASE,
)
_MAYBE = re.compile(
    rf"(?<![0-9A-Za-z])(?:{_NAMES})\s?-?[1-9][.,][0-9]{{1,2}}|\bconnector\b|[0-9]\s?(?:way|pin)\b",
    ANY_CASE,
)


def likely(text: str) -> float:
    """How strongly a text looks like this family, 0 to 1."""
    if _SURE.search(text):
        return 0.95
    return 0.6 if _MAYBE.search(text) else 0.0


def canonical(reading: Reading) -> str:
    """Series, circuits and entry in their plainest form."""
    return faithful(reading, _written(reading), read)


def _written(reading: Reading) -> str:
    """The ratings written out."""
    return write(
        reading.ratings,
        ("series", "{}"),
        ("circuits", "{} way"),
        ("pitch_mm", "{} mm"),
        ("entry", {"top": "top entry", "side": "side entry"}),
    )
