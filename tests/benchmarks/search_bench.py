"""The text road against its peers: recall, time, fresh process, loading. Prints Markdown.

    python -m tests.benchmarks.search_bench WORKFOLDER [--public FOLDER] [--sizes N ...]

FOLDER: an unpacked Debian package ``kicad-symbols`` (``dpkg-deb -x``), outside the project.
WORKFOLDER: takes the shelves (some 600 MB for a million part types); they are deleted again.
"""

from __future__ import annotations

import argparse
import itertools
import os
import resource
import sqlite3
import statistics
import subprocess
import sys
import time
from collections.abc import Callable, Iterable, Iterator, Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from inventory.matching.keys import code_key
from inventory.store import search_index
from inventory.store.shelf import open_shelf
from tests.benchmarks import search_peers as peers
from tests.benchmarks.search_corpus import invented, public
from tests.benchmarks.search_errors import Query, queries

SEED = 7
FRESH_RUNS = 7
BATCH = 100

_PART = (
    "INSERT INTO part_type (id, family, type_code, marking, ratings, code_key, created_at)"
    " VALUES (?, 'other', ?, '', '{}', ?, '2026-01-01T00:00:00Z')"
)


@dataclass(frozen=True, slots=True)
class Line:
    """One peer on one corpus."""

    name: str
    answers: list[list[int]]
    times: list[float]  # seconds a query; of a batched peer, its share of the batch
    work: list[float]  # the same in seconds of processor time, all threads

    def row(self, asked: Sequence[Query]) -> str:
        """A row of the table."""
        places = [
            answer.index(query.meant + 1) if query.meant + 1 in answer else 99
            for query, answer in zip(asked, self.answers, strict=False)
        ]
        shares = [sum(place < top for place in places) / len(places) for top in (1, 5, 10)]
        rank = sum(1 / (place + 1) for place in places if place < 10) / len(places)
        cells = [self.name, *(f"{share:.3f}" for share in (*shares, rank))]
        spans = (
            _part(values, share) for values in (self.times, self.work) for share in (0.5, 0.99)
        )
        cells += [f"{1000 * span:.2f}" for span in spans]
        return f"| {' | '.join([*cells, str(len(places))])} |"


def _part(values: Sequence[float], share: float) -> float:
    """The value below which a share of the values lies."""
    return sorted(values)[min(int(share * len(values)), len(values) - 1)]


# loading ----------------------------------------------------------------------------


def load(path: Path, texts: Path, *, indexed: bool) -> None:
    """Fill a new shelf from a file of codes, one a line; prints rows a second and memory."""
    open_shelf(str(path), create=True).close()
    connection = sqlite3.connect(path, isolation_level=None)
    began, worked = time.perf_counter(), time.process_time()
    connection.execute("BEGIN IMMEDIATE")
    rows = 0
    with texts.open(encoding="utf-8") as lines:
        codes = enumerate((line.rstrip("\n") for line in lines), start=1)
        while chunk := list(itertools.islice(codes, 20_000)):
            connection.executemany(_PART, ((n, text, code_key(text)) for n, text in chunk))
            if indexed:
                search_index.add(connection, chunk)  # type: ignore[arg-type]
            rows += len(chunk)
            if rows in {100_000, 1_000_000}:
                print(f"rss_mb_at_{rows}={_memory():.0f}")
    connection.execute("COMMIT")
    seconds, cpu = time.perf_counter() - began, time.process_time() - worked
    connection.close()
    print(f"rows_per_second={rows / seconds:.0f}")
    print(f"rows_per_cpu_second={rows / cpu:.0f}")
    print(f"size_mb={path.stat().st_size / 1e6:.0f}")


def _memory() -> float:
    """The most memory this process has used so far, in MB; Linux only."""
    status = Path("/proc/self/status").read_text(encoding="ascii")
    return int(status.split("VmHWM:")[1].split()[0]) / 1024


# the peers ----------------------------------------------------------------------------


def _timed(name: str, ask: Callable[[str], list[int]], asked: Sequence[Query]) -> Line:
    """One query at a time, after a few to warm up."""
    for query in asked[:20]:
        ask(query.typed)
    line = Line(name, [], [], [])
    for query in asked:
        began, worked = time.perf_counter(), time.process_time()
        line.answers.append(ask(query.typed))
        line.times.append(time.perf_counter() - began)
        line.work.append(time.process_time() - worked)
    return line


def _batched(
    name: str, ask: Callable[[Sequence[str]], list[list[int]]], asked: Sequence[Query]
) -> Line:
    """Many queries in one call; each is given its share of the time."""
    line = Line(name, [], [], [])
    for start in range(0, len(asked), BATCH):
        batch = [query.typed for query in asked[start : start + BATCH]]
        began, worked = time.perf_counter(), time.process_time()
        line.answers.extend(ask(batch))
        line.times.extend([(time.perf_counter() - began) / len(batch)] * len(batch))
        line.work.extend([(time.process_time() - worked) / len(batch)] * len(batch))
    return line


def _lines(path: Path, work: Path, asked: Sequence[Query], slow: int) -> Iterator[Line]:
    """Every peer in turn; the slow ones get the first ``slow`` queries."""
    shelf = open_shelf(str(path))
    with shelf.read() as connection:
        yield _timed("this index", lambda typed: _numbers(connection, typed), asked)
    shelf.close()
    one, many = peers.brute(path)
    yield _batched("OSA scan, folded, trimmed; 100 queries a call, 2 cores", many, asked)
    yield _timed("the same, one query a call", one, asked[:slow])
    del one, many
    yield _timed("WRatio scan, as typed", peers.weighted_ratio(path), asked[:slow])
    yield _timed("FTS5 trigram, bm25", peers.full_text(path, work / "fts.db"), asked[:slow])
    (work / "fts.db").unlink()
    yield _timed("TF-IDF of 2- and 3-grams", peers.cosine(path), asked[:slow])


