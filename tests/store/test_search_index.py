"""The text index is kept as rows come in, finds misspelt codes and reads few rows for it."""

from __future__ import annotations

import random
import subprocess
import sys
from collections.abc import Iterator
from typing import Any

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from sqlalchemy import create_engine, text
from sqlalchemy.engine import Connection
from sqlalchemy.pool import StaticPool

from inventory.matching.seeds import key_of
from inventory.records import Edge, Part
from inventory.store import edges, merging, parts, search_index
from inventory.store.asking import Asking
from inventory.store.search_tables import create_search_tables
from inventory.store.shelf import Shelf
from tests.benchmarks.search_corpus import invented
from tests.benchmarks.search_errors import queries

CODES = ("SZM-V16-FA-63", "SZM-V16-FA-62", "DE59-00002A", "WB27X10930", "V16", "D4", "T5AL250V")


@pytest.fixture
def index() -> Iterator[Connection]:
    """A text index by itself, in memory."""
    engine = create_engine("sqlite://", poolclass=StaticPool)
    with engine.begin() as connection:
        create_search_tables(connection)
        yield connection
    engine.dispose()


@pytest.fixture
def filled(index: Connection) -> Connection:
    """An index of a few codes; the part number is the place in ``CODES``."""
    search_index.add(index, enumerate(CODES, start=1))
    return index


def _found(connection: Connection, query: str, **options: Any) -> list[str]:
    """The texts found, likeliest first."""
    return [hit.text for hit in search_index.search(connection, query, **options)]


@pytest.mark.parametrize(
    ("query", "meant"),
    [
        ("SZMV16FA63", "SZM-V16-FA-63"),
        ("szm v16 fa 36", "SZM-V16-FA-63"),
        ("5ZM-VI6-FA-63", "SZM-V16-FA-63"),
        ("SZM-V16-FA6", "SZM-V16-FA-63"),
        ("DE590002A", "DE59-00002A"),
        ("Teldrix DE59 00002A switch", "DE59-00002A"),
        ("WB2X710930", "WB27X10930"),
        ("V61", "V16"),
        ("VV16", "V16"),
        ("D4", "D4"),
        ("4", "D4"),
        ("T 5A L 250V", "T5AL250V"),
        ("ТSAL25OV", "T5AL250V"),
    ],
)
def test_a_misspelt_code_is_found_first(filled: Connection, query: str, meant: str) -> None:
    """Look-alikes, lost hyphens, swaps, missed signs, cut ends, makers' names, short codes."""
    assert _found(filled, query)[0] in {meant, "SZM-V16-FA-62"}
    assert meant in _found(filled, query)[:2]


def test_the_code_itself_scores_one(filled: Connection) -> None:
    """Nothing typed wrong."""
    (best, *_) = search_index.search(filled, "DE59-00002A")

    assert best == search_index.Hit(3, "DE59-00002A", 1.0)


def test_a_query_without_a_sign_finds_nothing(filled: Connection) -> None:
    """Neither letters nor digits."""
    assert search_index.search(filled, " -- ") == []
    assert search_index.search(filled, "") == []


def test_one_text_of_many_part_types_is_held_once(index: Connection) -> None:
    """Ten thousand switches marked 16A 250V~ do not crowd out their neighbours."""
    search_index.add(index, ((number, "16A 250V~") for number in range(1, 301)))
    search_index.add(index, [(999, "16A 250V~ T125")])

    assert index.execute(text("SELECT COUNT(*) FROM search_text")).scalar() == 2
    assert search_index.search(index, "16A 250V T125")[0].part_id == 999
    assert len(search_index.search(index, "16A 250V~", limit=50)) == 50


def test_a_part_type_comes_once_with_its_likest_text(index: Connection) -> None:
    """Type code and alias of one part are one hit."""
    search_index.add(index, [(1, "SZM-V16"), (1, "SZM-V16-FA"), (2, "SZM-V18")])

    hits = search_index.search(index, "SZM V16 FA")

    assert [hit.part_id for hit in hits] == [1, 2]
    assert hits[0].text == "SZM-V16-FA"


def test_a_very_common_prefix_hides_nothing(index: Connection) -> None:
    """Five thousand codes of one series: the misspelt one still comes first."""
    search_index.add(index, ((n, f"WB27X{10_000 + n}") for n in range(1, 5001)))

    assert _found(index, "WB27X1 3O7I")[0] == "WB27X13071"
    assert _found(index, "WB27X31071")[0] == "WB27X13071"


