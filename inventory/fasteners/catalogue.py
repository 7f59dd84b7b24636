"""Every thread this house knows, built once from the tables, and how an odd one is made."""

from __future__ import annotations

from functools import cache

from inventory.fasteners import tables
from inventory.fasteners.thread import INCH, Form, System, Thread, Window
from inventory.units import plain


def metric(major: float, pitch: float) -> Thread:
    """A metric thread; one that is not listed is made up with series ``odd``.

    >>> metric(29, 1.25).series
    'odd'
    """
    for thread in machine_threads():
        if thread.system is System.METRIC and (thread.major, thread.pitch) == (major, pitch):
            return thread
    name = f"M{plain(major)}x{plain(pitch)}"
    return Thread(name, major, pitch, System.METRIC, series="odd")


def unified(size: str, major_in: float, tpi: int) -> Thread:
    """A unified thread; one that is not listed is made up with series ``UNS``."""
    for thread in machine_threads():
        if thread.system is System.UNIFIED and (thread.size, thread.tpi) == (size, tpi):
            return thread
    name = f"{size}-{tpi}"
    return Thread(name, major_in * INCH, INCH / tpi, System.UNIFIED, tpi=tpi, series="UNS")


@cache
def machine_threads() -> tuple[Thread, ...]:
    """Metric and unified threads, as listed."""
    return (*map(_metric_row, tables.rows("metric_threads")), *_unified_rows())


def _metric_row(row: tables.Row) -> Thread:
    """One line of ISO 261."""
    name = f"M{row['d']}x{row['pitch']}"
    major, pitch = float(row["d"]), float(row["pitch"])
    return Thread(
        name, major, pitch, System.METRIC, series=row["series"], common=int(row["common"])
    )


def _unified_rows() -> tuple[Thread, ...]:
    """The lines of ASME B1.1."""
    return tuple(
        Thread(
            f"{row['size']}-{row['tpi']}",
            float(row["d_in"]) * INCH,
            INCH / int(row["tpi"]),
            System.UNIFIED,
            tpi=int(row["tpi"]),
            series=row["series"],
            common=int(row["common"]),
        )
        for row in tables.rows("unified_threads")
    )


@cache
def tapping_threads() -> tuple[Thread, ...]:
    """Spaced threads under both their names, e.g. ``ST4.2 / #8-18 AB``; pitch from the inch."""
    return tuple(
        Thread(
            f"ST{row['st']} / {row['ab']} AB",
            float(row["st"]),
            INCH / int(row["tpi"]),
            System.TAPPING,
            Form.TAPPING,
            tpi=int(row["tpi"]),
            series="ISO 1478",
            common=int(row["common"]),
            core=Window(float(row["core_min"]), float(row["core_max"])),
            crest=Window(float(row["major_min"]), float(row["major_max"])),
        )
        for row in tables.rows("tapping_threads")
    )


def tapping_size(major: float) -> Thread | None:
    """The tapping thread of an ST size, e.g. 4.2; None for a size ISO 1478 lacks."""
    return next((thread for thread in tapping_threads() if thread.major == major), None)


TYPE_A = {"#6": 18, "#7": 16, "#8": 15, "#10": 12, "#12": 11, "1/4": 10}
"""Threads per inch of the old type A, where it is coarser than AB.

Source: ASME B18.6.4, which advises AB instead; counts from memory."""


def type_a(size: str) -> Thread | None:
    """The old type A tapping thread of an inch size; None where it is that of type AB.

    >>> type_a("#8").name
    '#8-15 A'
    """
    tpi = TYPE_A.get(size)
    if tpi is None:
        return None
    inches = 0.25 if size == "1/4" else 0.060 + 0.013 * int(size[1:])
    major, pitch = inches * INCH, INCH / tpi
    name = f"{size}-{tpi} A"
    return Thread(name, major, pitch, System.TAPPING, Form.TAPPING, tpi=tpi, series="type A")


@cache
def forming_threads() -> tuple[Thread, ...]:
    """Lobed thread-forming screws of DIN 7500: metric pitch, larger across the lobes."""
    return tuple(
        Thread(
            f"M{row['d']}x{row['pitch']} trilobular (DIN 7500)",
            float(row["d"]),
            float(row["pitch"]),
            System.METRIC,
            Form.FORMING,
            series="DIN 7500",
            common=int(row["common"]),
            crest=Window(float(row["c_min"]), float(row["c_max"])),
        )
        for row in tables.rows("forming_threads")
    )


@cache
def plastics_threads() -> tuple[Thread, ...]:
    """Thread-formers for plastics bosses."""
    return tuple(
        Thread(
            f"K{row['size']}",
            float(row["d"]),
            float(row["pitch"]),
            System.PLASTICS,
            Form.PLASTICS,
            series="WN 14xx",
            common=1,
            core=Window(float(row["core"]), float(row["core"])),
        )
        for row in tables.rows("plastics_threads")
    )


@cache
def coarse_pitch(major: float) -> float | None:
    """The coarse pitch of a metric size, mm; None for a size that has none here."""
    for row in tables.rows("metric_threads"):
        if float(row["d"]) == major and row["series"] in {"coarse", "old"}:
            return float(row["pitch"])
    return None


def lobed(thread: Thread) -> Thread:
    """The thread-forming version of a metric thread; a size DIN 7500 lacks stays as it is."""
    for candidate in forming_threads():
        if candidate.same_as(thread):
            return candidate
    return thread
