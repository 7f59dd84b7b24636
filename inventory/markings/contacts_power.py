"""Horsepower, full-load amperes, lamp watts, pilot duty and TV codes of a contact marking."""

from __future__ import annotations

import re
from dataclasses import replace

from inventory.markings.contacts_checks import fits_horsepower
from inventory.markings.contacts_items import Aside, Fact, Horse, Load, Number
from inventory.markings.contacts_scan import NUM, ContactScanner
from inventory.markings.scanner import number

HP = "UL 508 / UL 61058-1, horsepower rating of a motor contact"
FLA = "NEC table 430.248 and UL 508: full-load and locked-rotor amperes beside a horsepower"
PILOT = "UL 508 / IEC 60947-5-1 annex A, contact rating codes (as printed by Eaton)"
TV = "UL 508, TV rating (TV-8: 8 A at 120 V, about 118 A inrush)"

_GLYPHS = {
    "½": 0.5,
    "¼": 0.25,
    "¾": 0.75,
    "⅓": 1 / 3,
    "⅔": 2 / 3,
    "⅙": 1 / 6,
    "⅛": 1 / 8,
    "⅒": 0.1,
}
_HP_UNIT = r"\s{0,2}(?:[Hh]\.?[Pp]\.?|[Hh]orsepower)(?![A-Za-z])"
_HORSE = re.compile(
    rf"(?:(?P<whole>[1-9])[ -]?)?"
    rf"(?:(?P<top>[0-9]{{1,2}})/(?P<low>[1-9][0-9]?)|(?P<glyph>[½¼¾⅓⅔⅙⅛⅒])){_HP_UNIT}|(?P<plain>{NUM}){_HP_UNIT}"
)
_HORSE_VOLTS = re.compile(
    rf"\s{{0,2}}\(\s?(?P<volts>{NUM}(?:\s?[/-]\s?{NUM})?)\s?[Vv]\s?(?:~|AC|ac|\s?a\.?c\.?)?\s?\)"
)
_FULL_LOAD = re.compile(
    rf"\s{{0,2}}[(,]?\s{{0,2}}(?:(?P<figure>{NUM})\s?A?\s?(?P<kind>FLA|LRA)"
    rf"|(?P<kind2>FLA|LRA)\s?[=:]?\s?(?P<figure2>{NUM})\s?A?)\s?\)?(?![A-Za-z0-9])",
    re.IGNORECASE,
)
_BOTH_LOADS = re.compile(
    rf"(?P<first>{NUM})\s?A?\s?(?P<first_kind>FLA(?=.{{0,12}}LRA)|LRA(?=.{{0,12}}FLA))"
    rf"\s?[/,;]\s?(?P<other>{NUM})\s?A?\s?(?:FLA|LRA)(?![A-Za-z0-9])",
    re.IGNORECASE,
)
_PILOT = re.compile(r"(?:[A-E](?:150|300|600)|[NPQR](?:150|300|600))(?![0-9A-Za-z])")
_TV = re.compile(
    r"TV[ -]?(?P<figure>3|5|8|10|15|20)(?![0-9])(?:\s{0,2}rat(?:ing|ed))?"
    r"(?:\s{1,2}(?P<peak>[0-9]{2,3})\s?A(?![0-9A-Za-z]))?"
)
_LAMP_WATTS = re.compile(
    rf"(?P<watts>{NUM})\s?W(?:atts?)?\s{{0,2}}(?:incandescent|tungsten|fluorescent|LED|lamps?)"
    r"(?:\slamps?)?(?:\sload)?(?![A-Za-z])",
    re.IGNORECASE,
)
_WATTS = re.compile(rf"(?P<watts>{NUM})\s?[Ww](?:atts?)?(?![A-Za-z0-9])")
_SPECIFIC = re.compile(rf"(?P<count>[0-9]{{1,2}})\s?[x×X]\s?(?P<watts>{NUM})\s?W\s[a-z]{{4,14}}")
_KILOWATT = re.compile(rf"(?P<kw>{NUM})\s?kW(?![A-Za-z0-9])")


