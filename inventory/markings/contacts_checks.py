"""Looks at finished contact ratings: what cannot be, what a standard assumes, what was damaged."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator
from dataclasses import replace
from typing import Any

from inventory.markings.contacts_groups import Groups
from inventory.markings.contacts_items import Fact
from inventory.markings.contacts_scan import ContactScanner
from inventory.markings.damage import decimal_candidates, look_alike_candidates
from inventory.records import Reading

NEC_FLA = {
    # hp: amperes at 115, 200, 208, 230 V
    0.1667: (4.4, 2.5, 2.4, 2.2),
    0.25: (5.8, 3.3, 3.2, 2.9),
    0.3333: (7.2, 4.1, 4.0, 3.6),
    0.5: (9.8, 5.6, 5.4, 4.9),
    0.75: (13.8, 7.9, 7.6, 6.9),
    1: (16, 9.2, 8.8, 8.0),
    1.5: (20, 11.5, 11.0, 10),
    2: (24, 13.8, 13.2, 12),
    3: (34, 19.6, 18.7, 17),
}
"""Single-phase full-load amperes. Source: NEC table 430.248 (1999: 430-148)."""

DC_LIMIT_V, DC_LIMIT_A = 100, 5
"""Above both, a snap or relay contact of this size does not break: Omron V is 0.6 A at 125 V,
Crouzet 83160 with magnetic blow-out 5 A at 250 V d.c."""

ASSUMED = "IEC 61058-1: without a mark 0 to 55 °C and 10 000 cycles (as explained by cxswitch)"


def check(scan: ContactScanner, groups: Groups, *, highest_a: float) -> None:
    """All looks at finished ratings; ``highest_a`` is what the family can carry at most."""
    _direct_current(scan)
    _too_many_amperes(scan, highest_a)
    _horsepower(scan)
    _unusual_volts(scan)
    _unusual_cycles(scan)
    _large_bracket(scan)
    _lowest_ambient(scan)
    _full_load_amperes(scan)
    _assume(scan, groups)


def _all_entries(scan: ContactScanner) -> Iterator[dict[str, Any]]:
    """The flat ratings and every row of the list."""
    yield scan.ratings
    yield from scan.ratings.get("ratings", ())


def _direct_current(scan: ContactScanner) -> None:
    """10 A at 250 V d.c. is a misprint for a.c., or a part of another kind."""
    for entry in _all_entries(scan):
        amps, volts = entry.get("dc_a"), entry.get("volts_dc")
        if amps is None or not volts or amps <= DC_LIMIT_A or max(volts) < DC_LIMIT_V:
            continue
        scan.ratings["implausible"] = True
        scan.warn(
            f"{amps} A at {max(volts)} V d.c. is far above what such a contact breaks"
            " (0.6 A at 125 V in a 15 A switch): read as printed, look at the part again."
        )
        repaired = re.sub(r"V(\s?)DC", r"V\1AC", scan.text, count=1)
        if repaired != scan.text and len(scan.text) <= 200:
            scan.propose(repaired, "VDC may be a misprint for VAC")
        return


def _too_many_amperes(scan: ContactScanner, highest: float) -> None:
    """105 A on a micro switch: a decimal point is lost."""
    for entry in _all_entries(scan):
        for name in _CONTINUOUS:
            amps = entry.get(name)
            if amps is None or amps <= highest:
                continue
            scan.ratings["implausible"] = True
            scan.warn(f"{amps} A is above {highest:g} A, the most such a contact is made for.")
            _decimal_point(scan, str(amps), highest)
            return


_CONTINUOUS = (
    "resistive_a",
    "gp_a",
    "motor_a",
    "dc_a",
    "amps",
    "inductive_a",
    "ballast_a",
    "lamp_a",
)
"""Names of amperes a contact carries for long; a surge is no limit of the family."""

HIGHEST_HP = 3
"""Most horsepower the code's table gives a contact of this size on one phase."""

USUAL_AC = frozenset(
    {100, 110, 115, 120, 125, 127, 200, 208, 220, 230, 240, 250, 254, 265, 277, 300, 347}
    | {380, 400, 415, 440, 450, 460, 480, 500, 575, 600, 660, 690}
)
"""Mains and test voltages that contacts are rated at, from 60 V up. Common practice."""


def _horsepower(scan: ContactScanner) -> None:
    """12 hp on a small contact: the stroke of 1/2 is lost."""
    for row in scan.ratings.get("hp", ()):
        hp = row["hp"]
        if hp <= HIGHEST_HP:
            continue
        scan.ratings["implausible"] = True
        scan.warn(f"{hp} hp is above {HIGHEST_HP} hp: a stroke may be lost.")
        digits = str(hp)
        if digits.isdigit() and len(digits) >= 2 and len(scan.text) <= 200:
            fraction = f"{digits[0]}/{digits[1:]}"
            scan.propose(scan.text.replace(digits, fraction, 1), f"stroke lost: {fraction} hp")


def _unusual_volts(scan: ContactScanner) -> None:
    """104 V: an A was read as a 4, or a figure is damaged."""
    for entry in _all_entries(scan):
        for volts in entry.get("volts_ac", ()):
            if volts >= LEAST_CHECKED_V and volts not in USUAL_AC:
                scan.warn(f"{volts} V is no usual a.c. voltage: an A may have been read as 4.")


LEAST_CHECKED_V = 60
"""Below it, control voltages of any figure are met."""


