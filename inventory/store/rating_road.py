"""The rating road: part types in stock by what they are rated for, over indexed rows.

One need drives: its range of the index ``(name, number, part_id)`` or ``(name, word, part_id)`` is
read from the nearest figure on, and each part met is held against the other needs by index. The
rarest need drives, found by counting so far as it matters. Every query is bounded, so that the
answer comes quickly at any size of the shelf.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass

from inventory.matching.needs import Need
from inventory.store.asking import Asking
from inventory.store.sql import Connection

COUNTED = 5_000
"""A need that more parts meet than this is common; how common does not matter."""

SAMPLED = 200
"""So many parts in stock tell which of several common needs is the rarest."""

LOOKED_AT = 100_000
"""So many rows of the driving need are looked at, those with the nearest figures first."""

LOOKED_AT_FOR_GAPS = 20_000
"""The same where parts with something unrecorded are looked for."""

FETCHED = 240
"""So many parts are compared before the nearest are handed on."""

FEW = 20
"""Below this many whole matches, parts with something unrecorded come up too."""

MOST_WORDS = 300
"""More different words than this under one name are free text, not terms."""

_SAMPLE = "SELECT part_id FROM lot WHERE on_hand > held ORDER BY id DESC LIMIT ?"

_WORDS = (
    "WITH RECURSIVE next(word) AS (SELECT MIN(word) FROM rating WHERE name = ? UNION ALL"
    " SELECT (SELECT MIN(word) FROM rating WHERE name = ? AND word > next.word) FROM next"
    " WHERE next.word IS NOT NULL)"
    " SELECT word FROM next WHERE word IS NOT NULL LIMIT ?"
)
"""The different words of a name, each found by one step down the index."""


@dataclass(frozen=True, slots=True)
class Query:
    """A piece of SQL with its values."""

    sql: str
    values: tuple[float | str | int, ...] = ()


def words_of(connection: Connection, name: str) -> list[str]:
    """The different words recorded under a rating name, at most ``MOST_WORDS``."""
    return [word for (word,) in Asking(connection).rows(_WORDS, (name, name, MOST_WORDS))]


def by_needs(
    connection: Connection, families: Sequence[str], needs: Sequence[Need], limit: int
) -> list[tuple[int, bool]]:
    """Part types in stock that meet all needs, nearest first; then those with gaps, False."""
    ask = Asking(connection)
    if not families:
        return []
    unmet = any(need.words == () and need.must for need in needs)  # no recorded word serves
    whole = {} if unmet else _found(ask, families, needs, gaps=False)
    answer = [(number, True) for number in _nearest(ask, whole, needs)[:limit]]
    if len(whole) < FEW:
        loose = _found(ask, families, needs, gaps=True)
        more = [number for number in _nearest(ask, loose, needs) if number not in whole]
        answer += [(number, False) for number in more[: limit - len(answer)]]
    return answer


def _found(
    ask: Asking, families: Sequence[str], needs: Sequence[Need], *, gaps: bool
) -> dict[int, None]:
    """Numbers of parts that meet the needs, or with ``gaps`` contradict none of them."""
    drivers = _drivers(ask, needs)
    found: dict[int, None] = {}
    # with gaps, what the first driver does not find for lack of a value another one may
    for driver in drivers if gaps else drivers[:1]:
        others = [need for need in needs if need is not driver and _narrows(need)]
        for query in driving(driver, families, others, gaps=gaps, sort=ask.portable):
            found |= dict.fromkeys(number for (number,) in ask.rows(query.sql, query.values))
    return found


def _drivers(ask: Asking, needs: Sequence[Need]) -> list[Need]:
    """The needs that can drive, the rarest first; those that must be met before others."""
    able = [need for need in needs if _has_condition(need)]
    sample = [number for (number,) in ask.rows(_SAMPLE, (SAMPLED,))]
    rare = {
        id(need): (not need.must, _count(ask, need), _share(ask, need, sample)) for need in able
    }
    return sorted(able, key=lambda need: rare[id(need)])[:3]


def _count(ask: Asking, need: Need) -> int:
    """How many rows meet a need, counted up to ``COUNTED``."""
    total = 0
    for name in need.names:
        where = _where(need, name, "r")
        inner = f"SELECT 1 FROM rating r WHERE {where.sql} LIMIT ?"  # noqa: S608
        counted = f"SELECT COUNT(*) FROM ({inner}) AS met"  # noqa: S608
        total += next(iter(ask.rows(counted, (*where.values, COUNTED))))[0]
    return min(total, COUNTED)


def _share(ask: Asking, need: Need, sample: Sequence[int]) -> int:
    """How many of some parts in stock meet a need: tells common needs apart."""
    if not sample:
        return 0
    of_parts = ", ".join("?" for _ in sample)
    parts = [_where(need, name, "x") for name in need.names]
    met = " OR ".join(f"({part.sql})" for part in parts)
    counted = f"SELECT COUNT(*) FROM rating x WHERE x.part_id IN ({of_parts}) AND ({met})"  # noqa: S608
    values = (value for part in parts for value in part.values)
    return int(next(iter(ask.rows(counted, (*sample, *values))))[0])


def driving(
    driver: Need, families: Sequence[str], others: Sequence[Need], *, gaps: bool, sort: bool = False
) -> Iterator[Query]:
    """One query for each name of the driving need.

    SQLite hands on the driver's rows in their order and stops when it has enough; another
    database has to ``sort`` what it found.
    """
    column = "number" if driver.words is None else "word"
    # at most: the figure just below comes first
    down = " DESC" if driver.words is None and driver.low is None else ""
    begin, end = _outer(down) if sort else ("SELECT DISTINCT d.part_id", "")
    kind = ", ".join("?" for _ in families)
    checks = [_check(need, gaps=gaps or not need.must) for need in others]
    more = [value for check in checks for value in check.values]
    most = LOOKED_AT_FOR_GAPS if gaps else LOOKED_AT
    for name in driver.names:
        where = _where(driver, name, "r")
        sql = (
            f"{begin} FROM (SELECT r.part_id, r.{column} AS met FROM rating r WHERE {where.sql}"  # noqa: S608
            f" ORDER BY r.{column}{down}, r.part_id{down} LIMIT ?) AS d WHERE"
            " EXISTS (SELECT 1 FROM lot l WHERE l.part_id = d.part_id AND l.on_hand > l.held)"
            " AND EXISTS (SELECT 1 FROM part_type p WHERE p.id = d.part_id"
            f" AND p.family IN ({kind}) AND p.merged_into IS NULL)"
            f"{''.join(check.sql for check in checks)}{end} LIMIT ?"
        )
        yield Query(sql, (*where.values, most, *families, *more, FETCHED))


def _outer(down: str) -> tuple[str, str]:
    """How a query begins and ends that puts every part once, by its nearest row."""
    nearest = "MAX" if down else "MIN"
    order = f" GROUP BY d.part_id ORDER BY {nearest}(d.met){down}, d.part_id{down}"
    return "SELECT d.part_id", order


def _check(need: Need, *, gaps: bool) -> Query:
    """A part's other ratings against a need; with ``gaps`` an unrecorded one passes."""
    parts = [_where(need, name, "x") for name in need.names if need.words != ()]
    met = " OR ".join(f"({part.sql})" for part in parts) or "1 = 0"
    values = tuple(value for part in parts for value in part.values)
    row = "EXISTS (SELECT 1 FROM rating x WHERE x.part_id = d.part_id AND"
    sql = f"{row} ({met}))"
    if gaps:
        names = ", ".join("?" for _ in need.names)
        sql = f"({sql} OR NOT {row} COALESCE(x.name, '') IN ({names})))"
        values = (*values, *need.names)
    return Query(f" AND {sql}", values)


