"""A cut-out's ratings written out as a marking again."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from inventory.markings import cutout_load
from inventory.markings.amounts import listed
from inventory.markings.writing import write
from inventory.records import Reading


def _point_text(ratings: dict[str, Any], name: str, words: str) -> str:
    """One point written out, in the scales that were printed."""
    c, f = ratings.get(f"{name}_c"), ratings.get(f"{name}_f")
    if c is None:
        return ""
    tol = {
        k: f" ± {listed(ratings[f'{name}_tol_{k}'])}" if f"{name}_tol_{k}" in ratings else ""
        for k in "cf"
    }
    if f is None:
        return f"{words} {listed(c)}{tol['c']} C"
    if "cf_pair_consistent" not in ratings:
        return f"{words} {listed(f)}{tol['f']} F"
    return f"{words} {listed(f)}{tol['f']} F ({listed(c)}{tol['c']} C)"


_POINTWORDS = (
    ("open", "opens at"), ("close", "closes at"), ("close_on_rise", "turns on at"),
    ("open_on_fall", "shuts off at"),
)  # fmt: skip


def _stamp_says_all(said: Mapping[str, Any]) -> bool:
    """Whether the stamp alone (N85, L155) gives all that is known of the opening point."""
    in_f = str(said.get("type", "")).startswith("L")
    more = {"open_tol_c", "open_tol_f"} | (set() if in_f else {"open_f"})
    return "type" in said and more.isdisjoint(said)


def canonical(reading: Reading) -> str:
    """The marking written out again; reads back to the same ratings."""
    said = dict(reading.ratings)
    diff = f"-{said['differential_f']}F" if "differential_f" in said else ""
    skip = ("open",) if _stamp_says_all(said) else ()
    points = [_point_text(said, name, words) for name, words in _POINTWORDS if name not in skip]
    if "close_c" not in said:
        points.append(_point_text(said, "reset", "resets at"))
    head = write(
        said, ("series", "{}"), ("type", f"{{}}{diff}"), ("contact", "{}"), ("location", "({})"),
        ("range_c", lambda v: f"{v[0]}~{v[1]}C"),
    )  # fmt: skip
    modes = {"manual": "manual reset,", "none": "does not reset"}
    if "reset_c" not in said:
        modes["auto"] = "auto reset,"
    tail = write(
        said, ("reset", modes), ("body_max_c", "T{}"), ("body", "{} body"), ("flange", "{} flange"),
        ("cycles", "{} cycles"), ("frequency_hz", lambda v: f"{listed(v)}Hz"), ("approvals", "{}"),
    )  # fmt: skip
    load = "; ".join(cutout_load.load_text(row) for row in said.get("ratings", [said]))
    return " ".join(piece for piece in (head, *points, tail, load) if piece)
