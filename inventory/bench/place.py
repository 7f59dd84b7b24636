"""Which shelf is meant when nobody says, and how it comes into being."""

from __future__ import annotations

import logging
import os
from collections.abc import Callable, Iterator
from contextlib import contextmanager, suppress
from pathlib import Path
from typing import TypeVar

from inventory.errors import StoreUnusable
from inventory.store.shelf import Shelf, file_of, is_there, open_on_server, open_shelf

FILE_NAME = "bench.shelf"

_LOG = logging.getLogger("inventory")
"""What a person should know beside the result; the command line prints it on stderr."""

Done = TypeVar("Done")


def shelf_path(said: str | None) -> str:
    """The shelf named on the command line, else in ``SALVAGE_SHELF``, else the default one."""
    return said or os.environ.get("SALVAGE_SHELF") or str(_default())


def _default() -> Path:
    """The platform's data folder."""
    from platformdirs import user_data_path

    return user_data_path("salvage", appauthor=False) / FILE_NAME


def open_for(said: str | None, *, bench: str | None = None) -> Shelf:
    """Open the shelf that is meant; it must be there."""
    where = shelf_path(said)
    try:
        opened = open_shelf(where, bench=bench)
    except OSError as error:
        raise StoreUnusable(f"Cannot open {where}: {error.strerror or error}.") from error
    for sentence in opened.warnings:
        _LOG.warning("%s", sentence)
    return opened


def write_on(said: str | None, work: Callable[[Shelf], Done], *, dry_run: bool = False) -> Done:
    """Do what fills a shelf on the one that is meant; where there is none, it is made with it.

    Work that fails, and a dry run, leave no shelf behind.
    """
    from inventory.store.new_shelf import made_with

    where = shelf_path(said)
    path = file_of(where)
    if path is None:
        return _on_server(where, work, dry_run=dry_run)
    if _is_taken(path, where):
        return work(open_for(said))
    with _data_folder(path, ours=where == str(_default())):
        made = made_with(path, work, dry_run=dry_run)
    if made is None:
        return work(open_for(said))
    if not dry_run:
        _LOG.warning("A new shelf was made at %s.", path)
        open_for(said).close()  # warns of a place that is none for a shelf
    return made[0]


def _on_server(where: str, work: Callable[[Shelf], Done], *, dry_run: bool) -> Done:
    """The same on a server, where the first write makes the shelf that is missing."""
    opened = open_on_server(where, to_fill=True)
    done = work(opened)
    if opened.server and opened.server.to_fill and not dry_run:
        _LOG.warning("A new shelf was made. %s keeps it.", opened.server.name)
    return done


def _is_taken(path: Path, where: str) -> bool:
    """True where something lies at the path already."""
    try:
        return is_there(path)
    except OSError as error:
        raise StoreUnusable(f"Cannot open {where}: {error.strerror}.") from error


@contextmanager
def _data_folder(path: Path, *, ours: bool) -> Iterator[None]:
    """Where the shelf has no name of its own, its folder is made, and goes again if all fails."""
    missing = [one for one in path.parents if ours and not one.exists()]
    try:
        if missing:
            path.parent.mkdir(parents=True, exist_ok=True)
    except OSError as error:
        raise StoreUnusable(f"Cannot make the folder {path.parent}: {error.strerror}.") from error
    try:
        yield
    finally:
        for folder in missing:
            with suppress(OSError):  # the shelf in it keeps it from going
                folder.rmdir()
