"""The one way to the screen: escapes, widths, colour, money, counts."""

from __future__ import annotations

import io
import json
import unicodedata

import pytest
from hypothesis import given
from hypothesis import strategies as st

from inventory.cli import show
from tests.cli.terminal import screen


@given(st.text())
def test_nothing_that_acts_gets_through(text: str) -> None:
    """Whatever a marking is made of: no control, no direction mark, no lone surrogate."""
    shown = show.safe(text)
    acting = [sign for sign in shown if unicodedata.category(sign) in ("Cc", "Cf", "Cs", "Zl")]
    assert acting == []
    if text.isprintable():
        assert shown == text


@pytest.mark.parametrize(
    ("text", "shown"),
    [
        ("\x1b[31m", "\\x1b[31m"),
        ("\u202e", "\\u202e"),
        ("\U000e0001", "\\U000e0001"),
        ("a\u00a0b", "a\\xa0b"),
        ("[red]x[/]", "[red]x[/]"),
        (None, ""),
        (5, "5"),
    ],
)
def test_an_acting_sign_is_shown_as_its_number(text: object, shown: str) -> None:
    """Markup is text; what is not known is empty."""
    assert show.safe(text) == shown


def test_long_lines_are_cut_at_blanks_and_hang(
    capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    """The lead of a line is kept; what follows is two further in; no word is lost."""
    monkeypatch.setenv("COLUMNS", "40")
    show.line("  " + "word " * 30)
    lines = capsys.readouterr().out.splitlines()

    assert max(map(len, lines)) <= 40
    assert lines[0].startswith("  word")
    assert all(line.startswith("    word") for line in lines[1:])
    assert " ".join(lines).split().count("word") == 30


def test_a_word_longer_than_the_screen_is_cut(
    capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    """Nothing runs over the edge, nothing is dropped."""
    monkeypatch.setenv("COLUMNS", "40")
    show.line("x" * 100)
    lines = capsys.readouterr().out.splitlines()

    assert max(map(len, lines)) <= 40
    assert sum(line.count("x") for line in lines) == 100


@pytest.mark.parametrize(("columns", "width"), [("20", 40), ("80", 80), ("132", 132)])
def test_the_width_is_the_terminals_but_never_under_forty(
    columns: str, width: int, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Below that even a sentence falls apart."""
    monkeypatch.setenv("COLUMNS", columns)
    assert show.width() == width


@pytest.mark.parametrize(
    ("name", "value", "coloured"),
    [("TERM", "xterm", True), ("TERM", "dumb", False), ("NO_COLOR", "1", False),
     ("NO_COLOR", "", True)],
)  # fmt: skip
def test_colour_is_for_terminals_that_want_it(
    name: str, value: str, *, coloured: bool, monkeypatch: pytest.MonkeyPatch
) -> None:
    """NO_COLOR counts when it is not empty. Source: no-color.org."""
    monkeypatch.delenv("NO_COLOR", raising=False)
    monkeypatch.setenv("TERM", "xterm")
    monkeypatch.setenv(name, value)
    with screen() as shown, shown.open("w") as stream, monkeypatch.context() as patched:
        patched.setattr("sys.stderr", stream)
        show.note("refused", "refused")
    assert ("\x1b[" in shown.text()) == coloured
    assert "refused" in shown.text()


def test_a_pipe_gets_no_colour(capsys: pytest.CaptureFixture[str]) -> None:
    """Bold or red: the words alone."""
    show.line("refused", "refused")
    show.caution("hot", "sheet")
    assert capsys.readouterr() == ("refused\n", "CAUTION: hot [sheet]\n")


def test_a_table_keeps_numbers_right_and_cells_whole(
    capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    """A long cell is folded over lines, a number never; nothing stands behind a row."""
    monkeypatch.setenv("COLUMNS", "60")
    show.table(("No", "Text"), [(7, "x" * 100), (1234, None)], right=(0,), styles=("refused",))
    lines = capsys.readouterr().out.splitlines()

    assert lines[2].startswith("   7  xxx")
    assert sum(line.count("x") for line in lines) == 100 + 1  # the head's own
    assert lines[-1] == "1234"
    assert max(map(len, lines)) <= 60


def test_a_narrow_screen_has_no_empty_labels(
    capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    """Blocks of ``label: value``; a cell with nothing in it is left out."""
    monkeypatch.setenv("COLUMNS", "50")
    show.table(("No", "Text"), [(7, "a"), (8, None)])
    assert capsys.readouterr().out == "No: 7\nText: a\n\nNo: 8\n\n"


def test_json_is_ascii_and_knows_sets_and_mappings(capsys: pytest.CaptureFixture[str]) -> None:
    """Sets in one order, whatever else as its text."""
    from types import MappingProxyType

    show.as_json(
        {"b": frozenset({"y", "x"}), "m": MappingProxyType({"k": (1, 2)}), "i": 1j, "e": "\x9bΩ"}
    )
    out = capsys.readouterr().out

    assert out.isascii()
    assert "\x9b" not in out
    assert json.loads(out) == {"b": ["x", "y"], "m": {"k": [1, 2]}, "i": "1j", "e": "\x9bΩ"}


@pytest.mark.parametrize(
    ("cents", "written"), [(None, ""), (0, "0.00"), (5, "0.05"), (123456, "1234.56")]
)
def test_money_is_written_with_two_places(cents: int | None, written: str) -> None:
    """Not known is nothing, never zero."""
    assert show.money(cents) == written


@pytest.mark.parametrize(
    ("number", "words"), [(0, "0 lots"), (1, "1 lot"), (2, "2 lots"), (21, "21 lots")]
)
def test_a_count_agrees_with_its_noun(number: int, words: str) -> None:
    """One lot, two lots."""
    assert show.counted(number, "lot") == words


def test_a_console_on_a_file_is_plain() -> None:
    """Rich guesses nothing: no markup, no emoji, no highlight."""
    out = io.StringIO()
    show.console(out).print(":warning: [bold]5 A[/bold] 250")
    assert out.getvalue() == ":warning: [bold]5 A[/bold] 250\n"
