"""Magnetrons: the whole type with its suffix, because the suffix is the bracket and antenna."""

from __future__ import annotations

import re

from inventory.markings.amounts import (
    END,
    GAPS,
    NUM,
    SI,
    Phrase,
    approvals,
    hertz,
    phrases,
    plain_number,
    watts,
)
from inventory.markings.scanner import Rule, Scanner
from inventory.markings.writing import write
from inventory.records import Reading

LG = "2M214 specification, rlocman.cn datasheet 186255: model on the label"
NAMES = "type schemes of oven magnetrons (2M..., OM..., M24FB, AM...), from memory"
_TYPE = re.compile(
    r"(?P<base>2M[0-9]{2,3}[A-Z]{0,2}|OM[0-9]{2}[A-Z]{0,2}|M2[0-9]F[AB]|AM[0-9]{3}|MS?[0-9]{4}[A-Z]?"
    r"|A[0-9]{3}[A-Z]|E3[0-9]{3}|B[0-9]{3}W)"
    r"(?P<suffix>(?:-[0-9A-Z]{1,7}|(?<=[0-9A-Z])\s?\([0-9A-Z]{1,4}\)[0-9A-Z]{0,6}|\s[0-9]{2}[A-Z]{1,3}(?=\s|$)){1,2})?"
    r"(?![A-Za-z0-9])",
    re.IGNORECASE,
)


def _type(scan: Scanner) -> bool:
    """Type = base ("-" suffix | "(" suffix ")")?; the suffix is part of the type."""
    found = scan.peek(_TYPE)
    if found is None:
        return False
    base = found["base"].upper()
    source = LG if base.startswith("2M") else NAMES
    scan.mark(*found.span("base"), "magnetron type", source)
    scan.say("base", base)
    suffix = re.sub(r"\s", "", found["suffix"] or "").upper()
    if suffix:
        means = "suffix: bracket, filter box or antenna; what each one means is not published"
        scan.mark(*found.span("suffix"), means, NAMES)
        scan.say("suffix", suffix.strip("-").replace("(", "").replace(")", ""))
    scan.say("type", base + (suffix if suffix[:1] in "-(" else f"-{suffix}"))
    scan.at = found.end()
    return True


_VOLTS = re.compile(rf"(?P<n>{NUM})\s?(?P<k>k?)V(?:DC|AC|~)?{END}", re.IGNORECASE)
_AMPS = re.compile(rf"(?P<n>{NUM})\s?(?P<m>m?)A{END}", re.IGNORECASE)


def _volts(scan: Scanner) -> bool:
    """Volts = figure "kV" (anode) | figure "V" (filament, 2.8 to 5 V)."""
    found = scan.peek(_VOLTS)
    if found is None:
        return False
    volts_said = plain_number(found["n"], "1000" if found["k"] else "1")
    if 1000 <= volts_said <= 10000:
        scan.take(_VOLTS, "anode voltage", SI)
        scan.say("anode_kv", plain_number(str(volts_said), "0.001"))
        return True
    if volts_said > 6:
        return False
    scan.take(_VOLTS, "filament voltage", SI)
    scan.say("filament_v", volts_said)
    return True


def _amps(scan: Scanner) -> bool:
    """Amperes = figure "mA" (anode) | figure "A" (filament)."""
    found = scan.peek(_AMPS)
    if found is None:
        return False
    name, means = (
        ("anode_ma", "anode current") if found["m"] else ("filament_a", "filament current")
    )
    scan.take(_AMPS, means, SI)
    scan.say(name, plain_number(found["n"]))
    return True


_WORDS = phrases(
    Phrase(r"magnetron(?: tube)?|model|type|made in [a-z]{4,12}", "heading"),
    Phrase(r"inverter", "for an inverter supply", {"inverter": True}),
)
_LINES: tuple[Rule, ...] = (
    _type, hertz, watts("output_w", "output power"), _volts, _amps, _WORDS, approvals, *GAPS,
)  # fmt: skip


def read(text: str) -> Reading:
    """Read the label of a magnetron."""
    scan = Scanner(text)
    scan.sweep(_LINES)
    if "type" in scan.ratings and "suffix" not in scan.ratings:
        scan.warn("No suffix is read: bracket, antenna and filter box have to be compared by eye.")
    return scan.reading("magnetron")


_ABOUT = re.compile(r"temperature fuse|thermo|thermal|fuse|cut-?out", re.IGNORECASE)
"""A part that sits at a magnetron is named after it and is not one."""

_LIKELY = (
    (re.compile(r"\bmagnetron\b", re.IGNORECASE), 0.9),
    (
        re.compile(r"(?:^|\s)(?:2M[0-9]{3}|OM[0-9]{2}[A-Z]?\s?\(|M2[0-9]F[AB]-)", re.IGNORECASE),
        0.95,
    ),
    (re.compile(r"^\s*(?:2M[0-9]{2}|OM[0-9]{2}|AM[0-9]{3})"), 0.7),
)


def likely(text: str) -> float:
    """How strongly a text looks like a magnetron, 0 to 1."""
    head = text[:400]
    if _ABOUT.search(head):
        return 0.1 if "agnetron" in head.lower() else 0.0
    return next((score for pattern, score in _LIKELY if pattern.search(head)), 0.0)


def canonical(reading: Reading) -> str:
    """The marking written out again; reads back to the same ratings."""
    return write(
        reading.ratings,
        ("type", "{}"),
        ("frequency_mhz", "{}MHz"),
        ("output_w", "{}W"),
        ("filament_v", "{}V"),
        ("filament_a", "{}A"),
        ("anode_kv", "{}kV"),
        ("anode_ma", "{}mA"),
        ("inverter", {True: "inverter"}),
        ("approvals", "{}"),
    )
