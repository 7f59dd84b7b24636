"""Fixtures of the trust tests."""

from __future__ import annotations

import shutil
from collections.abc import Iterator
from pathlib import Path

import pytest

from tests.trust.places import quick_folder


@pytest.fixture
def memory() -> Iterator[Path]:
    """A folder in memory where the machine has such a place, gone afterwards."""
    folder = quick_folder()
    yield folder
    shutil.rmtree(folder, ignore_errors=True)
