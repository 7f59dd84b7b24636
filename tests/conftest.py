"""What many tests start from."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import pytest

from inventory.store.shelf import Shelf, open_shelf


@pytest.fixture
def shelf(tmp_path: Path) -> Iterator[Shelf]:
    """A new, empty shelf in a folder of its own."""
    opened = open_shelf(str(tmp_path / "test.shelf"), bench="test bench", create=True)
    yield opened
    opened.close()
