"""What the screw goes into, and the holes tables ask for: pilot, tap and clearance."""

from __future__ import annotations

import re
from dataclasses import dataclass
from enum import StrEnum

from inventory.errors import WrongInput
from inventory.fasteners import tables
from inventory.fasteners.thread import INCH, Form, System, Thread, Window
from inventory.fasteners.threads import limits
from inventory.units import plain


class HoleKind(StrEnum):
    """Kinds of hole with a thread in it."""

    NUT = "nut"  # hard tapped nut, cage nut, weld nut
    SHEET = "sheet"  # plain sheet, the hole formed to a lip of about one turn
    EXTRUDED = "extruded"  # sheet plunged and tapped
    FORMED = "formed"  # thread formed by a tapping screw
    BOSS = "boss"  # plastic boss
    UNKNOWN = "unknown"


HOLE_NAMES = {
    HoleKind.NUT: "hard tapped nut",
    HoleKind.SHEET: "plain sheet with formed lip",
    HoleKind.EXTRUDED: "extruded and tapped sheet",
    HoleKind.FORMED: "thread formed by a tapping screw",
    HoleKind.BOSS: "plastic boss",
    HoleKind.UNKNOWN: "unknown hole",
}
"""The kinds in words."""

_WORDS = (
    (HoleKind.BOSS, r"plastics?|boss"),
    (HoleKind.EXTRUDED, r"extru|plunged|tapped sheet|collar"),
    (HoleKind.FORMED, r"^formed$|formed by|form(?:ed|ing) thread|thread.?form|tapping|self.?tap"),
    (HoleKind.NUT, r"nut|hard|tapped|weld|cage|insert|blind hole|solid"),
    (HoleKind.SHEET, r"sheet|lip|plain|cabinet|thin"),
    (HoleKind.UNKNOWN, r"unknown|not known|\?|^$"),
)
"""Words that name a hole, the telling ones first."""

SHEET_MM = 1.0
"""Thickness taken where nobody measured: appliance cabinets are 0.6 to 1.2 mm (common practice)."""

EXTRUSION_FACTOR = 2.0
"""Height of a plunged hole over the sheet. Source: tooling makers give 2 to 2.5; the low end."""

NUT_FACTOR = 0.8
"""Height of an ordinary nut in diameters. Source: ISO 4032, about 0.8 d to 0.9 d."""


@dataclass(frozen=True, slots=True)
class Place:
    """A hole with what is known of it; ``engaged`` None means that it was not measured."""

    kind: HoleKind
    sheet: float | None = None  # mm
    engaged: float | None = None  # mm of thread in mesh

    @property
    def ductile(self) -> bool:
        """Sheet gives way and re-forms; a nut does not; of an unknown hole nothing is claimed."""
        return self.kind in {HoleKind.SHEET, HoleKind.EXTRUDED, HoleKind.FORMED}

    def length(self, thread: Thread) -> tuple[float, str | None]:
        """Engaged length, mm, and the sentence that says so if it was assumed."""
        if self.engaged is not None:
            return self.engaged, None
        if self.kind in {HoleKind.SHEET, HoleKind.FORMED, HoleKind.EXTRUDED}:
            return self._in_sheet()
        factor = 2.0 if self.kind is HoleKind.BOSS else NUT_FACTOR
        length = factor * thread.major
        return length, f"engaged length not given: {plain(round(length, 2))} mm assumed"

    def _in_sheet(self) -> tuple[float, str | None]:
        """The length a sheet gives."""
        sheet = self.sheet or SHEET_MM
        length = sheet * (EXTRUSION_FACTOR if self.kind is HoleKind.EXTRUDED else 1.0)
        said = None if self.sheet else f"sheet not measured: {plain(sheet)} mm assumed"
        return length, said


def hole_kind(text: str) -> HoleKind:
    """The kind of hole a few words name; words that name none are refused.

    >>> hole_kind("extruded and tapped sheet")
    <HoleKind.EXTRUDED: 'extruded'>
    """
    folded = text.strip().lower().replace("-", " ").replace("_", " ")
    for kind, words in _WORDS:
        if re.search(words, folded):
            return kind
    known = ", ".join(kind.value for kind in HoleKind)
    raise WrongInput(f"No kind of hole is called {text[:40]!r}; use one of {known}.")


