"""A shelf that comes into being with the first thing written on it, or not at all."""

from __future__ import annotations

import os
from collections.abc import Callable
from dataclasses import replace
from pathlib import Path
from typing import TypeVar

from inventory.errors import StoreUnusable
from inventory.store.drafts import draft_of, settle, settle_new
from inventory.store.shelf import Shelf, is_there, open_shelf
from inventory.store.trouble import explaining

Done = TypeVar("Done")


def made_with(
    path: Path, work: Callable[[Shelf], Done], *, bench: str | None = None, dry_run: bool = False
) -> tuple[Done] | None:
    """Do some work on a new shelf, which appears at ``path`` when the work has succeeded.

    None where another bench made a shelf there meanwhile: nothing of the work is kept then. With
    ``dry_run``, or when the work fails, nothing is left. A missing folder is not made: it may be
    a stick that was pulled out, and a second shelf in its place would split the stock.
    """
    _can_be_made_in(path.parent)
    with draft_of(path) as draft:
        try:
            done = _worked(draft, path, work, bench)
        except StoreUnusable:
            if is_there(path):
                return None
            raise
        return (done,) if dry_run or _settled(draft, path) else None


def _can_be_made_in(folder: Path) -> None:
    """Raises ``StoreUnusable`` where no shelf can be made."""
    if not folder.is_dir():
        raise StoreUnusable(
            f"There is no folder {folder}, so no shelf was made; make the folder, or name another"
            " shelf."
        )
    if not os.access(folder, os.W_OK):
        raise StoreUnusable(f"Cannot write in the folder {folder}; no shelf was made.")


def _worked(draft: Path, path: Path, work: Callable[[Shelf], Done], bench: str | None) -> Done:
    """What came of the work on a draft, in whose sentences the shelf has its real name."""
    from inventory.store.migrate import create

    with explaining(path):
        create(draft)
    opened = open_shelf(str(draft), bench=bench)
    try:
        return work(replace(opened, path=path))
    finally:
        opened.close()


def _settled(draft: Path, path: Path) -> bool:
    """Make the draft the shelf; False where another bench was first."""
    try:
        if settle_new(draft, path):
            return True
        if is_there(path):
            return False
        settle(draft, path)
    except OSError as error:
        raise StoreUnusable(f"Cannot make a shelf at {path}: {error.strerror}.") from error
    return True
