"""Bringing a backup back: what it would change is shown first, and the old shelf is kept."""

from __future__ import annotations

import os
import shutil
import time
from collections.abc import Iterator
from contextlib import contextmanager
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


@dataclass(frozen=True, slots=True)
class Restored:
    """What a restore changes, or changed."""

    after: Contents
    before: Contents | None = None  # None: there is no shelf, or it cannot be read
    problem: str | None = None  # why the shelf that is there cannot be read
    kept: Path | None = None  # the old shelf under its new name


def restore(path: Path, source: Path, *, dry_run: bool = False) -> Restored:
    """Put a backup in the place of a shelf; the old shelf stays under another name.

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
            kept = _exchange(draft, path)
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


def _exchange(draft: Path, path: Path) -> Path | None:
    """Give the old shelf another name and the draft its place, while nobody writes."""
    if not path.exists():
        settle(draft, path)
        return None
    kept = _free_name(path)
    with _alone_with(path):
        # a journal that stays behind would be played into the new file
        for ending in COMPANIONS:
            if Path(f"{path}{ending}").exists():
                Path(f"{path}{ending}").replace(f"{kept}{ending}")
        _second_name(path, kept)
        settle(draft, path)
    return kept


def _second_name(path: Path, kept: Path) -> None:
    """The old shelf under both names, so that at no moment there is none."""
    try:
        os.link(path, kept)
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


@contextmanager
def _alone_with(path: Path) -> Iterator[None]:
    """Hold a shelf so that nobody else can write to it; a file SQLite cannot read needs no hold."""
    with connected(path) as connection:
        held = _hold(connection, path)
        yield
        if held:
            connection.execute("ROLLBACK")


def _hold(connection: Any, path: Path) -> bool:
    """Wait for the shelf and lock it whole, its write-ahead log written back; False if damaged."""
    try:
        opening.head_of(path)
    except StoreUnusable:
        return False  # SQLite would tidy up around what it cannot read
    give_up = time.monotonic() + opening.WAIT_SECONDS
    while True:
        try:
            with explaining(path):
                connection.execute("PRAGMA journal_mode=DELETE")
                connection.execute("BEGIN EXCLUSIVE")
        except Damaged:
            return False
        except Busy:
            if time.monotonic() > give_up:
                raise
            time.sleep(0.05)
        else:
            return True
