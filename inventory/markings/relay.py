"""Relays: type codes by their published legends, coil data, and the contact ratings.

Sources: the makers' data sheets named in ``relay_codes``; contact ratings as for switches.
"""

from __future__ import annotations

import re

from inventory.markings.contacts import lex
from inventory.markings.contacts_checks import propose_repairs
from inventory.markings.contacts_codes import code_line
from inventory.markings.contacts_items import Current, Fact, Horse, Item, Volts
from inventory.markings.contacts_ratings import MAINS_FROM
from inventory.markings.contacts_scan import NUM, ContactScanner
from inventory.markings.contacts_settle import settle
from inventory.markings.contacts_write import write_contacts
from inventory.markings.relay_codes import OMRON, SONGLE
from inventory.markings.relay_codes_europe import LEGENDS
from inventory.markings.scanner import number
from inventory.markings.writing import Line, write
from inventory.records import Reading

HIGHEST_A = 100
"""Amperes above which a figure on an appliance relay is taken for damaged. Common practice."""

COIL = "maker's data sheet, coil data"
COIL_VOLTS = frozenset({3, 5, 6, 9, 12, 15, 18, 24, 48, 60, 110})
"""Usual d.c. coil voltages. Source: coil tables of Songle SRD, Hongfa HF115F, Schrack RT1."""
_codes = code_line((*OMRON, *SONGLE, *LEGENDS))
_BODY = re.compile(r"(?:S[A-Z]{1,3}-)?T9[0-3](?![0-9/A-Za-z])")
_COIL_WORD = re.compile(r"(?:[Cc]oil|COIL)(?:\s(?:[Vv]oltage|VOLTAGE))?\s?[:=]?(?![a-z])")
_COIL_OHM = re.compile(rf"(?P<ohm>{NUM})\s?(?P<kilo>k)?\s?(?:Ω|[Oo]hms?|OHMS?)(?![A-Za-z])")
_COIL_WATT = re.compile(rf"(?P<watt>{NUM})\s?(?P<milli>m)?W(?![A-Za-z])")


def _code(scan: ContactScanner) -> bool:
    """Type codes, body styles and coil words, before anything else is tried."""
    return _codes(scan) or _body_style(scan) or _coil_word(scan) or _coil_figure(scan)


def _body_style(scan: ContactScanner) -> bool:
    """T90, SHA-T90: a body style, never an ambient temperature.

    Source: relay shops list SHA-T90 beside SHA-12VDC-S-A; a T mark stands behind its ratings.
    """
    if scan.glued() or any(isinstance(item, Current) for item in scan.items[:20]):
        return False
    found = scan.take(_BODY, "body style, not a temperature", "SHA-T90 as sold")
    if found:
        scan.say("body", found[0].rpartition("-")[2])
    return bool(found)


def _coil_word(scan: ContactScanner) -> bool:
    """``Coil``: the voltage beside it is the coil's."""
    found = None if scan.glued() else scan.take(_COIL_WORD, "coil data beside it", COIL)
    if found:
        scan.fact("coil", found[0])
    return bool(found)


def _coil_figure(scan: ContactScanner) -> bool:
    """Coil resistance in ohms; coil power in watts."""
    found = scan.take(_COIL_OHM, lambda m: f"coil resistance {m['ohm']} {m['kilo'] or ''}Ω", COIL)
    if found:
        scan.say("coil_ohm", number(found["ohm"]) * (1000 if found["kilo"] else 1))
        return True
    found = scan.take(_COIL_WATT, lambda m: f"coil power {m['watt']} {m['milli'] or ''}W", COIL)
    if found:
        watts = number(found["watt"]) / (1000 if found["milli"] else 1)
        scan.say("coil_power_w", watts)
    return bool(found)


def read(text: str) -> Reading:
    """Read a relay marking; what is not understood is kept as unread."""
    scan = _scan(text)
    propose_repairs(scan, lambda repaired: _scan(repaired).reading("relay"))
    return scan.reading("relay")


def _scan(text: str) -> ContactScanner:
    """Lex one text, set the coil apart, settle the contacts."""
    scan = lex(text, _code)
    scan.items = _without_coil(scan)
    settle(scan, highest_a=HIGHEST_A)
    form = scan.ratings.pop("contact_form", None)
    if form is not None:
        scan.say("contact", form)
    return scan


def _without_coil(scan: ContactScanner) -> list[Item]:
    """The items less the coil voltage, which is said here and never reaches the contacts."""
    at = _coil_at(scan)
    items = [item for item in scan.items if not (isinstance(item, Fact) and item.name == "coil")]
    if at is None:
        return items
    coil = scan.items[at]
    assert isinstance(coil, Volts)  # noqa: S101 - _coil_at points at volts only
    kind = "coil_vac" if coil.nature == "ac" else "coil_vdc"
    if coil.nature is None:
        scan.warn("The coil's voltage does not say a.c. or d.c.")
        kind = "coil_v"
    scan.say(kind, coil.values[0])
    return [item for item in items if item is not coil]


