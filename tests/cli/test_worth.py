"""``salvage worth --to``: the list goes to the unit, and ticked off back to the shelf."""

from __future__ import annotations

import csv
import json
from pathlib import Path

import pytest

from inventory.cli.log import LEFT_SHOWN
from tests.cli.calling import call, demo_file, new_shelf, own_demo, told

__all__ = ["demo_file", "new_shelf", "own_demo"]


def _table(path: Path) -> list[dict[str, str]]:
    """The rows of a written list."""
    with path.open(encoding="utf-8", newline="") as file:
        return list(csv.DictReader(file))


def _save(path: Path, rows: list[dict[str, str]]) -> None:
    """The list as a person saves it."""
    with path.open("w", encoding="utf-8", newline="") as file:
        writer = csv.DictWriter(file, list(rows[0]))
        writer.writeheader()
        writer.writerows(rows)


@pytest.mark.usefixtures("own_demo")
def test_the_list_says_what_to_pull_and_why_the_rest_stays(tmp_path: Path) -> None:
    """A row a part type; what stays has quantity 0 and the reason as its note."""
    path = tmp_path / "u55.csv"
    said, row = call("worth", "U55", "--to", str(path)), told("worth", "U55")
    rows = _table(path)

    assert said.code == 0
    assert "strip U55 --pieces" in " ".join(said.err.split())
    assert [int(one["quantity"]) for one in rows] == [one["take"] for one in row["pull"]] + [
        0 for _ in row["skip"]
    ]
    assert [one["note"] for one in rows if one["quantity"] == "0"] == [
        one["why"] for one in row["skip"]
    ]
    assert row["pull"]
    assert row["skip"]


@pytest.mark.usefixtures("own_demo")
def test_strip_takes_the_list_over(tmp_path: Path) -> None:
    """The pieces are of the part types the list named, untested, from that unit; none is new."""
    path = tmp_path / "u55.csv"
    row = told("worth", "U55")
    call("worth", "U55", "--to", str(path))

    done = json.loads(call("strip", "U55", "--pieces", str(path), "--json").out)

    assert [one["part"] for one in done] == [one["part"] for one in row["pull"]]
    assert all(one["known_before"] for one in done)
    left = told("worth", "U55")
    assert not {one["part"] for one in left["pull"]} & {one["part"] for one in row["pull"]}


@pytest.mark.usefixtures("own_demo")
def test_what_was_not_pulled_after_all_is_told_and_not_logged(tmp_path: Path) -> None:
    """A 0 written on the way stays in the unit; its reason is told where somebody gave one."""
    path = tmp_path / "u55.csv"
    call("worth", "U55", "--to", str(path))
    rows = _table(path)
    rows[0] |= {"quantity": "0", "note": "broke, its clip was brittle"}
    _save(path, rows)

    said = call("strip", "U55", "--pieces", str(path))

    text = " ".join(said.out.split())
    assert said.code == 0
    assert "broke, its clip was brittle" in text
    more = sum(one["quantity"] == "0" for one in rows) - LEFT_SHOWN
    assert said.out.count("Left in it: ") == LEFT_SHOWN + 1
    assert f"Left in it: {more} more, as the list says." in text
    assert said.out.count("Logged lot ") == sum(one["quantity"] != "0" for one in rows)


@pytest.mark.usefixtures("own_demo")
def test_the_list_of_a_model_names_no_unit(tmp_path: Path) -> None:
    """A model is not a label: stripping by it would log a unit of that name."""
    said = call("worth", "BK-20M", "--to", str(tmp_path / "a.csv"))
    assert said.code == 0
    assert "salvage strip LABEL --pieces" in " ".join(said.err.split())


@pytest.mark.usefixtures("own_demo")
def test_a_list_tried_dry_is_not_written(tmp_path: Path) -> None:
    """The sentence says would."""
    said = call("worth", "U55", "--to", str(tmp_path / "a.csv"), "--dry-run")
    assert "Would write" in said.err
    assert not (tmp_path / "a.csv").exists()


@pytest.mark.usefixtures("own_demo")
def test_a_list_without_a_folder_is_refused(tmp_path: Path) -> None:
    """Exit code 2, one sentence."""
    said = call("worth", "U55", "--to", str(tmp_path / "none" / "a.csv"))
    assert said.code == 2
    assert "folder" in said.err


@pytest.mark.usefixtures("own_demo")
def test_a_bad_row_of_the_list_logs_nothing(tmp_path: Path) -> None:
    """A quantity below nought is a slip, not something left."""
    path = tmp_path / "u55.csv"
    call("worth", "U55", "--to", str(path))
    rows = _table(path)
    rows[0]["quantity"] = "-1"
    _save(path, rows)
    before = told("worth", "U55")

    assert call("strip", "U55", "--pieces", str(path)).code == 2
    assert told("worth", "U55") == before
