"""Guards for the figures a formula is called with: one clear sentence, nothing computed."""

from __future__ import annotations

import math
from collections.abc import Iterable
from numbers import Real
from typing import Any

from inventory.errors import WrongInput

MOST = 1e15
"""No figure of a repair shop is larger; beyond it a double has no whole numbers left."""


def finite(**figures: float) -> None:
    """Every figure is a number no larger than ``MOST``, of either sign, or ``WrongInput``."""
    for name, figure in figures.items():
        if not -MOST <= _number(name, figure) <= MOST:
            raise WrongInput(f"{name} is out of all range: {figure}.")


def _number(name: str, figure: Any) -> float:
    """The figure itself if it is a number; nothing and words are none."""
    if not isinstance(figure, (int, float)) and not isinstance(figure, Real):
        raise WrongInput(f"{name} must be a number, not {figure!r}.")
    return float(figure)


def above_zero(**figures: float) -> None:
    """Every figure is above zero and no larger than ``MOST``, or ``WrongInput``."""
    for name, figure in figures.items():
        if not 0 < _number(name, figure) <= MOST:
            raise WrongInput(f"{name} must be above zero and within reason, not {figure}.")


def not_negative(**figures: float) -> None:
    """Every figure is zero or more and no larger than ``MOST``, or ``WrongInput``."""
    for name, figure in figures.items():
        if not 0 <= _number(name, figure) <= MOST:
            raise WrongInput(f"{name} must not be below zero or beyond reason, but is {figure}.")


def a_share(**figures: float) -> None:
    """Every figure lies strictly between 0 and 1, or ``WrongInput``."""
    for name, figure in figures.items():
        if not 0 < _number(name, figure) < 1:
            raise WrongInput(f"{name} must lie between 0 and 1, not {figure}.")


def a_chance(**figures: float) -> None:
    """Every figure lies between 0 and 1, both allowed, or ``WrongInput``."""
    for name, figure in figures.items():
        if not 0 <= _number(name, figure) <= 1:
            raise WrongInput(f"{name} must lie between 0 and 1, not {figure}.")


def a_count_of(k: float, n: float) -> None:
    """``0 <= k <= n`` and ``1 <= n <= MOST``, or ``WrongInput``."""
    if not (1 <= _number("n", n) <= MOST and 0 <= _number("k", k) <= n):
        raise WrongInput(f"{k} of {n} is not a count of something.")


def integer(**figures: float) -> None:
    """Every figure is a whole number of either sign, or ``WrongInput``."""
    finite(**figures)
    for name, figure in figures.items():
        if figure != math.floor(figure):
            raise WrongInput(f"{name} must be a whole number, not {figure}.")


def whole(**figures: float) -> None:
    """Every figure is a whole number of zero or more, or ``WrongInput``."""
    not_negative(**figures)
    integer(**figures)


def ages(figures: Iterable[float]) -> None:
    """Every age is zero or more and a number, or ``WrongInput``."""
    for age in figures:
        if not 0 <= _number("An age", age) <= MOST:
            raise WrongInput(f"An age must be a number of zero or more, not {age}.")


def a_history(y: Iterable[float]) -> None:
    """Every month's demand is zero or more and a number, or ``WrongInput``."""
    for use in y:
        if not 0 <= _number("demand", use) <= MOST:
            raise WrongInput(f"Demand must not be below zero or beyond reason, but is {use}.")
