"""Disks that are full, read-only or gone: one sentence, exit code 3, nothing lost."""

from __future__ import annotations

import os
import resource
import shutil
import subprocess
import sys
from collections.abc import Iterator
from pathlib import Path

import pytest

from inventory.bench.log import Piece, log_pieces
from inventory.store.backup import backup
from inventory.store.check import check
from inventory.store.contents import contents_of
from inventory.store.shelf import open_shelf
from tests.trust.places import mounted


@pytest.fixture
def small(tmp_path: Path) -> Iterator[Path]:
    """A file system of 2 MiB; skipped where the machine does not let us mount one."""
    with mounted(tmp_path / "small", "size=2m") as place:
        yield place


def _said(shelf: Path, *command: str, limit: int | None = None) -> tuple[int, str, str]:
    """Exit code, stdout and stderr of a command in a process of its own."""

    def limited() -> None:
        if limit is not None:
            resource.setrlimit(resource.RLIMIT_FSIZE, (limit, limit))

    done = subprocess.run(
        [sys.executable, "-m", "inventory", *command],
        env={**os.environ, "SALVAGE_SHELF": str(shelf), "COLUMNS": "400"},
        capture_output=True,
        text=True,
        check=False,
        preexec_fn=limited,
    )
    return done.returncode, done.stdout, done.stderr


def _stocked(path: Path) -> None:
    """A shelf with fifty good pieces as lot 1."""
    shelf = open_shelf(str(path), create=True)
    log_pieces(shelf, [Piece("EX-1", family="other", quantity=50, state="good", bin="A1")])
    shelf.close()


def _fill(place: Path) -> Path:
    """Write until nothing more fits."""
    ballast = place / "ballast"
    with ballast.open("wb", buffering=0) as file:
        try:
            while file.write(bytes(4096)):
                pass
        except OSError:
            return ballast
    raise AssertionError("the disk has no end")


def _parts(path: Path, rows: int) -> Path:
    """A parts file."""
    lines = [f"other,EX-{n},1,B{n % 9},{'x' * 60}" for n in range(rows)]
    path.write_text("\n".join(["family,type,quantity,bin,note", *lines]) + "\n")
    return path


def test_a_load_that_fills_the_disk_is_taken_back_whole(small: Path, tmp_path: Path) -> None:
    """Nothing of it is there; what was there before is; with room the same words work."""
    shelf = small / "a.shelf"
    _stocked(shelf)

    code, out, err = _said(shelf, "load", str(_parts(tmp_path / "big.csv", 4000)))

    assert (code, out) == (3, "")
    assert "is full" in err
    assert len(err.splitlines()) == 1
    assert check(open_shelf(str(shelf))) == []
    assert contents_of(shelf).lots == 1
    assert _said(shelf, "load", str(_parts(tmp_path / "small.csv", 20)))[0] == 0


def test_a_take_on_a_full_disk_is_refused_and_works_when_there_is_room(small: Path) -> None:
    """What was acknowledged before stays; nothing of the refused one is there."""
    shelf = small / "a.shelf"
    _stocked(shelf)
    ballast = _fill(small)

    codes = [_said(shelf, "fit", "1") for _ in range(3)]
    ballast.unlink()

    refused = [err for code, _, err in codes if code]
    assert refused
    assert all("is full" in err and len(err.splitlines()) == 1 for err in refused)
    assert check(open_shelf(str(shelf))) == []
    assert contents_of(shelf).events == 1 + len(codes) - len(refused)
    assert _said(shelf, "fit", "1")[0] == 0


def test_a_shelf_cannot_be_made_on_a_full_disk(small: Path) -> None:
    """One sentence, and nothing half made stays behind."""
    ballast = _fill(small)

    code, _, err = _said(small / "a.shelf", "log", "EX-1", "--family", "other")

    assert code == 3
    assert len(err.splitlines()) == 1
    assert list(small.iterdir()) == [ballast]


def test_a_backup_that_does_not_fit_leaves_the_older_ones(small: Path, tmp_path: Path) -> None:
    """Said before or while writing; the last good backup is not given up for it."""
    shelf = tmp_path / "a.shelf"
    _stocked(shelf)
    good = backup(shelf, small)
    ballast = _fill(small)

    code, _, err = _said(shelf, "backup", "--to", str(small), "--keep", "1")

    assert code == 3
    assert "full" in err
    assert sorted(small.iterdir()) == sorted([ballast, good, good.with_name(f"{good.name}.sha256")])


def test_a_limit_on_file_sizes_takes_a_load_back_whole(tmp_path: Path) -> None:
    """Where no file system may be mounted: the system's own limit on what a process may write."""
    shelf = tmp_path / "a.shelf"
    _stocked(shelf)
    limit = shelf.stat().st_size + 50_000

    code, out, err = _said(shelf, "load", str(_parts(tmp_path / "big.csv", 2000)), limit=limit)

    assert (code, out) == (3, "")
    assert "nothing was changed" in err
    assert check(open_shelf(str(shelf))) == []
    assert contents_of(shelf).lots == 1


@pytest.mark.parametrize("library", ["", "stdlib"])
def test_a_read_only_disk_can_be_looked_at_and_not_written(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, library: str
) -> None:
    """Also a shelf with a write-ahead log, which SQLite itself cannot read there."""
    monkeypatch.setenv("SALVAGE_SQLITE", library)
    with mounted(tmp_path / "stick", "size=4m") as stick:
        _stocked(stick / "a.shelf")
        subprocess.run(["mount", "-o", "remount,ro", str(stick)], check=True)

        looked = _said(stick / "a.shelf", "show", "1")
        refused = _said(stick / "a.shelf", "fit", "1")

    assert looked[0] == 0
    assert "EX-1" in looked[1]
    assert "read-only" in looked[2]
    assert refused[0] == 3
    assert "read-only" in refused[2]
    assert "Traceback" not in refused[2]


def test_a_shelf_cannot_be_made_on_a_read_only_disk(tmp_path: Path) -> None:
    """One sentence."""
    with mounted(tmp_path / "stick", "size=4m") as stick:
        subprocess.run(["mount", "-o", "remount,ro", str(stick)], check=True)

        code, _, err = _said(stick / "a.shelf", "log", "EX-1", "--family", "other")

    assert code == 3
    assert "Cannot write in the folder" in err


@pytest.mark.parametrize("command", [["fit", "1"], ["show", "1"], ["check"], ["backup"]])
def test_a_folder_that_vanished_is_one_sentence(tmp_path: Path, command: list[str]) -> None:
    """A stick that was pulled out; no empty shelf is made in its place."""
    shelf = tmp_path / "stick" / "a.shelf"
    _stocked(shelf)
    shutil.rmtree(shelf.parent)

    code, out, err = _said(shelf, *command)

    assert (code, out) == (3, "")
    assert len(err.splitlines()) == 1
    assert not shelf.parent.exists()