def _where(need: Need, name: str, row: str) -> Query:
    """The condition of a need on one row of ratings."""
    # without statistics SQLite would look a part's rating up by name first, through thousands
    own = f"{row}.name" if row == "r" else f"COALESCE({row}.name, '')"
    sql, values = f"{own} = ?", [name]
    limits: list[float | str | int] = []
    if need.words is not None:
        sql += f" AND {row}.word IN ({', '.join('?' for _ in need.words)})"
        limits += need.words
    for sign, limit in ((">=", need.low), ("<=", need.high)):
        if limit is not None:
            sql += f" AND {row}.number {sign} ?"
            limits.append(limit)
    return Query(sql, (*values, *limits))


def _has_condition(need: Need) -> bool:
    """Whether a need narrows anything down."""
    return bool(need.words) or need.low is not None or need.high is not None


def _narrows(need: Need) -> bool:
    """Whether a need tells parts apart: one that no recorded word meets does too."""
    return _has_condition(need) or (need.words == () and need.must)


def _nearest(ask: Asking, numbers: Iterable[int], needs: Sequence[Need]) -> list[int]:
    """Parts in the order of how near their figures come, each need counting alike."""
    aims = {name: need.aim for need in needs if need.aim for name in need.names}
    apart: dict[int, dict[str, float]] = {number: {} for number in numbers}
    for number, name, figure in _figures(ask, list(apart), list(aims)):
        aim = aims[name] or 1.0
        gap = abs(figure - aim) / abs(aim)
        apart[number][name] = min(gap, apart[number].get(name, gap))
    missing = 1.0  # as far as twice the figure
    return sorted(
        apart,
        key=lambda number: (sum(min(apart[number].get(n, missing), 9.0) for n in aims), number),
    )


def _figures(ask: Asking, numbers: list[int], names: list[str]) -> Iterator[tuple[int, str, float]]:
    """Figures of some ratings of some parts."""
    if not names:
        return
    holders = ", ".join("?" for _ in names)
    for start in range(0, len(numbers), 200):
        chunk = numbers[start : start + 200]
        of_parts = ", ".join("?" for _ in chunk)
        sql = (
            f"SELECT part_id, name, number FROM rating WHERE part_id IN ({of_parts})"  # noqa: S608
            f" AND COALESCE(name, '') IN ({holders}) AND number IS NOT NULL"
        )
        yield from ask.rows(sql, (*chunk, *names))
