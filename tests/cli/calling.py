"""Calling the command in this process, as a pipe would."""

from __future__ import annotations

import io
import json
import os
import shutil
from contextlib import redirect_stderr, redirect_stdout
from dataclasses import dataclass
from pathlib import Path
from typing import Any
from unittest.mock import patch

import pytest

from inventory.bench.demo import make_demo
from inventory.cli.start import run


@dataclass(frozen=True)
class Said:
    """What a call printed and how it ended."""

    code: int
    out: str
    err: str


def call(*words: str) -> Said:
    """Run ``salvage`` with these words; what it sets in the environment ends with it."""
    out, err = io.StringIO(), io.StringIO()
    with patch.dict(os.environ), redirect_stdout(out), redirect_stderr(err):
        code = run(list(words))
    return Said(code, out.getvalue(), err.getvalue())


@pytest.fixture(scope="session")
def demo_file(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The demo shelf, made once; tests that write copy it."""
    path = tmp_path_factory.mktemp("demo") / "demo.shelf"
    make_demo(path)
    return path


@pytest.fixture
def new_shelf(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """The place of a shelf that is not there yet, named for all commands; 200 columns."""
    path = tmp_path / "shop.shelf"
    monkeypatch.setenv("SALVAGE_SHELF", str(path))
    monkeypatch.setenv("COLUMNS", "200")
    return path


@pytest.fixture
def own_demo(new_shelf: Path, demo_file: Path) -> Path:
    """A copy of the demo shelf to write on, named for all commands."""
    shutil.copy(demo_file, new_shelf)
    return new_shelf


def told(*words: str) -> Any:
    """The JSON a call prints; it must have gone well."""
    said = call(*words, "--json")
    assert said.code == 0, said.err
    return json.loads(said.out)


def on_hand(lot: int) -> tuple[int, int, str, str | None]:
    """Pieces on hand, pieces held, tested state and bin of a lot, as the shelf has them."""
    row = told("show", str(lot))
    return row["on_hand"], row["held"], row["state"], row["bin"]


def events() -> list[tuple[str, int | None]]:
    """The whole journal as kinds of events and their lots, oldest first."""
    listed = told("history", "--limit", "1000")
    return [(row["kind"], row["lot_id"]) for row in sorted(listed, key=lambda row: row["seq"])]
