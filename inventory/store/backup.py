"""Backups of a shelf, and bringing one back. Each is whole or not there.

A backup is one file that opens anywhere, read-only media too (rollback journal, not write-ahead
log), with a SHA-256 file beside it: SQLite's own check misses flips inside a value.
"""

from __future__ import annotations

import hashlib
import re
import time
from collections.abc import Iterator
from contextlib import contextmanager
from datetime import UTC, datetime, timedelta
from pathlib import Path
from typing import Any

from inventory.errors import StoreUnusable, WrongInput
from inventory.store import connection as opening
from inventory.store.contents import broken_pages, broken_records, looking_at, schema_of
from inventory.store.drafts import draft_of, settle
from inventory.store.drives import enough_room
from inventory.store.trouble import explaining

FOLDER = "backups"
"""Where backups of a shelf go when nobody says: this folder beside it."""

_STAMP = "%Y-%m-%dT%H%M%SZ"
_STAMP_LENGTH = 18
_STAMPED = re.compile(r"[0-9]{4}-[0-9]{2}-[0-9]{2}T[0-9]{6}Z")
_ORPHAN_SECONDS = 86_400


def backup(path: Path, folder: Path | None = None, keep: int | None = None) -> Path:
    """Copy a shelf while it is in use; returns the backup. Only the newest ``keep`` stay.

    Older backups go only after the new one is on the disk and was found whole.
    """
    if keep is not None and keep < 1:
        raise WrongInput(f"Keep at least 1 backup, not {keep}.")
    into = folder or path.parent / FOLDER
    made = _write(path, into)
    with disk_explained(into):
        _clean_digests(into)
        for old in backups_of(path, into)[: -keep if keep else 0]:
            _remove(old)
    return made


def too_many(path: Path, folder: Path | None, keep: int | None) -> list[Path]:
    """Backups that would go when one more is made and only the newest ``keep`` stay."""
    there = backups_of(path, folder)
    return there[: len(there) + 1 - keep] if keep and len(there) >= keep else []


def backup_before_migration(path: Path, version: int) -> Path:
    """The backup that is made before a schema is upgraded; it is never removed by ``keep``."""
    return _write(path, path.parent / FOLDER, f"schema{version}-")


def backups_of(path: Path, folder: Path | None = None) -> list[Path]:
    """The backups of a shelf in a folder, oldest first."""
    start, end = f"{path.stem}-", ".backup"
    found = [
        one
        for one in (folder or path.parent / FOLDER).glob("*.backup")
        if one.name.startswith(start) and _STAMPED.fullmatch(one.name[len(start) : -len(end)])
    ]
    return sorted(found)


def verify(path: Path) -> None:
    """Raise ``StoreUnusable`` unless a backup is a whole shelf this program can read."""
    if not _digest_holds(path):
        raise StoreUnusable(f"{path} is not what was written: its SHA-256 differs. Try another.")
    schema_of(path)
    with looking_at(path) as connection:
        damage = broken_pages(connection) or broken_records(connection)
    if damage is not None:
        raise StoreUnusable(f"{path} is damaged: {damage}. Try another backup.")


def _write(path: Path, folder: Path, mark: str = "") -> Path:
    """Copy, check, and put in place: the digest first, so that no backup is without one."""
    schema_of(path)
    with disk_explained(folder):
        folder.mkdir(parents=True, exist_ok=True)
        enough_room(path.stat().st_size, folder)
        target = _reserve(path, folder, mark)
        try:
            return _fill(path, target)
        finally:
            if not target.exists():
                _side_file(target).unlink(missing_ok=True)


def _fill(path: Path, target: Path) -> Path:
    """Write the backup whose name was reserved."""
    with draft_of(target) as draft:
        _copy(path, draft)
        with looking_at(draft) as connection:
            pages, records = broken_pages(connection), broken_records(connection)
        if pages is not None:
            raise StoreUnusable(
                f"{path} is damaged: {pages}. No backup was made and none was removed;"
                " 'salvage restore' brings back an older one."
            )
        _write_digest(draft, target)
        settle(draft, target)
    if records is not None:
        raise StoreUnusable(
            f"{target} was written, but the shelf is damaged: {records}. No older backup was"
            " removed; 'salvage check' says more."
        )
    return target


