"""Loading a file whole or not at all, with the habits spreadsheets have."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from inventory.bench import dumps, files, loading, look
from inventory.errors import InventoryError, Refused, WrongInput
from inventory.store import lots, parts
from inventory.store.shelf import Shelf, open_shelf
from tests.store.shelves import place

GOOD = (
    "family,marking,quantity,bin,state\n"
    "switch,16(4)A 250V~,2,A1-01,clicks\n"
    "fuse,T5AL250V,10,B1-01,\n"
)


def _file(folder: Path, text: str | bytes, name: str = "parts.csv") -> Path:
    """A file with that content."""
    path = folder / name
    path.write_bytes(text if isinstance(text, bytes) else text.encode())
    return path


def _lots(shelf: Shelf) -> list[tuple[str, int, str | None]]:
    """Marking, pieces and bin of all lots."""
    with shelf.read() as connection:
        there = lots.where(connection)
        known = parts.many(connection, {lot.part_id for lot in there})
        return [(known[lot.part_id].marking, lot.on_hand, lot.bin) for lot in there]


def test_rows_become_lots_in_their_order(shelf: Shelf, tmp_path: Path) -> None:
    """Lot 1 is the first row."""
    done = loading.load(shelf, _file(tmp_path, GOOD))
    assert done.lots == 2
    assert _lots(shelf) == [("16(4)A 250V~", 2, "A1-01"), ("T5AL250V", 10, "B1-01")]


@pytest.mark.parametrize(
    "raw",
    [
        b"\xef\xbb\xbf" + GOOD.encode(),
        GOOD.replace(",", ";").encode(),
        GOOD.replace(",", "\t").encode(),
        b"sep=;\r\n" + GOOD.replace(",", ";").replace("\n", "\r\n").encode(),
        GOOD.encode("utf-16"),
        GOOD.replace("\n", "\r").encode(),
    ],
    ids=["bom", "semicolon", "tab", "sep line", "utf-16", "old mac"],
)
def test_what_a_spreadsheet_writes_is_understood(shelf: Shelf, tmp_path: Path, raw: bytes) -> None:
    """Byte order mark, separators, line ends: the same two lots."""
    assert loading.load(shelf, _file(tmp_path, raw)).lots == 2
    assert _lots(shelf)[1] == ("T5AL250V", 10, "B1-01")


def test_windows_1252_is_read_where_it_is_not_utf_8(shelf: Shelf, tmp_path: Path) -> None:
    """A micro sign from an old spreadsheet arrives as one."""
    text = "family,marking\nhv_capacitor,0.95µF 2100V~\n".encode("cp1252")
    loading.load(shelf, _file(tmp_path, text))
    assert _lots(shelf)[0][0] == "0.95µF 2100V~"


def test_a_quoted_line_break_stays_inside_its_cell(shelf: Shelf, tmp_path: Path) -> None:
    """A note of two lines is one cell."""
    loading.load(shelf, _file(tmp_path, 'marking,note,family\nT5AL250V,"one\ntwo",fuse\n'))
    assert look.lot_page(shelf, 1).lot.note == "one\ntwo"


def test_one_bad_row_keeps_the_whole_file_out(shelf: Shelf, tmp_path: Path) -> None:
    """All or nothing; every bad row is named with line, column and what was expected."""
    text = GOOD + "switch,10A 250V~,two,A1,clicks\nswich,5A,1,A1,\nfuse,T1A,1,A1,welded\n"
    with pytest.raises(files.LoadRefused) as caught:
        loading.load(shelf, _file(tmp_path, text))
    assert [(t.line, t.column) for t in caught.value.troubles] == [
        (4, "quantity"),
        (5, "family"),
        (6, "state"),
    ]
    assert "Did you mean switch" in caught.value.troubles[1].expected
    assert _lots(shelf) == []


def test_the_good_rows_can_be_kept(shelf: Shelf, tmp_path: Path) -> None:
    """With ``keep_good`` the rest goes in and the bad row is handed back."""
    done = loading.load(shelf, _file(tmp_path, GOOD + "switch,10A,x,,\n"), keep_good=True)
    assert (done.lots, len(done.bad_rows)) == (2, 1)


def test_a_rating_column_overrides_what_was_read(shelf: Shelf, tmp_path: Path) -> None:
    """What the person agreed wins; lists are written with a slash."""
    text = "family,marking,r.resistive_a,r.volts_ac\nswitch,16(4)A 250V~,15,125/250\n"
    loading.load(shelf, _file(tmp_path, text))
    ratings = look.lot_page(shelf, 1).part.ratings
    assert ratings["resistive_a"] == 15
    assert ratings["volts_ac"] == [125, 250]
    assert ratings["motor_a"] == 4


def test_a_mistyped_column_is_named(shelf: Shelf, tmp_path: Path) -> None:
    """What stands in an unknown column would be lost, so nothing is loaded."""
    with pytest.raises(files.LoadRefused) as caught:
        loading.load(shelf, _file(tmp_path, "marking,quantitty\nT5AL250V,3\n"))
    assert "did you mean 'quantity'" in caught.value.troubles[0].expected


def test_the_same_file_is_not_loaded_twice(shelf: Shelf, tmp_path: Path) -> None:
    """A command repeated after a power cut does not double the stock."""
    path = _file(tmp_path, GOOD)
    loading.load(shelf, path)
    with pytest.raises(Refused, match="loaded already"):
        loading.load(shelf, path)
    assert loading.load(shelf, path, again=True).first_lot == 3


def test_a_json_list_is_loaded_like_a_table(shelf: Shelf, tmp_path: Path) -> None:
    """The same names; ratings as an object."""
    rows = [{"family": "switch", "marking": "10A 250V~", "ratings": {"contact_form": "SPDT"}}]
    loading.load(shelf, _file(tmp_path, json.dumps(rows), "parts.json"))
    assert look.lot_page(shelf, 1).part.ratings["contact_form"] == "SPDT"


@pytest.mark.parametrize(
    ("name", "raw"),
    [
        ("a.csv", b""),
        ("a.csv", b"PK\x03\x04rest"),
        ("a.json", b"[" * 100_000),
        ("a.json", b'{"a": NaN}'),
        ("a.json", b'"text"'),
        ("a.csv", b"family,family\nswitch,x\n"),
        ("a.csv", b",".join([b"c"] * 2000) + b"\n"),
        ("a.csv", b"marking\n" + b"x" * 200_000 + b"\n"),
        ("a.csv", b"marking\nA\x00B\n"),
        ("a.csv", b"marking,quantity\nT1A,99999999999999999999\n"),
    ],
)
def test_a_file_that_makes_no_sense_is_refused(
    shelf: Shelf, tmp_path: Path, name: str, raw: bytes
) -> None:
    """One sentence, nothing written, no crash."""
    with pytest.raises(InventoryError):
        loading.load(shelf, _file(tmp_path, raw, name))
    assert _lots(shelf) == []


def test_a_dump_fills_an_empty_shelf_as_it_was(shelf: Shelf, tmp_path: Path) -> None:
    """Out and in again: the same rows, the chain intact."""
    loading.load(shelf, _file(tmp_path, GOOD))
    path = tmp_path / "whole.json"
    dumps.dump_json(shelf, path)
    other = open_shelf(place(tmp_path / "other.shelf"), create=True)
    dumps.load_dump(other, path)
    assert _lots(other) == _lots(shelf)
    second = tmp_path / "again.json"
    dumps.dump_json(other, second)
    assert json.loads(second.read_text()) == json.loads(path.read_text())
    other.close()


def test_a_dump_with_a_changed_journal_is_refused(shelf: Shelf, tmp_path: Path) -> None:
    """The hash chain tells; nothing is loaded."""
    loading.load(shelf, _file(tmp_path, GOOD))
    path = tmp_path / "whole.json"
    dumps.dump_json(shelf, path)
    path.write_text(path.read_text().replace('"quantity": 10', '"quantity": 11'))
    other = open_shelf(place(tmp_path / "other.shelf"), create=True)
    with pytest.raises(WrongInput, match="journal"):
        dumps.load_dump(other, path)
    assert _lots(other) == []
    other.close()


def test_a_csv_dump_is_safe_in_a_spreadsheet_and_loads_again(shelf: Shelf, tmp_path: Path) -> None:
    """A marking that looks like a formula is quoted on the way out and whole on the way in.

    Source: OWASP ASVS 5.0, requirement 1.2.10.
    """
    rows = [{"marking": "=SUM(A1)", "family": "other"}, {"marking": "-5A", "family": "other"}]
    loading.load(shelf, _file(tmp_path, json.dumps(rows), "parts.json"))
    path = tmp_path / "out.csv"
    dumps.dump_csv(shelf, path)
    assert "'=SUM(A1)" in path.read_text()
    other = open_shelf(place(tmp_path / "other.shelf"), create=True)
    loading.load(other, path)
    assert [marking for marking, _, _ in _lots(other)] == ["=SUM(A1)", "-5A"]
    other.close()
