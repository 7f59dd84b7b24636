"""Cells of a parts file, one by one: what each may hold, and which is named where it is bad."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

import pytest

from inventory.bench.files import COLUMNS, BadCell, LoadRefused, piece_of, pieces_of_file
from inventory.errors import WrongInput


@pytest.mark.parametrize(
    ("cells", "column", "said"),
    [
        ({"marking": " ", "type": ""}, "marking", "both are empty"),
        ({"marking": ["a"]}, "marking", "a text was expected"),
        ({"marking": "a\0b"}, "marking", "NUL"),
        ({"marking": "x", "quantity": "two"}, "quantity", "a whole number was expected"),
        ({"marking": "x", "quantity": "1.5"}, "quantity", "1 or more was expected"),
        ({"marking": "x", "quantity": "0"}, "quantity", "1 or more was expected"),
        ({"marking": "x", "price": "cheap"}, "price", "a price like 4.50"),
        ({"marking": "x", "r.colour": "a\0b"}, "r.colour", "NUL"),
        ({"marking": "x", "r.": "16"}, "ratings", "each by its name"),
        ({"marking": "x", "markng": "y"}, "markng", "did you mean 'marking'"),
        ({"marking": "x", "zzz": "y"}, "zzz", "not a column of a parts file"),
        ({"\0": "line 2 has 9 cells, the header 8"}, "(last)", "9 cells"),
    ],
)
def test_a_bad_cell_is_named(cells: dict[str, Any], column: str, said: str) -> None:
    """With the column and what was expected there."""
    with pytest.raises(BadCell, match=said) as caught:
        piece_of(cells)
    assert caught.value.column == column


def test_an_empty_cell_says_nothing() -> None:
    """One piece, untested, nothing else known."""
    piece = piece_of({**dict.fromkeys(COLUMNS, ""), "type": " AX-1 ", "r.colour": " "})
    assert (piece.type_code, piece.quantity, piece.state) == ("AX-1", 1, "untested")
    assert (piece.family, piece.bin, piece.origin, piece.price_cents, piece.ratings) == (
        None, None, None, None, {}
    )  # fmt: skip


def test_a_filled_row_is_a_whole_piece() -> None:
    """Numbers as people write them, other codes with a bar between, ratings by name."""
    piece = piece_of(
        {"marking": "16A", "quantity": "3", "price": "4,50", "also": "A-1| B-2 |",
         "actuator": "pin", "expected": "nothing", "r.volts_ac": "125/250", "r.tab_mm": 6.3}
    )  # fmt: skip
    assert (piece.quantity, piece.price_cents, piece.aliases) == (3, 450, ("A-1", "B-2"))
    assert piece.ratings == {"volts_ac": [125, 250], "tab_mm": 6.3, "actuator": "pin"}


def _json(folder: Path, document: Any) -> Path:
    """A JSON file with that content."""
    path = folder / "parts.json"
    path.write_text(json.dumps(document), encoding="utf-8")
    return path


def test_a_json_text_stays_as_it_is(tmp_path: Path) -> None:
    """Only a spreadsheet puts quotes before a formula sign; names may be capitals."""
    (piece,) = pieces_of_file(_json(tmp_path, [{"Marking": "'=5A", "QUANTITY": 2}]))
    assert (piece.marking, piece.quantity) == ("'=5A", 2)


@pytest.mark.parametrize("ratings", ["16 A", [16], 16])
def test_ratings_without_names_are_refused(tmp_path: Path, ratings: Any) -> None:
    """They would be stored under no name and found by none; the line is told."""
    path = _json(tmp_path, [{"marking": "a"}, {"marking": "b", "ratings": ratings}])
    with pytest.raises(LoadRefused) as caught:
        pieces_of_file(path)
    assert [str(one) for one in caught.value.troubles] == [
        "line 2, column ratings: ratings were expected, each by its name"
    ]


@pytest.mark.parametrize("document", [{"marking": "a"}, ["a"], "a", 5])
def test_a_json_document_that_is_no_list_of_rows_is_refused(tmp_path: Path, document: Any) -> None:
    """One sentence says what it must hold."""
    with pytest.raises(WrongInput, match="must hold a list of objects"):
        pieces_of_file(_json(tmp_path, document))
