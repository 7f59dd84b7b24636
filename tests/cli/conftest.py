"""What all tests of this folder start from."""

from __future__ import annotations

from collections.abc import Iterator

import pytest

from tests.store.copies import copied_shelves


@pytest.fixture(autouse=True, scope="package")
def _shelves_are_copies() -> Iterator[None]:
    """Shelves are made by copying."""
    with copied_shelves():
        yield
