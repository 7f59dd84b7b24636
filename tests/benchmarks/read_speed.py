"""Readings per second in one process, and cost against the length of the text.

Run with ``python -m tests.benchmarks.read_speed``; the figures go to stdout as a table. Times
are those of the process, so that a busy machine does not decide.
Nothing is asserted here: the test of linear cost is in ``tests/markings/test_properties.py``.
"""

from __future__ import annotations

import time

from inventory.markings.reader import read
from tests.markings.cases import load

ROUNDS = 40
SIZES = (1_000, 10_000, 100_000)
SEEDS = {
    "ratings": "16(4)A 250V~ 25T85 5E4 µ 1/2HP 125VAC ",
    "noise": "q7#(x-;0,~\u03a9 8Z/9 ]a",
    "amperes": "1A ",
    "punctuation": "(-",
}


def per_second(families: bool) -> float:  # noqa: FBT001 - a script, called twice below
    """Readings per second over the published switch markings."""
    cases = [*load("switch_markings.jsonl"), *load("switch_published.jsonl")]
    lines = [(case["text"], case.get("family", "switch")) for case in cases]
    for text, family in lines:
        read(text, family if families else None)
    start = time.process_time()
    for _ in range(ROUNDS):
        for text, family in lines:
            read(text, family if families else None)
    return ROUNDS * len(lines) / (time.process_time() - start)


def milliseconds(seed: str, size: int, family: str) -> float:
    """Time of one reading of a text of that size, the best of three."""
    text = (seed * (size // len(seed) + 1))[:size]
    times = []
    for _ in range(3):
        start = time.process_time()
        read(text, family)
        times.append(time.process_time() - start)
    return 1000 * min(times)


def main() -> None:
    """Print both tables."""
    print(f"readings per second, family given:      {per_second(families=True):9.0f}")
    print(f"readings per second, family recognised: {per_second(families=False):9.0f}")
    print(f"{'family':8} {'text':12} " + " ".join(f"{size:>9} B" for size in SIZES) + "   (ms)")
    for family in ("switch", "relay"):
        for name, seed in SEEDS.items():
            row = " ".join(f"{milliseconds(seed, size, family):11.2f}" for size in SIZES)
            print(f"{family:8} {name:12} {row}")


if __name__ == "__main__":
    main()