def horse(scan: ContactScanner) -> bool:
    """Horse = [whole] fraction "HP" ["(" volts ")"] [full-load amperes]."""
    found = scan.peek(_HORSE)
    if found is None or _tail_of_a_fraction(scan):
        return False
    scan.items.append(Horse(found.start(), _power(found)))
    scan.take(_HORSE, _horse_words(found), HP)
    _volts_in_brackets(scan)
    _full_load(scan)
    _full_load(scan)
    return True


def _tail_of_a_fraction(scan: ContactScanner) -> bool:
    """True behind ``I/`` or the like: the top of the fraction was not read, so 2 hp is 1/2 hp."""
    return bool(_UNREAD_TOP.search(scan.view[max(0, scan.at - 2) : scan.at]))


_UNREAD_TOP = re.compile(r"[0-9A-Za-z|!]/$")


def _horse_words(found: re.Match[str]) -> str:
    """The horsepower as printed, its unit set off."""
    printed = re.split(r"(?i:\s?h\.?(?:p|orse))", found[0], maxsplit=1)[0]
    return f"switches a motor of {printed.strip(' -')} hp"


def _power(found: re.Match[str]) -> float:
    """The horsepower figure, to four decimals."""
    if found["plain"]:
        return _whole(float(found["plain"].replace(",", ".")))
    part = _GLYPHS[found["glyph"]] if found["glyph"] else int(found["top"]) / int(found["low"])
    return _whole(round(int(found["whole"] or 0) + part, 4))


def _whole(value: float) -> Number:
    """Whole numbers as int."""
    return int(value) if value == int(value) else value


def _volts_in_brackets(scan: ContactScanner) -> None:
    """``1/2 Hp (250 V)``: the bracket is the voltage of the horsepower."""
    found = scan.peek(_HORSE_VOLTS)
    if found is None or not isinstance(scan.items[-1], Horse):
        return
    figures = re.findall(NUM, found["volts"])
    volts = tuple(number(figure) for figure in figures)
    scan.items[-1] = replace(scan.items[-1], volts=volts)
    scan.take(_HORSE_VOLTS, f"{found['volts']} V, the voltage of this horsepower", HP)


def _full_load(scan: ContactScanner) -> None:
    """``(4.4 FLA)``, ``(FLA=20)(LRA=60)`` behind a horsepower."""
    found = scan.peek(_FULL_LOAD)
    last = scan.items[-1]
    if found is None or not isinstance(last, Horse):
        return
    figure = number(found["figure"] or found["figure2"])
    if (found["kind"] or found["kind2"]).upper() == "FLA":
        scan.items[-1] = replace(last, fla=figure)
        means = f"full-load current {figure} A of this motor"
    else:
        scan.items[-1] = replace(last, lra=figure)
        means = f"locked-rotor current {figure} A of this motor"
    scan.take(_FULL_LOAD, means, FLA)


def full_load_alone(scan: ContactScanner) -> bool:
    """7.2FLA/45LRA without a horsepower; what may be an open horsepower's is left to a person."""
    if scan.glued():
        return False
    found = scan.peek(_BOTH_LOADS) or scan.peek(_FULL_LOAD)
    if found is None:
        return False
    amps = _motor_amperes(found)
    spoken = " and ".join(
        f"{_LOAD_NAMES[kind]} current {figure} A" for kind, figure in amps.items()
    )
    scan.take(found.re, f"motor with {spoken}", FLA)
    open_motors = [item for item in scan.items[-4:] if isinstance(item, Horse)]
    if open_motors and fits_horsepower(open_motors[-1].hp, float(amps.get("fla", 0))):
        scan.warn(f"{found[0].strip()}: which voltage of the motor rating it belongs to is open.")
        return True
    for kind, figure in amps.items():
        scan.fact(f"motor_{kind}_a", figure)
    scan.items.append(Aside(found.start()))
    return True


