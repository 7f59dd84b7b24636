"""The shelf out and in again: nothing is lost, and no spreadsheet runs what stands in a cell."""

from __future__ import annotations

import csv
import io
import json
from pathlib import Path
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as some

from inventory.bench import dumps, jobs, moves, orders
from inventory.bench.find import measured
from inventory.bench.loading import load
from inventory.bench.log import Piece
from inventory.bench.low import low, set_figure
from inventory.bench.merging import merge
from inventory.bench.testing import bench_test
from inventory.bench.undo import undo
from inventory.bench.xref import add_edges
from inventory.errors import InventoryError, Refused, WrongInput
from inventory.records import Edge
from inventory.store import lots, parts, units, whole
from inventory.store.check import check
from inventory.store.files import from_spreadsheet, rows_of, spreadsheet_safe, write_csv
from inventory.store.release import SCHEMA_VERSION
from inventory.store.shelf import Shelf, open_shelf
from tests.bench.shop import SWITCH, job, lot, repair, unit

FORMULA = ("=", "+", "-", "@", "\t")
"""What begins a formula, or hides one. Source: OWASP, CSV Injection."""


def _lived_in(shelf: Shelf) -> None:
    """A shelf on which everything happened that writes to a table of its own."""
    salvaged = Piece(SWITCH, family="switch", history="dead magnetron", note="=1+1\n;@x")
    (pulled,) = unit(shelf, "U1", salvaged, maker="Brenka", model="BK-20M", why_scrapped="rust")
    taken = lot(shelf, quantity=5, price_cents=450, supplier_no="-77", aliases=("OLD-1",))
    other = lot(shelf, "10A 250V~", type_code="KLM-77")
    bench_test(shelf, pulled, {"rest_ohm": "OL", "pressed_ohm": 0.05}, instrument="meter 2")
    measured(shelf, 1, {"actuator": "roller"})
    number = repair(shelf, taken)
    jobs.set_outcome(shelf, number, "came-back", failed_lot=taken)
    moves.hold(shelf, taken, job=job(shelf, customer="M. Łukasz", plate={"watts": 800}))
    jobs.record_readings(shelf, 2, {"leakage_mw_cm2": 0.4}, "us")
    orders.order(shelf, 2, 3)
    orders.keep_at_least(shelf, 2, 4)
    set_figure(shelf, "lead_time_months", "2")
    add_edges(shelf, [Edge("KLM-77", "QX-1", "supersedes", "list", confidence=0.5)])
    merge(shelf, 1, 2)
    moves.scrap(shelf, other)
    undo(shelf)


def _rows(shelf: Shelf) -> dict[str, list[dict[str, Any]]]:
    """Every row of every table."""
    with shelf.read() as connection:
        return {name: list(whole.rows_of_table(connection, name)) for name in whole.TABLES}


def _other(folder: Path) -> Shelf:
    """An empty shelf to load into."""
    return open_shelf(str(folder / "other.shelf"), create=True)


def test_a_shelf_that_was_lived_in_comes_back_whole(shelf: Shelf, tmp_path: Path) -> None:
    """Every row of every table, the reports, and the chain of the journal."""
    _lived_in(shelf)
    path, other, said = tmp_path / "all.json", _other(tmp_path), list[int]()
    count = dumps.dump_json(shelf, path, progress=said.append)

    loaded = dumps.load_dump(other, path)

    assert dumps.is_dump(path)
    assert count == dumps.size(shelf) == sum(loaded.values()) == dumps.size(other)
    ids = {"rating": "id"}  # derived rows are built anew and numbered anew
    before, after = _rows(shelf), _rows(other)
    for name in whole.TABLES:
        drop = ids.get(name)
        assert [{k: v for k, v in row.items() if k != drop} for row in after[name]] == [
            {k: v for k, v in row.items() if k != drop} for row in before[name]
        ], name
    assert all(before[name] for name in whole.TABLES if name != "loaded_file")
    assert low(other).lines == low(shelf).lines
    assert check(other) == []
    other.close()


