"""Lots in the store: what lies where, and the one statement that takes or gives pieces."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import fields
from operator import attrgetter
from typing import Any

from inventory.errors import NotFound, Refused
from inventory.records import Lot
from inventory.store.asking import Asking
from inventory.store.sql import Connection, places, text

_COLUMNS = (
    "id, part_id, on_hand, held, state, bin, origin, source_unit_id AS source_unit,"
    " price_cents, supplier_no, note, logged_at, history"
)
"""In the order of the record's fields."""
_INSERT = (
    "INSERT INTO lot (id, part_id, on_hand, held, state, bin, origin, source_unit_id,"
    " price_cents, supplier_no, note, logged_at, history)"
    " VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?)"
)
_row = attrgetter(*(field.name for field in fields(Lot)))
"""A lot's values in the order of its fields, which is that of the statement."""


def add(connection: Connection, lots: Sequence[Lot]) -> None:
    """Write lots as they are, numbers included; their bins must be known."""
    Asking(connection).run(_INSERT, [_row(lot) for lot in lots])


def know_bins(connection: Connection, codes: Iterable[str | None]) -> None:
    """Make bins that are not there yet."""
    wanted = sorted({code for code in codes if code})
    if not wanted:
        return
    known = set(bins(connection)) if len(wanted) > 1 else _known_bin(connection, wanted[0])
    fresh = [{"code": code} for code in wanted if code not in known]
    if fresh:
        connection.execute(text("INSERT INTO bin (code) VALUES (:code)"), fresh)


def _known_bin(connection: Connection, code: str) -> set[str]:
    """The bin itself, where it is there."""
    return set(
        connection.execute(
            text("SELECT code FROM bin WHERE code = :code"), {"code": code}
        ).scalars()
    )


def bins(connection: Connection) -> list[str]:
    """All bins, in order."""
    return list(connection.execute(text("SELECT code FROM bin ORDER BY code")).scalars())


def bins_with_counts(connection: Connection) -> list[dict[str, Any]]:
    """All bins with how many lots and pieces lie in them."""
    rows = connection.execute(
        text(
            "SELECT bin.code AS bin, COUNT(lot.id) AS lots, COALESCE(SUM(lot.on_hand), 0)"
            " AS pieces FROM bin LEFT JOIN lot ON lot.bin = bin.code AND lot.on_hand > 0"
            " GROUP BY bin.code ORDER BY bin.code"
        )
    ).mappings()
    return [dict(row) for row in rows]


def get(connection: Connection, number: int) -> Lot:
    """One lot."""
    row = (
        connection.execute(
            text(f"SELECT {_COLUMNS} FROM lot WHERE id = :id"),  # noqa: S608
            {"id": number},
        )
        .mappings()
        .first()
    )
    if row is None:
        raise NotFound(f"There is no lot {number} on this shelf.")
    return Lot(**row)


def of_parts(connection: Connection, part_ids: Iterable[int]) -> dict[int, list[Lot]]:
    """Lots with pieces on hand, by part type."""
    wanted = sorted(set(part_ids))
    grouped: dict[int, list[Lot]] = {}
    ask = Asking(connection)
    for start in range(0, len(wanted), 500):
        some = wanted[start : start + 500]
        condition = f"part_id IN ({places(len(some))}) AND on_hand > 0"
        for row in ask.rows(f"SELECT {_COLUMNS} FROM lot WHERE {condition} ORDER BY id", some):  # noqa: S608
            lot = Lot(*row)
            grouped.setdefault(lot.part_id, []).append(lot)
    return grouped


def where(connection: Connection, condition: str = "1=1", **values: Any) -> list[Lot]:
    """Lots by one of our own conditions, its values bound."""
    rows = connection.execute(
        text(f"SELECT {_COLUMNS} FROM lot WHERE {condition} ORDER BY id"),  # noqa: S608
        values,
    ).mappings()
    return [Lot(**row) for row in rows]


def change(connection: Connection, number: int, *, on_hand: int = 0, held: int = 0) -> None:
    """Add to the counts of a lot in one conditional UPDATE: the last piece goes out once.

    Raises ``Refused`` where the counts would not hold; nothing is changed then.
    """
    done = connection.execute(
        text(
            "UPDATE lot SET on_hand = on_hand + :q, held = held + :h WHERE id = :id"
            " AND on_hand + :q >= 0 AND held + :h >= 0 AND held + :h <= on_hand + :q"
        ),
        {"q": on_hand, "h": held, "id": number},
    )
    if done.rowcount != 1:
        lot = get(connection, number)
        free = lot.on_hand - lot.held
        raise Refused(
            f"Lot {number} cannot give that: {lot.on_hand} on hand, {lot.held} held, {free} free."
        )


def set_values(connection: Connection, number: int, **values: Any) -> None:
    """Set columns of a lot: ``state``, ``bin``, ``note``, ``history``."""
    names = ", ".join(f"{name} = :{name}" for name in sorted(values))
    connection.execute(
        text(f"UPDATE lot SET {names} WHERE id = :id"),  # noqa: S608 - names are our own
        {**values, "id": number},
    )
