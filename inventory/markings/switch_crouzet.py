"""Crouzet 83161 snap switches: a part number says nothing by its digits, a table does."""

from __future__ import annotations

import re
from typing import Any

from inventory.markings.contacts_codes import Legend, Part

SOURCE = "Crouzet 83161 data sheets 01/2016 and 08/2020, table of functions and connections"

_TABLE = {
    "16 A": {
        "SPDT": "83161301 W2,83161338 W3,83161304 W6A5,83163023 W3R5,83161303 W5,83161305 W6D8,"
        "83161309 W7A5,83161310 2W7A8,83161348 W2,83161344 W3,83161343 W6A5,83161349 W5,"
        "83161341 W6D8,83161350 W7A5,83161102 W2,83161118 W3,83161110 W6A5,83163107 W3R5,"
        "83161113 W5,83161123 W6D8",
        "SPST-NC": "83161316 W2,83161311 W3,83161359 W6A5,83163041 W2,83163066 W3,83161117 W2,"
        "83161109 W3,83161070 W6A5",
        "SPST-NO": "83161315 W2,83161312 W3,83161325 W6A5,83161346 W3,83161104 W2,83161103 W3,"
        "83161125 W6A5",
    },
}
_CONNECTIONS: dict[str, tuple[str, float | None, str]] = {
    "W2": ("solder", None, "solder"),
    "W3": ("qc-6.3", 0.8, "6.3 x 0.8 mm tabs"),
    "W3R5": ("qc-6.3", 0.8, "6.3 x 0.8 mm tabs, RAST 5"),
    "W5": ("screw", None, "screw and clamp"),
    "W6A5": ("qc-4.8", 0.5, "4.8 x 0.5 mm tabs"),
    "W6D8": ("qc-4.8", 0.8, "4.8 x 0.8 mm tabs"),
    "W7A5": ("qc-2.8", 0.5, "2.8 x 0.5 mm tabs"),
    "2W7A8": ("qc-2.8", 0.8, "double 2.8 x 0.8 mm tabs"),
}
"""Connection codes: terminal, tab thickness in mm, words."""


def _parts() -> dict[str, Part]:
    """The whole table, by the last five digits of the number."""
    parts: dict[str, Part] = {}
    for forms in _TABLE.values():
        for form, numbers in forms.items():
            for entry in numbers.split(","):
                code, connection = entry.split()
                parts[code[3:]] = _part(form, connection)
    return parts


def _part(form: str, connection: str) -> Part:
    """What one number says."""
    terminal, thick, words = _CONNECTIONS[connection]
    ratings: dict[str, Any] = {"contact_form": form, "terminal": terminal}
    if thick:
        ratings["tab_thick"] = thick
    return ratings, f"{form}, connection {connection}: {words}"


_PARTS = _parts()

CROUZET = Legend(
    "831",
    re.compile(r"831(?P<number>" + "|".join(sorted(_PARTS)) + r")(?![0-9])"),
    {"number": _PARTS},
    SOURCE,
    {"maker_rating_a": 16, "volts_ac": [250], "actuator": "pin plunger"},
)
"""The numbers listed as 16 A nominal at 250 V a.c.; others are left as a type code."""
