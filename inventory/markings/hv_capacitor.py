"""Oven high-voltage capacitors: microfarads and a.c. volts, in words or in the CH85 code.

The code rule is from memory; where plain figures stand beside it they count and a person looks.
A farad where a microfarad belongs is offered repaired, never read.
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from functools import partial
from typing import Any

from inventory.markings.amounts import (
    END,
    GAPS,
    NUM,
    PRACTICE,
    SI,
    Phrase,
    amount_words,
    approvals,
    figure,
    hertz,
    listed,
    phrases,
    plain_number,
    review,
    volts,
    written,
)
from inventory.markings.scanner import Rule, Scanner
from inventory.markings.writing import write
from inventory.records import Reading

RANGE_UF = (0.3, 3.0)
"""Oven capacitors lie here: 0.5 to 1.5 µF on the bench, with margin. Source: common practice."""

CODE = "CH85 code rule (21 = 2100 V a.c., 095 = 0.95 µF), from memory"
_CODE = re.compile(
    r"(?P<series>CH8[0-9])(?:\s?[-_/]\s?|\s)?(?P<volts>[12][0-9])(?P<uf>[0-9]{3})(?P<tail>[A-Z]{0,2})(?![A-Za-z0-9])"
)
_FARADS = re.compile(
    rf"(?P<n>{NUM})\s?(?P<unit>MFD|mfd|[uµU][Ff](?:D|d)?|[nN]F|m[fF]|M[fF]|F)"
    rf"(?:\s?(?P<tol>[JKM])(?![A-Za-z0-9]))?{END}"
)
_FACTORS = {"u": "1", "µ": "1", "mfd": "1", "n": "0.001"}
_LETTERS = {"J": 5, "K": 10, "M": 20}
"""Tolerance letters, per cent. Source: IEC 60062, table of tolerance letters."""


def _code_words(found: re.Match[str]) -> str:
    """What the code says, by the rule of its series."""
    micro = written(plain_number(found["uf"], "0.01"))
    return f"series {found['series']}: {int(found['volts']) * 100} V a.c., {micro} µF"


def _code(said: dict[str, float], scan: Scanner) -> bool:
    """CodeMark = "CH85" "-" hundreds-of-volts hundredths-of-microfarads."""
    found = scan.take(_CODE, _code_words, CODE)
    if found is None:
        return False
    scan.say("series", found["series"])
    said["voltage_vac"] = int(found["volts"]) * 100
    said["capacitance_uf"] = plain_number(found["uf"], "0.01")
    return True


_SERIES = re.compile(r"(?P<series>CH8[0-9])(?![0-9A-Za-z-])")


def _series(scan: Scanner) -> bool:
    """Series = "CH85" alone, without the figures that would say volts and microfarad."""
    found = scan.take(_SERIES, "series of oven capacitors", CODE)
    if found is not None:
        scan.say("series", found["series"])
    return found is not None


def _compare_code(scan: Scanner, said: dict[str, float]) -> None:
    """What the code says counts where nothing is printed in plain; else both must agree."""
    if "voltage_vac" in said and scan.ratings.get("voltage_v") == said["voltage_vac"]:
        # the code tells what kind of volts the plain ones are
        scan.ratings["voltage_vac"] = scan.ratings.pop("voltage_v")
    for name, value in said.items():
        plain = scan.ratings.get(name)
        if name == "voltage_vac" and plain is None:
            plain = scan.ratings.get("voltage_v")
        if plain is None:
            scan.say(name, value)
            scan.warn("The code rule is from memory, and one shop misprints it: measure the part.")
        elif plain != value:
            unit = "µF" if name == "capacitance_uf" else "V"
            reason = f"code {written(value)} {unit}, plain figure {listed(plain)} {unit}"
            review(scan, f"Conflict: {reason}; the plain figure is kept, measure it.")
            scan.propose(f"{written(value)} {unit}", reason, **{name: value})


def _farads(scan: Scanner) -> bool:
    """Capacitance = figure ("µF" | "MFD" | "nF") tolerance-letter?."""
    found = scan.peek(_FARADS)
    if found is None:
        return False
    factor = next((f for k, f in _FACTORS.items() if found["unit"].lower().startswith(k)), None)
    spoken = f" {amount_words([found['n']], 'µF', factor)}" if factor else ", its unit damaged"
    scan.take(_FARADS, f"capacitance{spoken}", SI)
    if found["tol"]:
        scan.say("tolerance_pct", _LETTERS[found["tol"]])
    if factor is None:
        _micro_lost(scan, found)
        return True
    value = figure(scan, found["n"], factor)
    if value is None:
        return True
    if RANGE_UF[0] <= value <= RANGE_UF[1]:
        scan.say("capacitance_uf", value)
    else:
        _out_of_range(scan, found, value)
    return True


def _replaced(scan: Scanner, found: re.Match[str], new: str) -> str:
    """The marking with the capacitance written anew."""
    return f"{scan.text[: found.start()]}{new}{scan.text[found.end() :]}"


def _micro_lost(scan: Scanner, found: re.Match[str]) -> None:
    """Farads or millifarads: the micro sign was lost or read as m (ACP manual: ``1.0 F``)."""
    review(scan, f"{found.group().strip()} cannot be an oven capacitor; the micro sign is lost.")
    value = plain_number(found["n"])
    if RANGE_UF[0] <= value <= RANGE_UF[1]:
        text = _replaced(scan, found, f"{found['n']} uF")
        scan.propose(text, "micro sign lost", capacitance_uf=value)


def _out_of_range(scan: Scanner, found: re.Match[str], value: float) -> None:
    """A figure no oven capacitor has: the same digits with a point are offered."""
    review(scan, f"{written(value)} µF is no oven capacitor; a decimal point may be lost.")
    for shift in ("0.1", "0.01", "0.001"):
        meant = plain_number(found["n"], shift)
        if RANGE_UF[0] <= meant <= RANGE_UF[1]:
            text = _replaced(scan, found, f"{written(meant)}{found['unit']}")
            scan.propose(text, "decimal point lost", capacitance_uf=meant)


_TOLERANCE = re.compile(rf"(?:±|\+/?-)\s?(?P<pct>{NUM})\s?%")
_BLEEDER = re.compile(rf"(?P<n>{NUM})\s?M\s?(?:Ω|ohms?|OHM)(?![A-Za-z])", re.IGNORECASE)
_CLIMATE = re.compile(
    r"(?P<low>-?[0-9]{2})\s?/\s?(?:\+)?(?P<high>[0-9]{2,3})\s?/\s?(?P<days>[0-9]{2})(?![0-9])"
)
_SPAN_C = re.compile(
    r"(?P<low>-[0-9]{1,2})\s?(?:°?C)?\s?(?:~|to|\.{2,3}|…|/)\s?\+?(?P<high>[0-9]{2,3})\s?(?:°\s?C|℃|C)?(?![0-9A-Za-z/])"
)


def _tolerance(scan: Scanner) -> bool:
    """Tolerance = "±" figure "%"."""
    found = scan.take(_TOLERANCE, lambda m: f"tolerance ±{m['pct']} %", PRACTICE)
    if found is None:
        return False
    scan.say("tolerance_pct", plain_number(found["pct"]))
    return True


def _bleeder(scan: Scanner) -> bool:
    """Bleeder = figure "MΩ": the built-in discharge resistor."""
    found = scan.take(
        _BLEEDER,
        lambda m: f"built-in discharge resistor {m['n']} MΩ",
        "IEC 61270-1, from memory",
    )
    if found is None:
        return False
    scan.say("bleeder_mohm", plain_number(found["n"]))
    scan.say("bleeder", value=True)
    return True


def _climate_words(found: re.Match[str]) -> str:
    """Cold and heat of a climatic category."""
    return f"climatic category: -{abs(int(found['low']))} to {int(found['high'])} °C"


def _climate(scan: Scanner) -> bool:
    """Climate = low "/" high "/" days | low "~" high: category of IEC 60068-1."""
    for pattern in (_CLIMATE, _SPAN_C):
        found = scan.take(pattern, _climate_words, "IEC 60068-1")
        if found:
            scan.say("temp_min_c", -abs(int(found["low"])))
            scan.say("temp_max_c", int(found["high"]))
            return True
    return False


_WORDS = phrases(
    Phrase(r"(?:(?:HV|H\.V\.|high[ -]voltage|microwave(?: oven)?) ){0,4}"
           r"(?:capacitor|condenser)|cap",
           "it is a capacitor"),
    Phrase(r"no PCB'?s?|non[ -]PCB|PCB free", "no PCB oil", {"no_pcb": True}, "40 CFR 761"),
    Phrase(r"(?:with )?(?:internal |built[ -]in )?(?:discharge |bleed(?:er)? )resistor",
           "built-in discharge resistor", {"bleeder": True}),
    Phrase(r"internal fuse|built[ -]in fuse", "built-in fuse", {"built_in": "fuse"}),
    Phrase(r"internal diode|built[ -]in diode", "built-in diode", {"built_in": "diode"}),
    Phrase(r"P[0-2]|S[0-3]", "safety class of the can", {}, "IEC 61270-1, from memory"),
    Phrase(r"SH|self[ -]healing", "self-healing", {"self_healing": True}),
    Phrase(r"CH8[0-9]", "series of oven capacitors", {}, CODE),
    Phrase(r"microwave(?: oven)?|oven|HV|H\.V\.|high voltage|model|internal", "heading"),
)  # fmt: skip
_LINES: tuple[Rule, ...] = (
    _climate, _tolerance, _bleeder, _farads, volts(), hertz, _WORDS, approvals, *GAPS,
)  # fmt: skip


def read(text: str) -> Reading:
    """Read the label of an oven's high-voltage capacitor."""
    scan = Scanner(text)
    said: dict[str, float] = {}
    scan.sweep((partial(_code, said), _series, *_LINES))
    _compare_code(scan, said)
    if "voltage_v" in scan.ratings and "voltage_vac" not in scan.ratings:
        scan.assume("voltage_vac", scan.ratings["voltage_v"], "IEC 61270-1: a.c., from memory")
    if "voltage_vdc" in scan.ratings:
        review(scan, "A d.c. rating is printed: an oven's doubler needs an a.c. rating.")
    return scan.reading("hv_capacitor")


