"""Part types in the store: adding, reading, finding the same one again, merging two."""

from __future__ import annotations

import json
from collections.abc import Iterable, Iterator, Mapping, Sequence
from typing import Any

from sqlalchemy import bindparam, text
from sqlalchemy.engine import Connection

from inventory.errors import NotFound
from inventory.matching.keys import code_key
from inventory.records import Part, Value
from inventory.store import search_index
from inventory.store.journal import now

_COLUMNS = "id, family, maker, type_code, marking, description, ratings, keep_at_least, note"
_INSERT = text(
    "INSERT INTO part_type (id, family, maker, type_code, marking, description, ratings,"
    " code_key, marking_key, keep_at_least, note, created_at) VALUES (:id, :family, :maker,"
    " :type_code, :marking, :description, :ratings, :code_key, :marking_key, :keep_at_least,"
    " :note, :created_at)"
)
_INSERT_RATING = text(
    "INSERT INTO rating (part_id, name, number, word, slot)"
    " VALUES (:part_id, :name, :number, :word, :slot)"
)
_INSERT_ALIAS = text(
    "INSERT INTO alias (part_id, code, code_key, source) VALUES (:part_id, :code, :key, :source)"
)


def next_id(connection: Connection, table: str) -> int:
    """The next number of a table; numbers are given in the order rows enter the shelf."""
    found = connection.execute(text(f"SELECT COALESCE(MAX(id), 0) FROM {table}")).scalar_one()  # noqa: S608
    return int(found) + 1


def add(connection: Connection, parts: Sequence[Part]) -> list[int]:
    """Write part types with their ratings, aliases and search index; returns their numbers."""
    first = next_id(connection, "part_type")
    moment = now()
    numbered = list(enumerate(parts, start=first))
    if not numbered:
        return []
    connection.execute(_INSERT, [_row(number, part, moment) for number, part in numbered])
    ratings = [row for number, part in numbered for row in rating_rows(number, part.ratings)]
    if ratings:
        connection.execute(_INSERT_RATING, ratings)
    aliases = [
        {"part_id": number, "code": code, "key": code_key(code), "source": None}
        for number, part in numbered
        for code in part.aliases
    ]
    if aliases:
        connection.execute(_INSERT_ALIAS, aliases)
    search_index.add(connection, search_texts(numbered))
    return [number for number, _ in numbered]


def _row(number: int, part: Part, moment: str) -> dict[str, Any]:
    """The columns of a part type."""
    return {
        "id": number,
        "family": part.family,
        "maker": part.maker,
        "type_code": part.type_code,
        "marking": part.marking,
        "description": part.description,
        "ratings": json.dumps(dict(part.ratings), ensure_ascii=False),
        "code_key": code_key(part.type_code) if part.type_code else None,
        "marking_key": code_key(part.marking) or None,
        "keep_at_least": part.keep_at_least,
        "note": part.note,
        "created_at": moment,
    }


def search_texts(numbered: Iterable[tuple[int, Part]]) -> Iterator[tuple[int, str]]:
    """What a part type can be found by: its type code, else its marking; and its aliases."""
    for number, part in numbered:
        for words in dict.fromkeys((part.type_code, part.marking, *part.aliases)):
            if words:
                yield number, words


def rating_rows(part_id: int, ratings: Mapping[str, Value]) -> Iterator[dict[str, Any]]:
    """Ratings as indexed rows: one a value, lists one a member, rating groups by slot."""
    for slot, group in enumerate([ratings, *(ratings.get("ratings") or [])]):
        if not isinstance(group, Mapping):
            continue
        for name, value in group.items():
            if name == "ratings":
                continue
            for member in value if isinstance(value, list | tuple) else (value,):
                row = _rating_row(member)
                if row:
                    yield {"part_id": part_id, "name": name, "slot": slot, **row}


def _rating_row(value: Value) -> dict[str, Any] | None:
    """Number or word of one value; what is neither is not searched by."""
    if value is None or isinstance(value, Mapping | list):
        return None
    if isinstance(value, bool):
        return {"number": float(value), "word": None}
    if isinstance(value, int | float):
        return {"number": float(value), "word": None}
    return {"number": None, "word": str(value)}


def get(connection: Connection, number: int) -> Part:
    """One part type, followed to the one it was merged into."""
    found = many(connection, [number])
    if number not in found:
        raise NotFound(f"There is no part type {number} on this shelf.")
    return found[number]


def many(connection: Connection, numbers: Iterable[int]) -> dict[int, Part]:
    """Part types by number, with what was measured on them laid over their ratings."""
    wanted = sorted(set(numbers))
    found: dict[int, Part] = {}
    for start in range(0, len(wanted), 500):
        chunk = wanted[start : start + 500]
        found |= _chunk(connection, chunk)
    return found


