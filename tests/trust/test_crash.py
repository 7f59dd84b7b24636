"""Killed at any moment: what was acknowledged is there, and nothing is half there."""

from __future__ import annotations

import shutil
import sqlite3
from collections.abc import Callable
from contextlib import closing
from pathlib import Path

import pytest

from inventory.bench.log import Piece, log_pieces
from inventory.store.backup import backup as copy_of
from inventory.store.backup import backups_of, verify
from inventory.store.connection import head_of
from inventory.store.release import SCHEMA_VERSION
from inventory.store.shelf import open_shelf
from tests.trust import next_program
from tests.trust.killing import Killed, killed_child, killed_process, moments, run_on, whole

pytestmark = pytest.mark.skipif(not hasattr(__import__("os"), "fork"), reason="needs fork")

QUICK = 3
"""Kills of each kind in a plain run."""

MANY = 50
"""Kills of each kind in the slow run: seven kinds, 350 kills, and 30 of whole processes."""


def _nothing() -> None:
    """Nothing to prepare."""


def _fresh(folder: Path) -> Path:
    """A shelf with a hundred good pieces as lot 1."""
    path = folder / "a.shelf"
    shelf = open_shelf(str(path), create=True)
    log_pieces(shelf, [Piece("EX-1", family="other", quantity=100, state="good", bin="A1")])
    shelf.close()
    return path


def _number(shelf: Path, query: str) -> int:
    """One number from a shelf file."""
    with open_shelf(str(shelf)).read() as connection:
        return int(connection.exec_driver_sql(query).scalar() or 0)


def _seen_or_one_more(found: int, killed: Killed) -> None:
    """Every acknowledged one is there; the one under way may be, whole."""
    assert killed.acknowledged <= found <= killed.acknowledged + 1


def take(folder: Path, seconds: float) -> Killed:
    """``fit``: each takes one piece and writes it down, or neither."""
    shelf = _fresh(folder)
    killed = killed_child(shelf, [["fit", "1"]] * 60, seconds, _nothing)
    whole(shelf)
    taken = _number(shelf, "SELECT COUNT(*) FROM journal WHERE kind = 'fitted'")
    _seen_or_one_more(taken, killed)
    assert _number(shelf, "SELECT on_hand FROM lot") == 100 - taken
    return killed


def strip(folder: Path, seconds: float) -> Killed:
    """``strip``: a unit with all three pieces, or no unit."""
    shelf = _fresh(folder)
    pieces = [word for n in range(3) for word in ("--piece", f"other|EX-{n}||good|2")]
    units = [["strip", f"U{n}", "--kind", "oven", *pieces] for n in range(40)]
    killed = killed_child(shelf, units, seconds, _nothing)
    whole(shelf)
    _seen_or_one_more(_number(shelf, "SELECT COUNT(*) FROM source_unit"), killed)
    halves = (
        "SELECT COUNT(*) FROM (SELECT source_unit.id FROM source_unit LEFT JOIN lot"
        " ON lot.source_unit_id = source_unit.id GROUP BY source_unit.id HAVING COUNT(lot.id) <> 3)"
    )
    assert _number(shelf, halves) == 0
    return killed


def count(folder: Path, seconds: float) -> Killed:
    """``count``: the last count that was acknowledged, or the one after it."""
    shelf = _fresh(folder)
    counts = [["count", "1", str(n)] for n in range(1, 61)]
    killed = killed_child(shelf, counts, seconds, _nothing)
    whole(shelf)
    found = _number(shelf, "SELECT on_hand FROM lot")
    _seen_or_one_more(0 if found == 100 else found, killed)
    return killed


def load(folder: Path, seconds: float) -> Killed:
    """``load``: all rows or none; running it again gives all rows once."""
    shelf = _fresh(folder)
    rows = [f"other,EX-{n},1,B{n % 9}" for n in range(400)]
    (folder / "parts.csv").write_text("\n".join(["family,type,quantity,bin", *rows]) + "\n")
    command = ["load", str(folder / "parts.csv")]
    killed = killed_child(shelf, [command], seconds, _nothing)
    whole(shelf)
    lots = _number(shelf, "SELECT COUNT(*) FROM lot") - 1
    assert lots in ((400,) if killed.acknowledged else (0, 400))
    assert run_on(shelf, command) == (1 if lots else 0)
    assert _number(shelf, "SELECT COUNT(*) FROM lot") == 401
    return killed


def backup(folder: Path, seconds: float) -> Killed:
    """``backup``: every backup that is there is whole, and the last acknowledged one is."""
    shelf = _fresh(folder)
    commands = [["backup", "--keep", "2"]] * 30
    killed = killed_child(shelf, commands, seconds, _nothing)
    whole(shelf)
    there = backups_of(shelf)
    for one in there:
        verify(one)
        assert one.with_name(f"{one.name}.sha256").exists()
    assert len(there) >= min(killed.acknowledged, 2)
    assert run_on(shelf, ["backup", "--keep", "2"]) == 0
    assert not list((folder / "backups").glob("*draft*"))
    assert len(backups_of(shelf)) == min(len(there) + 1, 2)
    return killed


