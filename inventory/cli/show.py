"""The one way to the screen: every datum passes ``safe``, every table fits the terminal.

Results go to stdout, all else to stderr. Nothing relies on colour: a word or sign says it too.
"""

import json
import os
import shutil
import sys
import unicodedata
from collections.abc import Iterable, Mapping, Sequence
from typing import TYPE_CHECKING, Any, TextIO

if TYPE_CHECKING:
    from rich.console import Console

_INVISIBLE = {"Cc", "Cf", "Cs", "Co", "Cn", "Zl", "Zp"}

SIGNS = {"same": "=", "fits": "+", "ask": "?", "refused": "x"}
"""One sign a verdict, so that it reads without colour."""

_STYLES = {
    "same": "bold green",
    "fits": "green",
    "ask": "yellow",
    "refused": "red",
    "warn": "yellow",
    "dim": "dim",
    "head": "bold",
}


def safe(value: object) -> str:
    r"""A datum as it may be printed: controls, direction marks and the like become ``\x1b``.

    >>> safe("16A [no]\x1b[31m")
    '16A [no]\\x1b[31m'
    """
    text = "" if value is None else str(value)
    if text.isascii() and text.isprintable():
        return text
    return "".join(_sign(sign) for sign in text)


def _sign(sign: str) -> str:
    """One character, escaped where it would act instead of show."""
    if sign.isprintable() or (unicodedata.category(sign) not in _INVISIBLE and sign != "\u00a0"):
        return sign
    code = ord(sign)
    if code < 0x100:
        return f"\\x{code:02x}"
    return f"\\u{code:04x}" if code < 0x10000 else f"\\U{code:08x}"


def width() -> int:
    """Columns to fill: the terminal's, ``COLUMNS``, else 80."""
    return max(40, shutil.get_terminal_size((80, 24)).columns)


def _plain(stream: TextIO) -> bool:
    """No colour: piped, NO_COLOR, or a dumb terminal. Source: no-color.org."""
    return (
        bool(os.environ.get("NO_COLOR")) or os.environ.get("TERM") == "dumb" or not stream.isatty()
    )


def console(stream: TextIO | None = None) -> "Console":
    """A Rich console that takes text as it is: no markup, no emoji, no guessing."""
    from rich.console import Console

    out = stream or sys.stdout
    plain = _plain(out)
    return Console(
        file=out,
        width=width(),
        color_system=None if plain else "auto",
        no_color=plain,
        markup=False,
        emoji=False,
        highlight=False,
        soft_wrap=False,
    )


def line(text: object = "", style: str = "") -> None:
    """One line of a result, wrapped to the terminal, on stdout."""
    _print(sys.stdout, text, style)


def note(text: object, style: str = "") -> None:
    """A message beside the result, on stderr."""
    _print(sys.stderr, text, style)


def warn(text: object) -> None:
    """A warning, on stderr, marked by a word."""
    note(f"Note: {safe(text)}", "warn")


def caution(text: object, source: object = "") -> None:
    """A safety caution, on stderr, marked by a word."""
    note(f"CAUTION: {safe(text)}" + (f" [{safe(source)}]" if source else ""), "warn")


def _print(stream: TextIO, text: object, style: str) -> None:
    """Text line by line; styled and wrapped."""
    lines = str(text).split("\n")
    if not style or _plain(stream):
        for raw in lines:
            stream.writelines(part + "\n" for part in _wrapped(safe(raw)))
        return
    from rich.text import Text

    where = console(stream)
    for raw in lines:
        for part in _wrapped(safe(raw)):
            where.print(Text(part, style=_STYLES.get(style, style)))


def _wrapped(text: str) -> list[str]:
    """Text cut at spaces to the terminal's width; leading spaces are kept on each line."""
    import textwrap

    limit = width()
    if len(text) <= limit:
        return [text]
    lead = text[: len(text) - len(text.lstrip())]
    return textwrap.wrap(
        text.strip(),
        limit,
        initial_indent=lead,
        subsequent_indent=lead + "  ",
        break_on_hyphens=False,
    )


def table(
    heads: Sequence[str],
    rows: Iterable[Sequence[object]],
    *,
    right: Sequence[int] = (),
    styles: Sequence[str] = (),
    keep: Sequence[int] = (),
) -> None:
    """A table on stdout; ``right`` columns hold numbers, ``keep`` columns are never folded."""
    from rich.box import SIMPLE_HEAD
    from rich.table import Table
    from rich.text import Text

    listed = [[safe(cell) for cell in row] for row in rows]
    if width() < 60:
        _blocks(heads, listed)
        return
    made = Table(
        box=SIMPLE_HEAD, pad_edge=False, padding=(0, 1, 0, 0), header_style="bold", show_edge=False
    )
    for index, head in enumerate(heads):
        made.add_column(
            Text(head),
            justify="right" if index in right else "left",
            no_wrap=index in keep or index in right,
            overflow="fold",
        )
    for number, row in enumerate(listed):
        style = styles[number] if number < len(styles) else ""
        made.add_row(*(Text(cell) for cell in row), style=_STYLES.get(style, style) or None)
    where = console()
    with where.capture() as caught:
        where.print(made)
    for text in caught.get().splitlines():
        sys.stdout.write(text.rstrip() + "\n")


def _blocks(heads: Sequence[str], rows: Sequence[Sequence[str]]) -> None:
    """On a narrow screen: one block of ``label: value`` lines a row."""
    for row in rows:
        for head, cell in zip(heads, row, strict=True):
            if cell:
                line(f"{head}: {cell}")
        line()


def as_json(value: Any) -> None:
    """One JSON document on stdout; escaped to ASCII so that no raw control sign gets out."""
    sys.stdout.write(json.dumps(value, ensure_ascii=True, indent=2, default=_jsonable) + "\n")


def as_json_line(value: Any) -> None:
    """One JSON object on one line."""
    sys.stdout.write(json.dumps(value, ensure_ascii=True, default=_jsonable) + "\n")


def _jsonable(value: object) -> object:
    """What JSON has no word for."""
    if isinstance(value, Mapping):
        return dict(value)
    if isinstance(value, set | frozenset | tuple):
        return sorted(value, key=str) if isinstance(value, set | frozenset) else list(value)
    return str(value)


def money(cents: int | None) -> str:
    """Whole cents as a person writes them.

    >>> money(450)
    '4.50'
    """
    return "" if cents is None else f"{cents // 100}.{cents % 100:02d}"


def counted(number: int, noun: str) -> str:
    """How many of something, in words that agree.

    >>> counted(1, "lot"), counted(2, "lot")
    ('1 lot', '2 lots')
    """
    return f"{number} {noun}" if number == 1 else f"{number} {noun}s"
