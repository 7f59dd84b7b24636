"""Part types that look like one, and what they are called."""

from __future__ import annotations

from inventory.bench.twins import merge, names, twins
from inventory.store.shelf import Shelf
from tests.bench.shop import lot


def test_a_slip_of_the_keys_makes_a_twin_until_they_are_merged(shelf: Shelf) -> None:
    """The pair is named with evidence; merged there is no pair any more."""
    lot(shelf, "16A 250V~", type_code="NFD-V16-63", maker="Nordfeld")
    lot(shelf, "16A 250V~", type_code="NFD V16 63", maker="Nordfeld")
    lot(shelf, "230V 25W", family="lamp", state="good")
    (pair,) = twins(shelf, 10)
    assert {pair.keep, pair.drop} == {1, 2}
    merge(shelf, 1, 2)
    assert twins(shelf, 10) == []


def test_a_part_type_is_called_by_what_is_known_of_it(shelf: Shelf) -> None:
    """Marking or type, maker, family; a number that is none is left out."""
    lot(shelf, "16A 250V~", maker="Nordfeld")
    lot(shelf, "", type_code="KLM-77")
    assert names(shelf, [1, 2, 9]) == {1: "16A 250V~, Nordfeld, switch", 2: "KLM-77, switch"}
