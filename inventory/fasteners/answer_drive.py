"""Answers to cases of kind ``drive``: sizes, drivers, tamper resistance, earth screws."""

from __future__ import annotations

import re
from collections.abc import Mapping
from typing import Any

from inventory.errors import WrongInput
from inventory.fasteners import drives, heads, strength
from inventory.fasteners.designation import ScrewName, read_screw
from inventory.fasteners.drives import Drive, Driver, Kind, Tamper
from inventory.fasteners.thread import INCH, Form

Given = Mapping[str, Any]
Answer = dict[str, Any]


def drive(given: Given) -> Answer:
    """The first reading of the case that applies."""
    if "screw_drive" in given:
        return turns_answer(str(given["screw_drive"]), str(given["driver"]))
    if "original" in given:
        return substitute_answer(str(given["original"]), str(given["substitute"]))
    if "standard" in given:
        return size_answer(given)
    if "drive" in given:
        return drive_answer(given)
    raise WrongInput("A drive case names a standard, a drive, a driver or a substitute.")


# sizes ---------------------------------------------------------------------

_KIND_OF_QUANTITY = (
    ("hexalob", "hexalobular"),
    ("across_flats", "hex washer"),
    ("washer", "hex washer"),
    ("nut_driver", "hex washer"),
    ("spanner", "hex washer"),
    ("cross", "cross"),
    ("recess", "cross"),
    ("square", "square"),
    ("hex", "hex"),
)


def size_answer(given: Given) -> Answer:
    """The drive or head size a product standard gives a thread; null where it has none."""
    standard, thread = str(given["standard"]), str(given["thread"])
    quantity = str(given.get("quantity", "")).lower()
    size = _size_name(thread)
    if "head" in quantity or "dk" in quantity or quantity.startswith("k"):
        return _head_answer(size, given.get("head"), standard)
    kind = next((kind for word, kind in _KIND_OF_QUANTITY if word in quantity), "hexalobular")
    row = drives.shared_size(standard, size, kind)
    if row is None:
        why = f"{standard} gives no {kind} size for {thread}."
        return {"size": None, "why": why}
    value = _number_or_text(row["size"])
    return {"size": value, "doubt": row["doubt"] or None} | _lengths(row["size"])


def _size_name(thread: str) -> str:
    """M4x0.7 and M4 are both M4."""
    name = read_screw(thread)
    if name.thread is not None:
        return name.thread.size
    return name.threads[0].size if name.threads else thread


def _number_or_text(text: str) -> int | float | str:
    """A size as a number where it is one."""
    if re.fullmatch(r"[0-9]+", text):
        return int(text)
    return float(text) if re.fullmatch(r"[0-9]+\.[0-9]+", text) else text


def _lengths(text: str) -> Answer:
    """A size in mm and in, for those that are lengths."""
    if "/" in text:
        top, bottom = text.split("/")
        inches = int(top) / int(bottom)
        return {"in": inches, "mm": inches * INCH, "size_in": inches}
    return {"mm": float(text), "size_mm": float(text)}


def _head_answer(size: str, head: str | None, standard: str) -> Answer:
    """Head diameter and height, of the standard's own head where the case names none."""
    row = heads.head_row(size, head or read_screw(standard).head or "pan", standard)
    if row is None:
        return {"dk_max": None, "k_max": None}
    unit, across, high = row["unit"], float(row["dk_max"]), float(row["k_max"])
    found: Answer = {"dk_max": across, "k_max": high, "unit": unit}
    return found | {f"dk_max_{unit}": across, f"k_max_{unit}": high}


def drive_answer(given: Given) -> Answer:
    """A of ISO 10664, the tamper class and the driver of a drive."""
    found = read_drive(f"{given['drive']} {given.get('size', '')}")
    size = given.get("size", found.size)
    across = None
    if found.kind is Kind.HEXALOBULAR and size is not None:
        across = drives.points_across(drives.size_text(size))
    return {
        "A_mm": across,
        "tamper_class": drives.tamper_class(found),
        "driver": drives.driver_for(found),
    }


