"""The grammar of contact ratings that switches and relays share: its lines, in their order."""

from __future__ import annotations

import re
from collections.abc import Callable

from inventory.markings.contacts_ambient import (
    disconnection,
    micro_before_t,
    only,
    t_mark,
    temperature,
)
from inventory.markings.contacts_current import current, figures_alone, resistive_motor
from inventory.markings.contacts_cycles import circled_l, cycles
from inventory.markings.contacts_items import Fact, Item
from inventory.markings.contacts_marks import fire_and_tracking, frequency, sealing
from inventory.markings.contacts_power import (
    full_load_alone,
    horse,
    kilowatts,
    lamp_watts,
    pilot,
    television,
)
from inventory.markings.contacts_scan import ContactScanner, Line
from inventory.markings.contacts_volts import (
    point_behind_volts,
    supply,
    volts,
    volts_behind_nature,
    volts_without_unit,
)
from inventory.markings.contacts_words import (
    counted_contacts,
    form,
    idle_throw,
    load,
    load_letter,
    separator,
    standard,
    switching_rate,
    tabs_and_metal,
    throw,
    word,
)

_CODE = re.compile(
    r"[A-Z]{1,6}[0-9A-Z]{0,10}(?:[-/.][0-9A-Z]{1,12}(?:\([0-9A-Z]{1,4}\))?){0,5}(?![0-9A-Za-z])"
)
_NUMBER_CODE = re.compile(
    r"[0-9]{1,6}[A-Z][0-9A-Z]{2,10}(?:[-/.][0-9A-Z]{1,10}){0,4}(?![0-9A-Za-z])"
)


def unknown_code(scan: ContactScanner) -> bool:
    """A type code without a published legend: kept as ``type`` when it is the first thing said."""
    if scan.glued():
        return False
    found = scan.peek(_CODE) or scan.peek(_NUMBER_CODE)
    if found is None or not _looks_like_a_code(found[0]):
        return False
    if scan.codes or any(not _is_approval(item) for item in scan.items):
        return False
    scan.mark(found.start(), found.end(), "type code; no published legend known", "as printed")
    scan.at = found.end()
    scan.codes.append((found.start(), found.end()))
    scan.say("type", found[0])
    return True


def _is_approval(item: Item) -> bool:
    """True for a mark of approval: it may stand before the type code."""
    return isinstance(item, Fact) and item.name == "approvals"


_RATING_TAIL = re.compile(r"[0-9OIS]{2,3}(?:V(?:AC|DC)?|[AD]CV)$|[0-9]A$")


def _looks_like_a_code(text: str) -> bool:
    """Letters and digits, long enough to be no unit with its figure, and no rating at the end."""
    if _RATING_TAIL.search(text):
        return False
    digits = sum(character.isdigit() for character in text)
    letters = sum(character.isalpha() for character in text)
    return digits >= 1 and letters >= 1 and digits + letters >= 4


_DIGIT: tuple[Line, ...] = (
    horse,
    full_load_alone,
    t_mark,
    lamp_watts,
    figures_alone,
    current,
    volts,
    cycles,
    frequency,
    temperature,
    form,
    counted_contacts,
    kilowatts,
    switching_rate,
    unknown_code,
)
_LETTER: tuple[Line, ...] = (
    t_mark,
    micro_before_t,
    television,
    pilot,
    volts_behind_nature,
    load,
    resistive_motor,
    idle_throw,
    full_load_alone,
    load_letter,
    standard,
    sealing,
    fire_and_tracking,
    form,
    throw,
    tabs_and_metal,
    volts_without_unit,
    supply,
    disconnection,
    switching_rate,
    word,
    unknown_code,
)
_OTHER: tuple[Line, ...] = (
    horse,
    full_load_alone,
    volts_behind_nature,
    supply,
    only,
    temperature,
    t_mark,
    tabs_and_metal,
    circled_l,
    disconnection,
    point_behind_volts,
    separator,
)


def lex(text: str, code: Callable[[ContactScanner], bool]) -> ContactScanner:
    """Read a whole contact marking into items; ``code`` reads the family's type codes."""
    scan = ContactScanner(text)
    scan.lex({"digit": (code, *_DIGIT), "letter": (code, *_LETTER), "other": (code, *_OTHER)})
    return scan
