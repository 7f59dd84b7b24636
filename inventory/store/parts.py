"""Part types in the store: adding, reading, finding the same one again, merging two."""

from __future__ import annotations

import json
from collections.abc import Iterable, Iterator, Mapping, Sequence
from typing import Any

from inventory.errors import NotFound
from inventory.matching.keys import code_key
from inventory.records import Part, Value
from inventory.store import search_index
from inventory.store.asking import Asking
from inventory.store.journal import now
from inventory.store.sql import Connection, places, text

_COLUMNS = "id, family, maker, type_code, marking, description, ratings, keep_at_least, note"
_NAMES = _COLUMNS.split(", ")
_INSERT = (
    "INSERT INTO part_type (id, family, maker, type_code, marking, description, ratings,"
    " code_key, marking_key, keep_at_least, note, created_at)"
    " VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?)"
)
_INSERT_RATING = (
    "INSERT INTO rating (id, part_id, name, number, word, slot) VALUES (?, ?, ?, ?, ?, ?)"
)
_INSERT_ALIAS = "INSERT INTO alias (id, part_id, code, code_key, source) VALUES (?, ?, ?, ?, ?)"


def next_id(connection: Connection, table: str) -> int:
    """The next number of a table; numbers are given in the order rows enter the shelf."""
    found = connection.execute(text(f"SELECT COALESCE(MAX(id), 0) FROM {table}")).scalar_one()  # noqa: S608
    return int(found) + 1


def add(connection: Connection, parts: Sequence[Part]) -> list[int]:
    """Write part types with their ratings, aliases and search index; returns their numbers."""
    first = next_id(connection, "part_type")
    moment = now()
    numbered = list(enumerate(parts, start=first))
    Asking(connection).run(_INSERT, [_row(number, part, moment) for number, part in numbered])
    _add_ratings(
        connection,
        (row for number, part in numbered for row in rating_rows(number, filed_as(part))),
    )
    _add_aliases(
        connection, ((number, code, None) for number, part in numbered for code in part.aliases)
    )
    search_index.add(connection, search_texts(numbered))
    return [number for number, _ in numbered]


def _add_ratings(connection: Connection, rows: Iterable[RatingLine]) -> None:
    """Write rating rows behind those that are there."""
    numbered = enumerate(rows, start=next_id(connection, "rating"))
    Asking(connection).run(_INSERT_RATING, [(number, *row) for number, row in numbered])


def _add_aliases(connection: Connection, rows: Iterable[tuple[int, str, str | None]]) -> None:
    """Write other codes, each with its part type and source, behind those that are there."""
    numbered = enumerate(rows, start=next_id(connection, "alias"))
    Asking(connection).run(
        _INSERT_ALIAS,
        [(number, part, code, code_key(code), said) for number, (part, code, said) in numbered],
    )


_JSON = json.JSONEncoder(ensure_ascii=False)
_SORTED_JSON = json.JSONEncoder(ensure_ascii=False, sort_keys=True)


def _written(ratings: Mapping[str, Value]) -> str:
    """Ratings as they stand in the table."""
    return _JSON.encode(dict(ratings))


def _row(number: int, part: Part, moment: str) -> tuple[Any, ...]:
    """The columns of a part type, in the order of the statement."""
    return (
        number,
        part.family,
        part.maker,
        part.type_code,
        part.marking,
        part.description,
        _written(part.ratings),
        code_key(part.type_code) if part.type_code else None,
        code_key(part.marking) or None,
        part.keep_at_least,
        part.note,
        moment,
    )


def search_texts(numbered: Iterable[tuple[int, Part]]) -> Iterator[tuple[int, str]]:
    """What a part type can be found by: its type code, else its marking; and its aliases."""
    for number, part in numbered:
        for words in dict.fromkeys((part.type_code, part.marking, *part.aliases)):
            if words:
                yield number, words


RatingLine = tuple[int, str, float | None, str | None, int]
"""Part type, name, number, word, slot: a row of the table ``rating``."""


def filed_as(part: Part) -> Mapping[str, Value]:
    """Ratings under which a part type is looked up: those recorded, and what follows from them.

    ``qc-6.3`` is looked up as a tab of 6.3 mm, ``6,3 x 0,8`` as two figures. Most ratings turn
    into nothing else.
    """
    from inventory.families.sheet import families, sheet
    from inventory.rules.terms import derived, tidy
    from inventory.rules.vocabulary import turns

    said = {name: tidy(v) if isinstance(v, str) else v for name, v in part.ratings.items()}
    if part.family not in families() or not turns(part.family, said):
        return said
    return {**derived(sheet(part.family), said), **said}


def rating_rows(part_id: int, ratings: Mapping[str, Value]) -> Iterator[RatingLine]:
    """Ratings as indexed rows: one a value, lists one a member, rating groups by slot."""
    for slot, group in enumerate([ratings, *(ratings.get("ratings") or [])]):
        if not isinstance(group, Mapping):
            continue
        for name, value in group.items():
            if name == "ratings":
                continue
            for member in value if isinstance(value, list | tuple) else (value,):
                found = _number_or_word(member)
                if found:
                    yield (part_id, name, *found, slot)


def _number_or_word(value: Value) -> tuple[float | None, str | None] | None:
    """Number or word of one value; what is neither is not searched by."""
    if value is None or isinstance(value, Mapping | list):
        return None
    if isinstance(value, bool | int | float):
        return float(value), None
    return None, str(value)


def get(connection: Connection, number: int) -> Part:
    """One part type as it is on record, even one that became another since."""
    found = many(connection, [number])
    if number not in found:
        raise NotFound(f"There is no part type {number} on this shelf.")
    return found[number]


