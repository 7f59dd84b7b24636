"""A reading written out again in one spelling; reading it back gives the same ratings."""

from __future__ import annotations

from inventory.markings.grammars import FAMILIES, grammar
from inventory.records import Reading


def canonical(reading: Reading) -> str:
    """The marking in its plainest form; the text itself where a family has no such form."""
    found = grammar(reading.family) if reading.family in FAMILIES else None
    if found is None or found.canonical is None:
        return reading.text
    return found.canonical(reading)
