"""Source units and settings in the store."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import asdict
from typing import Any

from inventory.errors import NotFound
from inventory.matching.keys import bare
from inventory.records import SourceUnit
from inventory.store.asking import Asking
from inventory.store.parts import next_id
from inventory.store.sql import Connection, places, text

_COLUMNS = "id, label, kind, maker, model, revision, serial, why_scrapped, arrived, in_yard, note"


def add(connection: Connection, unit: SourceUnit) -> int:
    """Write a source unit; its number is given here."""
    number = next_id(connection, "source_unit")
    row = {**asdict(unit), "id": number, "model_key": bare(unit.model) if unit.model else None}
    connection.execute(
        text(
            f"INSERT INTO source_unit ({_COLUMNS}, model_key) VALUES (:id, :label, :kind,"  # noqa: S608
            " :maker, :model, :revision, :serial, :why_scrapped, :arrived, :in_yard, :note,"
            " :model_key)"
        ),
        row,
    )
    return number


def _unit(row: Any) -> SourceUnit:
    """A row as a record."""
    return SourceUnit(**{**row, "in_yard": bool(row["in_yard"])})


def find(connection: Connection, said: str) -> SourceUnit:
    """A source unit by its label or its number."""
    row = (
        connection.execute(
            text(f"SELECT {_COLUMNS} FROM source_unit WHERE label = :said"),  # noqa: S608
            {"said": said},
        )
        .mappings()
        .first()
    )
    if row is None and said.isascii() and said.isdigit() and len(said) < 18:
        row = (
            connection.execute(
                text(f"SELECT {_COLUMNS} FROM source_unit WHERE id = :id"),  # noqa: S608
                {"id": int(said)},
            )
            .mappings()
            .first()
        )
    if row is None:
        raise NotFound(f"There is no source unit {said!r} on this shelf.")
    return _unit(row)


def where(connection: Connection, condition: str = "1=1", **values: Any) -> list[SourceUnit]:
    """Source units by one of our own conditions."""
    rows = connection.execute(
        text(f"SELECT {_COLUMNS} FROM source_unit WHERE {condition} ORDER BY id"),  # noqa: S608
        values,
    ).mappings()
    return [_unit(row) for row in rows]


def labels(connection: Connection) -> list[str]:
    """All labels, for did-you-mean."""
    return list(connection.execute(text("SELECT label FROM source_unit ORDER BY id")).scalars())


def labels_of(connection: Connection, numbers: Iterable[int | None]) -> dict[int, str]:
    """Labels of source units by number."""
    wanted = sorted({number for number in numbers if number is not None})
    found: dict[int, str] = {}
    for start in range(0, len(wanted), 500):
        some = wanted[start : start + 500]
        statement = f"SELECT id, label FROM source_unit WHERE id IN ({places(len(some))})"  # noqa: S608
        found |= dict(Asking(connection).rows(statement, some))
    return found


def set_in_yard(connection: Connection, number: int, *, in_yard: bool) -> None:
    """Whether the unit still stands in the yard."""
    connection.execute(
        text("UPDATE source_unit SET in_yard = :there WHERE id = :id"),
        {"there": in_yard, "id": number},
    )


def strike_out(connection: Connection, number: int, label: str) -> None:
    """Take a unit that was logged by mistake out of the yard, and give its label free."""
    connection.execute(
        text("UPDATE source_unit SET in_yard = :gone, label = :label WHERE id = :id"),
        {"gone": False, "label": label, "id": number},
    )


def settings(connection: Connection) -> dict[str, str]:
    """What the shop has set."""
    rows = connection.execute(text("SELECT name, value FROM setting ORDER BY name"))
    return {str(row.name): str(row.value) for row in rows}


def set_setting(connection: Connection, name: str, value: str | None) -> None:
    """Set one of the shop's figures; None takes it away."""
    connection.execute(text("DELETE FROM setting WHERE name = :name"), {"name": name})
    if value is None:
        return
    connection.execute(
        text("INSERT INTO setting (name, value) VALUES (:name, :value)"),
        {"name": name, "value": value},
    )
