"""From the items of a contact marking to its ratings."""

from __future__ import annotations

from inventory.markings.contacts_checks import check
from inventory.markings.contacts_facts import bind_facts
from inventory.markings.contacts_groups import group
from inventory.markings.contacts_ratings import say_currents, say_motors
from inventory.markings.contacts_scan import ContactScanner


def settle(scan: ContactScanner, *, highest_a: float) -> None:
    """Pair the items, say all ratings, then check them against each other."""
    groups = group(scan.items)
    bind_facts(scan, groups)
    say_currents(scan, groups)
    say_motors(scan, groups)
    for volts in groups.stray_volts:
        if groups.currents:
            scan.warn(f"{volts.values[0]} V stands apart: it belongs to no ampere figure.")
            continue
        if volts.nature in {"ac", "both"}:
            scan.say("volts_ac", list(volts.values))
        if volts.nature in {"dc", "both"}:
            scan.say("volts_dc", list(volts.values))
    if groups.currents and groups.stray_loads:
        scan.warn(f"{groups.stray_loads[0]} load is named, but for which figure is open.")
    check(scan, groups, highest_a=highest_a)
