"""A restore beside benches that hardly pause: what they were told is on one file or the other."""

from __future__ import annotations

import os
import subprocess
import sys
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

import pytest

from inventory.store import connection as opening
from inventory.store.backup import backup
from inventory.store.check import check
from inventory.store.contents import contents_of
from inventory.store.restore import restore
from inventory.store.shelf import open_shelf
from tests.store.shelves import stocked

BENCHES = 2
"""Processes that take piece after piece."""

_TAKER = """
import os, sys, time
from inventory.errors import StoreUnusable
from inventory.store import connection
from inventory.store.shelf import open_shelf
from tests.store.shelves import take
connection.WAIT_SECONDS = 60
shelf, taken = open_shelf(sys.argv[1], bench=sys.argv[2]), 0
while not os.path.exists(sys.argv[3]):
    try:
        take(shelf)
    except StoreUnusable:
        continue
    taken += 1
    if taken == 1:
        print("AT WORK", flush=True)
    time.sleep(0.005)  # without any gap between them a restore is refused after its wait
print(taken)
"""

pytestmark = pytest.mark.skipif(os.name != "posix", reason="locks as POSIX has them")


@contextmanager
def takers(shelf: Path, stop: Path) -> Iterator[list[int]]:
    """Benches at work; yields a list that says, at the end, how many takes each was told of."""
    made = [
        subprocess.Popen(
            [sys.executable, "-c", _TAKER, str(shelf), f"bench{n}", str(stop)],
            stdout=subprocess.PIPE,
            text=True,
        )
        for n in range(BENCHES)
    ]
    told = list[int]()
    try:
        for one in made:
            assert one.stdout is not None
            assert one.stdout.readline() == "AT WORK\n"
        yield told
    finally:
        stop.touch()
        told += [int(one.communicate()[0]) for one in made]


def restores_beside_benches(folder: Path, rounds: int) -> tuple[int, int]:
    """Restore so often; returns takes that were acknowledged, and those on all files."""
    path = folder / "a.shelf"
    stocked(path, 1_000_000).close()
    made = backup(path)
    with takers(path, folder / "stop") as told:
        kept = [restore(path, made).kept for _ in range(rounds)]
    files = [path, *(one for one in kept if one is not None)]
    assert len(files) == rounds + 1
    assert all(check(open_shelf(str(one))) == [] for one in files)
    return sum(told), sum(contents_of(one).events - 1 for one in files)


@pytest.mark.parametrize("library", ["", "stdlib"])
@pytest.mark.parametrize(
    "rounds", [pytest.param(3, id="few"), pytest.param(400, id="many", marks=pytest.mark.slow)]
)
def test_no_acknowledged_take_is_lost_by_a_restore(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, library: str, rounds: int
) -> None:
    """Every take that was acknowledged lies on the kept files or on the shelf, none twice."""
    monkeypatch.setenv("SALVAGE_SQLITE", library)
    monkeypatch.setattr(opening, "WAIT_SECONDS", 60)

    acknowledged, there = restores_beside_benches(tmp_path, rounds)

    assert there == acknowledged
    assert acknowledged >= BENCHES
