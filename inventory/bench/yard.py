"""What the yard still holds: units of models that were taken apart before, and what they gave."""

from __future__ import annotations

from dataclasses import dataclass, field

from inventory.families.sheet import families, sheet
from inventory.matching.keys import bare
from inventory.records import SourceUnit
from inventory.stock.asked import Donor
from inventory.store import salvage, units
from inventory.store.sql import Connection


@dataclass(frozen=True, slots=True)
class Given:
    """What units of the models taken apart so far gave."""

    by_model: dict[tuple[str, str], dict[int, dict[int, int]]] = field(default_factory=dict)
    # (maker, model key) -> part type -> unit -> pieces
    by_unit: dict[int, set[int]] = field(default_factory=dict)  # unit -> part types it gave

    def each(self, model: tuple[str, str]) -> dict[int, tuple[int, int]]:
        """Part types a model gave: units that gave it, pieces a unit."""
        return {
            part: (len(took), max(1, round(sum(took.values()) / len(took))))
            for part, took in self.by_model.get(model, {}).items()
        }


def given(connection: Connection, at: str) -> Given:
    """What was pulled up to a moment."""
    found = Given()
    for part, maker, model, unit, pieces in salvage.given(connection, at):
        model_gave = found.by_model.setdefault((maker, model), {})
        model_gave.setdefault(part, {})[unit] = pieces
        found.by_unit.setdefault(unit, set()).add(part)
    return found


def in_yard(connection: Connection, at: str) -> list[SourceUnit]:
    """Units that stood in the yard at a moment."""
    later = salvage.arrived_later(connection, at)
    still = salvage.left_later(connection, at)
    return [
        unit
        for unit in units.where(connection)
        if unit.id not in later and (unit.in_yard or unit.id in still)
    ]


def donors(connection: Connection, at: str) -> dict[int, list[Donor]]:
    """Units in the yard that should still carry a part: others of their model gave it."""
    gave = given(connection, at)
    found: dict[int, list[Donor]] = {}
    for unit in in_yard(connection, at):
        for part, (_, pieces) in gave.each((unit.maker or "", bare(unit.model or ""))).items():
            if part not in gave.by_unit.get(unit.id, ()):
                found.setdefault(part, []).append(Donor(unit.label, pieces, unit.id))
    return found


def family_yields(connection: Connection, at: str) -> tuple[dict[str, int], dict[str, int]]:
    """Salvaged lots whose first test was good, and all that were tested, by family."""
    good: dict[str, int] = {}
    pulled: dict[str, int] = {}
    for (family, state), count in salvage.first_states(connection, at).items():
        pulled[family] = pulled.get(family, 0) + count
        if family in families() and state in sheet(family).good_states():
            good[family] = good.get(family, 0) + count
    return good, pulled
