"""Drives: their standard sizes, which driver turns which, and what a change does to tampering."""

from __future__ import annotations

import re
from dataclasses import dataclass
from enum import StrEnum

from inventory.fasteners import tables
from inventory.units import plain


class Kind(StrEnum):
    """Drives met on appliances."""

    HEXALOBULAR = "hexalobular"
    FIVE_LOBE = "five-lobe"  # five lobes and a pin: a hexalobular bit does not enter
    HEX = "hex"
    SQUARE = "square"
    CROSS_H = "cross H"
    CROSS_Z = "cross Z"
    CROSS_J = "cross J"
    SLOT = "slot"
    HEX_WASHER = "hex washer"  # outside hexagon, turned by a nut driver
    TRIANGLE = "triangle"
    TRI_WING = "tri-wing"
    TWO_HOLE = "two-hole"
    ONE_WAY = "one-way"
    SHEAR = "shear"


class Tamper(StrEnum):
    """What becomes of the tamper resistance."""

    KEPT = "kept"
    KEPT_OTHER_BIT = "kept, other bit"
    REDUCED = "reduced"
    LOST = "lost"
    RAISED = "raised"
    UNSERVICEABLE = "do not, unserviceable"
    UNKNOWN = "unknown"


@dataclass(frozen=True, slots=True)
class Drive:
    """A drive: kind, size as printed (None: not known), and whether a pin stands in it."""

    kind: Kind
    size: str | None = None
    pin: bool = False

    def __str__(self) -> str:
        return _named(self.kind, self.size, "pin-in" if self.pin else None)


_CLASS = {
    Kind.SLOT: 0,
    Kind.CROSS_H: 0,
    Kind.CROSS_Z: 0,
    Kind.CROSS_J: 0,
    Kind.HEXALOBULAR: 1,
    Kind.HEX: 1,
    Kind.SQUARE: 1,
    Kind.HEX_WASHER: 1,
    Kind.FIVE_LOBE: 2,
    Kind.TRIANGLE: 2,
    Kind.TRI_WING: 2,
    Kind.TWO_HOLE: 2,
    Kind.ONE_WAY: 3,
    Kind.SHEAR: 3,
}
"""0 household driver, 1 ordinary tool, 2 tamper-resistant, 3 not removable (our classes)."""

CLASS_NAMES = ("household driver", "ordinary tool", "tamper-resistant", "not removable")
"""What the tamper classes mean."""


def _named(kind: str, size: str | None, word: str | None) -> str:
    """``hexalobular pin-in 20``, ``cross H2``."""
    if kind.startswith("cross"):
        return f"{kind}{size or ''}"
    return " ".join(part for part in (kind, word, size) if part)


def tamper_class(drive: Drive) -> int:
    """The tamper class of a drive; a pin makes an ordinary one tamper-resistant."""
    return 2 if drive.pin else _CLASS[drive.kind]


def tamper(original: Drive | None, substitute: Drive | None) -> Tamper:
    """What a substitute does to the tamper resistance; an unknown drive is unknown, not equal."""
    if original is None or substitute is None:
        return Tamper.UNKNOWN
    before, after = tamper_class(original), tamper_class(substitute)
    if after == 3 and before != 3:
        return Tamper.UNSERVICEABLE
    if after > before:
        return Tamper.RAISED
    if after == before:
        return Tamper.KEPT if same_bit(original, substitute) else Tamper.KEPT_OTHER_BIT
    return Tamper.LOST if after == 0 else Tamper.REDUCED


def same_bit(one: Drive, other: Drive) -> bool:
    """True when the same driver turns both; an unknown size is not the same."""
    return one == other and one.size is not None


SOME_SECURITY_DRIVE = Drive(Kind.TRI_WING)
"""Stands for "a security drive, which one not said" where only its class is asked for."""

WARN_IF = "encloses live or high-voltage parts"
"""Where a lower tamper class needs a warning. Source: the IEC 60335 idea "access only with a
tool" (from memory); no clause found that demands a pin-in drive."""


@dataclass(frozen=True, slots=True)
class Turning:
    """Whether a driver turns a drive, and how well."""

    turns: bool | None  # None: not known
    why: str


@dataclass(frozen=True, slots=True)
class Driver:
    """A driver: what it fits, its size, and whether it is drilled for a pin."""

    kind: str
    size: str | None
    hollow: bool = False


_OWN_BIT = {Kind.FIVE_LOBE, Kind.TRIANGLE, Kind.TRI_WING, Kind.TWO_HOLE}
_PINNED = {Kind.HEXALOBULAR, Kind.HEX}


def turning(drive: Drive, driver: Driver) -> Turning:
    """Does this driver turn this drive?

    Source: trade pages on security fasteners, see reference section 5.2.
    """
    if drive.kind in {Kind.ONE_WAY, Kind.SHEAR}:
        return Turning(turns=False, why="made not to come out with any bit")
    if driver.kind == "blade":
        return _blade(drive)
    if drive.kind in {Kind.CROSS_H, Kind.CROSS_Z, Kind.CROSS_J}:
        return _cross(drive, driver)
    if driver.kind != drive.kind:
        why = "only its own bit" if drive.kind in _OWN_BIT else "another kind of driver"
        return Turning(turns=False, why=why)
    return _own_kind(drive, driver)


