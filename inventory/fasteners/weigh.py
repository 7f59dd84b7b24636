"""Counting screws on a scale, and how sure the count is."""

from __future__ import annotations

import math
from dataclasses import dataclass

from inventory.errors import WrongInput
from inventory.units import Quantity

SCALE_STEP = 0.1
"""Readability of a bench scale, g (common practice); its error is taken as one step."""

PIECE_SPREAD = 0.01
"""Spread of one screw's weight from the next in a lot, relative (common practice)."""


@dataclass(frozen=True, slots=True)
class Count:
    """A number of pieces by weight."""

    pieces: int  # nearest whole number
    low: int  # fewest the scale allows
    high: int  # most the scale allows
    piece: float  # g each

    @property
    def is_sure(self) -> bool:
        """True when only one whole number is possible."""
        return self.low == self.high == self.pieces

    @property
    def advice(self) -> str | None:
        """What would make the count sure."""
        if self.is_sure:
            return None
        return "weigh a larger sample than ten, or use a finer scale, or count by hand"


def count_by_weight(
    weight: float, sample: float, *, sample_pieces: int = 10, step: float = SCALE_STEP
) -> Count:
    """Pieces in ``weight`` when ``sample_pieces`` weigh ``sample``; all weights in grams.

    The bounds take the scale wrong by a step both times, the worse way round, and the pieces
    unlike each other by 1 %, which averages out over the sample and over the heap.

    >>> count_by_weight(38.0, 6.2).pieces
    61
    """
    if sample_pieces < 1:
        raise WrongInput("The sample holds at least one screw.")
    if sample <= step:
        raise WrongInput("The sample weighs no more than the scale can show; take more pieces.")
    nearest = weight / sample * sample_pieces
    spread = 2 * PIECE_SPREAD * math.sqrt(nearest + nearest**2 / sample_pieces)
    low = (weight - step) / (sample + step) * sample_pieces - spread
    high = (weight + step) / (sample - step) * sample_pieces + spread
    pieces = round(nearest)
    return Count(
        pieces,
        min(pieces, max(0, math.ceil(low))),
        max(pieces, math.floor(high)),
        sample / sample_pieces,
    )


def grams(text: str) -> float:
    """A weight as typed, in grams; anything else is a mistake.

    >>> grams("38g"), grams("0,62 kg")
    (38.0, 620.0)
    """
    amount = Quantity.parse(text)
    if amount.unit != "g":
        raise WrongInput(f"A weight is given in grams, not in {amount.unit}.")
    if amount.amount < 0:
        raise WrongInput("A weight is not negative.")
    return float(amount.amount)
