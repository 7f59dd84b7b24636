"""Looking a shelf over: do the pages hold, does everything in it agree, and mending what can be.

What is derived (sums of the journal, rating rows, the search index) can be rebuilt; what was
said (events, records) is never touched.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from datetime import UTC, datetime, timedelta
from typing import Any

from sqlalchemy import text
from sqlalchemy.engine import Connection

from inventory.errors import Refused
from inventory.matching.edges import ways
from inventory.matching.keys import bare
from inventory.store import edges, journal, lots, parts, search_check
from inventory.store.shelf import Shelf

CHAIN_KINDS = ("supersedes", "superseded-by", "splits-into", "merges-into", "part-of-kit")
"""Cross-references that are followed from an old number to a new one."""


@dataclass(frozen=True, slots=True)
class Finding:
    """One thing that is not as it should be."""

    about: str  # "file", "references", "journal", "times", "sums", "holds", "ratings", ...
    sentence: str
    mendable: bool = False


def check(shelf: Shelf) -> list[Finding]:
    """Everything that can be checked, in one read transaction; an empty list is a whole shelf."""
    with shelf.read() as connection:
        pages = _pages(connection)
        # where pages are damaged, what stands on them cannot be believed either
        return pages or [finding for part in _PARTS for finding in part(connection)]


def repair(shelf: Shelf, *, dry_run: bool = False) -> list[Finding]:
    """Rebuild what is derived and differs, in one transaction; returns what was mended.

    Raises ``Refused`` where the pages of the file are damaged: that needs a backup.
    """
    with shelf.write(dry_run=dry_run) as connection:
        if _pages(connection):
            raise Refused("The file itself is damaged; 'salvage restore' brings back a backup.")
        found = [one for part in _PARTS for one in part(connection) if one.mendable]
        if found:
            rebuild_derived(connection)
        return found


def contradictions(connection: Connection) -> Iterator[Finding]:
    """What cannot be in any shelf: references that lead nowhere, a broken chain, wrong sums."""
    for part in (_references, _chain, _sums, _moments, _past_times):
        yield from part(connection)


def rebuild_derived(connection: Connection) -> None:
    """Sums, rating rows and search index anew from what was said, where they differ."""
    _rebuild_sums(connection)
    _rebuild_ratings(connection)
    if search_check.check(connection):
        search_check.rebuild(connection)


def _pages(connection: Connection) -> list[Finding]:
    """SQLite's own check; a database server checks itself."""
    if connection.dialect.name != "sqlite":
        return []
    rows = connection.exec_driver_sql("PRAGMA integrity_check(20)").scalars()
    return [Finding("file", f"SQLite's own check: {row}") for row in rows if row != "ok"]


def _references(connection: Connection) -> Iterator[Finding]:
    """Rows that point to a row that is not there."""
    if connection.dialect.name != "sqlite":  # a server holds its references itself
        return
    for table, row, parent, _ in connection.exec_driver_sql("PRAGMA foreign_key_check"):
        yield Finding("references", f"Row {row} of {table} points to a {parent} that is not there.")


def _chain(connection: Connection) -> Iterator[Finding]:
    """The journal's hashes: a changed, lost or slipped-in event breaks the chain."""
    broken = journal.broken_link(connection)
    if broken is not None:
        yield Finding(
            "journal",
            f"The journal was changed at or before event {broken}; compare with a backup.",
        )


_TIMES = {
    "journal": ("seq", "at"),
    "part_type": ("id", "created_at"),
    "lot": ("id", "logged_at"),
    "job": ("id", "opened_at"),
}
"""Where a report reads a time: the number of a row and its column."""


def _moments(connection: Connection) -> Iterator[Finding]:
    """Times that are none: no report can count the months."""
    for table, (number, column) in _TIMES.items():
        for row, at in connection.execute(text(f"SELECT {number}, {column} FROM {table}")):  # noqa: S608
            if not _is_moment(at):
                yield Finding("times", f"Row {row} of {table} is dated {at!r}, which is no time.")


