"""Power cords: harmonised codes, North American cord types, cores, area, gauge.

Sources: CENELEC HD 361 as tabled at cable-world.co.uk, a guide to harmonised cable codes; UL 62
cord types as tabled by iewc.com and interpower.com.
"""

from __future__ import annotations

import re

from inventory.markings.amounts import PRACTICE
from inventory.markings.bookkeeping import START
from inventory.markings.cable_size import SIZES
from inventory.markings.coupler import nema, sheet
from inventory.markings.harmonised import bare_area, code, harmonised, iec_227
from inventory.markings.passive_marks import (
    COMMON,
    amount,
    legend,
    temperature,
    word,
)
from inventory.markings.scanner import Rule, Scanner
from inventory.markings.writing import faithful, write
from inventory.records import Reading

UL_62 = "UL 62 cord types, as tabled at iewc.com"
"""Source of the cord types."""

_UL_TYPE = re.compile(
    r"(?P<type>NISPT-[12]|SPT-[123]W?|SP[ET]?-[123]|HPN|HPD|HSJO{0,2}|S[VJ]?[ET]?O{0,2}W?(?:-A)?"
    r"|TPT|TST|XTW|SRD[ET]?)(?![0-9A-Za-z])"
)
_NOT_A_TYPE = {"S"}
"""Letters that are a type only in front of a gauge."""


def ul_type(scan: Scanner) -> bool:
    """Type = "S" ("V" | "J" | "P")? ("T" | "E")? "O"* "W"? ...: what each letter adds."""
    found = scan.peek(_UL_TYPE)
    if found is None or (
        found["type"] in _NOT_A_TYPE and not _AWG_AHEAD.match(scan.view, found.end())
    ):
        return False
    kind = found["type"]
    scan.say("type", kind)
    scan.say("voltage_v", _cord_volts(kind))
    service = _service(kind)
    if service:
        scan.say("service", service)
    jacket = _jacket(kind)
    if jacket:
        scan.say("jacket", jacket)
    if "W" in kind:
        scan.say("outdoor", value=True)
    if "O" in kind:
        scan.say("oil_resistant", value=True)
    return legend(scan, found, {"type": (_spoken(kind, jacket), UL_62)})


_AWG_AHEAD = re.compile(r"\s?[0-9]{1,2}\s?(?:AWG|/)")


def _cord_volts(kind: str) -> int:
    """Rated voltage of a cord type; only hard service without J, V or P has 600 V."""
    if kind in ("TPT", "TST"):
        return 250 if kind == "TPT" else 125
    hard = re.fullmatch(r"S[ET]?O{0,2}W?(?:-A)?", kind)
    return 600 if hard else 300


def _service(kind: str) -> str | None:
    """The duty class a type belongs to: parallel, vacuum, junior or full hard service."""
    for stem, service in (("NISPT", "SPT"), ("SP", "SPT"), ("SV", "SVT"), ("SJ", "SJT")):
        if kind.startswith(stem):
            return service
    return "ST" if _cord_volts(kind) == 600 else None


def _jacket(kind: str) -> str | None:
    """Material of the jacket, where the letters say one."""
    if kind.startswith(("HPN", "HSJ", "TS", "XT", "SRD", "HPD")):
        return None
    if "T" in kind:
        return "thermoplastic"
    return "elastomer" if "E" in kind else "rubber"


def _spoken(kind: str, jacket: str | None) -> str:
    """A cord type in words."""
    said = [f"{_cord_volts(kind)} V"]
    said += ["parallel cord"] if "P" in kind else []
    said += ["heater cord"] if kind.startswith("H") else []
    said += ["vacuum cleaner cord"] if kind.startswith("SV") else []
    said += ["junior hard service"] if "SJ" in kind else []
    said += [f"{jacket} jacket"] if jacket else []
    said += ["oil-resistant"] if "O" in kind else []
    said += ["for outdoors"] if "W" in kind else []
    return ", ".join(said)


RULES: tuple[Rule, ...] = (
    *START,
    harmonised,
    iec_227,
    nema,
    sheet,
    ul_type,
    *SIZES,
    bare_area,
    temperature,
    amount("V(?:AC)?", "voltage_v", "rated voltage"),
    amount("A", "current_a", "rated current"),
    amount("m", "length_m", "length"),
    word("water resistant|oil resistant", "said of the jacket", PRACTICE),
    word("cords?|cable|power supply|shielded", "the word for the part", PRACTICE),
    word("RVV|RVB|YZW|VCTF|HVCTF|VFF", "national cord type", PRACTICE),
    *COMMON,
)


def read(text: str) -> Reading:
    """Read what is printed along a power cord."""
    scan = Scanner(text)
    scan.sweep(RULES)
    return scan.reading("cord")


_SURE = re.compile(
    r"(?<![0-9A-Za-z])(?:[HA]0[1357][A-Z0-9]{1,6}-[A-Z](?![A-Za-z])|(?:NI)?SPT-[123]|SJ[TEO]{1,4}W?|SV[TEO]{1,3}"
    r"|S[TE]?OO?W|S[TE]OO?|HPN|HSJO?)(?![A-Za-z])"
)
_MAYBE = re.compile(
    r"(?<![0-9A-Za-z])[2-5]\s?[GgXx×]\s?[0-9](?:[.,][0-9]{1,2})?\s?mm|(?<![0-9])1[0-8]\s?/\s?[23](?![0-9])|[0-9]{2}\s?AWG\s?[X/]?\s?[2-5]\s?C"
)


_HARMONISED_SMALL = re.compile(r"\s{0,9}[ha]0[1357][a-z0-9]{1,6}-[a-z](?![A-Za-z])")
_ALONE = re.compile(r"\s*(?:STW?|TPT|TST|SJ|SV|SOW?|SE|XTW|SRD[ET]?)\s*")


def likely(text: str) -> float:
    """How strongly a text looks like this family, 0 to 1."""
    if _SURE.search(text) or _HARMONISED_SMALL.match(text):
        return 0.95
    if _ALONE.fullmatch(text):
        return 0.4
    return 0.5 if _MAYBE.search(text) else 0.0


def canonical(reading: Reading) -> str:
    """Type, cores and size in their plainest form."""
    return faithful(reading, _written(reading), read)


def _written(reading: Reading) -> str:
    """The ratings written out."""
    said = dict(reading.ratings)
    if "area_mm2" in said and "cores" in said:
        said["cores"] = f"{said['cores']}{'G' if said.get('earth') else 'X'}{said['area_mm2']}"
    elif "cores" in said:
        said["cores"] = f"{said['cores']}C"
    return write(
        {"code": code(said), **said},
        ("code", "{}"),
        ("type", "{}"),
        ("awg", "{}AWG"),
        ("cores", "{}"),
        ("temp_c", "{}°C"),
        ("flame_rating", "{}"),
    )
