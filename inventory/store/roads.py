"""The roads of a search over the tables of a shelf; each answer is bounded and goes by index."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import replace

from inventory.matching.keys import bare, code_key
from inventory.matching.needs import Need
from inventory.records import Edge, Lot, Part
from inventory.store import edges, lots, parts, rating_road, search_index
from inventory.store.asking import Asking
from inventory.store.sql import Connection

MOST_PER_CODE = 200
"""Part types that are looked at under one code."""

MOST_UNIT_EDGES = 5_000
"""Entries of parts lists that are looked at for one unit."""

LIKE_A_CODE = 0.7
"""A code of a cross-reference less like the typed one than this is another code."""

_BY_CODE = (
    "SELECT 0, id, type_code FROM part_type WHERE code_key = ? AND merged_into IS NULL"
    " UNION ALL SELECT 1, id, marking FROM part_type WHERE marking_key = ? AND merged_into IS NULL"
    " UNION ALL SELECT 2, part_id, code FROM alias WHERE code_key = ? ORDER BY 1, 2 LIMIT ?"
)
_FITTED = (
    "SELECT lot.part_id, job.id, job.maker, job.outcome, -SUM(journal.quantity)"
    " FROM job JOIN journal ON journal.job_id = job.id JOIN lot ON lot.id = journal.lot_id"
    " WHERE job.model_key = :key AND journal.quantity <> 0 AND (journal.place = :place"
    " OR journal.place IS NULL AND journal.kind IN ('put-back', 'undone-put-back'))"
    " GROUP BY lot.part_id, job.id, job.maker, job.outcome"
    " HAVING SUM(CASE WHEN journal.place = :place THEN 1 ELSE 0 END) > 0"
    " ORDER BY lot.part_id, job.id"
)
"""A piece that comes back says no place: it is taken off wherever its part type was fitted."""

_UNIT_EDGES = (
    "id IN (SELECT id FROM edge WHERE to_key >= :begin AND to_key < :end AND kind = 'fits-unit'"
    " ORDER BY to_key, id LIMIT :most)"
)

_WILD_FIRST = (
    "id IN (SELECT id FROM edge WHERE kind = 'fits-unit'"
    " AND (substr(to_code, 1, 1) IN ('*', '#', '?', '_', 'x')"
    " OR substr(to_code, 2, 1) IN ('*', '#', '?', '_', 'x'))"
    " ORDER BY id LIMIT :most)"
)
"""Models that begin with a wildcard lie nowhere in the order of the keys: they are read through."""

_ALTERNATES = (
    "id IN (SELECT id FROM edge WHERE kind = 'listed-alternate' AND unit IS NOT NULL"
    " ORDER BY id LIMIT :most)"
)


class ShelfRoads:
    """``matching.roads.Roads`` over an open read transaction."""

    def __init__(self, connection: Connection) -> None:
        self._connection = connection
        self._ask = Asking(connection)
        self._by_code: dict[str, list[int]] = {}

    def by_text(self, text: str, family: str | None, limit: int) -> list[tuple[int, str, float]]:
        """Part types by a text that may be misspelt."""
        return list(search_index.search(self._connection, text, limit, family))

    def by_codes(self, codes: Iterable[str]) -> Mapping[str, Sequence[int]]:
        """Part types that carry each code, given and compared in ``bare`` form."""
        return {code: found for code in dict.fromkeys(codes) if (found := self._carriers(code))}

    def _carriers(self, code: str) -> list[int]:
        """Part types under one code; a code is asked for many times along a chain."""
        if code not in self._by_code:
            key = code_key(code)
            rows = self._ask.rows(_BY_CODE, (key, key, key, MOST_PER_CODE)) if key else ()
            same = (number for _, number, text in rows if bare(text) == code)
            self._by_code[code] = list(dict.fromkeys(same))
        return self._by_code[code]

    def by_needs(
        self, families: Sequence[str], wanted: Sequence[Need], limit: int
    ) -> list[tuple[int, bool]]:
        """Part types in stock by ratings."""
        return rating_road.by_needs(self._connection, families, wanted, limit)

    def words_of(self, name: str) -> list[str]:
        """The different words recorded under a rating name."""
        return rating_road.words_of(self._connection, name)

    def edges_of(self, code: str) -> list[Edge]:
        """Cross-references that start or end at a code, or at one that looks like it."""
        return edges.touching(self._connection, code)

    def near_codes(self, code: str) -> list[str]:
        """Codes of cross-references that a misspelt one may mean."""
        hits = search_index.search_codes(self._connection, code)
        return [hit.text for hit in hits if hit.score >= LIKE_A_CODE]

    def unit_edges(self, unit: str) -> list[Edge]:
        """Entries of parts lists whose model begins like the unit's, with or without maker."""
        found: dict[Edge, None] = {}
        for model in (unit, unit.strip().partition(" ")[2]):
            begin = code_key(model)[:2]
            if len(begin) == 2:
                span = {"begin": begin, "end": f"{begin}~", "most": MOST_UNIT_EDGES}
                found |= dict.fromkeys(edges.where(self._connection, _UNIT_EDGES, **span))
        found |= dict.fromkeys(edges.where(self._connection, _WILD_FIRST, most=MOST_UNIT_EDGES))
        return [*found, *self._listed_in_units()]

    def _listed_in_units(self) -> list[Edge]:
        """Entries of the lists inside units, read as parts lists: both codes go there."""
        listed = edges.where(self._connection, _ALTERNATES, most=MOST_UNIT_EDGES)
        return [
            replace(edge, from_code=code, to_code=edge.unit or "", kind="fits-unit", unit=None)
            for edge in listed
            for code in (edge.from_code, edge.to_code)
        ]

    def fitted_before(self, unit: str, place: str) -> list[tuple[int, int, int]]:
        """What past jobs fitted at a place of such a unit: number, kept working, came back."""
        maker, _, model = unit.strip().partition(" ")
        counts: dict[int, list[int]] = {}
        for key, said_maker in ((bare(unit), None), (bare(model), bare(maker))):
            for number, _, whose, outcome, pieces in self._ask.rows(
                _FITTED, {"key": key, "place": place}
            ):
                if pieces > 0 and (not said_maker or not whose or bare(whose) == said_maker):
                    count = counts.setdefault(number, [0, 0])
                    count[0] += outcome == "kept-working"
                    count[1] += outcome == "came-back"
        return [(number, kept, back) for number, (kept, back) in sorted(counts.items())]

    def parts(self, numbers: Iterable[int]) -> dict[int, Part]:
        """Part types by number."""
        return parts.many(self._connection, numbers)

    def lots(self, numbers: Iterable[int]) -> dict[int, list[Lot]]:
        """Lots with pieces on hand, by part type."""
        return lots.of_parts(self._connection, numbers)
