"""Ampere groups of a contact marking: ``16(4)A``, ``8/128A``, ``6[60]A``, ``10GPA``."""

from __future__ import annotations

import re

from inventory.markings.contacts_items import Current, Fact, Load, Number, Volts
from inventory.markings.contacts_scan import GLUED_CYCLES, GLUED_T, NUM, ContactScanner
from inventory.markings.scanner import number

IEC_CURRENT = "IEC 61058-1, current marking (as explained by cxswitch and standard123)"
UL_GENERAL = "UL 1054 / UL 61058-1, general-purpose amperes"

_UNIT = r"(?:AX|GPA|gpa|m[Aa]|MA|A(?:MP(?:S|ERES?)?|mp(?:s|eres?)?)?|a(?:mp(?:s|eres?)?)?)"
_VOLTS_NEXT = r"[1-9][0-9/., -]{0,14}[Vv]"
_END = rf"(?:(?=$|[^0-9A-Za-z]|{_VOLTS_NEXT}|[AD]C\s?[0-9]|at\s?[0-9])|{GLUED_CYCLES}|{GLUED_T})"
"""An A may be glued to what stands behind it: volts, cycles, a T mark."""
_BRACKET_UNIT = r"(?:(?:A(?:MPS?|mps?)?|a(?:mps?)?)\.?)"
_BRACKET = rf"[(\[«‹<]{{1,2}}\s?{NUM}\s?[;/,]?\s?(?:{NUM})?\s?{_BRACKET_UNIT}?\s?[)\]»›>]{{1,2}}"

_GROUP = re.compile(
    rf"(?:(?P<poles>[1-4])\s?[x×X]\s?)?(?P<amps>{NUM})(?:\s?/\s?(?P<stroke>{NUM}))?\s{{0,2}}(?P<unit>{_UNIT})?"
    rf"(?P<brackets>(?:\s{{0,2}}{_BRACKET}){{0,3}})\s{{0,2}}(?P<last>{_UNIT}(?:{_END}))?"
)
_INSIDE = re.compile(
    rf"(?P<open>[(\[«‹<]{{1,2}})\s?(?P<first>{NUM})\s?(?:[;/,]\s?(?P<second>{NUM}))?\s?"
    rf"{_BRACKET_UNIT}?\s?[)\]»›>]{{1,2}}"
)
_AFTER_GROUP = re.compile(rf"\s{{0,2}}(?:$|[~,;]|(?:at|@)\s|{_VOLTS_NEXT})")
_UNIT_END = re.compile(_END)
_R_M = re.compile(r"R-M(?=\s{0,2}[0-9])")


def current(scan: ContactScanner) -> bool:
    """Current = figure ["/" figure] [unit] bracket* [unit]; one of the units must stand."""
    found = scan.peek(_GROUP)
    if found is None or scan.torn():
        return False
    unit = _unit_of(found)
    if unit is None:
        return False
    if _POINT_LOST.search(found[0]):
        return _without_its_point(scan, found)
    scale = 0.001 if unit.lower() == "ma" else 1
    general = unit.upper() == "GPA"
    amps = _fraction(found) or _scaled(found["amps"], scale)
    more = _brackets(scan, found, scale)
    if not _fraction(found):
        more |= _stroke(scan, found, scale)
    if found["poles"]:
        scan.items.append(Fact(found.start(), "poles", int(found["poles"])))
    scan.items.append(Current(found.start(), amps, more, general))
    if unit == "AX":
        scan.items.append(Load(found.start(), "ballast"))
    _mark(scan, found, general=general)
    scan.at = found.end()
    return True


_FIGURES_ALONE = re.compile(
    rf"(?P<amps>{NUM})\s?(?:\(\s?(?P<motor>{NUM})\s?\))?\s?/\s?(?P<volts>[1-4][0-9]{{2}})\s?~"
    r"(?![0-9])"
)
LEAST_ALONE_V = 100
FIGURES_ALONE = "IEC 60669-1 and IEC 60884-1: amperes, stroke, volts without letters (from memory)"


def figures_alone(scan: ContactScanner) -> bool:
    """Rating = amperes motor? "/" volts "~": the letters are left out, the sign of a.c. is not."""
    found = scan.peek(_FIGURES_ALONE)
    if found is None or scan.torn() or number(found["amps"]) >= LEAST_ALONE_V:
        return False
    volts, motor = int(found["volts"]), found["motor"]
    more = {"motor_a": number(motor)} if motor else {}
    scan.items.append(Current(found.start(), number(found["amps"]), more))
    scan.items.append(Volts(found.start("volts"), found.end(), (volts,), "ac"))
    tail = f", {motor} A motor load" if motor else ""
    words = f"rated current {found['amps']} A{tail}, at {volts} V a.c."
    return bool(scan.take(_FIGURES_ALONE, words, FIGURES_ALONE))


def resistive_motor(scan: ContactScanner) -> bool:
    """R-M before a bracketed figure: resistive and motor, as UL certificates print it."""
    return bool(
        scan.take(_R_M, "resistive and motor load, figures follow", "UL 61058-1 certificate notes")
    )


_POINT_LOST = re.compile(r"(?<![0-9.,])0[0-9]{1,3}(?![0-9.,])")


