"""``salvage low / worth / wear / order / receive / keep / figure`` as the shop types them."""

from __future__ import annotations

import io
import json
from pathlib import Path
from xml.etree import ElementTree as ET

import pytest

from inventory.bench.low import FIGURES
from tests.cli.calling import call, demo_file, events, new_shelf, on_hand, own_demo, told

__all__ = ["demo_file", "new_shelf", "own_demo"]

LOW = ["low", "--as-of", "2026-10-31"]


@pytest.fixture
def fuses(new_shelf: Path) -> Path:
    """Part type 1, of which four good pieces are lot 1."""
    call("log", "T5AL250V", "--family", "fuse", "--state", "good", "-n", "4")
    return new_shelf


@pytest.mark.usefixtures("own_demo")
def test_the_screen_has_the_lines_of_the_json() -> None:
    """At most so many; the rest is counted, and what the figures rest on is said."""
    rows = told(*LOW)["lines"]
    said = call(*LOW, "--limit", "2")

    assert len(rows) > 2
    assert all(row["short"] for row in rows)
    assert f"{len(rows) - 2} more; say --limit {len(rows)}." in said.err
    assert "Prior: learned from " in said.err
    for row in rows[:2]:
        assert f"\n{row['part_id']} {row['name']}: {row['actions'][0]['sentence'][:10]}" in said.out


@pytest.mark.usefixtures("own_demo")
def test_one_family_alone_and_those_that_are_not_short() -> None:
    """A family has fewer lines, ``--all`` has more."""
    rows, every = told(*LOW)["lines"], told(*LOW, "--all")["lines"]
    switches = told(*LOW, "--family", "switch", "--all")["lines"]

    assert {row["family"] for row in switches} == {"switch"}
    assert len(rows) < len(every)
    assert [row["part_id"] for row in every if row["short"]] == [row["part_id"] for row in rows]


@pytest.mark.usefixtures("fuses")
def test_nothing_short_is_said_in_words() -> None:
    """On stderr; the pipe stays empty."""
    said = call("low")
    assert (said.code, said.out, said.err) == (0, "", "Nothing runs short.\n")


@pytest.mark.usefixtures("own_demo")
def test_the_achieved_service_is_told_in_a_sentence() -> None:
    """The figures of the sentence are those of the JSON."""
    said, row = call("low", "--backtest"), told("low", "--backtest")
    assert said.out.startswith(f"Replayed over {row['months']} months of this journal: ")
    assert f"claimed {row['claimed']:.1%} " in said.out
    assert f"achieved {row['months_without_shortage']:.1%}; " in said.out
    assert f"{row['filled_at_once']:.1%} of requests filled at once." in said.out


@pytest.mark.usefixtures("own_demo")
def test_a_unit_is_a_list_to_tick_off() -> None:
    """What to pull with its reason, what to leave; hazards first, on stderr."""
    row, said = told("worth", "U55"), call("worth", "U55")

    assert said.out.count("[ ] ") == len(row["pull"])
    assert said.out.count("\nLeave ") == len(row["skip"])
    assert said.err.count("CAUTION: ") == len(row["hazards"])
    assert f"{row['minutes']:.0f} minutes; worth " in said.out


@pytest.mark.usefixtures("new_shelf")
def test_a_unit_that_is_worth_nothing_is_said_to_be() -> None:
    """No price and no demand is known of its one piece."""
    call(
        "strip", "U1", "--kind", "oven", "--maker", "Brenka", "--model", "BK", "--piece", "other|E"
    )
    call("strip", "U2", "--kind", "oven", "--maker", "Brenka", "--model", "BK")
    assert "Nothing is worth pulling." in call("worth", "U2").out


