"""What many tests start from."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import pytest

from inventory.store.shelf import Shelf, open_shelf
from tests.store import shelves


@pytest.fixture
def shelf(tmp_path: Path) -> Iterator[Shelf]:
    """A new, empty shelf in a folder of its own."""
    opened = open_shelf(shelves.place(tmp_path / "test.shelf"), bench="test bench", create=True)
    yield opened
    opened.close()


@pytest.fixture(autouse=True)
def _nothing_left_on_the_server() -> Iterator[None]:
    """Shelves that were made on a server go with their test."""
    yield
    shelves.clear()
