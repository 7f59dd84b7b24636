"""Cartridge fuses: IEC 60127 letters, North American series, and the words sellers use.

A fuse keeps its system: the IEC letter names IEC 60127 and its calibration, a series such as
GMA names UL 248-14. The two are never converted into each other.
"""

from __future__ import annotations

import re

from inventory.markings.amounts import (
    GAPS,
    NUM,
    SI,
    amps,
    approvals,
    listed,
    review,
    size,
    volts,
    written,
)
from inventory.markings.fuse_iec import LARGEST_A, bare_class, iec
from inventory.markings.fuse_series import SERIES, ul
from inventory.markings.fuse_words import NAMED, WORDS, inch, interrupting, standard
from inventory.markings.scanner import Rule, Scanner
from inventory.markings.writing import Form, write
from inventory.records import Reading

_SUFFIX = re.compile(r"[A-Z](?=\s{0,4}$)")


def _suffix(scan: Scanner) -> bool:
    """Suffix = one capital at the very end; kept to compare, its meaning is not known."""
    found = scan.peek(_SUFFIX)
    if found is None or "current_a" not in scan.ratings:
        return False
    scan.say("unknown_suffix", found.group())
    scan.warn(f"The last letter {found.group()} is not explained by any source; compare it.")
    scan.leave()
    return True


_AMPS = amps()


def _amps(scan: Scanner) -> bool:
    """Amperes = figure "A"; more than a miniature fuse carries is not read as its current."""
    known = "current_a" in scan.ratings
    if not _AMPS(scan):
        return False
    current = scan.ratings.get("current_a")
    if not known and isinstance(current, (int, float)) and current > LARGEST_A:
        del scan.ratings["current_a"]
        review(scan, f"{written(current)} A is more than any miniature fuse carries.")
    return True


_VOLTS = volts({"": "voltage_v", "ac": "voltage_v", "dc": "voltage_dc_v"})
_GLUED_VOLTS = re.compile(r"(?P<v>[0-9]{2,3})\s?V(?=[A-Z]\s{0,4}$)")


def _volts_before_suffix(scan: Scanner) -> bool:
    """Voltage = figure "V", glued to the unexplained last letter of the mark."""
    found = scan.take(_GLUED_VOLTS, lambda m: f"rated voltage {m['v']} V", SI)
    if found is None:
        return False
    scan.say("voltage_v", int(found["v"]))
    return True


_LINES: tuple[Rule, ...] = (
    standard, ul, NAMED, iec, bare_class, interrupting, inch, size, _volts_before_suffix, _VOLTS,
    _amps, WORDS, approvals, _suffix, *GAPS,
)  # fmt: skip


def read(text: str) -> Reading:
    """Read the marking of a cartridge fuse; what it does not print stays unknown."""
    scan = Scanner(text)
    scan.sweep(_LINES)
    _body_against_letter(scan)
    _unusual_current(scan)
    _assume(scan)
    if scan.ratings.get("voltage_v", 0) and _highest(scan.ratings["voltage_v"]) >= 1000:
        review(scan, "A fuse for thousands of volts is an oven's high-voltage fuse, not this kind.")
    return scan.reading("fuse")


def _highest(volts_said: object) -> float:
    """The highest of one figure or a list."""
    return max(volts_said) if isinstance(volts_said, list) else float(str(volts_said))


USUAL = frozenset(
    {100, 110, 120, 125, 130, 140, 150, 160, 175, 180, 185, 187, 188, 200, 220, 225, 250, 270, 280}
    | {300, 310, 312, 313, 315, 320, 330, 350, 375, 400, 450, 500, 560, 600, 620, 625, 630, 650}
    | {700, 710, 750, 800, 850, 900, 950}
)
"""Leading figures of fuse currents: the R 10 and R 20 steps and North American fractions.

Source: IEC 60127-2 rated currents; catalogues of the GMA, AGX and MDL series.
"""


def _unusual_current(scan: Scanner) -> None:
    """3.154 A: a letter was read as a figure."""
    current = scan.ratings.get("current_a")
    if not isinstance(current, (int, float)) or current <= 0:
        return
    leading = f"{current:.6e}"
    if int(leading[0] + leading[2:4]) not in USUAL or float(leading[4:8]) > 0:
        scan.warn(f"{written(current)} A is no step of any fuse series: a letter may be read as 4.")


def _body_against_letter(scan: Scanner) -> None:
    """The printed letter decides, whatever the tube is made of."""
    if (scan.ratings.get("body"), scan.ratings.get("breaking_class")) == ("ceramic", "L"):
        scan.warn("The body is ceramic but the letter says L: the letter decides.")


