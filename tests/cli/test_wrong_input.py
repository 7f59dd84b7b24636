"""Wrong input of every command: one sentence, the right exit code, nothing written."""

from __future__ import annotations

import hashlib
import json
import shutil
from pathlib import Path

import pytest

from tests.cli.calling import call, demo_file

__all__ = ["demo_file"]

WRONG = [
    (2, ["read"]),
    (2, ["read", "T5A", "--family", "swich"]),
    (2, ["read", "--lines", "no-such-file"]),
    (2, ["find"]),
    (2, ["find", "T5A", "--place", "moniter"]),
    (2, ["find", "T5A", "--family", "fuze"]),
    (2, ["find", "T5A", "--need", "resistive_a"]),
    (2, ["find", "T5A", "--need", "curent_a=5"]),
    (2, ["find", "T5A", "--need", "current_a=five"]),
    (2, ["find", "--need", "resistive_a=16"]),
    (2, ["find", "--part", "13", "--measured", "tab_m=6.3"]),
    (2, ["find", "T5A", "--limit", "0"]),
    (2, ["find", "T5A", "--why", "999999"]),
    (2, ["log"]),
    (2, ["log", "T5A", "--quantity", "0"]),
    (2, ["log", "T5A", "--quantity", "two"]),
    (2, ["log", "T5A", "--family", "fuse", "--state", "welded"]),
    (2, ["log", "T5A", "--price", "cheap"]),
    (2, ["log", "T5A", "--origin", "found"]),
    (2, ["log", "T5A", "--from", "U999"]),
    (2, ["log", "A\0B"]),
    (2, ["log", "x" * 5000]),
    (2, ["strip"]),
    (2, ["strip", "U99", "--piece", "|"]),
    (2, ["strip", "U99", "--piece", "fuse|T5A|A1|good|many"]),
    (2, ["strip", "U99", "--arrived", "yesterday"]),
    (2, ["strip", "U99", "--pieces", "no-such-file.csv"]),
    (2, ["bench", "1"]),
    (2, ["bench", "1", "--state", "shiny"]),
    (2, ["bench", "1", "--rest", "lots"]),
    (2, ["bench", "x"]),
    (1, ["bench", "99999", "--state", "good"]),
    (2, ["hold", "0"]),
    (1, ["hold", "99999"]),
    (1, ["hold", "1", "--job", "99999"]),
    (2, ["hold", "1", "--quantity", "-1"]),
    (2, ["hold", "1", "--place", "nowhere"]),
    (1, ["hold", "1", "--quantity", "5000"]),
    (1, ["fit", "1", "--quantity", "5000"]),
    (1, ["putback", "1", "--quantity", "5000"]),
    (1, ["scrap", "1", "--quantity", "5000"]),
    (2, ["move", "1", " "]),
    (2, ["move", "1"]),
    (2, ["count", "1", "many"]),
    (2, ["count", "1", "--", "-1"]),
    (2, ["job", "open"]),
    (1, ["job", "show", "99999"]),
    (2, ["job", "reading", "OPEN"]),
    (2, ["job", "reading", "OPEN", "--reading", "earth_ohm=0.1", "--region", "mars"]),
    (2, ["job", "close", "OPEN", "--reading", "earth"]),
    (1, ["job", "close", "1"]),
    (2, ["job", "outcome", "1", "exploded"]),
    (1, ["job", "lacks", "OPEN", "--part", "99999"]),
    (2, ["xref", "add", "A", "replaces", "B", "--source", "me"]),
    (2, ["xref", "add", "A", "supersedes", "B"]),
    (2, ["xref", "add", "A", "supersedes", "B", "--source", "me", "--confidence", "2"]),
    (2, ["xref", "load", "no-such-file.csv"]),
    (1, ["xref", "follow", "QQQQ"]),
    (2, ["low", "--as-of", "yesterday"]),
    (2, ["low", "--family", "swtch"]),
    (2, ["worth", "U999"]),
    (2, ["wear", "--by", "colour"]),
    (2, ["wear", "--to", "curve.bmp"]),
    (2, ["day", "--as-of", "31.10.2026"]),
    (1, ["order", "--part", "99999"]),
    (2, ["order", "--part", "1", "-n", "0"]),
    (1, ["receive", "--part", "1", "-n", "5000"]),
    (1, ["keep", "--part", "99999", "3"]),
    (2, ["figure", "service_levl", "0.9"]),
    (2, ["figure", "service_level", "often"]),
    (2, ["figure", "service_level", "7"]),
    (2, ["figure", "service_level"]),
    (2, ["show"]),
    (1, ["show", "99999"]),
    (1, ["show", "--part", "99999"]),
    (2, ["show", "--unit", "U999"]),
    (1, ["history", "99999"]),
    (2, ["where", "A9-99"]),
    (2, ["load", "no-such-file.csv"]),
    (2, ["dump", "shelf.txt"]),
    (2, ["dump", "no-such-folder/shelf.json"]),
    (1, ["twins", "--merge", "1", "99999"]),
    (2, ["twins", "--merge", "1", "1", "--yes"]),
    (3, ["restore", "no-such-file.backup"]),
    (2, ["screw", "name"]),
    (2, ["screw", "fit", "M4x8", "purple"]),
    (2, ["screw", "fit", "M4x8", "M4x8", "--in", "cheese"]),
    (2, ["screw", "limits", "M4x0.7", "--class", "9z"]),
    (2, ["screw", "instead"]),
    (2, ["screw", "instead", "M4x8", "--in", "cheese"]),
    (2, ["screw", "weigh", "--weigh", "38g"]),
    (2, ["screw", "weigh", "--weigh", "heavy", "--ten", "6.2g"]),
    (2, ["xref", "list", "A", "B"]),
    (2, ["job", "list", "5"]),
    (2, ["backup", "--keep", "0"]),
    (2, ["check", "everything"]),
    (2, ["undo", "2"]),
    (1, ["demo", "--to", "demo.shelf"]),
    (1, ["demo", "--to", "demo.shelf", "--dry-run"]),
    (3, ["demo", "--to", "no-such-folder/demo.shelf"]),
    (3, ["demo", "--to", "no-such-folder/demo.shelf", "--dry-run"]),
    (2, ["day", "--html", "no-such-folder/day.html"]),
    (2, ["day", "--html", "no-such-folder/day.html", "--dry-run"]),
    (2, ["dump", "no-such-folder/shelf.csv", "--dry-run"]),
    (2, ["dump", "no-such-folder/shelf.json", "--dry-run"]),
    (2, ["wear", "--to", "no-such-folder/curve.svg"]),
    (2, ["wear", "--to", "curve.bmp", "--dry-run"]),
    (2, ["wear", "--to", f"{'x' * 300}.svg"]),
    (2, ["nonsense"]),
    (2, ["find", "T5A", "--no-such-option"]),
]


