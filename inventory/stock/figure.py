"""A survival curve as a drawing in a file, by matplotlib where it is installed."""

from __future__ import annotations

from pathlib import Path
from typing import Any

from inventory.errors import InventoryError, WrongInput
from inventory.stock.survival import Curve

FORMATS = (".svg", ".png")
"""Endings that can be written."""


def survival_figure(
    curve: Curve, path: Path, *, title: str = "", unit: str = "months", conf: float = 0.95
) -> Path:
    """Write the curve with its Greenwood band as SVG or PNG; returns the path.

    Raises ``WrongInput`` for another ending, ``InventoryError`` where matplotlib is missing.
    """
    if path.suffix.lower() not in FORMATS:
        raise WrongInput(
            f"A drawing is written as .svg or .png, not {path.suffix or 'no ending'!r}."
        )
    figure = _blank()
    axes = figure.add_subplot()
    ages, shares, lows, highs = _steps(curve, conf)
    axes.fill_between(ages, lows, highs, step="post", alpha=0.2, label=f"{conf:.0%} band")
    axes.step(ages, shares, where="post", label="still good")
    axes.set(ylim=(0, 1.02), xlim=(0, max(ages) or 1), xlabel=unit, ylabel="share still good")
    axes.set_title(title or f"{curve.failures} of {curve.pieces} failed")
    axes.legend(loc="lower left")
    plain = {"Date": None} if path.suffix.lower() == ".svg" else {}
    figure.savefig(path, format=path.suffix.lower()[1:], metadata=plain)
    return path


def _blank() -> Any:
    """An empty figure, or one sentence about the missing library."""
    try:
        import matplotlib as mpl
        from matplotlib.figure import Figure
    except ImportError as error:
        raise InventoryError(
            "Drawing to a file needs matplotlib: install the extra with"
            " pip install 'inventory[plot]'."
        ) from error
    mpl.rcParams["svg.hashsalt"] = "inventory"
    return Figure(figsize=(7, 4.2), layout="constrained")


def _steps(curve: Curve, conf: float) -> tuple[list[float], list[float], list[float], list[float]]:
    """Ages, shares and band, from age 0 to the largest age seen."""
    ages, shares, lows, highs = [0.0], [1.0], [1.0], [1.0]
    for step in curve.steps:
        low, high = step.interval(conf)
        for values, value in (
            (ages, step.time),
            (shares, step.survival),
            (lows, low),
            (highs, high),
        ):
            values.append(value)
    for values in (shares, lows, highs):
        values.append(values[-1])
    return [*ages, curve.longest], shares, lows, highs
