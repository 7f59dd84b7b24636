"""Values as a person types them: numbers, several numbers, yes and no, words."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Any

from inventory.errors import WrongInput
from inventory.units import parse_number


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


def pairs(said: Iterable[str], example: str) -> dict[str, Any]:
    """``name=value`` pairs."""
    found: dict[str, Any] = {}
    for pair in said:
        name, sign, value = pair.partition("=")
        if not sign or not name.strip() or not value.strip():
            raise WrongInput(f"Not understood: {pair!r}. Write it like {example}.")
        found[name.strip()] = value_of(value.strip())
    return found
