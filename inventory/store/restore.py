"""Bringing a backup back: what it would change is shown first, and the old shelf is kept."""

from __future__ import annotations

import os
import shutil
import time
from contextlib import suppress
from dataclasses import dataclass, replace
from datetime import UTC, datetime
from pathlib import Path
from typing import Any

from inventory.errors import StoreUnusable
from inventory.store import connection as opening
from inventory.store.backup import connected, digest_of, disk_explained, verify
from inventory.store.contents import Contents, contents_of
from inventory.store.drafts import COMPANIONS, draft_of, settle
from inventory.store.drives import enough_room
from inventory.store.trouble import Busy, Damaged, explaining

_POLL_SECONDS = 0.003
"""Between two tries for the whole shelf: it is free only in the gaps between other benches."""


@dataclass(frozen=True, slots=True)
class Restored:
    """What a restore changes, or changed."""

    after: Contents
    before: Contents | None = None  # None: there is no shelf, or it cannot be read
    problem: str | None = None  # why the shelf that is there cannot be read
    kept: Path | None = None  # the old shelf under its new name


def restore(path: Path, source: Path, *, dry_run: bool = False) -> Restored:
    """Put a backup in the place of a shelf; the old shelf is kept under another name.

    Raises ``StoreUnusable`` for a backup that is damaged, foreign or of a newer program, and
    while another bench holds the shelf; nothing is changed then.
    """
    verify(source)
    planned = _planned(path, source)
    if dry_run:
        return planned
    with disk_explained(path.parent):
        path.parent.mkdir(parents=True, exist_ok=True)
        enough_room(source.stat().st_size, path.parent)
        with draft_of(path) as draft:
            shutil.copyfile(source, draft)
            if digest_of(draft) != digest_of(source):
                raise StoreUnusable(f"{source} could not be copied whole; nothing was changed.")
            kept = _bring_in(draft, path)
    with suppress(*opening.driver_errors()):
        # a bench may be at it again: a rollback journal is as safe
        opening.set_journal_mode(path)
    return replace(planned, kept=kept)


def _planned(path: Path, source: Path) -> Restored:
    """Both sides, looked at before anything is touched."""
    after = contents_of(source)
    if not path.exists():
        return Restored(after)
    try:
        return Restored(after, before=contents_of(path))
    except StoreUnusable as error:
        return Restored(after, problem=str(error))


def _bring_in(draft: Path, path: Path) -> Path | None:
    """Let the shelf be what the draft is; returns where the old one is kept."""
    if not path.exists():
        settle(draft, path)
        return None
    kept = _free_name(path)
    if not _is_shelf(path) or not _replace_inside(draft, path, kept):
        _move_aside(path, kept)
        settle(draft, path)
    return kept


def _is_shelf(path: Path) -> bool:
    """True where SQLite can at least see a shelf in the file; else it would tidy up around it."""
    try:
        return opening.head_of(path)[0] == opening.APPLICATION_ID
    except StoreUnusable:
        return False


def _replace_inside(draft: Path, path: Path, kept: Path) -> bool:
    """Copy the old shelf away and the draft in, in one hold; False where it is too damaged.

    The file itself stays: a bench that has it open waits, and goes on with what was brought in.
    Renaming it instead lets such a bench play journals of one file into the other.
    Source: sqlite.org, How To Corrupt An SQLite Database File, section 2.4.
    """
    with connected(path) as shelf:
        try:
            _hold(shelf, path)
            with draft_of(kept) as copy_draft:
                with explaining(path), connected(copy_draft) as copy:
                    shelf.backup(copy)
                settle(copy_draft, kept)
        except Damaged:
            return False
        with explaining(path), connected(draft) as brought:
            brought.backup(shelf)
    return True


def _move_aside(path: Path, kept: Path) -> None:
    """Give a file that is no shelf any more another name, with all that lies beside it.

    A journal that stayed behind would be played into the new file.
    """
    for ending in COMPANIONS:
        if Path(f"{path}{ending}").exists():
            Path(f"{path}{ending}").replace(f"{kept}{ending}")
    try:
        os.link(path, kept)  # under both names, so that at no moment there is none
    except OSError:
        shutil.copy2(path, kept)  # a file system without hard links


def _free_name(path: Path) -> Path:
    """A name for the old shelf that is not taken."""
    stamp = datetime.now(UTC).strftime("%Y-%m-%dT%H%M%SZ")
    name, number = path.with_name(f"{path.stem}-before-{stamp}{path.suffix}"), 1
    while name.exists():
        number += 1
        name = path.with_name(f"{path.stem}-before-{stamp}-{number}{path.suffix}")
    return name


def _hold(connection: Any, path: Path) -> None:
    """Wait for the shelf and lock it whole, its write-ahead log written back.

    The lock outlives the transaction that got it, so that nobody gets in before the connection
    is closed. Source: sqlite.org, PRAGMA locking_mode.
    """
    give_up = time.monotonic() + opening.WAIT_SECONDS
    while True:
        try:
            with explaining(path):
                _lock(connection, path)
        except Busy:
            if time.monotonic() > give_up:
                raise
            time.sleep(_POLL_SECONDS)
        else:
            return


def _lock(connection: Any, path: Path) -> None:
    """Lock the shelf whole, or raise that it is not free."""
    connection.execute("PRAGMA synchronous=EXTRA")
    connection.execute("PRAGMA journal_mode=DELETE")
    connection.execute("BEGIN EXCLUSIVE")
    if not _locks_all(connection):
        connection.execute("ROLLBACK")
        raise Busy(f"Another bench is writing to {path}; please try again.")
    connection.execute("PRAGMA locking_mode=EXCLUSIVE")
    connection.execute("ROLLBACK")


def _locks_all(connection: Any) -> bool:
    """True where the exclusive transaction shuts every other bench out.

    With a write-ahead log it would not: readers and the next writer get in. A change of the
    journal that was refused once is afterwards taken for done by the connection that asked,
    while the file's head still says write-ahead log; only inside a transaction is it known.
    """
    (mode,) = connection.execute("PRAGMA journal_mode").fetchone()
    return str(mode) != "wal"
