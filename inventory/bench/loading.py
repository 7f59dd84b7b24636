"""Loading a parts file, all or nothing.

The file is read whole before the shelf is locked: reading thousands of markings takes longer
than another bench should have to wait, and a file with bad rows need not disturb it at all.
"""

from __future__ import annotations

import pickle
import tempfile
from collections.abc import Callable, Iterator, Mapping, Sequence
from contextlib import contextmanager
from dataclasses import dataclass, fields
from operator import attrgetter
from pathlib import Path

from inventory.bench.files import BadCell, LoadRefused, piece_of, rows_in
from inventory.bench.log import Piece, checked, understood, write_lots
from inventory.errors import InventoryError, Refused, StoreUnusable, WrongInput
from inventory.records import Part, SourceUnit
from inventory.store import loaded, parts, units
from inventory.store.files import Row, Trouble, digest_of
from inventory.store.journal import Event, append
from inventory.store.shelf import Shelf
from inventory.store.sql import Connection

CHUNK = 2_000
"""Rows written at a time, all in one transaction."""

REMEMBERED = 20_000
"""Part types kept in mind while a file is read: its next row is often one of them."""

KEPT_IN_MEMORY = 32_000_000
"""Bytes of read rows; more of them wait in a temporary file."""

_PLAIN = attrgetter(*(each.name for each in fields(Piece)))
"""A piece as its values in order: three times as quick to keep as the piece itself."""

Progress = Callable[[int], None]
Chunk = list[tuple[Piece, Part]]


@dataclass(frozen=True, slots=True)
class Load:
    """What came of loading a file."""

    lots: int
    new_units: tuple[str, ...]
    troubles: tuple[Trouble, ...]
    warnings: int
    first_lot: int | None = None
    bad_rows: tuple[Mapping[str, str], ...] = ()


