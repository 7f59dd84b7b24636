"""The pieces a contact marking is made of, in the order of the text."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import Any, Literal

Number = int | float
Nature = Literal["ac", "dc", "both"]
"""What flows: ``ac``, ``dc``, or one figure for ``both``."""


@dataclass(frozen=True, slots=True)
class Current:
    """One ampere group: the figure, and what stands in brackets or behind a stroke."""

    start: int
    amps: Number
    more: dict[str, Number] = field(default_factory=dict)  # rating name -> amperes
    general: bool = False  # GPA glued to the figure


@dataclass(frozen=True, slots=True)
class Volts:
    """One or several voltages before one unit."""

    start: int
    end: int
    values: tuple[Number, ...]
    nature: Nature | None


@dataclass(frozen=True, slots=True)
class Horse:
    """A horsepower figure, perhaps with full-load amperes behind it."""

    start: int
    hp: float
    volts: tuple[Number, ...] = ()  # bracketed right behind: ``1/2 Hp (250 V)``
    fla: Number | None = None
    lra: Number | None = None


@dataclass(frozen=True, slots=True)
class Aside:
    """A rating told by another figure than amperes: TV code, lamp watts, pilot duty, full load.

    The volts beside it are its own and no other rating's.
    """

    start: int


@dataclass(frozen=True, slots=True)
class Load:
    """The kind of load the amperes beside it hold for."""

    start: int
    name: str  # resistive, general, inductive, motor, lamp, ballast, ac15, dc13


@dataclass(frozen=True, slots=True)
class Throw:
    """The contact a rating holds for: NO, NC, CO or NO/NC."""

    start: int
    contact: str


@dataclass(frozen=True, slots=True)
class Only:
    """A bracketed condition that binds the rating before it: ``(6k life only)``."""

    start: int
    cycles: int | None = None


@dataclass(frozen=True, slots=True)
class Supply:
    """``~``, ``AC`` or ``DC`` standing alone beside a figure."""

    start: int
    nature: Nature


@dataclass(frozen=True, slots=True)
class Fact:
    """Anything else that is said once for the whole part: endurance, IP, a standard."""

    start: int
    name: str
    value: Any


@dataclass(frozen=True, slots=True)
class Break:
    """A semicolon or the like: what follows is another rating."""

    start: int


Item = Current | Volts | Horse | Aside | Load | Throw | Only | Supply | Fact | Break