_UF = rf"{NUM}\s?(?:[uµUM][Ff]D?)"
_KV = r"(?:[12][0-9]{3}\s?V|[12][.,][0-9]{1,2}\s?[kK]V)"
_LIKELY = (
    (re.compile(r"(?:^|\s)CH8[0-9][- ]?[0-9]{5}"), 0.95),
    (re.compile(rf"{_UF}.{{0,20}}{_KV}|{_KV}.{{0,20}}{_UF}"), 0.95),
    (re.compile(r"(?:h\.?v\.?|high[ -]voltage|microwave).{0,10}capacitor", re.IGNORECASE), 0.9),
    (re.compile(r"[0-9]\s?m?F\s.{0,4}AC\s?2[0-9]{3}\s?V"), 0.8),
    (re.compile(r"^\s*1[.,]0\s?F\s*$"), 0.4),
)
_MAINS_CLASS = re.compile(r"(?<![0-9A-Za-z])[XY][124](?![0-9])")
"""A class of IEC 60384-14: the kilovolts beside it are a pulse, not a rating."""


def likely(text: str) -> float:
    """How strongly a text looks like an oven's high-voltage capacitor, 0 to 1."""
    head = text[:400].replace("μ", "µ")
    score = next((score for pattern, score in _LIKELY if pattern.search(head)), 0.0)
    return score * 0.3 if _MAINS_CLASS.search(head) else score


