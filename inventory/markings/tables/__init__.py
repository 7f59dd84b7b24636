"""Makers' tables the grammars look things up in: CSV, each row with its source."""

from __future__ import annotations

import csv
from functools import cache
from pathlib import Path

_FOLDER = Path(__file__).resolve().parent


@cache
def rows(name: str) -> tuple[dict[str, str], ...]:
    """All rows of one table, without the lines that tell where it comes from."""
    lines = (_FOLDER / f"{name}.csv").read_text(encoding="utf-8").splitlines()
    return tuple(csv.DictReader(line for line in lines if not line.startswith("#")))
