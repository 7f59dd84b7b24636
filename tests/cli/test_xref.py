"""``salvage xref``: what a source says, added, loaded, listed and followed."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.cli.calling import call, events, new_shelf, told

__all__ = ["new_shelf"]

pytestmark = pytest.mark.usefixtures("new_shelf")


def test_an_edge_is_added_with_all_that_was_said() -> None:
    """Every flag is found again in the list."""
    said = call(
        "xref", "add", "DS-410", "Listed-Alternate", "DS-400", "--source", "label", "--place",
        "monitor", "--date", "2025-03-01", "--confidence", "0.8", "-n", "2", "--serial-from",
        "S1", "--serial-to", "S9", "--note", "with bracket", "--unit", "Brenka BK-20M",
    )  # fmt: skip
    (edge,) = told("xref", "list")

    assert said.code == 0, said.err
    assert said.out.startswith("Added cross-reference 1: DS-410 ")
    assert {name: edge[name] for name in ("kind", "place", "date", "confidence", "quantity")} == {
        "kind": "listed-alternate", "place": "monitor", "date": "2025-03-01", "confidence": 0.8,
        "quantity": 2,
    }  # fmt: skip
    assert (edge["serial_from"], edge["serial_to"], edge["unit"]) == ("S1", "S9", "Brenka BK-20M")


def test_a_number_is_followed_step_by_step_with_its_sources() -> None:
    """Forwards only; the last one leads nowhere."""
    call("xref", "add", "A-3", "supersedes", "A-2", "--source", "list 2025")
    call("xref", "add", "A-2", "supersedes", "A-1", "--source", "list 2020")
    steps = told("xref", "follow", "A-1")
    lines = call("xref", "follow", "A-1").out.splitlines()
    end = call("xref", "follow", "A-3")

    assert len(steps) == len(lines) == 2
    assert "list 2020" in lines[0]
    assert "list 2025" in lines[1]
    assert (end.code, end.out, end.err) == (1, "", "Nothing leads on from A-3.\n")


def test_a_file_of_edges_goes_in_whole_or_not_at_all(tmp_path: Path) -> None:
    """Each bad row is listed with its line."""
    file = tmp_path / "edges.csv"
    file.write_text("from,to,kind,source\nA-1,A-0,supersedes,list\nB-1,B-0,replaces,list\n")
    call("log", "EX-1", "--family", "other")
    bad = call("xref", "load", str(file))
    assert bad.code == 2
    assert "3" in bad.err.splitlines()[0]
    assert "replaces" in bad.err
    assert told("xref", "list") == []

    file.write_text("from,to,kind,source\nA-1,A-0,supersedes,list\nB-1,B-0,supersedes,list\n")
    dry = call("xref", "load", str(file), "--dry-run")
    assert dry.out == "Would load 2 cross-references.\n"
    assert told("xref", "list") == []
    assert call("xref", "load", str(file)).out == "Loaded 2 cross-references.\n"
    assert [edge["from_code"] for edge in told("xref", "list", "B-0")] == ["B-1"]


def test_a_dry_edge_is_shown_and_not_written() -> None:
    """The number it would get."""
    call("log", "EX-1", "--family", "other")
    before = events()
    said = call("xref", "add", "A-1", "supersedes", "A-0", "--source", "list", "--dry-run")

    assert said.out == "Would add cross-reference 1: A-1 supersedes A-0.\n"
    assert (told("xref", "list"), events()) == ([], before)
