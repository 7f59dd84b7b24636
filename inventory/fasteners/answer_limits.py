"""Answers to cases of kind ``limits``: limits of size, areas, loads, holes, torque."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import Any

from inventory.errors import WrongInput
from inventory.fasteners import contact, holes, iso965, strength, threads
from inventory.fasteners.designation import read_screw
from inventory.fasteners.thread import INCH, System, Thread

Given = Mapping[str, Any]
Answer = dict[str, Any]


def limits_answer(given: Given) -> Answer:
    """Limits of size, unless the case names another quantity."""
    thread = read_screw(str(given["thread"])).need_thread()
    quantity = str(given.get("quantity", "")).lower()
    if not quantity:
        return sizes(thread, given.get("class"))
    for word, function in QUANTITIES:
        if word in quantity:
            return function(thread, given)
    raise WrongInput(f"There is no quantity {quantity!r} of a thread.")


def sizes(thread: Thread, fit_class: str | None) -> Answer:
    """Limits of size under their standard names, with the unit they are printed in."""
    if not thread.is_machine:
        return _printed_sizes(thread)
    found = threads.limits(thread, fit_class)
    result: Answer = dict(found.named())
    if found.screw is not None and found.screw.root is not None:
        result |= {"d3_max": found.screw.root.high, "d3_min": found.screw.root.low}
    both = threads.printed_both_ways(found)
    if both is not None:
        result["D1_max_any_of"] = list(both)
    return result | {"unit": found.unit}


def _printed_sizes(thread: Thread) -> Answer:
    """What the tables print of a thread without classes of fit: tapping, plastics, British."""
    found: Answer = {"d": thread.major, "P": thread.pitch, "unit": "mm"}
    if thread.crest is not None:
        found |= {"d1_max": thread.crest.high, "d1_min": thread.crest.low}
        found |= {"d_max": thread.crest.high, "d_min": thread.crest.low}
    if thread.core is not None:
        return found | {"d2_max": thread.core.high, "d2_min": thread.core.low}
    return found | {"d2": thread.pitch_diameter, "d1": thread.minor}


def _length(given: Given, name: str) -> float | None:
    """A length given in mm or in inches, in mm."""
    for suffix, factor in (("_mm", 1.0), ("_in", INCH), ("", 1.0)):
        if given.get(name + suffix) is not None:
            return float(given[name + suffix]) * factor
    return None


def _each(given: Given, names: tuple[str, ...], figure: Callable[[str], float]) -> Any:
    """One figure a class, in the shape the classes were given in."""
    wanted = next((given[name] for name in names if name in given), "4.8")
    if isinstance(wanted, list):
        return [figure(str(one)) for one in wanted]
    return figure(str(wanted))


def _scaled(value: Any, factor: float) -> Any:
    """A figure, or a list of them, in another unit."""
    return [one * factor for one in value] if isinstance(value, list) else value * factor


_CLASSES = ("property_class", "grade", "class")


def _load(thread: Thread, given: Given, which: Callable[[Thread, str], float]) -> Answer:
    """A load in N, lbf and kN."""
    newtons = _each(given, _CLASSES, lambda name: which(thread, name))
    return {
        "N": newtons,
        "kN": _scaled(newtons, 1e-3),
        "lbf": _scaled(newtons, 1 / strength.LBF),
    }


def _proof(thread: Thread, given: Given) -> Answer:
    """Proof load."""
    return _load(thread, given, strength.proof_load)


def _ultimate(thread: Thread, given: Given) -> Answer:
    """Least breaking load."""
    return _load(thread, given, strength.ultimate_load)


def _stresses(_thread: Thread, given: Given) -> Answer:
    """Stress of a class, MPa and ksi: proof where the quantity says so, else tensile."""
    proof = "proof" in str(given.get("quantity")).lower()
    value = _each(given, _CLASSES, strength.proof_stress if proof else strength.tensile_stress)
    return {"MPa": value, "ksi": _scaled(value, 1 / strength.KSI)}


def _percent(thread: Thread, given: Given) -> Answer:
    """Per cent of thread a hole leaves, on the 0.75 H and on the 0.625 H basis."""
    bore = next((b for n in _BORES if (b := _length(given, n)) is not None), None)
    if bore is None:
        raise WrongInput("The hole's minor diameter is needed.")
    bite = (thread.major - bore) / 2
    wide, narrow = 100 * bite / (0.75 * thread.height), 100 * bite / (0.625 * thread.height)
    named = "0625" in str(given.get("quantity")) or "iso" in str(given.get("quantity")).lower()
    return {
        "percent": narrow if named else wide,
        "percent_075H": wide,
        "percent_0625H": narrow,
    }


_BORES = ("hole_minor", "minor", "hole", "drill")


def _stress_area(thread: Thread, _given: Given) -> Answer:
    """Tensile stress area."""
    return _area_names(strength.stress_area(thread), ("As", "area", "stress_area"))


def _area_names(area: float, names: tuple[str, ...]) -> Answer:
    """An area in mm² and in², under each name."""
    inch = area / INCH**2
    found: Answer = {"mm2": area, "in2": inch}
    for name in names:
        found |= {f"{name}_mm2": area, f"{name}_in2": inch}
    return found


def _shear_areas(thread: Thread, given: Given) -> Answer:
    """Shear areas (2a) and (4a) over the engaged length, or per unit of it."""
    engaged = next((g for n in ("engaged", "LE") if (g := _length(given, n)) is not None), None)
    per_inch = thread.system is System.UNIFIED
    length = engaged if engaged is not None else (INCH if per_inch else 1.0)
    hole = strength.shear_area_hole(thread, thread, length)
    screw = strength.shear_area_screw(thread, thread, length)
    return {
        **{f"AS_n_{unit}": value for unit, value in _both_units(hole)},
        **{f"AS_s_{unit}": value for unit, value in _both_units(screw)},
        "engaged_mm": length,
    }


def _both_units(area: float) -> list[tuple[str, float]]:
    """An area in mm² and in²."""
    return [("mm2", area), ("in2", area / INCH**2)]


def _engagement(thread: Thread, given: Given) -> Answer:
    """Length of engagement for full screw strength, FED-STD-H28/2B (13), (14) and (16)."""
    screw = given.get("uts_screw_mpa")
    if screw is None:
        screw = _each(given, _CLASSES[:2], strength.tensile_stress)
    hole = float(given.get("uts_hole_mpa") or given.get("uts_mpa") or screw)
    named = {
        "13": strength.engagement_equal(thread),
        "14": strength.engagement_strong_hole(thread),
        "16": strength.engagement_weak_hole(thread, float(screw), hole),
    }
    found: Answer = {f"LE_{number}_mm": value for number, value in named.items()}
    found |= {f"LE_{number}_in": value / INCH for number, value in named.items()}
    found |= {f"LE_{number}_d": value / thread.major for number, value in named.items()}
    return found


def _strip(thread: Thread, given: Given) -> Answer:
    """Load that strips the hole's thread."""
    engaged = _length(given, "engaged") or _length(given, "sheet") or thread.major
    load = strength.strip_load(thread, thread, engaged, float(given.get("uts_mpa", 300)))
    return {"N": load, "lbf": strength.lbf(load), "kN": load / 1000}