def _without_its_point(scan: ContactScanner, found: re.Match[str]) -> bool:
    """``05A``: nobody prints a nought before five; the point is lost, and the figure not read."""
    start, end = found.span()
    pointed = _POINT_LOST.sub(lambda figure: f"0.{figure[0][1:]}", found[0])
    reason = f"{found[0].strip()} begins with a nought: its point is lost"
    scan.warn(f"{reason}; it is not read.")
    if len(scan.text) <= LONGEST_MENDED:
        scan.propose(scan.text[:start] + pointed + scan.text[end:], reason)
    scan.give_up(start, end)
    scan.at = end
    return True


LONGEST_MENDED = 200
"""Characters of a marking that is offered with its point back. Common practice."""


def _unit_of(found: re.Match[str]) -> str | None:
    """The unit that makes this an ampere group; None when it is not one."""
    if found["last"]:
        return found["last"]
    text, end = found.string, found.end("unit")
    if found["unit"] and (found["brackets"] or _UNIT_END.match(text, end)):
        return found["unit"]
    if not found["brackets"]:
        return None
    if re.search(rf"{_BRACKET_UNIT}\s?[)\]»›>]", found["brackets"]):
        return "A"
    return "A" if _AFTER_GROUP.match(text, found.end()) else None


_FRACTIONS = {"1/2": 0.5, "1/4": 0.25, "3/4": 0.75, "1/8": 0.125, "1/3": 0.333, "1/10": 0.1}
"""Amperes printed as a fraction: ``1/2A 125VDC`` on basic switches. Common practice."""


def _fraction(found: re.Match[str]) -> Number | None:
    """The fraction, or None where the stroke says something else."""
    return _FRACTIONS.get(f"{found['amps']}/{found['stroke']}")


def _scaled(figure: str, scale: float) -> Number:
    """The figure in amperes, whole numbers as int."""
    value = number(figure)
    return value if scale == 1 else number(f"{value * scale:.6g}")


def _brackets(scan: ContactScanner, found: re.Match[str], scale: float) -> dict[str, Number]:
    """Round: motor. Square: lamp surge. Guillemets: inductive. Two figures: a warning."""
    more: dict[str, Number] = {}
    for inside in _INSIDE.finditer(found["brackets"] or ""):
        name = _BRACKET_NAMES[inside["open"][0]]
        if inside["second"]:
            scan.warn(
                "Two figures in one bracket: taken as locked-rotor and running current of one"
                " motor; no printed example of this form is known."
            )
            more["locked_rotor_a"] = _scaled(inside["first"], scale)
            more["motor_a"] = _scaled(inside["second"], scale)
            continue
        more[name] = _scaled(inside["first"], scale)
    return more


_BRACKET_NAMES = {
    "(": "motor_a",
    "[": "lamp_inrush_a",
    "«": "inductive_a",
    "‹": "inductive_a",
    "<": "inductive_a",
}
"""What a bracket says of the figure in it. Source: IEC 61058-1, as explained by standard123."""


def _stroke(scan: ContactScanner, found: re.Match[str], scale: float) -> dict[str, Number]:
    """A/B before one unit: peak surge when B is the larger, else an old motor habit."""
    if not found["stroke"]:
        return {}
    value, first = _scaled(found["stroke"], scale), _scaled(found["amps"], scale)
    if value == first:
        return {}  # the same for both contacts
    if value >= LEAST_SURGE * first:
        return {"inrush_a": value}
    if value > first:
        scan.warn(
            f"{found['amps']}/{found['stroke']} A: too little above the rated current for a surge;"
            " outlets print d.c. and a.c. so. The first figure is read, the second is not."
        )
        scan.ratings["needs_review"] = True
        return {}
    scan.warn(
        f"{found['amps']}/{found['stroke']} A: the second figure is the smaller one, so it is no"
        " surge; it is read as motor current, with little certainty."
    )
    return {"motor_a": value}


LEAST_SURGE = 2
"""A capacitive load surges to many times its current; below twice a stroke says something else.

Source: IEC 61058-1 prints 2/8 A as its example (from memory); LECI prints 8/128 A.
"""


def _mark(scan: ContactScanner, found: re.Match[str], *, general: bool) -> None:
    """Mark the whole group in plain words."""
    unit = "mA" if (_unit_of(found) or "").lower() == "ma" else "A"
    figure = f"{_fraction(found) or found['amps']} {unit}"
    words = [f"{figure} general purpose, a.c." if general else f"rated current {figure}"]
    words += [
        _BRACKET_WORDS[inside["open"][0]].format(inside["first"])
        for inside in _INSIDE.finditer(found["brackets"] or "")
    ]
    if found["stroke"] and not _fraction(found):
        times = number(found["stroke"]) / (number(found["amps"]) or 1)
        load = "motor load, with little certainty"
        if times >= 1:
            load = "peak surge of a capacitive load" if times >= LEAST_SURGE else "not explained"
        words.append(f"behind the stroke {found['stroke']} {unit} {load}")
    scan.mark(found.start(), found.end(), "; ".join(words), UL_GENERAL if general else IEC_CURRENT)


_BRACKET_WORDS = {
    "(": "in round brackets {} A motor load (makes six times this)",
    "[": "in square brackets {} A peak surge of tungsten lamps",
    "«": "in pointed brackets {} A inductive load, power factor 0.6 or more",
    "‹": "in pointed brackets {} A inductive load, power factor 0.6 or more",
    "<": "in pointed brackets {} A inductive load, power factor 0.6 or more",
}
