"""The same thing twice: part types that look like one."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Any

from inventory.bench.merging import merge
from inventory.store import parts
from inventory.store.shelf import Shelf

__all__ = ["merge", "names", "twins"]


def twins(shelf: Shelf, limit: int) -> list[Any]:
    """Pairs of part types that look like one, with the evidence."""
    from inventory.store.twins import twins as look

    with shelf.read() as connection:
        return list(look(connection, limit))


def names(shelf: Shelf, numbers: Iterable[int]) -> dict[int, str]:
    """Part types in words."""
    with shelf.read() as connection:
        known = parts.many(connection, numbers)
    return {
        number: ", ".join(filter(None, (part.marking or part.type_code, part.maker, part.family)))
        for number, part in known.items()
    }
