"""One thread: its basic profile, and the windows a real screw or hole may lie in.

Machine threads (metric and unified) share the 60 degree profile of ISO 68-1. Lengths are mm
throughout; inch figures appear only where a standard prints them.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from enum import StrEnum
from typing import NamedTuple

INCH = 25.4
"""Millimetres in an inch. Source: NIST SP 811, appendix B.8 (exact)."""

TAN30 = math.tan(math.radians(30))
"""Half the opening of a 60 degree flank, axial length per unit of radius."""


class System(StrEnum):
    """The families of thread this package tells apart."""

    METRIC = "M"
    UNIFIED = "UN"
    TAPPING = "ST"  # spaced thread, ISO 1478 and ASME AB
    PLASTICS = "K"  # 30 degree flank
    WHITWORTH = "W"  # 55 degree flank: BSW, BSF
    BA = "BA"  # 47.5 degree flank
    PIPE = "G"  # 55 degree pipe threads G and R, and the 60 degree taper NPT


class Profile(NamedTuple):
    """A thread's form in pitches: what pitch and minor diameter lie under the major one."""

    angle: float  # degrees between the flanks
    height: float  # H, the sharp triangle
    to_pitch: float  # d - d2
    to_minor: float  # d - d1


ISO_FORM = Profile(60.0, math.sqrt(3) / 2, 0.75 * math.sqrt(3) / 2, 1.25 * math.sqrt(3) / 2)
"""Source: ISO 68-1; ASME B1.1."""

FORMS = {
    System.WHITWORTH: Profile(55.0, 0.960491, 0.640327, 1.280654),
    System.PIPE: Profile(55.0, 0.960491, 0.640327, 1.280654),
    System.BA: Profile(47.5, 1.13634, 0.6, 1.2),
}
"""Forms that are not the ISO one. Source: BS 84:2007 and ISO 228-1:2000 (depth 0.640327 P);
BS 93:2008 (depth 0.6 P)."""


class Form(StrEnum):
    """How the screw's thread meets its hole."""

    MACHINE = "machine"
    FORMING = "forming"  # lobed, DIN 7500: forms an ordinary metric thread
    TAPPING = "tapping"  # spaced thread: forms or cuts its own
    PLASTICS = "plastics"


class Window(NamedTuple):
    """A dimension's limits."""

    low: float
    high: float

    @property
    def middle(self) -> float:
        """Half way between the limits."""
        return (self.low + self.high) / 2

    def gap(self, reading: float) -> float:
        """How far a reading lies outside; 0 inside.

        >>> Window(1.0, 2.0).gap(2.5)
        0.5
        """
        return max(self.low - reading, reading - self.high, 0.0)

    def scaled(self, factor: float) -> Window:
        """The same window in another unit."""
        return Window(self.low * factor, self.high * factor)


@dataclass(frozen=True, slots=True)
class Thread:
    """A nominal thread, e.g. M4x0.7, #8-32, ST4.2 / #8-18 AB, K40."""

    name: str
    major: float  # mm, nominal
    pitch: float  # mm
    system: System
    form: Form = Form.MACHINE
    tpi: int | None = None
    series: str = ""
    common: int = 0  # 5 in every drawer ... 0 hardly ever met
    core: Window | None = None  # mm; printed for tapping and plastics threads only
    crest: Window | None = None  # mm; printed for tapping and lobed threads only
    left: bool = False  # left-hand; a name that does not say so means right-hand

    @property
    def profile(self) -> Profile:
        """The form of the thread; ISO where the system has no other."""
        return FORMS.get(self.system, ISO_FORM)

    @property
    def height(self) -> float:
        """H, the height of the sharp triangle, mm. Source: ISO 68-1."""
        return self.profile.height * self.pitch

    @property
    def pitch_diameter(self) -> float:
        """Basic d2 = D2 = d - 3H/4, mm. Source: ISO 68-1; other forms as in ``FORMS``."""
        return self.major - self.profile.to_pitch * self.pitch

    @property
    def minor(self) -> float:
        """Basic d1 = D1 = d - 5H/4, mm. Source: ISO 68-1; other forms as in ``FORMS``."""
        return self.major - self.profile.to_minor * self.pitch

    @property
    def root(self) -> float:
        """Rounded root d3 = d - 17H/12, mm. Source: ISO 68-1, external root H/6 rounded.

        Whitworth, pipe and BA threads are rounded alike at crest and root: the minor diameter.
        """
        if self.system in FORMS:
            return self.minor
        return self.major - 17 / 12 * self.height

    @property
    def is_machine(self) -> bool:
        """True for metric and unified threads, the 60 degree family that this house computes."""
        return self.system in {System.METRIC, System.UNIFIED}

    @property
    def size(self) -> str:
        """The size without the pitch, e.g. M4, #8, 1/4, ST4.2.

        >>> Thread("M4x0.7", 4, 0.7, System.METRIC).size
        'M4'
        """
        if self.system is System.UNIFIED:
            return self.name.rsplit("-", 1)[0]
        if self.system is System.METRIC:
            return self.name.split("x", 1)[0]
        return self.name.split(" ", 1)[0]

    def same_as(self, other: Thread) -> bool:
        """Same diameter, pitch, family and hand: one thread under whatever name.

        A parallel G and a taper R pipe thread share the first three and are not the same.
        """
        return (
            self.system is other.system
            and self.left is other.left
            and (self.system is not System.PIPE or self.series == other.series)
            and math.isclose(self.major, other.major, abs_tol=1e-6)
            and math.isclose(self.pitch, other.pitch, abs_tol=1e-6)
        )
