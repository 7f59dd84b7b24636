"""Tolerances of metric threads after ISO 965-1: tables where printed, formulas elsewhere.

Grade 6 is tabulated; the other grades stand four steps of the R40 series apart, which gives
back every printed figure. Everything here is in micrometres, pitch and diameter in mm.
"""

from __future__ import annotations

import math
import re

from inventory.errors import WrongInput
from inventory.fasteners import tables

R40 = (
    *(100, 106, 112, 118, 125, 132, 140, 150, 160, 170, 180, 190, 200, 212, 224, 236, 250),
    *(265, 280, 300, 315, 335, 355, 375, 400, 425, 450, 475, 500, 530, 560, 600, 630, 670),
    *(710, 750, 800, 850, 900, 950),
)
"""Preferred numbers. Source: ISO 3:1973, R40; two-figure values are rounded half down to even
as the tables print them (42.5 to 42, 47.5 to 48)."""

STEPS_PER_GRADE = 4
"""Neighbouring tolerance grades differ by 1.25, that is R10, four steps of R40.

Source: ISO 965-1:2013, clause 13; checked against its tables in the tests."""

_CLASS = re.compile(r"([3-9])([A-Za-z])(?:([3-9])([A-Za-z]))?")


class ToleranceClass:
    """A tolerance class such as ``6g``, ``4g6h`` or ``5H6H``: pitch diameter, then crest."""

    def __init__(self, text: str) -> None:
        found = _CLASS.fullmatch(text.strip())
        if found is None:
            raise WrongInput(f"Not a metric tolerance class: {text!r}. Write it like 6g or 4g6h.")
        self.text = text.strip()
        self.pitch_grade, self.pitch_position = int(found[1]), found[2]
        self.crest_grade = int(found[3] or found[1])
        self.crest_position = found[4] or found[2]
        if self.pitch_position.isupper() != self.crest_position.isupper():
            raise WrongInput(f"{text!r} mixes a screw's class with a hole's.")

    @property
    def is_internal(self) -> bool:
        """True for a hole: its positions are capital letters."""
        return self.pitch_position.isupper()


def step(value: float, steps: int) -> float:
    """A tabulated tolerance moved along R40, µm.

    >>> step(75, -4), step(118, 4)
    (60.0, 150.0)
    """
    decade = 10 ** (math.floor(math.log10(value)) - 2)
    start = min(range(len(R40)), key=lambda i: abs(R40[i] * decade - value))
    decades, place = divmod(start + steps, len(R40))
    moved = R40[place] * float(decade * 10**decades)
    return moved if moved >= 100 else float(round(moved))


def _pitch_row(pitch: float) -> tables.Row | None:
    """The line of a pitch, if the standard lists it."""
    for row in tables.rows("iso_965_pitch"):
        if math.isclose(float(row["pitch"]), pitch, abs_tol=1e-9):
            return row
    return None


_DEVIATION = {"g": (15, 11), "f": (30, 11), "e": (50, 11)}
"""Formula of the fundamental deviations, a + b P in µm. Source: ISO 965-1:2013, clause 13."""


def deviation(pitch: float, position: str) -> float:
    """Fundamental deviation es or EI in µm, as a positive number; 0 for h and H."""
    low = position.lower()
    if low == "h":
        return 0.0
    if low not in _DEVIATION or position in {"E", "F"}:
        raise WrongInput(f"There is no tolerance position {position!r}; use e, f, g, h, G or H.")
    row = _pitch_row(pitch)
    if row is not None and row[low]:
        return float(row[low])
    base, slope = _DEVIATION[low]
    return round(base + slope * pitch)


def crest_tolerance(pitch: float, grade: int, *, internal: bool) -> float:
    """Td of a screw's major or TD1 of a hole's minor diameter, µm."""
    row = _pitch_row(pitch)
    printed = tables.number(row["td1" if internal else "td"]) if row else None
    if printed is not None:
        return step(printed, STEPS_PER_GRADE * (grade - 6))
    return _crest_formula(pitch, internal=internal) * 1.25 ** (grade - 6)


def _crest_formula(pitch: float, *, internal: bool) -> float:
    """Grade 6, µm. Source: ISO 965-1:2013, clause 13.3."""
    if not internal:
        return float(180 * pitch ** (2 / 3) - 3.15 / math.sqrt(pitch))
    if pitch < 1:
        return float(433 * pitch - 190 * pitch**1.22)
    return float(230 * pitch**0.7)


GRADE_FACTORS = {3: 0.5, 4: 0.63, 5: 0.8, 6: 1.0, 7: 1.25, 8: 1.6, 9: 2.0}
"""Td2 of a grade over grade 6. Source: ISO 965-1:2013, clause 13.4; FED-STD-H28/21B, 6.6.1."""

HOLE_FACTORS = {4: 0.85, 5: 1.06, 6: 1.32, 7: 1.7, 8: 2.12}
"""TD2 of a grade over Td2 of grade 6. Source: ISO 965-1:2013, clause 13.4."""


def pitch_tolerance(major: float, pitch: float, grade: int, *, internal: bool) -> float:
    """Td2 or TD2, µm; the formula where the standard lists no such pair.

    >>> round(pitch_tolerance(29, 1.25, 4, internal=False), 2)
    86.81
    """
    factors = HOLE_FACTORS if internal else GRADE_FACTORS
    if grade not in factors:
        raise WrongInput(f"There is no pitch diameter grade {grade} for this side of a thread.")
    for row in tables.rows("iso_965_pitch_diameter"):
        listed = math.isclose(float(row["pitch"]), pitch, abs_tol=1e-9)
        if listed and float(row["over"]) < major <= float(row["upto"]):
            printed = tables.number(row["tD2" if internal else "td2"])
            if printed is not None:
                return step(printed, STEPS_PER_GRADE * (grade - 6))
    return float(90 * pitch**0.4 * major**0.1 * factors[grade])
