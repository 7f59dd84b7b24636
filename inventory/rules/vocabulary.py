"""Every rating name: what a sheet compares, what a term turns into it, what is only noted and why.

A grammar that says a name this page does not know would be read and then forgotten in silence;
a test holds every reading against it.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping

from inventory.families.sheet import Sheet, sheet
from inventory.rules.loads import LOADS

TRUST = frozenset({"needs_review", "implausible", "repaired", "cf_pair_consistent"})
"""Whether a reading can be trusted: a question of ``rules.doubt_rules``, never searched by."""

TURNED: Mapping[str, frozenset[str]] = {
    "": frozenset({"awg", "capacitance_pf", "capacitance_nf", "terminal", "terminals"}),
    "switch": frozenset({"contact", "coil_volts_dc"}),
    "interlock_switch": frozenset({"contact", "coil_volts_dc"}),
    "relay": frozenset({"contact", "series", "special", "coil_power_w"}),
    "thermal_cutout": frozenset(
        {"open_f", "reset_f", "close_f", "close_on_rise_f", "open_on_fall_c", "open_on_fall_f",
         "open_tol_f", "differential_f", "inductive_a"}
    ),
    "thermal_link": frozenset({"tf_f", "th_f", "tm_f"}),
    "lamp": frozenset({"temp_f"}),
    "belt": frozenset({"length_in"}),
    "cord": frozenset({"jacket"}),
    "fuse": frozenset({"interrupting"}),
    "hv_fuse": frozenset({"voltage_kv"}),
    "hv_diode": frozenset({"if_a"}),
    "capacitor_safety": frozenset({"discharge_resistor_ohm", "voltage_vac_by_class"}),
    "hv_capacitor": frozenset({"bleeder_mohm", "voltage_v", "no_pcb"}),
}  # fmt: skip
"""Names that ``rules.terms`` or a rule of the family turns into what is compared."""

_CODE = "the code itself, which is compared as a code"
_SHEET = "follows from what is compared"
_HOUSE = "says how it is packed or made, not what it does"
_INDOORS = "every bench and kitchen is warmer"

NOTED: Mapping[str, Mapping[str, str]] = {
    "": {
        "approvals": "a mark of approval is no rating",
        "ul_file": "a mark of approval is no rating",
        "type": _CODE, "series": _CODE, "revision": _CODE, "suffix": _CODE, "base": _CODE,
        "standard": "the standard it was tested to is no rating of its own",
        "ratings": "its rows are compared one by one", "temp_min_c": _INDOORS,
        "ambient_min_c": _INDOORS, "climatic_category": "its temperatures are said by themselves",
        "value": "a figure whose unit the body decides", "r_is_decimal_point": _HOUSE,
        "packaging": _HOUSE, "rohs": _HOUSE, "cores": _SHEET, "self_healing": _HOUSE,
    },
    "bearing": {"precision": "machine-tool grades run in any appliance"},
    "belt": {"rib_pitch_mm": _SHEET, "width_mm": _SHEET, "width_in": _SHEET},
    "capacitor": {
        "frequency_hz": "a motor capacitor serves both mains",
        "frequency_mhz": "no mark of a capacitor", "role": "what it does, not what it is",
        "range_uf": "what a good one may read, not what it is rated",
        "tolerance_pf": "of a few picofarad, which no place here counts",
    },
    "capacitor_safety": {
        "frequency_hz": "both mains suit it", "frequency_mhz": "no mark of a capacitor",
        "tolerance_pf": "of a few picofarad, which no place here counts",
        "dielectric": "the class is what was tested, whatever the film",
        "peak_impulse_kv": "follows from the class",
        "voltage_vdc": "across the line only the a.c. voltage counts",
    },
    "cord": {
        "harmonised": _SHEET, "insulation": "inside the sheath", "mates_connector": _SHEET,
        "class": "follows from the earth core", "sheet": "said by the inlet it mates",
        "also_connector": _SHEET, "also_inlet": _SHEET, "locking": "said by the plug",
    },
    "coupler": {
        "also_connector": _SHEET, "also_inlet": _SHEET, "mates_connector": _SHEET,
        "current_us_a": "the higher North American figure of one sheet",
        "voltage_us_vac": "the North American figure of one sheet",
    },
    "diode": {"tolerance_pct": "of the Zener voltage, which is compared by itself"},
    "drive_coupler": {"diameter_mm": "the shaft and the lobes decide"},
    "fuse": {
        "standard_part": "speed, letter and size say it", "unknown_suffix": "warned of when read",
    },
    "hv_capacitor": {
        "frequency_mhz": "of the magnetron, not of the part",
        "voltage_vdc": "an oven's doubler is judged by a.c. volts",
    },
    "hv_fuse": {"body": "the sleeve is no rating", "voltage_dc_v": "its a.c. volts are compared"},
    "interlock_switch": {}, "switch": {},
    "inverter_board": {
        "frequency_hz": "both mains suit a rectifier", "frequency_mhz": "of the magnetron",
        "power_w": "follows from the board number", "voltage_vdc": "an output of the board",
    },
    "lamp": {
        "colour_k": "light colour is taste", "lumen": "brightness is taste", "shape": _SHEET,
        "voltage_dc_v": "a lamp's d.c. volts are judged by the kind of supply",
    },
    "magnetron": {
        "anode_ma": "follows from power and volts", "filament_a": "follows from the type",
        "frequency_hz": "of the mains, not of the tube",
    },
    "motor_fan": {
        "current_a": "follows from the power", "power_in_w": "the rated power is compared",
        "power_out_w": "the rated power is compared",
        "voltage_vdc": "judged by the kind of supply",
    },
    "motor_turntable": {
        "current_a": "follows from the power", "power_in_w": "the rated power is compared",
        "power_out_w": "the rated power is compared", "insulation_class": "a motor of 3 W",
        "voltage_vdc": "judged by the kind of supply",
    },
    "mov": {"shape": "a square disc serves as a round one", "tolerance_letter": "K is the usual"},
    "ntc": {
        "b_range": "which two temperatures the B value is of", "temp_c": "no limit of a sensor",
        "range_ohm": "what a good one may read, not what it is rated",
    },
    "other": {
        "voltage_vac": "nothing is compared but the code",
        "voltage_vdc": "nothing is compared but the code",
    },
    "relay": {
        "ambient_partial_max_c": "a relay has no cooler side", "disconnection": "a board relay's",
        "contact_gap_mm": "said of a switch; a relay's type says it",
        "frequency_hz": "a contact does not mind 50 or 60 Hz", "glow_wire_c": "of the whole board",
        "high_capacity": "its ratings say how much", "ip": "said by the enclosure",
        "protection_class": "of the appliance", "pti": "said by the insulation class",
        "volts": "the volts of a figure whose load is not named",
    },
    "resistor": {
        "role": "what it does, not what it is", "tcr_ppm": "no matter in a bleeder or a dropper",
        "temp_c": "said by its power", "voltage_vac": "its limiting volts are compared",
        "voltage_vdc": "its limiting volts are compared",
    },
    "resistor_fusible": {
        "role": "what it does, not what it is", "tcr_ppm": "no matter in a fusible one",
        "construction": "the series says it", "temp_c": "the series says it",
        "voltage_v": "the series says it", "voltage_vac": "the series says it",
        "voltage_vdc": "the series says it",
    },
    "screw": {"diameter_mm": "said by the thread"},
    "terminal": {
        "voltage_v": "the housing says it", "wire_size": "a crimp maker's number for the area",
    },
    "thermal_cutout": {
        "location": "where it sat; a place is said with --place",
        "cycles": "an endurance no bench can check", "close_tol_c": "of the reset, which is soft",
        "close_tol_f": "of the reset, which is soft", "reset_tol_c": "of the reset, which is soft",
        "reset_tol_f": "of the reset, which is soft", "close_on_rise_tol_c": "of a fan contact",
        "range_c": "of a whole series: such a reading is in doubt",
        "frequency_hz": "a contact does not mind 50 or 60 Hz",
    },
    "thermal_link": {
        "actual_open_c": "where a sample opened; the Tf is what is compared",
        "voltage_dc_v": "its a.c. volts are compared",
    },
    "transformer": {
        "frequency_mhz": "of the magnetron", "insulation_class": "iron and volts decide first",
    },
    "tray": {"lobes": "said by the coupler"},
    "wire": {
        "conductor": "laid where the old one lay", "earth": _SHEET, "harmonised": _SHEET,
        "shape": "single cores are round", "sheath": "a single core has none",
    },
}  # fmt: skip
"""Ratings that are read and shown and decide nothing, with the reason; "" stands for all."""

_CONTACT_NOTES = {
    "ambients": "the hottest is asked for, the coolest is offered",
    "protection_class": "of the appliance", "role": "the place, where none is said",
    "contact_material": "the ratings were tested with it",
    "sealed": "an open type in its place is seen at once", "types": "codes listed for the place",
    "volts": "the volts of a figure whose load is not named",
}  # fmt: skip
"""Notes of all contacts."""


def rating_names(family: str) -> frozenset[str]:
    """Names by which a part of the family can be asked for."""
    page = sheet(family)
    names = {name for a in page.attributes for name in (a.name, *a.also_named)}
    turned = TURNED.get(family, frozenset()) | {n for n in TURNED[""] if _of_use(n, names)}
    return frozenset(names | turned | (set(LOADS) | {"ratings"} if _contacts(page) else set()))


_ALWAYS = frozenset({"thermal_cutout", "relay", "fuse"})
"""Families whose plain ratings say more than they print: an opening point, a speed, a series."""


def turns(family: str, names: Iterable[str]) -> bool:
    """Whether any of these names is turned into another one that is compared."""
    own = TURNED.get(family, frozenset())
    return family in _ALWAYS or any(name in own or name in TURNED[""] for name in names)


def noted(family: str) -> Mapping[str, str]:
    """Names that are read of the family and not compared, each with the reason."""
    own = NOTED.get(family, {})
    return {**NOTED[""], **(_CONTACT_NOTES if _contacts(sheet(family)) else {}), **own}


def strangers(family: str, names: frozenset[str]) -> frozenset[str]:
    """Names nobody has thought about: neither compared, nor turned, nor noted."""
    return names - rating_names(family) - TRUST - set(noted(family))


def _contacts(page: Sheet) -> bool:
    """Whether the family's ratings are contact ratings."""
    return any(attribute.load for attribute in page.attributes)


_ENDS = {
    "awg": {"area_mm2", "area_max_mm2"},
    "capacitance_pf": {"capacitance_uf"},
    "capacitance_nf": {"capacitance_uf"},
    "terminal": {"tab_mm"},
    "terminals": {"tab_mm"},
}
"""What the shared terms end in."""


def _of_use(name: str, names: set[str]) -> bool:
    """Whether a shared term leads to an attribute of the family."""
    return bool(_ENDS[name] & names)
