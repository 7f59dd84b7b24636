"""Equals counted together: only where each serves for every other, both ways."""

from __future__ import annotations

from inventory.bench import pools
from inventory.bench.low import low
from inventory.bench.merging import merge
from inventory.bench.pools import pools_of
from inventory.store.shelf import Shelf
from tests.bench.shop import lot

SEEN = {"contact_form": "SPST-NO", "body": "V3", "actuator": "pin plunger", "terminals": "qc-6.3"}


def _switch(shelf: Shelf, code: str, marking: str = "16(4)A 250V~ T105 1E5", **seen: str) -> None:
    """One switch all of whose ratings are known."""
    lot(shelf, marking, type_code=code, ratings={**SEEN, **seen})


def test_equals_are_a_pool_and_a_stronger_one_is_none(shelf: Shelf) -> None:
    """25 A may replace 16 A but not the other way round; a lever is no plunger."""
    for code in ("AX-1", "BX-1"):
        _switch(shelf, code)
    _switch(shelf, "STRONG-1", "25(8)A 250V~ T105 1E5")
    _switch(shelf, "LEVER-1", actuator="lever")
    assert list(pools_of(shelf).values()) == [[1, 2]]


def test_a_pool_is_one_line_of_the_report(shelf: Shelf) -> None:
    """With the pieces of all its members, each once."""
    for code in ("AX-1", "BX-1"):
        _switch(shelf, code)
    (line,) = low(shelf, pools=pools_of(shelf)).lines
    assert (line.good, line.members) == (2, (1, 2))
    assert line.name == "16(4)A 250V~ T105 1E5 and 1 more"


def test_what_is_not_known_makes_no_equal(shelf: Shelf) -> None:
    """Without its contact form a switch is asked about, not pooled."""
    for code in ("AX-1", "BX-1"):
        lot(shelf, "16A 250V~", type_code=code)
    assert pools_of(shelf) == {}


def test_what_was_merged_is_in_no_pool_of_its_own(shelf: Shelf) -> None:
    """It is the one it became."""
    for code in ("AX-1", "BX-1"):
        _switch(shelf, code)
    merge(shelf, 1, 2)
    assert pools_of(shelf) == {}


def test_every_member_serves_for_every_other() -> None:
    """Nothing alike: nothing to pool."""
    assert pools._pools([]) == []
