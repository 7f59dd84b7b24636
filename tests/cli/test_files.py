"""``salvage load / dump``: files in and out, their mistakes listed by line and column."""

from __future__ import annotations

import csv
import json
from pathlib import Path

import pytest

from inventory.cli import files
from inventory.errors import StoreUnusable
from tests.cli.calling import call, new_shelf, on_hand, told

__all__ = ["new_shelf"]


@pytest.fixture
def folder(new_shelf: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """The folder of the shelf, to stand in."""
    monkeypatch.chdir(new_shelf.parent)
    return new_shelf.parent


def _file(folder: Path, *lines: str, name: str = "parts.csv") -> str:
    """A file of these lines; its name."""
    (folder / name).write_text("\n".join([*lines, ""]), encoding="utf-8")
    return name


GOOD = ["family,type,quantity,bin,source_unit", "other,EX-7,3,A1,", "other,EX-8,1,A2,U9"]
MIXED = ["family,type,quantity", "other,EX-7,3", "other,EX-8,none", "othr,EX-9,1"]


def test_a_file_is_loaded_and_its_new_units_are_told(folder: Path) -> None:
    """The result on stdout, what else there is to know on stderr."""
    said = call("load", _file(folder, *GOOD))

    assert (said.code, said.out) == (0, "Loaded 2 lots from parts.csv.\n")
    assert "New source units: U9.\n" in said.err
    assert on_hand(1) == (3, 0, "untested", "A1")
    assert told("show", "2")["unit"] == "U9"


def test_json_tells_where_the_lots_begin(folder: Path) -> None:
    """For a program that goes on with them."""
    call("log", "EX-1", "--family", "other")
    row = told("load", _file(folder, *GOOD))

    assert row == {
        "lots": 2, "first_lot": 2, "bad_rows": 0, "bad_file": None, "with_warnings": 0,
        "new_units": ["U9"],
    }  # fmt: skip


def test_a_bad_row_keeps_the_whole_file_out(folder: Path) -> None:
    """Line, column and what was expected of each; then one sentence."""
    call("log", "EX-1", "--family", "other")
    said = call("load", _file(folder, *MIXED))

    assert (said.code, said.out) == (2, "")
    first, second, last = said.err.splitlines()
    assert "3" in first
    assert "quantity" in first
    assert "a whole number was expected, not 'none'" in first
    assert "4" in second
    assert "family" in second
    assert last == "parts.csv: 2 rows are not understood; nothing was loaded."
    assert call("show", "2").code == 1


def test_of_many_bad_rows_the_first_are_listed_and_the_rest_counted(folder: Path) -> None:
    """A wrong file must not scroll its reason away."""
    rows = [f"other,EX-{n},none" for n in range(files.SHOWN + 5)]
    said = call("load", _file(folder, "family,type,quantity", *rows))

    assert said.code == 2
    assert len(said.err.splitlines()) == files.SHOWN + 2
    assert "... and 5 more\n" in said.err


def test_the_good_rows_go_in_and_the_bad_into_a_file_that_loads_once_mended(folder: Path) -> None:
    """The file keeps the cells as they were and says what was expected."""
    said = call("load", _file(folder, *MIXED), "--keep-good")
    assert (said.code, said.out) == (0, "Loaded 1 lot from parts.csv.\n")
    assert "Written to parts.bad.csv: 2 bad rows." in said.err

    with (folder / "parts.bad.csv").open(newline="") as file:
        heads, *rows = list(csv.reader(file))
    assert heads == ["family", "type", "quantity", "expected"]
    assert [row[:3] for row in rows] == [["other", "EX-8", "none"], ["othr", "EX-9", "1"]]
    mended = (folder / "parts.bad.csv").read_text().replace("EX-8,none", "EX-8,2")
    (folder / "parts.bad.csv").write_text(mended.replace("othr,", "other,"))
    assert call("load", "parts.bad.csv").out == "Loaded 2 lots from parts.bad.csv.\n"
    assert on_hand(2)[0] == 2


def test_bad_rows_that_cannot_be_written_are_listed(
    folder: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """The good rows are on the shelf by then: it is told as loaded."""

    def fail(path: Path, *_: object) -> int:
        raise StoreUnusable(f"Cannot write {path}: No space left on device.")

    monkeypatch.setattr("inventory.store.files.write_csv", fail)
    said = call("load", _file(folder, *MIXED), "--keep-good")

    assert (said.code, said.out) == (0, "Loaded 1 lot from parts.csv.\n")
    assert "not 'none'" in said.err
    assert "Note: Cannot write parts.bad.csv: No space left on device." in said.err
    assert on_hand(1)[0] == 3


def test_a_dry_run_tells_where_bad_rows_would_go(folder: Path) -> None:
    """And writes neither shelf nor file."""
    said = call("load", _file(folder, *MIXED), "--keep-good", "--dry-run")

    assert (said.code, said.out) == (0, "Would load 1 lot from parts.csv.\n")
    assert said.err == "Would write to parts.bad.csv: 2 bad rows.\n"
    assert [one.name for one in folder.iterdir()] == ["parts.csv"]


def test_the_same_file_goes_in_twice_only_when_that_is_said(folder: Path) -> None:
    """Exit code 1 names the day it was loaded."""
    call("load", _file(folder, *GOOD))
    said = call("load", "parts.csv")

    assert said.code == 1
    assert "say --again to repeat" in said.err
    assert call("load", "parts.csv", "--again").code == 0
    assert on_hand(3) == (3, 0, "untested", "A1")


def test_markings_with_a_doubt_are_counted(folder: Path) -> None:
    """The lot's page and the reading tell more."""
    said = call("load", _file(folder, "family,marking", "switch,16(4)A 250V~ T85 T105"))
    assert said.code == 0
    assert "Read with a warning: 1 marking; " in said.err


def test_another_alphabet_is_read_when_it_is_named(folder: Path) -> None:
    """Neither UTF-8 nor Windows-1252."""
    (folder / "parts.csv").write_bytes("family,type,note\nother,EX-7,Ж\n".encode("cp1251"))
    assert call("load", "parts.csv", "--encoding", "cp1251").code == 0
    assert told("show", "1")["note"] == "Ж"


def test_a_dump_comes_back_as_it_was(folder: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Everything, journal included, into an empty shelf and no other."""
    call("load", _file(folder, *GOOD))
    call("fit", "1")
    journal = told("history")
    assert call("dump", "all.json").out.startswith("Wrote the whole shelf (")

    full = call("load", "all.json")
    assert full.code == 1
    assert "goes into an empty shelf only" in full.err
    monkeypatch.setenv("SALVAGE_SHELF", "other.shelf")
    assert call("load", "all.json", "--dry-run").out == "Would load the dump all.json.\n"
    assert told("load", "all.json")["lot"] == 2
    assert told("history") == journal
    assert call("check").code == 0


def test_a_table_for_a_spreadsheet_holds_what_is_on_hand(folder: Path) -> None:
    """In the columns of a parts file; what is used up is not in it."""
    call("load", _file(folder, *GOOD))
    call("scrap", "2")
    said = call("dump", "lots.csv")

    assert said.out == "Wrote 1 lot to lots.csv.\n"
    with (folder / "lots.csv").open(newline="") as file:
        (row,) = list(csv.DictReader(file))
    assert (row["type"], row["quantity"], row["bin"]) == ("EX-7", "3", "A1")


@pytest.mark.parametrize("name", ["lots.csv", "all.json"])
def test_a_dry_dump_writes_no_file(folder: Path, name: str) -> None:
    """It counts what it would write."""
    call("load", _file(folder, *GOOD))
    said = call("dump", name, "--dry-run")

    assert said.out.startswith("Would write ")
    assert f"to {name}." in said.out
    assert not (folder / name).exists()


def test_a_list_of_objects_is_a_parts_file_too(folder: Path) -> None:
    """JSON with the names of the columns, ratings below ``ratings``."""
    parts = [{"family": "other", "type": "EX-7", "quantity": 2, "ratings": {"volts_ac": 250}}]
    (folder / "parts.json").write_text(json.dumps(parts))

    assert call("load", "parts.json").out == "Loaded 1 lot from parts.json.\n"
    assert told("show", "1")["ratings"]["volts_ac"] == 250


def test_ctrl_c_while_loading_leaves_nothing(folder: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """All rows were written by then: they are rolled back, and no shelf is there."""

    def stopped(*_: object, **__: object) -> None:
        raise KeyboardInterrupt

    monkeypatch.setattr("inventory.bench.loading.append", stopped)
    said = call("load", _file(folder, *GOOD))

    assert said.code == 130
    assert said.err == "Stopped; nothing was left half done.\n"
    assert [one.name for one in folder.iterdir()] == ["parts.csv"]
