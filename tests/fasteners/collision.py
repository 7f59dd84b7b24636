"""An independent check of the free turns: let the two whole profiles collide, step by step.

Nothing here is shared with the formula but the two records of dimensions. In an axial section
at some angle the screw is a zigzag of metal below a line, the hole a zigzag of metal above one;
both lines are straight between a few corners. The hole's metal ends at two flat faces. For a
given axial shift of the screw the lowest place where screw metal meets hole metal, over all
angles, is how deep the hole may be; the best shift gives the answer.
"""

from __future__ import annotations

import numpy as np
import numpy.typing as npt

from inventory.fasteners.contact import Hole, Screw

Array = npt.NDArray[np.float64]

TAN30 = float(np.tan(np.pi / 6))
ANGLES = 48
PITCHES = 7.0  # the search gives up here
SHARP = 1e-9  # mm


def _screw_radius(z: Array, screw: Screw) -> Array:
    """Radius of the screw's surface at height z; a crest lies at z = 0."""
    from_crest = np.abs((z / screw.pitch + 0.5) % 1 - 0.5) * screw.pitch
    flank = screw.pitch_diameter / 2 + (screw.pitch / 4 - from_crest) / TAN30
    return np.clip(flank, screw.root / 2, screw.major / 2)


def _hole_radius(z: Array, hole: Hole) -> Array:
    """Radius of the hole's surface at height z; a groove lies at z = 0 and is deep enough."""
    from_groove = np.abs((z / hole.pitch + 0.5) % 1 - 0.5) * hole.pitch
    flank = hole.pitch_diameter / 2 + (hole.pitch / 4 - from_groove) / TAN30
    return np.maximum(flank, hole.minor / 2)


def _corners(offsets: Array, pitch: float, shift: Array, top: float) -> Array:
    """Heights of the corners of a zigzag between 0 and top, for each shift."""
    turns = np.arange(-2, int(top / pitch) + 3) * pitch
    grid = (offsets[:, None] + turns[None, :]).ravel()
    return np.clip(grid + shift[..., None], 0.0, top)


def _screw_offsets(screw: Screw) -> Array:
    """Where the screw's zigzag bends, from the crest."""
    crest = screw.pitch / 4 - (screw.major - screw.pitch_diameter) / 2 * TAN30
    root = screw.pitch / 4 - (screw.root - screw.pitch_diameter) / 2 * TAN30
    return np.array([-root, -crest, crest, root])


def _hole_offsets(hole: Hole) -> Array:
    """Where the hole's zigzag bends, from the groove."""
    land = hole.pitch / 4 - (hole.minor - hole.pitch_diameter) / 2 * TAN30
    return np.array([-land, 0.0, land])


def _depths(screw: Screw, hole: Hole, shifts: Array) -> Array:
    """For each axial shift, the height at which metal first meets metal at any angle."""
    top = PITCHES * hole.pitch
    angle = np.arange(ANGLES) / ANGLES
    screw_shift = shifts[:, None] + angle[None, :] * screw.pitch
    hole_shift = np.broadcast_to(angle[None, :] * hole.pitch, screw_shift.shape)
    heights = np.concatenate(
        [
            _corners(_screw_offsets(screw), screw.pitch, screw_shift, top),
            _corners(_hole_offsets(hole), hole.pitch, hole_shift, top),
            np.zeros((*screw_shift.shape, 1)),
            np.full((*screw_shift.shape, 1), top),
        ],
        axis=-1,
    )
    heights.sort(axis=-1)
    room = _hole_radius(heights - hole_shift[..., None], hole) - _screw_radius(
        heights - screw_shift[..., None], screw
    )
    depths: Array = _first_crossing(heights, room, top).min(axis=1)
    return depths


def _first_crossing(heights: Array, room: Array, top: float) -> Array:
    """The height at which the room, straight between corners, first falls below zero."""
    bad = room < -SHARP
    first = np.where(bad.any(axis=-1), bad.argmax(axis=-1), -1)
    at = np.maximum(first, 1)[..., None]
    z0, z1 = (np.take_along_axis(heights, at - k, -1)[..., 0] for k in (1, 0))
    r0, r1 = (np.take_along_axis(room, at - k, -1)[..., 0] for k in (1, 0))
    with np.errstate(divide="ignore", invalid="ignore"):
        share = np.where(r0 > r1, np.clip(r0 / (r0 - r1), 0, 1), 0.0)
    crossing = np.where(first == 0, 0.0, z0 + share * (z1 - z0))
    return np.where(first < 0, top, crossing)


def turns_by_collision(screw: Screw, hole: Hole) -> float:
    """Turns of hole height the screw may fill before metal meets metal; at most ``PITCHES``."""
    width = screw.pitch
    centre, best = 0.0, 0.0
    for count in (161, 41, 41, 41):
        shifts = centre + np.linspace(-width / 2, width / 2, count)
        depths = _depths(screw, hole, shifts)
        best = max(best, float(depths.max()))
        centre = float(shifts[int(depths.argmax())])
        width *= 4 / count
    return best / hole.pitch
