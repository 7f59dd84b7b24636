"""What reports take over journals of 10 thousand, 100 thousand and 1 million events.

Usage: python -m tests.benchmarks.report_growth [--events N ...] [--keep FOLDER]

The journals are written with raw SQL: a shop of three years, eight events a repair (opened,
held, released, fitted, closed, outcome, now and then failed, lacked or put back), lots logged
and tested, part types and lots growing with it. The hash chain is left out (a constant stands in
its place): no report reads it. Seconds of the wall clock and of the processor, one process,
libraries loaded; the best of two. Nothing is asserted.
"""

from __future__ import annotations

import argparse
import json
import random
import resource
import tempfile
import time
from collections.abc import Callable, Iterator
from datetime import UTC, datetime, timedelta
from pathlib import Path
from typing import Any

from inventory.bench.day import day
from inventory.bench.find import Query, find
from inventory.bench.low import low
from inventory.bench.wear import wear
from inventory.store import connection as opening
from inventory.store import parts
from inventory.store.shelf import Shelf, open_shelf
from tests.benchmarks.load_speed import markings

SIZES = (10_000, 100_000, 1_000_000)
START = datetime(2023, 1, 2, 8, tzinfo=UTC)
DAYS = 3 * 365
AS_OF = "2025-06-30"
"""Six months before the end of the journal."""

_JOURNAL = (
    "INSERT INTO journal (seq, at, bench, kind, lot_id, part_id, job_id, source_unit_id, place,"
    " quantity, held, ordered, detail, undoes, act, hash)"
    " VALUES (?, ?, 'bench', ?, ?, ?, ?, ?, ?, ?, ?, 0, ?, NULL, ?, 'left out')"
)


