"""Heads: which ones sit in a countersink, and how much bearing face one has against another."""

from __future__ import annotations

from inventory.fasteners import tables
from inventory.fasteners.thread import INCH, Thread


def is_countersunk(head: str) -> bool:
    """True for a head that needs a countersunk seat."""
    return "countersunk" in head


def diameter(thread: Thread, head: str) -> float | None:
    """Largest diameter of a head, mm; None where the tables have none."""
    row = head_row(thread.size, head)
    if row is None:
        return None
    return float(row["dk_max"]) * (INCH if row["unit"] == "in" else 1.0)


def head_row(thread_size: str, head: str, standard: str = "") -> tables.Row | None:
    """The table line of a head on a thread size; where a standard is named, its own line only."""
    for row in tables.rows("heads"):
        alike = (row["thread"], row["head"]) == (thread_size, head)
        if alike and standard in {"", row["standard"]}:
            return row
    return None


def bearing_share(wanted: Thread, offered: Thread, head: str, other: str) -> float | None:
    """Diameter of the offered head over the wanted one's; None where either is not listed."""
    before, after = diameter(wanted, head), diameter(offered, other)
    return after / before if before and after else None