def test_a_dry_dump_and_a_dry_load_write_nothing(shelf: Shelf, tmp_path: Path) -> None:
    """They tell how much it would be."""
    lot(shelf)
    path, table, other = tmp_path / "a.json", tmp_path / "a.csv", _other(tmp_path)
    assert dumps.dump_json(shelf, path, dry_run=True) == dumps.size(shelf)
    assert dumps.dump_csv(shelf, table, dry_run=True) == 1
    assert not path.exists()
    assert not table.exists()
    dumps.dump_json(shelf, path)
    assert dumps.load_dump(other, path, dry_run=True)["lot"] == 1
    assert dumps.size(other) == 0
    other.close()


def test_a_dump_goes_into_an_empty_shelf_only(shelf: Shelf, tmp_path: Path) -> None:
    """Two shelves are not mixed: their numbers mean different lots."""
    lot(shelf)
    dumps.dump_json(shelf, tmp_path / "a.json")
    with pytest.raises(Refused, match="empty shelf only"):
        dumps.load_dump(shelf, tmp_path / "a.json")


@pytest.mark.parametrize(
    ("document", "said"),
    [
        ([], "not a dump"),
        ({"salvage_dump": 1, "tables": []}, "not a dump"),
        ({"salvage_dump": 999, "tables": {}}, "another schema"),
        ({"tables": {}}, "another schema"),
        ({"salvage_dump": None, "tables": {"purse": []}}, "unknown table 'purse'"),
        ({"salvage_dump": None, "tables": {"lot": {}}}, "'lot' is not a list"),
        ({"salvage_dump": None, "tables": {"lot": [1]}}, "'lot' is not a list"),
    ],
)
def test_what_is_no_dump_is_refused(tmp_path: Path, document: Any, said: str) -> None:
    """One sentence, and the shelf stays empty."""
    if isinstance(document, dict) and document.get("salvage_dump", 1) is None:
        document["salvage_dump"] = SCHEMA_VERSION
    path, other = tmp_path / "a.json", _other(tmp_path)
    path.write_text(json.dumps(document), encoding="utf-8")
    with pytest.raises(WrongInput, match=said):
        dumps.load_dump(other, path)
    assert dumps.size(other) == 0
    other.close()


def test_a_dump_with_a_date_that_is_none_is_refused(shelf: Shelf, tmp_path: Path) -> None:
    """It would be a damaged shelf from its first day."""
    lot(shelf)
    path, other = tmp_path / "a.json", _other(tmp_path)
    dumps.dump_json(shelf, path)
    text = path.read_text(encoding="utf-8")
    path.write_text(text.replace('"logged_at": "20', '"logged_at": "2O'), encoding="utf-8")
    with pytest.raises(WrongInput, match=r"Row 1 of lot is dated '2O.*no time"):
        dumps.load_dump(other, path)
    assert dumps.size(other) == 0
    other.close()


def _seen(shelf: Shelf) -> list[tuple[Any, ...]]:
    """All that a table of lots can say."""
    with shelf.read() as connection:
        there = lots.where(connection, "on_hand > 0")
        known = parts.many(connection, {one.part_id for one in there})
        labels = {one.id: one.label for one in units.where(connection)}
    return [
        (part.family, part.maker, part.type_code, part.marking, part.description, part.aliases,
         dict(part.ratings), one.on_hand, one.state, one.bin, one.origin, one.note, one.history,
         labels.get(one.source_unit or 0), one.price_cents, one.supplier_no)
        for one in there
        for part in [known[one.part_id]]
    ]  # fmt: skip