class Shop:
    """An invented shop's events, in order, and the tables beside them."""

    def __init__(self, events: int) -> None:
        self.chance = random.Random(events)
        self.events = events
        self.kinds = max(300, events // 300)
        self.lots: list[list[Any]] = []  # part type, pieces, unit
        self.units = max(40, events // 400)
        self.jobs: list[tuple[Any, ...]] = []
        self._seq = 0

    def rows(self) -> Iterator[tuple[Any, ...]]:
        """Every event as a row of the journal."""
        for unit in range(1, self.units + 1):
            yield self._row("unit-logged", unit=unit, detail={"label": f"U{unit}"})
        while self._seq < self.events:
            yield from self._new_lot() if self.chance.random() < 0.35 else self._repair()

    def _new_lot(self) -> Iterator[tuple[Any, ...]]:
        """A lot comes in and is tested."""
        salvaged = self.chance.random() < 0.5
        part = min(int(self.chance.paretovariate(0.6)), self.kinds)
        lot: list[Any] = [
            part,
            1 if salvaged else 10,
            self.chance.randint(1, self.units) if salvaged else None,
        ]
        self.lots.append(lot)
        number = len(self.lots)
        logged = {"state": "untested", "bin": "A1"}
        yield self._row(
            "logged", lot=number, part=part, unit=lot[2], quantity=lot[1], detail=logged
        )
        tested = {"state": "clicks", "was": "untested", "test": number}
        yield self._row("tested", lot=number, part=part, detail=tested)

    def _repair(self) -> Iterator[tuple[Any, ...]]:
        """A repair from its opening to what became of it."""
        job = len(self.jobs) + 1
        opened = self._when()
        self.jobs.append((job, opened, "microwave oven", "Brenka", "BK-20M", "{}", opened))
        yield self._row("job-opened", job=job)
        number = self.chance.randint(max(1, len(self.lots) - 500), max(1, len(self.lots)))
        lot: list[Any] = self.lots[number - 1] if self.lots else [1, 0, None]
        if lot[1] < 1:
            yield self._row("lacked", part=lot[0], job=job, quantity=-1)
        else:
            lot[1] -= 1
            known: dict[str, Any] = {"lot": number, "part": lot[0], "job": job}
            yield self._row("held", held=1, **known)
            yield self._row("released", held=-1, **known)
            yield self._row("fitted", quantity=-1, place="monitor", **known)
            if self.chance.random() < (0.3 if lot[0] % 17 == 0 else 0.02):
                yield self._row("failed", **known)
        yield self._row("job-closed", job=job, detail={"outcome": None})
        yield self._row("job-outcome", job=job, detail={"outcome": "kept-working", "was": None})

    def _when(self) -> str:
        """The moment of the next event."""
        gone = timedelta(days=DAYS * self._seq / self.events)
        return (START + gone).isoformat(timespec="microseconds")

    def _row(
        self, kind: str, *, lot: int | None = None, part: int | None = None,
        job: int | None = None, unit: int | None = None, place: str | None = None,
        quantity: int = 0, held: int = 0, detail: dict[str, Any] | None = None,
    ) -> tuple[Any, ...]:  # fmt: skip
        """One row of the journal."""
        at = self._when()
        self._seq += 1
        told = json.dumps(detail or {}, separators=(",", ":"))
        return (self._seq, at, kind, lot, part, job, unit, place, quantity, held, told, self._seq)


def made(path: Path, events: int) -> Shelf:
    """A shelf with such a journal."""
    from inventory.records import Part

    shelf = open_shelf(str(path), create=True)
    shop = Shop(events)
    begun = START.isoformat(timespec="microseconds")
    with shelf.write() as connection:
        kinds = [
            Part("switch", marking, "Orvane", code, ratings={"resistive_a": 16})
            for _, code, marking in markings(shop.kinds)
        ]
        parts.add(connection, kinds)
    driver = opening.driver_for(path)
    driver.execute("PRAGMA foreign_keys=OFF")
    driver.execute("BEGIN")
    driver.execute("UPDATE part_type SET created_at = ?", (begun,))
    driver.execute("INSERT INTO bin (code) VALUES ('A1')")
    driver.executemany(_JOURNAL, shop.rows())
    driver.executemany(
        "INSERT INTO source_unit (id, label, kind, maker, model, model_key, in_yard)"
        " VALUES (?, ?, 'microwave oven', 'Brenka', ?, ?, ?)",
        [(n, f"U{n}", f"BK{n % 40}", f"BK{n % 40}", n % 9 == 0) for n in range(1, shop.units + 1)],
    )
    driver.executemany(
        "INSERT INTO lot (id, part_id, on_hand, held, state, bin, origin, source_unit_id,"
        " price_cents, logged_at) VALUES (?, ?, ?, 0, 'clicks', 'A1', ?, ?, 450, ?)",
        [
            (n, part, pieces, "salvaged" if unit else "new", unit, begun)
            for n, (part, pieces, unit) in enumerate(shop.lots, start=1)
        ],
    )
    driver.executemany(
        "INSERT INTO job (id, opened_at, kind, maker, model, plate, closed_at)"
        " VALUES (?, ?, ?, ?, ?, ?, ?)",
        shop.jobs,
    )
    driver.execute("COMMIT")
    driver.close()
    return shelf


def _searched(shelf: Shelf) -> Any:
    """A search whose stand-ins fail often, so that the whole of their family is weighed."""
    code = [code for _, code, _ in markings(17)][-1]
    return find(shelf, Query(code))


REPORTS: dict[str, Callable[[Shelf], Any]] = {
    "low": low,
    "low --as-of": lambda shelf: low(shelf, as_of=AS_OF),
    "wear": wear,
    "wear --by unit": lambda shelf: wear(shelf, "unit"),
    "day": day,
    "find, with its wear check": _searched,
}


def seconds(report: Callable[[Shelf], Any], shelf: Shelf) -> tuple[float, float]:
    """Wall and processor seconds, the best of two."""
    taken = []
    for _ in range(2):
        wall, cpu = time.perf_counter(), time.process_time()
        report(shelf)
        taken.append((time.perf_counter() - wall, time.process_time() - cpu))
    return min(taken)


def main() -> None:
    """Make the shelves, time the reports, print the table."""
    parser = argparse.ArgumentParser()
    parser.add_argument("--events", type=int, nargs="+", default=list(SIZES))
    parser.add_argument("--keep", type=Path)
    said = parser.parse_args()
    taken: dict[str, list[tuple[float, float]]] = {name: [] for name in REPORTS}
    with tempfile.TemporaryDirectory() as folder:
        for events in said.events:
            path = (said.keep or Path(folder)) / f"{events}.shelf"
            shelf = open_shelf(str(path)) if path.exists() else made(path, events)
            for name, report in REPORTS.items():
                taken[name].append(seconds(report, shelf))
            shelf.close()
            peak = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1024
            print(f"{events:,} events done, peak so far {peak:.0f} MB", flush=True)
    sizes = " | ".join(f"{events:,}" for events in said.events)
    print(
        f"| seconds (cpu) over events | {sizes} | growth |\n|---|{'---|' * (len(said.events) + 1)}"
    )
    for name, times in taken.items():
        row = " | ".join(f"{wall:.2f} ({cpu:.2f})" for wall, cpu in times)
        print(f"| {name} | {row} | {times[-1][1] / times[0][1]:.0f} x |")


if __name__ == "__main__":
    main()
