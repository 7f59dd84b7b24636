"""Everything that writes can be tried dry: it says the same, and not a byte changes."""

from __future__ import annotations

import shutil
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
import typer.main

from inventory.cli.main import app
from tests.cli.calling import call

LOOKING = {
    "read", "low", "show", "history", "where", "job list", "job show", "xref list",
    "xref follow", "screw name", "screw instead", "screw limits", "screw weigh",
}  # fmt: skip
"""Commands that write nothing, neither on a shelf nor in a file."""


def _commands(found: Any, before: tuple[str, ...] = ()) -> Iterator[tuple[str, set[str]]]:
    """Every command with its options."""
    if hasattr(found, "commands"):
        for name, inner in found.commands.items():
            yield from _commands(inner, (*before, name))
    else:
        yield " ".join(before), {word for one in found.params for word in one.opts}


def test_every_command_that_writes_can_be_tried_dry() -> None:
    """A new command must be in the list above, or take ``--dry-run``."""
    found = dict(_commands(typer.main.get_command(app)))

    without = {name for name, options in found.items() if "--dry-run" not in options}
    assert without == LOOKING


WRITING = [
    ["log", "EX-9", "--family", "other", "--bin", "Z9"],
    ["strip", "U9", "--kind", "oven", "--piece", "other|EX-8"],
    ["bench", "1", "--state", "bad"],
    ["hold", "1", "--job", "1"],
    ["hold", "2", "--release"],
    ["fit", "1", "--job", "1"],
    ["putback", "3"],
    ["scrap", "1"],
    ["move", "1", "Z9"],
    ["count", "1", "7"],
    ["order", "--part", "1", "--quantity", "3"],
    ["receive", "--part", "2", "--quantity", "1"],
    ["keep", "--part", "1", "3"],
    ["figure", "lead_time_months", "0.5"],
    ["job", "open", "--kind", "oven"],
    ["job", "close", "1", "--given-up"],
    ["job", "lacks", "1", "--part", "1"],
    ["xref", "add", "EX-1", "supersedes", "EX-0", "--source", "list"],
    ["twins", "--merge", "1", "2", "--yes"],
    ["load", "PARTS"],
    ["undo"],
    ["check", "--repair"],
    ["backup", "--to", "FOLDER"],
    ["dump", "FOLDER/out.csv"],
    ["dump", "FOLDER/out.json"],
    ["day", "--html", "FOLDER/out.html"],
    ["screw", "fit", "M4", "#8-32", "--svg", "FOLDER/out.svg"],
    ["demo", "--to", "FOLDER/demo.shelf"],
]
"""Writing commands on the shelf below; capital words stand for paths."""


@pytest.fixture
def folder(memory: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A folder with a shelf on which each of the commands has something to do."""
    monkeypatch.setenv("SALVAGE_SHELF", str(memory / "a.shelf"))
    monkeypatch.setenv("SALVAGE_SQLITE", "stdlib")
    for n in (1, 2, 3):
        call("log", f"EX-{n}", "--family", "other", "--state", "good", "-n", "5")
    call("job", "open", "--kind", "oven")
    call("hold", "2")
    call("fit", "3")
    call("order", "--part", "2", "--quantity", "2")
    (memory / "parts.csv").write_text("family,type\nother,EX-7\n")
    return memory


@pytest.mark.parametrize("command", WRITING, ids=" ".join)
def test_a_dry_run_changes_nothing_and_the_real_one_does(folder: Path, command: list[str]) -> None:
    """Same exit code; dry, every file in the folder is as it was."""
    words = [
        word.replace("PARTS", str(folder / "parts.csv")).replace("FOLDER", str(folder))
        for word in command
    ]
    before = _bytes(folder)

    dry = call(*words, "--dry-run")
    after_dry = _bytes(folder)
    real = call(*words)

    assert (dry.code, real.code) == (0, 0), (dry.err, real.err)
    assert after_dry == before
    assert _bytes(folder) != before or command[0] == "check"


def _bytes(folder: Path) -> dict[str, bytes]:
    """Every file of a folder."""
    return {str(path): path.read_bytes() for path in folder.rglob("*") if path.is_file()}


def test_a_dry_restore_changes_nothing(folder: Path) -> None:
    """It shows both sides."""
    call("backup", "--to", str(folder / "stick"))
    call("scrap", "1")
    (made,) = (folder / "stick").glob("*.backup")
    shutil.copy(made, folder / "old.backup")
    before = _bytes(folder)

    said = call("restore", str(folder / "old.backup"), "--dry-run")

    assert said.code == 0
    assert "Last event" in said.out
    assert _bytes(folder) == before
