"""Oven high-voltage diodes: the type, and the kilovolts where type or print say them."""

from __future__ import annotations

import re

from inventory.markings.amounts import (
    END,
    GAPS,
    NUM,
    SI,
    Phrase,
    approvals,
    phrases,
    plain_number,
    written,
)
from inventory.markings.scanner import Rule, Scanner
from inventory.markings.writing import write
from inventory.records import Reading

CL = "CL01-12 sheet text, bitbucket.org bestrosewil1988 snippets: 12 kV, 350 mA"
NAMES = "names of oven diodes, from memory"
_CL = re.compile(r"(?P<type>(?:HV)?CL[0-9]{2}-(?P<kv>[0-9]{2})[A-Z]?)(?![A-Za-z0-9])")
_TYPE = re.compile(
    r"(?P<type>HVM(?P<hvm>[0-9]{1,2})|HV03-(?P<hv>[0-9]{2})|T35(?P<t>[0-9]{2})H?"
    r"|2X0[0-9]{2}[A-Z]{0,2}|UX-?F[0-9][A-Z]|HVR-?1X-?[0-9][A-Z]?|2CL[0-9]{2,4}[A-Z]{0,2}"
    r"|ESJ[A-Z][0-9]{2}-[0-9]{2}|RG[0-9]{3}[A-Z]?|HVP-?[0-9]{1,2}|SHV-?[0-9]{2}[A-Z]{0,2})"
    r"(?![A-Za-z0-9])"
)


def _cl(scan: Scanner) -> bool:
    """ClType = "CL" digits "-" kilovolts."""
    found = scan.take(_CL, lambda m: f"type; blocks {int(m['kv'])} kV", CL)
    if found is None:
        return False
    scan.say("type", found["type"])
    scan.say("vrrm_kv", int(found["kv"]))
    return True


def _type(scan: Scanner) -> bool:
    """Type = a name oven diodes carry; kilovolts in the name are only offered, never read."""
    found = scan.take(_TYPE, "type of an oven diode", NAMES)
    if found is None:
        return False
    scan.say("type", found["type"])
    kilovolts = found["hvm"] or found["hv"] or found["t"]
    if kilovolts:
        reason = f"the {kilovolts} in {found['type']} may be kilovolts; from memory, no sheet seen"
        scan.propose(f"{scan.text} {int(kilovolts)}kV", reason, vrrm_kv=int(kilovolts))
    return True


_KV = re.compile(
    rf"(?:VRRM|PRV|PIV|V)?\s?[:=]?\s?(?P<n>{NUM})\s?(?P<k>k?)V(?:DC)?{END}", re.IGNORECASE
)
_CURRENT = re.compile(
    rf"(?:(?P<surge>I?FSM|surge)|IF|IO|IR)?\s?[:=]?\s?(?P<n>{NUM})\s?(?P<unit>mA|[uµ]A|A){END}",
    re.IGNORECASE,
)


def _kilovolt_words(found: re.Match[str]) -> str:
    """Reverse voltage as printed."""
    return f"repetitive peak reverse voltage {found['n']} {'k' if found['k'] else ''}V"


def _kilovolts(scan: Scanner) -> bool:
    """Kilovolts = ("VRRM")? figure "k"? "V"."""
    found = scan.take(_KV, _kilovolt_words, SI)
    if found is None:
        return False
    scan.say("vrrm_kv", plain_number(found["n"], "1" if found["k"] else "0.001"))
    return True


def _current(scan: Scanner) -> bool:
    """Current = ("IF" | "IFSM")? figure ("mA" | "A" | "µA"): forward, surge or leakage."""
    found = scan.peek(_CURRENT)
    if found is None:
        return False
    unit = found["unit"].lower()
    figure = f"{found['n']} {found['unit']}"
    if unit.startswith(("u", "µ")):
        scan.take(_CURRENT, f"reverse current {figure}", SI)
        scan.say("ir_ua", plain_number(found["n"]))
    elif found["surge"] or (unit == "a" and plain_number(found["n"]) >= 5):
        scan.take(_CURRENT, f"surge current {figure}", SI)
        scan.say("ifsm_a", plain_number(found["n"], "1" if unit == "a" else "0.001"))
    else:
        scan.take(_CURRENT, f"mean forward current {figure}", SI)
        scan.say("if_ma", plain_number(found["n"], "1000" if unit == "a" else "1"))
    return True


_TRR = re.compile(rf"(?:trr\s?[:=]?\s?)?(?P<n>{NUM})\s?ns(?![A-Za-z])", re.IGNORECASE)


def _recovery(scan: Scanner) -> bool:
    """Recovery = "trr"? figure "ns"."""
    found = scan.take(_TRR, lambda m: f"reverse recovery time {m['n']} ns", SI)
    if found is None:
        return False
    scan.say("trr_ns", plain_number(found["n"]))
    return True


_WORDS = phrases(
    Phrase(r"asymmetric(?:al)?(?: rectifier)?|protector(?: diode)?|bypass diode",
           "asymmetric (protector) rectifier", {"protector": True}, "oven service manuals"),
    Phrase(r"(?:(?:HV|H\.V\.|high[ -]voltage|microwave(?: oven)?|silicon) ?){0,4}"
           r"(?:diode|rectifier)(?: assembly)?",
           "it is a high-voltage diode"),
    Phrase(r"(?:ultra[ -]?)?fast(?:[ -]recovery)?", "fast recovery", {"fast_recovery": True}),
    Phrase(r"microwave(?: oven)?|oven|HV|H\.V\.", "heading"),
)  # fmt: skip
_LINES: tuple[Rule, ...] = (
    _cl, _type, _recovery, _kilovolts, _current, _WORDS, approvals, *GAPS,
)  # fmt: skip


def read(text: str) -> Reading:
    """Read the print of an oven's high-voltage diode."""
    scan = Scanner(text)
    scan.sweep(_LINES)
    if "vrrm_kv" in scan.ratings:
        scan.candidates.clear()  # print beats what the name may mean
    return scan.reading("hv_diode")


_WORD = re.compile(
    r"(?:h\.?v\.?|high[ -]voltage|microwave).{0,6}(?:diode|rectifier)|asymmetric", re.IGNORECASE
)
_FIGURES = re.compile(r"(?<![0-9.,])(?:[89]|1[0-9])\s?kV\b.{0,12}[0-9]{3}\s?mA", re.IGNORECASE)
"""Kilovolts of reverse voltage beside some hundred milliamperes, as on the CL01-12 sheet."""


def likely(text: str) -> float:
    """How strongly a text looks like an oven's high-voltage diode, 0 to 1."""
    head = text[:400]
    if re.search(rf"(?:^|\s)(?:{_CL.pattern}|{_TYPE.pattern.replace('(?P<type>', '(?:')})", head):
        return 0.95
    if _WORD.search(head):
        return 0.9
    return 0.6 if _FIGURES.search(head) else 0.0


def canonical(reading: Reading) -> str:
    """The marking written out again; reads back to the same ratings."""
    return write(
        reading.ratings,
        ("type", "{}"),
        ("vrrm_kv", "{}kV"),
        ("if_ma", "{}mA"),
        ("ifsm_a", lambda v: f"IFSM {written(v)}A"),
        ("ir_ua", "{}uA"),
        ("trr_ns", "{}ns"),
        ("protector", {True: "asymmetric"}),
        ("fast_recovery", {True: "fast recovery"}),
        ("approvals", "{}"),
    )