def test_removed_and_merged_part_types_are_no_longer_found(filled: Connection) -> None:
    """What nobody carries leaves the index; what two carried stays with the other."""
    search_index.add(filled, [(50, "V16")])
    search_index.remove(filled, 3)
    search_index.replace(filled, 5, 50)

    assert "DE59-00002A" not in _found(filled, "DE59-00002A")
    assert [hit.part_id for hit in search_index.search(filled, "V16", limit=1)] == [50]
    assert not _seeds_of_nothing(filled)


def _seeds_of_nothing(connection: Connection) -> int:
    """Places of the index that lead to no text."""
    lost = "SELECT COUNT(*) FROM search_seed WHERE text_id NOT IN (SELECT id FROM search_text)"
    return int(connection.execute(text(lost)).scalar_one())


def test_a_raw_driver_connection_will_do_and_gives_the_same(filled: Connection) -> None:
    """A search starts without SQLAlchemy where it has to be quick."""
    raw = filled.connection.driver_connection

    assert search_index.search(raw, "SZMV16FA63") == search_index.search(filled, "SZMV16FA63")  # type: ignore[arg-type]


def test_other_databases_are_asked_through_sqlalchemy(
    filled: Connection, monkeypatch: pytest.MonkeyPatch
) -> None:
    """The portable way writes and reads the same rows: named values, ON CONFLICT, no driver."""
    quick = search_index.search(filled, "SZMV16FA63")

    class Portable(Asking):
        """Asking as on a database server."""

        def __init__(self, connection: Any) -> None:
            super().__init__(connection)
            self.portable, self._connection = True, connection

    monkeypatch.setattr("inventory.store.search_index.Asking", Portable)
    monkeypatch.setattr("inventory.store.search_rows.Asking", Portable)
    search_index.add(filled, [(60, "SZM-V16-FA-99"), (1, "SZM-V16-FA-63")])
    search_index.remove(filled, 60)

    assert search_index.search(filled, "SZMV16FA63") == quick


# in the store -----------------------------------------------------------------------


def test_part_types_and_cross_references_are_filed_as_they_are_written(shelf: Shelf) -> None:
    """Type code, marking, aliases; codes of edges by themselves. Nothing else is needed."""
    with shelf.write() as connection:
        made = Part("switch", "16A 250V~", type_code="SZM-V16", aliases=("DE59-00002A",))
        (number,) = parts.add(connection, [made])
        edges.add(connection, [Edge("DS-410", "DS-400", "supersedes", "list")])

        for query in ("SZMV16", "16 A 250 V", "DE59 00002A"):
            assert search_index.search(connection, query)[0].part_id == number
        assert search_index.search_codes(connection, "DS 41O")[0].text == "DS-410"
        assert "DS-410" not in _found(connection, "DS-410")
        assert search_index.check(connection) == []


def test_a_family_can_be_asked_for(shelf: Shelf) -> None:
    """Only part types of that family, however near the others are."""
    with shelf.write() as connection:
        parts.add(connection, [Part("fuse", "T5A"), Part("switch", "T5AB")])

        assert _found(connection, "T5A", family="switch") == ["T5AB"]


def test_a_code_no_edge_knows_any_more_leaves_the_index(shelf: Shelf) -> None:
    """Undoing a cross-reference takes its codes back, unless another one names them."""
    with shelf.write() as connection:
        first, _ = edges.add(
            connection,
            [
                Edge("DS-410", "DS-400", "supersedes", "list"),
                Edge("DS-410", "DS-390", "supersedes", "list"),
            ],
        )
        edges.remove(connection, [first])

        found = {hit.text for hit in search_index.search_codes(connection, "DS-400")}
        assert found == {"DS-410", "DS-390"}
        assert search_index.check(connection) == []


def test_merging_and_taking_apart_again_keep_the_index_right(shelf: Shelf) -> None:
    """The codes of both lead to the one that stays, and back."""
    with shelf.write() as connection:
        keep, drop = parts.add(connection, [Part("switch", "A-16"), Part("switch", "A 16 X")])
        moved = merging.merge(connection, keep, drop)
        assert {hit.part_id for hit in search_index.search(connection, "A16X")} == {keep}
        assert search_index.check(connection) == []

        merging.unmerge(connection, keep, drop, moved)
        assert search_index.search(connection, "A 16 X")[0].part_id == drop
        assert search_index.check(connection) == []