def standing_for(connection: Connection, number: int) -> int:
    """The part type a number stands for: its own, or the one it was merged into."""
    get(connection, number)
    return merged_into(connection, number) or number


def merged_into(connection: Connection, number: int) -> int | None:
    """The part type this one became, if it did."""
    rows = Asking(connection).rows("SELECT merged_into FROM part_type WHERE id = ?", (number,))
    return next((into for (into,) in rows), None)


def standing(connection: Connection) -> list[int]:
    """Numbers of all part types that did not become another one, by family."""
    rows = Asking(connection).rows(
        "SELECT id FROM part_type WHERE merged_into IS NULL ORDER BY family, id"
    )
    return [number for (number,) in rows]


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
    within = f"IN ({places(len(numbers))})"
    ask = Asking(connection)
    codes = _grouped(
        ask,
        f"SELECT part_id, code FROM alias WHERE part_id {within} ORDER BY id",  # noqa: S608
        numbers,
    )
    measured = _grouped(
        ask,
        f"SELECT part_id, name, value FROM measured WHERE part_id {within} ORDER BY id",  # noqa: S608
        numbers,
    )
    found = {}
    for row in ask.rows(f"SELECT {_COLUMNS} FROM part_type WHERE id {within} ORDER BY id", numbers):  # noqa: S608
        said = dict(zip(_NAMES, row, strict=True))
        over = {name: json.loads(value) for name, value in measured.get(said["id"], ())}
        said["ratings"] = {**json.loads(said["ratings"]), **over}
        aliases = tuple(code for (code,) in codes.get(said["id"], ()))
        found[said["id"]] = Part(**said, aliases=aliases)
    return found


def _grouped(ask: Asking, query: str, numbers: list[int]) -> dict[int, list[Any]]:
    """Rows of a query by their first column, which is left out of them."""
    grouped: dict[int, list[Any]] = {}
    for number, *rest in ask.rows(query, numbers):
        grouped.setdefault(number, []).append(rest)
    return grouped


_ALIKE = (
    "SELECT COALESCE(merged_into, id), family, maker, type_code, marking, ratings"
    " FROM part_type WHERE "
)
_AT_A_TIME = 500


def known_or_added(connection: Connection, wanted: Sequence[Part]) -> list[tuple[int, bool]]:
    """The number of each part type, and whether it was known; new ones are written, each once.

    Two are one where family, maker, code, marking and ratings are the same; what was merged is
    the one it became. All are looked up together, since a file has thousands of them.
    """
    each = {id(part): part for part in wanted}  # a file says the same one again and again
    words_of = {key: said_of(part) for key, part in each.items()}
    said = [words_of[id(part)] for part in wanted]
    known = _known(Asking(connection), wanted)
    fresh: dict[tuple[str, ...], Part] = {}
    for part, words in zip(wanted, said, strict=True):
        if words in known:
            _add_codes(connection, known[words], part)
        else:
            fresh.setdefault(words, part)
    given = dict(zip(fresh, add(connection, list(fresh.values())), strict=True))
    return [(known.get(words) or given[words], words in known) for words in said]


def _known(ask: Asking, wanted: Sequence[Part]) -> dict[tuple[str, ...], int]:
    """Numbers of part types that could be among these, by what makes them one."""
    known: dict[tuple[str, ...], int] = {}
    for number, *words, ratings in _alike(ask, wanted):
        said = (*(word or "" for word in words), _in_order(json.loads(ratings or "{}")))
        known[said] = min(number, known.get(said, number))
    return known


def _add_codes(connection: Connection, number: int, part: Part) -> None:
    """Other codes a person gave for a part type that was known already."""
    if part.aliases:
        there = get(connection, number).aliases
        for code in dict.fromkeys(part.aliases):
            if code not in there:
                add_alias(connection, number, code, None)


def said_of(part: Part) -> tuple[str, ...]:
    """What makes two part types one; in which order their ratings were said does not."""
    ratings = _in_order(part.ratings)
    return (part.family, part.maker or "", part.type_code or "", part.marking, ratings)


def _in_order(ratings: Mapping[str, Value]) -> str:
    """Ratings as one text, whatever order they stand in."""
    return _SORTED_JSON.encode(dict(ratings))


def _alike(ask: Asking, wanted: Sequence[Part]) -> Iterator[tuple[Any, ...]]:
    """Part types with the folded marking of one of these; of one without, with its type code."""
    markings = {key for part in wanted if (key := code_key(part.marking))}
    bare = [part for part in wanted if not code_key(part.marking)]
    codes = {key for part in bare if (key := code_key(part.type_code or ""))}
    signs = {part.marking for part in bare if not code_key(part.type_code or "")}
    for condition, values in (
        ("marking_key IN", markings),
        ("marking_key IS NULL AND code_key IN", codes),
        ("marking_key IS NULL AND code_key IS NULL AND marking IN", signs),
    ):
        listed = sorted(values)
        for start in range(0, len(listed), _AT_A_TIME):
            chunk = listed[start : start + _AT_A_TIME]
            yield from ask.rows(f"{_ALIKE}{condition} ({places(len(chunk))})", chunk)


def add_alias(connection: Connection, part_id: int, code: str, source: str | None) -> None:
    """Another code the part type goes by."""
    _add_aliases(connection, [(part_id, code, source)])
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
    if not empty:
        _add_ratings(connection, rating_rows(part_id, filed_as(get(connection, part_id))))


def set_keep_at_least(connection: Connection, part_id: int, level: int | None) -> None:
    """How many the shop wants to keep of a part type; None leaves it to the arithmetic."""
    get(connection, part_id)
    connection.execute(
        text("UPDATE part_type SET keep_at_least = :level WHERE id = :id"),
        {"level": level, "id": part_id},
    )
