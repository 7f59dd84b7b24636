"""Part types that stand in for one another, for a shelf that counts equals together."""

from __future__ import annotations

from inventory.records import Part, Verdict
from inventory.rules.judge import judge
from inventory.rules.verdict import Wanted
from inventory.store import parts
from inventory.store.shelf import Shelf

MOST_OF_A_FAMILY = 400
"""Families with more part types on the shelf are pooled by their ratings' words first."""


def pools_of(shelf: Shelf) -> dict[str, list[int]]:
    """Pools by the name of their first member: every member serves for every other one.

    Both ways must hold (verdict ``same`` or ``fits``): a larger rating that may replace a
    smaller one is not its equal.
    """
    with shelf.read() as connection:
        known = parts.many(connection, parts.standing(connection))
    by_family: dict[str, list[Part]] = {}
    for part in known.values():
        by_family.setdefault(part.family, []).append(part)
    found: dict[str, list[int]] = {}
    for group in by_family.values():
        for pool in _pools(group[:MOST_OF_A_FAMILY]):
            if len(pool) > 1:
                name = pool[0].marking or pool[0].type_code or f"part type {pool[0].id}"
                found[f"{name} and {len(pool) - 1} more"] = [p.id for p in pool if p.id]
    return found


def _pools(group: list[Part]) -> list[list[Part]]:
    """Part types gathered so that each serves for all the others of its pool."""
    pools: list[list[Part]] = []
    for part in group:
        for pool in pools:
            if all(_serves(part, member) and _serves(member, part) for member in pool):
                pool.append(part)
                break
        else:
            pools.append([part])
    return pools


def _serves(offered: Part, wanted: Part) -> bool:
    """True where one stands in for the other without a question."""
    asked = Wanted(
        family=wanted.family,
        marking=wanted.marking,
        type_code=wanted.type_code,
        maker=wanted.maker,
        ratings=wanted.ratings,
    )
    return judge(asked, offered).verdict in (Verdict.SAME, Verdict.FITS)
