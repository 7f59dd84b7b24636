"""``salvage find`` and ``salvage twins``: measurements, steps, many queries, pairs."""

from __future__ import annotations

import io
import json
from pathlib import Path

import pytest

from tests.cli.calling import call, demo_file, events, new_shelf, own_demo, told

__all__ = ["demo_file", "new_shelf", "own_demo"]

NEEDS = ["find", "--family", "fuse", "--need", "current_a=5", "--need", "volts_ac=250"]
TWIN = ["log", "16A 250V~", "--family", "switch", "--type"]


@pytest.fixture
def fuses(new_shelf: Path) -> Path:
    """A fuse whose speed is not printed, as part type 1."""
    call("log", "5A 250V", "--family", "fuse", "--state", "good", "--bin", "A1")
    return new_shelf


def _ratings(part: int) -> dict[str, object]:
    """The ratings of a part type."""
    found: dict[str, object] = told("show", "--part", str(part))["part"]["ratings"]
    return found


@pytest.mark.usefixtures("fuses")
@pytest.mark.parametrize("named", [["--part", "1"], []])
def test_a_measurement_is_stored_with_the_part_it_is_of(named: list[str]) -> None:
    """The one named, else the one that asks; the search after it knows the figure."""
    said = call(*NEEDS, "--measured", "body=glass", *named)

    assert "Written down for part type 1." in said.err
    assert _ratings(1)["body"] == "glass"


@pytest.mark.usefixtures("fuses")
def test_a_measurement_alone_needs_no_search() -> None:
    """One line; dry, nothing is written."""
    before = events()
    dry = call("find", "--part", "1", "--measured", "body=glass", "--dry-run")
    assert dry.out == "Would write down for part type 1.\n"
    assert "body" not in _ratings(1)
    assert events() == before

    said = call("find", "--part", "1", "--measured", "body=glass")
    assert said.out == "Written down for part type 1.\n"
    assert _ratings(1)["body"] == "glass"


@pytest.mark.usefixtures("fuses")
def test_a_measurement_that_is_of_nothing_is_refused() -> None:
    """Where no part asks, it must be said which one was measured."""
    said = call("find", "QQQQ9999XX", "--measured", "body=glass")

    assert said.code == 2
    assert said.err.endswith("Nothing is asked of any part; say --part NUMBER.\n")


@pytest.mark.usefixtures("own_demo")
def test_the_steps_to_a_lot_are_told_as_json_too() -> None:
    """The same sentences as on the screen."""
    lot = told("find", "DT50-1")["stand_ins"][0]["lots"][0]["lot"]
    row = told("find", "DT50-1", "--why", str(lot))
    screen = call("find", "DT50-1", "--why", str(lot)).out.splitlines()

    assert row["lot"] == lot
    assert screen[0] == f"1. {row['steps'][0]}"
    assert len([line for line in screen if line[:1].isdigit()]) == len(row["steps"])


@pytest.mark.usefixtures("own_demo")
def test_queries_come_through_a_pipe(monkeypatch: pytest.MonkeyPatch) -> None:
    """One object a line; empty lines are passed over."""

    class Piped:
        buffer = io.BytesIO(b"DT50-1\n\n\xffNFD-V16-63\n")

    monkeypatch.setattr("sys.stdin", Piped())
    said = call("find", "--lines", "-", "--json")
    texts = [json.loads(line)["wanted"]["text"] for line in said.out.splitlines()]

    assert said.code == 0, said.err
    assert texts == ["DT50-1", "\ufffdNFD-V16-63"]


@pytest.mark.usefixtures("own_demo")
def test_what_is_refused_is_counted_and_shown_when_asked_for() -> None:
    """With the reason and its source."""
    query = ["find", "NFD-V16-63", "--unit", "Brenka BK-20M", "--place", "primary-interlock"]
    short, full = call(*query), call(*query, "--all", "--limit", "2")
    refused = told(*query, "--all")["refused"]

    assert f"{len(refused)} refused; --all shows them with the reasons." in short.err
    assert "x NO" not in short.out
    assert full.out.count("x NO") == 2
    assert "    no: " in full.out
    assert f"{len(refused) - 2} more are refused." in full.err


@pytest.mark.usefixtures("own_demo")
def test_what_is_known_but_gone_is_named() -> None:
    """So that nobody logs it anew; the exit code says that there is none."""
    lots = told("show", "--part", "42")["lots"]
    assert [lot for lot in lots if lot["on_hand"] > lot["held"]] == []
    said = call("find", "NFD-V16-63")

    assert "Known, but none free here: NFD-V16-63" in said.out


@pytest.mark.usefixtures("new_shelf")
def test_nothing_on_the_shelf_is_said_in_words() -> None:
    """Exit code 1."""
    call("log", "EX-1", "--family", "other")
    said = call("find", "16(4)A 250V~ T85", "--family", "switch")

    assert said.code == 1
    assert "Nothing on the shelf can stand in." in said.out


@pytest.mark.usefixtures("new_shelf")
def test_part_types_that_look_like_one_are_listed_with_the_evidence() -> None:
    """Both names, and why; none is said in words."""
    call(*TWIN, "KST-16P")
    none = call("twins")
    call(*TWIN, "KST-l6P")
    said = call("twins")
    (pair,) = told("twins")

    assert none.out == "No part type looks like another one.\n"
    assert {pair["keep"], pair["drop"]} == {1, 2}
    assert "1 16A 250V~, switch\n" in said.out
    assert "2 16A 250V~, switch\n" in said.out
    assert f"    {pair['evidence'][0]}\n" in said.out


@pytest.mark.usefixtures("new_shelf")
def test_a_dry_merge_asks_nothing_and_changes_nothing() -> None:
    """Which one stays is shown."""
    call(*TWIN, "KST-16P")
    call(*TWIN, "KST-l6P")
    said = call("twins", "--merge", "1", "2", "--dry-run")

    assert said.code == 0
    assert (
        said.out == "Keep 1: 16A 250V~, switch\nDrop 2: 16A 250V~, switch\nWould merge 2 into 1.\n"
    )
    assert told("show", "2")["part"] == 2


@pytest.mark.usefixtures("own_demo")
def test_a_doubt_about_what_was_typed_is_told_before_the_answer() -> None:
    """Warnings of the reading, on stderr, in front of what was found with them."""
    said = call("find", "16(4)A 250V~ T85 T105", "--family", "switch")
    assert "Note: Two different ambient marks" in " ".join(said.err.split())
    assert "Two different" not in said.out
