"""Frequency, sealing, glow-wire, tracking and gap marks of a contact marking."""

from __future__ import annotations

import re
from functools import partial

from inventory.markings.contacts_scan import NUM, ContactScanner, bounded
from inventory.markings.scanner import number

_FIG = r"[0-9]{1,3}"
_HZ = re.compile(
    rf"(?P<first>{_FIG})(?:\s?[-/]\s?(?P<second>{_FIG}))?\s?(?:Hz|HZ|hz|c/s)(?:(?![A-Za-z])|(?=IP[0-9]))"
)
_IP = re.compile(
    r"IP\s?(?P<code>[0-9X]K?(?:[0-9X]K?)?)"
    rf"(?:(?![0-9A-Za-z])|(?<=[0-9X]{{2}})(?={NUM}\s?m?A(?:MPS?|mps?)?(?![A-Za-z])))",
    re.IGNORECASE,
)
"""Two characteristic numerals (IEC 60529); the next rating may be glued on: ``IP404 A``."""

_GLOW = bounded(
    r"(?:GWFI|GWEPT|GWIT|GWT|GW|[Gg]low[- ]?wire(?: test)?)"
    r"\s?:?\s?(?P<figure>[5-9][0-9]{2})(?:\s?°?\s?C)?"
)
_PTI = bounded(r"(?:PTI|CTI)\s?[>≥]?\s?=?\s?(?P<figure>[1-6][0-9]{2})")
_POLLUTION = re.compile(
    r"(?:PD|[Pp]ollution\s[Dd]egree)\s?(?P<figure>[1-4])(?![0-9A-Za-z])(?:\sor\s[1-4])?"
)
_CLASS = bounded(r"(?:[Pp]rotection\s)?[Cc]lass\s(?P<figure>0|III|II|I)")
_GAP = re.compile(
    rf"[Cc]ontact\s[Gg]ap\s?:?\s?(?P<bound>[<>≤≥])?\s?(?P<gap>{NUM})\s?mm(?:\s?\((?P<micro>[µu])\))?"
)


def _hertz_words(found: re.Match[str]) -> str:
    """A mains frequency with its figures."""
    both = " and ".join(figure for figure in (found["first"], found["second"]) if figure)
    return f"for mains of {both} Hz"


def frequency(scan: ContactScanner) -> bool:
    """50-60Hz, 50/60 Hz, 60Hz."""
    found = scan.take(_HZ, _hertz_words, "IEC 61058-1, rated frequency")
    if found is None:
        return False
    figures = [int(figure) for figure in (found["first"], found["second"]) if figure]
    if any(figure not in {16, 25, 50, 60, 400} for figure in figures):
        scan.warn(f"{found[0]} is not a mains frequency; look at the part again.")
    scan.fact("frequency_hz", figures)
    return True


_SOLIDS = {
    "0": "no guard against touching",
    "1": "no guard below 50 mm",
    "2": "a finger cannot enter",
    "3": "a 2.5 mm tool cannot enter",
    "4": "a 1 mm wire cannot enter",
    "5": "dust-protected",
    "6": "dust-tight",
    "X": "solids not stated",
}
_WATER = {
    "0": "no guard against water",
    "1": "dripping water",
    "2": "dripping water, tilted 15°",
    "3": "spraying water",
    "4": "splashing water",
    "5": "water jets",
    "6": "strong water jets",
    "7": "short immersion",
    "8": "lasting immersion",
    "9": "hot high-pressure jets",
    "X": "water not stated",
}
"""First and second characteristic numeral. Source: IEC 60529, tables of the two numerals."""


def _ip_words(found: re.Match[str]) -> str:
    """Both numerals of an IP code in words."""
    numerals = found["code"].upper().replace("K", "")
    if len(numerals) < 2:
        return "degree of protection, incomplete"
    solids = _SOLIDS.get(numerals[0], "solids not explained")
    return f"degree of protection: {solids}; {_WATER[numerals[1]]}"


def sealing(scan: ContactScanner) -> bool:
    """IP40, IP6K7, IP 65."""
    found = scan.take(_IP, _ip_words, "IEC 60529; ISO 20653 for the letter K")
    if found is None:
        return False
    if len(found["code"]) < 2:
        scan.warn(f"{found[0]} is incomplete: an IP code has two characters.")
    scan.fact("ip", f"IP{found['code'].upper()}")
    return True


def _with_figure(means: str, found: re.Match[str]) -> str:
    """A meaning with its one figure in the place of the ellipsis."""
    return means.replace("…", found["figure"])


def fire_and_tracking(scan: ContactScanner) -> bool:
    """GWT 850, PTI 250, PD2, class I, contact gap."""
    for pattern, name, means, source in _FIRE_LINES:
        found = scan.take(pattern, partial(_with_figure, means), source)
        if found:
            figure = found["figure"]
            scan.fact(name, int(figure) if figure.isdigit() else figure)
            return True
    return _gap(scan)


_FIRE_LINES = (
    (
        _GLOW,
        "glow_wire_c",
        "passes the glow-wire test at … °C",
        "IEC 60695-2-10 to -13; IEC 60335-1 30.2",
    ),
    (_PTI, "pti", "proof tracking index … V", "IEC 60112"),
    (_POLLUTION, "pollution_degree", "pollution degree …", "IEC 61058-1 / IEC 60664-1"),
    (_CLASS, "protection_class", "class … of protection against electric shock", "IEC 61140"),
)


def _gap(scan: ContactScanner) -> bool:
    """Contact gap 3 mm; with < or > it is a bound, not a figure."""
    found = scan.take(
        _GAP,
        lambda m: f"contact gap {m['bound'] or ''}{m['gap']} mm",
        "maker's data sheet; 3 mm is full disconnection",
    )
    if found is None:
        return False
    if found["bound"] is None:
        scan.fact("contact_gap_mm", number(found["gap"]))
    if found["micro"]:
        scan.fact("disconnection", "micro")
    return True
