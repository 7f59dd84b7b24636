"""What a search asks of the store: three roads, and the records they lead to."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from typing import Protocol

from inventory.matching.needs import Need
from inventory.records import Edge, Lot, Part


class Roads(Protocol):
    """What the store answers; every answer is bounded, whatever the size of the shelf."""

    def by_text(
        self, text: str, family: str | None, limit: int
    ) -> Sequence[tuple[int, str, float]]:
        """Part types by a text that may be misspelt: number, its text, likeness 0 to 1."""

    def by_codes(self, codes: Iterable[str]) -> Mapping[str, Sequence[int]]:
        """Part types that carry each code, letter for letter without separators."""

    def by_needs(
        self, families: Sequence[str], wanted: Sequence[Need], limit: int
    ) -> Sequence[tuple[int, bool]]:
        """Part types in stock by ratings, nearest first; False where something is not recorded."""

    def words_of(self, name: str) -> Sequence[str]:
        """The different words recorded under a rating name."""

    def edges_of(self, code: str) -> Iterable[Edge]:
        """Cross-references that start or end at a code, or at one that looks like it."""

    def near_codes(self, code: str) -> Sequence[str]:
        """Codes of cross-references that a misspelt one may mean, likeliest first."""

    def unit_edges(self, unit: str) -> Iterable[Edge]:
        """``fits-unit`` edges whose model may be the unit's."""

    def fitted_before(self, unit: str, place: str) -> Sequence[tuple[int, int, int]]:
        """Part types that past jobs fitted there: number, kept working, came back."""

    def parts(self, numbers: Iterable[int]) -> Mapping[int, Part]:
        """Part types by number."""

    def lots(self, numbers: Iterable[int]) -> Mapping[int, Sequence[Lot]]:
        """Lots with pieces on hand, by part type."""
