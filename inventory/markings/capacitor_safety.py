"""Interference capacitors of class X and Y: classes, volts a.c., value, makers' codes.

``class`` is the list of all classes a part carries, X before Y. Where each class has its own
voltage, ``voltage_vac_by_class`` holds them and ``voltage_vac`` the lowest, good for both.
"""

from __future__ import annotations

import re
from math import sqrt

from inventory.markings.amounts import PRACTICE, hertz
from inventory.markings.bookkeeping import START
from inventory.markings.capacitance import (
    VALUE_LINES,
    decimal,
    digits,
    letter,
)
from inventory.markings.capacitor import FILMS, LINES, bare_volts, temperature_code
from inventory.markings.capacitor_codes import MURATA, MURATA_TYPES, say_classes
from inventory.markings.capacitor_codes_more import CODES
from inventory.markings.capacitor_codes_more import SURE as SURE_CODES
from inventory.markings.figures import figure, ohms
from inventory.markings.passive_marks import (
    ANY_CASE,
    COMMON,
    Meaning,
    climatic,
    legend,
    temperature,
    tolerance,
    volts,
    word,
)
from inventory.markings.scanner import Rule, Scanner
from inventory.markings.writing import faithful, write
from inventory.records import Reading

IEC_60384_14 = "IEC 60384-14:2013, classes X1, X2, Y1, Y2"
"""Source of the classes; their impulse voltages stand in its table of pulse tests."""

IMPULSE_KV = {"X1": 4.0, "X2": 2.5, "Y1": 8.0, "Y2": 5.0, "Y4": 2.5}
"""Peak impulse of each class up to 1 µF, in kV. Source: IEC 60384-14, as tabled at
techoverflow.net/2019/08/07 (X1, X2, Y1, Y2, Y4)."""

_CLASS = re.compile(
    r"(?P<first>X[123]|Y[1234])(?:\s?[/+&,-]?\s?(?P<second>X[123]|Y[1234]))?"
    r"(?:(?![0-9A-Za-z])|(?=MK[PT]|MP|SH))",
    ANY_CASE,
)
_CLASS_VOLTS = re.compile(
    r"\s{0,2}[:=(]?\s{0,2}(?:(?:AC|~)\s?)?(?P<volts>[1-9][0-9]{2})\s?"
    r"(?:V\s?(?:AC|~)?|~)(?:\s?AC)?\)?(?![0-9A-WZa-z])",
    ANY_CASE,
)


def class_mark(scan: Scanner) -> bool:
    """Class = ("X" | "Y") digit ("/" class)? (number "V" "~"?)?"""
    found = scan.peek(_CLASS)
    if found is None:
        return False
    classes = [name.upper() for name in (found["first"], found["second"]) if name]
    say_classes(scan, classes)
    means = {"first": _class_meaning(classes[0])}
    if found["second"]:
        means["second"] = _class_meaning(classes[1])
    legend(scan, found, means)
    _volts_of_class(scan, classes)
    return True


def _class_meaning(name: str) -> Meaning:
    """What one class is for."""
    where = "across the mains" if name[0] == "X" else "from the mains to metal people touch"
    return f"class {name}, {where}", IEC_60384_14


def _volts_of_class(scan: Scanner, classes: list[str]) -> None:
    """Take the volts printed right behind a class; they belong to that class."""
    found = scan.peek(_CLASS_VOLTS)
    if found is None:
        return
    amount = int(found["volts"])
    by_class = scan.ratings.setdefault("voltage_vac_by_class", {})
    by_class.update(dict.fromkeys(classes, amount))
    legend(scan, found, {"volts": (f"{amount} V a.c. as {' and '.join(classes)}", IEC_60384_14)})


_TYPE = re.compile(r"(?P<type>K[XHY])(?![0-9A-Za-z])")


def murata_type(scan: Scanner) -> bool:
    """Type = "KX" | "KH" | "KY" as printed on the disc."""
    found = scan.peek(_TYPE)
    if found is None:
        return False
    classes = MURATA_TYPES[found["type"]]
    say_classes(scan, classes)
    return legend(scan, found, {"type": (f"type of class {' and '.join(classes)}", MURATA)})


_BLEEDER = re.compile(
    r"(?P<value>[0-9]{1,4}(?:[.,][0-9]{1,2})?)\s?(?P<unit>[kM])\s?(?:Ω|ohms?)(?![A-Za-z])", ANY_CASE
)


def bleeder(scan: Scanner) -> bool:
    """Resistor = number ("k" | "M") "Ω": built in to discharge the capacitor."""
    found = scan.peek(_BLEEDER)
    if found is None:
        return False
    amount = figure(found["value"], 3 if found["unit"] == "k" else 6)
    scan.say("discharge_resistor", value=True)
    scan.say("discharge_resistor_ohm", amount)
    return legend(scan, found, {"value": (f"built-in resistor of {ohms(amount)}", PRACTICE)})


_SHORT_VOLTS = re.compile(r"(?P<volts>[1-5][0-9]{2})\s?(?P<kind>AC)(?![0-9A-Za-z])", ANY_CASE)


def short_volts(scan: Scanner) -> bool:
    """Volts = three figures "AC", the V left out, e.g. 275AC."""
    found = scan.peek(_SHORT_VOLTS)
    if found is None:
        return False
    scan.say("voltage_vac", int(found["volts"]))
    means = {"volts": (f"{found['volts']} V", PRACTICE), "kind": ("a.c.", PRACTICE)}
    return legend(scan, found, means)