def _numbers(connection: Any, typed: str) -> list[int]:
    """Row numbers found by the index."""
    return [hit.part_id for hit in search_index.search(connection, typed, 10)]


# a fresh process ------------------------------------------------------------------------

_OURS = """
import sqlite3, sys
from inventory.store import search_index
connection = sqlite3.connect(sys.argv[1], isolation_level=None)
print([hit.part_id for hit in search_index.search(connection, sys.argv[2], 10)])
"""
_SCAN = """
import sqlite3, sys
from rapidfuzz import process
from rapidfuzz.distance import OSA
from inventory.matching.keys import code_key
connection = sqlite3.connect(sys.argv[1], isolation_level=None)
rows = connection.execute("SELECT id, code_key FROM part_type").fetchall()
keys = [key for _, key in rows]
found = process.extract(
    code_key(sys.argv[2]), keys, scorer=OSA.normalized_similarity, limit=10
)
print([rows[at][0] for _, _, at in found])
"""
_FRESH = {"this index": _OURS, "OSA scan": _SCAN, "python -c pass": "pass"}


def _fresh(path: Path, work: Path, asked: Sequence[Query]) -> Iterator[str]:
    """Whole processes, median of some runs, byte code compiled."""
    env = {key: value for key, value in os.environ.items() if key != "PYTHONDONTWRITEBYTECODE"}
    env["PYTHONPYCACHEPREFIX"] = str(work / "pycache")
    for name, code in _FRESH.items():
        times = [_one_process(code, path, query.typed, env) for query in asked[: FRESH_RUNS + 1]]
        wall, worked = (1000 * statistics.median(column) for column in zip(*times[1:], strict=True))
        yield f"| {name} | {wall:.0f} | {worked:.0f} |"


def _one_process(code: str, path: Path, typed: str, env: dict[str, str]) -> tuple[float, float]:
    """Seconds from start to end of one process, and seconds of processor time."""
    began, before = time.perf_counter(), _children()
    subprocess.run(
        [sys.executable, "-c", code, str(path), typed], env=env, check=True, capture_output=True
    )
    return time.perf_counter() - began, _children() - before


def _children() -> float:
    """Seconds of processor time that ended children used."""
    used = resource.getrusage(resource.RUSAGE_CHILDREN)
    return used.ru_utime + used.ru_stime


# the whole ------------------------------------------------------------------------


def _child(work: Path, texts: Path, *, indexed: bool) -> str:
    """Load in a process of its own, so that memory is its own too."""
    path = work / ("bench.shelf" if indexed else "plain.shelf")
    how = "--load-indexed" if indexed else "--load-plain"
    done = subprocess.run(
        [sys.executable, "-m", "tests.benchmarks.search_bench", str(work), how, str(path),
         "--texts", str(texts)],
        check=True, capture_output=True, text=True,
    )  # fmt: skip
    return ", ".join(done.stdout.split())


def corpus(name: str, texts: Iterable[str], work: Path, slow: int, count: int) -> None:
    """All there is to say of one corpus."""
    codes = list(texts)
    lines = work / "codes.txt"
    lines.write_text("\n".join(codes), encoding="utf-8")
    asked = queries(codes, count, SEED)
    print(f"\n### {name}: {len(codes):,} part types\n")
    print(f"plain: {_child(work, lines, indexed=False)}; ")
    print(f"with the index: {_child(work, lines, indexed=True)}\n")
    (work / "plain.shelf").unlink()
    print("| peer | @1 | @5 | @10 | MRR | p50 ms | p99 ms | CPU p50 | CPU p99 | queries |")
    print("|---|---|---|---|---|---|---|---|---|---|")
    del codes
    for line in _lines(work / "bench.shelf", work, asked, slow):
        print(line.row(asked), flush=True)
    print("\n| fresh process | ms | CPU ms |\n|---|---|---|")
    for row in _fresh(work / "bench.shelf", work, asked):
        print(row, flush=True)
    (work / "bench.shelf").unlink()


def main() -> None:
    """Run what was asked for."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("work", type=Path)
    parser.add_argument("--public", type=Path)
    parser.add_argument("--sizes", type=int, nargs="*", default=[10_000, 100_000, 1_000_000])
    parser.add_argument("--queries", type=int, default=2_000)
    parser.add_argument(
        "--slow", type=int, default=2_000, help="queries for peers over 1 s a query"
    )
    parser.add_argument("--load-plain", type=Path)
    parser.add_argument("--load-indexed", type=Path)
    parser.add_argument("--texts", type=Path)
    said = parser.parse_args()
    said.work.mkdir(parents=True, exist_ok=True)
    if said.load_plain or said.load_indexed:
        load(said.load_plain or said.load_indexed, said.texts, indexed=bool(said.load_indexed))
        return
    if said.public:
        corpus("public symbol names", public(said.public), said.work, said.slow, said.queries)
    for size in said.sizes:
        slow = said.slow if size < 1_000_000 else min(said.slow, 100)
        corpus("invented markings", invented(size), said.work, slow, said.queries)


if __name__ == "__main__":
    main()