@pytest.mark.usefixtures("own_demo")
@pytest.mark.parametrize(("encoding", "mark"), [("utf-8", "┤"), ("ascii", "|")])
def test_survival_is_drawn_with_the_signs_the_screen_has(
    encoding: str, mark: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Below the sentence of the line; in 80 columns."""

    class Screen(io.StringIO):
        pass

    monkeypatch.setattr(Screen, "encoding", encoding)
    monkeypatch.setenv("COLUMNS", "80")
    monkeypatch.setattr("tests.cli.calling.io.StringIO", Screen)
    lines = call("wear", "--plot").out.splitlines()

    assert any(mark in line for line in lines)
    assert ("┤" in "".join(lines)) == (encoding == "utf-8")
    assert max(map(len, lines)) <= 80


@pytest.mark.usefixtures("own_demo")
@pytest.mark.parametrize("ending", ["svg", "png"])
def test_a_curve_is_written_to_a_file(tmp_path: Path, ending: str) -> None:
    """A drawing that can be opened; dry, no file and the same sentence with would."""
    path = tmp_path / f"curve.{ending}"
    dry = call("wear", "--to", str(path), "--dry-run")
    assert f"Would write {path}." in dry.err
    assert not path.exists()

    said = call("wear", "--to", str(path))
    assert f"Wrote {path}." in said.err
    head = path.read_bytes()[:8]
    if ending == "svg":
        assert ET.parse(path).getroot().tag.endswith("svg")  # noqa: S314 - our own file
    else:
        assert head == b"\x89PNG\r\n\x1a\n"


@pytest.mark.usefixtures("own_demo")
def test_a_curve_that_cannot_be_written_is_one_sentence(tmp_path: Path) -> None:
    """A folder lies where the file should go."""
    path = tmp_path / "curve.svg"
    path.mkdir()
    said = call("wear", "--to", str(path))

    assert said.code == 2
    assert said.err == f"Cannot write {path}: Is a directory.\n"


@pytest.mark.usefixtures("fuses")
def test_a_shelf_without_failures_has_nothing_to_draw(tmp_path: Path) -> None:
    """And says that nothing fails."""
    said = call("wear")
    drawn = call("wear", "--to", str(tmp_path / "curve.svg"))

    assert said.out == "Nothing fails more than its kind, as far as the journal can tell.\n"
    assert told("wear") == []
    assert (drawn.code, drawn.err) == (2, "There is no failure to draw yet.\n")


@pytest.mark.usefixtures("fuses")
def test_what_is_ordered_comes_in_as_a_lot() -> None:
    """New, with its price; what is still awaited is told."""
    assert call("order", "--part", "1", "-n", "5", "--note", "order 7").out == (
        "Part type 1: 5 on order.\n"
    )
    said = call("receive", "--part", "1", "-n", "3", "--bin", "A1", "--price", "0.40")

    assert said.out == "Lot 2: 3 of part type 1, untested.\n"
    assert on_hand(2) == (3, 0, "untested", "A1")
    assert told("show", "2")["price_cents"] == 40
    assert call("order", "--part", "1").out == "Part type 1: 3 on order.\n"


@pytest.mark.usefixtures("fuses")
def test_a_level_set_by_hand_holds_until_it_is_taken_back() -> None:
    """Seven are to be kept, four are there: three are missing."""
    assert call("keep", "--part", "1", "7").out == "Part type 1: at least 7.\n"
    (line,) = told("low")["lines"]
    assert (line["keep_at_least"], line["missing"]) == (7, 3)

    assert call("keep", "--part", "1").out == "Part type 1: by demand.\n"
    assert told("low")["lines"] == []


@pytest.mark.usefixtures("fuses")
@pytest.mark.parametrize(
    ("words", "would"),
    [
        ("order --part 1 -n 5", "Would order; part type 1: 5 on order.\n"),
        ("receive --part 1", "Would receive lot 2: 1 of part type 1, untested.\n"),
        ("keep --part 1 7", "Would keep part type 1: at least 7.\n"),
        ("keep --part 1", "Would keep part type 1: by demand.\n"),
    ],
)
def test_a_dry_run_says_what_would_be(words: str, would: str) -> None:
    """And leaves the journal as it was."""
    if words.startswith("receive"):
        call("order", "--part", "1", "-n", "2")
    before = events()

    assert call(*words.split(), "--dry-run").out == would
    assert events() == before


@pytest.mark.usefixtures("fuses")
def test_the_figures_of_the_shop_are_listed_and_set() -> None:
    """Not set is a dash, in JSON null; dry, the table shows what would be."""
    assert told("figure") == dict.fromkeys(FIGURES)
    dry = call("figure", "lead_time_months", "0.5", "--dry-run").out
    assert dry.startswith("Would be so:\n")
    assert ["lead_time_months", "0.5"] in [line.split()[:2] for line in dry.splitlines()]
    assert told("figure")["lead_time_months"] is None

    assert told("figure", "lead_time_months", "0.5")["lead_time_months"] == "0.5"
    rows = [line.split()[:2] for line in call("figure").out.splitlines()]
    assert ["lead_time_months", "0.5"] in rows
    assert ["service_level", "-"] in rows


@pytest.mark.usefixtures("fuses")
def test_equals_are_counted_as_one_when_that_is_asked_for() -> None:
    """The same lines as JSON and on the screen; a pool names its members."""
    call("keep", "--part", "1", "7")
    pooled = json.loads(call("low", "--pooled", "--json").out)["lines"]

    assert [line["missing"] for line in pooled] == [3]
