"""Where trust tests put their shelves."""

from __future__ import annotations

import tempfile
from pathlib import Path

_MEMORY = Path("/dev/shm")  # noqa: S108 - a folder of its own is made in it


def quick_folder() -> Path:
    """A new folder in memory where the machine has such a place: for tests that never crash."""
    parent = str(_MEMORY) if _MEMORY.is_dir() else None
    return Path(tempfile.mkdtemp(prefix="salvage-", dir=parent))
