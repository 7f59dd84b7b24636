"""Small charts as plain lines of text, at most 78 columns; ASCII where asked."""

from __future__ import annotations

import math
from collections.abc import Sequence

from inventory.stock.survival import Curve

WIDTH = 78
"""Columns a chart may take, so that an 80-column terminal shows it with room to spare."""

_EIGHTHS = " ▏▎▍▌▋▊▉█"
_LEVELS = "▁▂▃▄▅▆▇█"
_ASCII_LEVELS = "_.-=+*#@"


def bars(
    rows: Sequence[tuple[str, float]], *, width: int = WIDTH, ascii_only: bool = False
) -> list[str]:
    """One bar a row, longest value full width: label, bar, figure.

    >>> bars([("relay", 4), ("switch", 2)], width=24, ascii_only=True)
    ['relay  ############### 4', 'switch ########        2']
    """
    if not rows:
        return []
    figures = [f"{value:g}" for _, value in rows]
    labels = [_cut(label, max(6, width // 3)) for label, _ in rows]
    left, right = max(map(len, labels)), max(map(len, figures))
    room = max(1, width - left - right - 2)
    top = max((value for _, value in rows), default=0) or 1
    return [
        f"{label:<{left}} {_bar(value / top * room, ascii_only):<{room}} {figure:>{right}}"
        for label, (_, value), figure in zip(labels, rows, figures, strict=True)
    ]


def _cut(label: str, room: int) -> str:
    """A label that fits; what is cut off shows as two dots."""
    return label if len(label) <= room else label[: room - 2] + ".."


def _bar(length: float, ascii_only: bool) -> str:  # noqa: FBT001 - private
    """A bar of so many columns, to the eighth where the font has it."""
    length = max(0.0, length)
    if ascii_only:
        return "#" * round(length)
    full, part = divmod(round(length * 8), 8)
    return "█" * full + (_EIGHTHS[part] if part else "")


def spark(values: Sequence[float | None], *, ascii_only: bool = False) -> str:
    """A row of heights, one character a value; a gap where a value is not known.

    >>> spark([0, 1, 2, None, 4], ascii_only=True)
    '_.= @'
    """
    marks = _ASCII_LEVELS if ascii_only else _LEVELS
    top = max((value for value in values if value is not None), default=0) or 1
    return "".join(
        " " if value is None else marks[min(7, max(0, math.floor(value / top * 7.999)))]
        for value in values
    )


def survival_chart(
    curve: Curve,
    *,
    width: int = WIDTH,
    height: int = 10,
    ascii_only: bool = False,
    unit: str = "months",
) -> list[str]:
    """The survival curve as steps: share still good against age.

    The left column is the share in per cent, the last line the age at both ends.
    """
    if not curve.pieces or curve.longest <= 0:
        return ["no pieces in service yet"]
    columns = width - 6
    ages = [curve.longest * (i + 1) / columns for i in range(columns)]
    shares = [_survival(curve, age) for age in ages]
    rows = [_row(shares, level, height, ascii_only) for level in range(height, -1, -1)]
    lines = [
        f"{100 * level / height:>4.0f} {'|' if ascii_only else '┤'}{row}".rstrip()
        for level, row in zip(range(height, -1, -1), rows, strict=True)
    ]
    corner = "+" + "-" * columns if ascii_only else "└" + "─" * columns
    end = f"{curve.longest:.3g} {unit}"
    return [*lines, "     " + corner, f"     0{end:>{columns}}"]


def _survival(curve: Curve, age: float) -> float:
    """R(age) within the curve."""
    share = curve.at(min(age, curve.longest))
    return 1.0 if share is None else share


def _row(shares: Sequence[float], level: int, height: int, ascii_only: bool) -> str:  # noqa: FBT001
    """One line of the curve: level runs along it, drops go down through it."""
    flat, drop = ("-", "|") if ascii_only else ("─", "│")
    marks = []
    before = 1.0
    for share in shares:
        here, there = round(share * height), round(before * height)
        if here == level:
            marks.append(flat)
        elif here < level <= there:
            marks.append(drop)
        else:
            marks.append(" ")
        before = share
    return "".join(marks)
