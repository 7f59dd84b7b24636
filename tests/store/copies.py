"""New shelves as copies of one that the migrations made: they run once, not for every test."""

from __future__ import annotations

import functools
import shutil
import tempfile
from collections.abc import Iterator
from pathlib import Path

import pytest

from inventory.store import migrate

_run = migrate._run


@functools.cache
def _empty() -> tempfile.TemporaryDirectory[str]:
    """A folder with an empty shelf file, gone with the process."""
    folder = tempfile.TemporaryDirectory(prefix="empty-shelf-")
    _run(Path(folder.name) / "empty.shelf")
    return folder


def _copied(path: Path) -> None:
    """What ``migrate._run`` does for a file that is not there yet; any other it does itself."""
    if path.exists():
        _run(path)
    else:
        shutil.copyfile(Path(_empty().name) / "empty.shelf", path)


@pytest.fixture(autouse=True, scope="package")
def copied_shelves() -> Iterator[None]:
    """For folders whose subject is not how a shelf comes into being; that is tests/store's."""
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(migrate, "_run", _copied)
        yield
