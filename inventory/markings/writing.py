"""Ratings written out as a marking again: one line a rating, in the order of the family."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import Any

from inventory.markings.amounts import listed
from inventory.records import Reading

Form = str | Mapping[Any, str] | Callable[[Any], str]
"""How a rating is written: a template with ``{}``, the words of each value, or a function."""

Line = tuple[str, Form]


def write(ratings: Mapping[str, Any], *lines: Line) -> str:
    """The marking that reads back to these ratings; a rating without a line is left out.

    >>> write({"current_a": 0.9, "voltage_v": 5000}, ("current_a", "{}A"), ("voltage_v", "{}V"))
    '0.9A 5000V'
    """
    pieces = (_piece(form, ratings[name]) for name, form in lines if name in ratings)
    return " ".join(piece for piece in pieces if piece)


def _piece(form: Form, value: Any) -> str:
    """One rating as it is printed."""
    if callable(form):
        return form(value)
    if isinstance(form, Mapping):
        return form.get(value, "")
    return form.format(_plain(value))


def _plain(value: Any) -> str:
    """A figure, the figures of a range, or words as they are."""
    if isinstance(value, str):
        return value
    if isinstance(value, list) and value and isinstance(value[0], str):
        return " ".join(value)
    return listed(value)


def faithful(reading: Reading, written: str, read: Callable[[str], Reading]) -> str:
    """What was written, if it reads back to the very ratings; else the text itself.

    Makers' codes say more than any plain form: their plainest form is the code.
    """
    same = bool(written) and read(written).ratings == reading.ratings
    return written if same else reading.text.strip()
