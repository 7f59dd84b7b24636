"""A cold ``salvage find`` as a whole process, beside importing ``sqlmodel`` and doing nothing.

Usage: python -m tests.benchmarks.cold_find [--runs N] [--shelf FILE]

Each round starts every contestant once, so that a busy machine slows all of them alike. Byte
code is compiled (one round goes ahead uncounted). Seconds of the wall clock and of the
processor, the least and the median; the ratios are to ``import sqlmodel``. Nothing is asserted.
"""

from __future__ import annotations

import argparse
import os
import resource
import statistics
import subprocess
import sys
import tempfile
import time
from collections.abc import Mapping, Sequence
from pathlib import Path

from inventory.bench.demo import make_demo

PEERS = {
    "python -c pass": ("-c", "pass"),
    "python -c 'import sqlmodel'": ("-c", "import sqlmodel"),
}
FINDS = {
    "a rating, on no record": ("16(4)A 250V~ T85 5E4",),
    "a code on record, which keeps failing": ("DT50-1",),
    "a misread code": ("KST-5PI71",),
    "a code at an interlock": (
        *("NFD-V16-63", "--unit", "Brenka BK-20M"), *("--place", "primary-interlock"),
    ),
    "needs": ("--family", "switch", "--need", "resistive_a=16", "--need", "volts_ac=250"),
    "unit and place": ("--unit", "Brenka BK-20M", "--place", "monitor"),
}  # fmt: skip
"""What is looked for on the demo shelf."""

Times = dict[str, list[tuple[float, float]]]
"""Wall and processor seconds of each run, by contestant."""


def once(words: Sequence[str], environment: Mapping[str, str]) -> tuple[float, float]:
    """Wall and processor seconds of one process."""
    before = resource.getrusage(resource.RUSAGE_CHILDREN)
    start = time.perf_counter()
    done = subprocess.run(
        [sys.executable, *words], env=dict(environment), capture_output=True, check=False
    )
    wall = time.perf_counter() - start
    after = resource.getrusage(resource.RUSAGE_CHILDREN)
    if done.returncode not in (0, 1):
        raise SystemExit(done.stderr.decode())
    used = after.ru_utime + after.ru_stime - before.ru_utime - before.ru_stime
    return wall, used


def contest(shelf: Path, runs: int) -> Times:
    """Every contestant once a round; the first round only compiles."""
    environment = {k: v for k, v in os.environ.items() if k != "PYTHONDONTWRITEBYTECODE"}
    called: dict[str, tuple[str, ...]] = {**PEERS}
    for name, words in FINDS.items():
        called[f"salvage find: {name}"] = (
            *("-m", "inventory", "--shelf", str(shelf), "find"), *words,
        )  # fmt: skip
    times: Times = {name: [] for name in called}
    for number in range(runs + 1):
        for name, words in called.items():
            taken = once(words, environment)
            if number:
                times[name].append(taken)
    return times


def table(times: Times) -> None:
    """The table on stdout."""
    base = times["python -c 'import sqlmodel'"]
    least = [min(taken[clock] for taken in base) for clock in (0, 1)]
    middle = statistics.median(taken[0] for taken in base)
    print("| process | wall min | wall median | cpu min | / import, min | median | cpu |")
    print("|---|---|---|---|---|---|---|")
    for name, taken in times.items():
        wall, cpu = min(t[0] for t in taken), min(t[1] for t in taken)
        median = statistics.median(t[0] for t in taken)
        print(
            f"| {name} | {wall:.3f} s | {median:.3f} s | {cpu:.3f} s"
            f" | {wall / least[0]:.2f} | {median / middle:.2f} | {cpu / least[1]:.2f} |"
        )


def main() -> None:
    """Make the demo shelf, let all run, print the table."""
    parser = argparse.ArgumentParser()
    parser.add_argument("--runs", type=int, default=15)
    parser.add_argument("--shelf", type=Path)
    said = parser.parse_args()
    with tempfile.TemporaryDirectory() as folder:
        shelf = said.shelf or Path(folder) / "demo.shelf"
        if said.shelf is None:
            make_demo(shelf)
        table(contest(shelf, said.runs))


if __name__ == "__main__":
    main()
