"""Looking a shelf over: each kind of disagreement is found, and what is derived is rebuilt."""

from __future__ import annotations

import sqlite3
from contextlib import closing
from pathlib import Path

import pytest

from inventory.errors import Refused, StoreUnusable
from inventory.records import Edge, Part
from inventory.store import edges, jobs, journal, lots, merging, parts
from inventory.store.check import check, repair, rings
from inventory.store.jobs import Job
from inventory.store.journal import Event
from inventory.store.shelf import Shelf, open_shelf
from tests.store.shelves import on_hand, stocked, take


def _said(shelf: Shelf) -> list[str]:
    """What the check is about, finding by finding."""
    return [finding.about for finding in check(shelf)]


def _behind_its_back(path: Path, *statements: str) -> None:
    """Change a shelf file with a database tool, guards taken off."""
    with closing(sqlite3.connect(path)) as raw:
        raw.execute("DROP TRIGGER journal_keeps_its_words")
        raw.execute("DROP TRIGGER journal_keeps_its_rows")
        for statement in statements:
            raw.execute(statement)
        raw.commit()


def test_a_whole_shelf_has_no_findings(tmp_path: Path) -> None:
    """Nothing is said where there is nothing to say."""
    shelf = stocked(tmp_path / "a.shelf")
    take(shelf)

    assert check(shelf) == []


@pytest.mark.parametrize(
    ("statement", "about"),
    [
        ("UPDATE journal SET place = 'monitor' WHERE seq = 2", "journal"),
        ("UPDATE journal SET at = '2001-01-01T00:00:00+00:00' WHERE seq = 2", "times"),
        ("UPDATE journal SET hash = 'f' WHERE seq = 1", "journal"),
        ("DELETE FROM journal WHERE seq = 1", "journal"),
        ("UPDATE lot SET on_hand = 9", "sums"),
        ("UPDATE lot SET held = 1", "sums"),
        ("UPDATE lot SET part_id = 77", "references"),
        ("UPDATE rating SET number = 3", "ratings"),
        ("DELETE FROM rating", "ratings"),
        (
            "INSERT INTO rating (part_id, name, word, slot) VALUES (1, 'reset', 'auto', 0)",
            "ratings",
        ),
    ],
)
def test_a_change_behind_the_shelfs_back_is_found(
    tmp_path: Path, statement: str, about: str
) -> None:
    """One change with a database tool, one kind of finding."""
    shelf = stocked(tmp_path / "a.shelf")
    take(shelf)
    _behind_its_back(tmp_path / "a.shelf", statement)

    assert about in _said(shelf)


def test_a_lost_last_event_is_found_by_the_sums(tmp_path: Path) -> None:
    """The chain cannot know of an end that is cut off; the counts do."""
    shelf = stocked(tmp_path / "a.shelf")
    take(shelf)
    _behind_its_back(tmp_path / "a.shelf", "DELETE FROM journal WHERE seq = 2")

    assert _said(shelf) == ["sums"]


def test_a_damaged_page_is_found(tmp_path: Path) -> None:
    """SQLite's own check comes first; nothing else is believed or mended then."""
    shelf = stocked(tmp_path / "a.shelf")
    shelf.close()
    data = bytearray((tmp_path / "a.shelf").read_bytes())
    data[4096 * 3 : 4096 * 4] = bytes(4096)
    (tmp_path / "a.shelf").write_bytes(data)

    with pytest.raises((StoreUnusable, Refused), match="damaged"):
        repair(open_shelf(str(tmp_path / "a.shelf")))