def _assume(scan: Scanner) -> None:
    """Breaking capacity and size the standard sets for what is printed."""
    said = scan.ratings
    current = said.get("current_a")
    if said.get("breaking_class") == "L" and isinstance(current, (int, float)):
        scan.assume(
            "breaking_capacity_a", max(35, 10 * current), "IEC 60127-2: 35 A or 10 In, from memory"
        )
    if said.get("breaking_class") == "H":
        scan.assume("breaking_capacity_a", 1500, "IEC 60127-2; some series state less above 6.3 A")
    if said.get("standard") == "BS 1362":
        scan.assume("size_mm", [6.3, 25.4], "BS 1362, from memory")
        scan.assume("voltage_v", 240, "BS 1362, from memory")


_LIKELY = (
    (re.compile(r"\bthermal|temperature fuse|\bkv\b|[0-9]kv", re.IGNORECASE), 0.1),
    (re.compile(rf"(?:^|\s|/)(?:FF|TT|mT|F|T|M)\s?\.?{NUM}\s?m?A\s?[LHE]?(?![A-Za-z])"), 0.9),
    (re.compile(rf"(?:^|[\s/])(?:{'|'.join(SERIES)})(?:-V)?[- ]?[0-9]", re.IGNORECASE), 0.9),
    (re.compile(r"\b(?:BS\s?1362|60127|248-14)\b"), 0.9),
    (re.compile(r"(?:^|\s)(?:FF|TT|F|T|M)\s?[0-9.,]{1,6}[LHE]\s?[0-9]{2,3}\s?V"), 0.8),
    (re.compile(rf"(?:^|\s){NUM}\s?A\s?[LHE]\s?[0-9]{{2,3}}\s?V"), 0.8),
    (re.compile(r"\bfuse\b", re.IGNORECASE), 0.7),
    (re.compile(r"[0-9]\s?kA\s?(?:@|at|/)|\bI\.?R\.?\s?[0-9,]{2,7}\s?A\s?@"), 0.7),
    (re.compile(r"slow[ -]?blow|slo-?blo|fast[ -]?(?:blow|acting)", re.IGNORECASE), 0.7),
    (re.compile(r"[0-9]\s?m?A\b.{0,40}\b(?:5\s?[x×*]\s?20|6[.,]3\s?[x×*]\s?32)"), 0.7),
)


def likely(text: str) -> float:
    """How strongly a text looks like a cartridge fuse, 0 to 1."""
    head = text[:400]
    return next((score for pattern, score in _LIKELY if pattern.search(head)), 0.0)


_CLASS_WORDS = {"L": "low breaking capacity", "H": "high breaking capacity"}


def _ir_text(entries: list[dict[str, float]]) -> str:
    """Interrupting ratings, each with its volts where printed."""
    return " ".join(
        f"IR {written(e['a'])}A" + (f"@{written(e['voltage_v'])}V" if "voltage_v" in e else "")
        for e in entries
    )


def canonical(reading: Reading) -> str:
    """The marking written out again; reads back to the same ratings."""
    said = reading.ratings
    if said.get("series") in SERIES:
        head = _ul_head(reading)
    else:
        head = f"{said.get('series', '')} {_iec_head(reading)}".strip()
    return " ".join((head, _tail(reading))).strip()


def _iec_head(reading: Reading) -> str:
    """Standard where no letter names it, then letter, current, breaking class."""
    said = reading.ratings
    letter = "time_characteristic" in said
    joined = letter and "current_a" in said
    standard = said.get("standard_part", "" if letter else said.get("standard", ""))
    current = write(said, ("time_characteristic", "{}"), ("current_a", "{}A"))
    breaking: Form = "{}" if joined else _CLASS_WORDS
    speed = write(said, ("breaking_class", breaking), ("speed", "{}"), ("leads", "{} leads"))
    return " ".join(part for part in (standard, current.replace(" ", ""), speed) if part)


def _ul_head(reading: Reading) -> str:
    """Series, leads, current, RoHS letter."""
    said = reading.ratings
    lead = "-V" if said.get("leads") == "pigtail" else ""
    current = f"-{listed(said['current_a'])}A" if "current_a" in said else ""
    return f"{said['series']}{lead}{current}{'-R' if 'rohs' in said else ''}"


def _tail(reading: Reading) -> str:
    """Volts, size and the rest."""
    return write(
        reading.ratings,
        ("voltage_v", lambda v: f"{listed(v, '/')}V"),
        ("voltage_dc_v", "{}VDC"),
        ("size_mm", lambda v: f"{listed(v, 'x')}mm"),
        ("interrupting", _ir_text),
        ("body", "{}"),
        ("approvals", "{}"),
        ("unknown_suffix", "{}"),
    )
