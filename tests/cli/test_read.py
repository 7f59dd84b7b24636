"""``salvage read``: the marking with each piece under it, on any screen and through a pipe."""

from __future__ import annotations

import io
import json
from pathlib import Path

import pytest

from inventory.cli.read import LETTERS, MOST_SIGNS
from tests.cli.calling import call

SWITCH = "16(4)A 250V~ T85 5E4"


@pytest.fixture(autouse=True)
def _wide(monkeypatch: pytest.MonkeyPatch) -> None:
    """A terminal of 80 columns."""
    monkeypatch.setenv("COLUMNS", "80")


def test_each_letter_stands_under_its_piece() -> None:
    """Where the ruler points, the piece of that letter begins; all of them are explained."""
    lines = call("read", SWITCH).out.splitlines()
    row = json.loads(call("read", SWITCH, "--json").out)

    assert lines[0] == SWITCH
    for index, mark in enumerate(sorted(row["marks"], key=lambda one: int(one["start"]))):
        assert lines[1][mark["start"]] == LETTERS[index]
        assert any(line.startswith(f"  {LETTERS[index]} {mark['text']}") for line in lines)


def test_what_is_assumed_and_what_is_not_said_stand_apart() -> None:
    """Neither is among the pieces; without a figure of cycles IEC 61058-1 means 10 000."""
    out = " ".join(call("read", "16(4)A 250V~ T85", "--family", "switch").out.split())
    row = json.loads(call("read", "16(4)A 250V~ T85", "--family", "switch", "--json").out)

    assert row["assumed"] == {"endurance_cycles": 10000}
    assert "Assumed, because it is not printed: endurance 10000 cycles" in out
    assert "Not said: body size" in out


def test_what_is_not_read_is_shown_as_such() -> None:
    """Nothing is dropped."""
    lines = call("read", "16A 250V~ QQQQ", "--family", "switch").out.splitlines()
    assert lines[0] == "16A 250V~ QQQQ"
    assert "  c QQQQ   not read" in lines


def test_a_repair_is_only_a_proposal() -> None:
    """Shown with its reason, marked by a word; the text stays as it was typed."""
    said = call("read", "16A 25OV~", "--family", "switch")
    row = json.loads(call("read", "16A 25OV~", "--family", "switch", "--json").out)

    assert row["text"] == "16A 25OV~"
    assert [candidate["text"] for candidate in row["candidates"]] == ["16A 250V~"]
    assert "Could be: 16A 250V~ (" in said.out
    assert "volts_ac" not in row["ratings"]


def test_warnings_are_marked_by_a_word() -> None:
    """Not by colour alone."""
    out = " ".join(call("read", "16(4)A 250V~ T85 T105", "--family", "switch").out.split())
    assert "Note: Two different ambient marks" in out


def test_another_family_is_offered() -> None:
    """Where the text may be of several, all are named."""
    row = json.loads(call("read", "5A 250V", "--json").out)
    out = " ".join(call("read", "5A 250V").out.split())
    assert "fuse" in {row["family"], *row["others"]}
    assert f"Or another family: {', '.join(row['others'])}; say --family to choose." in out


def test_a_long_marking_is_ruled_line_by_line() -> None:
    """No line is wider than the screen, and each part of the text has its letters below."""
    text = " ".join([SWITCH] * 6)
    lines = call("read", text, "--family", "switch").out.splitlines()

    assert max(map(len, lines)) <= 80
    assert lines[0] == text[:80]
    assert lines[2] == text[80:160]
    assert set(lines[1]) - {" "} <= set(LETTERS)


def test_more_pieces_than_letters_get_none() -> None:
    """The pieces are listed all the same."""
    text = " ".join(f"Q{n}Q" for n in range(60))
    lines = call("read", text, "--family", "switch").out.splitlines()
    assert not any(line.startswith("a  ") for line in lines)
    assert max(map(len, lines)) <= 80
    assert sum("Q59Q" in line for line in lines) == 2


def test_lines_of_a_file_may_name_their_family(tmp_path: Path) -> None:
    """Before a tab; without one it is recognised; ``--family`` holds for all."""
    file = tmp_path / "marks.txt"
    file.write_text(f"fuse\tT5AL250V\r\n{SWITCH}\n", encoding="utf-8")
    rows = [json.loads(line) for line in call("read", "--lines", str(file)).out.splitlines()]
    assert [(row["family"], row["text"]) for row in rows] == [
        ("fuse", "T5AL250V"), ("switch", SWITCH),
    ]  # fmt: skip

    file.write_text("T5AL250V\nF2A\n", encoding="utf-8")
    said = call("read", "--lines", str(file), "--family", "fuse")
    assert [json.loads(line)["family"] for line in said.out.splitlines()] == ["fuse", "fuse"]


def test_a_pipe_is_read_to_its_end(monkeypatch: pytest.MonkeyPatch) -> None:
    """Bytes that are no text become the sign for it; the last line needs no end."""

    class Piped:
        buffer = io.BytesIO(b"T5A\xff\nF2A")

    monkeypatch.setattr("sys.stdin", Piped())
    rows = [json.loads(line) for line in call("read", "--lines", "-").out.splitlines()]
    assert [row["text"] for row in rows] == ["T5A\ufffd", "F2A"]


@pytest.mark.parametrize(
    ("words", "sentence"),
    [
        ([], "Give a marking in quotes, or --lines FILE."),
        (["x" * (MOST_SIGNS + 1)], "A text of more than 1,000,000 signs is no marking."),
        (["--lines", "no-such-file"], "Cannot read no-such-file: No such file or directory."),
        (["--lines", "."], "Cannot read .: Is a directory."),
        (["--lines", "a\0b"], "That is not a file name."),
    ],
    ids=["nothing", "too long", "no file", "a folder", "no name"],
)
def test_what_cannot_be_read_is_one_sentence(words: list[str], sentence: str) -> None:
    """Exit code 2."""
    said = call("read", *words)
    assert (said.code, said.out) == (2, "")
    assert " ".join(said.err.split()) == sentence


def test_a_line_without_end_is_refused_before_it_fills_the_memory(tmp_path: Path) -> None:
    """The lines before it were answered."""
    file = tmp_path / "marks.txt"
    file.write_bytes(b"T5A\n" + b"x" * (MOST_SIGNS + 1))
    said = call("read", "--lines", str(file))

    assert said.code == 2
    assert len(said.out.splitlines()) == 1
    assert "A line of more than 1,000,000 signs is no marking." in said.err
