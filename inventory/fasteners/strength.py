"""What a thread carries: stress and shear areas, length of engagement, loads and torque.

Formulas (1b) to (16) of FED-STD-H28/2B, table II.B.1 (public domain); areas in mm², lengths in
mm, stresses in MPa, loads in N unless a name says otherwise.
"""

from __future__ import annotations

import math

from inventory.errors import WrongInput
from inventory.fasteners import tables
from inventory.fasteners.thread import INCH, TAN30, System, Thread
from inventory.fasteners.threads import limits

LBF = 4.4482216152605
"""Newtons in a pound-force. Source: NIST SP 811, appendix B.8."""

KSI = 6.894757293168
"""Megapascals in 1000 psi. Source: NIST SP 811, appendix B.8."""

NUT_FACTORS = {"dry": 0.20, "oiled": 0.15, "zinc": 0.18}
"""K in T = K d F. Source: common trade tables; scatter of 30 % is normal."""

PRELOAD_SHARE = 0.75
"""Preload as a share of the proof load. Source: common practice for screws that come out again."""

ENGAGEMENT_RULE = {"steel": 1.0, "cast iron": 1.5, "brass": 1.5, "aluminium": 2.0, "zinc": 2.0}
"""Length of engagement in diameters. Source: common practice; the formulas here ask for less."""

_ISO_ROOT, _INCH_ROOT = 0.938194, 0.974279


def stress_area(thread: Thread) -> float:
    """Tensile stress area As, mm²; each system by its own formula (they differ by 1.5 %).

    Source: ISO 898-1:2013, 9.1.6.1 (d - 0.938194 P); FED-STD-H28/2B (1b) (d - 0.974279 P).
    """
    factor = _INCH_ROOT if thread.system is System.UNIFIED else _ISO_ROOT
    return math.pi / 4 * (thread.major - factor * thread.pitch) ** 2


def tensile_ratio(screw: Thread, own: Thread) -> float:
    """Tensile strength of a substitute over that of the right screw, like with like."""
    area = [(one.major - _ISO_ROOT * one.pitch) ** 2 for one in (screw, own)]
    return area[0] / area[1]


def shear_area_hole(screw: Thread, hole: Thread, engaged: float) -> float:
    """AS_n, the hole's thread sheared at the screw's crest, mm². Source: FED-STD-H28/2B (2a)."""
    crest = limits(screw).screw_mm().major.low
    flank = limits(hole).hole_mm().pitch.high
    tooth = hole.pitch / 2 + TAN30 * (crest - flank)
    return max(0.0, math.pi * engaged / hole.pitch * crest * tooth)


def shear_area_screw(screw: Thread, hole: Thread, engaged: float) -> float:
    """AS_s, the screw's thread sheared at the hole's crest, mm². Source: FED-STD-H28/2B (4a)."""
    crest = limits(hole).hole_mm().minor.high
    flank = limits(screw).screw_mm().pitch.low
    tooth = screw.pitch / 2 + TAN30 * (flank - crest)
    return max(0.0, math.pi * engaged / screw.pitch * crest * tooth)


def strip_load(screw: Thread, hole: Thread, engaged: float, uts_hole: float) -> float:
    """Load at which the hole's thread strips, N: AS_n UTS / 2. Source: FED-STD-H28/2B (14)."""
    return shear_area_hole(screw, hole, engaged) * uts_hole / 2


def engagement_equal(thread: Thread) -> float:
    """LE for full screw strength, like materials, mm: 4 As/(π d2). Source: FED-STD-H28/2B (13)."""
    return 4 * stress_area(thread) / (math.pi * thread.pitch_diameter)


def engagement_strong_hole(thread: Thread) -> float:
    """LE where the hole is stronger, mm: 2 As/(AS_s per mm). Source: FED-STD-H28/2B (14)."""
    return 2 * stress_area(thread) / shear_area_screw(thread, thread, 1.0)


