"""Files that are built beside their place and moved there when they are whole.

A process that is killed, or a machine that loses power, leaves the old file or the new one,
never half of one. What a dead process left behind is cleaned by the next.
"""

from __future__ import annotations

import os
import re
import time
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

COMPANIONS = ("-journal", "-wal", "-shm")
"""What SQLite may lay beside a file. Source: sqlite.org, Temporary Files Used By SQLite."""

_STALE_SECONDS = 86_400
_ENDING = "salvage-draft"
_DRAFT = re.compile(rf"\..{{1,255}}\.(?P<process>[0-9]{{1,10}})\.{_ENDING}(?:-journal|-wal|-shm)?")


@contextmanager
def draft_of(path: Path) -> Iterator[Path]:
    """A path beside ``path`` to build on; whatever is still there at the end is removed."""
    clean(path.parent)
    draft = path.with_name(f".{path.name}.{os.getpid()}.{_ENDING}")
    _remove(draft)
    try:
        yield draft
    finally:
        _remove(draft)


def _remove(draft: Path) -> None:
    """Remove a draft and what lies beside it."""
    for ending in ("", *COMPANIONS):
        Path(f"{draft}{ending}").unlink(missing_ok=True)


def clean(folder: Path) -> None:
    """Remove the drafts in a folder whose process is no longer there."""
    for found in folder.glob(f".*.{_ENDING}*"):
        told = _DRAFT.fullmatch(found.name)
        if told and _is_stale(found, int(told["process"])):
            found.unlink(missing_ok=True)


def _is_stale(draft: Path, process: int) -> bool:
    """True where nobody can still be building on it."""
    if os.name == "posix" and process != os.getpid():
        try:
            os.kill(process, 0)
        except ProcessLookupError:
            return True
        except (OSError, OverflowError):
            pass
    try:
        return time.time() - draft.stat().st_mtime > _STALE_SECONDS
    except OSError:
        return False


def settle(draft: Path, path: Path) -> None:
    """Make the draft the file, in one step that a power cut cannot halve."""
    sync(draft)
    draft.replace(path)
    sync(path.parent)


def settle_new(draft: Path, path: Path) -> bool:
    """Make the draft the file unless somebody made one meanwhile; True where it is ours."""
    sync(draft)
    try:
        os.link(draft, path)
    except FileExistsError:
        return False
    except OSError:
        # a stick without hard links: the gap between the look and the move cannot be closed
        if path.exists():
            return False
        draft.replace(path)
    sync(path.parent)
    return True


def sync(path: Path) -> None:
    """Have a file or folder on the disk before going on."""
    if path.is_dir() and os.name != "posix":
        return  # Windows cannot open a folder; its file system journals the name itself
    number = os.open(path, os.O_RDONLY if path.is_dir() else os.O_RDWR)
    try:
        os.fsync(number)
    finally:
        os.close(number)
