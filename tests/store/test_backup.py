"""Backups: whole, checked, counted, and never half of one."""

from __future__ import annotations

import hashlib
import os
import sqlite3
from datetime import UTC, datetime
from pathlib import Path

import pytest

from inventory.errors import StoreUnusable, WrongInput
from inventory.store import backup as backups
from inventory.store import drives
from inventory.store.backup import backup, backups_of, verify
from inventory.store.contents import contents_of
from tests.store.shelves import stocked, take


def test_a_backup_holds_what_the_shelf_held(tmp_path: Path) -> None:
    """Counts and last event of the copy are those of the shelf at that moment."""
    shelf = stocked(tmp_path / "a.shelf")
    take(shelf)

    made = backup(tmp_path / "a.shelf")
    take(shelf)

    held = contents_of(made)
    assert (held.on_hand, held.events, held.last_kind, held.last_bench) == (4, 2, "fitted", "north")


def test_a_backup_is_one_file_that_needs_no_write_ahead_log(tmp_path: Path) -> None:
    """It opens on read-only media: bytes 18 and 19 of the head say rollback journal.

    Source: sqlite.org, Database File Format, section 1.3.
    """
    stocked(tmp_path / "a.shelf")

    made = backup(tmp_path / "a.shelf", tmp_path / "stick")

    assert made.read_bytes()[18:20] == b"\x01\x01"
    assert sorted(one.name for one in (tmp_path / "stick").iterdir()) == [
        made.name,
        f"{made.name}.sha256",
    ]


def test_the_digest_beside_a_backup_is_that_of_its_bytes(tmp_path: Path) -> None:
    """The side file reads as ``sha256sum -c`` wants it."""
    stocked(tmp_path / "a.shelf")

    made = backup(tmp_path / "a.shelf")

    digest = hashlib.sha256(made.read_bytes()).hexdigest()
    assert made.with_name(f"{made.name}.sha256").read_text() == f"{digest}  {made.name}\n"


def test_only_the_newest_backups_are_kept(tmp_path: Path) -> None:
    """Five backups with three kept leave the last three and their digests."""
    stocked(tmp_path / "a.shelf")

    made = [backup(tmp_path / "a.shelf", keep=3) for _ in range(5)]

    assert backups_of(tmp_path / "a.shelf") == made[2:]
    assert len(list((tmp_path / "backups").iterdir())) == 6


def test_backups_of_another_shelf_in_the_same_folder_stay(tmp_path: Path) -> None:
    """A name that merely begins alike is another shelf."""
    for name in ("a", "a-b"):
        stocked(tmp_path / f"{name}.shelf")
        backup(tmp_path / f"{name}.shelf")

    backup(tmp_path / "a.shelf", keep=1)

    assert len(backups_of(tmp_path / "a-b.shelf")) == 1


def test_names_go_on_when_the_clock_goes_back(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """The newest backup is the last one made, so that ``keep`` never removes it."""
    stocked(tmp_path / "a.shelf")
    first = backup(tmp_path / "a.shelf")

    monkeypatch.setattr(backups, "_today", lambda: datetime(2019, 1, 1, tzinfo=UTC))
    second = backup(tmp_path / "a.shelf", keep=1)

    assert second.name > first.name
    assert backups_of(tmp_path / "a.shelf") == [second]


def test_what_a_killed_backup_left_is_cleaned_by_the_next(tmp_path: Path) -> None:
    """A draft of a process that is gone disappears; one of a living process stays."""
    stocked(tmp_path / "a.shelf")
    made = backup(tmp_path / "a.shelf")
    folder = made.parent
    gone = folder / f".{made.name}.999999999.salvage-draft"
    alive = folder / f".{made.name}.{os.getppid()}.salvage-draft"
    for draft in (gone, alive):
        draft.write_bytes(b"half")

    backup(tmp_path / "a.shelf")

    assert not gone.exists()
    assert alive.exists()


def test_keeping_none_is_refused(tmp_path: Path) -> None:
    """A backup that is removed at once is none."""
    stocked(tmp_path / "a.shelf")

    with pytest.raises(WrongInput, match="at least 1"):
        backup(tmp_path / "a.shelf", keep=0)


def test_a_damaged_shelf_removes_no_older_backup(tmp_path: Path) -> None:
    """The good copies stay when the shelf no longer is one."""
    shelf = stocked(tmp_path / "a.shelf")
    good = backup(tmp_path / "a.shelf", keep=1)
    shelf.close()
    _zero_a_page(tmp_path / "a.shelf")

    with pytest.raises(StoreUnusable, match="damaged"):
        backup(tmp_path / "a.shelf", keep=1)
    verify(good)


def test_a_backup_of_a_changed_journal_is_made_and_said_to_be_doubtful(tmp_path: Path) -> None:
    """A copy is better than none, but it does not push out a good one."""
    stocked(tmp_path / "a.shelf")
    good = backup(tmp_path / "a.shelf", keep=1)
    _forge_an_event(tmp_path / "a.shelf")

    with pytest.raises(StoreUnusable, match="does not hold together at event 1"):
        backup(tmp_path / "a.shelf", keep=1)

    assert len(backups_of(tmp_path / "a.shelf")) == 2
    verify(good)


def test_a_flipped_bit_in_a_backup_is_found(tmp_path: Path) -> None:
    """Inside a value SQLite's own check sees nothing; the digest does."""
    stocked(tmp_path / "a.shelf")
    made = backup(tmp_path / "a.shelf")
    data = bytearray(made.read_bytes())
    data[data.index(b"EX-1")] ^= 1
    made.write_bytes(data)

    with pytest.raises(StoreUnusable, match="SHA-256 differs"):
        verify(made)


def test_a_file_that_is_no_shelf_is_not_backed_up(tmp_path: Path) -> None:
    """Another program's database is refused."""
    with sqlite3.connect(tmp_path / "other.db") as other:
        other.execute("CREATE TABLE note (text)")
    other.close()

    with pytest.raises(StoreUnusable, match="not a shelf file"):
        backup(tmp_path / "other.db")


def test_a_folder_that_cannot_be_made_is_one_sentence(tmp_path: Path) -> None:
    """A file in the way of the folder is said, and nothing changes."""
    stocked(tmp_path / "a.shelf")
    (tmp_path / "stick").write_text("a file, not a folder")

    with pytest.raises(StoreUnusable, match="Cannot write in"):
        backup(tmp_path / "a.shelf", tmp_path / "stick")


def test_too_little_room_is_said_before_writing(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """What cannot fit is not begun."""
    stocked(tmp_path / "a.shelf")
    monkeypatch.setattr(drives, "free_bytes", lambda _folder: 100)

    with pytest.raises(StoreUnusable, match="100 are left"):
        backup(tmp_path / "a.shelf")
    assert list((tmp_path / "backups").iterdir()) == []


def _zero_a_page(path: Path) -> None:
    """Overwrite the second half of a shelf file, all tables' pages."""
    data = bytearray(path.read_bytes())
    data[8192:16384] = bytes(8192)
    path.write_bytes(data)


def _forge_an_event(path: Path) -> None:
    """Change an event as somebody with a database tool could."""
    with sqlite3.connect(path) as raw:
        raw.execute("DROP TRIGGER journal_keeps_its_words")
        raw.execute("UPDATE journal SET quantity = 50 WHERE seq = 1")
    raw.close()