# drives and drivers --------------------------------------------------------


def read_drive(text: str) -> Drive:
    """A drive from words such as ``hexalobular pin-in 20``."""
    found = read_screw(re.sub(r"\(.{0,40}\)", " ", text)).drive
    if found is None:
        raise WrongInput(f"No drive is known in {text[:60]!r}.")
    return found


_HOLLOW = re.compile(r"(?i)\b(?:hollow|security|drilled|tamper\w{0,10})\b")
_SOLID = re.compile(r"(?i)\b(?:solid|plain|ordinary)\b")
_BLADE = re.compile(r"(?i)\b(?:flat blade|blade|flat)\b")


def read_driver(text: str) -> Driver:
    """A driver from words such as ``hollow hexalobular 20`` or ``hex key 3 solid``."""
    if _BLADE.search(text):
        return Driver("blade", None)
    hollow = bool(_HOLLOW.search(text))
    bare = _SOLID.sub(" ", _HOLLOW.sub(" ", text))
    as_drive = read_drive(re.sub(r"(?i)\b(?:driver|bit|key|wrench)\b", " ", bare))
    return Driver(as_drive.kind.value, as_drive.size, hollow or as_drive.pin)


def turns_answer(screw_drive: str, driver: str) -> Answer:
    """Whether a driver turns a drive; ``sometimes`` where it may."""
    found = drives.turning(read_drive(screw_drive), read_driver(driver))
    turns: bool | str = "sometimes" if found.turns is None else found.turns
    badly = found.why.startswith("badly")
    return {"turns": turns, "why": found.why, "badly": badly}


# substitutes ---------------------------------------------------------------


def substitute_answer(original: str, substitute: str) -> Answer:
    """Tamper resistance of a swap, and whether a spaced-thread screw may take the place."""
    was, now = read_screw(original), read_screw(substitute)
    allowed = _allowed(original, now, substitute)
    if was.drive is None or now.drive is None:
        return allowed
    kept = drives.tamper(was.drive, now.drive)
    result: Answer = {
        "tamper_resistance": kept.value,
        "class_before": drives.tamper_class(was.drive),
        "class_after": drives.tamper_class(now.drive),
        "driver": drives.driver_for(now.drive),
    }
    if kept in {Tamper.REDUCED, Tamper.LOST}:
        result["warn_if"] = drives.WARN_IF
    return allowed | result


_SPACED = re.compile(r"(?i)sheet[- ]?metal|spaced|self[- ]?tap|tapping")
_EARTH = re.compile(r"(?i)earth|ground|bonding")
_COVER = re.compile(r"(?i)cover|cabinet|panel|sheet")


def _allowed(original: str, now: ScrewName, substitute: str) -> Answer:
    """Spaced threads never earth, and do not hold a cover that is removed."""
    thread = now.threads[0] if now.threads else None
    spaced = bool(_SPACED.search(substitute)) or (
        thread is not None and thread.form is Form.TAPPING
    )
    if _EARTH.search(original):
        if spaced:
            return {
                "allowed": False,
                "why": "NEC 250.8(A)(5), (6): machine or thread-forming machine screws only",
            }
        return {
            "allowed": True,
            "why": "machine thread; two threads at least and the toothed washer",
            "threads_min": 2,
        }
    if spaced and _COVER.search(original):
        return {"allowed": "not for a cover that is removed", "why": "UL 353 6.3.2 wording"}
    return _class_allowed(read_screw(original), now)


def _class_allowed(was: ScrewName, now: ScrewName) -> Answer:
    """A substitute's property class is at least the original's; unmarked is 4.8."""
    if was.grade is None and now.grade is None:
        return {"allowed": True, "why": "nothing against it is known"}
    before = strength.property_class(was.grade or "4.8")
    after = strength.property_class(now.grade or "4.8")
    enough = int(after["rank"]) >= int(before["rank"])
    why = f"property class {after['class']} for {before['class']}"
    return {"allowed": enough, "why": why}
