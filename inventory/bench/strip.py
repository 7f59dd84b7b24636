"""What a unit's past does to the pieces pulled from it."""

from __future__ import annotations

from dataclasses import replace

from inventory.bench.log import Piece
from inventory.records import Part, SourceUnit
from inventory.rules.histories import history_of, salvage_stop


def with_history(piece: Piece, part: Part, unit: SourceUnit) -> Piece:
    """The piece with the past of its unit, where that past ends pieces of its family.

    The door switches of an oven whose monitor blew the fuse carried the fault current: they
    are logged, and never offered. Source: see ``rules.histories``.
    """
    if piece.history:
        return piece
    past = history_of(unit.why_scrapped)
    if salvage_stop(part.family, past, None) is None:
        return piece
    return replace(piece, history=past)
