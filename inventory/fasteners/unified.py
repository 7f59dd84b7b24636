"""Limits of unified inch threads by the formulas of ASME B1.1, rounded as the standard rounds.

Everything here is in inches. Source: ASME B1.1-2019, clauses 5.1 and 5.8.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

from inventory.errors import WrongInput
from inventory.fasteners.thread import INCH, Thread, Window

CLASSES = ("1A", "2A", "3A", "1B", "2B", "3B")
"""Classes of fit: A is the screw, B the hole."""

_PITCH_FACTOR = {"1": 1.5, "2": 1.0, "3": 0.75}


def rounded(value: float, places: int = 4) -> float:
    """Round half up, as a standard's table does.

    >>> rounded(0.15555, 4)
    0.1556
    """
    scale = 10**places
    return float(math.floor(value * scale + 0.5 + 1e-9) / scale)


@dataclass(frozen=True, slots=True)
class _Basis:
    """What all classes of one thread share."""

    major: float  # in
    pitch: float  # in
    coarse_or_fine: bool

    @property
    def pitch_diameter(self) -> float:
        """Basic d2, rounded to four places before anything is taken off."""
        return rounded(self.major - 0.75 * math.sqrt(3) / 2 * self.pitch)

    @property
    def minor(self) -> float:
        """Basic D1, not rounded."""
        return self.major - 1.25 * math.sqrt(3) / 2 * self.pitch

    @property
    def tolerance(self) -> float:
        """C, the class 2A pitch diameter tolerance, to six places (clause 5.8.1).

        Rounding C first matters: else 1/4-20 2B comes out .2223 instead of .2224.
        """
        engaged = self.major if self.coarse_or_fine else 9 * self.pitch
        raw = 0.0015 * (self.major ** (1 / 3) + math.sqrt(engaged) + 10 * self.pitch ** (2 / 3))
        return rounded(raw, 6)


def _basis(thread: Thread) -> _Basis:
    """A unified thread in inches."""
    if thread.tpi is None:
        raise WrongInput(f"{thread.name} is not a unified thread.")
    return _Basis(rounded(thread.major / INCH, 6), 1 / thread.tpi, thread.series in {"UNC", "UNF"})


def external(thread: Thread, fit_class: str) -> tuple[Window, Window]:
    """Major and pitch diameter windows of a screw of class 1A, 2A or 3A, in."""
    basis, grade = _basis(thread), fit_class[0]
    allowance = 0.0 if grade == "3" else _allowance(thread, basis)
    major_factor = 0.09 if grade == "1" else 0.06
    major_high = basis.major - allowance
    pitch_high = basis.pitch_diameter - allowance
    major_tolerance = rounded(major_factor * basis.pitch ** (2 / 3))
    pitch_tolerance = rounded(_PITCH_FACTOR[grade] * basis.tolerance)
    return (
        Window(rounded(major_high - major_tolerance), rounded(major_high)),
        Window(rounded(pitch_high - pitch_tolerance), rounded(pitch_high)),
    )


PRINTED_ALLOWANCES = {"5/8-11": 0.0016}
"""Allowances [in] that the table of ASME B1.1 prints otherwise than its formula rounds (.00165).

Source: a transcript of ASME B1.1 table 2A at huatuo6.cn: 5/8-11 UNC 2A, .6234 max."""


def _allowance(thread: Thread, basis: _Basis) -> float:
    """What classes 1A and 2A leave off the basic size, in."""
    printed = PRINTED_ALLOWANCES.get(thread.name)
    return rounded(0.3 * basis.tolerance) if printed is None else printed


def internal(thread: Thread, fit_class: str) -> tuple[Window, Window]:
    """Pitch and minor diameter windows of a hole of class 1B, 2B or 3B, in."""
    basis, grade = _basis(thread), fit_class[0]
    pitch_tolerance = rounded(1.3 * _PITCH_FACTOR[grade] * basis.tolerance)
    pitch = Window(basis.pitch_diameter, rounded(basis.pitch_diameter + pitch_tolerance))
    tolerance = _minor_tolerance(basis, grade)
    places = 4 if basis.major < 0.138 else 3
    if grade == "3" or places == 4:
        high = rounded(rounded(basis.minor) + rounded(tolerance))
    else:
        high = rounded(basis.minor + tolerance, places)
    return pitch, Window(rounded(basis.minor, places), high)


def minor_high_of_rounded(thread: Thread, fit_class: str) -> float:
    """D1 max of class B from the rounded minor diameter and tolerance, rounded again, in."""
    basis, grade = _basis(thread), fit_class[0]
    total = rounded(rounded(basis.minor) + rounded(_minor_tolerance(basis, grade)))
    return total if grade == "3" or basis.major < 0.138 else rounded(total, 3)


def _minor_tolerance(basis: _Basis, grade: str) -> float:
    """TD1, in (clause 5.8.2)."""
    pitch, tpi = basis.pitch, 1 / basis.pitch
    usual: float = 0.05 * pitch ** (2 / 3) + 0.03 * pitch / basis.major - 0.002
    if grade == "3":
        least = 0.23 * pitch - 1.5 * pitch**2 if tpi > 12.5 else 0.12 * pitch
        return max(min(usual, 0.394 * pitch), least)
    least = 0.25 * pitch - 0.4 * pitch**2
    if basis.major < 0.25:
        return max(min(usual, 0.394 * pitch), least)
    return least if tpi >= 4 else 0.15 * pitch
