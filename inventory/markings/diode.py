"""Rectifier diodes and bridges: reverse voltage, current and package from the type code.

The number is an index into the maker's table, so each row has its source. Where makers number
the same name differently both readings are offered and none is set.
"""

from __future__ import annotations

import re
from dataclasses import dataclass

from inventory.markings import diode_bridges, diode_names
from inventory.markings.amounts import PRACTICE
from inventory.markings.bookkeeping import START
from inventory.markings.passive_marks import (
    ANY_CASE,
    COMMON,
    Meaning,
    amount,
    legend,
    word,
)
from inventory.markings.scanner import Rule, Scanner
from inventory.markings.writing import faithful
from inventory.records import Reading

STEPS = (50, 100, 200, 400, 600, 800, 1000)
"""Volts of the seven members of most rectifier series."""

_LETTERED = dict(zip("ABDGJKM", STEPS, strict=True))
_HUNDREDS = {"005": 50, "01": 100, "02": 200, "04": 400, "06": 600, "08": 800, "10": 1000}


@dataclass(frozen=True, slots=True)
class Series:
    """One numbered series: what follows the stem picks the voltage."""

    stem: str
    members: dict[str, int]  # what follows the stem, and its volts
    amps: float
    package: str | None
    kind: str
    source: str


def _run(first: int, volts: tuple[int, ...] = STEPS, width: int = 2) -> dict[str, int]:
    """Members numbered one by one from a first number on."""
    return {f"{first + step:0{width}d}": value for step, value in enumerate(volts)}


RECTIFIERS = (
    Series(
        "1N4",
        _run(1, width=3),
        1,
        "DO-41",
        "rectifier",
        "Diodes Inc., 1N4001-1N4007 (dtsheet 260565)",
    ),
    Series(
        "1N54",
        _run(0, (50, 100, 200, 300, 400, 500, 600, 800, 1000)),
        3,
        "DO-201AD",
        "rectifier",
        "Synsemi 1N5400-1N5408 (dtsheet 712847)",
    ),
    Series(
        "1N53",
        _run(91, (50, 100, 200, 300, 400, 500, 600, 800, 1000)),
        1.5,
        None,  # EIC prints DO-41, Pingwei DO-15
        "rectifier",
        "EIC 1N5391-1N5399 (dtsheet 1431813)",
    ),
    Series("RL1", _run(51), 1.5, "DO-15", "rectifier", "Rectron RL151-RL157"),
    Series("RL2", _run(1), 2, "DO-15", "rectifier", "Rectron RL201-RL207, from memory"),
    Series("RL2", _run(51), 2.5, "R-3", "rectifier", "Rectron RL251-RL257"),
    Series("2A", _run(1), 2, "DO-15", "rectifier", "Thinki 2A01-2A07 (dtsheet 1375604)"),
    Series("FR1", _run(1), 1, "DO-41", "fast rectifier", "FR101-FR107, package from memory"),
    Series("FR2", _run(1), 2, "DO-15", "fast rectifier", "FR201-FR207, from memory"),
    Series("FR3", _run(1), 3, "DO-201AD", "fast rectifier", "FR301-FR307, from memory"),
    Series("UF4", _run(1, width=3), 1, "DO-41", "ultrafast rectifier", "UF4001-4007, from memory"),
    Series(
        "1N58",
        _run(17, (20, 30, 40)),
        1,
        "DO-41",
        "Schottky rectifier",
        "RFE 1N5817-1N5819 (dtsheet 1313526)",
    ),
    Series(
        "1N58",
        _run(20, (20, 30, 40)),
        3,
        "DO-201AD",
        "Schottky rectifier",
        "1N5820-1N5822, from memory",
    ),
    Series("GBU4", _LETTERED, 4, "GBU", "bridge", "as GBU8A-GBU8M"),
    Series("GBU6", _LETTERED, 6, "GBU", "bridge", "as GBU8A-GBU8M"),
    Series("GBU8", _LETTERED, 8, "GBU", "bridge", "EIC GBU8A-GBU8M"),
    Series("DB1", _run(1), 1, "DB", "bridge", "Multicomp DB101S-DB107S (datasheet.directory)"),
    Series("DB1", _run(51), 1.5, "DB", "bridge", "DB151-DB157, from memory"),
    Series("KBP2", _HUNDREDS, 2, "KBP", "bridge", "KBP2005-KBP210, from memory"),
    Series("RS4", _run(1), 4, "RS-4L", "bridge", "Diodes Inc., RS401L-RS407L"),
)
"""Numbered series met in appliances."""

HER_BOTH = {"104": (300, 400), "105": (400, 600), "106": (600, 800), "107": (800, 1000)}
"""HER10x of two numberings. Sources: Diotech HER101-108 and Secos HER101-107."""

_TABLE = {
    f"{row.stem}{end}": (row, volts) for row in RECTIFIERS for end, volts in row.members.items()
}
_NAMES = sorted(_TABLE, key=len, reverse=True)
_TYPE = re.compile(
    rf"(?P<type>{'|'.join(_NAMES)})(?P<tail>[GLS]{{0,2}})(?P<pack>\s?-(?:[BFGT]|TR|TP))?(?![0-9A-Za-z])",
    ANY_CASE,
)
_A_405 = {"1N4", "FR1"}
"""Stems whose L or S means the small A-405 body. Sources: Diodes Inc. 1N400xL; TSC FR10xSG."""


