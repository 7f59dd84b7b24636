"""Printed figures of passive parts: letter codes, digit codes, tolerance letters, E series.

All of it is IEC 60062 and IEC 60063; nothing here looks at a whole marking.
"""

from __future__ import annotations

import re
from decimal import Decimal

IEC_60062 = "IEC 60062:2016, letter and digit code"
"""Source of the letter code in which a letter stands for the unit and the point."""

SKEWED_PCT: dict[str, tuple[int, int]] = {
    "Q": (-10, 30),
    "S": (-20, 50),
    "T": (-10, 50),
    "Z": (-20, 80),
}
"""Unsymmetrical tolerances in per cent, lower and upper. Source: IEC 60062:2016, table 8."""

TOLERANCE_PCT: dict[str, float] = {
    "B": 0.1,
    "C": 0.25,
    "D": 0.5,
    "F": 1,
    "G": 2,
    "H": 3,
    "J": 5,
    "K": 10,
    "M": 20,
    "N": 30,
}
"""Symmetrical tolerances in per cent. Source: IEC 60062:2016, table 8."""

OHM_LETTERS = {"L": -3, "m": -3, "R": 0, "r": 0, "E": 0, "K": 3, "k": 3, "M": 6, "G": 9}
"""Powers of ten behind a resistance letter; ``E`` for ohm is a maker's habit, not IEC."""

FARAD_LETTERS = {"p": 0, "P": 0, "n": 3, "N": 3, "u": 6, "µ": 6, "U": 6, "m": 9, "F": 12}
"""Powers of ten, in picofarad, behind a capacitance letter. Source: IEC 60062:2016."""

# fmt: off
E24 = (10, 11, 12, 13, 15, 16, 18, 20, 22, 24, 27, 30,
       33, 36, 39, 43, 47, 51, 56, 62, 68, 75, 82, 91)
# fmt: on
"""The E24 steps, which hold E3, E6 and E12. Source: IEC 60063:2015, table 1."""

E192 = tuple(920 if step == 185 else round(100 * 10 ** (step / 192)) for step in range(192))
"""The E192 steps, which hold E48 and E96; the standard prints 920 where the root gives 919.

Source: IEC 60063:2015, table 2.
"""


def figure(text: str, power: int = 0) -> int | float:
    """A printed figure times ten to a power, without the dust of binary fractions.

    >>> figure("0,47", 6), figure("4.7", 3), figure(".1", 0)
    (470000, 4700, 0.1)
    """
    return tidy(Decimal(text.replace(",", ".")).scaleb(power))


def tidy(amount: Decimal) -> int | float:
    """A whole amount as int, any other as float."""
    return int(amount) if amount == amount.to_integral_value() else float(amount)


def with_letter(code: str, letters: dict[str, int]) -> Decimal | None:
    """The value of a code whose one letter is unit and decimal point; None if it is not one.

    >>> with_letter("4K7", OHM_LETTERS), with_letter("R47", OHM_LETTERS)
    (Decimal('4700'), Decimal('0.47'))
    >>> with_letter("4.7k", OHM_LETTERS)
    Decimal('4700')
    """
    pointed = re.fullmatch(r"([0-9]{1,4})[.,]([0-9]{1,4})([A-Za-zµ])", code)
    if pointed and pointed[3] in letters:
        amount = Decimal(f"{pointed[1]}.{pointed[2]}").scaleb(letters[pointed[3]])
        return Decimal(str(tidy(amount)))
    found = re.fullmatch(r"([0-9]{0,4})([A-Za-zµ])([0-9]{0,4})", code)
    if found is None or found[2] not in letters or not (found[1] or found[3]):
        return None
    amount = Decimal(f"{found[1] or 0}.{found[3] or 0}").scaleb(letters[found[2]])
    return Decimal(str(tidy(amount)))


def digit_code(code: str) -> Decimal:
    """Significant digits, then the number of zeros; a last 8 or 9 means times 0.01 or 0.1.

    >>> digit_code("103"), digit_code("479"), digit_code("4702")
    (Decimal('10000'), Decimal('4.7'), Decimal('47000'))
    """
    power = {"8": -2, "9": -1}.get(code[-1], int(code[-1]))
    return Decimal(str(tidy(Decimal(code[:-1]).scaleb(power))))


def on_series(amount: float | Decimal, figures: int = 3) -> bool:
    """True if the value is a step of E24, or with three figures of E192, in any decade.

    >>> on_series(4700), on_series(3200, figures=2), on_series(3200)
    (True, False, True)
    """
    if amount <= 0:
        return False
    three = int(f"{Decimal(str(amount)):.2e}".replace(".", "")[:3])
    return (three % 10 == 0 and three // 10 in E24) or (figures > 2 and three in E192)


_FARADS = ((12, "F"), (6, "µF"), (3, "nF"), (0, "pF"))
_OHMS = ((9, "GΩ"), (6, "MΩ"), (3, "kΩ"), (0, "Ω"))


def farads(picofarad: float | Decimal) -> str:
    """A capacitance as a tech says it.

    >>> farads(100000)
    '100 nF'
    """
    return _spoken(Decimal(str(picofarad)), _FARADS)


def ohms(amount: float | Decimal) -> str:
    """A resistance as a tech says it.

    >>> ohms(4700)
    '4.7 kΩ'
    """
    return _spoken(Decimal(str(amount)), _OHMS)


def _spoken(amount: Decimal, units: tuple[tuple[int, str], ...]) -> str:
    """The amount in the largest unit that leaves at least one before the point."""
    for power, unit in units:
        if amount >= Decimal(10) ** power or (power, unit) == units[-1]:
            return f"{tidy(amount.scaleb(-power))} {unit}"
    raise AssertionError  # pragma: no cover - the last unit always answers
