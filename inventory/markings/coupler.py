"""Appliance couplers of IEC 60320 and the plugs at the other end of the cord.

``sheet`` is the standard sheet, ``mates_inlet`` what a connector enters and ``mates_connector``
what an inlet takes. A figure printed on the part stands; the table only adds what is not printed.
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
    NUMBER,
    legend,
    temperature,
    word,
)
from inventory.markings.scanner import Rule, Scanner
from inventory.markings.writing import faithful, write
from inventory.records import Reading

IEC_60320 = "IEC 60320 and AS/NZS 60320.1:2004, as tabled at 2cit.com.au"


class Sheet(NamedTuple):
    """One pair of the standard: connector, then inlet."""

    inlet: str
    protection: str  # class I with an earth pin, class II without
    temp_c: int  # at the pins
    amps: float


SHEETS = {
    "C1": Sheet("C2", "II", 70, 0.2),
    "C3": Sheet("C4", "II", 70, 2.5),
    "C5": Sheet("C6", "I", 70, 2.5),
    "C7": Sheet("C8", "II", 70, 2.5),
    "C9": Sheet("C10", "II", 70, 6),
    "C11": Sheet("C12", "II", 70, 10),
    "C13": Sheet("C14", "I", 70, 10),
    "C15": Sheet("C16", "I", 120, 10),
    "C15A": Sheet("C16A", "I", 155, 10),
    "C17": Sheet("C18", "II", 70, 10),
    "C19": Sheet("C20", "I", 70, 16),
    "C21": Sheet("C22", "I", 155, 16),
    "C23": Sheet("C24", "II", 70, 16),
}
"""Connectors of the standard. Source: the table at 2cit.com.au/corporate/IEC Plug Details."""

INLETS = {pair.inlet: name for name, pair in SHEETS.items()}
"""Inlet to its connector."""

_SHEET = re.compile(
    r"(?:(?P<word>IEC\s?-?(?:60)?320(?:-[123])?)\s?[-/,]?\s?(?:type\s?)?)?"
    r"(?P<name>C\s?-?(?:1[0-9]A?|2[0-4]|[1-9]))(?![0-9A-Za-z])",
    ANY_CASE,
)


def sheet(scan: Scanner) -> bool:
    """Sheet = "IEC 60320"? "C" number "A"?; odd is the connector, even the inlet."""
    found = scan.peek(_SHEET)
    name = re.sub(r"[\s-]", "", found["name"]).upper() if found else ""
    if found is None or name not in {**SHEETS, **INLETS}:
        return False
    if "sheet" in scan.ratings:
        return _second(scan, found, name)
    scan.say("sheet", name)
    connector = name if name in SHEETS else INLETS[name]
    pair = SHEETS[connector]
    if name in SHEETS:
        scan.say("mates_inlet", pair.inlet)
        _cautions(scan, connector)
    else:
        scan.say("mates_connector", connector)
    scan.say("class", pair.protection)
    kind = "connector" if name in SHEETS else "inlet"
    spoken = f"{kind} {name}, class {pair.protection}, {pair.amps} A, {pair.temp_c} °C at the pins"
    return legend(scan, found, {"word": ("the standard", IEC_60320), "name": (spoken, IEC_60320)})


def _second(scan: Scanner, found: re.Match[str], name: str) -> bool:
    """A second sheet on the same part or cord: shown, never mixed with the first."""
    other = name in SHEETS
    scan.say("also_connector" if other else "also_inlet", name)
    return legend(
        scan, found, {"word": ("the standard", IEC_60320), "name": (f"{name}", IEC_60320)}
    )


def _cautions(scan: Scanner, connector: str) -> None:
    """What a look at the shape does not tell."""
    if connector == "C13":
        scan.warn("A C13 connector is for 70 °C: never on a hot C16 inlet.")
    if connector in ("C15", "C15A"):
        scan.warn("A C15 connector also enters a C14 inlet; the inlet's 70 °C then holds.")


_AMPS = re.compile(rf"(?P<amps>{NUMBER})\s?A(?:\s?/\s?(?P<us>{NUMBER})\s?A)?(?![0-9A-Za-z])")
_VOLTS = re.compile(
    rf"(?P<volts>{NUMBER})\s?(?:/\s?(?P<us>{NUMBER})\s?)?V\s?(?:AC|~)?(?![0-9A-Za-z])", ANY_CASE
)


def _amps_words(found: re.Match[str]) -> str:
    """Rated current, and the second figure where two markets are printed."""
    us = f", {found['us']} A in North America" if found["us"] else ""
    return f"rated current {found['amps']} A{us}"


def _volts_words(found: re.Match[str]) -> str:
    """Rated voltage, and the second figure where two markets are printed."""
    us = f", {found['us']} V in North America" if found["us"] else ""
    return f"rated voltage {found['volts']} V{us}"


def amps(scan: Scanner) -> bool:
    """Current = number "A" ("/" number "A")?: IEC, then North America."""
    found = scan.peek(_AMPS)
    if found is None:
        return False
    name = "current_a" if "current_a" not in scan.ratings else "current_us_a"
    scan.say(name, figure(found["amps"]))
    if found["us"]:
        scan.say("current_us_a", figure(found["us"]))
    return scan.take(_AMPS, _amps_words, PRACTICE) is not None


def volts(scan: Scanner) -> bool:
    """Voltage = number "V" "~"?"""
    found = scan.peek(_VOLTS)
    if found is None:
        return False
    name = "voltage_vac" if "voltage_vac" not in scan.ratings else "voltage_us_vac"
    scan.say(name, figure(found["volts"]))
    if found["us"]:
        scan.say("voltage_us_vac", figure(found["us"]))
    return scan.take(_VOLTS, _volts_words, PRACTICE) is not None


_NEMA = re.compile(
    r"(?:(?P<word>NEMA)\s?-?\s?)?(?P<lock>L)?(?P<series>TT|14|10|1|5|6)\s?-\s?"
    r"(?P<amps>15|20|30|50|60)(?P<kind>[PR])?(?![0-9A-Za-z])",
    ANY_CASE,
)
_NEMA_VOLTS = {
    "1": (125, "II"),
    "5": (125, "I"),
    "6": (250, "I"),
    "10": (250, None),
    "14": (250, "I"),
    "TT": (125, "I"),
}
NEMA = "NEMA WD 6, as tabled at utilitiesbunker.com and wiki.toku.us"


def nema(scan: Scanner) -> bool:
    """Plug = "NEMA"? "L"? series "-" ampere ("P" | "R")?; without P or R only after the word."""
    found = scan.peek(_NEMA)
    if found is None or not (found["word"] or found["kind"]):
        return False
    series, kind = found["series"].upper(), (found["kind"] or "").upper()
    voltage, protection = _NEMA_VOLTS[series]
    lock = "L" if found["lock"] else ""
    scan.say("plug", f"{lock}{series}-{found['amps']}{kind}")
    scan.say("current_a", int(found["amps"]))
    scan.say("voltage_vac", voltage)
    if protection:
        scan.say("class", protection)
    if lock:
        scan.say("locking", value=True)
    means = {
        "word": ("the American plug standard", NEMA),
        "lock": ("locks with a turn", NEMA),
        "series": (f"{voltage} V", NEMA),
        "amps": (f"{found['amps']} A", NEMA),
        "kind": ("plug" if kind == "P" else "receptacle", NEMA),
    }
    return legend(scan, found, means)


_PLUG = re.compile(
    r"(?:CEE ?(?P<sheet>7/(?:4|7|16|17))|(?P<schuko>Schuko)|(?P<bs>BS ?1363)(?:/A)?)"
    r"(?![0-9A-Za-z])",
    ANY_CASE,
)


def mains_plug(scan: Scanner) -> bool:
    """Plug = "CEE 7/7" | "Schuko" | "BS 1363": its standard sheet; no rating is printed so."""
    found = scan.take(_PLUG, "type of the mains plug", PRACTICE)
    if found is None:
        return False
    scan.say(
        "plug",
        f"CEE {found['sheet']}" if found["sheet"] else "BS 1363" if found["bs"] else "Schuko",
    )
    return True


RULES: tuple[Rule, ...] = (
    *START,
    sheet,
    nema,
    amps,
    volts,
    temperature,
    word("snap-?in", "how it is mounted", PRACTICE, mount="snap-in"),
    word("flange|screw[ -]mount", "how it is mounted", PRACTICE, mount="flange"),
    mains_plug,
    word(
        "appliance|coupler|connector|inlet|outlet|plug|socket|type", "a word of the trade", PRACTICE
    ),
    *COMMON,
)


def read(text: str) -> Reading:
    """Read what is moulded on an appliance coupler."""
    scan = Scanner(text)
    scan.sweep(RULES)
    _from_sheet(scan)
    return scan.reading("coupler")


def _from_sheet(scan: Scanner) -> None:
    """Current and pin temperature of the sheet, where the part prints none."""
    name = scan.ratings.get("sheet")
    if name is None:
        return
    pair = SHEETS[name if name in SHEETS else INLETS[name]]
    scan.ratings.setdefault("current_a", pair.amps)
    scan.ratings.setdefault("temp_c", pair.temp_c)
    if scan.ratings["temp_c"] < pair.temp_c or scan.ratings["current_a"] < pair.amps:
        scan.warn(f"What is printed is less than sheet {name} asks; the printed figure stands.")


_SURE = re.compile(
    r"IEC\s?-?(?:60)?320|NEMA\s?-?(?:L?[0-9]{1,2}|TT)-[0-9]{2}|\bC1[3-9]A?\b.{0,30}\bC1[3-9]A?\b",
    ANY_CASE,
)
_ALONE = re.compile(
    r"\s*C\s?-?(?:1[0-9]A?|2[0-4]|[1-9])(?:\s+(?:connector|inlet|plug|socket))?\s*", ANY_CASE
)
_PLUG_ALONE = re.compile(r"\s*(?:L?(?:[156]|10|14)|TT)-(?:15|20|30|50)[PR]\s*", ANY_CASE)
_RATED = re.compile(
    r"(?<![0-9A-Za-z])C(?:5|7|13|14|15A?|16A?|19|20)(?![0-9A-Za-z]).{0,20}[0-9]\s?A", ANY_CASE
)


def likely(text: str) -> float:
    """How strongly a text looks like this family, 0 to 1."""
    if _SURE.search(text):
        return 0.95
    alone = _ALONE.fullmatch(text) or _PLUG_ALONE.fullmatch(text) or _PLUG.match(text)
    return 0.8 if alone or _RATED.search(text) else 0.0


def canonical(reading: Reading) -> str:
    """Sheet or plug, with the figures printed."""
    return faithful(reading, _written(reading), read)


def _written(reading: Reading) -> str:
    """The ratings written out."""
    return write(
        reading.ratings,
        ("sheet", "{}"),
        ("plug", lambda name: f"NEMA {name}" if name[0].isdigit() else name),
        ("current_a", "{}A"),
        ("voltage_vac", "{}V"),
        ("temp_c", "{}°C"),
    )