SPOILED = {
    "does not lead from 'V16'": "DELETE FROM search_part WHERE part_id = 1",
    "in the wrong places": "DELETE FROM search_seed WHERE seed = 0",
    "places too many": "INSERT INTO search_seed (seed, key, text_id) VALUES (0, 'ZZ', 1)",
    "which lacks it": "INSERT INTO search_part (text_id, part_id) VALUES (1, 77)",
    "which no part type carries": "INSERT INTO search_text (id, text) VALUES (99, 'LOST')",
    "that is not there": "INSERT INTO search_part (text_id, part_id) VALUES (1, 0)",
}


@pytest.mark.parametrize("said", SPOILED)
def test_an_index_that_does_not_agree_is_told_and_made_anew(shelf: Shelf, said: str) -> None:
    """``check`` names each kind of fault in a sentence; ``rebuild`` mends it."""
    with shelf.write() as connection:
        parts.add(connection, [Part("switch", "V16"), Part("switch", "D4")])
        edges.add(connection, [Edge("DS-410", "DS-400", "supersedes", "list")])
        connection.execute(text(SPOILED[said]))

        assert any(said in sentence for sentence in search_index.check(connection))
        search_index.rebuild(connection)
        assert search_index.check(connection) == []
        assert _found(connection, "V16")[0] == "V16"


# the claims -----------------------------------------------------------------------


def test_every_statement_of_a_search_goes_by_index(filled: Connection) -> None:
    """No table is scanned, whatever its size."""
    statements: list[str] = []
    raw: Any = filled.connection.driver_connection
    raw.set_trace_callback(statements.append)
    search_index.search(filled, "Teldrix SZM V16")
    raw.set_trace_callback(None)

    plans = {row[3] for sql in set(statements) for row in raw.execute(f"EXPLAIN QUERY PLAN {sql}")}
    assert len(statements) > 50
    assert all(plan.startswith("SEARCH") for plan in plans)


def test_a_search_of_a_larger_index_reads_no_more_than_a_bounded_number_of_rows(
    index: Connection, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Work per query does not grow with the shelf: statements and rows have a limit."""
    search_index.add(index, enumerate(invented(20_000), start=1))
    rows = []
    asked = Asking.rows

    class Counting(Asking):
        """Counts the rows that a search is given."""

        def rows(self, statement: str, values: Any = ()) -> list[Any]:
            found = list(asked(self, statement, values))
            rows.append(len(found))
            return found

    monkeypatch.setattr("inventory.store.search_index.Asking", Counting)
    search_index.search(index, "QK31-40217X")

    assert len(rows) < 400
    assert sum(rows) < 3000


def test_misspelt_codes_are_found_among_three_thousand(index: Connection) -> None:
    """Of 300 spoiled queries nine in ten come first and nineteen in twenty among five.

    The brute-force peer and larger sizes: tests/benchmarks/search_bench.py.
    """
    texts = list(invented(3_000))
    search_index.add(index, enumerate(texts))
    places = []
    for query in queries(texts, 300, seed=11):
        hits = [hit.part_id for hit in search_index.search(index, query.typed, 5)]
        places.append(hits.index(query.meant) if query.meant in hits else 99)

    assert sum(place == 0 for place in places) >= 0.9 * len(places)
    assert sum(place < 5 for place in places) >= 0.95 * len(places)


def test_a_search_imports_neither_sqlmodel_nor_numpy() -> None:
    """A cold start pays for what it uses; not even SQLAlchemy is needed on a raw connection."""
    code = (
        "import sys, inventory.store.search_index;"
        "print([m for m in ('sqlmodel', 'pydantic', 'numpy', 'sqlalchemy') if m in sys.modules])"
    )
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)

    assert done.stdout.strip() == "[]"


TEXTS = st.text(st.characters(codec="utf-8", exclude_characters="\x00"), max_size=40)


@settings(
    max_examples=60, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture]
)
@given(st.lists(TEXTS, max_size=8), TEXTS, st.integers())
def test_any_texts_can_be_filed_searched_and_taken_out(
    index: Connection, stored: list[str], query: str, seed: int
) -> None:
    """No Unicode text raises; a stored text finds itself; after taking all out nothing is left."""
    search_index.add(index, enumerate(stored, start=1))
    search_index.search(index, query)
    for number, words in enumerate(stored, start=1):
        if key_of(words):
            assert number in {hit.part_id for hit in search_index.search(index, words)}
    order = list(range(1, len(stored) + 1))
    random.Random(seed).shuffle(order)
    for number in order:
        search_index.remove(index, number)

    for table in ("search_seed", "search_text", "search_part"):
        rows = index.execute(text(f"SELECT COUNT(*) FROM {table}"))  # noqa: S608
        assert rows.scalar() == 0