def _own_kind(drive: Drive, driver: Driver) -> Turning:
    """A driver of the right kind: its size and the pin decide."""
    if drive.size is None or driver.size is None:
        return Turning(turns=None, why="the size is not known")
    if drive.size != driver.size:
        return Turning(turns=False, why=f"size {drive.size}, not {driver.size}")
    if drive.pin and not driver.hollow:
        return Turning(turns=False, why="the pin keeps a solid driver out; a hollow one is needed")
    return Turning(turns=True, why="the right driver")


def _blade(drive: Drive) -> Turning:
    """A flat blade."""
    if drive.kind is Kind.SLOT:
        return Turning(turns=True, why="the right driver")
    if drive.kind is Kind.HEXALOBULAR and not drive.pin:
        return Turning(turns=None, why="sometimes, where a fitting blade spans two lobes")
    return Turning(turns=False, why="a flat blade finds no slot")


def _cross(drive: Drive, driver: Driver) -> Turning:
    """Cross recesses: H in Z turns badly, Z never enters H."""
    if not driver.kind.startswith("cross"):
        return Turning(turns=False, why="another kind of driver")
    if None not in (drive.size, driver.size) and drive.size != driver.size:
        return Turning(turns=False, why=f"size {drive.size}, not {driver.size}")
    if driver.kind == drive.kind:
        known = drive.size is not None and driver.size is not None
        return Turning(turns=True if known else None, why="the right driver if the size is right")
    if driver.kind == Kind.CROSS_Z:
        return Turning(turns=False, why="a Z bit does not seat in an H recess")
    if drive.kind is Kind.CROSS_Z:
        return Turning(turns=True, why="badly: it cams out")
    return Turning(turns=True, why="near enough: H and JIS recesses are alike (from memory)")


def driver_for(drive: Drive | None) -> str:
    """The driver to fetch, in words.

    >>> driver_for(Drive(Kind.HEXALOBULAR, "15", pin=True))
    'hollow hexalobular 15 (security bit)'
    """
    if drive is None:
        return "not known: look at the head"
    if drive.kind in {Kind.ONE_WAY, Kind.SHEAR}:
        return "none takes it out"
    if drive.kind in _PINNED and drive.pin:
        size = f" {drive.size}" if drive.size else ""
        return f"hollow {drive.kind}{size} (security bit)"
    if drive.kind is Kind.HEX_WASHER:
        return f"{drive.size or 'matching'} nut driver"
    if drive.kind is Kind.SLOT:
        return "flat blade"
    return str(drive)


def standard_size(standard: str, thread_size: str, kind: str) -> tables.Row | None:
    """The drive size a standard gives a thread size; None where it has none.

    ISO 7380-2 has a hexagon socket, so asking it for a hexalobular size gives None.
    """
    wanted = _standard_key(standard)
    for row in tables.rows("drive_sizes"):
        if (row["drive"], row["thread"]) != (kind, thread_size):
            continue
        if _standard_key(row["standard"]) == wanted:
            return row
    return None


def shared_size(standard: str, thread_size: str, kind: str) -> tables.Row | None:
    """The drive size of a standard, else of the one whose sizes it shares.

    >>> [shared_size(one, "M2", "cross")["size"] for one in ("DIN 7985", "DIN 965", "ISO 7046-1")]
    ['1', '0', '0']
    """
    found = standard_size(standard, thread_size, kind)
    wanted = _standard_key(standard)
    for row in tables.rows("standards"):
        if found is None and row["sizes_as"] and _standard_key(row["standard"]) == wanted:
            found = standard_size(row["sizes_as"], thread_size, kind)
    if found is None and re.fullmatch(r"ISO704[67]-[12]", wanted):
        return standard_size(standard.split("-", maxsplit=1)[0], thread_size, kind)
    return found


def _standard_key(standard: str) -> str:
    """A standard's number without spaces, year or edition.

    >>> _standard_key("ISO 14583:2011"), _standard_key("ISO7380-2")
    ('ISO14583', 'ISO7380-2')
    """
    return re.sub(r"\s", "", standard.upper()).split(":")[0]


def points_across(size: str) -> float | None:
    """A of ISO 10664 for a hexalobular size number, mm; None for a number it has not."""
    for row in tables.rows("hexalobular"):
        if row["size"] == size:
            return float(row["a_mm"])
    return None


def hexalobular_from(across_points: float) -> tuple[str, ...]:
    """The sizes a measured point-to-point distance may be, nearest first (0.15 mm either way)."""
    near = [
        (abs(float(row["a_mm"]) - across_points), row["size"])
        for row in tables.rows("hexalobular")
        if abs(float(row["a_mm"]) - across_points) <= 0.15
    ]
    return tuple(size for _, size in sorted(near))


def size_text(size: float | str) -> str:
    """A drive size as it is printed: 2.5, 15, 1/4.

    >>> size_text(20.0)
    '20'
    """
    return size if isinstance(size, str) else plain(size)
