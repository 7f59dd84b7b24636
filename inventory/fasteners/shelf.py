"""Screws as they lie on the shelf, ready to be offered."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from inventory.errors import WrongInput
from inventory.fasteners.designation import LONGEST, ScrewName, read_screw
from inventory.fasteners.drives import Drive
from inventory.fasteners.thread import FORMS, Thread


@dataclass(frozen=True, slots=True)
class ShelfScrew:
    """One lot of screws; None is *not known*."""

    text: str  # the designation as written
    thread: Thread
    length: float | None = None  # mm under the head
    head: str | None = None
    drive: Drive | None = None
    grade: str | None = None  # property class
    finish: str | None = None
    earth_suited: bool | None = None  # bare or plated, not painted, machine thread
    lot: int | None = None
    bin: str | None = None
    on_hand: int | None = None
    state: str | None = None  # tested state of the lot
    origin: str | None = None  # "salvaged" or "new"


def shelf_screw(
    text: str, *, lot: int | None = None, bin_: str | None = None, on_hand: int | None = None
) -> ShelfScrew:
    """A shelf screw from its designation; a name that leaves the thread open is refused."""
    name = read_screw(text)
    return ShelfScrew(
        text=name.text.strip(),
        thread=name.need_thread(),
        length=name.length,
        head=name.head,
        drive=name.drive,
        grade=name.grade,
        finish=name.finish,
        lot=lot,
        bin=bin_,
        on_hand=on_hand,
    )


def from_ratings(
    marking: str,
    ratings: Mapping[str, Any],
    *,
    lot: int | None = None,
    bin_: str | None = None,
    on_hand: int | None = None,
    state: str | None = None,
    origin: str | None = None,
) -> ShelfScrew | None:
    """A shelf record of family ``screw`` as an offer; None when it names no single thread.

    The ratings are ``thread``, ``length_mm``, ``head``, ``drive``, ``property_class``,
    ``finish`` and ``earth_suited``; what they leave out is read from the marking.
    """
    try:
        said = read_screw(marking[:LONGEST])
        thread = _thread(read_screw(str(ratings.get("thread") or "")).thread, said.thread)
    except WrongInput:
        return None
    if thread is None:
        return None
    length = ratings.get("length_mm")
    return ShelfScrew(
        text=marking.strip() or thread.name,
        thread=thread,
        length=float(length) if length is not None else said.length,
        head=ratings.get("head") or said.head,
        drive=_drive(ratings.get("drive"), said.drive),
        grade=ratings.get("property_class") or said.grade,
        finish=ratings.get("finish") or said.finish,
        earth_suited=ratings.get("earth_suited"),
        lot=lot,
        bin=bin_,
        on_hand=on_hand,
        state=state,
        origin=origin,
    )


def _thread(agreed: Thread | None, printed: Thread | None) -> Thread | None:
    """The thread agreed upon; a printed left hand or foreign form is never lost on the way."""
    if agreed is None or printed is None:
        return agreed or printed
    return printed if printed.left or printed.system in FORMS else agreed


def _drive(agreed: object, printed: Drive | None) -> Drive | None:
    """The drive agreed upon; one that names its kind only is completed from the marking."""
    drive = read_screw(str(agreed)[:LONGEST]).drive if agreed else None
    bare = drive is None or (drive.size is None and not drive.pin)
    same_kind = drive is None or (printed is not None and printed.kind is drive.kind)
    return printed if bare and same_kind else drive


def ratings_of(name: ScrewName) -> dict[str, Any]:
    """What a name says, as ratings of a record of family ``screw``; nothing is invented."""
    thread = name.thread
    drive = str(name.drive) if name.drive else None
    raw = {
        "thread": thread.name if thread else None,
        "length_mm": round(name.length, 3) if name.length is not None else None,
        "head": name.head,
        "drive": drive,
        "property_class": name.grade,
        "finish": name.finish,
    }
    return {key: value for key, value in raw.items() if value is not None}


def offers_from(text: str) -> list[ShelfScrew]:
    """Offers typed on one line, separated by commas, e.g. ``M4x8, #8-32x3/8, ST4.2x9.5``.

    A comma between two digits is a decimal comma, so names are parted by comma and space.
    """
    names = [part.strip() for part in _split(text) if part.strip()]
    if not names:
        raise WrongInput("No screw is named; write it like --from 'M4x8, #8-32x3/8'.")
    return [shelf_screw(name) for name in names]


def _split(text: str) -> list[str]:
    """Parts between commas that are not decimal commas, or semicolons."""
    parts = [""]
    for index, char in enumerate(text):
        around = text[index - 1 : index] + text[index + 1 : index + 2]
        decimal = char == "," and len(around) == 2 and around.isdigit()
        if char == ";" or (char == "," and not decimal):
            parts.append("")
        else:
            parts[-1] += char
    return parts
