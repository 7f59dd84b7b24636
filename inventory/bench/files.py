"""Loading parts from a file, all or nothing, and writing the shelf out."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from inventory.bench import words
from inventory.bench.log import Piece, checked, understood, write_lots
from inventory.errors import InventoryError, Refused, WrongInput
from inventory.records import Part, SourceUnit
from inventory.store import loaded, parts, units
from inventory.store.files import Row, Trouble, digest_of, from_spreadsheet, json_of, rows_of
from inventory.store.journal import Event, append
from inventory.store.shelf import Shelf
from inventory.store.sql import Connection
from inventory.units import cents, parse_number

COLUMNS = (
    "family", "maker", "type", "marking", "description", "quantity", "bin", "state", "origin",
    "source_unit", "price", "actuator", "terminals", "contact_form", "note", "history",
    "supplier_no", "also",
)  # fmt: skip
"""Columns of a parts file; any ``r.<rating>`` column may follow."""

CHUNK = 2_000
"""Rows written at a time, all in one transaction."""

REMEMBERED = 20_000
"""Part types kept in mind while a file is read: its next row is often one of them."""


@dataclass(frozen=True, slots=True)
class Load:
    """What came of loading a file."""

    lots: int
    new_units: tuple[str, ...]
    troubles: tuple[Trouble, ...]
    warnings: int
    first_lot: int | None = None
    bad_rows: tuple[Mapping[str, str], ...] = ()


class LoadRefused(WrongInput):
    """A file with bad rows; nothing of it was loaded."""

    def __init__(self, path: Path, troubles: Sequence[Trouble]) -> None:
        count = len(troubles)
        rows = "row is" if count == 1 else "rows are"
        super().__init__(f"{path}: {count} {rows} not understood; nothing was loaded.")
        self.troubles = tuple(troubles)


def rows_in(path: Path, encoding: str | None = None) -> Iterator[Row]:
    """Rows of a parts file, CSV or a JSON list of objects with the same names."""
    if path.suffix.lower() != ".json":
        yield from rows_of(path, encoding)
        return
    listed = json_of(path)
    if not isinstance(listed, list) or not all(isinstance(row, dict) for row in listed):
        raise WrongInput(f"{path} must hold a list of objects, one a lot.")
    for number, row in enumerate(listed, start=1):
        cells = {str(name).casefold(): value for name, value in row.items()}
        ratings = cells.pop("ratings", None) or {}
        if not isinstance(ratings, dict):
            ratings = {"": ratings}
        cells |= {f"r.{name}": value for name, value in ratings.items()}
        yield Row(number, cells)


def pieces_of_file(path: Path, encoding: str | None = None) -> list[Piece]:
    """All pieces of a file; the first bad row is the error."""
    pieces = []
    for row in rows_in(path, encoding):
        try:
            pieces.append(piece_of(row.cells))
        except _Bad as bad:
            raise LoadRefused(path, [Trouble(row.line, bad.column, bad.expected)]) from bad
    return pieces


_UNDERSTOOD = frozenset({*COLUMNS, "expected"})
"""The last is what ``--keep-good`` writes beside a bad row; mended, the file loads as it is."""

_NOTHING_SAID = dict.fromkeys(COLUMNS, "")


class _Bad(Exception):
    """One cell is not what was expected."""

    def __init__(self, column: str, expected: str) -> None:
        super().__init__(expected)
        self.column = column
        self.expected = expected


def piece_of(cells: Mapping[str, Any]) -> Piece:
    """One row as a piece; raises ``_Bad`` with the column that is wrong."""
    if "\0" in cells:
        raise _Bad("(last)", str(cells["\0"]))
    _no_stranger(cells)
    filled = [n for n in COLUMNS if cells.get(n) not in (None, "")]
    said = _NOTHING_SAID | {name: _text(cells, name) for name in filled}
    if not said["marking"].strip() and not said["type"].strip():
        raise _Bad("marking", "a marking or a type was expected, both are empty")
    ratings = {name[2:]: _rating(cells, name) for name in cells if name.startswith("r.")}
    for name in ("actuator", "terminals", "contact_form"):
        if said[name].strip():
            ratings[name] = said[name].strip()
    return Piece(
        marking=said["marking"],
        family=said["family"].strip() or None,
        maker=said["maker"].strip() or None,
        type_code=said["type"].strip() or None,
        description=said["description"].strip() or None,
        quantity=_quantity(said["quantity"]),
        bin=said["bin"].strip() or None,
        state=said["state"].strip() or "untested",
        origin=said["origin"].strip() or None,
        source_unit=said["source_unit"].strip() or None,
        price_cents=_price(said["price"]),
        note=said["note"].strip() or None,
        history=said["history"].strip() or None,
        supplier_no=said["supplier_no"].strip() or None,
        aliases=tuple(code.strip() for code in said["also"].split("|") if code.strip()),
        ratings={name: value for name, value in ratings.items() if value is not None},
    )


def _no_stranger(cells: Mapping[str, Any]) -> None:
    """Only known columns: a mistyped one would lose what stands in it."""
    for name in cells:
        if name and name not in _UNDERSTOOD and not name.startswith("r."):
            from inventory.matching.suggest import close_to

            near = close_to(name, COLUMNS, 1)
            hint = f", did you mean {near[0]!r}?" if near else ""
            raise _Bad(name, f"not a column of a parts file{hint}")


def _text(cells: Mapping[str, Any], name: str) -> str:
    """A cell as text that can be stored."""
    value = cells[name]
    if isinstance(value, dict | list):
        raise _Bad(name, "a text was expected")
    text = from_spreadsheet(str(value))
    try:
        return words.storable(text, name)
    except WrongInput as error:
        raise _Bad(name, str(error)) from error


def _quantity(text: str) -> int:
    """A whole number of pieces; none said is one."""
    if not text.strip():
        return 1
    try:
        number = parse_number(text)
    except WrongInput as error:
        raise _Bad("quantity", f"a whole number was expected, not {text!r}") from error
    if number != number.to_integral_value() or number < 1:
        raise _Bad("quantity", f"a whole number of 1 or more was expected, not {text!r}")
    return int(number)


def _price(text: str) -> int | None:
    """A price in cents."""
    if not text.strip():
        return None
    try:
        return cents(text)
    except WrongInput as error:
        raise _Bad("price", f"a price like 4.50 was expected, not {text!r}") from error


def _rating(cells: Mapping[str, Any], column: str) -> Any:
    """An agreed rating: JSON values stay, text is read as number, list or word."""
    value = cells[column]
    if not isinstance(value, str):
        return value
    text = _text(cells, column).strip()
    if not text:
        return None
    from inventory.bench.values import rating_of

    return rating_of(text)


def load(
    shelf: Shelf,
    path: Path,
    *,
    keep_good: bool = False,
    encoding: str | None = None,
    again: bool = False,
    dry_run: bool = False,
    progress: Callable[[int], None] = lambda _rows: None,
) -> Load:
    """Load a parts file in one transaction; with ``keep_good`` without its bad rows.

    Raises ``LoadRefused`` with every bad row where there is one and ``keep_good`` is not said.
    """
    digest = digest_of(path)
    with shelf.write(dry_run=dry_run) as connection:
        if not again:
            before = loaded.when(connection, digest)
            if before:
                raise Refused(f"{path} was loaded already on {before[:10]}; say --again to repeat.")
        done = _Loading(connection, shelf.bench, encoding)
        for row in rows_in(path, encoding):
            done.take(row)
            if done.seen % CHUNK == 0:
                progress(done.seen)
        done.flush()
        if done.troubles and not (keep_good and done.written):
            raise LoadRefused(path, done.troubles)
        if not done.written:
            raise WrongInput(f"{path} holds no rows.")
        loaded.remember(connection, digest, path.name, done.written)
        told = {"file": path.name, "digest": digest, "lots": done.written}
        append(connection, [Event("loaded", detail=told)], bench=shelf.bench)
    return done.outcome()


class _Loading:
    """Rows on their way into the shelf, a chunk at a time."""

    def __init__(self, connection: Connection, bench: str, encoding: str | None) -> None:
        self.connection = connection
        self.bench = bench
        self.encoding = encoding
        self.seen = 0
        self.written = 0
        self.warnings = 0
        self.first_lot: int | None = None
        self.troubles: list[Trouble] = []
        self.bad_rows: list[Mapping[str, str]] = []
        self.new_units: dict[str, None] = {}
        self._ready: list[tuple[Piece, Part]] = []
        self._understood: dict[tuple[str | None, ...], tuple[Part, bool]] = {}

    def take(self, row: Row) -> None:
        """Read one row; a bad one is kept apart."""
        self.seen += 1
        try:
            piece = piece_of(row.cells)
            part, doubtful = self._part(piece)
            self._ready.append((checked(piece, part), part))
            self.warnings += doubtful
        except _Bad as bad:
            self._bad(row, bad.column, bad.expected)
        except InventoryError as error:
            self._bad(row, _column_of(str(error)), str(error))
        if len(self._ready) >= CHUNK:
            self.flush()

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

    def flush(self) -> None:
        """Write what is ready; after a bad row the rest is only read."""
        ready, self._ready = self._ready, []
        if not ready:
            return
        pieces = [piece for piece, _ in ready]
        self._make_units(pieces)
        given = parts.known_or_added(self.connection, [part for _, part in ready])
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

    def outcome(self) -> Load:
        """What came of it."""
        return Load(
            lots=self.written,
            new_units=tuple(self.new_units),
            troubles=tuple(self.troubles),
            warnings=self.warnings,
            first_lot=self.first_lot,
            bad_rows=tuple(self.bad_rows),
        )


def _column_of(sentence: str) -> str:
    """The column a sentence speaks of."""
    low = sentence.casefold()
    return next(
        (name for name in ("family", "state", "origin", "quantity") if name in low), "marking"
    )
