"""Twins of a shelf are found by key, by alias and by a slip."""

from __future__ import annotations

from inventory.records import Part
from inventory.store import merging, parts, search_index
from inventory.store.shelf import Shelf
from inventory.store.twins import twins

RATINGS = {"resistive_a": 16, "volts_ac": [250]}


def _switch(code: str | None, marking: str = "", *aliases: str) -> Part:
    """A switch of 16 A 250 V."""
    return Part("switch", marking, None, code, ratings=RATINGS, aliases=aliases)


def test_each_kind_of_twin_is_found_once(shelf: Shelf) -> None:
    """One key, one marking, an alias, a swap; codes one sign apart are left alone."""
    with shelf.write() as connection:
        parts.add(
            connection,
            [
                _switch("SZM-V16-FA"),
                _switch("SZM V16 FA"),
                Part("fuse", "T5AL250V"),
                Part("fuse", "T 5A L 250V"),
                _switch("QX-7740", "", "DE59-00002A"),
                _switch("DE5900002A"),
                _switch("WB27X10930"),
                _switch("WB2X710930"),
                _switch("VP-533A-0F"),
                _switch("VP-532A-0F"),
            ],
        )

        found = twins(connection)

    assert {(one.keep, one.drop) for one in found} == {(1, 2), (3, 4), (5, 6), (7, 8)}
    assert all(one.evidence for one in found)


def test_the_limit_is_kept(shelf: Shelf) -> None:
    """Ten records of one code are many pairs."""
    with shelf.write() as connection:
        parts.add(connection, [_switch("SZM-V16-FA" + " " * n + "X") for n in range(10)])

        assert len(twins(connection, limit=7)) == 7


def test_merged_twins_are_no_longer_told(shelf: Shelf) -> None:
    """What is one record has no twin."""
    with shelf.write() as connection:
        keep, drop = parts.add(connection, [_switch("SZM-V16-FA"), _switch("SZM V16 FA")])
        merging.merge(connection, keep, drop)

        assert twins(connection) == []
        assert search_index.check(connection) == []


def test_a_shelf_without_codes_has_no_twins(shelf: Shelf) -> None:
    """Nothing to compare by."""
    with shelf.write() as connection:
        parts.add(connection, [Part("other", "--"), Part("other", "--")])

        assert twins(connection) == []


def test_a_slip_is_found_far_below_the_newest_part_types(shelf: Shelf) -> None:
    """Thousands of codes lie above it, many of them with the same beginning."""
    above = [
        _switch(f"KR{'ABCDEFGHJK'[n % 10]}-{n:04d}-{n * 7919 % 9973:04d}") for n in range(2_000)
    ]
    with shelf.write() as connection:
        parts.add(connection, [_switch("WB27X10930"), _switch("WB2X710930"), *above])

        found = twins(connection, limit=2_000)

    assert (1, 2) in {(one.keep, one.drop) for one in found}
