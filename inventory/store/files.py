"""Files in and out: which encoding, which separator, row by row, and safe for a spreadsheet.

Encoding is decided by one rule (byte order mark, else strict UTF-8, else Windows-1252) because
guessing by statistics gets short Western files wrong. The separator is the one most often met
in the header line.
"""

from __future__ import annotations

import codecs
import csv
import hashlib
import json
import os
import re
from collections.abc import Iterable, Iterator, Sequence
from contextlib import suppress
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from inventory.errors import StoreUnusable, WrongInput

MOST_BYTES = 1_000_000_000
MOST_COLUMNS = 1_000
MOST_SIGNS = 64_000
"""Limits of one file, one header and one cell."""

_MARKS = (
    (codecs.BOM_UTF8, "utf-8-sig"),
    (codecs.BOM_UTF16_LE, "utf-16"),
    (codecs.BOM_UTF16_BE, "utf-16"),
)
_SEPARATORS = ",;\t|"
_FORMULA = "=+@\t\r\0＝＋－＠-"
_CELL_BEGINS = r"(?:^|(?<=[;\t|\r\n]))\"*"
"""Where a cell begins, also for a spreadsheet that splits on another sign than the file does, and
so takes its quotes for text: after a semicolon, a tab, a bar or a line's end."""

_TO_QUOTE = re.compile(rf"({_CELL_BEGINS}'*)(?=[{_FORMULA}])")
_QUOTED = re.compile(rf"({_CELL_BEGINS}'*)'(?=[{_FORMULA}])")


@dataclass(frozen=True, slots=True)
class Row:
    """One row of a table with the line it starts on."""

    line: int
    cells: dict[str, str]


@dataclass(frozen=True, slots=True)
class Trouble:
    """What is wrong with one row: where, and what was expected."""

    line: int
    column: str
    expected: str

    def __str__(self) -> str:
        return f"line {self.line}, column {self.column}: {self.expected}"


def _checked(path: Path) -> None:
    """A plain file of a size we read, that is text."""
    try:
        if not path.is_file():
            raise WrongInput(f"There is no file {path}.")
        if path.stat().st_size > MOST_BYTES:
            raise WrongInput(f"{path} is larger than {MOST_BYTES:,} bytes; split it.")
        with path.open("rb") as file:
            head = file.read(4)
    except OSError as error:
        raise WrongInput(f"Cannot read {path}: {error.strerror}.") from error
    except ValueError as error:
        raise WrongInput("That is not a file name.") from error
    if head.startswith((b"PK\x03\x04", b"\x1f\x8b", b"\xd0\xcf\x11\xe0")):
        raise WrongInput(f"{path} is an archive or a spreadsheet's own file; save it as CSV.")


def encoding_of(path: Path) -> str:
    """The encoding by the one rule; see the module."""
    with path.open("rb") as file:
        head = file.read(4)
        for mark, name in _MARKS:
            if head.startswith(mark):
                return name
        file.seek(0)
        decoder = codecs.getincrementaldecoder("utf-8")()
        try:
            while chunk := file.read(1 << 20):
                decoder.decode(chunk)
            decoder.decode(b"", final=True)
        except UnicodeDecodeError:
            return "cp1252"
    return "utf-8"


def digest_of(path: Path) -> str:
    """SHA-256 of the bytes, in hex."""
    _checked(path)
    total = hashlib.sha256()
    with path.open("rb") as file:
        while chunk := file.read(1 << 20):
            total.update(chunk)
    return total.hexdigest()


def lines_in(path: Path) -> int:
    """About how many rows a table has: its line ends, those inside cells counted too."""
    _checked(path)
    with path.open("rb") as file:
        return sum(chunk.count(b"\n") for chunk in iter(lambda: file.read(1 << 20), b""))


def first_bytes(path: Path, count: int) -> bytes:
    """How a file begins."""
    _checked(path)
    with path.open("rb") as file:
        return file.read(count)


def rows_of(path: Path, encoding: str | None = None) -> Iterator[Row]:
    """Rows of a CSV file by their header; a row with a fault in its form is an error.

    Cells are as they were before ``write_csv`` made them safe.
    """
    _checked(path)
    try:
        with path.open(encoding=encoding or encoding_of(path), newline="") as file:
            yield from _rows(file, path)
    except UnicodeDecodeError as error:
        raise WrongInput(
            f"{path} is not text in a known encoding (byte {error.start}); say --encoding."
        ) from error
    except LookupError as error:
        raise WrongInput(f"There is no encoding {encoding!r}.") from error


def _rows(file: Any, path: Path) -> Iterator[Row]:
    """Table = ["sep=" sign] header row*."""
    head = file.readline(MOST_SIGNS * 16)
    offset = 0
    if head.lower().startswith("sep=") and len(head.strip()) == 5:
        separator, offset = head.strip()[4], 1
    else:
        separator = max(_SEPARATORS, key=head.count)
        file.seek(0)
    reader = csv.reader(file, delimiter=separator)
    try:
        names = next(reader, None)
        if not names:
            raise WrongInput(f"{path} is empty.")
        columns = _columns(names, path)
        line = reader.line_num + offset
        for cells in reader:
            started, line = line + 1, reader.line_num + offset
            if any(cell.strip() for cell in cells):
                plain = [from_spreadsheet(cell) for cell in cells]
                yield Row(started, _named(columns, plain, started))
    except csv.Error as error:
        raise WrongInput(f"{path}, line {reader.line_num + offset}: {error}.") from error


