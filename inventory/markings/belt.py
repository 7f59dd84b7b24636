"""Drive belts: profile, ribs, length and its system, width.

``length_system`` is Li (inside), La (outside), Lw or Lp (pitch), Le (effective), and only set
where it is printed; the three differ by centimetres.
"""

from __future__ import annotations

import re

from inventory.markings.amounts import PRACTICE, review
from inventory.markings.belt_sections import NARROW_MM, NUMBERS, timing, v_belt
from inventory.markings.bookkeeping import START
from inventory.markings.figures import figure
from inventory.markings.passive_marks import (
    ANY_CASE,
    COMMON,
    legend,
    word,
)
from inventory.markings.scanner import Rule, Scanner
from inventory.markings.writing import faithful, write
from inventory.records import Reading

ISO_9982 = "ISO 9982:2019, profiles PH, PJ, PK, PL and PM, as quoted at pti-latam.com"
RIB_PITCH_MM = {"PH": 1.6, "PJ": 2.34, "PK": 3.56, "PL": 4.7, "PM": 9.4}
"""Rib pitch of each profile, mm. Source: ISO 9982:2019."""

GRIDOTO = "gridoto.com, how V-belt codes are read (RPF 2365 9,5x925; R-A 3 PK 1920)"
BANDED = "rogerbrownco.com, sizing V-belts: 845K8 is 84.5 inch outside and 8 ribs"

_RIBBED = re.compile(
    r"(?:(?P<brand>R-?A)\s?)?(?P<ribs>[1-9][0-9]?)\s?(?P<elastic>E)?\s?(?P<profile>P[HJKLM])\s?"
    r"(?P<elastic2>E)?\s?-?\s?(?P<length>[1-9][0-9]{2,3}(?:[.,][0-9])?)?(?P<unit>\s?mm)?(?![0-9A-Za-z])"
)
_LENGTH_FIRST = re.compile(
    r"(?:(?P<elastic>EL?)\s?-?\s?)?(?P<length>[1-9][0-9]{2,3})\s?(?P<profile>P?[HJKLM])\s?(?P<ribs>[1-9][0-9]?)"
    r"(?P<elastic2>E)?(?![0-9A-Za-z])"
)
_PROFILE_FIRST = re.compile(
    r"(?P<profile>P[HJKLM])\s?-?\s?(?P<length>[1-9][0-9]{2,3})(?:\s?[-/xX×]\s?(?P<ribs>[1-9][0-9]?))?(?![0-9A-Za-z])"
)


def ribbed(scan: Scanner) -> bool:
    """Poly-V = ribs profile length | length profile ribs | profile length ribs?"""
    found = scan.peek(_RIBBED) or scan.peek(_LENGTH_FIRST) or scan.peek(_PROFILE_FIRST)
    if found is None:
        return False
    groups = found.groupdict()
    profile = groups["profile"] if len(groups["profile"]) == 2 else f"P{groups['profile']}"
    scan.say("profile", profile)
    scan.say("rib_pitch_mm", RIB_PITCH_MM[profile])
    if groups["ribs"]:
        scan.say("ribs", int(groups["ribs"]))
    short = len(groups["profile"]) == 1
    length = _length(scan, groups["length"], profile, short=short) if groups["length"] else ""
    if groups.get("elastic") or groups.get("elastic2"):
        scan.say("elastic", value=True)
    if groups.get("brand"):
        scan.say("type", groups["brand"])
    means = {
        "brand": ("maker's name of the type", GRIDOTO),
        "ribs": (f"{groups['ribs']} ribs", ISO_9982),
        "profile": (
            f"profile {profile}, ribs {RIB_PITCH_MM[profile]} mm apart",
            "washing-machine practice: J for PJ" if short else ISO_9982,
        ),
        "length": (length, BANDED if "inch" in length else ISO_9982),
        "unit": ("millimetres", PRACTICE),
        "elastic": ("stretch belt", PRACTICE),
        "elastic2": ("stretch belt", PRACTICE),
    }
    return legend(scan, found, {n: m for n, m in means.items() if n in groups})


