"""Loading a shelf of 100,000 lots beside raw ``sqlite3.executemany`` of the same rows.

Usage: python -m tests.benchmarks.load_speed [--lots N] [--rounds N]

The file is loaded as ``salvage load`` does it, in a process of its own. The peer is given every
row the load wrote, ready made and in memory, and inserts them into the same empty tables with
the same pragmas in one transaction: what is left out is reading the file, reading the markings,
finding equals, folding keys and chaining the journal. Nothing is asserted here.
"""

from __future__ import annotations

import argparse
import random
import subprocess
import sys
import tempfile
import time
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from inventory.store import connection as opening
from inventory.store import migrate

HEAD = "family,maker,type,marking,quantity,bin,state,origin,price,note\n"
MAKERS = ("Orvane", "Teldrix", "Kumoro", "Haldwick", "Brenno")
"""Invented makers."""

INDEX = ("search_text", "search_part", "search_seed")
"""The tables of the text index, by far the most rows of a shelf without doubles."""


@dataclass(frozen=True)
class Figures:
    """One load and its peer, seconds of the wall clock and of the processor."""

    lots: int
    rows: int  # over all tables
    load: tuple[float, float]
    raw: tuple[float, float]
    peak_mb: float
    base_mb: float  # of a process that loads one lot


def markings(count: int) -> Iterator[tuple[str, str, str]]:
    """Family, type code and marking of so many different part types."""
    chance = random.Random(20)
    for number in range(count):
        amps, bracket = chance.choice((5, 10, 16, 20)), chance.choice((2, 3, 4))
        heat, cycles = chance.choice((85, 105, 125)), chance.choice(("1E4", "5E4", "1E5"))
        code = f"{chance.choice('KLMNRSV')}{chance.choice('ABDEX')}-{number:06d}"
        match number % 5:
            case 0 | 1:
                yield "switch", code, f"{code} {amps}({bracket})A 250V~ T{heat} {cycles}"
            case 2:
                yield "relay", code, f"{code} 12VDC {amps}A 250VAC"
            case 3:
                yield "thermal_cutout", code, f"{code} {amps}A 250V {heat}°C NC"
            case _:
                yield "fuse", code, f"{code} T{amps}AL250V"


def write_file(path: Path, lots: int, kinds: int) -> None:
    """A parts file: the kinds come round again and again."""
    known = list(markings(kinds))
    chance = random.Random(4)
    with path.open("w", encoding="utf-8") as file:
        file.write(HEAD)
        for number in range(lots):
            family, code, marking = known[number % kinds]
            bin_code = f"{chance.choice('ABCDEFGH')}{number % 40}-{number % 25:02d}"
            maker = MAKERS[(number % kinds) % len(MAKERS)]
            file.write(
                f"{family},{maker},{code},{marking},{chance.randint(1, 9)},{bin_code},untested,"
                f"new,{chance.randint(50, 900) / 100:.2f},\n"
            )


_LOAD = """
import sys, time
from pathlib import Path
from inventory.bench.loading import load
from inventory.store.shelf import open_shelf
shelf = open_shelf(sys.argv[1], create=True)
wall, cpu = time.perf_counter(), time.process_time()
load(shelf, Path(sys.argv[2]))
print(time.perf_counter() - wall, time.process_time() - cpu)
print(next(line.split()[1] for line in open("/proc/self/status") if line.startswith("VmHWM")))
"""


def load_in_process(shelf: Path, file: Path) -> tuple[tuple[float, float], float]:
    """Load in a fresh process: wall and processor seconds of the load, peak memory in MB."""
    said = subprocess.run(
        [sys.executable, "-c", _LOAD, str(shelf), str(file)],
        capture_output=True, text=True, check=True,
    )  # fmt: skip
    wall, cpu, peak = map(float, said.stdout.split())
    return (wall, cpu), peak / 1024