def _columns(names: list[str], path: Path) -> list[str]:
    """Header names: trimmed, lower case, no doubles."""
    if len(names) > MOST_COLUMNS:
        raise WrongInput(f"{path} has {len(names)} columns; at most {MOST_COLUMNS} are read.")
    columns = [from_spreadsheet(name.strip().strip("\ufeff")).casefold() for name in names]
    while columns and not columns[-1]:
        columns.pop()
    doubled = {name for name in columns if columns.count(name) > 1}
    if doubled:
        raise WrongInput(f"{path}: the column {min(doubled)!r} stands there twice.")
    return columns


def _named(columns: Sequence[str], cells: Sequence[str], line: int) -> dict[str, str]:
    """Cells by column; cells behind the last column must be empty."""
    if len(cells) > len(columns) and any(cell.strip() for cell in cells[len(columns) :]):
        return {"\0": f"line {line} has {len(cells)} cells, the header {len(columns)}"}
    return dict(zip(columns, cells, strict=False))


def json_of(path: Path) -> Any:
    """A JSON document, bounded in depth; ``NaN`` and the like are refused."""
    _checked(path)
    try:
        with path.open(encoding="utf-8-sig") as file:
            return json.load(file, parse_constant=_no_constant)
    except RecursionError as error:
        raise WrongInput(f"{path} is nested too deep.") from error
    except (ValueError, UnicodeDecodeError) as error:
        raise WrongInput(f"{path} is not JSON: {error}.") from error


def _no_constant(name: str) -> Any:
    """JSON has no ``NaN`` and no ``Infinity``."""
    message = f"{name} is not a JSON number"
    raise ValueError(message)


def spreadsheet_safe(value: object) -> str:
    """A cell that a spreadsheet shows and never runs: a formula sign gets a quote before it.

    So does one inside the cell where another separator would begin a cell with it. Numbers stay
    numbers. Source: OWASP ASVS 5.0, requirement 1.2.10.

    >>> spreadsheet_safe("=1+1"), spreadsheet_safe("x;=1+1"), spreadsheet_safe(-3)
    ("'=1+1", "x;'=1+1", '-3')
    """
    if value is None:
        return ""
    if isinstance(value, int | float) and not isinstance(value, bool):
        return str(value)
    return _TO_QUOTE.sub(r"\1'", str(value))


def from_spreadsheet(text: str) -> str:
    """The cell as it was before ``spreadsheet_safe``.

    >>> from_spreadsheet("'=1+1"), from_spreadsheet("x;'=1+1"), from_spreadsheet("'n' type")
    ('=1+1', 'x;=1+1', "'n' type")
    """
    return _QUOTED.sub(r"\1", text) if "'" in text else text


def write_csv(path: Path, columns: Sequence[str], rows: Iterable[Sequence[object]]) -> int:
    """Write a table beside its place and move it there when it is whole; returns the rows."""
    count = 0
    with whole_file(path) as draft, draft.open("w", encoding="utf-8", newline="") as file:
        writer = csv.writer(file)
        writer.writerow([spreadsheet_safe(name) for name in columns])
        for row in rows:
            writer.writerow([spreadsheet_safe(cell) for cell in row])
            count += 1
    return count


def write_text(path: Path, lines: Iterable[str]) -> None:
    """Write lines beside their place and move them there when they are whole."""
    with whole_file(path) as draft, draft.open("w", encoding="utf-8") as file:
        file.writelines(line + "\n" for line in lines)


def folder_is_there(path: Path) -> None:
    """Raises ``WrongInput`` where a file has no folder to go to."""
    try:
        there = path.parent.is_dir()
    except (OSError, ValueError) as error:
        raise WrongInput(f"{path.parent} cannot be the name of a folder.") from error
    if not there:
        raise WrongInput(f"There is no folder {path.parent}.")


class whole_file:  # noqa: N801 - reads as a verb: with whole_file(path) as draft
    """A draft beside a path that takes its place only when everything went well."""

    def __init__(self, path: Path) -> None:
        self.path = path
        self.draft = path.with_name(f".{path.name}.{os.getpid()}.part")

    def __enter__(self) -> Path:
        folder_is_there(self.path)
        return self.draft

    def __exit__(self, kind: type[BaseException] | None, error: object, _trace: object) -> None:
        if kind is None:
            self.draft.replace(self.path)
            return
        with suppress(OSError):
            self.draft.unlink(missing_ok=True)
        if isinstance(error, OSError):
            raise StoreUnusable(f"Cannot write {self.path}: {error.strerror}.") from error
