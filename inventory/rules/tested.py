"""From readings to a tested state: what the meter said, the limit, its source, what is missing.

Nothing is called good while a reading it needs is missing; a reading that breaks a limit is
enough to call it bad.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping

from inventory.families.sheet import Sheet, sheet
from inventory.records import Value
from inventory.rules.contact_test import contact_checks
from inventory.rules.family_tests import (
    cord_checks,
    cut_out_checks,
    fuse_checks,
    high_voltage_diode_checks,
    lamp_checks,
    sensor_checks,
)
from inventory.rules.limits import check_all
from inventory.rules.meter import Bench, Check, Finding, Typed, lacking, read_meter
from inventory.rules.places import place as place_of
from inventory.rules.terms import CONTACTS, in_terms

Test = Callable[[Bench], Iterable[Check]]

SPECIAL: Mapping[str, Test] = {
    "thermal_cutout": cut_out_checks,
    "fuse": fuse_checks,
    "hv_diode": high_voltage_diode_checks,
    "ntc": sensor_checks,
    "lamp": lamp_checks,
    "cord": cord_checks,
}
"""Families whose readings hang on a formula or a table beside the sheet's limits."""

_AIDS = frozenset({"wires", "battery_v", "at_c", "reference_ohm", "rest_ohm", "pressed_ohm"})
"""Readings that help to judge others and have no limit of their own."""


def judge_readings(
    family: str,
    ratings: Mapping[str, Value],
    readings: Mapping[str, Typed],
    place: str | None = None,
) -> Finding:
    """The tested state that follows from the readings of one piece.

    ``place`` settles which throw of an unrecorded contact was measured. Raises ``WrongInput``
    for a reading that is no figure, and for an unknown family or place.
    """
    used = sheet(family)
    bench = Bench(
        used,
        in_terms(used, ratings),
        {name: read_meter(name, value) for name, value in readings.items()},
        place_of(place) if place else None,
    )
    return _conclude(used, (*_readings(bench), *_needs(bench), *_unknown(bench)))


def _readings(bench: Bench) -> Iterable[Check]:
    """All conclusions: contacts by their pairs, every reading by its limits, then the formulas."""
    yield from (contact_checks if bench.sheet.id in CONTACTS else check_all)(bench)
    special = SPECIAL.get(bench.sheet.id)
    if special:
        yield from special(bench)


def _needs(bench: Bench) -> Iterable[Check]:
    """Readings the sheet asks for before a piece is called good."""
    if not bench.sheet.good_needs:
        text = "No test of this family is on its sheet: a person decides."
        yield lacking(text, "common practice", "a person's verdict")
    for need in bench.sheet.good_needs:
        pair = bench.sheet.id in CONTACTS and need in {"rest_ohm", "pressed_ohm"}
        if not pair and not any(_taken(bench, name) for name in need.split("|")):
            text = f"{need.replace('|', ' or ')} was not measured."
            yield lacking(text, "common practice", need.split("|")[0])


def _taken(bench: Bench, name: str) -> bool:
    """Whether a reading was taken, on either throw; four wires give the contact directly."""
    if name == "closed_mohm" and bench.readings.get("wires") == 4:
        return True
    return any(side + name in bench.readings for side in ("", "no_", "nc_"))


def _unknown(bench: Bench) -> Iterable[Check]:
    """Readings no limit is known for are said, not dropped: one may be a slip of the pen."""
    known = {limit.reading for limit in bench.sheet.limits} | _AIDS
    known |= {name for need in bench.sheet.good_needs for name in need.split("|")}
    for name in bench.readings:
        bare = name.removeprefix("no_").removeprefix("nc_")
        contact = bench.sheet.id in CONTACTS and bare in _CONTACT_READINGS
        if name not in known and not contact:
            text = f"No limit is known for {name}: recorded, decides nothing."
            yield Check(text, "no source", name)


_CONTACT_READINGS = frozenset(
    {
        "rest_ohm", "pressed_ohm", "released_ohm", "energised_ohm", "hot_ohm", "off_ohm",
        "drop_mv_at_1a", "closed_mohm",
    }
)  # fmt: skip


def _conclude(used: Sheet, checks: tuple[Check, ...]) -> Finding:
    """The worst state found; else untested while anything is missing; else good."""
    found = {check.state for check in checks if check.state}
    missing = tuple(dict.fromkeys(check.needs for check in checks if check.needs))
    worst = next((s.name for s in used.states if not s.good and s.name in found), None)
    if worst:
        return Finding(worst, decided=True, checks=checks)
    if missing:
        return Finding("untested", decided=False, checks=checks, missing=missing)
    good = next(state.name for state in used.states if state.good)
    return Finding(good, decided=True, checks=checks)
