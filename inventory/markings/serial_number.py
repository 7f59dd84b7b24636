"""Serial numbers of appliances, and the parts series that belongs to one.

A parts list gives a few series; a machine takes the nearest one that is not above its own.
Source: appliancehelp.com, finding your model number (series 21 of 10, 15, 25, 30 takes 15).
"""

from __future__ import annotations

import re
from collections.abc import Iterable

from inventory.markings.amounts import PRACTICE
from inventory.markings.passive_marks import ANY_CASE, legend
from inventory.markings.scanner import Scanner
from inventory.markings.writing import faithful
from inventory.records import Reading

APPLIANCEHELP = "appliancehelp.com, finding your model number"

LISTED = (10, 15, 25, 30)
"""The series of the parts list in the source's example; a list in the text replaces it."""

_SERIES = re.compile(r"(?P<series>[0-9]{2})(?P<rest>[0-9]{7,8})(?P<tail>[A-Z]{1,2})(?![0-9A-Za-z])")
_PLAIN = re.compile(r"(?P<serial>[0-9A-Z][0-9A-Z-]{5,20})(?![0-9A-Za-z-])")
_LABEL = re.compile(r"(?:serial|ser|s/?n)\.?(?:\s?(?:no|nr|number))?\.?\s?[:#]?(?=\s|$)", ANY_CASE)
_LIST = re.compile(
    r"(?:series|of|from)\s?[:=]?\s?(?P<list>[0-9]{2}(?:[\s,/_]{1,2}[0-9]{2}){1,9})(?![0-9])",
    ANY_CASE,
)


def part_series(own: int, listed: Iterable[int]) -> int | None:
    """The listed series nearest to a machine's own and not above it; None if all are above.

    >>> part_series(21, [10, 15, 25, 30])
    15
    """
    return max((series for series in listed if series <= own), default=None)


def serial(scan: Scanner) -> bool:
    """Serial = two digits of the series, digits, letters | letters and digits."""
    if "serial" in scan.ratings:
        return False
    found = scan.peek(_SERIES)
    if found is not None:
        scan.say("serial", found[0])
        scan.say("series", int(found["series"]))
        means = {
            "series": ("series of the machine: the first two figures", APPLIANCEHELP),
            "rest": ("running number", PRACTICE),
            "tail": ("ending, meaning not stated", PRACTICE),
        }
        return legend(scan, found, means)
    found = scan.peek(_PLAIN)
    if found is None or not re.search(r"[0-9]{3}", found["serial"]):
        return False
    scan.say("serial", found["serial"])
    return legend(scan, found, {"serial": ("serial number; its code is not known", PRACTICE)})


def listed(scan: Scanner) -> bool:
    """List = "of" series, series, ...: what the parts list offers."""
    found = scan.peek(_LIST)
    if found is None:
        return False
    scan.say("listed_series", [int(item) for item in re.findall(r"[0-9]{2}", found["list"])])
    return legend(scan, found, {"list": ("series the parts list gives", PRACTICE)})


def label(scan: Scanner) -> bool:
    """Label = "serial no." | "S/N": what follows is the number."""
    return scan.take(_LABEL, "the serial number follows", PRACTICE) is not None


RULES = (label, listed, serial)


def read(text: str) -> Reading:
    """Read a serial number and choose the parts series for it."""
    scan = Scanner(text)
    scan.sweep(RULES)
    offered = scan.ratings.get("listed_series", LISTED)
    own = scan.ratings.get("series")
    chosen = None if own is None else part_series(own, offered)
    if chosen is not None:
        scan.say(f"chosen_part_series_from_{'_'.join(map(str, offered))}", chosen)
    return scan.reading("serial_number")


def likely(text: str) -> float:
    """How strongly a text looks like this family, 0 to 1."""
    bare = text.strip()
    if re.match(r"serial|s/?n\b", bare, ANY_CASE):
        return 0.9
    return 0.55 if _SERIES.fullmatch(bare) else 0.0


def canonical(reading: Reading) -> str:
    """The number as printed."""
    return faithful(reading, _written(reading), read)


def _written(reading: Reading) -> str:
    """The ratings written out."""
    return str(reading.ratings.get("serial", ""))
