"""Where trust tests put their shelves."""

from __future__ import annotations

import subprocess
import tempfile
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

import pytest

_MEMORY = Path("/dev/shm")  # noqa: S108 - a folder of its own is made in it


def quick_folder() -> Path:
    """A new folder in memory where the machine has such a place: for tests that never crash."""
    parent = str(_MEMORY) if _MEMORY.is_dir() else None
    return Path(tempfile.mkdtemp(prefix="salvage-", dir=parent))


@contextmanager
def mounted(place: Path, options: str) -> Iterator[Path]:
    """A file system in memory with some options; the test is skipped where none may be mounted."""
    place.mkdir()
    tried = subprocess.run(
        ["mount", "-t", "tmpfs", "-o", options, "tmpfs", str(place)],
        capture_output=True,
        text=True,
        check=False,
    )
    if tried.returncode:
        pytest.skip(f"no file system can be mounted here: {tried.stderr.strip()}")
    try:
        yield place
    finally:
        subprocess.run(["umount", "-l", str(place)], check=True)