def _torque(thread: Thread, given: Given) -> Answer:
    """Torque ceiling: of the screw, or of the sheet where a sheet is given."""
    sheet = _length(given, "sheet")
    if sheet is not None:
        value: Any = strength.sheet_torque(thread, thread, sheet, float(given.get("uts_mpa", 300)))
    else:
        finish = str(given.get("finish") or given.get("condition") or "dry")
        value = _each(given, _CLASSES, lambda name: strength.torque(thread, name, finish))
    inch_pounds = _scaled(value, strength.in_lb(1.0))
    return {"Nm": value, "N_m": value, "in_lb": inch_pounds, "inlb": inch_pounds}


def _clearance(thread: Thread, _given: Given) -> Answer:
    """Clearance holes, with the inch names for an inch size."""
    found = holes.clearance(thread)
    if found is None:
        raise WrongInput(f"No clearance hole is listed for {thread.name}.")
    inch = dict(zip(("close", "normal", "loose"), found.values(), strict=True))
    return {
        **found,
        **{f"{name}_mm": value for name, value in found.items()},
        **{f"{name}_in": value / INCH for name, value in inch.items()},
    }


def _tap_drill(thread: Thread, _given: Given) -> Answer:
    """Tap drill and the thread it leaves."""
    drill = holes.tap_drill(thread)
    if drill is None:
        raise WrongInput(f"No tap drill is listed for {thread.name}.")
    percent = 100 * (thread.major - drill) / 2 / (0.75 * thread.height)
    return {"mm": drill, "drill_mm": drill, "in": drill / INCH, "drill_in": drill / INCH} | {
        "percent": percent
    }