def _unusual_cycles(scan: ContactScanner) -> None:
    """851E4: two marks ran together."""
    cycles = scan.ratings.get("endurance_cycles")
    if cycles is not None and (cycles > MOST_CYCLES or len(f"{cycles:g}".strip("0")) > LONG_FIGURE):
        scan.warn(f"{cycles} operating cycles is no usual endurance: two marks may run together.")


MOST_CYCLES = 50_000_000
"""Mechanical life of the longest-lived small relays. Common practice."""
LONG_FIGURE = 2
"""Significant digits of an endurance: 300, 25 000, never 8 510 000. Common practice."""


def _large_bracket(scan: ContactScanner) -> None:
    """10(15) A: the motor figure far above the resistive one has lost its point."""
    for entry in _all_entries(scan):
        amps, motor = entry.get("resistive_a"), entry.get("motor_a")
        if amps is not None and motor is not None and motor >= 1.5 * amps:
            scan.warn(f"{amps} ({motor}) A: the motor figure is large; its point may be lost.")


def _decimal_point(scan: ContactScanner, figure: str, highest: float) -> None:
    """Offer the figure with its point put back."""
    if len(scan.text) > 200:
        return
    for cut in decimal_candidates(figure, highest):
        scan.propose(scan.text.replace(figure, cut, 1), f"decimal point lost: {figure} for {cut}")


def _lowest_ambient(scan: ContactScanner) -> None:
    """A lowest ambient well above freezing: the minus sign is lost."""
    low = scan.ratings.get("ambient_min_c")
    if low is None or low <= LOWEST_AMBIENT_C:
        return
    scan.warn(f"{low} °C as the lowest ambient is improbable: a minus sign may be lost.")
    if len(scan.text) <= 200:
        scan.propose(scan.text.replace(str(low), f"-{low}", 1), f"minus sign lost: -{low} °C")


LOWEST_AMBIENT_C = 15
"""Highest lower ambient limit believed; makers print 0 to -60 °C. Common practice."""


def _full_load_amperes(scan: ContactScanner) -> None:
    """Full-load amperes beside a horsepower must be those of the table."""
    for row in scan.ratings.get("hp", ()):
        table = NEC_FLA.get(row["hp"])
        if table is None or "fla" not in row:
            continue
        fitting = table if row["volts"] is None else _column(table, row["volts"])
        if not any(abs(row["fla"] - amps) <= 0.15 * amps for amps in fitting):
            scan.warn(
                f"{row['fla']} A full load does not fit {row['hp']} hp: the code table says"
                f" {', '.join(str(amps) for amps in fitting)} A."
            )


def fits_horsepower(hp: float, full_load: float) -> bool:
    """Whether full-load amperes may be those of a horsepower, at whatever voltage.

    >>> fits_horsepower(1, 16), fits_horsepower(1, 30), fits_horsepower(0.1, 30)
    (True, False, True)
    """
    table = NEC_FLA.get(hp, (full_load,))
    return any(abs(full_load - amps) <= 0.15 * amps for amps in table)


def _column(table: tuple[float, ...], volts: float) -> tuple[float, ...]:
    """The table's figures for a voltage; 277 V falls between the columns and the hp."""
    if volts < 150:
        return table[:1]
    return table[1:3] if volts < 215 else (table[3], round(table[3] * 230 / volts, 1))


def _assume(scan: ContactScanner, groups: Groups) -> None:
    """Defaults of the standard, for groups marked in its way only."""
    facts = [item for item in scan.items if isinstance(item, Fact)]
    if not groups.currents or not _marked_as_iec(scan, groups, facts):
        return
    if not any(fact.name == "ambient" for fact in facts):
        scan.assume("ambient_min_c", 0, ASSUMED)
        scan.assume("ambient_max_c", 55, ASSUMED)
    if not any(fact.name == "endurance_cycles" for fact in facts):
        scan.assume("endurance_cycles", 10_000, ASSUMED)


def _marked_as_iec(scan: ContactScanner, groups: Groups, facts: list[Fact]) -> bool:
    """True for a bracket, a surge stroke, a T mark, a disconnection sign or the standard."""
    return (
        any(group.current.more for group in groups.currents)
        or any(fact.name == "ambient" and "ambient_min_c" in fact.value for fact in facts)
        or any(fact.name == "disconnection" for fact in facts)
        or "61058" in str(scan.ratings.get("standard", ""))
    )


def propose_repairs(scan: ContactScanner, read: Callable[[str], Reading]) -> None:
    """Offer look-alike repairs of what could not be read, and say what each repair would read."""
    if scan.unread_pieces() and len(scan.text) <= LONGEST_REPAIRED:
        for candidate in look_alike_candidates(scan.text, _reads_better(scan, read)):
            scan.candidates.append(candidate)
            scan.warn(f"Perhaps damaged: {candidate.reason}; offered, not applied.")
    scan.candidates = [
        replace(candidate, ratings=dict(read(candidate.text).ratings))
        for candidate in scan.candidates
    ]


LONGEST_REPAIRED = 120
"""Characters up to which look-alikes are tried; a marking is shorter. Common practice."""


def _reads_better(scan: ContactScanner, read: Callable[[str], Reading]) -> Callable[[str], bool]:
    """A judge of repairs: fewer characters unread and more ratings known than now."""
    left = sum(end - start for start, end in scan.unread_pieces())
    known = len(scan.ratings)

    def better(text: str) -> bool:
        """True when a repaired text reads better."""
        reading = read(text)
        unread = sum(piece.end - piece.start for piece in reading.unread)
        return unread < left and len(reading.ratings) > known

    return better
