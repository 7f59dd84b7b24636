"""The appliance's own plate: model, serial, supply, power in and out, microwave frequency."""

from __future__ import annotations

import re
from collections.abc import Mapping
from typing import Any

from inventory.markings import powers
from inventory.markings.amounts import (
    GAPS,
    NUM,
    PRACTICE,
    SI,
    Phrase,
    amps,
    approvals,
    hertz,
    listed,
    phrases,
    plain_number,
    review,
    volts,
    written,
)
from inventory.markings.powers import Powers
from inventory.markings.scanner import Rule, Scanner
from inventory.markings.writing import write
from inventory.records import Reading

PLATE = "IEC 60335-1 marking clause: what an appliance's plate carries, from memory"
_CODE = r"(?=[A-Za-z0-9./#*-]{0,24}[0-9])[A-Za-z0-9][A-Za-z0-9./#*-]{0,23}[A-Za-z0-9*#]"
_NO = r"(?:\s?(?:No|Number|Nr|Code)\.?)?\s?[:.=#]?\s?"
_LABELS = {
    "serial": r"(?:Ser(?:ial)?\.?|S/N|S\.N\.|SN)",
    "product_code": r"(?:Product|P/No|P/N|PNC|MFG|Mfg|Part|Service|E-?Nr|Fab)",
    "model": r"(?:Model|Mod\.?|M/N|M\.N\.|Mdl)",
    "type": r"Typ(?:e|\.)?",
}
_LABELLED = tuple(
    (name, re.compile(rf"(?P<label>{label}{_NO})(?P<code>{_CODE})(?![A-Za-z0-9])", re.IGNORECASE))
    for name, label in _LABELS.items()
)


def _labelled(scan: Scanner) -> bool:
    """Labelled = ("Model" | "Serial No." | "Product code") ":"? code."""
    for name, pattern in _LABELLED:
        found = scan.peek(pattern)
        if found:
            means = name.replace("_", " ")
            scan.mark(*found.span("label"), f"label of the {means}", PLATE)
            scan.mark(*found.span("code"), means, PLATE)
            scan.say(name, found["code"])
            scan.at = found.end()
            return True
    return False


_ROLES = {
    "power_out_w": r"(?:rated )?(?:microwave |RF )?(?:power )?output|output|out",
    "power_in_w": r"(?:rated )?(?:microwave )?(?:power )?input|(?:rated )?power consumption|input",
    "grill_w": r"grill(?: heater)?|broil",
    "convection_w": r"convection(?: heater)?|hot air",
    "heater_w": r"heater|heating",
}
_IP = re.compile(r"IP\s?[X0-6][X0-9](?![0-9A-Za-z])")
_CLASS = re.compile(r"class\s?(?P<c>III|II|I|[123])(?![A-Za-z0-9])", re.IGNORECASE)
_WEIGHT = re.compile(rf"(?P<kg>{NUM})\s?kg(?![A-Za-z])", re.IGNORECASE)
_MADE = re.compile(
    r"(?:(?:manufactured|mfd|date(?: of manufacture)?|made)\s?[:.]?\s?)"
    r"(?P<date>[A-Z]{3,9}\.? ?[0-9]{4}|[0-9]{4}[-./][0-9]{1,2}(?:[-./][0-9]{1,2})?"
    r"|[0-9]{1,2}[-./][0-9]{4})(?![0-9])",
    re.IGNORECASE,
)
_ORIGIN = re.compile(r"made in [A-Za-z]{3,14}(?![A-Za-z])", re.IGNORECASE)


def _protection(scan: Scanner) -> bool:
    """Protection = "IP" figures | "Class" numeral."""
    found = scan.take(_IP, lambda m: f"degree of protection {m.group().strip()}", "IEC 60529")
    if found:
        scan.say("ip", re.sub(r"\s", "", found.group()))
        return True
    found = scan.take(_CLASS, lambda m: f"class {m['c']} of protection against shock", "IEC 61140")
    if found is None:
        return False
    scan.say(
        "protection_class", {"1": "I", "2": "II", "3": "III"}.get(found["c"], found["c"].upper())
    )
    return True


