"""Every listing: JSON by its schema, and text that fits 80 columns and needs no colour."""

from __future__ import annotations

import json
from pathlib import Path

import jsonschema
import pytest

from inventory.resources import shipped
from tests.cli.calling import call, demo_file

__all__ = ["demo_file"]

LISTINGS = [
    ("find", "find NFD-V16-63 --unit|Brenka BK-20M|--place primary-interlock --all"),
    ("find", "find --unit|Brenka BK-20M|--place monitor"),
    ("find", "find --family switch --need resistive_a=16 --need volts_ac=250"),
    ("low", "low --as-of 2026-10-31"),
    ("low", "low --all --limit 500"),
    ("low", "low --pooled"),
    ("backtest", "low --backtest"),
    ("worth", "worth U55"),
    ("wear", "wear --all"),
    ("wear", "wear --by maker --all"),
    ("wear", "wear --by unit --all"),
    ("day", "day --as-of 2026-10-31"),
    ("lot", "show 1"),
    ("part", "show --part 42"),
    ("unit", "show --unit U55"),
    ("history", "history 1"),
    ("history", "history --last 60"),
    ("history", "history --part 42"),
    ("history", "history --job 20"),
    ("bin", "where A2-10"),
    ("bins", "where"),
    ("jobs", "job list --all"),
    ("job", "job show 20"),
    ("xref", "xref list"),
    ("xref-steps", "xref follow NFD-V10-63"),
    ("twins", "twins"),
    ("figures", "figure"),
    ("check", "check"),
    ("reading", "read|16(4)A 250V~ T85 5E4"),
    ("screw-name", "screw name --major 4.12 --pitch 0.79"),
    ("screw-fit", "screw fit M4x8 #8-32x3/8 --in sheet"),
    (
        "screw-instead",
        "screw instead|security hexalobular 15, M4x8 in sheet|--from|M4x8, #8-32x3/8",
    ),
    ("screw-limits", "screw limits M4x0.7 --class 6g"),
    ("screw-weigh", "screw weigh --weigh 38g --ten 6.2g"),
]


def words_of(line: str) -> list[str]:
    """Words of a call; parts between bars hold blanks."""
    pieces = line.split("|")
    return [
        word
        for number, piece in enumerate(pieces)
        for word in ([piece] if number % 2 else piece.split())
    ]


@pytest.mark.parametrize(("schema", "line"), LISTINGS, ids=[line for _, line in LISTINGS])
def test_json_follows_its_schema(schema: str, line: str, demo_file: Path) -> None:
    """Outside programs rely on the shape; it is shipped in ``schemas``."""
    said = call("--shelf", str(demo_file), *words_of(line), "--json")
    assert said.code == 0, said.err
    rules = json.loads((shipped("schemas") / f"{schema}.schema.json").read_text())
    jsonschema.validate(json.loads(said.out), rules)


@pytest.mark.parametrize(("schema", "line"), LISTINGS, ids=[line for _, line in LISTINGS])
def test_text_fits_eighty_columns_without_colour(
    schema: str, line: str, demo_file: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Piped, at the width of an old terminal, no escape sequence gets out."""
    del schema
    monkeypatch.setenv("COLUMNS", "80")
    said = call("--shelf", str(demo_file), *words_of(line))
    assert said.code == 0, said.err
    wide = [text for text in (said.out + said.err).splitlines() if len(text) > 80]
    assert wide == []
    assert "\x1b" not in said.out + said.err
    assert said.out.strip()


def test_a_narrow_screen_gets_blocks_instead_of_a_table(
    demo_file: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """At 40 columns each row is a block of ``label: value`` lines."""
    monkeypatch.setenv("COLUMNS", "40")
    said = call("--shelf", str(demo_file), "where", "A2-10")
    assert "Lot: " in said.out
    assert max(map(len, said.out.splitlines())) <= 40


def test_one_query_a_line_gives_one_object_a_line(demo_file: Path, tmp_path: Path) -> None:
    """``find --lines`` answers in one process, in the order of the lines."""
    queries = tmp_path / "queries.txt"
    queries.write_text("DT50-1\nNFD-V16-63\n", encoding="utf-8")
    said = call("--shelf", str(demo_file), "find", "--lines", str(queries), "--json")
    rows = [json.loads(row) for row in said.out.splitlines()]
    assert [row["wanted"]["text"] for row in rows] == ["DT50-1", "NFD-V16-63"]


def test_the_steps_of_an_order_are_told(demo_file: Path) -> None:
    """``--why LOT`` prints what put that lot's part where it stands."""
    found = json.loads(call("--shelf", str(demo_file), "find", "DT50-1", "--json").out)
    lot = found["stand_ins"][0]["lots"][0]["lot"]
    said = call("--shelf", str(demo_file), "find", "DT50-1", "--why", str(lot))
    assert said.out.startswith("1. verdict")


def test_nothing_found_is_exit_code_one(demo_file: Path) -> None:
    """An honest answer that there is none."""
    said = call("--shelf", str(demo_file), "find", "QQQQ9999XX", "--json")
    assert said.code == 1
    assert json.loads(said.out)["stand_ins"] == []