def load(
    shelf: Shelf,
    path: Path,
    *,
    keep_good: bool = False,
    encoding: str | None = None,
    again: bool = False,
    dry_run: bool = False,
    progress: Progress = lambda _rows: None,
) -> Load:
    """Load a parts file in one transaction; with ``keep_good`` without its bad rows.

    Raises ``LoadRefused`` with every bad row where there is one and ``keep_good`` is not said.
    """
    digest = digest_of(path)
    with shelf.read() as connection:
        _only_once(connection, path, digest, again=again)
    with _spool() as waiting:
        rows = _Reading(waiting)
        rows.take_all(rows_in(path, encoding), progress)
        if rows.troubles and not (keep_good and rows.good):
            raise LoadRefused(path, rows.troubles)
        if not rows.good:
            raise WrongInput(f"{path} holds no rows.")
        with shelf.write(dry_run=dry_run) as connection:
            # another bench may have loaded it meanwhile
            _only_once(connection, path, digest, again=again)
            done = _Writing(connection, shelf.bench)
            for chunk in waiting.chunks():
                done.write(chunk)
                progress((rows.seen + done.written) // 2)
            loaded.remember(connection, digest, path.name, done.written)
            told = {"file": path.name, "digest": digest, "lots": done.written}
            append(connection, [Event("loaded", detail=told)], bench=shelf.bench)
    return Load(
        lots=done.written,
        new_units=tuple(done.new_units),
        troubles=tuple(rows.troubles),
        warnings=rows.warnings,
        first_lot=done.first_lot,
        bad_rows=tuple(rows.bad_rows),
    )


def _only_once(connection: Connection, path: Path, digest: str, *, again: bool) -> None:
    """Refuse a file whose very bytes were loaded before, unless that is meant."""
    before = None if again else loaded.when(connection, digest)
    if before:
        raise Refused(f"{path} was loaded already on {before[:10]}; say --again to repeat.")


class _Spool:
    """Read rows that wait to be written, a chunk at a time; memory stays flat."""

    def __init__(self, file: tempfile.SpooledTemporaryFile[bytes]) -> None:
        self._file = file

    def keep(self, chunk: Chunk) -> None:
        """Put a chunk behind the others."""
        plain = [(_PLAIN(piece), part) for piece, part in chunk]
        pickle.dump(plain, self._file, protocol=pickle.HIGHEST_PROTOCOL)

    def chunks(self) -> Iterator[Chunk]:
        """All chunks in their order."""
        end = self._file.tell()
        self._file.seek(0)
        while self._file.tell() < end:
            # nobody else can have written to it: the file has no name
            plain = pickle.load(self._file)  # noqa: S301
            yield [(Piece(*values), part) for values, part in plain]


@contextmanager
def _spool() -> Iterator[_Spool]:
    """A spool, and one sentence where the temporary folder has no room for it."""
    try:
        with tempfile.SpooledTemporaryFile(max_size=KEPT_IN_MEMORY) as file:
            yield _Spool(file)
    except OSError as error:
        raise StoreUnusable(
            f"The rows could not be kept in the temporary folder {tempfile.gettempdir()}"
            f" ({error.strerror or error}); nothing was loaded."
        ) from error


class _Reading:
    """Rows of a file as pieces and part types; the shelf is not needed for it."""

    def __init__(self, waiting: _Spool) -> None:
        self.seen = 0
        self.good = 0
        self.warnings = 0
        self.troubles: list[Trouble] = []
        self.bad_rows: list[Mapping[str, str]] = []
        self._waiting = waiting
        self._ready: Chunk = []
        self._understood: dict[tuple[str | None, ...], tuple[Part, bool]] = {}

    def take_all(self, rows: Iterator[Row], progress: Progress) -> None:
        """Read every row; reading is counted as the first half of the way."""
        for row in rows:
            self._take(row)
            if len(self._ready) >= CHUNK:
                self._pass_on()
            if self.seen % CHUNK == 0:
                progress(self.seen // 2)
        self._pass_on()

    def _take(self, row: Row) -> None:
        """Read one row; a bad one is kept apart."""
        self.seen += 1
        try:
            piece = piece_of(row.cells)
            part, doubtful = self._part(piece)
            self._ready.append((checked(piece, part), part))
            self.good += 1
            self.warnings += doubtful
        except BadCell as bad:
            self._bad(row, bad.column, bad.expected)
        except InventoryError as error:
            self._bad(row, _column_of(str(error)), str(error))

    def _part(self, piece: Piece) -> tuple[Part, bool]:
        """The part type of a piece, and whether it was read with a warning; read once."""
        agreed = repr(sorted(piece.ratings.items(), key=str)) if piece.ratings else ""
        key = (piece.family, piece.maker, piece.type_code, piece.marking, piece.description,
               *piece.aliases, agreed)  # fmt: skip
        known = self._understood.get(key)
        if known is None:
            if len(self._understood) >= REMEMBERED:
                self._understood.clear()
            part, reading = understood(piece)
            known = self._understood[key] = (part, bool(reading and reading.warnings))
        return known

    def _bad(self, row: Row, column: str, expected: str) -> None:
        """Keep a bad row apart."""
        self.troubles.append(Trouble(row.line, column, expected))
        self.bad_rows.append(row.cells)

    def _pass_on(self) -> None:
        """Let the rows that are read wait for their turn."""
        if self._ready:
            self._waiting.keep(self._ready)
            self._ready = []


class _Writing:
    """Read rows on their way into the shelf."""

    def __init__(self, connection: Connection, bench: str) -> None:
        self.connection = connection
        self.bench = bench
        self.written = 0
        self.first_lot: int | None = None
        self.new_units: dict[str, None] = {}

    def write(self, chunk: Chunk) -> None:
        """Write the lots of a chunk, with the part types and source units they need."""
        pieces = [piece for piece, _ in chunk]
        self._make_units(pieces)
        given = parts.known_or_added(self.connection, [part for _, part in chunk])
        made = write_lots(self.connection, pieces, given, self.bench)
        self.first_lot = self.first_lot or made[0].id
        self.written += len(made)

    def _make_units(self, pieces: Sequence[Piece]) -> None:
        """Source units the file names and the shelf does not know yet."""
        for label in dict.fromkeys(piece.source_unit for piece in pieces):
            if label and not units.where(self.connection, "label = :label", label=label):
                if label.isascii() and label.isdigit():
                    continue
                number = units.add(self.connection, SourceUnit(0, label, "unknown"))
                seen = Event("unit-logged", source_unit_id=number, detail={"label": label})
                append(self.connection, [seen], bench=self.bench)
                self.new_units[label] = None


def _column_of(sentence: str) -> str:
    """The column a sentence speaks of."""
    low = sentence.casefold()
    return next(
        (name for name in ("family", "state", "origin", "quantity") if name in low), "marking"
    )
