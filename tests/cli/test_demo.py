"""``salvage demo``: the walk through the main job, and the shelf it may leave."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.cli.calling import call, told


@pytest.fixture(autouse=True)
def _narrow(monkeypatch: pytest.MonkeyPatch) -> None:
    """The width of an old terminal."""
    monkeypatch.setenv("COLUMNS", "80")


def test_the_walk_shows_the_main_job_and_the_shelf_stays(tmp_path: Path) -> None:
    """A stand-in that tested good, one that no longer clicks, one refused; then it is fitted."""
    path = tmp_path / "demo.shelf"
    said = call("demo", "--to", str(path))
    steps = [line for line in said.out.splitlines() if line[:2] in ("1.", "2.", "3.", "4.", "5.")]

    assert said.code == 0, said.err
    assert len(steps) == 5
    assert "= SAME" in said.out or "+ FITS" in said.out
    assert "x NO" in said.out
    assert "does not click" in said.out or "weak" in said.out or "open" in said.out
    assert "Fitted on job " in said.out
    assert "  ok   " in said.out
    assert f"salvage --shelf {path} low" in " ".join(said.out.split())
    assert max(map(len, (said.out + said.err).splitlines())) <= 80
    assert "\x1b" not in said.out + said.err


def test_the_shelf_that_stays_is_as_before_the_walk(tmp_path: Path) -> None:
    """The walk uses up the best switch; whoever tries the same search finds it still there."""
    path = str(tmp_path / "demo.shelf")
    call("demo", "--to", path)
    found = told("--shelf", path, "find", "NFD-V16-63", "-j", "470", "-p", "primary-interlock")

    assert found["stand_ins"][0]["verdict"] == "same"
    assert call("--shelf", path, "check").out == "The shelf is whole.\n"


@pytest.mark.parametrize("words", [[], ["--dry-run"], ["--to", "demo.shelf", "--dry-run"]])
def test_the_walk_leaves_nothing_where_nothing_was_asked_for(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, words: list[str]
) -> None:
    """The same walk; dry, it says where the shelf would be."""
    monkeypatch.chdir(tmp_path)
    monkeypatch.setenv("SALVAGE_SHELF", str(tmp_path / "mine.shelf"))
    said = call("demo", *words)

    assert said.code == 0, said.err
    assert "Fitted on job " in said.out
    assert ("Would keep the shelf at demo.shelf; nothing is left now." in said.out) == (
        "--to" in words
    )
    assert list(tmp_path.iterdir()) == []


@pytest.mark.parametrize("dry", [[], ["--dry-run"]])
def test_a_file_that_is_there_is_left_alone(tmp_path: Path, dry: list[str]) -> None:
    """Exit code 1; whatever it is, it is not overwritten."""
    path = tmp_path / "demo.shelf"
    path.write_text("mine")
    said = call("demo", "--to", str(path), *dry)

    assert (said.code, said.out) == (1, "")
    assert "There is a shelf at" in said.err
    assert path.read_text() == "mine"
