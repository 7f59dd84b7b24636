"""Appliance lamps: base, volts, watts, the heat they stand, and the bulb's shape and size."""

from __future__ import annotations

import re

from inventory.markings.amounts import (
    GAPS,
    PRACTICE,
    SI,
    Phrase,
    approvals,
    listed,
    phrases,
    plain_number,
    volts,
    watts,
)
from inventory.markings.scanner import Rule, Scanner
from inventory.markings.temperatures import temperature, usable
from inventory.markings.writing import write
from inventory.records import Reading

BASES = "IEC 60061 cap designations: letters, mm, contacts (lamptech.co.uk, cap nomenclature)"
_SPACINGS = r"(?:4|5(?:\.3)?|6\.35|8(?:\.5)?|9(?:\.5)?|10[qy]?|12|13|22|23|24|38|53)"
_BASE = re.compile(
    rf"(?P<base>E(?:5(?:[.,]5)?|10|11|12|14|17|26|27|39|40)|BA(?:7|9|15|20)[sd]|BA[XY](?:9|15|22)[sd]"
    rf"|B(?:15|22)[sd]?(?:-[13])?|BY22d|2?G[UXYZR]{_SPACINGS}[qd]?(?:-[1-5])?|G{_SPACINGS}[qd]?(?:-[1-5])?"
    r"|2G(?:7|11)|Fa[68]|R7s|RX7s|S(?:14|15|19)[sd]?|SV(?:7|8\.5)|P[0-9]{2}[.,]?[0-9]?[sd]|W2[.,]1x9[.,]5d"
    r"|W3x16d)(?![0-9A-Za-z])",
    re.IGNORECASE,
)


def _base(scan: Scanner) -> bool:
    """Base = "E14" | "B15d" | "G9" ...; letters and contact diameter in mm."""
    found = scan.take(_BASE, lambda m: f"base (lamp cap) {m['base']}", BASES)
    if found is None:
        return False
    said = found["base"].upper().replace(",", ".").replace("X16", "x16").replace("1X9", "1x9")
    scan.say("base", re.sub(r"(?<=[0-9])[SDQY](?![0-9])", lambda m: m[0].lower(), said))
    return True


LISTED = "lightbulbworld.co.uk, lamp caps and bases: SBC, BC, SES, ES"
_NAMED_BASE = phrases(
    Phrase(r"SES|small edison(?: screw)?", "small Edison screw", {"base": "E14"}),
    Phrase(r"SBC|small bayonet(?: cap)?", "small bayonet", {"base": "B15d"}),
    Phrase(r"ES|edison screw", "Edison screw", {"base": "E27"}, LISTED),
    Phrase(r"BC|bayonet cap", "bayonet cap", {"base": "B22d"}, LISTED),
    Phrase(r"intermediate(?: base)?", "intermediate screw", {"base": "E17"}),
    Phrase(r"candelabra(?: base)?", "candelabra screw", {"base": "E12"}),
    Phrase(r"medium(?: base)?", "medium screw", {"base": "E26"}),
)
EIGHTHS = "ANSI bulb designations: letter and diameter in eighths of an inch, from memory"
METRIC = "IEC 61231 bulb codes: letter and diameter in mm, from memory"
_EIGHTHS_UP_TO = {"T": 14, "A": 24, "S": 19, "ST": 19, "G": 40, "B": 15, "C": 15, "P": 30,
                  "MR": 99, "PAR": 99}  # fmt: skip
"""Up to this figure a bulb of the letter is measured in eighths of an inch, above it in mm."""

_R_EIGHTHS = frozenset({12, 14, 16, 20, 30, 40})
_NOMINAL = {"MR16": 50, "MR11": 35}
"""Reflectors that are called by round figures. Source: lightbulbworld.co.uk."""

_SHAPE = re.compile(
    r"(?P<letter>ST|MR|PAR|T|S|A|G|P|C|B|R)(?P<n>[0-9]{1,2}(?:\.5)?)(?![0-9A-Za-z])"
)
_HEAT_MARK = re.compile(r"T(?P<c>[0-9]{3})(?![0-9A-Za-z])")


def _shape(scan: Scanner) -> bool:
    """Shape = letter figure; T7 is a tube of 7/8 inch, G45 a ball of 45 mm."""
    found = scan.peek(_SHAPE)
    if found is None:
        return False
    letter, size = found["letter"], float(found["n"])
    inches = size <= _EIGHTHS_UP_TO.get(letter, 0) or (letter == "R" and size in _R_EIGHTHS)
    across = _NOMINAL.get(found.group()) or (
        round(size * 25.4 / 8) if inches else plain_number(found["n"])
    )
    means = f"bulb shape {found['letter']}, {across} mm across"
    scan.take(_SHAPE, means, EIGHTHS if inches else METRIC)
    scan.say("shape", found.group())
    scan.say("diameter_mm", across)
    return True


