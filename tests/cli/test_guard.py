"""No command slips past the tables: each is listed, each is given wrong input."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

import typer

from inventory.cli.main import app
from tests.cli.test_listings import LISTINGS, words_of
from tests.cli.test_new_shelf import FILLING
from tests.cli.test_wrong_input import WRONG


def _commands(group: Any, path: tuple[str, ...] = ()) -> Iterator[tuple[str, frozenset[str]]]:
    """Every command of the real app as its words, with its options."""
    for name, command in group.commands.items():
        if hasattr(command, "commands"):
            yield from _commands(command, (*path, name))
        else:
            yield " ".join((*path, name)), frozenset(o for p in command.params for o in p.opts)


COMMANDS = dict(_commands(typer.main.get_command(app)))

NO_LISTING = {
    "log", "strip", "load", "dump", "bench", "hold", "fit", "putback", "scrap", "move", "count",
    "order", "receive", "keep", "job open", "job reading", "job close", "job outcome", "job lacks",
    "xref add", "xref load", "backup", "restore", "undo", "demo",
}  # fmt: skip
"""Commands that do something and say what they did; they list nothing."""


def called(words: list[str]) -> str:
    """The command a line of words calls.

    >>> called(["job", "show", "20"])
    'job show'
    """
    two = " ".join(words[:2])
    return two if two in COMMANDS else words[0] if words else ""


def test_every_listing_is_held_to_its_schema_and_to_eighty_columns() -> None:
    """A command stands in ``LISTINGS``, or is declared to list nothing."""
    listed = {called(words_of(line)) for _, line in LISTINGS}

    assert listed | NO_LISTING == set(COMMANDS)
    assert listed & NO_LISTING == set()


def test_every_listing_gives_json() -> None:
    """Outside programs read it."""
    listings = set(COMMANDS) - NO_LISTING
    assert {name for name in listings if "--json" not in COMMANDS[name]} == set()


def test_every_command_is_given_wrong_input() -> None:
    """A command that is not in ``WRONG`` has never been seen to refuse."""
    assert {called(words) for _, words in WRONG} >= set(COMMANDS)


def test_every_command_that_makes_a_shelf_is_known_to() -> None:
    """The first on a new shelf; all others say that there is none."""
    assert {called(words) for words in FILLING} == {
        "log", "strip", "load", "job open", "xref add", "xref load", "figure",
    }  # fmt: skip
