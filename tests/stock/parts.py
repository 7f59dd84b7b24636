"""Invented part types for the report tests."""

from __future__ import annotations

from typing import Any

from inventory.stock.asked import LowSettings, Month, PartStock, month_number

NOW = month_number("2025-07-01")
SETTINGS = LowSettings(as_of_month=NOW)


def part(
    part_id: int = 1, *, jobs: int = 0, months: int = 24, pieces: int = 1, **more: Any
) -> PartStock:
    """A part type on the shelf for so many months, used once a month from now back."""
    history = tuple(Month(NOW - 1 - i, 1, pieces) for i in range(jobs))[::-1]
    values: dict[str, Any] = {
        "part_id": part_id,
        "name": f"part {part_id}",
        "family": "relay",
        "first_month": NOW - months,
        "history": history,
    }
    return PartStock(**{**values, **more})