def test_a_table_of_lots_comes_back_as_it_was(shelf: Shelf, tmp_path: Path) -> None:
    """What the person agreed or measured too, and notes that look like formulas."""
    _lived_in(shelf)
    lot(shelf, "'=5A", family="other", note="'-40", state="untested", ratings={"colour": " red"})
    lot(shelf, "x;=cmd|' /C calc'!A0", family="other", state="untested", ratings={"code": "007"})
    path, other = tmp_path / "lots.csv", _other(tmp_path)
    assert dumps.dump_csv(shelf, path) == len(_seen(shelf))

    load(other, path)

    assert _seen(other) == _seen(shelf)
    other.close()


def test_nothing_on_the_shelf_is_a_table_with_a_head_alone(shelf: Shelf, tmp_path: Path) -> None:
    """Loading it says that it holds no rows."""
    assert dumps.dump_csv(shelf, tmp_path / "a.csv") == 0
    with pytest.raises(InventoryError, match="no rows"):
        load(shelf, tmp_path / "a.csv")


# in a spreadsheet -------------------------------------------------------------------------

NASTY = some.text(some.sampled_from("=+-@;|,\t\r\n\"' aß1"), max_size=12)


def _as_split_by(text: str, separator: str) -> list[str]:
    """The cells a spreadsheet sees that splits on that sign."""
    lines = io.StringIO(text, newline="")
    return [cell for row in csv.reader(lines, delimiter=separator) for cell in row]


@given(some.lists(NASTY, min_size=1, max_size=4))
def test_no_cell_begins_a_formula_however_the_table_is_split(cells: list[str]) -> None:
    """On commas as written, or on semicolons, tabs or bars as another country's settings have it.

    Source: OWASP ASVS 5.0, requirement 1.2.10.
    """
    table = io.StringIO(newline="")
    csv.writer(table).writerow(["lot", *map(spreadsheet_safe, cells)])
    for separator in ",;\t|":
        for cell in _as_split_by(table.getvalue(), separator):
            # a line's end that a lone quote has swallowed is seen as nothing
            assert not cell.lstrip("\r\n").startswith(FORMULA), (separator, cell)


@given(NASTY)
def test_a_cell_made_safe_is_read_as_it_was(text: str) -> None:
    """Quotes that stood there before are kept, those that were added go."""
    assert from_spreadsheet(spreadsheet_safe(text)) == text


def test_a_figure_stays_a_figure() -> None:
    """A number below zero is no formula."""
    assert [spreadsheet_safe(one) for one in (-3, 4.5, None, True)] == ["-3", "4.5", "", "True"]


def test_a_semicolon_hides_no_formula(shelf: Shelf, tmp_path: Path) -> None:
    """The whole way: logged, written out, opened where semicolons separate."""
    lot(shelf, "x;=cmd", family="other", state="untested", note='y;"=cmd"\n=z')
    dumps.dump_csv(shelf, tmp_path / "a.csv")
    text = (tmp_path / "a.csv").read_text(encoding="utf-8")
    assert "x;'=cmd" in text
    assert [cell for cell in _as_split_by(text, ";") if cell.lstrip('"').startswith("=")] == []


def test_the_bad_rows_of_a_safe_table_are_written_as_safe_and_once(tmp_path: Path) -> None:
    """Read, written beside what was expected and read again, a cell gains no quote."""
    for name in ("one.csv", "two.csv", "three.csv"):
        before = tmp_path / "one.csv"
        cells = ["=x", "a;=b", "'=c"] if name == "one.csv" else _cells(before)
        write_csv(tmp_path / name, ["=head", "b", "c"], [cells])
    assert _cells(tmp_path / "three.csv") == ["=x", "a;=b", "'=c"]
    assert (tmp_path / "three.csv").read_bytes() == (tmp_path / "one.csv").read_bytes()
    (row,) = rows_of(tmp_path / "one.csv")
    assert list(row.cells) == ["=head", "b", "c"]


def _cells(path: Path) -> list[str]:
    """The cells of the one row of a table."""
    return [*next(iter(rows_of(path))).cells.values()]
