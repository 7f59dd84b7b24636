"""Cross-references: added, loaded from a file, listed, followed."""

from __future__ import annotations

from pathlib import Path

import pytest

from inventory.bench import xref
from inventory.bench.files import LoadRefused
from inventory.errors import WrongInput
from inventory.records import Edge
from inventory.store.shelf import Shelf

EDGE = Edge("DS-410", "DS-400", "supersedes", "maker's list 2025")


@pytest.mark.parametrize(
    ("wrong", "sentence"),
    [
        ({"from_code": " "}, "'from'"),
        ({"to_code": ""}, "'to'"),
        ({"source": ""}, "'source'"),
        ({"kind": "superseeds"}, "Did you mean supersedes"),
        ({"confidence": 1.5}, "confidence is 0 to 1"),
        ({"quantity": 0}, "quantity must be at least 1"),
        ({"place": "moniter"}, "Did you mean .monitor"),
        ({"from_code": "A\0"}, "NUL"),
    ],
)
def test_an_edge_that_makes_no_sense_is_refused(
    shelf: Shelf, wrong: dict[str, object], sentence: str
) -> None:
    """None of the call is written."""
    from dataclasses import replace

    with pytest.raises(WrongInput, match=sentence):
        xref.add_edges(shelf, [EDGE, replace(EDGE, **wrong)])  # type: ignore[arg-type]
    assert xref.list_edges(shelf, None) == []


def test_a_place_in_other_words_is_the_place(shelf: Shelf) -> None:
    """``monitor switch`` is the monitor."""
    xref.add_edges(shelf, [Edge("A1", "A2", "listed-alternate", "label", place="monitor switch")])
    assert xref.list_edges(shelf, None)[0].place == "monitor"


def test_edges_are_listed_by_either_end(shelf: Shelf) -> None:
    """However the code is written; an edge to itself would be listed once."""
    xref.add_edges(shelf, [EDGE, Edge("XX-1", "XX-2", "other-number", "bag")])
    for code in ("DS-410", "ds 400"):
        assert [edge.to_code for edge in xref.list_edges(shelf, code)] == ["DS-400"]
    assert xref.list_edges(shelf, "nothing") == []


def test_a_chain_is_followed_forwards_with_its_sources(shelf: Shelf) -> None:
    """From the old number to the newest; never back."""
    xref.add_edges(shelf, [EDGE, Edge("DS-420", "DS-410", "supersedes", "list 2026")])
    assert [step.code for step in xref.follow(shelf, "DS-400")] == ["DS-410", "DS-420"]
    assert xref.follow(shelf, "DS-420") == []


def test_a_file_of_edges_comes_in_with_all_its_columns(shelf: Shelf, tmp_path: Path) -> None:
    """Decimal commas and semicolons, as a spreadsheet of the trade writes them."""
    path = tmp_path / "alternates.csv"
    path.write_text(
        "from;to;kind;source;place;confidence;quantity;unit;date\n"
        "KA-1;KA-2;listed-alternate;label in the unit;monitor;0,8;2;Brenka BK-20M;2021-03-01\n",
        encoding="utf-8",
    )
    xref.add_edges(shelf, xref.edges_of_file(path))
    (edge,) = xref.list_edges(shelf, None)
    assert (edge.place, edge.confidence, edge.quantity) == ("monitor", 0.8, 2)
    assert (edge.unit, edge.date, edge.note) == ("Brenka BK-20M", "2021-03-01", None)


def test_every_bad_row_of_a_file_is_named(tmp_path: Path) -> None:
    """With its line; the good rows do not come in either."""
    path = tmp_path / "alternates.csv"
    path.write_text(
        "from,to,kind,source,confidence\nA1,A2,supersedes,me,\nA1,A2,superseeds,me,\n"
        "A1,,supersedes,me,\nA1,A2,supersedes,me,often\n",
        encoding="utf-8",
    )
    with pytest.raises(LoadRefused, match="3 rows are not understood") as caught:
        xref.edges_of_file(path)
    assert [trouble.line for trouble in caught.value.troubles] == [3, 4, 5]


def test_a_mistyped_column_is_named(tmp_path: Path) -> None:
    """What stands in it would be lost."""
    path = tmp_path / "alternates.csv"
    path.write_text("from,to,kind,sorce\nA1,A2,supersedes,me\n", encoding="utf-8")
    with pytest.raises(LoadRefused) as caught:
        xref.edges_of_file(path)
    assert "Did you mean source" in caught.value.troubles[0].expected


def test_a_dry_run_numbers_and_writes_nothing(shelf: Shelf) -> None:
    """The number it would get."""
    assert xref.add_edges(shelf, [EDGE], dry_run=True) == [1]
    assert xref.list_edges(shelf, None) == []
