"""Restoring: shown first, in one step, and the old shelf is kept."""

from __future__ import annotations

import shutil
import threading
import time
from pathlib import Path
from typing import Any

import pytest

from inventory.errors import StoreUnusable
from inventory.store import connection as opening
from inventory.store import drives
from inventory.store.backup import backup, connected
from inventory.store.contents import contents_of
from inventory.store.restore import _hold, restore
from inventory.store.shelf import open_shelf
from tests.store.shelves import on_hand, stocked, take


def test_a_dry_run_shows_both_sides_and_changes_nothing(tmp_path: Path) -> None:
    """Counts and last event of shelf and backup stand side by side."""
    shelf = stocked(tmp_path / "a.shelf")
    made = backup(tmp_path / "a.shelf")
    take(shelf, 2)

    shown = restore(tmp_path / "a.shelf", made, dry_run=True)

    assert shown.before is not None
    assert (shown.before.on_hand, shown.after.on_hand) == (3, 5)
    assert (shown.before.last_event, shown.after.last_event) == (2, 1)
    assert on_hand(shelf) == 3


def test_the_backup_takes_the_place_and_the_old_shelf_is_kept(tmp_path: Path) -> None:
    """Nothing is overwritten: what was on the shelf is there under another name."""
    shelf = stocked(tmp_path / "a.shelf")
    made = backup(tmp_path / "a.shelf")
    take(shelf, 2)

    done = restore(tmp_path / "a.shelf", made)

    assert on_hand(open_shelf(str(tmp_path / "a.shelf"))) == 5
    assert done.kept is not None
    assert contents_of(done.kept).on_hand == 3


def test_a_restored_shelf_takes_events_again(tmp_path: Path) -> None:
    """The chain goes on from the backup's last event."""
    shelf = stocked(tmp_path / "a.shelf")
    made = backup(tmp_path / "a.shelf")
    take(shelf)
    restore(tmp_path / "a.shelf", made)

    assert take(open_shelf(str(tmp_path / "a.shelf"))) == 2


@pytest.mark.parametrize("length", [0, 50, 4096])
def test_a_shelf_that_cannot_be_read_is_replaced_and_kept(tmp_path: Path, length: int) -> None:
    """Restoring is for just this: the damaged file stays for those who want to look."""
    shelf = stocked(tmp_path / "a.shelf")
    made = backup(tmp_path / "a.shelf")
    shelf.close()
    wreck = (b"\xff" * 100 + (tmp_path / "a.shelf").read_bytes()[100:])[:length]
    (tmp_path / "a.shelf").write_bytes(wreck)

    done = restore(tmp_path / "a.shelf", made)

    assert done.before is None
    assert done.problem
    assert done.kept is not None
    assert done.kept.read_bytes() == wreck
    assert on_hand(open_shelf(str(tmp_path / "a.shelf"))) == 5


def test_a_journal_that_lies_beside_a_wreck_is_not_played_into_the_backup(tmp_path: Path) -> None:
    """What SQLite left beside the old file goes with the old file."""
    shelf = stocked(tmp_path / "a.shelf")
    made = backup(tmp_path / "a.shelf")
    shelf.close()
    (tmp_path / "a.shelf").write_bytes(b"\xff" * 8192)
    opening._IN_USE.clear()  # the restore is a process of its own
    (tmp_path / "a.shelf-journal").write_bytes(b"\xd9\xd5\x05\xf9\x20\xa1\x63\xd7" + b"x" * 2000)

    done = restore(tmp_path / "a.shelf", made)

    assert not (tmp_path / "a.shelf-journal").exists()
    assert Path(f"{done.kept}-journal").exists()
    assert on_hand(open_shelf(str(tmp_path / "a.shelf"))) == 5


def test_a_shelf_that_is_gone_is_brought_back(tmp_path: Path) -> None:
    """Where nothing lies, nothing is kept."""
    shelf = stocked(tmp_path / "a.shelf")
    made = backup(tmp_path / "a.shelf", tmp_path / "stick")
    shelf.close()
    (tmp_path / "a.shelf").unlink()

    done = restore(tmp_path / "new" / "a.shelf", made)

    assert (done.before, done.kept) == (None, None)
    assert on_hand(open_shelf(str(tmp_path / "new" / "a.shelf"))) == 5


def test_a_damaged_backup_is_refused(tmp_path: Path) -> None:
    """The shelf that is there stays as it is."""
    shelf = stocked(tmp_path / "a.shelf")
    made = backup(tmp_path / "a.shelf")
    made.write_bytes(made.read_bytes()[:8192])

    with pytest.raises(StoreUnusable, match="SHA-256 differs"):
        restore(tmp_path / "a.shelf", made)
    assert on_hand(shelf) == 5


def test_a_damaged_backup_without_its_digest_is_refused_too(tmp_path: Path) -> None:
    """SQLite's own check is the second line."""
    stocked(tmp_path / "a.shelf")
    made = backup(tmp_path / "a.shelf")
    made.write_bytes(made.read_bytes()[:8192])
    made.with_name(f"{made.name}.sha256").unlink()

    with pytest.raises(StoreUnusable, match="damaged"):
        restore(tmp_path / "a.shelf", made)


