"""Which grammar reads a family: through its sheet, or by name where a family has no sheet."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from functools import cache
from importlib import import_module
from importlib.util import find_spec

from inventory.errors import WrongInput
from inventory.families import sheet as sheets
from inventory.records import Reading

NUMBER_FAMILIES = ("oem_number", "model_number", "serial_number", "rating_plate", "ocr_repair")
"""Families that are texts about parts, not parts: no sheet, a grammar of the same name."""

FAMILIES = (
    *("switch", "interlock_switch", "relay", "thermal_cutout", "fuse", "hv_fuse", "thermal_link"),
    *("mov", "hv_capacitor", "hv_diode", "magnetron", "transformer", "inverter_board"),
    *("capacitor_safety", "capacitor", "resistor", "resistor_fusible", "ntc", "diode", "triac"),
    *("motor_turntable", "motor_fan", "belt", "bearing", "drive_coupler", "roller", "tray"),
    *("terminal", "connector", "cord", "wire", "coupler", "lamp", "screw", "other"),
    *NUMBER_FAMILIES,
)
"""Every family a marking can be read as, in the order in which equals are ranked."""


TRADE_NAMES = {
    "micro_switch": "switch",
    "door_switch": "interlock_switch",
    "thermostat": "thermal_cutout",
    "bimetal": "thermal_cutout",
    "cartridge_fuse": "fuse",
    "high_voltage_fuse": "hv_fuse",
    "thermal_fuse": "thermal_link",
    "thermal_cutoff": "thermal_link",
    "varistor": "mov",
    "high_voltage_capacitor": "hv_capacitor",
    "high_voltage_diode": "hv_diode",
    "hv_transformer": "transformer",
    "board": "inverter_board",
    "interference_capacitor": "capacitor_safety",
    "film_capacitor": "capacitor",
    "electrolytic_capacitor": "capacitor",
    "fusible_resistor": "resistor_fusible",
    "thermistor": "ntc",
    "rectifier": "diode",
    "turntable_motor": "motor_turntable",
    "fan_motor": "motor_fan",
    "motor_shaded_pole": "motor_fan",
    "shaded_pole_motor": "motor_fan",
    "quick_connect": "terminal",
    "power_cord": "cord",
    "plug": "coupler",
    "bulb": "lamp",
    "glass_tray": "tray",
    "part_number": "oem_number",
}
"""Names of the trade for a family, and the family."""


def family_named(word: str) -> str:
    """The family of a name of the trade; any other word as it is.

    >>> family_named("thermal fuse"), family_named("relay")
    ('thermal_link', 'relay')
    """
    plain = word.strip().lower().replace("-", "_").replace(" ", "_")
    return TRADE_NAMES.get(plain, word)


@dataclass(frozen=True, slots=True)
class Grammar:
    """The functions of one grammar module."""

    name: str
    read: Callable[[str], Reading]
    likely: Callable[[str], float]
    canonical: Callable[[Reading], str] | None


@cache
def grammar(family: str) -> Grammar | None:
    """The grammar of a family; None while its module is not there.

    An unknown family is the user's mistake.
    """
    if family not in FAMILIES:
        raise WrongInput(f"There is no family {family!r}.")
    name = _module_name(family)
    path = f"inventory.markings.{name}"
    if find_spec(path) is None:
        return None
    module = import_module(path)
    return Grammar(name, module.read, module.likely, getattr(module, "canonical", None))


def _module_name(family: str) -> str:
    """The module named on the family's sheet, or the family's own name."""
    if family in sheets.families():
        return sheets.grammar_of(family)
    return family
