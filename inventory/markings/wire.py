"""Hook-up wire: AWM style, temperature, voltage, gauge, flame test; and high-voltage leads.

The printed rating decides. What a style page says where the wire is silent stays ``assumed``;
a style that is not tabled here gives no rating at all.
"""

from __future__ import annotations

import re

from inventory.markings.amounts import PRACTICE
from inventory.markings.bookkeeping import START
from inventory.markings.cable_size import SIZES
from inventory.markings.figures import figure
from inventory.markings.harmonised import code, harmonised
from inventory.markings.passive_marks import (
    ANY_CASE,
    COMMON,
    NUMBER,
    amount,
    legend,
    temperature,
    word,
)
from inventory.markings.scanner import Rule, Scanner
from inventory.markings.writing import faithful, write
from inventory.records import Reading

UL_758 = "UL 758, style page (iq.ul.com/awm)"

STYLES = {
    1001: (80, 300),
    2040: (105, 600),
    2789: (60, 30),
    10127: (60, 300),
    10686: (90, 1000),
    20961: (105, 30),
    21500: (60, 300),
    22095: (80, 30),
}
"""Degrees and volts of styles whose page was seen. Source: UL 758, section 1 and 2 style pages."""

_STYLE = re.compile(
    r"(?:(?P<word>(?:UL\s?)?AWM(?:\s?I{1,2}(?:/II)?\s?[AB](?:/B)?)?(?:\s?STYLES?)?|STYLES?|UL)\s?-?:?\s?"
    r"(?:NO\.?\s?)?)(?P<style>[1-9][0-9]{3,4})(?![0-9A-Za-z])",
    ANY_CASE,
)
_BARE = re.compile(
    r"(?P<style>[12][0-9]{3}|3[0-9]{3}|1[01][0-9]{3}|2[01][0-9]{3})(?![0-9A-Za-z.,%°]|\s?[VWAk°])"
)


def style(scan: Scanner) -> bool:
    """Style = ("AWM" | "STYLE" | "UL") four or five digits."""
    found = scan.peek(_STYLE)
    if found is None:
        return False
    return _say_style(scan, found)


def _say_style(scan: Scanner, found: re.Match[str]) -> bool:
    """Set the style; what its page says is assumed, never more."""
    if "awm_style" in scan.ratings and scan.ratings["awm_style"] != int(found["style"]):
        scan.warn("Several styles are printed: the wire meets each; the first is kept.")
    else:
        scan.say("awm_style", int(found["style"]))
    if int(found["style"]) in STYLES:
        degrees, volts = STYLES[int(found["style"])]
        scan.assume("temp_c", degrees, f"{UL_758}, style {found['style']}")
        scan.assume("voltage_v", volts, f"{UL_758}, style {found['style']}")
    means = {"style": ("style of appliance wiring material", UL_758)}
    if "word" in found.groupdict():
        means["word"] = ("the style number follows", UL_758)
    return legend(scan, found, means)


def bare_style(scan: Scanner) -> bool:
    """Style = four or five digits alone, before any other style."""
    found = scan.peek(_BARE)
    if found is None or "awm_style" in scan.ratings:
        return False
    return _say_style(scan, found)


_KILO = re.compile(rf"(?P<number>{NUMBER})\s?kV\s?(?P<kind>DC|AC)?(?![0-9A-Za-z])", ANY_CASE)


def kilovolts(scan: Scanner) -> bool:
    """Voltage = number "kV": a high-voltage lead."""
    found = scan.peek(_KILO)
    if found is None:
        return False
    volts = figure(found["number"], 3)
    scan.say("voltage_v", volts)
    return scan.take(_KILO, f"high-voltage lead, {volts} V", PRACTICE) is not None


_AWG_RANGE = re.compile(
    r"(?:No\.?\s?)?(?P<thin>[1-4][0-9])\s?(?:AWG)?\s?(?:-|to|~)\s?(?P<thick>[1-9]|[1-3][0-9])\s?(?P<unit>AWG)"
    r"(?![0-9A-Za-z])",
    ANY_CASE,
)


def _range_words(found: re.Match[str]) -> str:
    """The span of gauges."""
    return f"made in gauges {found['thin']} (thin) to {found['thick']} AWG (thick)"


