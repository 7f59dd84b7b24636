"""Benches that want the same last piece: one gets it, the others hear so in one sentence."""

from __future__ import annotations

import os
import subprocess
import sys
import time
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import IO

import pytest

from inventory.bench.log import Piece, log_pieces
from inventory.store.check import check
from inventory.store.shelf import Shelf, open_shelf

BENCHES = 4
"""Processes that race."""

_RACER = """
import os, sys
import typer.main
from inventory.cli.main import app, run
built = typer.main.get_command(app)  # built once: the races are to be close
typer.main.get_command = lambda _app: built
for line in sys.stdin:
    code = run([os.environ["RACE_COMMAND"], line.strip()])
    print(f"CODE {code}", flush=True)
"""

pytestmark = pytest.mark.skipif(os.name != "posix", reason="pipes as benches")


class Bench:
    """One process at the shelf; told by a line which lot to take."""

    def __init__(self, shelf: str, folder: Path, name: str, command: str) -> None:
        self.said = folder / f"{name}.err"
        with self.said.open("w") as errors:
            self.process = self._started(shelf, name, command, errors)

    def _started(
        self, shelf: str, name: str, command: str, errors: IO[str]
    ) -> subprocess.Popen[str]:
        """The process, waiting for its first line."""
        return subprocess.Popen(
            [sys.executable, "-c", _RACER],
            env={
                **os.environ,
                "SALVAGE_SHELF": shelf,
                "SALVAGE_BENCH": name,
                "RACE_COMMAND": command,
                "COLUMNS": "400",
            },
            stdin=subprocess.PIPE,
            stdout=subprocess.PIPE,
            stderr=errors,
            text=True,
        )

    def go(self, lot: int) -> None:
        """Let it try for a lot."""
        assert self.process.stdin is not None
        self.process.stdin.write(f"{lot}\n")
        self.process.stdin.flush()

    def code(self) -> int:
        """How the try ended."""
        assert self.process.stdout is not None
        for line in self.process.stdout:
            if line.startswith("CODE "):
                return int(line.split()[1])
        raise AssertionError(self.said.read_text())


@contextmanager
def benches(shelf: str, folder: Path, command: str) -> Iterator[list[Bench]]:
    """Some benches, ended at the end; what they are told goes to files in the folder."""
    made = [Bench(shelf, folder, f"bench{n}", command) for n in range(BENCHES)]
    try:
        yield made
    finally:
        for bench in made:
            bench.process.communicate("")


def _shelf_of(where: str, rounds: int) -> Shelf:
    """A shelf with as many lots of one good piece as there are rounds."""
    shelf = open_shelf(where, create=True)
    log_pieces(
        shelf,
        [Piece("EX-1", family="other", state="good", bin="A1") for _ in range(rounds)],
    )
    return shelf


def race(where: str, folder: Path, rounds: int, command: str) -> list[str]:
    """Race for the last piece of so many lots; returns what the losers were told."""
    shelf = _shelf_of(where, rounds)
    with benches(where, folder, command) as racing:
        for lot in range(1, rounds + 1):
            for bench in racing:
                bench.go(lot)
            codes = sorted(bench.code() for bench in racing)
            assert codes == [0] + [1] * (BENCHES - 1), f"lot {lot}: {codes}"
        told = [line for bench in racing for line in bench.said.read_text().splitlines()]
    assert check(shelf) == []
    return told


@pytest.mark.parametrize(
    ("command", "kind", "rounds"), [("fit", "fitted", 25), ("hold", "held", 5)]
)
def test_the_last_piece_is_taken_once(tmp_path: Path, command: str, kind: str, rounds: int) -> None:
    """Each loser ends with 1 and one sentence that says how many are left."""
    told = race(str(tmp_path / "a.shelf"), tmp_path, rounds, command)

    assert len(told) == rounds * (BENCHES - 1)
    assert all("cannot give that" in line and "0 free" in line for line in told)
    with open_shelf(str(tmp_path / "a.shelf")).read() as connection:
        taken = connection.exec_driver_sql(
            "SELECT COUNT(*) FROM journal WHERE kind = ?", (kind,)
        ).scalar()
    assert taken == rounds


@pytest.mark.slow
@pytest.mark.parametrize("library", ["", "stdlib"])
def test_the_last_piece_is_taken_once_in_a_thousand_races(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, library: str
) -> None:
    """Write-ahead log and rollback journal, each with its SQLite."""
    monkeypatch.setenv("SALVAGE_SQLITE", library)

    told = race(str(tmp_path / "a.shelf"), tmp_path, 1000, "fit")

    assert len(told) == 1000 * (BENCHES - 1)
    assert not [line for line in told if "locked" in line or "Traceback" in line]


_HOLDER = """
import sys
from inventory.store.shelf import open_shelf
with open_shelf(sys.argv[1]).write():
    print("HELD", flush=True)
    sys.stdin.readline()
"""


def test_a_bench_that_holds_the_shelf_too_long_is_named_and_nothing_is_lost(
    tmp_path: Path,
) -> None:
    """After the stated wait one sentence, exit code 3; when it lets go, the same words work."""
    path = tmp_path / "a.shelf"
    _shelf_of(str(path), 1)
    env = {**os.environ, "SALVAGE_SHELF": str(path)}
    short = (
        "import sys; from inventory.store import connection; connection.WAIT_SECONDS = 0.3;"
        "from inventory.cli.main import run; sys.exit(run(sys.argv[1:]))"
    )
    fit = [sys.executable, "-c", short, "fit", "1"]
    with subprocess.Popen(
        [sys.executable, "-c", _HOLDER, str(path)],
        stdin=subprocess.PIPE,
        stdout=subprocess.PIPE,
        text=True,
    ) as holder:
        assert holder.stdout is not None
        assert holder.stdout.readline() == "HELD\n"
        started = time.monotonic()
        refused = subprocess.run(fit, env=env, capture_output=True, text=True, check=False)
        waited = time.monotonic() - started
        holder.communicate("let go\n")
    done = subprocess.run(fit, env=env, capture_output=True, text=True, check=False)

    assert (refused.returncode, refused.stdout) == (3, "")
    assert "Another bench has been writing" in refused.stderr
    assert "locked" not in refused.stderr
    assert waited > 0.3
    assert done.returncode == 0
