"""The rating road at 10 thousand to 1 million part types: time a query. Prints Markdown.

    python -m tests.benchmarks.rating_bench WORKFOLDER [--sizes N ...]

Every part type has five ratings drawn by weights as on appliance switches, one in five lacks
one of them; every tenth part type has a piece on the shelf. Queries ask for two to four ratings.
"""

from __future__ import annotations

import argparse
import random
import sqlite3
import time
from collections.abc import Iterator
from pathlib import Path
from typing import Any

from inventory.matching.needs import needs
from inventory.records import Value
from inventory.rules.verdict import Wanted
from inventory.store import rating_road
from inventory.store.shelf import open_shelf

CHOICES: dict[str, tuple[tuple[Value, int], ...]] = {
    "resistive_a": ((1, 10), (5, 20), (10, 30), (16, 25), (21, 10), (25, 5)),
    "volts_ac": ((125, 20), (250, 75), (277, 5)),
    "contact_form": (("SPST-NO", 40), ("SPST-NC", 20), ("SPDT", 40)),
    "body": (("miniature v", 70), ("subminiature", 25), ("basic", 5)),
    "tab_mm": ((2.8, 10), (4.8, 55), (6.3, 35)),
}

_PART = (
    "INSERT INTO part_type (id, family, marking, ratings, created_at)"
    " VALUES (?, ?, '', '{}', '2026-01-01T00:00:00Z')"
)
_RATING = "INSERT INTO rating (part_id, name, number, word, slot) VALUES (?, ?, ?, ?, 0)"
_LOT = (
    "INSERT INTO lot (id, part_id, on_hand, held, state, origin, logged_at)"
    " VALUES (?, ?, 1, 0, 'clicks', 'salvaged', '2026-01-01T00:00:00Z')"
)


def fill(path: Path, size: int, chance: random.Random) -> None:
    """A shelf of that many part types; three in four are micro switches."""
    open_shelf(str(path), create=True).close()
    connection = sqlite3.connect(path, isolation_level=None)
    connection.execute("BEGIN IMMEDIATE")
    for start in range(1, size + 1, 20_000):
        numbers = range(start, min(start + 20_000, size + 1))
        kinds = [(n, "switch" if chance.random() < 0.75 else "relay") for n in numbers]
        connection.executemany(_PART, kinds)
        connection.executemany(_RATING, (row for n in numbers for row in _ratings(n, chance)))
        connection.executemany(_LOT, ((n, n) for n in numbers if n % 10 == 0))
    connection.execute("COMMIT")
    connection.close()


def _ratings(number: int, chance: random.Random) -> Iterator[tuple[Any, ...]]:
    """Rows of one part type."""
    left_out = chance.choice([*CHOICES, *[None] * 20])
    for name, choice in CHOICES.items():
        value = chance.choices([v for v, _ in choice], [w for _, w in choice])[0]
        if name != left_out:
            word = isinstance(value, str)
            yield number, name, None if word else float(value), value if word else None


def asked(count: int, chance: random.Random) -> list[dict[str, Value]]:
    """What techs need: two to four ratings each."""
    return [
        {
            name: chance.choices([v for v, _ in CHOICES[name]], [w for _, w in CHOICES[name]])[0]
            for name in chance.sample(sorted(CHOICES), chance.randint(2, 4))
        }
        for _ in range(count)
    ]


def measure(path: Path, queries: list[dict[str, Value]]) -> tuple[list[float], float]:
    """Processor seconds a query, shortest first, and how many parts came back on average."""
    shelf = open_shelf(str(path))
    times, found = [], 0
    with shelf.read() as connection:
        for query in queries:
            began = time.process_time()
            wanted = needs(
                Wanted("switch", needs=query), lambda name: rating_road.words_of(connection, name)
            )
            found += len(rating_road.by_needs(connection, ["switch"], wanted, 120))
            times.append(time.process_time() - began)
    shelf.close()
    return sorted(times), found / len(queries)


def main() -> None:
    """Run the sizes."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("work", type=Path)
    parser.add_argument("--sizes", type=int, nargs="*", default=[10_000, 100_000, 1_000_000])
    said = parser.parse_args()
    said.work.mkdir(parents=True, exist_ok=True)
    path = said.work / "ratings.shelf"
    print("| part types | CPU p50 ms | CPU p99 ms | found on the average |\n|---|---|---|---|")
    for size in said.sizes:
        path.unlink(missing_ok=True)
        fill(path, size, random.Random(size))
        times, found = measure(path, asked(200, random.Random(4)))
        p50, p99 = (1000 * times[int(share * len(times))] for share in (0.5, 0.99))
        print(f"| {size:,} | {p50:.1f} | {p99:.1f} | {found:.0f} |", flush=True)
    path.unlink()


if __name__ == "__main__":
    main()