def tables_of(shelf: Path) -> dict[str, tuple[str, list[tuple[Any, ...]]]]:
    """Every row of every table that has some, with the statement that inserts it."""
    module = opening.sqlite_module()
    connection = module.connect(shelf)
    names = [
        row[0]
        for row in connection.execute(
            "SELECT name FROM sqlite_master WHERE type = 'table' AND name NOT LIKE 'sqlite_%'"
        )
        if row[0] != "alembic_version"
    ]
    found = {}
    for name in names:
        rows = connection.execute(f"SELECT * FROM {name}").fetchall()  # noqa: S608
        if rows:
            places = ",".join("?" * len(rows[0]))
            found[name] = (f"INSERT INTO {name} VALUES ({places})", rows)  # noqa: S608
    connection.close()
    return found


def raw_insert(
    path: Path, tables: dict[str, tuple[str, list[tuple[Any, ...]]]]
) -> tuple[float, float]:
    """Seconds for all rows by ``executemany``, one transaction, with the shelf's own pragmas."""
    migrate.create(path)
    engine = opening.engine_for(path)
    raw = engine.raw_connection()
    connection: Any = raw.driver_connection
    wall, cpu = time.perf_counter(), time.process_time()
    connection.execute("BEGIN IMMEDIATE")
    connection.execute("PRAGMA defer_foreign_keys=ON")
    for statement, rows in tables.values():
        connection.executemany(statement, rows)
    connection.execute("COMMIT")
    seconds = time.perf_counter() - wall, time.process_time() - cpu
    raw.close()
    engine.dispose()
    return seconds


def measure(folder: Path, lots: int, kinds: int, rounds: int) -> Figures:
    """The best of some rounds of each."""
    file = folder / f"{lots}-{kinds}.csv"
    write_file(file, lots, kinds)
    one = folder / "one.csv"
    write_file(one, 1, 1)
    loads, raws, peaks = [], [], []
    tables: dict[str, tuple[str, list[tuple[Any, ...]]]] = {}
    for number in range(rounds):
        shelf = folder / f"load-{kinds}-{number}.shelf"
        seconds, peak = load_in_process(shelf, file)
        loads.append(seconds)
        peaks.append(peak)
        tables = tables or tables_of(shelf)
        raws.append(raw_insert(folder / f"raw-{kinds}-{number}.shelf", tables))
        for made in folder.glob("*.shelf*"):
            made.unlink()
    rows = sum(len(rows) for _, rows in tables.values())
    _, base = load_in_process(folder / "base.shelf", one)
    (folder / "base.shelf").unlink()
    return Figures(lots, rows, min(loads), min(raws), max(peaks), base)


def row(got: Figures) -> str:
    """One line of the table."""
    load, raw = got.load, got.raw
    return (
        f"| {got.rows:,} | {load[0]:.1f} ({load[1]:.1f}) s | {got.lots / load[0]:,.0f}"
        f" | {got.rows / load[0]:,.0f} | {raw[0]:.1f} ({raw[1]:.1f}) s | {got.rows / raw[0]:,.0f}"
        f" | {load[0] / raw[0]:.2f} ({load[1] / raw[1]:.2f})"
        f" | {got.peak_mb:.0f} MB (one lot: {got.base_mb:.0f}) |"
    )


def main() -> None:
    """Print the table."""
    parser = argparse.ArgumentParser()
    parser.add_argument("--lots", type=int, default=100_000)
    parser.add_argument("--rounds", type=int, default=3)
    said = parser.parse_args()
    version = opening.sqlite_module().sqlite_version
    print(f"SQLite {version}, best of {said.rounds}, wall (processor) seconds")
    print("| shelf | rows in all tables | load | lots/s | rows/s | executemany | rows/s | ratio"
          " | peak memory |")  # fmt: skip
    print(f"|{'---|' * 9}")
    with tempfile.TemporaryDirectory() as folder:
        for kinds in (said.lots // 20, said.lots):
            got = measure(Path(folder), said.lots, kinds, said.rounds)
            print(f"| {said.lots:,} lots of {kinds:,} part types {row(got)}", flush=True)


if __name__ == "__main__":
    main()
