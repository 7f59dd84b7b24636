"""Screws: thread limits, what goes into which hole, drives, strength."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any


def answer(kind: str, given: Mapping[str, Any]) -> dict[str, Any]:
    """What this house says to a published case; see ``answers``, imported only when asked.

    >>> answer("drive", {"drive": "hexalobular", "size": 15})["A_mm"]
    3.35
    """
    from inventory.fasteners import answers

    return answers.answer(kind, given)
