"""Terms of single families: what their grammars, tables and meters call by another name."""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping
from typing import Any

from inventory.records import Value
from inventory.rules.words import form, poles

Said = dict[str, Any]
Term = Callable[[Said], Mapping[str, Value]]


def _form_of_contact(said: Said) -> Mapping[str, Value]:
    """A full contact form in ``contact``; a bare NO or NC there is the throw of the rating."""
    contact = str(said.get("contact", ""))
    return {"contact_form": contact} if form(contact) and len(contact) > 2 else {}


def _not_latching(said: Said) -> Mapping[str, Value]:
    """A relay code that was read and names no latching is a plain relay.

    Source: Omron G5RL model number legend: U and K latch, no letter does not.
    """
    return {"latching": False} if said.get("series") else {}


def _celsius(said: Said) -> Mapping[str, Value]:
    """Degrees Celsius from Fahrenheit. Source: NIST SP 811, appendix B.8."""
    points = ("open", "reset", "close", "close_on_rise", "open_on_fall", "tf", "th", "tm", "temp")
    return {f"{p}_c": round((said[f"{p}_f"] - 32) / 1.8, 1)
            for p in points if _known(said, f"{p}_f")}  # fmt: skip


def _kelvin(said: Said) -> Mapping[str, Value]:
    """Tolerances in kelvin from those in Fahrenheit degrees: 9 °F are 5 K."""
    points = ("open", "reset", "close")
    return {f"{p}_tol_c": round(said[f"{p}_tol_f"] / 1.8, 1)
            for p in points if _known(said, f"{p}_tol_f")}  # fmt: skip


def _falls_open(said: Said) -> Mapping[str, Value]:
    """A contact that closes on rising heat resets where it opens on falling heat."""
    return {"reset_c": said["open_on_fall_c"]} if _known(said, "open_on_fall_c") else {}


def _known(said: Said, name: str) -> bool:
    """Whether a figure is there."""
    return isinstance(said.get(name), int | float)


def _fuse_system(said: Said) -> Mapping[str, Value]:
    """The rating system, where only one prints such marks.

    Source: IEC 60127-1, marking: the letters FF, F, M, T, TT and L, E, H are IEC's.
    """
    stated = str(said.get("standard", ""))
    if said.get("breaking_class") or str(said.get("time_characteristic")) in {"FF", "F", "T", "TT"}:
        return {"standard": stated or "IEC 60127"}
    return {}


def _class_of_system(said: Said) -> Mapping[str, Value]:
    """A UL fuse has no breaking letter: its interrupting rating goes with the system.

    Source: UL 248-14 interrupting ratings, as printed in the Littelfuse fuseology guide.
    """
    ul = "248" in str(said.get("standard", ""))
    return {"breaking_class": "UL 248-14"} if ul else {}


def _reset_from_differential(said: Said) -> Mapping[str, Value]:
    """The reset lies below the opening by the differential: L145-30F resets at 115 °F."""
    opens, gap = said.get("open_c"), said.get("differential_f")
    if isinstance(opens, int | float) and isinstance(gap, int | float):
        return {"reset_c": round(opens - gap / 1.8, 1)}
    return {}


def _voltage_of_classes(said: Said) -> Mapping[str, Value]:
    """Of the voltages of several safety classes the lowest holds for all of them."""
    by_class = said.get("voltage_vac_by_class")
    figures = by_class.values() if isinstance(by_class, dict) else ()
    known = [figure for figure in figures if isinstance(figure, int | float)]
    return {"voltage_vac": min(known)} if known else {}


def _opens_on_rise(said: Said) -> Mapping[str, Value]:
    """Which way the contact goes, from the temperatures given."""
    if _known(said, "close_on_rise_c"):
        return {"contact": "NO"}
    return {"contact": "NC"} if _known(said, "open_c") else {}


def _inrush(said: Said) -> Mapping[str, Value]:
    """A disc with a size or a current and no B value limits inrush; it is no sensor."""
    disc = any(name in said for name in ("diameter_mm", "imax_a", "i_max_a"))
    if disc and "b_k" not in said and _known(said, "r25_ohm"):
        return {"inrush_ohm": said["r25_ohm"]}
    return {}


