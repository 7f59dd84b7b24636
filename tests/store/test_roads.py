"""The store's side of the roads: codes, edges, units and past jobs, by index."""

from __future__ import annotations

from collections.abc import Iterator

import pytest
from sqlalchemy.engine import Connection

from inventory.matching.candidates import find
from inventory.matching.roads import Roads
from inventory.records import Edge, Lot, Part, Verdict
from inventory.rules.verdict import Wanted
from inventory.store import edges, jobs, journal, lots, parts
from inventory.store.jobs import Job
from inventory.store.journal import Event
from inventory.store.roads import ShelfRoads
from inventory.store.shelf import Shelf

RATINGS = {"resistive_a": 16, "volts_ac": [250], "contact_form": "SPST-NO"}


@pytest.fixture
def written(shelf: Shelf) -> Iterator[Connection]:
    """Three switches with a lot each."""
    made = [
        Part("switch", "16A 250V~", None, "SZM-V16-FA-63", ratings=RATINGS, aliases=("DS-400",)),
        Part("switch", "16A 250V", None, "QX-77", ratings=RATINGS),
        Part("switch", "", None, "SZM-V16-FA-62", ratings={**RATINGS, "contact_form": "SPST-NC"}),
    ]
    with shelf.write() as connection:
        numbers = parts.add(connection, made)
        lots.know_bins(connection, ["A1"])
        lots.add(
            connection,
            [Lot(n, n, 3, 0, "clicks", "A1", "new", logged_at="2026-01-01") for n in numbers],
        )
        yield connection


def test_codes_are_met_letter_for_letter_without_separators(written: Connection) -> None:
    """Type code, marking and alias; a look-alike code is another code."""
    roads = ShelfRoads(written)

    found = roads.by_codes(["SZMV16FA63", "DS400", "16A250V"])

    assert {code: sorted(numbers) for code, numbers in found.items()} == {
        "SZMV16FA63": [1],
        "DS400": [1],
        "16A250V": [1, 2],
    }
    assert roads.by_codes(["SZMVI6FA63", ""]) == {}


def test_edges_are_found_from_both_ends_and_by_a_misspelt_code(written: Connection) -> None:
    """Following decides which way to go; near codes are for a second try."""
    edge = Edge("QX-77", "SZM-V16-FA-63", "supersedes", "list")
    edges.add(written, [edge])
    roads = ShelfRoads(written)

    assert [e.kind for e in roads.edges_of("qx 77")] == ["supersedes"]
    assert [e.kind for e in roads.edges_of("SZMV16FA63")] == ["supersedes"]
    assert roads.near_codes("SZM-V16-FA-6")[0] == "SZM-V16-FA-63"
    assert roads.near_codes("9999") == []


def test_parts_lists_of_a_unit_are_found_with_and_without_its_maker(written: Connection) -> None:
    """By the beginning of the model; the pattern itself is matched afterwards."""
    edges.add(
        written,
        [
            Edge("QX-77", "HM-20##", "fits-unit", "list", place="monitor"),
            Edge("QX-78", "KV-10", "fits-unit", "list", place="monitor"),
            Edge("QX-79", "HM-2000", "listed-alternate", "list"),
        ],
    )
    roads = ShelfRoads(written)

    for unit in ("HM-2015", "Haldwick HM-2015"):
        assert [edge.from_code for edge in roads.unit_edges(unit)] == ["QX-77"]
    assert roads.unit_edges("Z") == []


LISTS = [("*K-20M", True), ("#0x-20", False), ("B?-20M", True), ("_K-20#", False), ("xK-20M", True)]


@pytest.mark.parametrize(("model", "meant"), LISTS)
def test_a_list_whose_model_begins_with_a_wildcard_is_read(
    written: Connection, model: str, *, meant: bool
) -> None:
    """It lies nowhere in the order of the keys; whether it is the unit the search decides."""
    edges.add(written, [Edge("SZM-V16-FA-63", model, "fits-unit", "a list", place="monitor")])
    wanted = Wanted(family="switch", place="monitor", unit="Brenka BK-20M")
    roads = ShelfRoads(written)

    found = find(wanted, roads)
    listed = [
        one
        for one in (*found.stand_ins, *found.refused)
        if any(road.name == "unit" for road in one.roads)
    ]

    assert model in [edge.to_code for edge in roads.unit_edges("Brenka BK-20M")]
    assert bool(listed) is meant


def test_past_jobs_tell_what_kept_working(written: Connection) -> None:
    """Fitted at the place in such a unit; what was taken out again does not count."""
    for number, (outcome, back) in enumerate(
        [("kept-working", 0), ("came-back", 0), ("kept-working", 1), (None, 0)], start=1
    ):
        job = Job(0, "2026-01-01", "oven", "Haldwick", "HM-2015", outcome=outcome)
        assert jobs.add(written, job) == number
        fitted = Event("fitted", 1, 1, number, place="monitor", quantity=-1)
        undone = [Event("put-back", 1, 1, number, place="monitor", quantity=1)] * back
        journal.append(written, [fitted, *undone], bench="north")
    roads = ShelfRoads(written)

    for unit in ("HM-2015", "Haldwick HM 2015"):
        assert roads.fitted_before(unit, "monitor") == [(1, 1, 1)]
    assert roads.fitted_before("Orvane HM-2015", "monitor") == []
    assert roads.fitted_before("HM-2015", "lamp") == []


def test_a_search_over_the_store_joins_the_roads(written: Connection) -> None:
    """The shelf's roads serve the search as the protocol says."""
    edges.add(written, [Edge("QX-77", "SZM-V16-FA-63", "supersedes", "list")])
    roads: Roads = ShelfRoads(written)

    found = find(Wanted("switch", type_code="szm v16 fa 63", ratings=RATINGS), roads)

    assert [(one.part.id, one.verdict) for one in found.stand_ins] == [
        (1, Verdict.SAME),
        (2, Verdict.SAME),
    ]
    assert [one.part.id for one in found.refused] == [3]