def _is_moment(at: Any) -> bool:
    """Whether a text is a time as ISO 8601 has it."""
    try:
        datetime.fromisoformat(at)
    except (TypeError, ValueError):
        return False
    return True


def _past_times(connection: Connection) -> Iterator[Finding]:
    """Events in order of time."""
    back = connection.execute(
        text(
            "SELECT later.seq FROM journal AS later JOIN journal AS earlier"
            " ON earlier.seq = later.seq - 1 WHERE later.at < earlier.at ORDER BY later.seq"
        )
    ).scalars()
    for seq in back:
        yield Finding("times", f"Event {seq} is dated before the one before it.")


def _future_times(connection: Connection) -> Iterator[Finding]:
    """No event in the future: a clock that ran ahead holds back every later one."""
    last = connection.execute(text("SELECT MAX(at) FROM journal")).scalar()
    tomorrow = (datetime.now(UTC) + timedelta(days=1)).isoformat()
    if last is not None and last > tomorrow:
        yield Finding(
            "times", f"The last event is dated {last[:10]}: was the clock of this bench ahead?"
        )


def _wrong_sums(connection: Connection) -> list[Mapping[str, Any]]:
    """Lots whose counts are not the sums of their events."""
    rows = connection.execute(
        text(
            "SELECT lot.id AS id, lot.on_hand AS on_hand, lot.held AS held,"
            " COALESCE(said.quantity, 0) AS quantity, COALESCE(said.held, 0) AS said_held"
            " FROM lot LEFT JOIN (SELECT lot_id, SUM(quantity) AS quantity, SUM(held) AS held"
            " FROM journal GROUP BY lot_id) AS said ON said.lot_id = lot.id"
            " WHERE lot.on_hand <> COALESCE(said.quantity, 0)"
            " OR lot.held <> COALESCE(said.held, 0) ORDER BY lot.id"
        )
    ).mappings()
    return [dict(row) for row in rows]


def _sums(connection: Connection) -> Iterator[Finding]:
    """Counts of lots against the journal."""
    for row in _wrong_sums(connection):
        yield Finding(
            "sums",
            f"Lot {row['id']} says {row['on_hand']} on hand and {row['held']} held, its journal"
            f" {row['quantity']} and {row['said_held']}.",
            mendable=0 <= row["said_held"] <= row["quantity"],
        )


def _rebuild_sums(connection: Connection) -> None:
    """Counts as the journal has them."""
    for row in _wrong_sums(connection):
        if 0 <= row["said_held"] <= row["quantity"]:
            lots.set_values(connection, row["id"], on_hand=row["quantity"], held=row["said_held"])


def _holds(connection: Connection) -> Iterator[Finding]:
    """Pieces held by nobody who still needs them, or released more often than held."""
    rows = connection.execute(
        text(
            "SELECT journal.lot_id AS lot, journal.job_id AS job, SUM(journal.held) AS held,"
            " job.closed_at AS closed FROM journal LEFT JOIN job ON job.id = journal.job_id"
            " WHERE journal.held <> 0 AND journal.lot_id IS NOT NULL"
            " GROUP BY journal.lot_id, journal.job_id, job.closed_at"
            " HAVING SUM(journal.held) < 0 OR (SUM(journal.held) > 0 AND"
            " job.closed_at IS NOT NULL) ORDER BY journal.lot_id, COALESCE(journal.job_id, 0)"
        )
    ).mappings()
    for row in rows:
        whom = f"job {row['job']}" if row["job"] else "no job in particular"
        if row["held"] < 0:
            yield Finding("holds", f"Lot {row['lot']}: more was released for {whom} than held.")
        else:
            yield Finding(
                "holds",
                f"Lot {row['lot']}: {row['held']} held for {whom}, which is closed; let go with"
                f" 'salvage hold {row['lot']} --release --quantity {row['held']}"
                f" --job {row['job']}'.",
            )