def _code_text(said: Mapping[str, Any]) -> str:
    """The code of a series part; the series alone where not both of its figures are known."""
    figures = [said.get("voltage_vac"), said.get("capacitance_uf")]
    if "series" not in said or not all(isinstance(n, (int, float)) for n in figures):
        return "" if "voltage_vac" in said else str(said.get("series", ""))
    return f"{said['series']}-{said['voltage_vac'] // 100:02d}{said['capacitance_uf'] * 100:03.0f}"


def canonical(reading: Reading) -> str:
    """The marking written out again; reads back to the same ratings."""
    said = reading.ratings
    bleeder = "" if "bleeder_mohm" in said else "discharge resistor"
    rest = write(
        said,
        ("capacitance_uf", "{}uF"),
        ("tolerance_pct", "±{}%"),
        ("voltage_vac", lambda v: f"AC{listed(v)}V"),
        ("voltage_v", "{}V"),
        ("voltage_vdc", "{}VDC"),
        ("frequency_hz", lambda v: f"{listed(v, '/')}Hz"),
        ("bleeder_mohm", "{}MΩ"),
        ("bleeder", {True: bleeder}),
        ("temp_min_c", lambda v: f"{v}~{said.get('temp_max_c')}C"),
        ("built_in", "internal {}"),
        ("no_pcb", {True: "No PCBs"}),
        ("self_healing", {True: "SH"}),
        ("approvals", "{}"),
    )
    return f"{_code_text(said)} {rest}".strip()
