"""Part types as they were at a moment: what was merged, or taken apart again, later."""

from __future__ import annotations

import json
from collections.abc import Mapping
from typing import Any, NamedTuple

from inventory.store.asking import Asking
from inventory.store.sql import Connection

NOW = "COALESCE(p.merged_into, p.id)"
"""SQL for the part type that ``p`` stands for today."""


class Before(NamedTuple):
    """What a moment had otherwise than today; empty where nothing was merged since."""

    parts: dict[int, int]  # part type -> the one it stood for
    lots: dict[int, int]  # lot -> its part type

    @property
    def stood_for(self) -> str:
        """SQL for the part type that ``p`` stood for."""
        if not self.parts:
            return NOW
        whens = " ".join(f"WHEN {part} THEN {was}" for part, was in sorted(self.parts.items()))
        return f"CASE p.id {whens} ELSE {NOW} END"


def before(connection: Connection, as_of: str) -> Before:
    """What was otherwise at a moment: the first merge after it that touched a thing tells."""
    rows = Asking(connection).rows(
        "SELECT seq, at, part_id, undoes, detail FROM journal"
        " WHERE kind IN ('merged', 'undone-merged') ORDER BY seq"
    )
    moved: dict[int, Mapping[str, Any]] = {}
    found = Before({}, {})
    for seq, at, keep, undoes, detail in rows:
        told = json.loads(detail)
        moved[seq] = told.get("moved") or moved.get(undoes, {})
        if at > as_of:
            # before a merge all that it moved was of the dropped one; before its undoing, not
            was = int(told["drop"] if undoes is None else keep)
            for known, table in ((found.parts, "part_type"), (found.lots, "lot")):
                for number in moved[seq].get(table, ()):
                    known.setdefault(int(number), was)
    return found