def _chunk(connection: Connection, numbers: list[int]) -> dict[int, Part]:
    """At most 500 part types."""
    rows = connection.execute(
        text(f"SELECT {_COLUMNS} FROM part_type WHERE id IN :ids").bindparams(  # noqa: S608
            bindparam("ids", expanding=True)
        ),
        {"ids": numbers},
    ).mappings()
    aliases = _grouped(connection, "SELECT part_id, code FROM alias WHERE part_id IN :ids", numbers)
    measured = _grouped(
        connection,
        "SELECT part_id, name, value FROM measured WHERE part_id IN :ids ORDER BY id",
        numbers,
    )
    parts = {}
    for row in rows:
        over = {name: json.loads(value) for _, name, value in measured.get(row["id"], ())}
        codes = tuple(code for _, code in aliases.get(row["id"], ()))
        parts[row["id"]] = Part(
            **{**row, "ratings": {**json.loads(row["ratings"]), **over}}, aliases=codes
        )
    return parts


def _grouped(connection: Connection, query: str, numbers: list[int]) -> dict[int, list[Any]]:
    """Rows of a query by their first column."""
    grouped: dict[int, list[Any]] = {}
    statement = text(query).bindparams(bindparam("ids", expanding=True))
    for row in connection.execute(statement, {"ids": numbers}):
        grouped.setdefault(row[0], []).append(tuple(row))
    return grouped


def same_as(connection: Connection, part: Part) -> int | None:
    """The number of the part type that is already this one: family, maker, code and marking."""
    row = connection.execute(
        text(
            "SELECT id FROM part_type WHERE family = :family AND merged_into IS NULL"
            " AND COALESCE(maker, '') = :maker AND COALESCE(type_code, '') = :code"
            " AND marking = :marking AND (marking_key = :mkey OR (marking_key IS NULL AND"
            " code_key = :ckey)) AND ratings = :ratings ORDER BY id LIMIT 1"
        ),
        {
            "family": part.family,
            "maker": part.maker or "",
            "code": part.type_code or "",
            "marking": part.marking,
            "mkey": code_key(part.marking) or None,
            "ckey": code_key(part.type_code) if part.type_code else None,
            "ratings": json.dumps(dict(part.ratings), ensure_ascii=False),
        },
    ).first()
    return int(row[0]) if row else None


def add_alias(connection: Connection, part_id: int, code: str, source: str | None) -> None:
    """Another code the part type goes by."""
    connection.execute(
        _INSERT_ALIAS,
        {"part_id": part_id, "code": code, "key": code_key(code), "source": source},
    )
    search_index.add(connection, [(part_id, code)])


def measure(connection: Connection, part_id: int, name: str, value: Value, bench: str) -> int:
    """Store what a person measured or saw, with who said so; returns the number of the record."""
    get(connection, part_id)
    number = next_id(connection, "measured")
    connection.execute(
        text(
            "INSERT INTO measured (id, part_id, name, value, bench, at)"
            " VALUES (:id, :part_id, :name, :value, :bench, :at)"
        ),
        {
            "id": number,
            "part_id": part_id,
            "name": name,
            "value": json.dumps(value),
            "bench": bench,
            "at": now(),
        },
    )
    file_ratings(connection, part_id)
    return number


def take_back_measures(connection: Connection, numbers: Iterable[int]) -> None:
    """Remove measured values that were typed by mistake; the journal keeps what they said."""
    for number in numbers:
        part_id = connection.execute(
            text("SELECT part_id FROM measured WHERE id = :id"), {"id": number}
        ).scalar()
        connection.execute(text("DELETE FROM measured WHERE id = :id"), {"id": number})
        if part_id is not None:
            file_ratings(connection, int(part_id))


def file_ratings(connection: Connection, part_id: int, *, empty: bool = False) -> None:
    """Write the rating rows of a part type anew from its record; none where it is ``empty``."""
    connection.execute(text("DELETE FROM rating WHERE part_id = :id"), {"id": part_id})
    rows = [] if empty else list(rating_rows(part_id, get(connection, part_id).ratings))
    if rows:
        connection.execute(_INSERT_RATING, rows)


def set_keep_at_least(connection: Connection, part_id: int, level: int | None) -> None:
    """How many the shop wants to keep of a part type; None leaves it to the arithmetic."""
    get(connection, part_id)
    connection.execute(
        text("UPDATE part_type SET keep_at_least = :level WHERE id = :id"),
        {"level": level, "id": part_id},
    )
