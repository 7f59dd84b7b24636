"""The demo shop: loaded from the files that ship with the package."""

from __future__ import annotations

from pathlib import Path

from inventory.bench.dumps import load_dump
from inventory.errors import Refused, StoreUnusable
from inventory.resources import shipped
from inventory.store.new_shelf import made_with

UNIT = "Brenka BK-20M"
PLACE = "primary-interlock"
FAILED = "NFD-V16-63 16(4)A 250V~ T105 1E5"
AS_OF = "2026-10-31"
"""The last day of the demo's journal."""


def make_demo(path: Path, *, dry_run: bool = False) -> None:
    """Make the demo shelf at a path; one that is there already is left alone."""
    if path.exists():
        raise Refused(f"There is a shelf at {path} already; name another with --to.")
    source = shipped("demo_inventory") / "shelf.json"
    if not source.is_file():
        raise StoreUnusable(f"The demo's file {source.name} is missing from this installation.")
    if made_with(path, lambda shelf: load_dump(shelf, source), dry_run=dry_run) is None:
        raise Refused(f"Another bench made a shelf at {path} meanwhile; name another with --to.")