def test_a_backup_of_a_newer_program_is_refused(tmp_path: Path) -> None:
    """Bytes 60 to 63 of the head are the schema version."""
    stocked(tmp_path / "a.shelf")
    made = backup(tmp_path / "a.shelf")
    data = bytearray(made.read_bytes())
    data[60:64] = (99).to_bytes(4)
    made.write_bytes(data)
    made.with_name(f"{made.name}.sha256").unlink()

    with pytest.raises(StoreUnusable, match="newer program"):
        restore(tmp_path / "a.shelf", made)


def test_a_foreign_file_is_refused(tmp_path: Path) -> None:
    """A photograph is no backup."""
    stocked(tmp_path / "a.shelf")
    (tmp_path / "photo.backup").write_bytes(b"\x89PNG" * 100)

    with pytest.raises(StoreUnusable, match="not a shelf file"):
        restore(tmp_path / "a.shelf", tmp_path / "photo.backup")


def test_a_shelf_in_use_is_waited_for_and_then_refused(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """While another bench writes, nothing is exchanged under its hands."""
    monkeypatch.setattr(opening, "WAIT_SECONDS", 0.2)
    shelf = stocked(tmp_path / "a.shelf")
    made = backup(tmp_path / "a.shelf")
    with shelf.write() as connection:
        connection.exec_driver_sql("DELETE FROM setting")
        with pytest.raises(StoreUnusable, match="Another bench"):
            restore(tmp_path / "a.shelf", made)
    assert not list(tmp_path.glob("a-before*"))


def test_an_event_written_to_a_shelf_that_was_exchanged_is_not_acknowledged(
    tmp_path: Path,
) -> None:
    """A bench that waited on the old file hears that its piece was not taken."""
    shelf = stocked(tmp_path / "a.shelf")
    made = backup(tmp_path / "a.shelf")
    copy = tmp_path / "copy.shelf"
    shutil.copyfile(made, copy)

    with pytest.raises(StoreUnusable, match="replaced or removed"), shelf.write() as connection:  # noqa: PT012
        copy.replace(tmp_path / "a.shelf")
        connection.exec_driver_sql("INSERT INTO setting (name, value) VALUES ('wage', '20')")


def _bench_that_writes(path: Path, taken: list[int], stop: threading.Event) -> None:
    """Take piece after piece; only what was acknowledged is noted."""
    mine = open_shelf(str(path), bench="south")
    while not stop.is_set():
        try:
            taken.append(take(mine))
            time.sleep(0.001)  # without any gap a restore is refused after its wait
        except StoreUnusable:
            continue


class _Deaf:
    """A connection that takes the first changes of the journal for done without doing them."""

    def __init__(self, connection: Any, times: int) -> None:
        self.connection, self.left = connection, times

    def execute(self, statement: str) -> Any:
        """Run a statement, or only say so."""
        if statement == "PRAGMA journal_mode=DELETE" and self.left:
            self.left -= 1
            return None
        return self.connection.execute(statement)


def test_a_journal_that_did_not_change_is_seen_before_anything_is_copied(tmp_path: Path) -> None:
    """SQLite may take a change it once refused for done; then a lock shuts nobody out.

    So it went in one restore of some hundred beside a bench that never paused.
    """
    shelf = stocked(tmp_path / "a.shelf")
    with connected(tmp_path / "a.shelf") as raw:
        raw.execute("PRAGMA journal_mode=WAL")
        deaf = _Deaf(raw, 2)
        _hold(deaf, tmp_path / "a.shelf")

        assert deaf.left == 0
        with connected(tmp_path / "a.shelf") as other:
            other.execute("PRAGMA busy_timeout=0")
            with pytest.raises(opening.driver_errors(), match="locked"):
                other.execute("SELECT COUNT(*) FROM lot")
    assert on_hand(shelf) == 5


def test_a_bench_that_writes_during_a_restore_loses_nothing_in_silence(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Each take is on the new shelf, on the kept one, or was answered with a refusal."""
    monkeypatch.setattr(opening, "WAIT_SECONDS", 60)  # a loaded machine may starve the restore
    shelf = stocked(tmp_path / "a.shelf", 10_000)
    made = backup(tmp_path / "a.shelf")
    stop, taken = threading.Event(), list[int]()
    working = threading.Thread(target=_bench_that_writes, args=(tmp_path / "a.shelf", taken, stop))
    working.start()
    try:
        kept = [restore(tmp_path / "a.shelf", made).kept for _ in range(5)]
    finally:
        stop.set()
        working.join()
    left = [contents_of(one) for one in (*kept, tmp_path / "a.shelf") if one is not None]
    assert len(left) == 6
    assert sum(one.events - 1 for one in left) == len(taken)
    shelf.close()


def test_too_little_room_is_said_before_writing(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """What cannot fit is not begun."""
    shelf = stocked(tmp_path / "a.shelf")
    made = backup(tmp_path / "a.shelf")
    monkeypatch.setattr(drives, "free_bytes", lambda _folder: 100)

    with pytest.raises(StoreUnusable, match="100 are left"):
        restore(tmp_path / "a.shelf", made)
    assert on_hand(shelf) == 5
