"""Names of screws as people write them, read into thread, length, head, drive and the rest.

``phrases`` is the grammar; here stand the record it fills and what its parts together say.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import Any

from inventory.errors import WrongInput
from inventory.fasteners import catalogue, drives
from inventory.fasteners.cursor import Cursor
from inventory.fasteners.drives import Drive, Kind
from inventory.fasteners.phrases import LINES
from inventory.fasteners.thread import Form, System, Thread

LONGEST = 200
"""Characters of a screw's name that are read; more is a mistake."""


@dataclass(frozen=True, slots=True)
class ScrewName:
    """What the name of a screw says; None is *not said*."""

    text: str
    threads: tuple[Thread, ...] = ()  # one, or those the name leaves open
    length: float | None = None  # mm, under the head
    head: str | None = None
    drive: Drive | None = None
    secure: bool = False  # "security" was said, of whatever drive
    grade: str | None = None  # property class
    fit_class: str | None = None  # 6g, 2A
    finish: str | None = None
    standard: str | None = None
    place: str | None = None  # a kind of hole, where the sentence names one
    earth: bool = False
    high_voltage: bool = False
    size_mm: float | None = None  # nominal diameter, also where the pitch is open
    left: bool = False  # left-hand
    ask: str | None = None  # what to find out
    unread: tuple[str, ...] = ()

    @property
    def thread(self) -> Thread | None:
        """The thread, where the name leaves only one."""
        return self.threads[0] if len(self.threads) == 1 else None

    def need_thread(self) -> Thread:
        """The one thread; a name that leaves it open is a mistake with a way out."""
        if self.thread is not None:
            return self.thread
        if self.ask:
            raise WrongInput(f"{self.text[:60]!r} does not say which thread: give {self.ask}.")
        raise WrongInput(f"No thread is known in {self.text[:60]!r}; write it like M4x8 or #8-32.")


def read_screw(text: str) -> ScrewName:
    """Read the name of a screw; a name without any thread comes back with none, not refused.

    >>> read_screw("8-32 x 3/8 pan").thread.name
    '#8-32'
    """
    if len(text) > LONGEST:
        raise WrongInput(f"A screw's name has at most {LONGEST} characters.")
    cursor = Cursor(text)
    while cursor.at < len(cursor.text):
        if cursor.text[cursor.at].isspace():
            cursor.at += 1
        elif not any(line(cursor) for line in LINES):
            cursor.leave()
    return _finish(text, cursor)


_PLAIN = (
    *("length", "grade", "fit_class", "finish", "standard", "place"),
    *("earth", "high_voltage", "secure", "size_mm", "left"),
)


def _finish(text: str, cursor: Cursor) -> ScrewName:
    """Settle what the words together say."""
    said = cursor.said
    _size_alone(cursor)
    threads, ask = _settle(cursor)
    if said.get("left"):
        threads = tuple(left_handed(thread) for thread in threads)
    chosen: dict[str, Any] = {key: said[key] for key in _PLAIN if key in said}
    name = ScrewName(text=text, threads=threads, ask=ask, unread=tuple(cursor.unread), **chosen)
    return replace(
        name, drive=_settle_drive(said, threads), head=said.get("head", said.get("_head"))
    )


def left_handed(thread: Thread) -> Thread:
    """The left-hand thread of a size.

    >>> left_handed(catalogue.metric(8, 1.25)).name
    'M8x1.25 LH'
    """
    return replace(thread, name=f"{thread.name} LH", left=True, common=0)


def _size_alone(cursor: Cursor) -> None:
    """The one figure beside "self-tapping" is the size, not the length: ``4.2 self-tapping``."""
    nothing_else = "threads" not in cursor.said and cursor.number is None and cursor.bare is None
    if nothing_else and cursor.form is Form.TAPPING:
        figure = cursor.said.get("length")
        if figure is not None and catalogue.tapping_size(figure) is not None:
            cursor.bare = cursor.said.pop("length")


def _settle_drive(said: dict[str, Any], threads: tuple[Thread, ...]) -> Drive | None:
    """The drive said, else the one the product standard implies; "security" adds the pin."""
    drive: Drive | None = said.get("drive") or _drive_of_standard(said, threads)
    if drive and drive.size is None and said.get("_drive_size"):
        drive = replace(drive, size=said["_drive_size"])
    if drive and said.get("secure") and drive.kind in {Kind.HEXALOBULAR, Kind.HEX}:
        return replace(drive, pin=True)
    return drive


def _drive_of_standard(said: dict[str, Any], threads: tuple[Thread, ...]) -> Drive | None:
    """The drive a product standard implies, with the size its table gives the thread."""
    kind: str | None = said.get("_drive")
    if kind is None:
        return None
    row = drives.shared_size(said["standard"], threads[0].size, kind) if threads else None
    return Drive(Kind.CROSS_H if kind == "cross" else Kind(kind), row["size"] if row else None)


def _settle(cursor: Cursor) -> tuple[tuple[Thread, ...], str | None]:
    """The thread or threads, and what to ask."""
    threads = cursor.said.get("threads")
    if threads is not None:
        return _with_form(threads, cursor.form), None
    if cursor.number is not None:
        return _open_number(cursor, cursor.number[0])
    if cursor.bare is not None:
        return _open_diameter(cursor.bare, cursor.form)
    return (), None


def _with_form(threads: tuple[Thread, ...], form: Form | None) -> tuple[Thread, ...]:
    """A metric thread said to be thread-forming is the lobed one."""
    if form is not Form.FORMING:
        return threads
    return tuple(catalogue.lobed(t) if t.system is System.METRIC else t for t in threads)


def _open_number(cursor: Cursor, size: str) -> tuple[tuple[Thread, ...], str | None]:
    """An inch size without a count: machine coarse, fine, or tapping."""
    machine = [t for t in catalogue.machine_threads() if t.tpi and t.size == size]
    tapping = [t for t in catalogue.tapping_threads() if f" {size}-" in t.name]
    if "_type_a" in cursor.said:
        tapping = [blunt] if (blunt := catalogue.type_a(size)) else tapping
    if cursor.form is Form.TAPPING and tapping:
        return tuple(tapping), None
    series = cursor.said.get("_series")
    if series is not None and (named := [t for t in machine if t.series == series]):
        return tuple(named), None
    return (*machine, *tapping), _tpi_question(machine, tapping)


def _tpi_question(machine: list[Thread], tapping: list[Thread]) -> str:
    """What to ask of an inch size.

    >>> read_screw("#8").ask
    'TPI (32 coarse, 36 fine) or tapping 18'
    """
    words = {"UNC": "coarse", "UNF": "fine"}
    counts = ", ".join(f"{t.tpi} {words.get(t.series, t.series)}" for t in machine)
    asked = f"TPI ({counts})" if counts else "TPI"
    return asked + (f" or tapping {tapping[0].tpi}" if tapping else "")


def _open_diameter(major: float, form: Form | None) -> tuple[tuple[Thread, ...], str | None]:
    """A diameter without a family: a tapping size or a metric one."""
    tapping = catalogue.tapping_size(major)
    pitch = catalogue.coarse_pitch(major)
    machine = catalogue.metric(major, pitch) if pitch else None
    if form is Form.TAPPING and tapping:
        return (tapping,), None
    found = tuple(t for t in (machine, tapping) if t is not None)
    if len(found) == 1 and tapping is not None:
        return found, None
    return _with_form(found, form), "the pitch, or an M before the size" if found else None
