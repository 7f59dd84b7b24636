"""``salvage read``: a marking explained, piece by piece."""

import sys
from collections.abc import Iterator
from pathlib import Path
from typing import IO, Annotated, Any

import typer

from inventory.cli import options, show
from inventory.errors import WrongInput

LETTERS = "abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ"
MOST_SIGNS = 1_000_000
"""A longer text is no marking."""


def attach(app: typer.Typer) -> None:
    """Hang the command on the app."""
    app.command()(read)


def read(
    marking: Annotated[str | None, typer.Argument(help="The marking, in quotes.")] = None,
    family: options.Family = None,
    lines: Annotated[
        str | None,
        typer.Option(
            "--lines", metavar="FILE|-", help="One marking a line, or family<TAB>marking."
        ),
    ] = None,
    json: options.Json = False,
) -> None:
    """Explain a marking: each piece, what is assumed, what is not said.

    Example: salvage read "16(4)A 250V~ T85 5E4"
    """
    from inventory.markings.out import as_json
    from inventory.markings.reader import read as read_marking
    from inventory.markings.reader import read_line

    wanted = _family(family)
    if lines is not None:
        for text in lines_of(lines):
            reading = read_line(text) if wanted is None else read_marking(text, wanted)
            show.as_json_line(as_json(reading))
        return
    if marking is None:
        raise WrongInput("Give a marking in quotes, or --lines FILE.")
    if len(marking) > MOST_SIGNS:
        raise WrongInput(f"A text of more than {MOST_SIGNS:,} signs is no marking.")
    reading = read_marking(marking, wanted)
    if json:
        show.as_json(as_json(reading))
    else:
        explain(reading)


def _family(word: str | None) -> str | None:
    """A family that can be read, or none said."""
    if word is None:
        return None
    from inventory.bench.words import readable_family

    return readable_family(word)


def lines_of(source: str) -> Iterator[str]:
    """Lines of a file or of standard input."""
    if source == "-":
        yield from _decoded(sys.stdin.buffer)
        return
    path = Path(source)
    try:
        with path.open("rb") as file:
            yield from _decoded(file)
    except OSError as error:
        raise WrongInput(f"Cannot read {path}: {error.strerror}.") from error
    except ValueError as error:
        raise WrongInput("That is not a file name.") from error


def _decoded(file: IO[bytes]) -> Iterator[str]:
    """Lines as text; one that does not end is refused before it fills the memory."""
    while raw := file.readline(MOST_SIGNS):
        if len(raw) == MOST_SIGNS:
            raise WrongInput(f"A line of more than {MOST_SIGNS:,} signs is no marking.")
        yield raw.decode("utf-8", "replace").rstrip("\r\n")


def explain(reading: Any) -> None:
    """The marking with a letter under each piece, then each letter's meaning."""
    from inventory.bench.words_of import assumed, not_said, summary

    pieces = [(mark.start, mark.end, mark.text, mark.means, mark.source) for mark in reading.marks]
    pieces += [(left.start, left.end, left.text, "not read", "") for left in reading.unread]
    pieces.sort()
    _ruler(reading.text, [start for start, *_ in pieces])
    named = len(pieces) <= len(LETTERS)
    wide = max((len(show.safe(text)) for _, _, text, _, _ in pieces), default=0)
    for index, (_, _, text, means, source) in enumerate(pieces):
        letter = f"{LETTERS[index]} " if named else ""
        origin = f" [{source}]" if source else ""
        show.line(f"  {letter}{show.safe(text):<{min(wide, 24)}}  {means}{origin}")
    show.line()
    show.line(summary(reading), "head")
    if reading.assumed:
        show.line(f"Assumed, because it is not printed: {'; '.join(assumed(reading))}")
    silent = not_said(reading)
    if silent:
        show.line(f"Not said: {', '.join(silent)}")
    for warning in reading.warnings:
        show.line(f"Note: {warning}", "warn")
    for candidate in reading.candidates:
        show.line(f"Could be: {candidate.text} ({candidate.reason})", "warn")
    if reading.others:
        show.line(f"Or another family: {', '.join(reading.others)}; say --family to choose.")


def _ruler(text: str, starts: list[int]) -> None:
    """The text in lines of the terminal's width, a letter under where each piece starts."""
    limit = show.width()
    shown, columns = "", []
    at = {start: index for index, start in enumerate(starts)}
    for index, sign in enumerate(text):
        if index in at:
            columns.append((len(shown), at[index]))
        shown += show.safe(sign)
    for left in range(0, max(1, len(shown)), limit):
        show.line(shown[left : left + limit], "head")
        if len(starts) > len(LETTERS):
            continue
        under = [" "] * limit
        for column, index in columns:
            if left <= column < left + limit:
                under[column - left] = LETTERS[index]
        show.line("".join(under).rstrip(), "dim")
