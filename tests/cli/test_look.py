"""``salvage show / history / where``: pages that say what their JSON says."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.cli.calling import call, new_shelf, told

__all__ = ["new_shelf"]

pytestmark = pytest.mark.usefixtures("shop")


@pytest.fixture
def shop(new_shelf: Path) -> Path:
    """Unit U1 with a switch as lot 1, four new fuses as lot 2, and a cross-reference."""
    call(
        "strip", "U1", "--kind", "oven", "--maker", "Brenka", "--model", "BK-20M", "--serial",
        "S-7", "--why", "magnetron worn out", "--arrived", "2026-03-31", "--gone",
        "--piece", "switch|16(4)A 250V~ T85 5E4|A1",
    )  # fmt: skip
    call(
        "log", "T5AL250V", "--family", "fuse", "--maker", "Kestwin", "--type", "KF-5", "--bin",
        "B1", "-n", "4", "--price", "0.50", "--note", "box", "--also", "F-5", "--state", "good",
        "--description", "glass",
    )  # fmt: skip
    call("xref", "add", "KF-5", "supersedes", "KF-4", "--source", "maker's list")
    return new_shelf


def test_a_lot_tells_where_it_lies_and_where_it_came_from() -> None:
    """Free is on hand less held; the price as money."""
    call("hold", "2", "-n", "1")
    fuse, switch = call("show", "2").out, call("show", "1").out

    assert fuse.startswith("Lot 2: T5AL250V\n4 on hand, 1 held, 3 free; good\nBin: B1 ")
    assert "Price: 0.50\n" in fuse
    assert "Note: box\n" in fuse
    assert "Origin: salvaged, from U1 " in switch


def test_the_tests_of_a_lot_stand_on_its_page() -> None:
    """What was measured with its unit; words where there is no figure."""
    call("bench", "1", "--rest", "OL", "--pressed", "0.05", "--clicks")
    page = call("show", "1").out
    (test,) = told("show", "1")["tests"]

    assert f"Test {test['at'][:10]}: {test['state']} by {test['judged_by']}\n" in page
    assert "  pressed_ohm: 0.05\n" in page
    assert "  rest_ohm: OL\n" in page
    assert "  clicks: yes\n" in page


def test_a_part_type_lists_its_lots_and_who_stands_in() -> None:
    """Its other names, and each edge with its source."""
    page = call("show", "--part", "2").out

    for line in ("Family: fuse", "Maker: Kestwin", "Also: F-5", "Type: KF-5", "Text: glass"):
        assert f"{line}\n" in page
    assert "KF-5 -> KF-4: supersedes [maker's list]\n" in page
    assert told("show", "--part", "2")["lots"][0]["bin"] == "B1"
    call("scrap", "2", "-n", "4")
    assert "On hand" not in call("show", "--part", "2").out


def test_a_unit_tells_what_was_pulled_from_it() -> None:
    """And whether more can be."""
    page = call("show", "--unit", "U1").out

    assert page.startswith("Unit U1: oven Brenka BK-20M\nSerial: S-7\nScrapped: magnetron worn")
    assert "Arrived: 2026-03-31\nNo longer in the yard.\n" in page
    assert "16(4)A 250V~ T85 5E4" in page


@pytest.mark.parametrize(
    ("words", "kinds"),
    [
        (["1"], ["logged"]),
        (["--part", "2"], ["logged"]),
        (["--unit", "U1"], ["unit-logged", "logged"]),
        (["--job", "1"], ["job-opened", "held"]),
        (["--limit", "2"], ["job-opened", "held"]),
    ],
)
def test_a_journal_is_that_of_its_subject(words: list[str], kinds: list[str]) -> None:
    """Oldest first where it is about something; the screen has the lines of the JSON."""
    call("job", "open", "--kind", "oven")
    call("hold", "1", "--job", "1")
    rows = told("history", *words)
    listed = [row["kind"] for row in sorted(rows, key=lambda row: row["seq"])]

    assert [kind for kind in listed if kind in kinds][-len(kinds) :] == kinds
    screen = call("history", *words).out.splitlines()[2:]
    assert [line.split()[3] for line in screen] == [row["kind"] for row in rows]


def test_stock_and_holds_have_their_signs() -> None:
    """What came is plus, what went is minus."""
    call("hold", "2")
    call("fit", "2", "-n", "2")
    out = call("history", "2").out

    assert "+4" in out
    assert "-2" in out
    assert "+1" in out


def test_a_bin_tells_what_lies_in_it() -> None:
    """All bins with their sums, one bin with its lots, an empty one in words."""
    assert told("where") == [
        {"bin": "A1", "lots": 1, "pieces": 1},
        {"bin": "B1", "lots": 1, "pieces": 4},
    ]
    assert "KF-5" in call("where", "B1").out or "T5AL250V" in call("where", "B1").out
    assert [row["lot"] for row in told("where", "B1")] == [2]
    call("move", "1", "B1")
    empty = call("where", "A1")
    assert (empty.code, empty.out, empty.err) == (0, "", "Bin A1 is empty.\n")
