"""A reading as it leaves the house: one JSON object, the shape of ``schemas/reading``."""

from __future__ import annotations

from dataclasses import asdict
from typing import Any

from inventory.records import Reading


def as_json(reading: Reading) -> dict[str, Any]:
    """The reading as plain lists and mappings, ready for ``json.dumps``."""
    return {
        "text": reading.text,
        "family": reading.family,
        "ratings": dict(reading.ratings),
        "assumed": dict(reading.assumed),
        "assumed_from": dict(reading.assumed_from),
        "marks": [asdict(mark) for mark in reading.marks],
        "unread": [asdict(piece) for piece in reading.unread],
        "warnings": list(reading.warnings),
        "candidates": [
            {"text": c.text, "reason": c.reason, "ratings": dict(c.ratings)}
            for c in reading.candidates
        ],
        "others": list(reading.others),
    }
