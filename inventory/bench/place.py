"""Which shelf is meant when nobody says."""

from __future__ import annotations

import logging
import os
from pathlib import Path

from inventory.errors import StoreUnusable
from inventory.store.shelf import Shelf, open_shelf

FILE_NAME = "bench.shelf"

_LOG = logging.getLogger("inventory")
"""What a person should know beside the result; the command line prints it on stderr."""


def shelf_path(said: str | None) -> str:
    """The shelf named on the command line, else in ``SALVAGE_SHELF``, else the default one."""
    return said or os.environ.get("SALVAGE_SHELF") or str(_default())


def _default() -> Path:
    """The platform's data folder."""
    from platformdirs import user_data_path

    return user_data_path("salvage", appauthor=False) / FILE_NAME


def open_for(said: str | None, *, bench: str | None = None, create: bool = False) -> Shelf:
    """Open the shelf that is meant; ``create`` makes it where there is none."""
    where = shelf_path(said)
    try:
        opened = open_shelf(where, bench=bench, create=create)
    except OSError as error:
        raise StoreUnusable(f"Cannot open {where}: {error.strerror or error}.") from error
    for sentence in opened.warnings:
        _LOG.warning("%s", sentence)
    return opened
