"""Values as a person types them: numbers, several numbers, yes and no, words."""

from __future__ import annotations

import json
from collections.abc import Iterable
from typing import Any

from inventory.errors import WrongInput
from inventory.units import parse_number, plain


def value_of(text: str) -> Any:
    """A typed value: yes and no, a number, several numbers with ``/`` between, or a word.

    >>> value_of("16"), value_of("125/250"), value_of("SPST-NO")
    (16, [125, 250], 'SPST-NO')
    """
    low = text.lower()
    if low in ("yes", "true", "no", "false"):
        return low in ("yes", "true")
    members = text.split("/")
    try:
        numbers = [_plain_number(member) for member in members]
    except WrongInput:
        return text
    return numbers if len(numbers) > 1 else numbers[0]


def _plain_number(text: str) -> int | float:
    """A number as int where it is whole."""
    number = parse_number(text)
    return int(number) if number == number.to_integral_value() else float(number)


def rating_of(text: str) -> Any:
    """A rating in a cell: as typed, or JSON where it is a list, a mapping or a quoted word.

    >>> rating_of("125/250"), rating_of('"1200"'), rating_of('[{"a": 1}]')
    ([125, 250], '1200', [{'a': 1}])
    """
    if text[:1] in ("[", "{", '"'):
        try:
            return json.loads(text)
        except ValueError:
            return text
    return value_of(text)


def cell_of(value: Any) -> object:
    """A rating as it goes into a cell, so that ``rating_of`` gives it back.

    >>> cell_of([125, 250]), cell_of("1200"), cell_of(True), cell_of("SPDT")
    ('125/250', '"1200"', 'yes', 'SPDT')
    """
    if value is None:
        return None
    text = _typed(value)
    # a cell is read without the blanks around it, and an empty one says nothing
    if text and text == text.strip() and rating_of(text) == value:
        return text
    return json.dumps(value, ensure_ascii=False)


def _typed(value: Any) -> str | None:
    """A value as a person would type it; None where nobody would."""
    if isinstance(value, bool):
        return "yes" if value else "no"
    if isinstance(value, int | float):
        return plain(value)
    if isinstance(value, list | tuple):
        members = [_typed(member) for member in value]
        return "/".join(members) if members and all(members) else None  # type: ignore[arg-type]
    return value if isinstance(value, str) else None


def pairs(said: Iterable[str], example: str) -> dict[str, Any]:
    """``name=value`` pairs; one said twice is refused, for either may be the slip."""
    found: dict[str, Any] = {}
    for pair in said:
        name, sign, value = pair.partition("=")
        if not sign or not name.strip() or not value.strip():
            raise WrongInput(f"Not understood: {pair!r}. Write it like {example}.")
        if name.strip() in found:
            raise WrongInput(f"{name.strip()} is said twice; say it once.")
        found[name.strip()] = value_of(value.strip())
    return found
