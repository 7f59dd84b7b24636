"""Fixtures of the trust tests."""

from __future__ import annotations

import shutil
from collections.abc import Iterator
from pathlib import Path

import pytest
import typer.main

from inventory.cli.main import app
from tests.trust.places import quick_folder


@pytest.fixture
def memory() -> Iterator[Path]:
    """A folder in memory where the machine has such a place, gone afterwards."""
    folder = quick_folder()
    yield folder
    shutil.rmtree(folder, ignore_errors=True)


@pytest.fixture(scope="session", autouse=True)
def _commands_built_once() -> Iterator[None]:
    """Hundreds of calls in one process need not build the commands hundreds of times."""
    built = typer.main.get_command(app)
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(typer.main, "get_command", lambda _app: built)
        yield