def _with_open_job(shelf: Path, words: list[str]) -> list[str]:
    """The words, with the number of a job that is open where one is asked for."""
    if "OPEN" not in words:
        return words
    jobs = json.loads(call("--shelf", str(shelf), "job", "list", "--json").out)
    return [str(jobs[0]["id"]) if word == "OPEN" else word for word in words]


@pytest.mark.parametrize(("code", "words"), WRONG, ids=[" ".join(w)[:60] for _, w in WRONG])
def test_one_sentence_and_nothing_written(
    code: int, words: list[str], demo_file: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """The shelf's bytes are the same afterwards, and no traceback is seen."""
    shelf = tmp_path / "demo.shelf"
    shutil.copy(demo_file, shelf)
    before = hashlib.sha256(shelf.read_bytes()).hexdigest()
    monkeypatch.chdir(tmp_path)
    monkeypatch.setenv("COLUMNS", "400")
    said = call("--shelf", str(shelf), *_with_open_job(shelf, words))
    assert said.code == code, said.err
    last = said.err.strip().splitlines()[-1]
    assert last.endswith((".", "?"))
    assert "Traceback" not in said.err
    assert hashlib.sha256(shelf.read_bytes()).hexdigest() == before


@pytest.mark.parametrize(
    ("words", "meant"),
    [
        (["where", "A2-1O"], "A2-10"),
        (["read", "x", "--family", "swich"], "switch"),
        (["find", "x", "--place", "moniter"], "monitor"),
        (["fnd", "x"], "find"),
        (["show", "--unit", "U5S"], "U5"),
    ],
)
def test_a_near_word_is_offered(words: list[str], meant: str, demo_file: Path) -> None:
    """Did you mean: bins, families, places, commands, units."""
    said = call("--shelf", str(demo_file), *words)
    assert said.code == 2
    assert f"Did you mean {meant}" in said.err or f"Did you mean '{meant}" in said.err


def test_a_shelf_that_is_not_there_is_not_made_by_a_look(tmp_path: Path) -> None:
    """A mistyped path makes no file."""
    path = tmp_path / "typo.shelf"
    said = call("--shelf", str(path), "low")
    assert said.code == 3
    assert not path.exists()


def test_a_file_that_is_no_shelf_is_left_alone(tmp_path: Path) -> None:
    """Exit code 3, its bytes untouched."""
    path = tmp_path / "letter.txt"
    path.write_text("Dear customer\n" * 20, encoding="utf-8")
    said = call("--shelf", str(path), "log", "T5AL250V")
    assert said.code == 3
    assert path.read_text(encoding="utf-8") == "Dear customer\n" * 20
