"""Ratings whose own word gives way to the plain one, so that two ways to say it compare equal."""

from __future__ import annotations

import re
from collections.abc import Callable
from typing import Any

from inventory.records import Value
from inventory.rules.tabs import as_written, terminal_kind
from inventory.rules.words import plain_word, reset

Said = dict[str, Any]


def _tab_width(said: Said) -> Value:
    """The width alone; the thickness has its own name."""
    tab = said["tab_mm"]
    if not isinstance(tab, list) or not tab:
        return tab
    widths = {size[0] for size in tab if isinstance(size, list) and size}
    return tab[0] if not widths else widths.pop() if len(widths) == 1 else None


def _reset_word(said: Said) -> Value:
    """The kind of reset; one that would need deep frost never resets by itself.

    Source: LG DLE3777W service manual, safety thermostat with reset at -35 °C.
    """
    at = said.get("reset_c")
    return "one-shot" if isinstance(at, int | float) and at <= -20 else reset(said["reset"])


def _rating_system(said: Said) -> Value:
    """IEC or UL, whatever the edition or the national copy.

    Source: GB/T 9364 and EN 60127 are IEC 60127; CSA C22.2 No. 248.14 is UL 248-14.
    """
    text = plain_word(said["standard"])
    systems = (("60127", "IEC 60127"), ("9364", "IEC 60127"), ("248", "UL 248-14"))
    return next((system for mark, system in systems if mark in text), said["standard"])


def _service_letters(said: Said) -> Value:
    """The jacket class without oil and weather letters: SJTOW is an SJT.

    Source: UL 62 type letters, as explained by Electric Cords Inc.
    """
    return re.sub(r"[OW]", "", str(said["service"]).upper())


def _type_without_service(said: Said) -> Value:
    """A cord's type letters, where no service class speaks for them."""
    return None if said.get("service") else re.sub(r"[OW]", "", str(said["type"]).upper())


def _sensor_only(said: Said) -> Value:
    """An inrush limiter's resistance is kept under its own name."""
    return None if "inrush_ohm" in said else said["r25_ohm"]


_METRIC = re.compile(r"M([0-9]{1,2}(?:[.][0-9])?)(?:\s?[x×X-]\s?([0-9](?:[.][0-9]{1,2})?))?")


def _thread_with_pitch(said: Said) -> Value:
    """A metric thread with its pitch; without one it is coarse. Source: ISO 965-1."""
    from inventory.fasteners.catalogue import coarse_pitch  # its tables only when needed

    found = _METRIC.fullmatch(str(said["thread"]).strip().replace(",", "."))
    if found is None:
        return said["thread"]
    pitch = float(found[2]) if found[2] else coarse_pitch(float(found[1]))
    return f"M{found[1]}x{pitch:g}" if pitch else said["thread"]


def _kind_of_terminals(said: Said) -> Value:
    """Tabs, solder, pins: the size has its own names."""
    return terminal_kind(as_written(said["terminals"]))


PLAIN: tuple[tuple[str, str, Callable[[Said], Value]], ...] = (
    ("", "tab_mm", _tab_width),
    ("", "terminals", _kind_of_terminals),
    ("thermal_cutout", "reset", _reset_word),
    ("fuse", "standard", _rating_system),
    ("cord", "service", _service_letters),
    ("cord", "type", _type_without_service),
    ("ntc", "r25_ohm", _sensor_only),
    ("screw", "thread", _thread_with_pitch),
)
"""Family ("" for all), rating, and what it is replaced by."""
