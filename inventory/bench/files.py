"""The rows of a parts file as pieces, and what to say of a row that is none."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from pathlib import Path
from typing import Any

from inventory.bench import words
from inventory.bench.log import Piece
from inventory.bench.values import cell_of, rating_of
from inventory.errors import WrongInput
from inventory.records import Part
from inventory.store.files import Row, Trouble, json_of, rows_of
from inventory.units import cents, parse_number

COLUMNS = (
    "family", "maker", "type", "marking", "description", "quantity", "bin", "state", "origin",
    "source_unit", "price", "actuator", "terminals", "contact_form", "note", "history",
    "supplier_no", "also",
)  # fmt: skip
"""Columns of a parts file; any ``r.<rating>`` column may follow."""


def rating_columns(known: Iterable[Part]) -> list[str]:
    """A column for each rating that one of some part types has."""
    return sorted({f"r.{name}" for part in known for name in part.ratings})


def rating_cells(part: Part, columns: Iterable[str]) -> list[object]:
    """The ratings of a part type in those columns."""
    return [cell_of(part.ratings.get(column.removeprefix("r."))) for column in columns]


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


def pieces_of_file(
    path: Path, encoding: str | None = None, *, left: Callable[[Row], None] | None = None
) -> list[Piece]:
    """All pieces of a file; the first bad row is the error.

    With ``left``, a row of quantity 0 is no piece: it is told there, as one left in its unit.
    """
    pieces = []
    for row in rows_in(path, encoding):
        if left is not None and str(row.cells.get("quantity", "")).strip() == "0":
            left(row)
            continue
        try:
            pieces.append(piece_of(row.cells))
        except BadCell as bad:
            raise LoadRefused(path, [Trouble(row.line, bad.column, bad.expected)]) from bad
    return pieces


_UNDERSTOOD = frozenset({*COLUMNS, "expected"})
"""The last is what ``--keep-good`` writes beside a bad row; mended, the file loads as it is."""

_NOTHING_SAID = dict.fromkeys(COLUMNS, "")


class BadCell(Exception):
    """One cell is not what was expected."""

    def __init__(self, column: str, expected: str) -> None:
        super().__init__(expected)
        self.column = column
        self.expected = expected


def piece_of(cells: Mapping[str, Any]) -> Piece:
    """One row as a piece; raises ``BadCell`` with the column that is wrong."""
    if "\0" in cells:
        raise BadCell("(last)", str(cells["\0"]))
    _no_stranger(cells)
    filled = [n for n in COLUMNS if cells.get(n) not in (None, "")]
    said = _NOTHING_SAID | {name: _text(cells, name) for name in filled}
    if not said["marking"].strip() and not said["type"].strip():
        raise BadCell("marking", "a marking or a type was expected, both are empty")
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
        if name.strip() == "r.":
            raise BadCell("ratings", "ratings were expected, each by its name")
        if name and name not in _UNDERSTOOD and not name.startswith("r."):
            from inventory.matching.suggest import close_to

            near = close_to(name, COLUMNS, 1)
            hint = f", did you mean {near[0]!r}?" if near else ""
            raise BadCell(name, f"not a column of a parts file{hint}")


def _text(cells: Mapping[str, Any], name: str) -> str:
    """A cell as text that can be stored."""
    value = cells[name]
    if isinstance(value, dict | list):
        raise BadCell(name, "a text was expected")
    try:
        return words.storable(str(value), name)
    except WrongInput as error:
        raise BadCell(name, str(error)) from error


def _quantity(text: str) -> int:
    """A whole number of pieces; none said is one."""
    if not text.strip():
        return 1
    try:
        number = parse_number(text)
    except WrongInput as error:
        raise BadCell("quantity", f"a whole number was expected, not {text!r}") from error
    if number != number.to_integral_value() or number < 1:
        raise BadCell("quantity", f"a whole number of 1 or more was expected, not {text!r}")
    return int(number)


def _price(text: str) -> int | None:
    """A price in cents."""
    if not text.strip():
        return None
    try:
        return cents(text)
    except WrongInput as error:
        raise BadCell("price", f"a price like 4.50 was expected, not {text!r}") from error


def _rating(cells: Mapping[str, Any], column: str) -> Any:
    """An agreed rating: JSON values stay, text is read as number, list or word."""
    value = cells[column]
    if not isinstance(value, str):
        return value
    text = _text(cells, column).strip()
    if not text:
        return None
    return rating_of(text)
