"""What must hold for any bytes at all: the marking reader and the loaders never break.

Each target takes bytes, as a fuzzer makes them, and raises ``AssertionError`` (or whatever the
code under test raised) where something is wrong. Wrong input may be refused, in one sentence.
"""

from __future__ import annotations

import atexit
import json
import shutil
import unicodedata
from collections.abc import Callable
from functools import cache
from pathlib import Path

from inventory.bench import dumps, files
from inventory.cli.show import safe
from inventory.errors import InventoryError
from inventory.markings.grammars import FAMILIES
from inventory.markings.reader import read
from inventory.records import Mark, Unread
from inventory.store.shelf import Shelf, open_shelf
from tests.fuzz import making
from tests.trust.places import quick_folder

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
    pieces: tuple[Mark | Unread, ...] = (*reading.marks, *reading.unread)
    for piece in pieces:
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
    """A JSON file: a list of parts, a dump of a shelf, or a sentence.

    By the first byte: the bytes as they are, or a document of the right shape made of them.
    """
    makers = {1: making.parts_list, 2: making.dump}
    if data[:1] and data[0] in makers:
        data = json.dumps(makers[data[0]](data[1:])).encode()
    _pieces(data, ".json")
    path = _written(data, ".json")
    try:
        dumps.load_dump(_empty_shelf(), path, dry_run=True)
    except InventoryError as error:
        _harmless(str(error))


@cache
def _empty_shelf() -> Shelf:
    """A shelf that dumps are tried on; nothing stays on it."""
    return open_shelf(str(_place(".shelf")), create=True)


def _pieces(data: bytes, ending: str) -> None:
    """Every piece of a file, read."""
    path = _written(data, ending)
    try:
        for row in files.rows_in(path):
            try:
                piece = files.piece_of(row.cells)
            except files.BadCell as bad:
                _harmless(f"{bad.column} {bad}")
                continue
            assert piece.quantity >= 1
    except InventoryError as error:
        _harmless(str(error))


def _written(data: bytes, ending: str) -> Path:
    """The bytes as a file."""
    path = _place(ending)
    path.write_bytes(data[:MOST])
    return path


def _place(ending: str) -> Path:
    """A file of this process."""
    return _folder() / f"fuzzed{ending}"


@cache
def _folder() -> Path:
    """A folder that goes with the process."""
    folder = quick_folder()
    atexit.register(shutil.rmtree, folder, ignore_errors=True)
    return folder


TARGETS: dict[str, Callable[[bytes], None]] = {
    "marking": marking,
    "csv": csv_file,
    "json": json_file,
}
"""Targets by the name of their folder of seeds."""
