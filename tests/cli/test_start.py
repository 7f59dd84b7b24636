"""Where a call begins: the right room is entered, and a search loads nothing it does not need."""

from __future__ import annotations

import json
import os
import subprocess
import sys
from importlib import import_module
from pathlib import Path

import pytest
import typer

from inventory.cli.main import app
from inventory.cli.start import ROOMS, rooms_for
from tests.cli.calling import call, demo_file

__all__ = ["demo_file"]

HEAVY = (
    "sqlalchemy", "sqlmodel", "alembic", "rich", "scipy", "numpy", "jsonschema", "platformdirs",
    "matplotlib", "inventory.rules.tested", "inventory.rules.closeout", "inventory.fasteners",
    "inventory.markings.resistor", "inventory.cli.stock", "inventory.stock.report",
)  # fmt: skip
"""What a search of a switch has no use for."""


@pytest.mark.parametrize("room", ROOMS)
def test_a_room_hangs_up_the_commands_it_is_listed_with(room: str) -> None:
    """A command that is in no list would only be found by its misspelling."""
    alone = typer.Typer()
    alone.callback()(lambda: None)
    import_module(f"inventory.cli.{room}").attach(alone)
    group = typer.main.get_command(alone)
    assert tuple(vars(group)["commands"]) == ROOMS[room]


def test_the_whole_app_has_every_room() -> None:
    """``help`` lists them all."""
    group = typer.main.get_command(app)
    commands = [name for names in ROOMS.values() for name in names]
    assert sorted(vars(group)["commands"]) == sorted(commands)


@pytest.mark.parametrize(
    ("words", "rooms"),
    [
        (["find", "low"], ["find"]),
        (["--shelf", "find", "low"], ["stock"]),
        (["--bench=me", "--shelf=x", "undo"], ["trust"]),
        (["fnd"], list(ROOMS)),
        (["--help"], list(ROOMS)),
        (["--version", "find"], list(ROOMS)),
        (["--shelf"], list(ROOMS)),
        ([], list(ROOMS)),
    ],
)
def test_the_room_is_that_of_the_command(words: list[str], rooms: list[str]) -> None:
    """What stands before the command is skipped; where it is not plain, all rooms are there."""
    assert rooms_for(words) == rooms


@pytest.mark.parametrize(
    "query",
    [
        ["16(4)A 250V~ T85 5E4"],
        ["DT50-1"],
        ["--unit", "Brenka BK-20M", "--place", "monitor"],
        ["--family", "switch", "--need", "resistive_a=16"],
    ],
    ids=" ".join,
)
def test_a_search_loads_nothing_heavy(query: list[str], demo_file: Path) -> None:
    """As a process of its own: SQLAlchemy alone would take longer to load than the search runs."""
    code = (
        "import sys; from inventory.cli.start import run; run(sys.argv[2:]);"
        "print([m for m in sys.argv[1].split() if m in sys.modules], file=sys.stderr)"
    )
    said = subprocess.run(
        [sys.executable, "-c", code, " ".join(HEAVY), "--shelf", str(demo_file), "find", *query],
        capture_output=True, text=True, check=True, env={**os.environ, "COLUMNS": "80"},
    )  # fmt: skip
    assert said.stdout.strip()
    assert said.stderr.splitlines()[-1] == "[]"


def test_the_version_is_told() -> None:
    """On stdout, code 0."""
    said = call("--version")
    assert (said.code, said.out.split()[0], said.err) == (0, "salvage", "")


def test_no_words_at_all_show_the_help() -> None:
    """A first try is answered with what there is."""
    said = call()
    assert said.code == 0
    assert "Exit codes: 0 done" in said.out


def test_shelf_and_bench_may_be_named_before_the_command(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Both reach the command, whatever the environment says."""
    monkeypatch.setenv("SALVAGE_SHELF", "nowhere.shelf")
    monkeypatch.setenv("SALVAGE_BENCH", "nobody")
    shelf = str(tmp_path / "a.shelf")
    call("--shelf", shelf, "--bench", "north", "log", "T5AL250V")
    (event,) = json.loads(call("--shelf", shelf, "history", "1", "--json").out)
    assert event["bench"] == "north"


def test_ctrl_c_while_a_command_works_is_told(monkeypatch: pytest.MonkeyPatch) -> None:
    """Code 130 and one sentence, as at a question."""

    def stopped(*_: object, **__: object) -> None:
        raise KeyboardInterrupt

    monkeypatch.setattr("inventory.markings.reader.read", stopped)
    said = call("read", "T5A")
    assert (said.code, said.out, said.err) == (130, "", "Stopped; nothing was left half done.\n")


def test_more_than_fits_into_memory_is_one_sentence(monkeypatch: pytest.MonkeyPatch) -> None:
    """Wrong input, as far as the person is concerned."""

    def too_much(*_: object, **__: object) -> None:
        raise MemoryError

    monkeypatch.setattr("inventory.markings.reader.read", too_much)
    said = call("read", "T5A")
    assert (said.code, said.out) == (2, "")
    assert said.err == "That is more than fits into memory; nothing was changed.\n"


def test_a_defect_of_ours_is_not_hidden(monkeypatch: pytest.MonkeyPatch) -> None:
    """It comes out as what it is, so that it can be reported."""

    def broken(*_: object, **__: object) -> None:
        raise ZeroDivisionError

    monkeypatch.setattr("inventory.markings.reader.read", broken)
    with pytest.raises(ZeroDivisionError):
        call("read", "T5A")


@pytest.mark.parametrize("group", ["job", "xref", "screw"])
def test_a_group_alone_shows_its_help(group: str) -> None:
    """On stdout, code 0."""
    said = call(group)
    assert (said.code, said.err) == (0, "")
    assert "Commands:" in said.out


def test_a_warning_is_told_once_however_often_the_command_ran(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Two calls in one process do not double it."""
    monkeypatch.setenv("COLUMNS", "400")
    call("read", "T5A")
    said = call("--shelf", str(tmp_path / "a.shelf"), "log", "EX-1", "--family", "other")
    assert said.err.count("A new shelf was made") == 1
