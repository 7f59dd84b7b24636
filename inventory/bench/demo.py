"""The demo shop: loaded from the files that ship with the package."""

from __future__ import annotations

from pathlib import Path

from inventory.bench.dumps import load_dump
from inventory.errors import Refused, StoreUnusable
from inventory.resources import shipped
from inventory.store.shelf import Shelf, open_shelf

UNIT = "Brenka BK-20M"
PLACE = "primary-interlock"
FAILED = "NFD-V16-63 16(4)A 250V~ T105 1E5"
AS_OF = "2026-10-31"
"""The last day of the demo's journal."""


def make_demo(path: Path, *, fresh: bool = False) -> Shelf:
    """The demo shelf at a path; an existing one is left alone unless ``fresh`` is said."""
    if path.exists() and not fresh:
        raise Refused(f"There is a shelf at {path} already; name another with --to.")
    source = shipped("demo_inventory") / "shelf.json"
    if not source.is_file():
        raise StoreUnusable(f"The demo's file {source.name} is missing from this installation.")
    if fresh:
        _remove(path)
    shelf = open_shelf(str(path), create=True)
    try:
        load_dump(shelf, source)
    except BaseException:
        # a half-made demo would stand in the way of the next try
        shelf.close()
        _remove(path)
        raise
    return shelf


def _remove(path: Path) -> None:
    """Remove a shelf file with its companions."""
    for ending in ("", "-wal", "-shm", "-journal"):
        path.with_name(path.name + ending).unlink(missing_ok=True)
