"""What one stock event costs with full durability: ``python -m tests.benchmarks.commit_cost``.

Three ways in turn, in one run, on the disk of the folder given (default: the current one):

- ``hold``: the whole way a person's command goes, from ``bench.moves.hold`` down, rules included;
- ``rows``: the same two rows through the store (``Shelf.write``, ``lots.change``, ``append``);
- ``raw``: the same two rows with the driver alone, one connection kept open, same settings.

Once for each SQLite: the newer one where it is installed (write-ahead log, FULL) and Python's own
(rollback journal, EXTRA).
"""

from __future__ import annotations

import os
import shutil
import statistics
import sys
import tempfile
import time
from collections.abc import Callable
from pathlib import Path
from typing import Any

from inventory.bench import moves
from inventory.bench.log import Piece, log_pieces
from inventory.store import journal, lots
from inventory.store.connection import sqlite_module
from inventory.store.journal import Event, append
from inventory.store.shelf import Shelf, open_shelf

ROUNDS = 20
EVENTS = 20
"""Rounds of each way, and events in a round."""


def _shelf(folder: Path) -> Shelf:
    """A shelf with one lot of many pieces."""
    shelf = open_shelf(str(folder / "a.shelf"), create=True)
    piece = Piece("EX-1", family="other", quantity=900_000, state="good", bin="A1")
    log_pieces(shelf, [piece])
    return shelf


def _hold(shelf: Shelf) -> Callable[[], object]:
    """The command's way."""
    return lambda: moves.hold(shelf, 1)


def _rows(shelf: Shelf) -> Callable[[], object]:
    """The store's way."""

    def write() -> None:
        with shelf.write() as connection:
            lots.change(connection, 1, held=1)
            event = Event("held", lot_id=1, part_id=1, held=1)
            append(connection, [event], bench=shelf.bench)

    return write


def _raw(shelf: Shelf) -> Callable[[], object]:
    """The driver's way: two rows, one transaction, the same settings."""
    raw: Any = sqlite_module().connect(str(shelf.path), isolation_level=None)
    mode = raw.execute("PRAGMA journal_mode").fetchone()[0]
    raw.execute(f"PRAGMA synchronous={'FULL' if mode == 'wal' else 'EXTRA'}")
    raw.execute("PRAGMA foreign_keys=ON")
    names = "seq, at, bench, kind, lot_id, part_id, quantity, held, ordered, detail, act, hash"
    insert = (
        f"INSERT INTO journal ({names}) VALUES (?, ?, 'bench', 'held', 1, 1, 0, 1, 0, '{{}}', ?, ?)"  # noqa: S608
    )

    def write() -> None:
        raw.execute("BEGIN IMMEDIATE")
        seq = raw.execute("SELECT MAX(seq) FROM journal").fetchone()[0] + 1
        raw.execute("UPDATE lot SET held = held + 1 WHERE id = 1 AND held + 1 <= on_hand")
        raw.execute(insert, (seq, journal.now(), seq, "0" * 64))
        raw.execute("COMMIT")

    return write


WAYS: dict[str, Callable[[Shelf], Callable[[], object]]] = {
    "hold": _hold,
    "rows": _rows,
    "raw": _raw,
}


def measure(folder: Path) -> dict[str, list[float]]:
    """Seconds of every single event, by way; the ways take turns, so that noise hits all."""
    made = {}
    for way, start in WAYS.items():
        (folder / way).mkdir()
        made[way] = start(_shelf(folder / way))
    taken: dict[str, list[float]] = {way: [] for way in WAYS}
    for _ in range(ROUNDS):
        for way, write in made.items():
            for _ in range(EVENTS):
                began = time.perf_counter()
                write()
                taken[way].append(time.perf_counter() - began)
    return taken


def report(library: str, taken: dict[str, list[float]]) -> list[str]:
    """Lines of the table."""
    raw = statistics.median(taken["raw"])
    lines = []
    for way, times in taken.items():
        middle = statistics.median(times)
        late = statistics.quantiles(times, n=100)[98]
        lines.append(
            f"| {library} | {way} | {1 / middle:,.0f} | {middle * 1000:.2f} / {late * 1000:.2f}"
            f" | {middle / raw:.1f} |"
        )
    return lines


def main() -> None:
    """Measure both builds and print the table."""
    place = Path(sys.argv[1] if len(sys.argv) > 1 else ".")
    print("| SQLite | way | events/s | p50 / p99 ms | times raw |")
    print("|---|---|---|---|---|")
    for asked in ("", "stdlib"):
        os.environ["SALVAGE_SQLITE"] = asked
        folder = Path(tempfile.mkdtemp(dir=place))
        try:
            print("\n".join(report(sqlite_module().sqlite_version, measure(folder))))
        finally:
            shutil.rmtree(folder, ignore_errors=True)


if __name__ == "__main__":
    main()