def awg_range(scan: Scanner) -> bool:
    """Gauges = number "-" number "AWG": what the style is made in."""
    found = scan.peek(_AWG_RANGE)
    if found is None:
        return False
    scan.say("awg", [int(found["thin"]), int(found["thick"])])
    return scan.take(_AWG_RANGE, _range_words, UL_758) is not None


_VOLTS = re.compile(
    rf"(?P<number>{NUMBER})\s?(?:V(?:olts?)?\.?\s?(?:AC|DC|RMS)?)(?![0-9A-Za-z])", ANY_CASE
)


def volts(scan: Scanner) -> bool:
    """Voltage = number "V" "AC"?"""
    found = scan.peek(_VOLTS)
    if found is None:
        return False
    scan.say("voltage_v", figure(found["number"]))
    return scan.take(_VOLTS, f"rated voltage {found['number']} V", UL_758) is not None


MATERIALS = (
    word("SR-?PVC|semi-?rigid PVC", "insulation", PRACTICE, insulation="semi-rigid PVC"),
    word("XL-?PVC", "insulation", PRACTICE, insulation="cross-linked PVC"),
    word("XL-?PE|XLPE", "insulation", PRACTICE, insulation="cross-linked polyethylene"),
    word("PVC", "insulation", PRACTICE, insulation="PVC"),
    word("silicone(?: rubber)?|SIR", "insulation", PRACTICE, insulation="silicone"),
    word("PTFE|FEP|PFA|ETFE|teflon", "insulation", PRACTICE, insulation="fluoropolymer"),
    word("glass ?fib(?:re|er)|fib(?:re|er)glass", "braid", PRACTICE, braid="glass fibre"),
)
"""Insulation named in words."""

RULES: tuple[Rule, ...] = (
    *START,
    style,
    harmonised,
    awg_range,
    kilovolts,
    *SIZES,
    temperature,
    volts,
    bare_style,
    *MATERIALS,
    amount("mils?", "wall_mil", "wall of the insulation"),
    word(
        "wire|lead|cable|cond(?:uctor)?|insulat(?:ion|ed)|rating", "a word of the trade", PRACTICE
    ),
    word(r"AWM|flame|No\.?", "word of the trade", PRACTICE),
    word("solid|stranded", "form of the conductor", PRACTICE),
    word("CSA|I{1,2}(?:/II)?|[AB](?:/B)?|TR-64|LL[0-9]{5,6}", "a Canadian mark", PRACTICE),
    *COMMON,
)


def read(text: str) -> Reading:
    """Read what is printed along a hook-up wire or a high-voltage lead."""
    scan = Scanner(text)
    scan.sweep(RULES)
    return scan.reading("wire")


_SURE = re.compile(r"\bAWM\b|\bSTYLE\s?-?[0-9]{4,5}|\bUL\s?-?[123][0-9]{3,4}(?![0-9])", ANY_CASE)
_STYLE_FIRST = re.compile(
    r"^\s*(?:1[0-9]{3}|[23][0-9]{3}|[12][0-9]{4})\s.{0,12}[0-9]\s?V.{0,12}[0-9]\s?°?\s?C\b"
    r"|^\s*(?:1[0-9]{3}|[23][0-9]{3}|[12][0-9]{4})\s.{0,4}[0-9]\s?°?\s?C\b.{0,12}[0-9]\s?V"
)
"""A style number, then volts and degrees, as flat cables print it."""

_MAYBE = re.compile(r"[0-9]\s?AWG|VW-1|[0-9]\s?kV.{0,20}(?:silicone|wire)", ANY_CASE)


def likely(text: str) -> float:
    """How strongly a text looks like this family, 0 to 1."""
    if _SURE.search(text):
        return 0.95
    if _STYLE_FIRST.search(text[:200]):
        return 0.7
    return 0.45 if _MAYBE.search(text) else 0.0


def canonical(reading: Reading) -> str:
    """Style, gauge, temperature, volts and flame test in their plainest form."""
    return faithful(reading, _written(reading), read)


def _written(reading: Reading) -> str:
    """The ratings written out."""
    return write(
        {"code": code(reading.ratings), **reading.ratings},
        ("awm_style", "AWM {}"),
        ("code", "{}"),
        ("awg", "{}AWG"),
        ("temp_c", "{}°C"),
        ("voltage_v", "{}V"),
        ("flame_rating", "{}"),
        ("insulation", "{}"),
    )
