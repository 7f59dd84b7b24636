"""The tables that ship with this package: CSV files whose first lines say where they come from."""

from __future__ import annotations

import csv
from functools import cache
from pathlib import Path

from inventory.errors import WrongInput

_FOLDER = Path(__file__).resolve().parent / "tables"

Row = dict[str, str]
"""One line of a table: column name to text; an empty text is *not known*."""


def names() -> tuple[str, ...]:
    """All tables, in alphabetical order."""
    return tuple(sorted(path.stem for path in _FOLDER.glob("*.csv")))


def _lines(name: str) -> list[str]:
    """The lines of a table file; an unknown name is a mistake of the caller."""
    path = _FOLDER / f"{name}.csv"
    if not path.is_file():
        raise WrongInput(f"There is no table {name!r}.")
    return path.read_text(encoding="utf-8").splitlines()


@cache
def rows(name: str) -> tuple[Row, ...]:
    """The rows of a table, header and source lines left out.

    >>> rows("hexalobular")[3]["a_mm"]
    '3.35'
    """
    plain = [line for line in _lines(name) if not line.startswith("# ")]
    return tuple(csv.DictReader(plain))


@cache
def source(name: str) -> str:
    """The source lines of a table, as one text."""
    return " ".join(line[2:] for line in _lines(name) if line.startswith("# "))


def number(text: str) -> float | None:
    """A table cell as a number; an empty cell is None."""
    return float(text) if text else None