def _rating_keys(rows: Iterator[parts.RatingLine]) -> set[tuple[Any, ...]]:
    """Rating rows as a set that can be compared: name, number, word, slot."""
    return {row[1:] for row in rows}


def _parts_with_wrong_ratings(connection: Connection) -> list[int]:
    """Part types whose rating rows are not those of their agreed and measured ratings."""
    stored: dict[int, set[tuple[Any, ...]]] = defaultdict(set)
    for row in connection.execute(
        text("SELECT part_id, name, number, word, slot FROM rating ORDER BY part_id")
    ).mappings():
        stored[row["part_id"]].add((row["name"], row["number"], row["word"], row["slot"]))
    merged = _merged(connection)
    numbers = list(connection.execute(text("SELECT id FROM part_type ORDER BY id")).scalars())
    wrong = []
    for start in range(0, len(numbers), 500):
        known = parts.many(connection, numbers[start : start + 500])
        for number, part in known.items():
            wanted = (
                set()
                if number in merged
                else _rating_keys(parts.rating_rows(number, parts.filed_as(part)))
            )
            if stored.get(number, set()) != wanted:
                wrong.append(number)
    return wrong


def _merged(connection: Connection) -> set[int]:
    """Part types that became another one."""
    return set(
        connection.execute(text("SELECT id FROM part_type WHERE merged_into IS NOT NULL")).scalars()
    )


def _ratings(connection: Connection) -> Iterator[Finding]:
    """Rating rows, by which a need finds its parts, against the records."""
    for number in _parts_with_wrong_ratings(connection):
        yield Finding(
            "ratings",
            f"Part type {number} is filed under ratings that are not its own.",
            mendable=True,
        )


def _rebuild_ratings(connection: Connection) -> None:
    """Rating rows anew from the records."""
    merged = _merged(connection)
    for number in _parts_with_wrong_ratings(connection):
        parts.file_ratings(connection, number, empty=number in merged)


def _search(connection: Connection) -> Iterator[Finding]:
    """The search index against the records."""
    for sentence in search_check.check(connection):
        yield Finding("search", sentence, mendable=True)


def _cycles(connection: Connection) -> Iterator[Finding]:
    """Chains of part numbers that come back to where they began."""
    following: dict[str, set[str]] = defaultdict(set)
    for edge in edges.where(connection):
        if edge.kind in CHAIN_KINDS:
            for old, new in ways(edge):
                following[bare(old)].add(bare(new))
    for ring in rings(following):
        yield Finding(
            "chains", f"Cross-references run in a circle: {' -> '.join((*ring, ring[0]))}."
        )


def rings(following: Mapping[str, set[str]]) -> list[tuple[str, ...]]:
    """Rings of a directed graph, each once, starting at its smallest member.

    One ring is found for every group of codes that reach each other.

    >>> rings({"A": {"B"}, "B": {"A", "C"}, "C": set()})
    [('A', 'B')]
    """
    done: set[str] = set()
    found: dict[tuple[str, ...], None] = {}
    for start in sorted(following):
        if start not in done:
            _walk(start, following, done, found)
    return list(found)


def _walk(
    start: str,
    following: Mapping[str, set[str]],
    done: set[str],
    found: dict[tuple[str, ...], None],
) -> None:
    """Depth first from one code, without recursion: chains may be long."""
    path: list[str] = [start]
    steps = [iter(sorted(following.get(start, ())))]
    on_path = {start}
    while steps:
        code = next(steps[-1], None)
        if code is None:
            steps.pop()
            left = path.pop()
            on_path.discard(left)
            done.add(left)
        elif code in on_path:
            ring = path[path.index(code) :]
            low = ring.index(min(ring))
            found[tuple(ring[low:] + ring[:low])] = None
        elif code not in done:
            path.append(code)
            on_path.add(code)
            steps.append(iter(sorted(following.get(code, ()))))


_PARTS = (
    _references,
    _chain,
    _moments,
    _past_times,
    _future_times,
    _sums,
    _holds,
    _ratings,
    _search,
    _cycles,
)
