"""The command line cannot drift from its help and from the README."""

from __future__ import annotations

import re
import shlex
import subprocess
import sys
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
import typer

from inventory.cli.main import app
from tests.cli.calling import call

ROOT = Path(__file__).resolve().parent.parent


def _commands(group: Any, path: tuple[str, ...] = ()) -> Iterator[tuple[tuple[str, ...], Any]]:
    """Every command with the words that call it."""
    for name, command in group.commands.items():
        if hasattr(command, "commands"):
            yield from _commands(command, (*path, name))
        else:
            yield (*path, name), command


COMMANDS = dict(_commands(typer.main.get_command(app)))


@pytest.mark.parametrize("words", COMMANDS, ids=" ".join)
def test_every_command_has_help_and_an_example(words: tuple[str, ...]) -> None:
    """The example calls the command it stands under."""
    help_text = COMMANDS[words].help or ""
    assert f"Example: salvage {' '.join(words)}" in help_text


@pytest.mark.parametrize("words", COMMANDS, ids=" ".join)
def test_every_option_says_what_it_does(words: tuple[str, ...]) -> None:
    """No option without a help text."""
    silent = [p.name for p in COMMANDS[words].params if not getattr(p, "help", None)]
    assert silent == []


def test_every_command_is_named_in_the_readme() -> None:
    """A command nobody can find is not there."""
    readme = (ROOT / "README.md").read_text(encoding="utf-8")
    missing = [words for words in COMMANDS if f"salvage {words[0]}" not in readme]
    assert missing == []


def test_the_readme_names_no_command_that_is_not_there() -> None:
    """Every ``salvage ...`` line of the README calls a real command."""
    readme = (ROOT / "README.md").read_text(encoding="utf-8")
    called = set(re.findall(r"^(?:\$ )?salvage ([a-z]+)", readme, flags=re.MULTILINE))
    assert called
    assert called <= {words[0] for words in COMMANDS}


def test_the_tour_of_the_readme_runs_as_printed(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Line after line on one demo shelf, numbers of lots and jobs included."""
    readme = (ROOT / "README.md").read_text(encoding="utf-8")
    tour = readme.partition("## A tour")[2]
    calls = [shlex.split(line) for line in re.findall(r"^salvage (.+)$", tour, flags=re.MULTILINE)]
    monkeypatch.chdir(tmp_path)
    monkeypatch.setenv("SALVAGE_SHELF", "demo.shelf")
    for words in calls:
        if words[0] != "restore":
            said = call(*words)
            assert said.code == 0, f"{words}: {said.err}"
    assert len(calls) > 30


def test_help_fits_eighty_columns() -> None:
    """The longest help page, piped, at the width of an old terminal."""
    said = subprocess.run(
        [sys.executable, "-m", "inventory", "find", "--help"],
        capture_output=True, text=True, check=True, env={"COLUMNS": "80", "PATH": ""},
    )  # fmt: skip
    assert max(map(len, said.stdout.splitlines())) <= 80
    assert "\x1b" not in said.stdout


def test_the_top_level_holds_what_was_agreed() -> None:
    """Nothing else lies about in the checkout."""
    listed = subprocess.run(
        ["git", "ls-tree", "--name-only", "HEAD"], capture_output=True, text=True, cwd=ROOT,
        check=False,
    )  # fmt: skip
    if listed.returncode:
        pytest.skip("not a git checkout")
    agreed = {"README.md", "DEVELOPERS.md", "pyproject.toml", "inventory", "schemas", "tests",
              "demo_inventory"}  # fmt: skip
    seen = {name for name in listed.stdout.split() if not name.startswith(".")}
    assert seen == agreed