_LOAD_NAMES = {"fla": "full-load", "lra": "locked-rotor"}


def _motor_amperes(found: re.Match[str]) -> dict[str, Number]:
    """The amperes of a match by ``fla`` and ``lra``, as they are printed."""
    said = found.groupdict()
    if "other" in said:
        first = said["first_kind"].lower()
        second = "lra" if first == "fla" else "fla"
        return {first: number(said["first"]), second: number(said["other"])}
    kind = (said["kind"] or said["kind2"]).lower()
    return {kind: number(said["figure"] or said["figure2"])}


PILOT_THERMAL_A = {
    "A": 10,
    "B": 5,
    "C": 2.5,
    "D": 1,
    "E": 0.5,
    "N": 10,
    "P": 5,
    "Q": 2.5,
    "R": 1,
}
"""Continuous amperes of each contact code letter; A to E are a.c., N to R d.c.

Source: UL 508 contact rating codes, as printed by Eaton; C and D from memory.
"""


def _pilot_words(found: re.Match[str]) -> str:
    """A contact rating code: kind of supply, continuous amperes, highest volts."""
    letter, highest = found[0][0], found[0][1:]
    kind = "a.c." if letter in "ABCDE" else "d.c."
    carries = PILOT_THERMAL_A[letter]
    return f"pilot duty, coils on {kind} up to {highest} V; carries {carries} A"


def pilot(scan: ContactScanner) -> bool:
    """Pilot = letter (150 | 300 | 600): a code for coil loads, not amperes."""
    found = scan.take(_PILOT, _pilot_words, PILOT)
    if found:
        scan.fact("pilot_duty", found[0])
        scan.items.append(Aside(found.start()))
    return bool(found)


def television(scan: ContactScanner) -> bool:
    """TV = "TV-" figure: steady tungsten current at 120 V with its inrush."""
    found = scan.peek(_TV)
    if found is None or scan.glued():
        return False
    scan.take(_TV, f"TV rating: {found['figure']} A of tungsten lamps at 120 V a.c.", TV)
    scan.fact("tv", f"TV-{found['figure']}")
    scan.items.append(Aside(found.start()))
    if found["peak"]:
        scan.fact("inrush_a", int(found["peak"]))
    return True


def lamp_watts(scan: ContactScanner) -> bool:
    """``1000 W incandescent lamp``, ``5 x 80 W fluorescent``: a load given by its watts."""
    found = scan.take(_SPECIFIC, "declared specific load", "IEC 61058-1, declared specific load")
    if found:
        scan.fact("specific_load", found[0])
        return True
    found = scan.take(
        _LAMP_WATTS, lambda m: f"lamp load of {m['watts']} W", "maker's data sheet, contact ratings"
    )
    if found:
        scan.items.append(Fact(found.start(), "lamp_w", number(found["watts"])))
        scan.items.append(Aside(found.start()))
    return bool(found) or _watts_of_the_lamp_named(scan)


def _watts_of_the_lamp_named(scan: ContactScanner) -> bool:
    """``Incandescent lamp: 1500 W``: the load is named first, so it is no amperes' load."""
    named = scan.items[-1] if scan.items else None
    if not (isinstance(named, Load) and named.name == "lamp"):
        return False
    found = scan.take(_WATTS, lambda m: f"lamp load of {m['watts']} W", "maker's data sheet")
    if found is None:
        return False
    scan.items[-1] = Fact(found.start(), "lamp_w", number(found["watts"]))
    scan.items.append(Aside(found.start()))
    return True


def kilowatts(scan: ContactScanner) -> bool:
    """Motor rating in kilowatts."""
    found = scan.take(
        _KILOWATT,
        lambda m: f"single-phase motor of {m['kw']} kW",
        "Finder data sheets, motor rating",
    )
    if found:
        scan.fact("motor_kw", number(found["kw"]))
    return bool(found)