def test_an_event_in_the_future_is_found(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """A clock that ran ahead for a day pins every later event to that day."""
    shelf = stocked(tmp_path / "a.shelf")
    monkeypatch.setattr(journal, "now", lambda: "2099-01-01T00:00:00.000000+00:00")
    take(shelf)

    assert [one.sentence for one in check(shelf)] == [
        "The last event is dated 2099-01-01: was the clock of this bench ahead?"
    ]


def test_pieces_held_for_a_closed_job_are_found(tmp_path: Path) -> None:
    """The finding says how to let them go."""
    shelf = stocked(tmp_path / "a.shelf")
    with shelf.write() as connection:
        number = jobs.add(connection, Job(0, journal.now(), kind="microwave oven"))
        lots.change(connection, 1, held=2)
        held = Event("held", lot_id=1, part_id=1, job_id=number, held=2)
        journal.append(connection, [held], bench="north")
        jobs.set_values(connection, number, closed_at=journal.now())

    (finding,) = check(shelf)

    assert finding.about == "holds"
    assert "salvage hold 1 --release --quantity 2 --job 1" in finding.sentence


def test_more_released_than_held_is_found(tmp_path: Path) -> None:
    """A job cannot let go of what it does not hold."""
    shelf = stocked(tmp_path / "a.shelf")
    with shelf.write() as connection:
        number = jobs.add(connection, Job(0, journal.now(), kind="microwave oven"))
        events = [
            Event("held", lot_id=1, part_id=1, held=1),
            Event("released", lot_id=1, part_id=1, job_id=number, held=-1),
        ]
        journal.append(connection, events, bench="north")

    assert _said(shelf) == ["holds"]


def test_cross_references_in_a_circle_are_found(tmp_path: Path) -> None:
    """However the codes are written; who stands in both ways round is no circle."""
    shelf = stocked(tmp_path / "a.shelf")
    with shelf.write() as connection:
        edges.add(
            connection,
            [
                Edge("AB-1", "CD-2", "superseded-by", "list"),
                Edge("CD2", "EF-3", "superseded-by", "list"),
                Edge("EF 3", "ab1", "superseded-by", "list"),
                Edge("GH-1", "GH-2", "other-number", "list"),
                Edge("GH-2", "GH-1", "other-number", "list"),
            ],
        )

    assert [one.sentence for one in check(shelf)] == [
        "Cross-references run in a circle: AB1 -> CD2 -> EF3 -> AB1."
    ]


def test_a_chain_of_ten_thousand_codes_is_walked() -> None:
    """Long chains end in an answer, not in a recursion error."""
    following = {f"{n:05}": {f"{n + 1:05}"} for n in range(10_000)}

    assert rings(following) == []
    assert len(rings({**following, "10000": {"00000"}})[0]) == 10_001


@pytest.mark.parametrize(
    "spoil",
    [
        "UPDATE lot SET on_hand = 9",
        "DELETE FROM rating",
        "UPDATE rating SET number = 3",
        "INSERT INTO rating (part_id, name, word, slot) VALUES (1, 'reset', 'auto', 0)",
    ],
)
def test_what_is_derived_is_rebuilt(tmp_path: Path, spoil: str) -> None:
    """After the repair nothing is found, and the counts are those of the journal."""
    shelf = stocked(tmp_path / "a.shelf")
    take(shelf)
    with shelf.write() as connection:
        connection.exec_driver_sql(spoil)

    mended = repair(shelf)

    assert mended
    assert check(shelf) == []
    assert on_hand(shelf) == 4


def test_a_dry_repair_changes_nothing(tmp_path: Path) -> None:
    """It says what it would mend."""
    shelf = stocked(tmp_path / "a.shelf")
    with shelf.write() as connection:
        connection.exec_driver_sql("UPDATE lot SET on_hand = 9")

    assert [one.about for one in repair(shelf, dry_run=True)] == ["sums"]
    assert on_hand(shelf) == 9


def test_what_was_said_is_never_mended(tmp_path: Path) -> None:
    """A broken chain stays to be seen; repairing would hide it."""
    shelf = stocked(tmp_path / "a.shelf")
    _behind_its_back(tmp_path / "a.shelf", "UPDATE journal SET bench = 'other'")

    assert repair(shelf) == []
    assert _said(shelf) == ["journal"]


def test_sums_that_cannot_be_are_not_written(tmp_path: Path) -> None:
    """A journal that adds up to less than nothing is a finding to look at by hand."""
    shelf = stocked(tmp_path / "a.shelf")
    with shelf.write() as connection:
        journal.append(
            connection, [Event("fitted", lot_id=1, part_id=1, quantity=-9)], bench="north"
        )

    assert [(one.about, one.mendable) for one in check(shelf)] == [("sums", False)]
    assert repair(shelf) == []
    assert on_hand(shelf) == 5


def test_damaged_pages_are_not_repaired(tmp_path: Path) -> None:
    """They need a backup, and the sentence says so."""
    shelf = stocked(tmp_path / "a.shelf")
    with shelf.write() as connection:
        for n in range(2000):
            connection.exec_driver_sql("INSERT INTO setting VALUES (?, 'x')", (f"n{n}",))
    _damage_an_index(tmp_path / "a.shelf")

    with pytest.raises((Refused, StoreUnusable), match="damaged"):
        repair(open_shelf(str(tmp_path / "a.shelf")))


def _damage_an_index(path: Path) -> None:
    """Let an index point at other rows than its table has."""
    with closing(sqlite3.connect(path)) as raw:
        raw.execute("PRAGMA journal_mode=DELETE")
        (page,) = raw.execute(
            "SELECT rootpage FROM sqlite_master WHERE name = 'sqlite_autoindex_setting_1'"
        ).fetchone()
    data = bytearray(path.read_bytes())
    data[(page - 1) * 4096 : (page - 1) * 4096 + 200] = bytes(200)
    path.write_bytes(data)


def test_a_measured_value_files_the_part_type_under_it(tmp_path: Path) -> None:
    """What was measured later replaces what was read, in the rows a need is searched by."""
    shelf = stocked(tmp_path / "a.shelf")
    with shelf.write() as connection:
        parts.measure(connection, 1, "resistive_a", 10, "north")
        parts.measure(connection, 1, "body", "slim", "north")
        rows = connection.exec_driver_sql(
            "SELECT name, number, word FROM rating ORDER BY name"
        ).fetchall()

    assert [tuple(row) for row in rows] == [("body", None, "slim"), ("resistive_a", 10.0, None)]
    assert check(shelf) == []


def test_merged_part_types_are_filed_once(tmp_path: Path) -> None:
    """The one that became another keeps no rows of its own; what was measured on it moves."""
    shelf = stocked(tmp_path / "a.shelf")
    with shelf.write() as connection:
        (other,) = parts.add(connection, [Part("other", "EX 1", ratings={"resistive_a": 16})])
        parts.measure(connection, other, "body", "slim", "north")
        merging.merge(connection, 1, other)

    assert check(shelf) == []
    with shelf.read() as connection:
        assert parts.get(connection, 1).ratings == {"resistive_a": 16, "body": "slim"}