def numbered(scan: Scanner) -> bool:
    """Type = stem number ("G" | "L" | "S")* packing?"""
    found = scan.peek(_TYPE)
    if found is None:
        return False
    row, volts = _TABLE[found["type"].upper()]
    small = row.stem in _A_405 and bool({"L", "S"} & set(found["tail"].upper()))
    package = "A-405" if small else row.package
    for name, value in (
        ("vrrm_v", volts),
        ("if_a", row.amps),
        ("package", package),
        ("kind", row.kind),
    ):
        if value is not None:
            scan.say(name, value)
    means = {
        "type": (
            f"{row.kind}, {volts} V, {row.amps} A, {package or 'package by maker'}",
            row.source,
        ),
        "tail": _tail(found["tail"], small=small),
        "pack": ("packing", PRACTICE),
    }
    return legend(scan, found, means)


def _tail(letters: str, *, small: bool) -> Meaning:
    """What stands behind the number."""
    said = ["body A-405"] if small else []
    said += ["glass passivated"] if "G" in letters.upper() else []
    return ", ".join(said) or "maker's ending", "Diodes Inc. and TSC data sheets"


_HER = re.compile(r"(?P<type>HER)(?P<number>10[1-8])(?P<tail>G?)(?![0-9A-Za-z])", ANY_CASE)


def two_numberings(scan: Scanner) -> bool:
    """Type = "HER10" digit: two makers count the volts differently from 104 on."""
    found = scan.peek(_HER)
    if found is None:
        return False
    source = "Diotech HER101-108; Secos HER101-107"
    scan.say("if_a", 1)
    scan.say("package", "DO-41")
    scan.say("kind", "ultrafast rectifier")
    means = {
        "type": ("ultrafast rectifier, 1 A, DO-41", source),
        "number": (_her_volts(scan, found["number"]), source),
        "tail": ("glass passivated", PRACTICE),
    }
    return legend(scan, found, means)


def _her_volts(scan: Scanner, number: str) -> str:
    """Volts of a HER number, where all makers agree."""
    if number in HER_BOTH:
        low, high = HER_BOTH[number]
        for volts in (low, high):
            scan.propose(f"HER{number} {volts} V", "makers number HER10x differently", vrrm_v=volts)
        scan.warn(f"HER{number} is {low} V of one maker and {high} V of another.")
        return f"{low} or {high} V, by maker"
    volts = {"101": 50, "102": 100, "103": 200, "108": 1000}[number]
    scan.say("vrrm_v", volts)
    return f"{volts} V"


_SIGNAL = re.compile(r"(?P<type>1N4148|1N914)(?P<tail>[AB]?)(?![0-9A-Za-z])", ANY_CASE)


def signal(scan: Scanner) -> bool:
    """Type = "1N4148" | "1N914": the small signal diodes."""
    found = scan.peek(_SIGNAL)
    if found is None:
        return False
    scan.say("vrrm_v", 100)
    scan.say("package", "DO-35")
    scan.say("kind", "signal diode")
    means = {
        "type": ("signal diode, 100 V, DO-35; its current differs by maker", "from memory"),
        "tail": ("variant", PRACTICE),
    }
    return legend(scan, found, means)


_REVERSE = amount("V", "vrrm_v", "reverse voltage")
_ZENER = amount("V", "vz_v", "Zener voltage")
_SAYS_ZENER = re.compile(r"zener|z-?diode|BZ[A-Z][0-9]{2}|1N47[2-6]", ANY_CASE)


def printed_volts(scan: Scanner) -> bool:
    """Volts = number "V": what a Zener holds, of any other diode what it blocks."""
    return (_ZENER if _SAYS_ZENER.search(scan.view[:400]) else _REVERSE)(scan)


RULES: tuple[Rule, ...] = (
    *START,
    numbered,
    two_numberings,
    signal,
    *diode_bridges.LINES,
    *diode_names.ZENERS,
    diode_names.registered,
    printed_volts,
    amount("A", "if_a", "forward current"),
    amount("W", "power_w", "power"),
    word("zener|z-?diode", "holds a voltage", PRACTICE, kind="zener diode"),
    word("diode|rectifier|bridge", "the word for the part", PRACTICE),
    word("~|[+-](?=\\s|$)", "polarity mark at a lead", PRACTICE),
    *COMMON,
)


def read(text: str) -> Reading:
    """Read what is printed on a rectifier diode or a bridge."""
    scan = Scanner(text)
    scan.sweep(RULES)
    return scan.reading("diode")


_WORD = re.compile(r"\b1N[0-9]{3,4}|\b(?:rectifier|bridge|diode)\b", ANY_CASE)


def likely(text: str) -> float:
    """How strongly a text looks like this family, 0 to 1."""
    bare = text.strip()
    if _TYPE.match(bare) or _HER.match(bare) or diode_bridges.SURE.match(bare):
        return 0.95
    if diode_names.SURE.match(bare):
        return 0.9
    return 0.5 if _WORD.search(text) else 0.0


def canonical(reading: Reading) -> str:
    """The first type of the table with the same figures."""
    return faithful(reading, _written(reading), read)


def _written(reading: Reading) -> str:
    """The ratings written out."""
    wanted = {n: reading.ratings.get(n) for n in ("vrrm_v", "if_a", "package", "kind")}
    for name, (row, volts) in _TABLE.items():
        if wanted == {"vrrm_v": volts, "if_a": row.amps, "package": row.package, "kind": row.kind}:
            return name
    return ""
