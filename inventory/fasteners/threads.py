"""Limits of size of any machine thread, metric or unified, under the names the standards use.

``limits("M4x0.7", "6g")`` is the screw, ``"6H"`` the hole, ``"6g/6H"`` both.
"""

from __future__ import annotations

from dataclasses import dataclass

from inventory.errors import WrongInput
from inventory.fasteners import iso965, unified
from inventory.fasteners.thread import FORMS, INCH, System, Thread, Window

USUAL = {System.METRIC: "6g/6H", System.UNIFIED: "2A/2B"}
"""The classes of ordinary shop screws and nuts. Source: ISO 965-1 clause 12; ASME B1.1 clause 4."""


@dataclass(frozen=True, slots=True)
class External:
    """A screw's limits; ``root`` is the rounded root d3, which only metric tables print."""

    major: Window
    pitch: Window
    root: Window | None = None

    def scaled(self, factor: float) -> External:
        """The same limits in another unit."""
        root = self.root.scaled(factor) if self.root else None
        return External(self.major.scaled(factor), self.pitch.scaled(factor), root)


@dataclass(frozen=True, slots=True)
class Internal:
    """A hole's limits."""

    pitch: Window
    minor: Window

    def scaled(self, factor: float) -> Internal:
        """The same limits in another unit."""
        return Internal(self.pitch.scaled(factor), self.minor.scaled(factor))


@dataclass(frozen=True, slots=True)
class Limits:
    """The limits of one thread in the unit its standard prints."""

    thread: Thread
    fit_class: str
    unit: str  # "mm" or "in"
    screw: External | None
    hole: Internal | None

    @property
    def _to_mm(self) -> float:
        return INCH if self.unit == "in" else 1.0

    def screw_mm(self) -> External:
        """The screw's limits in mm; asking a hole's class for them is a mistake."""
        if self.screw is None:
            raise WrongInput(f"Class {self.fit_class} is a hole's, not a screw's.")
        return self.screw.scaled(self._to_mm)

    def hole_mm(self) -> Internal:
        """The hole's limits in mm; asking a screw's class for them is a mistake."""
        if self.hole is None:
            raise WrongInput(f"Class {self.fit_class} is a screw's, not a hole's.")
        return self.hole.scaled(self._to_mm)

    def named(self) -> dict[str, float]:
        """The limits under their standard names, rounded to 0.001 mm or 0.0001 in."""
        places = 4 if self.unit == "in" else 3
        raw: dict[str, float] = {}
        if self.screw is not None:
            raw |= {"d_max": self.screw.major.high, "d_min": self.screw.major.low}
            raw |= {"d2_max": self.screw.pitch.high, "d2_min": self.screw.pitch.low}
        if self.hole is not None:
            raw |= {"D2_min": self.hole.pitch.low, "D2_max": self.hole.pitch.high}
            raw |= {"D1_min": self.hole.minor.low, "D1_max": self.hole.minor.high}
        return {name: unified.rounded(value, places) for name, value in raw.items()}


SMALLEST_USUAL = "5H/6h"
"""M1 to M1.4 have no allowance to spare. Source: ISO 965-2:1998, clause 4 (medium quality is
5H/6h up to M1.4, 6H/6g above)."""


def usual_class(thread: Thread) -> str:
    """The class of ordinary shop goods of a thread.

    >>> from inventory.fasteners.catalogue import metric
    >>> usual_class(metric(1.2, 0.25)), usual_class(metric(1.6, 0.35))
    ('5H/6h', '6g/6H')
    """
    tiny = thread.system is System.METRIC and thread.major <= 1.4
    return SMALLEST_USUAL if tiny else USUAL[thread.system]


