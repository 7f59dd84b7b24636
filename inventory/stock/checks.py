"""Guards for the figures a formula is called with: one clear sentence, nothing computed."""

from __future__ import annotations

import math

from inventory.errors import WrongInput


def above_zero(**figures: float) -> None:
    """Every figure is finite and above zero, or ``WrongInput``."""
    for name, figure in figures.items():
        if not (math.isfinite(figure) and figure > 0):
            raise WrongInput(f"{name} must be above zero, not {figure}.")


def not_negative(**figures: float) -> None:
    """Every figure is finite and zero or more, or ``WrongInput``."""
    for name, figure in figures.items():
        if not (math.isfinite(figure) and figure >= 0):
            raise WrongInput(f"{name} must not be below zero, but is {figure}.")


def a_share(**figures: float) -> None:
    """Every figure lies strictly between 0 and 1, or ``WrongInput``."""
    for name, figure in figures.items():
        if not 0 < figure < 1:
            raise WrongInput(f"{name} must lie between 0 and 1, not {figure}.")


def a_count_of(k: float, n: float) -> None:
    """``0 <= k <= n`` and ``n >= 1``, or ``WrongInput``."""
    if not (n >= 1 and 0 <= k <= n):
        raise WrongInput(f"{k} of {n} is not a count of something.")