def _made(scan: Scanner) -> bool:
    """Made = "manufactured" date | "made in" country."""
    found = scan.take(_MADE, lambda m: f"made {m['date']}", PRACTICE)
    if found:
        scan.say("made", found["date"])
        return True
    return scan.take(_ORIGIN, "country of origin", PRACTICE) is not None


def _weight(scan: Scanner) -> bool:
    """Weight = figure "kg"."""
    found = scan.take(_WEIGHT, lambda m: f"weighs {m['kg']} kg", SI)
    if found is None:
        return False
    scan.say("weight_kg", plain_number(found["kg"]))
    return True


_WORDS = phrases(
    Phrase(r"(?:household )?(?:microwave|convection|combination)?(?: ?oven)|microwave|dryer|washer",
           "kind of appliance"),
    Phrase(r"(?:rated )?(?:operat(?:ion|ing) )?(?:voltage|frequency|current)", "heading"),
    Phrase(r"(?:rated )?power(?: (?:supply|source))?|AC line|volts|amps|single phase|supply"
           r"|weight|approx\.?|model|serial|no|rated|only", "heading"),
)  # fmt: skip


def _lines(met: Powers) -> tuple[Rule, ...]:
    """The whole grammar, in order."""
    return (
        _labelled, hertz, volts(), *powers.rules(met, _ROLES), amps(), _protection, _made, _weight,
        _WORDS, approvals, *GAPS,
    )  # fmt: skip


def read(text: str) -> Reading:
    """Read the rating plate of an appliance."""
    scan = Scanner(text)
    met = Powers()
    scan.sweep(_lines(met))
    powers.settle(scan, met)
    _check_power(scan)
    return scan.reading("rating_plate")


def _figure(said: Mapping[str, Any], *names: str) -> float | None:
    """The first of these ratings, the highest of a list; None where none is printed."""
    value = next((said[name] for name in names if name in said), None)
    return max(value) if isinstance(value, list) else value


def _check_power(scan: Scanner) -> None:
    """Watts taken in cannot exceed volts times amperes; more out than in cannot be."""
    into, out = _figure(scan.ratings, "power_in_w"), _figure(scan.ratings, "power_out_w")
    top = _figure(scan.ratings, "voltage_vac", "voltage_v")
    current = _figure(scan.ratings, "current_a")
    if into is not None and out is not None and out >= into:
        review(scan, f"{written(out)} W out of {written(into)} W in cannot be; a figure is wrong.")
    if into is None or top is None or current is None or into <= 1.1 * top * current:
        return
    review(scan, f"{written(into)} W is more than {written(top)} V times {written(current)} A.")


_PLATE = re.compile(r"\b(?:model|serial|S/N|M/N)\b", re.IGNORECASE)
_BAND = re.compile(r"\b24[56]0\s?MHz\b", re.IGNORECASE)
_POWER = re.compile(r"\b(?:output|input)\b.{0,24}[0-9]\s?k?W\b", re.IGNORECASE)


def likely(text: str) -> float:
    """How strongly a text looks like an appliance's plate, 0 to 1."""
    head = text[:400]
    hits = sum(bool(pattern.search(head)) for pattern in (_PLATE, _BAND, _POWER))
    supply = bool(re.search(r"[0-9]\s?V", head) and re.search(r"[0-9]\s?Hz", head))
    return min(0.95, 0.3 * hits + (0.2 if supply else 0.0))


def canonical(reading: Reading) -> str:
    """The plate written out again; reads back to the same ratings."""
    return write(
        reading.ratings,
        ("model", "Model: {}"),
        ("type", "Type: {}"),
        ("serial", "Serial No: {}"),
        ("product_code", "Product code: {}"),
        ("voltage_vac", "AC{}V"),
        ("voltage_vdc", "{}VDC"),
        ("voltage_v", "{}V"),
        ("frequency_hz", lambda v: f"{listed(v, '/')}Hz"),
        ("current_a", "{}A"),
        ("power_w", "{}W"),
        ("power_in_w", "input {}W"),
        ("power_out_w", "output {}W"),
        ("grill_w", "grill {}W"),
        ("convection_w", "convection {}W"),
        ("heater_w", "heater {}W"),
        ("frequency_mhz", "{}MHz"),
        ("ip", "{}"),
        ("protection_class", "class {}"),
        ("weight_kg", "{}kg"),
        ("made", "date: {}"),
        ("approvals", "{}"),
    )
