"""Jobs, bench tests and close-out readings in the store."""

from __future__ import annotations

import json
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field
from typing import Any

from inventory.errors import NotFound
from inventory.matching.keys import bare
from inventory.store.journal import now
from inventory.store.parts import next_id
from inventory.store.sql import Connection, text

_COLUMNS = (
    "id, opened_at, kind, maker, model, serial, customer, complaint, plate, closed_at, outcome,"
    " note"
)


@dataclass(frozen=True, slots=True)
class Job:
    """One repair of one customer's unit."""

    id: int
    opened_at: str
    kind: str | None = None
    maker: str | None = None
    model: str | None = None
    serial: str | None = None
    customer: str | None = None
    complaint: str | None = None
    plate: Mapping[str, Any] = field(default_factory=dict)
    closed_at: str | None = None
    outcome: str | None = None  # "kept-working", "came-back", ... ; None: not known yet
    note: str | None = None


def add(connection: Connection, job: Job) -> int:
    """Write a job; a number of 0 is replaced by the next one."""
    number = job.id or next_id(connection, "job")
    connection.execute(
        text(
            f"INSERT INTO job ({_COLUMNS}, model_key) VALUES (:id, :opened_at, :kind, :maker,"  # noqa: S608
            " :model, :serial, :customer, :complaint, :plate, :closed_at, :outcome, :note,"
            " :model_key)"
        ),
        {
            "id": number,
            "opened_at": job.opened_at or now(),
            "kind": job.kind,
            "maker": job.maker,
            "model": job.model,
            "serial": job.serial,
            "customer": job.customer,
            "complaint": job.complaint,
            "plate": json.dumps(dict(job.plate)),
            "closed_at": job.closed_at,
            "outcome": job.outcome,
            "note": job.note,
            "model_key": bare(job.model) if job.model else None,
        },
    )
    return number


def get(connection: Connection, number: int) -> Job:
    """One job."""
    found = where(connection, "id = :id", id=number)
    if not found:
        raise NotFound(f"There is no job {number} on this shelf.")
    return found[0]


def where(connection: Connection, condition: str = "1=1", **values: Any) -> list[Job]:
    """Jobs by one of our own conditions."""
    rows = connection.execute(
        text(f"SELECT {_COLUMNS} FROM job WHERE {condition} ORDER BY id"),  # noqa: S608
        values,
    ).mappings()
    return [Job(**{**row, "plate": json.loads(row["plate"])}) for row in rows]


def open_at(connection: Connection, at: str) -> list[dict[str, Any]]:
    """Jobs that were open at a moment, with what a morning page says of them."""
    rows = connection.execute(
        text(
            "SELECT id AS job, opened_at, kind, maker, model, complaint FROM job"
            " WHERE opened_at <= :at AND (closed_at IS NULL OR closed_at > :at) ORDER BY id"
        ),
        {"at": at},
    ).mappings()
    return [dict(row) for row in rows]


def set_values(connection: Connection, number: int, **values: Any) -> None:
    """Set columns of a job."""
    names = ", ".join(f"{name} = :{name}" for name in sorted(values))
    connection.execute(
        text(f"UPDATE job SET {names} WHERE id = :id"),  # noqa: S608 - names are our own
        {**values, "id": number},
    )


def add_readings(
    connection: Connection, number: int, readings: Iterable[Mapping[str, Any]]
) -> None:
    """Write close-out readings: name, number, unit, method, within, sentence, source."""
    first = next_id(connection, "job_reading")
    rows = [
        {**reading, "id": one, "job_id": number, "at": now()}
        for one, reading in enumerate(readings, start=first)
    ]
    if rows:
        connection.execute(
            text(
                "INSERT INTO job_reading (id, job_id, at, name, number, unit, method, within,"
                " sentence, source) VALUES (:id, :job_id, :at, :name, :number, :unit, :method,"
                " :within, :sentence, :source)"
            ),
            rows,
        )


def readings(connection: Connection, number: int) -> list[dict[str, Any]]:
    """Close-out readings of a job, in order."""
    rows = connection.execute(
        text(
            "SELECT at, name, number, unit, method, within, sentence, source FROM job_reading"
            " WHERE job_id = :id ORDER BY id"
        ),
        {"id": number},
    ).mappings()
    return [
        {**row, "within": None if row["within"] is None else bool(row["within"])} for row in rows
    ]


def add_test(
    connection: Connection, test: Mapping[str, Any], rows: Iterable[Mapping[str, Any]]
) -> int:
    """Write a bench test (lot_id, bench, state, judged_by, instrument, note) and its readings."""
    number = next_id(connection, "bench_test")
    connection.execute(
        text(
            "INSERT INTO bench_test (id, lot_id, at, bench, state, judged_by, instrument, note)"
            " VALUES (:id, :lot_id, :at, :bench, :state, :judged_by, :instrument, :note)"
        ),
        {"at": now(), **test, "id": number},
    )
    first = next_id(connection, "bench_reading")
    numbered = [{**row, "id": one, "test_id": number} for one, row in enumerate(rows, start=first)]
    if numbered:
        connection.execute(
            text(
                "INSERT INTO bench_reading (id, test_id, name, number, word, unit, sentence,"
                " source) VALUES (:id, :test_id, :name, :number, :word, :unit, :sentence, :source)"
            ),
            numbered,
        )
    return number


def strike_test(connection: Connection, number: int, why: str) -> None:
    """Mark a bench test as taken back; it stays to be read."""
    connection.execute(
        text("UPDATE bench_test SET note = COALESCE(note || '; ', '') || :why WHERE id = :id"),
        {"id": number, "why": why},
    )


def tests_of(connection: Connection, lot_id: int) -> list[dict[str, Any]]:
    """Bench tests of a lot with their readings, in order."""
    tests = [
        dict(row)
        for row in connection.execute(
            text(
                "SELECT id, at, bench, state, judged_by, instrument, note FROM bench_test"
                " WHERE lot_id = :id ORDER BY id"
            ),
            {"id": lot_id},
        ).mappings()
    ]
    for test in tests:
        rows = connection.execute(
            text(
                "SELECT name, number, word, unit, sentence, source FROM bench_reading"
                " WHERE test_id = :id ORDER BY id"
            ),
            {"id": test["id"]},
        ).mappings()
        test["readings"] = [dict(row) for row in rows]
    return tests
