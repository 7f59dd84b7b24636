"""Calling the command in this process, as a pipe would."""

from __future__ import annotations

import io
import os
from contextlib import redirect_stderr, redirect_stdout
from dataclasses import dataclass
from pathlib import Path
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
