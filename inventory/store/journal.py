"""Writing and reading stock events; every count is a sum over them."""

from __future__ import annotations

import hashlib
import json
from collections.abc import Callable, Iterable, Iterator, Mapping
from dataclasses import dataclass, field
from datetime import UTC, datetime
from typing import Any

from inventory.store.asking import Asking
from inventory.store.sql import Connection, text

GENESIS = "0" * 64
"""The hash before the first event."""

_COLUMNS = (
    "at, bench, kind, lot_id, part_id, job_id, source_unit_id, place, quantity, held, ordered,"
    " detail, undoes, act"
)
_NAMES = tuple(name.strip() for name in _COLUMNS.split(","))
_INSERT = (
    f"INSERT INTO journal (seq, {_COLUMNS}, hash) VALUES"  # noqa: S608 - names are our own
    f" (?, {', '.join('?' * len(_NAMES))}, ?)"
)


_DETAIL = json.JSONEncoder(ensure_ascii=False, sort_keys=True, separators=(",", ":"))
_CHAINED = json.JSONEncoder(ensure_ascii=False)


@dataclass(frozen=True, slots=True)
class Event:
    """One stock event, as it is going to stand in the journal."""

    kind: str
    lot_id: int | None = None
    part_id: int | None = None
    job_id: int | None = None
    source_unit_id: int | None = None
    place: str | None = None
    quantity: int = 0  # added to on_hand
    held: int = 0  # added to held
    ordered: int = 0  # added to on order
    detail: Mapping[str, Any] = field(default_factory=dict)
    undoes: int | None = None
    at: str | None = None  # UTC; None: now. Given only when old records are loaded
    bench: str | None = None  # None: the bench that writes
    seq: int | None = None  # set when read
    act: int | None = None  # set when read: the first event of the write it belongs to


def _wall_clock() -> datetime:
    """The time of the machine, in UTC."""
    return datetime.now(UTC)


clock: Callable[[], datetime] = _wall_clock
"""Where the time comes from; a played shop and a test set their own."""


def now() -> str:
    """This moment in UTC, ISO 8601 with microseconds."""
    return clock().astimezone(UTC).isoformat(timespec="microseconds")


def append(connection: Connection, events: Iterable[Event], *, bench: str) -> list[int]:
    """Write events at the end of the journal; returns their numbers.

    Needs the write transaction: the chain is read and continued in one.
    Times never go back, even if the clock does. All events of one transaction carry the number
    of its first one as ``act``, so that they can be undone together.
    """
    seq, latest, chain = _tail(connection)
    act = _act(connection, seq + 1)
    rows: list[tuple[Any, ...]] = []
    moment = now()
    for event in events:
        seq += 1
        latest = max(latest, event.at or moment)
        row = _row(event, latest, event.bench or bench, act)
        chain = _linked(chain, seq, row)
        rows.append((seq, *row, chain))
    Asking(connection).run(_INSERT, rows)
    return [row[0] for row in rows]


def _act(connection: Connection, fresh: int) -> int:
    """Number of the first event this transaction wrote."""
    transaction = connection.get_transaction()
    known = connection.info.get("act")
    if known is None or known[0] is not transaction:
        known = connection.info["act"] = (transaction, fresh)
    return int(known[1])


def _tail(connection: Connection) -> tuple[int, str, str]:
    """Number, time and hash of the last event."""
    row = connection.execute(
        text("SELECT seq, at, hash FROM journal ORDER BY seq DESC LIMIT 1")
    ).first()
    return (row[0], row[1], row[2]) if row else (0, "", GENESIS)


def latest(connection: Connection) -> str:
    """The time of the last event; before every time where there is none."""
    rows = Asking(connection).rows("SELECT at FROM journal ORDER BY seq DESC LIMIT 1")
    return next((str(at) for (at,) in rows), "")


def earliest(connection: Connection) -> str:
    """The time of the first event; before every time where there is none."""
    rows = Asking(connection).rows("SELECT at FROM journal ORDER BY seq LIMIT 1")
    return next((str(at) for (at,) in rows), "")


def _row(event: Event, at: str, bench: str, act: int) -> tuple[Any, ...]:
    """The columns of an event, in the order of ``_COLUMNS``."""
    return (
        at,
        bench,
        event.kind,
        event.lot_id,
        event.part_id,
        event.job_id,
        event.source_unit_id,
        event.place,
        event.quantity,
        event.held,
        event.ordered,
        _DETAIL.encode(event.detail),
        event.undoes,
        act,
    )


def link(before: str, seq: int, row: Mapping[str, Any]) -> str:
    """The hash of an event: SHA-256 over the hash before it and all that it says."""
    return _linked(before, seq, [row[name] for name in _NAMES])


def _linked(before: str, seq: int, values: Iterable[Any]) -> str:
    """The hash over values in the order of ``_COLUMNS``."""
    said = _CHAINED.encode([seq, *values])
    return hashlib.sha256((before + said).encode("utf-8", "surrogatepass")).hexdigest()


def events(connection: Connection, where: str = "1=1", **values: Any) -> Iterator[Event]:
    """Events in order; ``where`` is one of our own conditions, its values bound."""
    rows = connection.execute(
        text(f"SELECT seq, {_COLUMNS} FROM journal WHERE {where} ORDER BY seq"),  # noqa: S608
        values,
    )
    for row in rows.mappings():
        yield Event(**{**row, "detail": json.loads(row["detail"])})


def last_act(connection: Connection, bench: str) -> int | None:
    """The last write of a bench that still stands: neither undone nor an undoing itself."""
    found = connection.execute(
        text(
            "SELECT act FROM journal WHERE bench = :bench AND undoes IS NULL AND NOT EXISTS"
            " (SELECT 1 FROM journal AS later WHERE later.undoes = journal.seq)"
            " ORDER BY seq DESC LIMIT 1"
        ),
        {"bench": bench},
    ).scalar()
    return None if found is None else int(found)


def total(connection: Connection, column: str, where: str, **values: Any) -> int:
    """Sum of ``quantity``, ``held`` or ``ordered`` over some events; zero where there are none."""
    found = connection.execute(
        text(f"SELECT COALESCE(SUM({column}), 0) FROM journal WHERE {where}"),  # noqa: S608
        values,
    ).scalar_one()
    return int(found)


def broken_link(connection: Connection) -> int | None:
    """Number of the first event whose hash does not follow; None where the chain holds."""
    chain = GENESIS
    rows = connection.execute(text(f"SELECT seq, {_COLUMNS}, hash FROM journal ORDER BY seq"))  # noqa: S608
    for expected, row in enumerate(rows.mappings(), start=1):
        chain = link(chain, row["seq"], dict(row))
        if row["seq"] != expected or chain != row["hash"]:
            return int(row["seq"])
    return None