def _length(scan: Scanner, text: str, profile: str, *, short: bool) -> str:
    """Set the length of a poly-V belt and hand back how it is spoken.

    With the profile's full name it is millimetres, and so with four figures of H or J alone; K,
    L and M alone with three are American: tenths of an inch. Any other could be either.
    """
    american = profile in ("PK", "PL", "PM")
    if not short or (not american and len(text) > 3):
        scan.say("length_mm", figure(text))
        return f"{text} mm long"
    inches = figure(text, -1)
    if american and len(text) == 3:
        scan.say("length_in", inches)
        scan.say("length_system", "La")
        return f"{inches} inch long outside"
    scan.propose(f"{text} mm", "read as millimetres", length_mm=figure(text))
    scan.propose(f"{inches} inch", "read as tenths of an inch", length_in=inches)
    review(scan, f"{text} may be millimetres or tenths of an inch ({inches}); measure the belt.")
    return "length, in millimetres or tenths of an inch"


_RAW_EDGE = re.compile(r"(?P<type>RPF|REC|RECMF|RCMF)\s?-?\s?(?P<code>[0-9]{4})(?![0-9])", ANY_CASE)
_FM_WIDTH = {"1": None, "2": 9.5, "3": 10.5, "5": 12.5, "6": 14, "8": 18}


def raw_edge(scan: Scanner) -> bool:
    """Code = type width-digit length in tenths of an inch, e.g. RPF 2365."""
    found = scan.peek(_RAW_EDGE)
    if found is None:
        return False
    scan.say("type", found["type"].upper())
    tenths = int(found["code"][1:])
    scan.say("length_in", tenths / 10)
    means = {
        "type": ("raw-edge fan belt", GRIDOTO),
        "code": (f"width number {found['code'][0]}, {tenths / 10} inch long", GRIDOTO),
    }
    return legend(scan, found, means)


_WIDTH_LENGTH = re.compile(
    r"(?:AVX)?(?P<width>[4-9]|[1-4][0-9]|[4-9][.,][0-9]|1[0-9][.,][0-9])\s?[xX×*]\s?"
    r"(?P<length>[1-9][0-9]{2,3}(?:[.,][0-9])?)\s?(?P<unit>mm)?\s?(?P<system>L[iawped])?(?![0-9A-Za-z])"
)


def width_length(scan: Scanner) -> bool:
    """Size = width "x" length system?, both in mm."""
    found = scan.peek(_WIDTH_LENGTH)
    if found is None:
        return False
    scan.say("width_mm", figure(found["width"]))
    scan.say("length_mm", figure(found["length"]))
    if found["system"]:
        scan.say("length_system", found["system"])
    means = {
        "width": (f"{found['width']} mm wide at the top", GRIDOTO),
        "length": (f"{found['length']} mm long", GRIDOTO),
        "unit": ("millimetres", PRACTICE),
        "system": (_SYSTEMS.get(found["system"] or "", ""), PRACTICE),
    }
    return legend(scan, found, means)


_SYSTEMS = {
    "Li": "inside length",
    "La": "outside length",
    "Lw": "pitch length",
    "Lp": "pitch length",
    "Ld": "datum length",
    "Le": "effective length",
}
_SYSTEM = re.compile(r"(?P<system>L[iawpde])(?![0-9A-Za-z])")


def length_system(scan: Scanner) -> bool:
    """System = "Li" | "La" | "Lw" | "Lp" | "Ld" | "Le"."""
    found = scan.peek(_SYSTEM)
    if found is None:
        return False
    scan.say("length_system", found["system"])
    return scan.take(_SYSTEM, _SYSTEMS[found["system"]], PRACTICE) is not None


RULES: tuple[Rule, ...] = (
    *START,
    ribbed,
    raw_edge,
    timing,
    width_length,
    v_belt,
    length_system,
    word("EL|elastic|stretch", "stretch belt", PRACTICE, elastic=True),
    word("EPDM", "rubber", PRACTICE, material="EPDM"),
    word("CR|neoprene", "rubber", PRACTICE, material="chloroprene"),
    word("belt|poly-?v|v-?belt|drive|ribs?|HTD|mm", "word of the trade", PRACTICE),
    *COMMON,
)