def _basic(thread: Thread, _given: Given) -> Answer:
    """The basic profile in mm."""
    return {
        "d": thread.major,
        "d_mm": thread.major,
        "P_mm": thread.pitch,
        "H_mm": thread.height,
        "d2": thread.pitch_diameter,
        "D2": thread.pitch_diameter,
        "d1": thread.minor,
        "D1": thread.minor,
        "d3": thread.root,
    }


def _allowance(thread: Thread, given: Given) -> Answer:
    """What a class takes off the basic size: es of a metric class, the inch allowance."""
    if thread.system is System.METRIC:
        tolerance = iso965.ToleranceClass(str(given.get("class", "6g")).split("/")[0])
        micrometres = iso965.deviation(thread.pitch, tolerance.crest_position)
        return {"es_um": micrometres, "um": micrometres, "mm": micrometres / 1000}
    found = threads.limits(thread, str(given.get("class", "2A"))).screw
    inches = round(thread.major / INCH - found.major.high, 4) if found else 0.0
    return {"allowance_in": inches, "in": inches, "mm": inches * INCH}


COATING_FACTOR = 4.0
"""Growth of the pitch diameter over the coating's thickness at 60 degrees (from memory)."""


def _coating(thread: Thread, given: Given) -> Answer:
    """Growth of the pitch diameter by a coating, and whether it uses up the g allowance."""
    thickness = float(given.get("coating_um", 5.0))
    growth = COATING_FACTOR * thickness
    return {"growth_um": growth, "um": growth} | {
        "within_allowance": growth <= iso965.deviation(thread.pitch, "g")
    }


def _overlap(thread: Thread, _given: Given) -> Answer:
    """Per cent of thread of the right screw in its own hole, tight, mean, loose."""
    found = [
        contact.percent_thread(contact.screw_at(thread, c), contact.hole_at(thread, c))
        for c in contact.Condition
    ]
    return {"percent_tight_mean_loose": found, "percent": found[1]}


QUANTITIES: tuple[tuple[str, Callable[[Thread, Given], Answer]], ...] = (
    ("tensile_strength", _stresses),
    ("tensile strength", _stresses),
    ("proof_stress", _stresses),
    ("proof_strength", _stresses),
    ("proof", _proof),
    ("strip_load", _strip),
    ("percent_thread_own", _overlap),
    ("percent", _percent),
    ("stress_area", _stress_area),
    ("tensile_area", _stress_area),
    ("shear_area", _shear_areas),
    ("strip", _shear_areas),
    ("engagement", _engagement),
    ("torque", _torque),
    ("clearance", _clearance),
    ("tap_drill", _tap_drill),
    ("ultimate", _ultimate),
    ("tensile", _ultimate),
    ("breaking", _ultimate),
    ("allowance", _allowance),
    ("deviation", _allowance),
    ("coating", _coating),
    ("basic", _basic),
)
"""Words in the name of a quantity, the telling ones first, and what computes it."""
