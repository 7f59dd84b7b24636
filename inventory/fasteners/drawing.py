"""The two profiles of a screw in a hole over the engaged length: as text, and as SVG.

Seen in axial section, the axis running left to right below the picture. Mean dimensions; the
screw is slid along to where it has most room. Text uses plain characters and no colour.
"""

from __future__ import annotations

from dataclasses import dataclass
from xml.sax.saxutils import escape

from inventory.fasteners.contact import Condition, Hole, Screw, free_turns, hole_at, play, screw_at
from inventory.fasteners.thread import TAN30, Thread

WIDTH = 72
"""Columns of the text drawing; with its margin it fits 80."""

HEIGHT = 13
"""Rows of the text drawing."""

MOST_PITCHES = 8.0
"""More turns than this are not drawn: they only repeat."""

Point = tuple[float, float]
"""Place along the axis and radius, mm."""


@dataclass(frozen=True, slots=True)
class Section:
    """A screw and a hole to be drawn."""

    screw: Screw
    hole: Hole
    screw_name: str
    hole_name: str
    length: float  # mm drawn

    @property
    def shift(self) -> float:
        """How far along the screw sits: its first tooth leans on the near flank.

        In a finer screw the teeth fall behind, in a coarser one they run ahead; the first
        groove's play is put on the side the drift eats up last.
        """
        half = max(0.0, play(self.screw, self.hole)) / 2
        return half if self.screw.pitch < self.hole.pitch else -half

    def screw_radius(self, z: float) -> float:
        """Radius of the screw's surface, mm."""
        screw = self.screw
        off = _from_middle(z - self.shift - self.hole.pitch / 2, screw.pitch)
        flank = screw.pitch_diameter / 2 + (screw.pitch / 4 - off) / TAN30
        return min(max(flank, screw.root / 2), screw.major / 2)

    def hole_radius(self, z: float) -> float:
        """Radius of the hole's surface, mm; its root reaches one eighth of H past the size."""
        hole = self.hole
        off = _from_middle(z - hole.pitch / 2, hole.pitch)
        flank = hole.pitch_diameter / 2 + (hole.pitch / 4 - off) / TAN30
        return min(max(flank, hole.minor / 2), hole.major / 2 + hole.height / 24)

    def contacts(self, samples: int = 2000) -> tuple[float, ...]:
        """Places along the axis where screw metal would lie in hole metal, mm."""
        step = self.length / samples
        spots = (step * (index + 0.5) for index in range(samples))
        return tuple(z for z in spots if self.screw_radius(z) > self.hole_radius(z) + 1e-6)

    @property
    def reach(self) -> tuple[float, float]:
        """The radii the picture spans, mm."""
        low = min(self.screw.root, self.hole.minor) / 2
        high = max(self.screw.major, self.hole.major) / 2
        margin = 0.15 * (high - low)
        return low - margin, high + margin


def _from_middle(z: float, pitch: float) -> float:
    """Distance from the nearest tooth's middle, mm; a tooth stands at 0."""
    turns = z / pitch
    return abs(turns - round(turns)) * pitch


def section(screw: Thread, hole: Thread, engaged: float) -> Section:
    """Mean screw in mean hole over the engaged length, at most ``MOST_PITCHES`` turns of it."""
    length = min(engaged, MOST_PITCHES * hole.pitch)
    return Section(
        screw_at(screw, Condition.MEAN),
        hole_at(hole, Condition.MEAN),
        screw.name,
        hole.name,
        length,
    )


MARKS = {(True, True): "X", (True, False): "+", (False, True): "#", (False, False): " "}
"""Screw metal here, hole metal here."""


def as_text(drawn: Section, width: int = WIDTH) -> str:
    """The section in plain characters, two columns wider than ``width``."""
    low, high = drawn.reach
    lines = []
    for row in range(HEIGHT):
        radius = high - (row + 0.5) * (high - low) / HEIGHT
        places = ((column + 0.5) * drawn.length / width for column in range(width))
        marks = (_mark(drawn, z, radius) for z in places)
        lines.append(f"  {''.join(marks)}".rstrip())
    return "\n".join([*lines, "  " + "-" * width, *_legend(drawn)])