def read(text: str) -> Reading:
    """Read what is printed on a belt."""
    scan = Scanner(text)
    scan.sweep(RULES)
    _inches(scan)
    return scan.reading("belt")


def _inches(scan: Scanner) -> None:
    """Inches and millimetres of one belt must agree; alone, inches give the inside length."""
    inches, length = scan.ratings.get("length_in"), scan.ratings.get("length_mm")
    if inches is None:
        return
    if length is None and "length_system" in scan.ratings:
        scan.assume("length_mm", round(inches * 25.4), NUMBERS)
    elif length is None:
        source = "common practice: the number is the inside length in inches"
        scan.assume("length_mm", round(inches * 25.4), source)
        scan.assume("length_system", "Li", source)
    elif abs(inches * 25.4 - length) > 0.02 * length:
        scan.warn(f"{inches} inch are {inches * 25.4:.0f} mm, but {length} mm is printed.")


_SURE = re.compile(
    r"(?<![0-9A-Za-z])(?:[1-9][0-9]?\s?E?\s?P[HJKLM]E?(?![A-Za-z])|P[HJKLM]\s?-?[1-9][0-9]{2,3}"
    r"|[1-9][0-9]{2,3}\s?[HJ]\s?[4-9](?![0-9])|[SX]P[ZABC]\s?[1-9][0-9]{2,3}|RPF|[345]L\s?[1-9][0-9]{2,3}K?(?![0-9A-Za-z])"
    r"|[358]V[XK]?[1-9][0-9]{2,3}(?![0-9A-Za-z.])|(?:poly-?)?v-?belt|belt\b)",
    ANY_CASE,
)
_MAYBE = re.compile(
    r"\s*(?:[0-9]{1,2}(?:[.,][0-9])?\s?[x×]\s?[1-9][0-9]{2,3}\s?L[iawpde]|[1-9][0-9]{1,2}-?[358]M-?[0-9]{1,2}"
    r"|[1-9][0-9]{1,3}(?:MXL|X?L|X{0,2}H)(?:025|03[17]|050|075|[1-4]00)|[1-9][0-9]{2,3}[KLM][1-9][0-9]?)\s*"
)


def likely(text: str) -> float:
    """How strongly a text looks like this family, 0 to 1."""
    if _SURE.search(text):
        return 0.9
    if _MAYBE.fullmatch(text):
        return 0.7
    section = _SECTION.fullmatch(text)
    return 0.3 if section and _is_made(section["section"].upper(), int(section["inch"])) else 0.0


_SECTION = re.compile(r"\s{0,9}(?P<section>[A-E][XK]?)-?(?P<inch>[1-9][0-9]{1,2})\s{0,9}", ANY_CASE)
_MADE_IN = {"A": (15, 400), "B": (20, 800), "C": (32, 800), "D": (80, 800), "E": (105, 800)}
"""Shortest and longest belt of a section, in inches. Source: mastertoolrepair.com, belt range."""


def _is_made(section: str, inches: int) -> bool:
    """True where belts of that section come in that length."""
    low, high = _MADE_IN[section[0]]
    return low <= inches <= high


def canonical(reading: Reading) -> str:
    """Ribs, profile and length as the standard writes them."""
    return faithful(reading, _written(reading), read)


def _written(reading: Reading) -> str:
    """The ratings written out."""
    said = dict(reading.ratings)
    if {"ribs", "profile", "length_mm"} <= said.keys():
        stretch = "E" if said.get("elastic") else ""
        return f"{said['ribs']}{stretch}{said['profile']}{said['length_mm']}"
    if {"width_mm", "length_mm"} <= said.keys() and "profile" not in said:
        return f"{said['width_mm']}x{said['length_mm']} {said.get('length_system', '')}".strip()
    if said.get("profile") in NARROW_MM:
        return write(said, ("profile", "{}"), ("length_mm", "{}"))
    return ""
