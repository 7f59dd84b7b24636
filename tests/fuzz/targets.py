"""What must hold for any bytes at all: the marking reader and the loaders never break.

Each target takes bytes, as a fuzzer makes them, and raises ``AssertionError`` (or whatever the
code under test raised) where something is wrong. Wrong input may be refused, in one sentence.
"""

from __future__ import annotations

import json
import os
import tempfile
import unicodedata
from collections.abc import Callable
from contextlib import suppress
from pathlib import Path

from inventory.bench import dumps, files
from inventory.cli.show import safe
from inventory.errors import InventoryError
from inventory.markings.grammars import FAMILIES
from inventory.markings.reader import read

MOST = 4_000
"""Bytes a target looks at: enough for any fault of form, few enough to be quick."""

_NAMES = (None, *sorted(FAMILIES))


def marking(data: bytes) -> None:
    """A marking, under the family the first byte picks: read, every sign accounted for."""
    if not data:
        return
    family = _NAMES[data[0] % len(_NAMES)]
    text = data[1:MOST].decode("utf-8", errors="surrogateescape")
    reading = read(text, family)
    seen = [0] * len(text)
    for piece in (*reading.marks, *reading.unread):
        assert text[piece.start : piece.end] == piece.text
        for place in range(piece.start, piece.end):
            seen[place] += 1
    for place, sign in enumerate(text):
        assert seen[place] <= 1, f"{sign!r} at {place} stands in two pieces"
        assert seen[place] or sign.isspace(), f"{sign!r} at {place} was dropped"
    json.dumps({**reading.ratings, **reading.assumed}, default=list)
    for warning in reading.warnings:
        _harmless(warning)


def _harmless(sentence: str) -> None:
    """What is going to be printed acts on no terminal; wide and narrow blanks are only seen."""
    acting = [sign for sign in safe(sentence) if not sign.isprintable()]
    assert {unicodedata.category(sign) for sign in acting} <= {"Zs"}


def csv_file(data: bytes) -> None:
    """A parts file: rows or a sentence, never anything else."""
    _pieces(data, ".csv")


def json_file(data: bytes) -> None:
    """A JSON file: a list of parts, a dump of a shelf, or a sentence."""
    _pieces(data, ".json")
    path = _written(data, ".json")
    with suppress(InventoryError):
        dumps._tables_of(files.json_of(path), path)


def _pieces(data: bytes, ending: str) -> None:
    """Every piece of a file, read."""
    path = _written(data, ending)
    try:
        for row in files.rows_in(path):
            try:
                piece = files.piece_of(row.cells)
            except files._Bad as bad:
                _harmless(f"{bad.column} {bad}")
                continue
            assert piece.quantity >= 1
    except InventoryError as error:
        _harmless(str(error))


def _written(data: bytes, ending: str) -> Path:
    """The bytes as a file, in memory where the machine has such a place."""
    memory = Path("/dev/shm")  # noqa: S108 - a fuzzer writes thousands of files a second
    folder = memory if memory.is_dir() else Path(tempfile.gettempdir())
    path = folder / f"salvage-fuzz-{os.getpid()}{ending}"
    path.write_bytes(data[:MOST])
    return path


TARGETS: dict[str, Callable[[bytes], None]] = {
    "marking": marking,
    "csv": csv_file,
    "json": json_file,
}
"""Targets by the name of their folder of seeds."""
