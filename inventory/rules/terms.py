"""Ratings under one set of names: what grammars, tables and meters call by several.

Only the judging sees this view; what is stored stays as it was printed or measured. Nothing is
invented here: a term is another way to say what is already there.
"""

from __future__ import annotations

import math
import re
from collections.abc import Callable, Mapping
from typing import Any

from inventory.families.sheet import Sheet
from inventory.records import Value
from inventory.rules.words import form, plain_word, poles, reset

Said = dict[str, Any]
Term = Callable[[Said], Mapping[str, Value]]

CONTACTS = frozenset({"switch", "interlock_switch", "relay", "thermal_cutout"})
"""Families whose ratings are contact ratings."""

_NUMBER = re.compile(r"[+-]?[0-9]{1,12}(?:[.,][0-9]{1,9})?")
_SIZE = re.compile(
    r"([0-9]{1,4}(?:[.,][0-9]{1,3})?)\s?(?:mm)?\s?[x×*]\s?([0-9]{1,4}(?:[.,][0-9]{1,3})?)\s?(?:mm)?"
)
_TAB = re.compile(r"(?:qc|faston|tab|#)[\s-]?(2\.8|4\.8|5\.2|6\.3|9\.5|110|187|205|250|375)")
_TAB_MM = {"110": 2.8, "187": 4.8, "205": 5.2, "250": 6.3, "375": 9.5}
_TV = re.compile(r"TV[\s-]?([0-9]{1,2})", re.IGNORECASE)


def in_terms(sheet: Sheet, ratings: Mapping[str, Value]) -> Said:
    """Ratings under the names and in the units of the sheet; unknown stays unknown."""
    said = {name: tidy(value) for name, value in ratings.items() if value is not None}
    said = _renamed(sheet, said)
    for term in (*COMMON, *TERMS.get(sheet.id, ())):
        said = {**term(said), **said}
    return _settled(sheet.id, _renamed(sheet, said))


def _renamed(sheet: Sheet, said: Said) -> Said:
    """Other names of an attribute under the sheet's own, where that is not there."""
    for attribute in sheet.attributes:
        for other in attribute.also_named:
            if other in said:
                said = {attribute.name: said[other], **said}
    return said


def _settled(family: str, said: Said) -> Said:
    """Terms whose own word gives way to the plain one."""
    for only, name, plain in PLAIN:
        if only in {"", family} and name in said:
            said[name] = plain(said)
    return {name: value for name, value in said.items() if value is not None}


def tidy(value: Value) -> Value:
    """Numbers as numbers, sizes as lists; any other text as it is.

    >>> tidy("6,3 x 0,8"), tidy("16"), tidy("pin plunger")
    ([6.3, 0.8], 16, 'pin plunger')
    """
    if isinstance(value, list | tuple | set | frozenset):
        items = sorted(value) if isinstance(value, set | frozenset) else value
        return [tidy(item) for item in items]
    if not isinstance(value, str):
        return value
    text = value.strip()
    if _NUMBER.fullmatch(text):
        return _figure(text)
    size = _SIZE.fullmatch(text)
    return [_figure(size[1]), _figure(size[2])] if size else text


def _figure(text: str) -> int | float:
    """A figure with point or comma; whole ones as int."""
    figure = float(text.replace(",", "."))
    return int(figure) if figure.is_integer() else figure


# terms every family shares ------------------------------------------------


def _tab_from_words(said: Said) -> Mapping[str, Value]:
    """``qc-4.8`` or ``#187`` names a tab width."""
    for name in ("terminals", "terminal", "series"):
        found = _TAB.search(plain_word(said.get(name, "")).replace(" ", "-"))
        if found:
            return {"tab_mm": _TAB_MM.get(found[1]) or float(found[1])}
    return {}


def _tab_thickness(said: Said) -> Mapping[str, Value]:
    """Width and thickness of a tab; 6.3 mm tabs are 0.8 mm, smaller ones come in two.

    Source: UL 310 and IEC 61210, nominal tab sizes.
    """
    tab = said.get("tab_mm")
    if isinstance(tab, list) and len(tab) == 2 and not isinstance(tab[1], list):
        return {"tab_thick": tab[1]}
    return {"tab_thick": 0.8} if tab == 6.3 else {}


def _area_of_gauge(said: Said) -> Mapping[str, Value]:
    """Area [mm²] of an AWG number: d = 0.127 mm · 92^((36 - n)/39).

    Source: ASTM B258. 18 AWG is 0.823 mm².
    """
    gauge = said.get("awg")
    if not isinstance(gauge, int | float):
        return {}
    diameter = 0.127 * 92 ** ((36 - gauge) / 39)
    return {"area_mm2": round(math.pi / 4 * diameter**2, 3)}


def _capacitance(said: Said) -> Mapping[str, Value]:
    """Capacitance in microfarads, from pico- or nanofarads."""
    for name, factor in (("capacitance_pf", 1e-6), ("capacitance_nf", 1e-3)):
        if isinstance(said.get(name), int | float):
            return {"capacitance_uf": round(said[name] * factor, 12)}
    return {}


def _television(said: Said) -> Mapping[str, Value]:
    """``TV-8`` among a relay's specials."""
    found = _TV.search(str(said.get("special", "")))
    return {"tv": f"TV-{found[1]}"} if found else {}


COMMON: tuple[Term, ...] = (
    _tab_from_words,
    _tab_thickness,
    _area_of_gauge,
    _capacitance,
    _television,
)

# terms of one family --------------------------------------------------------


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
    pairs = (("open_c", "open_f"), ("reset_c", "reset_f"), ("close_on_rise_c", "close_on_rise_f"))
    return {c: round((said[f] - 32) / 1.8, 1) for c, f in pairs if _known(said, f)}


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


def _poles_of_form(said: Said) -> Mapping[str, Value]:
    """The number of poles a contact form names."""
    return {"poles": poles(said.get("contact_form"))}


TERMS: dict[str, tuple[Term, ...]] = {
    "switch": (_form_of_contact,),
    "interlock_switch": (_form_of_contact,),
    "relay": (_form_of_contact, _not_latching, _poles_of_form),
    "thermal_cutout": (_celsius, _opens_on_rise, _mains_contact),
    "thermal_link": (_celsius,),
    "fuse": (_class_of_system, _fuse_system),
    "hv_fuse": (_kilovolts,),
    "ntc": (_inrush,),
    "hv_diode": (_milliamperes,),
    "capacitor_safety": (_microwave_code,),
    "hv_capacitor": (_bleeder,),
}
"""Terms one family needs beside the common ones."""

# words that give way to the plain one -------------------------------------------


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


PLAIN: tuple[tuple[str, str, Callable[[Said], Value]], ...] = (
    ("", "tab_mm", _tab_width),
    ("thermal_cutout", "reset", _reset_word),
    ("fuse", "standard", _rating_system),
    ("cord", "service", _service_letters),
    ("ntc", "r25_ohm", _sensor_only),
    ("screw", "thread", _thread_with_pitch),
)
"""Family ("" for all), rating, and what it is replaced by."""
