"""Whole lines with columns of their own: a UL directory row, an oven's service label."""

from __future__ import annotations

import re

from inventory.markings.contacts_items import Current, Fact, Horse, Load, Volts
from inventory.markings.contacts_scan import NUM, ContactScanner
from inventory.markings.scanner import number

ROW = "UL component directory row: model, A, V, Hz, load, cycles, ambient (order inferred)"
LABEL = "oven service label: alternates listed for one switch position"

_ROW = re.compile(
    rf"(?:(?P<model>[A-Z][0-9A-Z]{{0,9}}(?:-[0-9A-Z]{{1,10}}){{0,3}})\s)?(?P<amps>{NUM}|-)\s"
    r"(?P<volts>[0-9]{2,3})\s(?P<hz>50|60)\s"
    r"(?:(?P<load>GP|GU|R|Res|I|B|L|T)|(?P<top>[0-9]{1,2})(?:/(?P<low>[1-9][0-9]?))?\s?[hH][pP])\s"
    r"(?P<life>[0-9]{1,3})K(?:\s(?P<max>[0-9]{2,3}))?(?=\s|$)"
)
_ROW_LOADS = {
    "GP": "general",
    "GU": "general",
    "R": "resistive",
    "Res": "resistive",
    "I": "inductive",
    "B": "ballast",
    "L": "lamp",
    "T": "lamp",
}
_ROW_MEANS = (
    ("model", "type code"),
    ("amps", "{} A"),
    ("volts", "{} V a.c. (a frequency follows)"),
    ("hz", "{} Hz"),
    ("load", "kind of load"),
    ("life", "{} 000 operating cycles"),
    ("max", "ambient up to {} °C"),
)
_LABEL = re.compile(
    r"(?P<head>(?i:TYPE)\s?(?i:NO)[.:]{0,2}\s?)(?P<codes>[0-9A-Z][0-9A-Z /.-]{2,120}?)\s"
    r"(?P<tail>(?i:FOR)\s(?P<role>[A-Za-z /,&]{4,40}?)\s?(?i:SWITCH(?:ES)?))(?![A-Za-z])"
)
_ROLES = ("primary", "secondary", "monitor", "sensing", "interlock")


def directory_row(scan: ContactScanner) -> bool:
    """Row = [model] A V Hz load cycles [ambient], separated by single spaces."""
    if not scan.untouched():
        return False
    found = scan.peek(_ROW)
    if found is None:
        return False
    if found["model"]:
        scan.say("type", found["model"])
        scan.codes.append(found.span("model"))
    _row_ratings(scan, found)
    scan.mark_groups(found, [(name, _column(name, found), ROW) for name, _ in _ROW_MEANS])
    if found["top"]:
        words = f"switches a motor of {found['top']}/{found['low'] or 1} hp"
        scan.mark(found.end("hz"), found.start("life"), words, ROW)
    scan.mark(found.end("life"), found.end("life") + 1, "times one thousand", ROW)
    scan.warn("Read as a row of the UL component directory; the order of columns is inferred.")
    scan.at = found.end()
    return True


def _column(name: str, found: re.Match[str]) -> str:
    """What one column of the row says, with its figure."""
    means, figure = dict(_ROW_MEANS)[name], found[name]
    if name == "amps" and figure == "-":
        return "no ampere rating in this row"
    if name == "load" and figure:
        return f"{_ROW_LOADS[figure]} load"
    return means.format(figure)


def _row_ratings(scan: ContactScanner, found: re.Match[str]) -> None:
    """The items a row stands for."""
    start = found.start("amps")
    if found["amps"] != "-":
        scan.items.append(Current(start, number(found["amps"])))
    if found["load"]:
        scan.items.append(Load(start, _ROW_LOADS[found["load"]]))
    if found["top"]:
        scan.items.append(Horse(start, round(int(found["top"]) / int(found["low"] or 1), 4)))
    volts = (int(found["volts"]),)
    scan.items.append(Volts(found.start("volts"), found.end("volts"), volts, "ac"))
    scan.items.append(Fact(start, "frequency_hz", [int(found["hz"])]))
    scan.items.append(Fact(start, "endurance_cycles", int(found["life"]) * 1000))
    if found["max"]:
        scan.items.append(Fact(start, "ambient", {"ambient_max_c": int(found["max"])}))


def service_label(scan: ContactScanner) -> bool:
    """Label = "TYPE NO." code ("OR" code)* "FOR" role "SWITCH"."""
    found = scan.peek(_LABEL)
    if found is None:
        return False
    codes = re.split(r"\s(?:OR|or)\s", found["codes"])
    types = [code.replace(" ", "") for code in codes]
    if any(" " in code.strip() for code in codes):
        scan.warn("A space inside a type code of the label is dropped; compare with the part.")
    scan.say("types", types)
    roles = [role for role in _ROLES if role in found["role"].lower()]
    if roles:
        scan.say("role", roles[0] if len(_positions(roles)) == 1 else _positions(roles))
    scan.mark_groups(
        found,
        [
            ("head", "the types that may sit in this position follow", LABEL),
            ("codes", "types listed as alternates for this unit", LABEL),
            ("tail", "the position they are listed for", LABEL),
        ],
    )
    scan.codes.append(found.span("codes"))
    scan.at = found.end()
    return True


def _positions(roles: list[str]) -> list[str]:
    """The positions named; ``interlock`` beside another one only says what kind it is."""
    named = [role for role in roles if role != "interlock"]
    return named or roles