def _mark(drawn: Section, z: float, radius: float) -> str:
    """One character of the drawing."""
    return MARKS[radius <= drawn.screw_radius(z), radius >= drawn.hole_radius(z)]


def _legend(drawn: Section) -> list[str]:
    """What the characters mean, and where metal meets metal."""
    where = _where(drawn)
    return [
        f"  + screw {drawn.screw_name}   # hole {drawn.hole_name}   X both: metal on metal",
        f"  {drawn.length:.2f} mm of engaged length, mean sizes; {where}",
    ]


def _where(drawn: Section) -> str:
    """When the flanks meet, counted over the whole turn and not in this one section."""
    turns = free_turns(drawn.screw, drawn.hole)
    if turns == float("inf"):
        return "the flanks never meet"
    return f"flanks meet after {turns:.1f} turns" if turns > 0 else "flanks meet at once"


SCALE = 100.0
"""SVG units in a millimetre."""


def as_svg(drawn: Section) -> str:
    """The section as one SVG document, with its legend; no script, no outside reference."""
    low, high = drawn.reach
    width, height = drawn.length * SCALE, (high - low) * SCALE
    screw = _path([*_outline(drawn, "screw"), (drawn.length, low), (0.0, low)], drawn)
    hole = _path([*_outline(drawn, "hole"), (drawn.length, high), (0.0, high)], drawn)
    title = escape(f"{drawn.screw_name} in {drawn.hole_name}, {_where(drawn)}")
    text = max(12.0, width / 40)
    return "\n".join(
        [
            '<?xml version="1.0" encoding="UTF-8"?>',
            _svg_head(width, height + 3 * text),
            f"<title>{title}</title>",
            '<rect width="100%" height="100%" fill="white"/>',
            f'<path class="hole" d="{hole}" fill="#b8b8b8" stroke="black" stroke-width="1"/>',
            f'<path class="screw" d="{screw}" {_SCREW_PAINT}/>',
            *_touch_marks(drawn, height),
            f'<text x="4" y="{height + 1.6 * text:.1f}" font-size="{text:.1f}">{title}</text>',
            "</svg>\n",
        ]
    )


_SCREW_PAINT = (
    'fill="#5b8fd0" fill-opacity="0.6" stroke="black" stroke-width="1" stroke-dasharray="6 3"'
)
"""The screw is blue and its outline broken, so that it reads without colour."""


def _svg_head(width: float, height: float) -> str:
    """The opening of the document."""
    box = f'viewBox="0 0 {width:.1f} {height:.1f}"'
    size = f'width="{width:.0f}" height="{height:.0f}"'
    return f'<svg xmlns="http://www.w3.org/2000/svg" {size} {box} role="img">'


def _outline(drawn: Section, which: str, samples: int = 800) -> list[Point]:
    """A surface from left to right."""
    radius = drawn.screw_radius if which == "screw" else drawn.hole_radius
    places = [drawn.length * index / samples for index in range(samples + 1)]
    return [(z, radius(z)) for z in places]


def _path(points: list[Point], drawn: Section) -> str:
    """A closed SVG path; radius grows upwards."""
    high = drawn.reach[1]
    corners = (f"{z * SCALE:.1f} {(high - radius) * SCALE:.1f}" for z, radius in points)
    return f"M{' L'.join(corners)} Z"


def _touch_marks(drawn: Section, height: float) -> list[str]:
    """A line under each stretch where metal meets metal."""
    return [
        f'<line class="touch" x1="{start * SCALE:.1f}" x2="{end * SCALE:.1f}"'
        f' y1="{height:.1f}" y2="{height:.1f}" stroke="#c00000" stroke-width="6"/>'
        for start, end in _stretches(drawn)
    ]


def _stretches(drawn: Section) -> list[Point]:
    """Runs of contact, from and to, mm."""
    touching = drawn.contacts()
    step = drawn.length / 2000
    runs: list[Point] = []
    for z in touching:
        if runs and z - runs[-1][1] < 1.5 * step:
            runs[-1] = (runs[-1][0], z)
        else:
            runs.append((z, z + step))
    return runs
