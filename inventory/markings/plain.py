"""The grammar of families without one: a lone type code is named, all else stays unread."""

from __future__ import annotations

import re

from inventory.markings.scanner import Scanner
from inventory.records import Reading

_CODE = re.compile(r"[A-Z0-9](?:[0-9A-Za-z]|[-/.](?=[0-9A-Za-z])){2,39}")


def read(text: str) -> Reading:
    """One type code as ``type``; anything else unread, word by word."""
    scan = Scanner(text)
    scan.skip_space()
    found = scan.peek(_CODE)
    if found and not scan.view[found.end() :].strip() and _is_code(found[0]):
        scan.take(_CODE, "type code, kept as printed", "as printed")
        scan.say("type", found[0])
    scan.sweep(())
    return scan.reading("other")


def _is_code(text: str) -> bool:
    """A code has a digit and a letter, or is a long number."""
    digits = sum(character.isdigit() for character in text)
    letters = sum(character.isalpha() for character in text)
    return digits >= 1 and (letters >= 1 or digits >= 5)


def likely(text: str) -> float:
    """Never more than a last resort."""
    return 0.1 if _CODE.fullmatch(text.strip()) else 0.0


def canonical(reading: Reading) -> str:
    """The type code, or the text as it is."""
    return str(reading.ratings.get("type", reading.text))
