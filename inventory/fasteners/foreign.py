"""Threads that are neither metric nor unified: Whitworth, BA and pipe threads, and their names.

They are read so that none is ever taken for a 60 degree thread of the same size and count: a
1/4 BSW and a 1/4-20 UNC both have 20 threads per inch, and a G1/4 measures 13 mm.
"""

from __future__ import annotations

import re
from fractions import Fraction
from functools import cache

from inventory.fasteners import tables
from inventory.fasteners.cursor import Cursor
from inventory.fasteners.thread import INCH, Form, System, Thread

_SYSTEMS = {
    "BA": System.BA,
    "BSW": System.WHITWORTH,
    "BSF": System.WHITWORTH,
    "G": System.PIPE,
    "R": System.PIPE,
    "NPT": System.PIPE,
}

_SIZE = r"(?P<size>[1-9][0-9]?/[1-9][0-9]?|[1-9])"
_COUNT = r"(?:\s?-\s?(?P<tpi>[1-9][0-9]))?"

_BA = re.compile(
    r"(?:#|no\.?\s?)?(?P<n>1[0-6]|[0-9])\s?b\.?a\b\.?|b\.?a\.?\s?(?P<later>1[0-6]|[0-9])(?![0-9/.])"
)
_BRITISH = re.compile(
    rf"{_SIZE}\"?{_COUNT}\s?(?:tpi\s)?(?P<kind>bsw|bsf|whit(?:worth)?|w)\b"
    rf"|(?P<before>bsw|bsf|whit(?:worth)?|w)\s?(?P<later>[1-9][0-9]?/[1-9][0-9]?)\"?(?:\s?-\s?(?P<count>[1-9][0-9]))?"
)
_PIPE_AFTER = re.compile(rf"{_SIZE}\"?{_COUNT}\s?(?P<kind>nptf?|npsm?|bsp[ptf]?|gas)\b")
_PIPE_BEFORE = re.compile(
    r"(?P<kind>nptf?|npsm?|bsp[ptf]?|r[cp]|p[tf]|[gr](?=\s?[1-9][0-9]?/|\s?1\b(?!/)))\s?"
    r"(?P<size>[1-9][0-9]?/(?:16|8|4|2)|1)\"?(?:\s?-\s?(?P<tpi>[1-9][0-9]))?(?:\s?[ab]\b)?(?![0-9/.])"
)


@cache
def threads() -> tuple[Thread, ...]:
    """Every thread of another form than the ISO one, as listed."""
    return tuple(_thread(row) for row in tables.rows("other_threads"))


def _thread(row: tables.Row) -> Thread:
    """One line of the table, in mm."""
    tpi = int(row["tpi"]) if row["tpi"] else None
    pitch = float(row["pitch"]) if row["pitch"] else INCH / int(row["tpi"])
    major = float(row["d"]) * (INCH if row["unit"] == "in" else 1.0)
    system = _SYSTEMS[row["system"]]
    return Thread(row["name"], major, pitch, system, Form.MACHINE, tpi, series=row["system"])


def listed(series: str, size: str, tpi: int | None = None) -> Thread | None:
    """A listed thread of a series; None for a size, or a count, that the series lacks.

    >>> round(listed("BSW", "1/4").pitch_diameter / 25.4, 4)  # BS 84: .2180
    0.218
    """
    for thread, row in zip(threads(), tables.rows("other_threads"), strict=True):
        if (row["system"], row["size"]) == (series, size):
            return thread if tpi in {None, thread.tpi} else None
    return None


def british(cursor: Cursor) -> bool:
    """British = size ["-" count] ("BSW" | "BSF" | "Whitworth") | number "BA"."""
    if "threads" in cursor.said:
        return False
    if found := cursor.take(_BA):
        return _say(cursor, "BA", found["n"] or found["later"], None)
    if not (found := cursor.take(_BRITISH)):
        return False
    series = "BSF" if (found["kind"] or found["before"]) == "bsf" else "BSW"
    tpi = found["tpi"] or found["count"]
    return _say(cursor, series, found["size"] or found["later"], tpi)


def pipe(cursor: Cursor) -> bool:
    """Pipe = ("G" | "R" | "NPT" | "BSP") size | size ["-" count] ("NPT" | "BSP")."""
    if "threads" in cursor.said:
        return False
    found = cursor.take(_PIPE_BEFORE) or cursor.take(_PIPE_AFTER)
    if found is None:
        return False
    kind = found["kind"]
    if kind.startswith("np"):
        series = "NPT"
    else:
        series = "R" if kind in {"r", "rc", "rp", "bspt", "pt"} else "G"
    return _say(cursor, series, found["size"], found["tpi"])


def _say(cursor: Cursor, series: str, size: str, tpi: str | None) -> bool:
    """Settle a thread of another form; a size or count that is not listed leaves none."""
    thread = listed(series, size, int(tpi) if tpi else None)
    if thread is None:
        cursor.unread.append(f"{size} {series.lower()}")
        cursor.said["threads"] = ()
        return True
    cursor.say("size_mm", thread.major)
    if "/" in size:
        cursor.number = (size, float(Fraction(size)))
    cursor.say_thread(thread)
    return True