def bring_back(folder: Path, seconds: float) -> Killed:
    """``restore``, again and again: the shelf is one or the other, and what was there is kept."""
    shelf = _fresh(folder)
    made = copy_of(shelf).rename(folder / "old.backup")
    words = [["restore", str(made), "--yes"], ["fit", "1"]] * 10
    killed = killed_child(shelf, words, seconds, _nothing)
    whole(shelf)
    taken = _number(shelf, "SELECT COUNT(*) FROM journal WHERE kind = 'fitted'")
    assert taken in ((0, 1) if killed.acknowledged else (0,))
    for one in folder.glob("a-before-*.shelf"):
        whole(one)
    return killed


def migration(folder: Path, seconds: float) -> Killed:
    """Upgrading: the old schema or the new one, whole; the next try ends it."""
    shelf = _fresh(folder)
    with closing(sqlite3.connect(shelf)) as raw:
        raw.execute(
            "INSERT INTO part_type (family, marking, ratings, created_at)"
            " WITH RECURSIVE n(i) AS (SELECT 1 UNION ALL SELECT i + 1 FROM n WHERE i < 3000)"
            " SELECT 'other', 'EX' || i, '{}', '2026-01-01' FROM n"
        )
        raw.commit()
    migrations = next_program.write_migrations(folder)
    killed = killed_child(shelf, [["where"]], seconds, lambda: next_program.become(migrations))
    _, version = head_of(shelf)
    assert version in (SCHEMA_VERSION, next_program.NEXT)
    for one in (folder / "backups").glob("*.backup"):
        verify(one)
    again = killed_child(shelf, [["where"]], 60, lambda: next_program.become(migrations))
    assert again.finished
    with closing(sqlite3.connect(shelf)) as raw:
        assert raw.execute("PRAGMA integrity_check").fetchone() == ("ok",)
        assert raw.execute("PRAGMA user_version").fetchone() == (next_program.NEXT,)
        grey = raw.execute("SELECT COUNT(*) FROM part_type WHERE colour = 'grey'").fetchone()
        assert grey == (3001,)
        assert (
            raw.execute("SELECT name FROM sqlite_master WHERE name LIKE '%tmp%'").fetchall() == []
        )
    return killed


KINDS: dict[str, tuple[Callable[[Path, float], Killed], float]] = {
    "take": (take, 0.4),
    "strip": (strip, 0.6),
    "count": (count, 0.4),
    "load": (load, 0.8),
    "backup": (backup, 0.6),
    "bring back": (bring_back, 0.8),
    "migration": (migration, 0.8),
}
"""What is killed, and the longest it is left to work [s]."""


def kill_often(kind: str, rounds: int, folder: Path, seed: int) -> tuple[int, int]:
    """Kill so often; returns how many died at work and how many commands were acknowledged."""
    act, longest = KINDS[kind]
    # what is imported once here need not be imported in every child; only then is it timed
    for warm in ("warm", "timed"):
        (folder / warm).mkdir()
        worked = act(folder / warm, 20).seconds
    longest = min(longest, worked)
    died = acknowledged = 0
    for number, seconds in enumerate(moments(rounds, longest, seed)):
        place = folder / f"{kind}-{number}"
        place.mkdir()
        killed = act(place, seconds)
        died += not killed.finished
        acknowledged += killed.acknowledged
        shutil.rmtree(place)
    return died, acknowledged


@pytest.mark.parametrize("kind", KINDS)
def test_a_few_kills_lose_nothing(tmp_path: Path, kind: str) -> None:
    """Integrity, every acknowledged event, none half there, the chain."""
    died, _ = kill_often(kind, QUICK, tmp_path, seed=1)

    assert died


@pytest.mark.slow
@pytest.mark.parametrize("kind", KINDS)
def test_many_kills_lose_nothing(tmp_path: Path, kind: str) -> None:
    """Fifty of each kind: 350 kills."""
    died, _ = kill_often(kind, MANY, tmp_path, seed=2)

    assert died > MANY // 2


@pytest.mark.slow
def test_killed_processes_of_their_own_lose_nothing(tmp_path: Path) -> None:
    """``python -m inventory fit 1``, killed anywhere between start and end."""
    shelf = _fresh(tmp_path)
    kills = [killed_process(shelf, ["fit", "1"], s) for s in moments(30, 2.0, seed=3)]
    whole(shelf)

    taken = _number(shelf, "SELECT COUNT(*) FROM journal WHERE kind = 'fitted'")
    assert sum(one.acknowledged for one in kills) <= taken <= len(kills)
    assert any(not one.finished for one in kills)