_PULSE = re.compile(
    r"(?P<kv>[1-9](?:[.,][0-9]{1,2})?)\s?kV(?:\s?(?:peak|pulse|impulse))?(?![0-9A-Za-z~]|\s?(?:AC|~))",
    ANY_CASE,
)


def pulse(scan: Scanner) -> bool:
    """Pulse = number "kV" "peak"?: the impulse it bears; no mains capacitor is rated kilovolts."""
    found = scan.peek(_PULSE)
    if found is None:
        return False
    scan.say("peak_impulse_kv", figure(found["kv"]))
    return legend(scan, found, {"kv": (f"bears a pulse of {found['kv']} kV", IEC_60384_14)})


RULES: tuple[Rule, ...] = (
    *START,
    *CODES,
    class_mark,
    murata_type,
    climatic,
    temperature,
    bleeder,
    pulse,
    hertz,
    volts("voltage_vac", "IEC 60384-14, rated voltage is a.c."),
    short_volts,
    *VALUE_LINES,
    bare_volts("a", "IEC 60384-14, rated voltage is a.c."),
    temperature_code,
    digits,
    tolerance,
    decimal,
    letter,
    *FILMS,
    word("MPX|MEX|MKX", "film capacitor for interference suppression", PRACTICE),
    word("AC|~", "alternating current", PRACTICE),
    word("SH", "self-healing", "IEC 60384-14, marking", self_healing=True),
    word("GMF", "safety test mark of an older standard", "from memory"),
    *COMMON,
)


def read(text: str) -> Reading:
    """Read what is printed on a capacitor between the mains lines, or from them to earth."""
    scan = Scanner(text)
    scan.sweep(RULES)
    _settle_volts(scan)
    _volts_of_type(scan)
    _impulse(scan)
    return scan.reading("capacitor_safety")


def _settle_volts(scan: Scanner) -> None:
    """With volts printed for each class, the lowest is what holds for all of them."""
    by_class = scan.ratings.get("voltage_vac_by_class")
    if not by_class:
        return
    if len(set(by_class.values())) == 1:
        del scan.ratings["voltage_vac_by_class"]
    else:
        scan.warn("Each class has its own voltage; voltage_vac is the lower one.")
    scan.say("voltage_vac", min(by_class.values()))


def _volts_of_type(scan: Scanner) -> None:
    """A disc marked with its type alone is for 250 V a.c.; a printed voltage stands.

    Source: Murata, types KX, KH and KY, all AC250V.
    """
    if any(mark.text in MURATA_TYPES for mark in scan.marks):
        scan.ratings.setdefault("voltage_vac", 250)


def _impulse(scan: Scanner) -> None:
    """The pulse a class must bear; above 1 µF it falls with the root of the value.

    2.2 µF of class X2 bear 1.69 kV. Source: IEC 60384-14, U divided by sqrt(C/µF).
    """
    known = [name for name in scan.ratings.get("class", []) if name in IMPULSE_KV]
    if not known:
        return
    micro = scan.ratings.get("capacitance_pf", 0) / 1e6
    each = [
        IMPULSE_KV[name] / (sqrt(micro) if micro > 1 and name in ("X1", "X2", "Y2") else 1)
        for name in known
    ]
    scan.assume("peak_impulse_kv", round(max(each), 2), IEC_60384_14)


_SURE = re.compile(
    r"(?<![0-9A-Za-z])(?:DE[12J](?:B3|E3|F3|1X)|R?46K[FINRW][0-9]{4}|B3292[1-8]|PME271|P276[HQCSE])"
    r"|(?<![0-9A-Za-z.])(?:X[123]|Y[124])(?:[/&,\s]?[XY][1-4])?(?![0-9A-Za-z.]).{0,40}?[0-9]\s?(?:V|n|µ|u|p|[JKM](?![a-z]))"
)
_MAYBE = re.compile(
    r"(?<![0-9A-Za-z])PME\s?271|(?<![0-9A-Za-z])(?:X[123]|Y[124])(?![0-9.])|MKP.{0,12}X2|(?:^|\s)K[XHY](?:\s|$)"
)
_GLUED = re.compile(r"[0-9]V?~?[XY][124](?:[XY][124])?(?![0-9A-Za-z])")
_WORN = re.compile(r"(?:MKP|MPX|[0-9][nuµ]F?)\b.{0,20}\b2[57]5\s?V?\s?~")


def likely(text: str) -> float:
    """How strongly a text looks like this family, 0 to 1."""
    if _SURE.search(text) or SURE_CODES.search(text):
        return 0.9
    if _MAYBE.search(text) or _GLUED.search(text):
        return 0.6
    return 0.5 if _WORN.search(text) else 0.0


def canonical(reading: Reading) -> str:
    """Classes, value, tolerance and volts in their plainest form."""
    return faithful(reading, _written(reading), read)


def _written(reading: Reading) -> str:
    """The ratings written out."""
    said = dict(reading.ratings)
    by_class = said.pop("voltage_vac_by_class", {})
    if by_class:
        del said["voltage_vac"]
        said["class"] = [f"{name} {by_class.get(name, '')}".strip() for name in said["class"]]
    return write(
        said,
        ("class", lambda names: " ".join(f"{n}V~" if " " in n else n for n in names)),
        *LINES,
    )
