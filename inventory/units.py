"""Amounts with units, money and the few conversions a bench needs.

Printed figures are ``Decimal`` until a formula needs a ``float``; ``None`` is *not known*,
never zero.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from decimal import Decimal, InvalidOperation

from inventory.errors import WrongInput

PREFIXES = {
    "p": Decimal("1e-12"),
    "n": Decimal("1e-9"),
    "u": Decimal("1e-6"),
    "µ": Decimal("1e-6"),
    "μ": Decimal("1e-6"),
    "m": Decimal("1e-3"),
    "": Decimal(1),
    "k": Decimal("1e3"),
    "K": Decimal("1e3"),
    "M": Decimal("1e6"),
    "G": Decimal("1e9"),
}
"""SI prefixes as they are met on parts. Source: SI brochure, 9th edition, table 7."""

BASE_UNITS = {
    "ohm": "ohm",
    "ohms": "ohm",
    "\u03a9": "ohm",  # Greek capital omega
    "\u2126": "ohm",  # the ohm sign
    "V": "V",
    "A": "A",
    "W": "W",
    "F": "F",
    "Hz": "Hz",
    "H": "H",
    "g": "g",
    "s": "s",
}
"""Unit spellings and the one form they are kept in."""

_AMOUNT = re.compile(
    r"\s*(?P<number>[+-]?[0-9]{1,18}(?:[.,][0-9]{1,12})?)\s{0,3}"
    r"(?P<prefix>[pnuµμmkKMG]?)(?P<unit>ohms?|Ω|\u2126|Hz|V|A|W|F|H|g|s)\s*"
)
_NUMBER = re.compile(r"[+-]?[0-9]{1,18}(?:[.,][0-9]{1,12})?")


def parse_number(text: str) -> Decimal:
    """One plain number; a decimal comma is a decimal point.

    ``1,234`` could be either, so it is refused rather than guessed.

    >>> parse_number("2,5")
    Decimal('2.5')
    """
    bare = text.strip()
    if not _NUMBER.fullmatch(bare):
        raise WrongInput(f"Not a number: {text!r}. Write it like 2.5 or 2,5.")
    if re.fullmatch(r"[+-]?[1-9][0-9]{0,2},[0-9]{3}", bare):
        raise WrongInput(f"{text!r} could mean thousands or decimals; write it with a point.")
    try:
        return Decimal(bare.replace(",", "."))
    except InvalidOperation as error:  # pragma: no cover - the pattern admits only numbers
        raise WrongInput(f"Not a number: {text!r}.") from error


@dataclass(frozen=True, slots=True, order=False)
class Quantity:
    """A measured amount, kept in its base unit so that 0,1 µF equals 100 nF.

    >>> Quantity.parse("0,1 µF") == Quantity.parse("100 nF")
    True
    """

    amount: Decimal  # in the base unit: F, not µF
    unit: str

    @classmethod
    def parse(cls, text: str) -> Quantity:
        """Read one quantity; anything before or after it is an error."""
        found = _AMOUNT.fullmatch(text)
        if found is None:
            raise WrongInput(f"Not a quantity: {text!r}. Write it like '450 V' or '38 g'.")
        number = Decimal(found["number"].replace(",", "."))
        return cls(number * PREFIXES[found["prefix"]], BASE_UNITS[found["unit"]])

    def __str__(self) -> str:
        return f"{plain(self.amount)} {self.unit}"


def plain(number: Decimal | float) -> str:
    """A number as a person writes it: no exponent, no trailing zeros.

    >>> plain(Decimal("250.0"))
    '250'
    """
    text = f"{Decimal(str(number)):f}"
    return text.rstrip("0").rstrip(".") if "." in text else text


def cents(text: str) -> int:
    """Money as typed, in whole cents; more than two decimals are refused.

    >>> cents("4,50")
    450
    """
    amount = parse_number(text) * 100
    if amount != amount.to_integral_value() or amount < 0:
        raise WrongInput(f"Not a price: {text!r}. Write it like 4.50.")
    return int(amount)


def celsius(fahrenheit: float) -> float:
    """Degrees Celsius of a Fahrenheit figure. Source: NIST SP 811, appendix B.8.

    >>> celsius(302)
    150.0
    """
    return (fahrenheit - 32) / 1.8


def fahrenheit(celsius_figure: float) -> float:
    """Degrees Fahrenheit of a Celsius figure. Source: NIST SP 811, appendix B.8.

    >>> fahrenheit(150)
    302.0
    """
    return celsius_figure * 1.8 + 32