def _milliamperes(said: Said) -> Mapping[str, Value]:
    """Forward current in milliamperes."""
    return {"if_ma": round(said["if_a"] * 1000, 6)} if _known(said, "if_a") else {}


def _kilovolts(said: Said) -> Mapping[str, Value]:
    """Volts from kilovolts."""
    return {"voltage_v": said["voltage_kv"] * 1000} if _known(said, "voltage_kv") else {}


def _mains_contact(said: Said) -> Mapping[str, Value]:
    """A thermostat's bracket is its motor figure, under whichever name it was read."""
    return {"motor_a": said["inductive_a"]} if _known(said, "inductive_a") else {}


def _microwave_code(said: Said) -> Mapping[str, Value]:
    """A discharge resistor printed with its value is there."""
    return {"discharge_resistor": True} if _known(said, "discharge_resistor_ohm") else {}


def _bleeder(said: Said) -> Mapping[str, Value]:
    """A bleeder printed with its value is there."""
    return {"bleeder": True} if _known(said, "bleeder_mohm") else {}


def _coil_from_power(said: Said) -> Mapping[str, Value]:
    """Coil resistance from rated power and voltage: R = U²/P."""
    volts, watts = said.get("coil_vdc"), said.get("coil_power_w")
    if isinstance(volts, int | float) and isinstance(watts, int | float) and watts > 0:
        return {"coil_ohm": round(volts**2 / watts, 1)}
    return {}


def _inch_length(said: Said) -> Mapping[str, Value]:
    """Millimetres of a length in inches."""
    return {"length_mm": round(said["length_in"] * 25.4, 1)} if _known(said, "length_in") else {}


def _interrupting(said: Said) -> Mapping[str, Value]:
    """The interrupting rating at the highest voltage it is given for."""
    rows = said.get("interrupting")
    rows = [row for row in rows if isinstance(row, dict)] if isinstance(rows, list) else []
    known = [row for row in rows if _known(row, "a") and _known(row, "voltage_v")]
    best = max(known, key=lambda row: float(row["voltage_v"]), default=None)
    return {"breaking_capacity_a": best["a"]} if best else {}


def _jacket(said: Said) -> Mapping[str, Value]:
    """The jacket of a cord under the harmonised word for it."""
    words = {"thermoplastic": "PVC", "rubber": "rubber"}
    return {"sheath": words[said["jacket"]]} if said.get("jacket") in words else {}


_SERVICE = re.compile(r"(SJ|SV|SP|HP|S)[A-Z]{0,6}(?:-[123])?")


def _volts_of_service(said: Said) -> Mapping[str, Value]:
    """Rated voltage of a service cord: J, V, P and HP types are for 300 V, plain S for 600 V.

    Source: UL 62 type letters, as explained by Electric Cords Inc.
    """
    found = _SERVICE.fullmatch(str(said.get("service", "")).strip().upper())
    if found is None or "voltage" in said:
        return {}
    return {"voltage_v": 600 if found[1] == "S" else 300}


def _poles_of_form(said: Said) -> Mapping[str, Value]:
    """The number of poles a contact form names."""
    return {"poles": poles(said.get("contact_form"))}


TERMS: dict[str, tuple[Term, ...]] = {
    "switch": (_form_of_contact, _poles_of_form),
    "interlock_switch": (_form_of_contact, _poles_of_form),
    "relay": (_form_of_contact, _not_latching, _poles_of_form, _coil_from_power),
    "thermal_cutout": (
        _celsius,
        _kelvin,
        _falls_open,
        _opens_on_rise,
        _mains_contact,
        _reset_from_differential,
    ),
    "thermal_link": (_celsius,),
    "lamp": (_celsius,),
    "belt": (_inch_length,),
    "cord": (_jacket, _volts_of_service),
    "fuse": (_class_of_system, _fuse_system, _interrupting),
    "hv_fuse": (_kilovolts,),
    "ntc": (_inrush,),
    "hv_diode": (_milliamperes,),
    "capacitor_safety": (_microwave_code, _voltage_of_classes),
    "hv_capacitor": (_bleeder,),
}
"""Terms one family needs beside the common ones."""
