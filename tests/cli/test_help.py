"""The help pages: in the trade's words, whole sentences, every command in one section."""

from __future__ import annotations

import pytest
import typer

from inventory.cli.help import SECTIONS
from inventory.cli.start import ROOMS, app_of
from tests.cli.calling import call

EVERY = sorted(name for names in ROOMS.values() for name in names)


def _pages() -> list[str]:
    """The words of every call that has a help page."""
    command = typer.main.get_command(app_of(ROOMS))
    pages = []
    for name, one in command.commands.items():  # type: ignore[attr-defined]
        pages += [f"{name} {below}" for below in getattr(one, "commands", {})] or [name]
    return pages


def test_every_command_stands_in_one_section() -> None:
    """A new command must be put where its user looks for it."""
    assert sorted(name for names in SECTIONS.values() for name in names) == EVERY


@pytest.mark.parametrize("group", ["", "job", "screw", "xref"])
def test_a_list_of_commands_has_whole_sentences(
    group: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Nothing is cut off by dots at the width of an old terminal."""
    monkeypatch.setenv("COLUMNS", "80")
    said = call(*group.split(), "--help").out.replace("[ARGS]...", "")
    assert "..." not in said
    assert all(len(line) <= 80 for line in said.splitlines())


@pytest.mark.parametrize("page", _pages())
def test_values_have_trade_words(page: str) -> None:
    """No type of the programming language stands where a value belongs."""
    said = call(*page.split(), "--help").out
    assert "Example: salvage" in said
    for word in ("<str", "<int", "<float", "<list", "<path"):
        assert word not in said


def test_one_name_means_one_thing() -> None:
    """How many pieces, how many lines: the same option everywhere."""
    for page in ("bench", "hold", "fit", "scrap", "move", "log", "receive", "order"):
        assert "-n, --quantity N" in call(page, "--help").out
    for page in ("find", "low", "twins", "history", "screw instead"):
        assert "--limit" in call(*page.split(), "--help").out