def _reserve(path: Path, folder: Path, mark: str) -> Path:
    """A name later than that of any backup there, taken by making its digest file.

    Names go on even if the clock went back, and two benches never get the same one.
    """
    moment = _today()
    taken = [one.name.removesuffix(".backup")[-_STAMP_LENGTH:] for one in backups_of(path, folder)]
    if taken:
        moment = max(moment, _moment(max(taken)) + timedelta(seconds=1))
    while True:
        name = folder / f"{path.stem}-{mark}{moment.strftime(_STAMP)}.backup"
        try:
            _side_file(name).touch(exist_ok=False)
        except FileExistsError:
            moment += timedelta(seconds=1)
            continue
        return name


def _today() -> datetime:
    """This moment, to the second."""
    return datetime.now(UTC).replace(microsecond=0)


def _moment(stamp: str) -> datetime:
    """The time in a backup's name."""
    return datetime.strptime(stamp, _STAMP).replace(tzinfo=UTC)


def _copy(path: Path, draft: Path) -> None:
    """One consistent copy through SQLite's backup API, with a rollback journal."""
    with explaining(path), connected(path) as source:
        # the read transaction waits its turn; the copy that follows needs no lock of its own
        source.execute("BEGIN")
        source.execute("SELECT COUNT(*) FROM sqlite_master").fetchone()
        with explaining(draft.parent), connected(draft) as target:
            source.backup(target)
            target.execute("PRAGMA journal_mode=DELETE")
        source.execute("COMMIT")


@contextmanager
def connected(path: Path) -> Iterator[Any]:
    """A plain connection of the driver."""
    connection = opening.sqlite_module().connect(
        str(path), timeout=opening.WAIT_SECONDS, isolation_level=None
    )
    try:
        yield connection
    finally:
        connection.close()


def digest_of(path: Path) -> str:
    """SHA-256 of a file, in hexadecimal."""
    with path.open("rb") as file:
        return hashlib.file_digest(file, "sha256").hexdigest()


def _side_file(backup_path: Path) -> Path:
    """Where the digest of a backup stands."""
    return backup_path.with_name(f"{backup_path.name}.sha256")


def _write_digest(draft: Path, target: Path) -> None:
    """Write the digest beside the backup-to-be, in the form ``sha256sum -c`` reads."""
    side = _side_file(target)
    with draft_of(side) as side_draft:
        side_draft.write_text(f"{digest_of(draft)}  {target.name}\n", encoding="utf-8")
        settle(side_draft, side)


def _digest_holds(path: Path) -> bool:
    """False where the digest beside a backup differs; a missing one says nothing."""
    try:
        said = _side_file(path).read_text(encoding="utf-8", errors="replace").split()
        return bool(said) and said[0] == digest_of(path)
    except (OSError, ValueError):
        return True  # what cannot be read at all is said by the next look


def _remove(old: Path) -> None:
    """Remove a backup, then its digest."""
    old.unlink(missing_ok=True)
    _side_file(old).unlink(missing_ok=True)


def _clean_digests(folder: Path) -> None:
    """Remove digests that a killed backup left without a backup."""
    for side in folder.glob("*.backup.sha256"):
        alone = not side.with_name(side.name.removesuffix(".sha256")).exists()
        if alone and time.time() - side.stat().st_mtime > _ORPHAN_SECONDS:
            side.unlink(missing_ok=True)


@contextmanager
def disk_explained(folder: Path) -> Iterator[None]:
    """What the operating system says of a folder, in one sentence."""
    try:
        yield
    except OSError as error:
        raise StoreUnusable(
            f"Cannot write in {folder}: {error.strerror or error}. Nothing was changed."
        ) from error
