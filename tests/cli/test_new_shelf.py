"""How a shelf comes into being: with the first thing written on it, never by a mistake."""

from __future__ import annotations

from pathlib import Path

import pytest

from inventory.store.shelf import open_shelf
from tests.cli.calling import call

FILLING = [
    ["log", "T5AL250V", "--family", "fuse"],
    ["strip", "U1", "--kind", "oven", "--piece", "fuse|T5AL250V"],
    ["load", "parts.csv"],
    ["load", "dump.json"],
    ["job", "open", "--kind", "oven"],
    ["xref", "add", "EX-1", "supersedes", "EX-0", "--source", "list"],
    ["xref", "load", "edges.csv"],
    ["figure", "lead_time_months", "0.5"],
]
"""Every command that may be the first on a shelf."""

WRONG = [
    ["log"],
    ["log", "T5A", "--quantity", "0"],
    ["log", "T5A", "--from", "U999"],
    ["log", "T5A", "--family", "fuse", "--state", "welded"],
    ["log", "T5A", "--rating", "resistive_a"],
    ["strip"],
    ["strip", "U1", "--piece", "fuse|T5A|A1|good|many"],
    ["strip", "U1", "--piece", "fuse|T5A|A1|welded"],
    ["strip", "U1", "--pieces", "bad.csv"],
    ["load", "bad.csv"],
    ["load", "bad.csv", "--keep-good"],
    ["load", "empty.csv"],
    ["load", "bad.json"],
    ["load", "no-such-file.csv"],
    ["job", "open"],
    ["job", "open", "--kind", "oven", "--plate", "current_a"],
    ["xref", "add", "A", "replaces", "B", "--source", "me"],
    ["xref", "load", "parts.csv"],
    ["figure", "service_level", "7"],
    ["figure", "service_levl", "0.9"],
]
"""Wrong input to each of them, some of it seen only while it is being written."""


@pytest.fixture
def folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A folder to stand in, with files to load, and a place for a shelf below it."""
    files = tmp_path / "files"
    files.mkdir()
    (files / "parts.csv").write_text("family,type\nother,EX-7\n")
    (files / "bad.csv").write_text("family,type,quantity\nother,EX-7,none\n")
    (files / "empty.csv").write_text("family,type\n")
    (files / "edges.csv").write_text("from,to,kind,source\nEX-1,EX-0,supersedes,list\n")
    (files / "bad.json").write_text('{"salvage_dump": 0, "tables": {}}')
    made = files / "made.shelf"
    open_shelf(str(made), create=True).close()
    call("--shelf", str(made), "dump", str(files / "dump.json"))
    made.unlink()
    (tmp_path / "shelves").mkdir()
    monkeypatch.chdir(files)
    monkeypatch.setenv("COLUMNS", "400")
    return tmp_path


@pytest.mark.parametrize("words", FILLING, ids=" ".join)
def test_a_shelf_that_is_made_is_told_of(folder: Path, words: list[str]) -> None:
    """One line on stderr the first time; the second time it is simply there."""
    shelf = folder / "shelves" / "shop.shelf"
    first = call("--shelf", str(shelf), *words)
    later = call("--shelf", str(shelf), "log", "EX-2", "--family", "other")

    assert first.code == 0, first.err
    assert first.err.splitlines().count(f"Note: A new shelf was made at {shelf}.") == 1
    assert later.code == 0
    assert "new shelf" not in later.err + first.out
    assert [one.name for one in shelf.parent.iterdir()] == ["shop.shelf"]
    assert call("--shelf", str(shelf), "check").out == "The shelf is whole.\n"


@pytest.mark.parametrize("words", FILLING, ids=" ".join)
def test_a_dry_run_makes_no_shelf(folder: Path, words: list[str]) -> None:
    """It says what would be, and nothing is there afterwards."""
    shelf = folder / "shelves" / "shop.shelf"
    said = call("--shelf", str(shelf), *words, "--dry-run")

    assert said.code == 0, said.err
    assert "Would" in said.out
    assert "new shelf" not in said.err
    assert list(shelf.parent.iterdir()) == []


@pytest.mark.parametrize("words", WRONG, ids=" ".join)
def test_wrong_input_makes_no_shelf(folder: Path, words: list[str]) -> None:
    """Neither the shelf nor a draft of it is left, and no file beside what was to be loaded."""
    shelf = folder / "shelves" / "shop.shelf"
    files = sorted((folder / "files").iterdir())
    said = call("--shelf", str(shelf), *words)

    assert said.code == 2, said.err
    assert "new shelf" not in said.err
    assert list(shelf.parent.iterdir()) == []
    assert sorted((folder / "files").iterdir()) == files


@pytest.mark.parametrize("words", FILLING, ids=" ".join)
def test_a_folder_that_is_not_there_is_not_made(folder: Path, words: list[str]) -> None:
    """A mistyped name, or a stick that was pulled out: a second shelf would split the stock."""
    shelf = folder / "stick" / "shop.shelf"
    said = call("--shelf", str(shelf), *words)

    assert (said.code, said.out) == (3, "")
    assert said.err == (
        f"There is no folder {shelf.parent}, so no shelf was made; make the folder, or name"
        " another shelf.\n"
    )
    assert not shelf.parent.exists()


def test_an_empty_file_becomes_a_shelf_only_when_something_is_written(folder: Path) -> None:
    """What a temporary file's maker leaves; wrong input leaves it as it is."""
    shelf = folder / "shelves" / "shop.shelf"
    shelf.touch()

    assert call("--shelf", str(shelf), "low").code == 3
    assert call("--shelf", str(shelf), "log", "T5A", "-n", "0").code == 2
    assert shelf.read_bytes() == b""
    assert call("--shelf", str(shelf), "log", "T5A").code == 0
    assert call("--shelf", str(shelf), "show", "1").code == 0


@pytest.fixture
def home(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """Where the platform keeps data, with no shelf named anywhere."""
    monkeypatch.delenv("SALVAGE_SHELF", raising=False)
    data = tmp_path / "home" / "data"
    monkeypatch.setattr("platformdirs.user_data_path", lambda *_, **__: data / "salvage")
    return data


def test_the_folder_of_the_default_shelf_is_made(home: Path) -> None:
    """Whoever names no shelf need not know where it lies; it is said once."""
    said = call("log", "EX-1", "--family", "other")

    assert said.code == 0, said.err
    assert "A new shelf was made at" in said.err
    assert (home / "salvage" / "bench.shelf").is_file()
    assert call("show", "1").code == 0


def test_wrong_input_leaves_no_folder_for_the_default_shelf(home: Path) -> None:
    """Not even the folders above it."""
    said = call("log", "EX-1", "--quantity", "0")

    assert said.code == 2
    assert not home.parent.exists()
