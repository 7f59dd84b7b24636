"""The roads of a search over a few records in memory, for tests of the joining and ranking."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, field

from inventory.matching.keys import bare, code_key
from inventory.matching.needs import Need
from inventory.matching.text import likeness, readings
from inventory.records import Edge, Lot, Part


@dataclass
class MemoryRoads:
    """Part types by number, their lots, and edges; everything is within reach of every road."""

    shelf: dict[int, Part]
    pieces: dict[int, list[Lot]] = field(default_factory=dict)
    known: list[Edge] = field(default_factory=list)
    jobs: list[tuple[int, int, int]] = field(default_factory=list)

    def by_text(
        self, text: str, family: str | None, limit: int
    ) -> Sequence[tuple[int, str, float]]:
        """Part types of the family, the likest first."""
        form = readings(text)[0]
        found = [
            (number, code, likeness(form, code))
            for number, part in self.shelf.items()
            for code in (part.type_code, part.marking)
            if code and family in (None, part.family)
        ]
        return sorted(found, key=lambda hit: -hit[2])[:limit]

    def by_codes(self, codes: Iterable[str]) -> Mapping[str, Sequence[int]]:
        """Part types under codes."""
        carried = {
            number: {bare(code) for code in (p.type_code, p.marking, *p.aliases) if code}
            for number, p in self.shelf.items()
        }
        return {code: [n for n, own in carried.items() if code in own] for code in codes}

    def by_needs(
        self, families: Sequence[str], wanted: Sequence[Need], limit: int
    ) -> Sequence[tuple[int, bool]]:
        """All part types of the families with lots."""
        found = [n for n, p in self.shelf.items() if p.family in families and n in self.pieces]
        return [(number, True) for number in found if wanted][:limit]

    def words_of(self, name: str) -> Sequence[str]:
        """Words recorded under a rating."""
        words = (part.ratings.get(name) for part in self.shelf.values())
        return sorted({word for word in words if isinstance(word, str)})

    def edges_of(self, code: str) -> Iterable[Edge]:
        """Edges at a code."""
        key = code_key(code)
        return [e for e in self.known if key in {code_key(e.from_code), code_key(e.to_code)}]

    def near_codes(self, code: str) -> Sequence[str]:
        """Codes of edges that share the first three signs."""
        codes = {c for edge in self.known for c in (edge.from_code, edge.to_code)}
        return sorted(c for c in codes if bare(c)[:3] == bare(code)[:3])

    def unit_edges(self, unit: str) -> Iterable[Edge]:
        """All edges of parts lists."""
        return [edge for edge in self.known if edge.kind == "fits-unit" and unit]

    def fitted_before(self, unit: str, place: str) -> Sequence[tuple[int, int, int]]:
        """What jobs fitted."""
        return self.jobs if unit and place else []

    def parts(self, numbers: Iterable[int]) -> Mapping[int, Part]:
        """Part types by number."""
        return {number: self.shelf[number] for number in numbers}

    def lots(self, numbers: Iterable[int]) -> Mapping[int, Sequence[Lot]]:
        """Lots by part type."""
        return {number: self.pieces[number] for number in numbers if number in self.pieces}