def _coil_at(scan: ContactScanner) -> int | None:
    """Which item is the coil voltage: beside the word, or right behind the type code."""
    for at, item in enumerate(scan.items[:40]):
        if isinstance(item, Fact) and item.name == "coil":
            beside = [at + 1, at - 1]
            return next((n for n in beside if _is_volts(scan, n)), None)
    if any(name.startswith("coil_v") for name in scan.ratings):
        return None
    lone = _lone_volts(scan)
    if lone is not None:
        return lone
    behind_code = scan.codes and _is_volts(scan, 0) and scan.items[0].start >= scan.codes[0][1]
    if behind_code and not _pairs(scan):
        return 0
    return _in_another_style(scan)


def _lone_volts(scan: ContactScanner) -> int | None:
    """A voltage without any amperes is the coil's: behind a type code, or of a usual coil."""
    if any(isinstance(item, (Current, Horse)) for item in scan.items):
        return None
    for at, item in enumerate(scan.items):
        if isinstance(item, Volts) and len(item.values) == 1:
            usual = item.nature == "dc" and item.values[0] in COIL_VOLTS
            if scan.codes or usual:
                return at
    return None


def _in_another_style(scan: ContactScanner) -> int | None:
    """``10A 250VAC DC12V``: a coil voltage written the other way round than the contact's."""
    for at, item in enumerate(scan.items[:40]):
        if (
            not isinstance(item, Volts)
            or item.nature != "dc"
            or not scan.view.startswith("DC", item.start)
        ):
            continue
        others = [
            other for other in scan.items[:40] if isinstance(other, Volts) and other is not item
        ]
        if item.values[0] in COIL_VOLTS and any(scan.view[o.start].isdigit() for o in others):
            scan.warn(f"DC {item.values[0]} V is taken for the coil: it is written another way.")
            return at
    return _bare_beside_a_contact(scan)


def _bare_beside_a_contact(scan: ContactScanner) -> int | None:
    """``Relay 5V 10A/250VAC``: a bare usual coil voltage, the contact having volts of its own."""
    volts = [item for item in scan.items[:40] if isinstance(item, Volts)]
    if not any(item.nature == "ac" and item.values[0] >= MAINS_FROM for item in volts):
        return None
    for at, item in enumerate(scan.items[:40]):
        if isinstance(item, Volts) and item.nature is None and item.values[0] in COIL_VOLTS:
            return at if len(item.values) == 1 else None
    return None


def _is_volts(scan: ContactScanner, at: int) -> bool:
    """True when the item at a place is a single voltage."""
    if not 0 <= at < len(scan.items):
        return False
    item = scan.items[at]
    return isinstance(item, Volts) and len(item.values) == 1


def _pairs(scan: ContactScanner) -> bool:
    """True for ``250VAC 10A`` behind the code: volts before amperes are a contact rating."""
    kinds = [type(item) for item in scan.items if isinstance(item, (Current, Volts))]
    return kinds == [Volts, Current] and getattr(scan.items[0], "values", (0,))[0] >= 100


_OWN: tuple[Line, ...] = (
    ("body", "{}"),
    ("coil_vdc", "coil {}V DC"),
    ("coil_vac", "coil {}V AC"),
    ("coil_v", "coil {}V"),
    ("coil_ohm", "{}Ω"),
    ("coil_power_w", "{}W"),
)


def canonical(reading: Reading) -> str:
    """The marking in one spelling; it reads back to the same ratings."""
    return write_contacts(reading, read, lambda said: write(said, *_OWN))


_CODED = re.compile(
    r"\bG(?:5LE|5LA|5RL|6RL|5CA|2R|2RL|5Q|8P|4A|6B|6C|7L)-|\bS(?:RD|LA|HA|RA|RS|MI|MIH)-?[0-9T]|\bHF[0-9]{1,3}F"
    r"|\bRT[HD]?[1-4]{1,2}[45]|\bJQC-|\bJQX-|\b(?:40|41|43|44|45|46|55|56)\.[0-9]{2}\.[0-9]\."
)
_WORDS = re.compile(r"(?i:\brelay\b|\bcoil\b)|\b[12] ?Form ?[ABC]\b|\bTV-(?:3|5|8|10|15)\b")
_THROWS = re.compile(r"\bNO\b.{0,12}[0-9]\s?A\b.{0,20}\bNC\b|[0-9]\s?A.{0,12}\bNO\b.{0,20}\bNC\b")
_CONTACT = re.compile(r"[0-9]\s?A[ /]{0,2}[0-9]{2,3}\s?VAC|VDC|V DC")


def likely(text: str) -> float:
    """How strongly a text looks like a relay marking, 0 to 1."""
    head = text[:400]
    if _CODED.search(head):
        return 0.97
    if _BODY.fullmatch(head.strip()):
        return 0.45
    score = 0.3 if _CONTACT.search(head) or _THROWS.search(head) else 0.0
    return score + 0.45 if _WORDS.search(head) else score
