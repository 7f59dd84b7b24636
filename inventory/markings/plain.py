"""The grammar of last resort: nothing is claimed but one type code and plain volts and amperes.

For the family ``other``; whatever it does not know stays unread, in full.
"""

from __future__ import annotations

import re

from inventory.markings.amounts import PRACTICE, amps, volts
from inventory.markings.passive_marks import rest_of_word
from inventory.markings.scanner import Rule, Scanner
from inventory.markings.writing import faithful, write
from inventory.records import Reading

_CODE = re.compile(r"[0-9A-Z](?:[0-9A-Z]|[-./](?=[0-9A-Z])){2,29}(?![0-9A-Za-z])")


def type_code(scan: Scanner) -> bool:
    """Type = capitals and figures, both or at least five figures, joined by "-" "." "/"."""
    found = scan.peek(_CODE)
    if found is None or "type" in scan.ratings:
        return False
    letters = sum(map(str.isalpha, found[0]))
    figures = sum(map(str.isdigit, found[0]))
    if not figures or (not letters and figures < 5):
        return False
    scan.say("type", found[0])
    return scan.take(_CODE, "a type code; what it stands for is not known", PRACTICE) is not None


RULES: tuple[Rule, ...] = (rest_of_word, volts(), amps(), type_code)


def read(text: str) -> Reading:
    """Read a text of no known family."""
    scan = Scanner(text)
    scan.sweep(RULES)
    return scan.reading("other")


def likely(text: str) -> float:
    """How strongly a text looks like this family: hardly, and never for nothing."""
    return 0.02 if text.strip() else 0.0


def canonical(reading: Reading) -> str:
    """Type, volts and amperes."""
    return faithful(reading, _written(reading), read)


def _written(reading: Reading) -> str:
    """The ratings written out."""
    return write(
        reading.ratings,
        ("type", "{}"),
        ("voltage_v", "{} V"),
        ("voltage_vac", "{} VAC"),
        ("voltage_vdc", "{} VDC"),
        ("current_a", "{} A"),
    )
