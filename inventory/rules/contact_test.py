"""Contacts on the bench: closed where they should be, open where they should be.

A normally closed contact conducts at rest and opens when pressed. Judged as a normally open one
it would come out upside down, so nothing is judged before the form is known, from the part, from
the name of the reading or from the place.

Source: continuity tables of Daewoo KOG-3805, LG MB-308DDD and ACP MCS10DS service manuals.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from inventory.rules.limits import check, check_all, limits_of
from inventory.rules.meter import Bench, Check, bad, lacking, show_reading
from inventory.rules.words import form

TABLES = "continuity tables of Daewoo KOG-3805 and LG MB-308DDD service manuals"
STUCK_OHM = 10.0
"""Below this an open contact is taken as closed. Common practice."""
OPEN_OHM = 1e6
"""From here on a contact is open. Common practice."""

_OTHER_NAMES = {"energised_ohm": "pressed_ohm", "hot_ohm": "pressed_ohm", "off_ohm": "rest_ohm"}
_STEPS = ("rest_ohm", "pressed_ohm", "released_ohm")
_PAIR_READINGS = frozenset(
    f"{side}{step}"
    for side in ("", "no_", "nc_")
    for step in (*_STEPS, "drop_mv_at_1a", "closed_mohm")
)
"""Readings this module judges itself."""


@dataclass(frozen=True, slots=True)
class Pair:
    """One throw: the readings [ohm] taken where it should be closed and where open, by name."""

    side: str  # "NO" or "NC"
    closed: Mapping[str, float]
    open: Mapping[str, float]


def contact_checks(bench: Bench) -> Iterable[Check]:
    """Everything the readings say of the contacts."""
    readings = {_OTHER_NAMES.get(name, name): value for name, value in bench.readings.items()}
    yield from check_all(bench, leave=_PAIR_READINGS | frozenset(_OTHER_NAMES))
    sides = _sides(bench)
    generic = _steps(readings, "")
    side = _side_of_generic(bench, sides)
    if generic and side is None:
        yield from _unknown_side(generic, sides)
    for name in sides or ("NO", "NC"):
        steps = {**(generic if side == name else {}), **_steps(readings, f"{name.lower()}_")}
        if steps or (sides and not (generic and side is None)):
            yield from _pair(bench, _laid_out(name, steps), readings, plain=side == name)
    if not sides and not generic and not any(_steps(readings, s) for s in ("no_", "nc_")):
        yield _missing("rest_ohm")
        yield _missing("pressed_ohm")


def _sides(bench: Bench) -> tuple[str, ...]:
    """The throws that must be proved; empty where the form is not known."""
    known = form(bench.part.get("contact_form") or bench.part.get("contact") or "")
    if known is None and bench.place and bench.place.contact:
        known = bench.place.contact
    return {"NO": ("NO",), "NC": ("NC",), "CO": ("NO", "NC")}.get(known or "", ())


def _side_of_generic(bench: Bench, sides: tuple[str, ...]) -> str | None:
    """The throw that readings without a side were taken on."""
    if len(sides) == 1:
        return sides[0]
    return bench.place.contact if bench.place else None


def _steps(readings: Mapping[str, float], side: str) -> dict[str, float]:
    """The rest, pressed and released readings of a side that were taken, by their full names."""
    return {side + step: readings[side + step] for step in _STEPS if side + step in readings}


def _laid_out(side: str, steps: Mapping[str, float]) -> Pair:
    """Readings by what they should show: a normally open contact is closed when pressed."""
    pressed = {name: value for name, value in steps.items() if name.endswith("pressed_ohm")}
    rests = {name: value for name, value in steps.items() if name not in pressed}
    return Pair(side, pressed, rests) if side == "NO" else Pair(side, rests, pressed)


def _unknown_side(steps: Mapping[str, float], sides: tuple[str, ...]) -> Iterable[Check]:
    """Readings whose throw nobody said: only the dead ones can be told apart."""
    values = tuple(steps.values())
    if len(values) > 1 and all(value >= OPEN_OHM for value in values):
        yield bad("It never closes, at rest or pressed.", TABLES, "open", "pressed_ohm")
    elif len(values) > 1 and all(value <= STUCK_OHM for value in values):
        yield bad("It is closed at rest and pressed: welded.", TABLES, "welded", "rest_ohm")
    elif sides:
        text = "A changeover has two throws: say which one was measured (no_... or nc_...)."
        yield lacking(text, TABLES, "no_rest_ohm")
    else:
        text = "Right for one contact form is dead for the other: say whether it is NO or NC."
        yield lacking(text, TABLES, "contact_form")


def _pair(
    bench: Bench, pair: Pair, readings: Mapping[str, float], *, plain: bool
) -> Iterable[Check]:
    """One throw: what must be closed, what must be open, and how well."""
    lead = "" if plain else f"{pair.side.lower()}_"
    taken = {**pair.closed, **pair.open}
    if not any(name.endswith("rest_ohm") for name in taken):
        yield _missing(f"{lead}rest_ohm")
    heated = bench.sheet.id == "thermal_cutout"  # a thermostat is not pressed but heated
    if not heated and not any(name.endswith("pressed_ohm") for name in taken):
        yield _missing(f"{lead}pressed_ohm")
    dead = _dead(pair)
    if dead:
        yield dead
        return
    yield from _closed_well(bench, pair, readings)
    for limit in limits_of(bench, "open_ohm") if pair.open else ():
        name = _least(pair.open) or ""
        called = f"{pair.side} contact open"
        yield from check(bench, limit, pair.open[name], called=called, reading=name)


def _missing(name: str) -> Check:
    """A reading without which nothing can be called good."""
    return lacking(f"{name} was not measured.", TABLES, name)


def _dead(pair: Pair) -> Check | None:
    """Open, welded, or the other way round."""
    closed, opened = _worst(pair.closed), _least(pair.open)
    never = closed is not None and pair.closed[closed] >= OPEN_OHM
    stuck = opened is not None and pair.open[opened] <= STUCK_OHM
    where = "when pressed" if pair.side == "NO" else "at rest"
    if never and stuck:
        text = f"It behaves as the opposite of {pair.side}: another pair, or the look-alike type."
        return lacking(text, TABLES, "contact_form", closed)
    if never:
        text = f"The {pair.side} contact does not close {where}."
        return bad(text, TABLES, "open", closed)
    if stuck and pair.closed:
        text = f"The {pair.side} contact stays closed where it should be open: welded or stuck."
        return bad(text, TABLES, "welded", opened)
    return None


def _worst(readings: Mapping[str, float]) -> str | None:
    """The name of the highest reading."""
    return max(readings, key=lambda name: readings[name], default=None)


def _least(readings: Mapping[str, float]) -> str | None:
    """The name of the lowest reading."""
    return min(readings, key=lambda name: readings[name], default=None)


def _closed_well(bench: Bench, pair: Pair, readings: Mapping[str, float]) -> Iterable[Check]:
    """How well the closed contact conducts: the drop at 1 A, four wires, or only two."""
    fine = [
        (name, limit)
        for bare in ("drop_mv_at_1a", "closed_mohm")
        for name in (f"{pair.side.lower()}_{bare}", bare)
        if name in readings
        for limit in limits_of(bench, bare)
    ]
    for name, limit in fine:
        yield from check(bench, limit, readings[name], called=name, reading=name)
    worst = _worst(pair.closed)
    if worst is None:
        return
    four_wire = readings.get("wires") == 4
    value = pair.closed[worst] * (1000 if four_wire else 1)
    for limit in limits_of(bench, "closed_mohm" if four_wire else "closed_ohm"):
        called = f"{pair.side} contact closed{', four-wire' if four_wire else ''}"
        yield from check(bench, limit, value, called=called, reading=worst)
    if not fine and not four_wire:
        yield _two_wires(worst, value)


def _two_wires(name: str, value: float) -> Check:
    """What an ordinary ohm range cannot say."""
    return Check(
        f"{show_reading(value, 'Ω')} is a two-wire reading, leads included: it cannot prove less"
        " than 100 mΩ. Measure the drop at 1 A before it carries power.",
        "common practice; data sheets ask for 15 to 100 mΩ (Omron SS and D2D)",
        name,
    )