@dataclass(frozen=True, slots=True)
class Pilot:
    """The hole a thread-forming or tapping screw wants in steel sheet."""

    hole: float  # mm, drilled
    punched: float | None  # mm; None: not listed
    thinnest: float | None  # mm of sheet; None: not listed

    def says(self, sheet: float) -> str:
        """The need in words, as the tables give it."""
        if self.punched is not None and self.punched > self.hole:
            need = f"needs {_one_place(self.hole)}-{_one_place(self.punched)} mm"
        else:
            need = f"needs {_one_place(self.hole)} mm"
        if self.thinnest is not None and sheet < self.thinnest:
            need += f" (and listed from {_one_place(self.thinnest)} mm)"
        return need

    def takes(self, hole: float, sheet: float) -> bool:
        """True when a hole is right, 0.1 mm under to 0.15 mm over or up to the punched size."""
        thick_enough = self.thinnest is None or sheet >= self.thinnest
        top = max(self.hole + 0.15, self.punched or 0.0)
        return thick_enough and self.hole - 0.1 - 1e-9 <= hole <= top + 1e-9


def _one_place(value: float) -> str:
    """3.6, 4.0: a hole size as drills are named."""
    return f"{value:.1f}" if round(value, 1) == value else plain(value)


def pilot(thread: Thread, sheet: float) -> Pilot | None:
    """The pilot hole in steel sheet; None where the tables have none."""
    if thread.form is Form.FORMING:
        return _forming_pilot(thread, sheet)
    if thread.form is Form.TAPPING:
        return _tapping_pilot(thread, sheet)
    return None


def _forming_pilot(thread: Thread, sheet: float) -> Pilot | None:
    """DIN 7500-2."""
    for row in tables.rows("forming_threads"):
        if float(row["d"]) == thread.major:
            hole = row["hole_thin"] if sheet <= 2 else row["hole_4mm"]
            return Pilot(float(hole), None, float(row["sheet_min"]))
    return None


def _tapping_pilot(thread: Thread, sheet: float) -> Pilot | None:
    """The ISO 1478 hole table for steel; sizes it leaves out take the AB drill for light metal."""
    for row in tables.rows("pilot_holes"):
        listed = float(row["st"]) == thread.major
        if listed and float(row["over"]) < sheet <= float(row["upto"]):
            return Pilot(float(row["hole"]), tables.number(row["punched"]), None)
    for row in tables.rows("tapping_threads"):
        if float(row["st"]) == thread.major and row["pilot_in"]:
            return Pilot(round(float(row["pilot_in"]) * INCH, 2), None, None)
    return None


def tap_drill(thread: Thread) -> float | None:
    """The usual tap drill, mm; d - P for a metric thread the table leaves out."""
    for row in tables.rows("tap_drills"):
        if row["thread"] == thread.name:
            inch = tables.number(row["drill_in"])
            return inch * INCH if inch is not None else tables.number(row["drill_mm"])
    return thread.major - thread.pitch if thread.system is System.METRIC else None


def clearance(thread: Thread) -> dict[str, float] | None:
    """Clearance holes fine, medium and coarse, mm; None where the tables have none."""
    for row in tables.rows("clearance_holes"):
        if row["size"] == thread.size:
            factor = INCH if row["unit"] == "in" else 1.0
            return {name: float(row[name]) * factor for name in ("fine", "medium", "coarse")}
    return None


def widest(thread: Thread) -> float:
    """The largest diameter of a screw's thread, mm: what must pass the part above."""
    if thread.crest is not None:
        return thread.crest.high
    if thread.is_machine:
        return limits(thread).screw_mm().major.high
    return thread.major + 0.1


def passes(thread: Thread, hole: float) -> bool:
    """True when a screw's thread goes through a plain hole of that diameter, mm."""
    return widest(thread) < hole


def core_window(thread: Thread) -> Window:
    """The core of a screw's thread, mm."""
    if thread.core is not None:
        return thread.core
    if not thread.is_machine:
        return Window(thread.minor, thread.minor)
    flank = limits(thread).screw_mm().pitch
    depth = thread.pitch_diameter - thread.root
    return Window(flank.low - depth, flank.high - depth)
