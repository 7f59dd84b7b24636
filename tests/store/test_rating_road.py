"""Parts are found by what they are rated for, over indexed rows, nearest first."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

import pytest
from sqlalchemy import text
from sqlalchemy.engine import Connection

from inventory.matching.needs import Need, needs
from inventory.records import Lot, Part, Value
from inventory.rules.verdict import Wanted
from inventory.store import lots, parts, rating_road
from inventory.store.check import check
from inventory.store.shelf import Shelf
from tests.store.shelves import SERVER

FORMS = ("SPST-NO", "SPST-NC", "SPDT")


@pytest.fixture
def stocked(shelf: Shelf) -> Iterator[Connection]:
    """Switches of 1 to 60 A, every third of each contact form, volts known of the even ones."""
    made = [
        Part(
            "switch",
            f"S{amperes}",
            ratings={
                "resistive_a": amperes,
                "contact_form": FORMS[amperes % 3],
                **({"volts_ac": [125, 250]} if amperes % 2 == 0 else {}),
            },
        )
        for amperes in range(1, 61)
    ]
    with shelf.write() as connection:
        numbers = parts.add(connection, [*made, Part("relay", "R", ratings={"resistive_a": 16})])
        lots.know_bins(connection, ["A1"])
        lots.add(connection, [_lot(number) for number in numbers if number != 17])
        yield connection


def _lot(number: int, held: int = 0) -> Lot:
    """One piece of the part type of that number."""
    return Lot(number, number, 1, held, "clicks", "A1", "salvaged", logged_at="2026-01-01")


def _found(
    connection: Connection, families: tuple[str, ...] = ("switch",), **typed: Value
) -> list[tuple[int, bool]]:
    """Amperes of the switches found (their number is their current), and whether wholly."""
    asked = needs(
        Wanted("switch", needs=typed), lambda name: rating_road.words_of(connection, name)
    )
    return rating_road.by_needs(connection, families, asked, 50)


def test_the_nearest_figure_above_comes_first(stocked: Connection) -> None:
    """At least 16 A: 16, then 18, 19, ...; 17 is not in stock, the relay is no switch."""
    whole = [number for number, complete in _found(stocked, resistive_a=16) if complete]

    assert whole[:4] == [16, 18, 19, 20]
    assert min(whole) == 16


def test_all_needs_count_together(stocked: Connection) -> None:
    """16 A, 250 V and a make contact: a changeover serves, a break contact does not."""
    found = _found(stocked, resistive_a=16, volts_ac=250, contact_form="SPST-NO")
    whole = [number for number, complete in found if complete]

    assert whole[:4] == [18, 20, 24, 26]
    assert all(number % 2 == 0 and FORMS[number % 3] != "SPST-NC" for number in whole)


def test_where_few_match_wholly_parts_with_gaps_come_up_behind(stocked: Connection) -> None:
    """Volts that nobody recorded leave a question, which the rules will ask; low figures do not."""
    found = _found(stocked, resistive_a=40, volts_ac=250, contact_form="SPST-NO")
    complete = [whole for _, whole in found]

    assert complete == sorted(complete, reverse=True)
    assert {number for number, whole in found if not whole} >= {41, 45, 47}
    assert all(number >= 40 for number, _ in found)


def test_a_gap_in_the_rarest_need_is_found_by_another(stocked: Connection) -> None:
    """No switch has its tab width on record: they are found by their current."""
    found = _found(stocked, resistive_a=55, tab_mm=6.3)

    assert found[0] == (55, False)


def test_a_word_nobody_recorded_finds_nothing_wholly(stocked: Connection) -> None:
    """No part is known to have it; those of which nobody recorded a body may."""
    found = _found(stocked, resistive_a=16, body="basic")

    assert found
    assert not any(whole for _, whole in found)


def test_nothing_asked_and_no_family_find_nothing(stocked: Connection) -> None:
    """There is no need to drive the search."""
    assert rating_road.by_needs(stocked, ["switch"], [], 50) == []
    assert _found(stocked, families=(), resistive_a=16) == []


def test_at_most_reads_from_the_figure_downwards(stocked: Connection) -> None:
    """The figure just below the limit is the nearest."""
    need = Need(("resistive_a",), high=20.0, must=True, aim=20.0)

    found = rating_road.by_needs(stocked, ["switch"], [need], 3)

    assert found == [(20, True), (19, True), (18, True)]


def test_held_and_merged_part_types_are_not_in_stock(shelf: Shelf) -> None:
    """A promised piece and a record that became another one are offered to nobody."""
    with shelf.write() as connection:
        numbers = parts.add(
            connection, [Part("switch", f"S{n}", ratings={"resistive_a": 16}) for n in range(3)]
        )
        lots.know_bins(connection, ["A1"])
        lots.add(connection, [_lot(1, held=1), _lot(2), _lot(3)])
        connection.exec_driver_sql("UPDATE part_type SET merged_into = 2 WHERE id = 3")

        assert _found(connection, resistive_a=16) == [(numbers[1], True)]


def test_the_different_words_of_a_rating_are_read_step_by_step(stocked: Connection) -> None:
    """Three words among sixty rows; none under a name nobody used."""
    assert rating_road.words_of(stocked, "contact_form") == sorted(FORMS)
    assert rating_road.words_of(stocked, "gizmo") == []


@pytest.mark.skipif(SERVER is not None, reason="reads the plans of SQLite")
@pytest.mark.parametrize("gaps", [False, True])
def test_no_query_of_the_road_scans_a_table(stocked: Connection, gaps: bool) -> None:  # noqa: FBT001
    """Each step is a SEARCH by index; only the bounded rows of the driver are walked."""
    asked = [
        Need(("resistive_a",), low=16.0, must=True, aim=16.0),
        Need(("volts_ac",), low=250.0, must=True, aim=250.0),
        Need(("contact_form",), words=("SPST-NO", "SPDT"), must=True),
    ]
    plans = set()
    for driver in (asked[0], asked[2]):
        others = [need for need in asked if need is not driver]
        for query in rating_road.driving(driver, ["switch"], others, gaps=gaps):
            plans |= set(_plan(stocked, query.sql, query.values))
    plans |= set(_plan(stocked, rating_road._WORDS, ("body", "body", 300)))

    walked = {plan for plan in plans if plan.startswith("SCAN")}
    assert walked <= {"SCAN d", "SCAN next", "SCAN (subquery-1)", "SCAN (subquery-2)"}
    assert any("ix_rating_name_number" in plan for plan in plans)
    assert any("ix_rating_name_word" in plan for plan in plans)


def _plan(connection: Connection, sql: str, values: tuple[Any, ...]) -> list[str]:
    """The steps of a query."""
    raw: Any = connection.connection.driver_connection
    return [row[3] for row in raw.execute(f"EXPLAIN QUERY PLAN {sql}", values)]


def test_what_follows_from_a_code_is_looked_up_too(shelf: Shelf) -> None:
    """``qc-6.3`` of a type code is a tab of 6.3 mm. Source: UL 310, nominal sizes."""
    part = Part("switch", type_code="QC-1", ratings={"resistive_a": 16, "terminal": "qc-6.3"})
    with shelf.write() as connection:
        (number,) = parts.add(connection, [part])
        rows = connection.execute(
            text("SELECT number FROM rating WHERE part_id = :id AND name = 'tab_mm'"),
            {"id": number},
        ).scalars()
        assert list(rows) == [6.3]
    assert not [found for found in check(shelf) if found.about == "ratings"]


def test_a_size_in_words_is_looked_up_by_its_figures(shelf: Shelf) -> None:
    """``5 x 20`` of a parts file and the series ``62`` are figures to compare."""
    part = Part("relay", "X", ratings={"footprint": "5 x 20", "resistive_a": 16})
    with shelf.write() as connection:
        (number,) = parts.add(connection, [part])
        rows = connection.execute(
            text("SELECT number FROM rating WHERE part_id = :id AND name = 'footprint'"),
            {"id": number},
        ).scalars()
        assert sorted(rows) == [5.0, 20.0]