def engagement_weak_hole(thread: Thread, uts_screw: float, uts_hole: float) -> float:
    """LE where the hole is weaker, mm. Source: FED-STD-H28/2B (16)."""
    per_mm = shear_area_hole(thread, thread, 1.0)
    return 2 * stress_area(thread) / per_mm * uts_screw / uts_hole


def property_class(name: str) -> tables.Row:
    """The table row of a property class or grade, e.g. 4.8, A2-70, SAE J82 60M, Gr 5."""
    key = _class_key(name)
    for row in tables.rows("property_classes"):
        if _class_key(row["class"]) == key:
            return row
    raise WrongInput(f"Property class {name!r} is not known here.")


def _class_key(name: str) -> str:
    """A class name without the words makers leave out.

    >>> _class_key("SAE J429 Grade 5"), _class_key("gr. 5")
    ('gr5', 'gr5')
    """
    short = name.lower().replace("grade", "gr").replace("gr.", "gr")
    for word in ("sae", "j429", "j82", "class", " "):
        short = short.replace(word, "")
    return short


ABOVE_M16 = {"8.8": {"proof": 600.0, "tensile": 830.0}}
"""MPa of a class in sizes above M16. Source: ISO 898-1:2013, table 3."""


def _stress(name: str, which: str, thread: Thread | None = None) -> float:
    """Proof or tensile stress of a class in MPa, for a size where sizes differ."""
    row = property_class(name)
    large = thread is not None and thread.system is System.METRIC and thread.major > 16
    if large and row["class"] in ABOVE_M16:
        return ABOVE_M16[row["class"]][which]
    return float(row[which]) * (KSI if row["unit"] == "ksi" else 1.0)


def tensile_stress(name: str) -> float:
    """Least tensile stress of a class, MPa."""
    return _stress(name, "tensile")


def proof_stress(name: str) -> float:
    """Proof stress of a class, MPa."""
    return _stress(name, "proof")


def proof_load(thread: Thread, name: str) -> float:
    """Proof load, N: the printed figure where there is one, else As times the proof stress."""
    return _printed_load(thread, name, "proof") or stress_area(thread) * _stress(
        name, "proof", thread
    )


def ultimate_load(thread: Thread, name: str) -> float:
    """Least breaking load, N: the printed figure where there is one, else As times tensile."""
    printed = _printed_load(thread, name, "ultimate")
    return printed or stress_area(thread) * _stress(name, "tensile", thread)


def _printed_load(thread: Thread, name: str, column: str) -> float | None:
    """A load printed in ISO 898-1 for a coarse thread."""
    if thread.series != "coarse":
        return None
    for row in tables.rows("proof_loads"):
        if row["thread"] == thread.size and row["class"] == name.strip():
            return float(row[column])
    return None


def torque(thread: Thread, name: str, finish: str = "dry") -> float:
    """Highest sensible torque of a steel screw in a full thread, N m: K d (0.75 Fp)."""
    if finish not in NUT_FACTORS:
        raise WrongInput(f"Friction {finish!r} is not known; use dry, oiled or zinc.")
    force = PRELOAD_SHARE * proof_load(thread, name)
    return NUT_FACTORS[finish] * thread.major / 1000 * force


def sheet_torque(screw: Thread, hole: Thread, engaged: float, uts_hole: float = 300.0) -> float:
    """Torque ceiling where the sheet strips first, N m: K d at 0.6 of the strip load.

    A ceiling, not a target. 300 MPa is mild appliance sheet; 0.6 is our margin.
    """
    force = 0.6 * strip_load(screw, hole, engaged, uts_hole)
    return NUT_FACTORS["dry"] * screw.major / 1000 * force


def lbf(newtons: float) -> float:
    """Newtons in pounds-force."""
    return newtons / LBF


def in_lb(newton_metres: float) -> float:
    """Newton metres in inch-pounds."""
    return newton_metres / LBF * 1000 / INCH