def _heat(scan: Scanner) -> bool:
    """Heat = temperature | "T" three figures: the ambient the lamp stands, °C."""
    found = scan.take(
        _HEAT_MARK, lambda m: f"highest temperature {int(m['c'])} °C", f"{PRACTICE}, from memory"
    )
    if found:
        scan.say("temp_c", int(found["c"]))
        return True
    read = temperature(scan, "highest temperature")
    if read is None:
        return False
    c = read.in_c()
    if usable(scan, read, "temp") and c is not None:
        scan.say("temp_c", c)
        if read.f is not None:
            scan.say("temp_f", read.f)
    return True


_LENGTH = re.compile(r"(?P<d>[0-9]{1,3})\s?(?:mm)?\s?[x×*]\s?(?P<l>[0-9]{1,3})\s?mm(?![A-Za-z])")
_KELVIN = re.compile(r"(?P<k>[2-6][0-9]{3})\s?K(?![A-Za-z0-9])")
_LUMEN = re.compile(r"(?P<lm>[0-9]{2,4})\s?lm(?![A-Za-z])", re.IGNORECASE)


def _length(scan: Scanner) -> bool:
    """Size = diameter "x" length "mm"."""
    found = scan.take(_LENGTH, lambda m: f"{m['d']} mm across, {m['l']} mm long", SI)
    if found is None:
        return False
    scan.say("diameter_mm", int(found["d"]))
    scan.say("length_mm", int(found["l"]))
    return True


def _light(scan: Scanner) -> bool:
    """Light = figure "K" | figure "lm"."""
    found = scan.take(_KELVIN, lambda m: f"colour temperature {m['k']} K", SI)
    if found:
        scan.say("colour_k", int(found["k"]))
        return True
    found = scan.take(_LUMEN, lambda m: f"light output {m['lm']} lm", SI)
    if found:
        scan.say("lumen", int(found["lm"]))
    return found is not None


_WORDS = phrases(
    Phrase(r"halogen|quartz", "halogen lamp", {"technology": "halogen"}),
    Phrase(r"LED", "LED lamp", {"technology": "LED"}),
    Phrase(r"incandescent|filament", "incandescent lamp", {"technology": "incandescent"}),
    Phrase(r"neon", "neon lamp", {"technology": "neon"}),
    Phrase(r"(?:oven|cooker hood|hood|fridge|refrigerator|microwave|dryer|appliance)"
           r"(?: (?:lamp|bulb|light))?", "where it is used"),
    Phrase(r"lamps?|(?:light ?)?bulbs?|light|globe", "it is a lamp"),
    Phrase(r"clear|frosted|opal", "finish of the bulb"),
    Phrase(r"pygmy|tubular|tube|capsule|golf ?ball|candle|base|cap|socket", "form"),
    Phrase(r"rough service|heat resistant|high temp(?:erature)?", "made for hard use"),
)  # fmt: skip
_VOLTS = volts({"": "voltage_v", "ac": "voltage_v", "dc": "voltage_dc_v"})
_LINES: tuple[Rule, ...] = (
    _base, _NAMED_BASE, _heat, _shape, _length, _light, _VOLTS, watts(), _WORDS, approvals, *GAPS,
)  # fmt: skip


def read(text: str) -> Reading:
    """Read the print of a lamp."""
    scan = Scanner(text)
    scan.sweep(_LINES)
    if scan.ratings.get("technology") == "LED":
        scan.warn("An LED lamp never goes into a hot cavity.")
    return scan.reading("lamp")


_LIKELY = (
    (re.compile(r"\b(?:lamp|bulb)\b", re.IGNORECASE), 0.9),
    (re.compile(rf"(?:^|\s)(?:{_BASE.pattern.replace('(?P<base>', '(?:')})", re.IGNORECASE), 0.85),
    (re.compile(r"[0-9](?:\s?W|[ -]watt)\s.{0,8}\b(?:T[0-9]{1,2}|S?ES|S?BC)\b"), 0.8),
)


def likely(text: str) -> float:
    """How strongly a text looks like a lamp, 0 to 1."""
    head = text[:400]
    if not re.search(r"[0-9](?:\s?[WV]\b|[ -]?watt)", head, re.IGNORECASE):
        return 0.0
    return next((score for pattern, score in _LIKELY if pattern.search(head)), 0.0)


def canonical(reading: Reading) -> str:
    """The marking written out again; reads back to the same ratings."""
    said = reading.ratings
    in_f = f"{listed(said['temp_f'])} F" if "temp_f" in said else "{} C"
    if "temp_f" in said and "cf_pair_consistent" in said:
        in_f += " ({} C)"
    size = f"{listed(said.get('diameter_mm', 0))}x{{}}mm"
    return write(
        said,
        ("voltage_v", lambda v: f"{listed(v, '/')}V"),
        ("voltage_dc_v", "{}VDC"),
        ("power_w", lambda v: f"{listed(v, '/')}W"),
        ("base", "{}"),
        ("shape", "{}"),
        ("temp_c", in_f),
        ("length_mm", size),
        ("colour_k", "{}K"),
        ("lumen", "{}lm"),
        ("technology", "{}"),
        ("approvals", "{}"),
    )