def limits(thread: Thread, fit_class: str | None = None) -> Limits:
    """The limits of a thread; without a class those of ordinary shop goods."""
    if thread.system in FORMS:
        angle = f"{thread.profile.angle:g} degree flanks"
        raise WrongInput(f"{thread.name} has {angle}; only metric and unified limits are kept.")
    if not thread.is_machine:
        raise WrongInput(f"{thread.name} is not a machine thread; it has no classes of fit.")
    wanted = fit_class or usual_class(thread)
    screw: External | None = None
    hole: Internal | None = None
    for one in _parts(wanted):
        if thread.system is System.METRIC:
            tolerance = iso965.ToleranceClass(one)
            if tolerance.is_internal:
                hole = _metric_hole(thread, tolerance)
            else:
                screw = _metric_screw(thread, tolerance)
        elif one.upper().endswith("A"):
            screw = External(*unified.external(thread, _unified_class(one)))
        else:
            hole = Internal(*unified.internal(thread, _unified_class(one)))
    unit = "mm" if thread.system is System.METRIC else "in"
    return Limits(thread, wanted, unit, screw, hole)


def printed_both_ways(found: Limits) -> tuple[float, float] | None:
    """D1 max in the two roundings that editions of ASME B1.1 print; None where they agree.

    #10-24 2B is 0.15548 before rounding: the 2019 edition prints .155, FED-STD-H28/2B .156.
    """
    if found.hole is None or found.unit != "in":
        return None
    other = unified.minor_high_of_rounded(found.thread, found.fit_class.split("/")[-1])
    here = found.hole.minor.high
    return None if abs(other - here) < 1e-9 else (min(here, other), max(here, other))


def _parts(fit_class: str) -> list[str]:
    """``6g/6H`` and ``6H/6g`` are two classes, ``4g6h`` is one."""
    parts = [part.strip() for part in fit_class.split("/")]
    if len(parts) > 2:
        raise WrongInput(f"Not a class of fit: {fit_class!r}. Write it like 6g, 2A or 6g/6H.")
    return parts


def _unified_class(text: str) -> str:
    """One of the six unified classes."""
    if text.upper() not in unified.CLASSES:
        raise WrongInput(f"Not a unified class of fit: {text!r}. Write it like 2A or 2B.")
    return text.upper()


def _metric_screw(thread: Thread, tolerance: iso965.ToleranceClass) -> External:
    """D - es down to - Td; d2 - es down to - Td2. Source: ISO 965-1, clause 5."""
    crest = thread.major - iso965.deviation(thread.pitch, tolerance.crest_position) / 1000
    es = iso965.deviation(thread.pitch, tolerance.pitch_position) / 1000
    flank, root = thread.pitch_diameter - es, thread.root - es
    td = iso965.crest_tolerance(thread.pitch, tolerance.crest_grade, internal=False)
    td2 = iso965.pitch_tolerance(thread.major, thread.pitch, tolerance.pitch_grade, internal=False)
    deepest = flank - td2 / 1000 - ROOT_DEPTH * thread.pitch
    return External(
        _printed(crest - td / 1000, crest),
        _printed(flank - td2 / 1000, flank),
        _printed(deepest, root),
    )


ROOT_DEPTH = 0.616025
"""d2 - d3 in pitches at the least root radius, P/8. Source: ASME B1.13M-2005, clause 8.

d3 max is the nominal root less es. Source: DIN 13-20; public limits of M1 to M5 agree."""


def _metric_hole(thread: Thread, tolerance: iso965.ToleranceClass) -> Internal:
    """D2 + EI up to + TD2; D1 + EI up to + TD1. Source: ISO 965-1, clause 5."""
    flank = thread.pitch_diameter
    flank += iso965.deviation(thread.pitch, tolerance.pitch_position) / 1000
    crest = thread.minor + iso965.deviation(thread.pitch, tolerance.crest_position) / 1000
    td2 = iso965.pitch_tolerance(thread.major, thread.pitch, tolerance.pitch_grade, internal=True)
    td1 = iso965.crest_tolerance(thread.pitch, tolerance.crest_grade, internal=True)
    return Internal(_printed(flank, flank + td2 / 1000), _printed(crest, crest + td1 / 1000))


def _printed(low: float, high: float) -> Window:
    """Limits as the metric tables print them, to 0.001 mm; what follows is computed from these."""
    return Window(unified.rounded(low, 3), unified.rounded(high, 3))
