"""The bar: there where somebody waits at a terminal, and nowhere else."""

from __future__ import annotations

import sys
import time
from collections.abc import Iterator
from contextlib import contextmanager, redirect_stderr
from pathlib import Path

import pytest

from inventory.cli import waiting as waits
from inventory.cli.waiting import PATIENCE, waiting
from tests.cli.calling import call, demo_file
from tests.cli.terminal import PLAIN, Screen, screen, sit

__all__ = ["demo_file"]

BAD = "\x1b]0;owned\x07\x9b31m\u202e"
"""A title for the window, a bell, a colour and a turn of direction."""

TITLE, BELL, TURN = "\x1b]0;", "\x07", "\u202e"


@pytest.fixture
def impatient(monkeypatch: pytest.MonkeyPatch) -> None:
    """The bar comes up at once, so that no test has to wait for it."""
    monkeypatch.setattr(waits, "PATIENCE", 0.0)


@contextmanager
def _at(monkeypatch: pytest.MonkeyPatch) -> Iterator[Screen]:
    """Stderr is a terminal of 80 columns."""
    for name, value in PLAIN.items():
        monkeypatch.setenv(name, value)
    with screen() as shown, shown.open("w") as err, redirect_stderr(err):
        yield shown


def _parts(path: Path, rows: int) -> Path:
    """A parts file of so many rows."""
    lines = [f"other,EX-{n},A{n % 9}" for n in range(rows)]
    path.write_text("\n".join(["family,type,bin", *lines]) + "\n", encoding="utf-8")
    return path


@pytest.mark.usefixtures("impatient")
def test_a_bar_says_what_is_done_and_how_far_it_is(monkeypatch: pytest.MonkeyPatch) -> None:
    """Share and count where the whole is known; it is gone at the end."""
    with _at(monkeypatch) as shown, waiting("Loading", 2000) as report:
        shown.wait_for("Loading")
        report(1500)
        shown.wait_for("75%")
        shown.wait_for("1,500")
    assert shown.text().endswith("\x1b[2K")  # the line is wiped


@pytest.mark.usefixtures("impatient")
def test_a_bar_without_a_known_whole_claims_no_share(monkeypatch: pytest.MonkeyPatch) -> None:
    """Only what is going on, and the seconds."""
    with _at(monkeypatch) as shown, waiting("Searching"):
        shown.wait_for("Searching")
        shown.wait_for("0:00:0")
    assert "%" not in shown.text()


def test_what_is_done_soon_shows_no_bar(monkeypatch: pytest.MonkeyPatch) -> None:
    """Nothing flickers; the bar that was about to come is called off."""
    with _at(monkeypatch) as shown, waiting("Loading", 10) as report:
        report(10)
    time.sleep(0.05)
    assert shown.text() == ""


def test_the_bar_comes_up_after_a_second(monkeypatch: pytest.MonkeyPatch) -> None:
    """With what was done meanwhile."""
    began = time.monotonic()
    with _at(monkeypatch) as shown, waiting("Loading", 10) as report:
        report(5)
        shown.wait_for("50%")
    assert PATIENCE <= time.monotonic() - began < PATIENCE + 20


@pytest.mark.usefixtures("impatient")
def test_a_bar_ends_with_what_failed(monkeypatch: pytest.MonkeyPatch) -> None:
    """The error goes on, the cursor comes back."""

    def fail() -> None:
        with waiting("Loading"):
            shown.wait_for("Loading")
            raise ZeroDivisionError

    with _at(monkeypatch) as shown, pytest.raises(ZeroDivisionError):
        fail()
    assert "\x1b[?25l" in shown.text()  # hidden while the bar moves
    assert "\x1b[?25h" in shown.text()  # and shown again


@pytest.mark.usefixtures("impatient")
def test_no_bar_goes_into_a_pipe(capfd: pytest.CaptureFixture[str]) -> None:
    """Whoever reads stderr in a file finds no trace of it."""
    with waiting("Loading", 10) as report:
        report(5)
        time.sleep(0.05)
    assert not sys.stderr.isatty()
    assert capfd.readouterr() == ("", "")


@pytest.mark.usefixtures("impatient")
def test_a_load_shows_its_bar_on_the_screen_and_its_result_in_the_pipe(tmp_path: Path) -> None:
    """The count of the rows is that of the file."""
    file = _parts(tmp_path / "parts.csv", 2500)
    said = sit("--shelf", str(tmp_path / "a.shelf"), "load", str(file), piped=True)

    assert said.code == 0, said.err
    assert said.out.replace("\n  ", " ") == f"Loaded 2500 lots from {file}.\n"
    assert "Loading" in said.err
    assert "2,500" in said.err
    assert "100%" in said.err
    assert "\x1b[2KNote: A new shelf was made" in said.err  # on a line of its own


@pytest.mark.usefixtures("impatient")
def test_a_piped_load_shows_none(tmp_path: Path) -> None:
    """Only the line on the new shelf is on stderr."""
    file = _parts(tmp_path / "parts.csv", 2500)
    said = call("--shelf", str(tmp_path / "a.shelf"), "load", str(file))

    assert said.code == 0
    assert "Loading" not in said.err
    assert "\x1b" not in said.out + said.err


@pytest.mark.usefixtures("impatient")
@pytest.mark.parametrize("words", ["low", "day", "wear", "worth U55", "check", "twins"])
def test_every_long_report_has_a_bar(words: str, demo_file: Path) -> None:
    """Over a million events each of these takes more than a second."""
    said = sit("--shelf", str(demo_file), *words.split(), piped=True)

    assert said.code == 0, said.err
    assert "━" in said.err
    assert "━" not in said.out


@pytest.mark.usefixtures("impatient")
def test_names_of_files_and_rows_do_nothing_to_the_terminal(tmp_path: Path) -> None:
    """Beside a moving bar: what data brought is shown, and never acted on."""
    folder = tmp_path / f"in {BAD}"
    folder.mkdir()
    file = folder / f"parts {BAD}.csv"
    file.write_text(f"family,type,quantity\nother,EX-1{BAD},{BAD}\n", encoding="utf-8")
    said = sit("--shelf", str(folder / "a.shelf"), "load", str(file))

    assert said.code == 2
    assert "\\x1b]0;owned\\x07" in said.err.replace("\n", "")
    for raw in (TITLE, BELL, TURN, "\x9b"):
        assert raw not in said.err


@pytest.mark.parametrize("colour", ["", "1"])
def test_a_hostile_marking_is_only_shown(tmp_path: Path, colour: str) -> None:
    """Read, logged, shown, found, listed: in colour and without."""
    shelf = str(tmp_path / "a.shelf")
    marking, more = f"16A{BAD} 250V~", {"NO_COLOR": colour, "TERM": "xterm-256color"}
    first = sit(
        "--shelf", shelf, "log", marking, "--family", "switch", "--bin", f"A{BAD}", settings=more
    )
    assert first.code == 0, first.err
    calls = [["read", marking], ["show", "1"], ["find", marking], ["where"], ["history"],
             ["show", "--part", "1"], ["find", f"QQ{BAD}"], ["job", "show", f"{BAD}"]]  # fmt: skip
    for words in calls:
        said = sit("--shelf", shelf, *words, settings=more)
        for raw in (TITLE, BELL, TURN, "\x9b"):
            assert raw not in said.err, words
        assert not (colour and "\x1b" in said.err), words
    assert ("\x1b[1m" in sit("--shelf", shelf, "show", "1", settings=more).err) == (not colour)
