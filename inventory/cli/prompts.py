"""Asking at a terminal; never where nobody can answer."""

import sys
from collections.abc import Callable, Iterator
from contextlib import contextmanager, redirect_stdout
from typing import Any

import typer

from inventory.cli import show
from inventory.errors import InventoryError


def can_ask() -> bool:
    """True where a person sits at both ends."""
    return sys.stdin.isatty() and sys.stderr.isatty()


@contextmanager
def _on_screen() -> Iterator[None]:
    """All of a question goes to stderr, and what follows a broken-off one starts on a new line."""
    try:
        # the prompt's last blank would go to stdout, into a file where that is redirected
        with redirect_stdout(sys.stderr):
            yield
    except typer.Abort:
        sys.stderr.write("\n")
        raise


def ask(question: str, default: str | None = None) -> str:
    """One answer; the question goes to stderr."""
    with _on_screen():
        return str(typer.prompt(question, default=default, err=True, show_default=bool(default)))


def sure(question: str, *, yes: bool) -> bool:
    """True when the person says yes, or said so before with a flag; no is the default."""
    if yes:
        return True
    with _on_screen():
        return can_ask() and typer.confirm(question, default=False, err=True)


def ask_pieces(read: Callable[[str], Any]) -> list[Any]:
    """Pieces line by line until an empty one; a line that is not understood is asked again."""
    show.note(
        "Pieces pulled, one a line: a marking, or family|marking|bin|state|quantity;"
        " an empty line ends."
    )
    found: list[Any] = []
    while True:
        text = ask(f"Piece {len(found) + 1}", "")
        if not text.strip():
            return found
        try:
            found.append(read(text))
        except InventoryError as error:
            show.note(error, "warn")
