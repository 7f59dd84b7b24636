"""Which shelf is meant, and what another bench may do while it is being made."""

from __future__ import annotations

from pathlib import Path

import pytest

from inventory.bench.log import Piece, log_pieces
from inventory.bench.place import open_for, shelf_path, write_on
from inventory.errors import StoreUnusable
from inventory.store.contents import contents_of
from inventory.store.shelf import Shelf, open_shelf


def test_what_is_said_wins_over_the_environment(monkeypatch: pytest.MonkeyPatch) -> None:
    """The command line first, then ``SALVAGE_SHELF``, then the platform's data folder."""
    monkeypatch.setenv("SALVAGE_SHELF", "there.shelf")
    assert shelf_path("here.shelf") == "here.shelf"
    assert shelf_path(None) == "there.shelf"
    monkeypatch.delenv("SALVAGE_SHELF")
    assert shelf_path(None).endswith("bench.shelf")


def test_work_is_done_again_on_the_shelf_that_another_bench_made_first(tmp_path: Path) -> None:
    """Nobody's first lot is lost, and nobody has to say it twice."""
    path, other = tmp_path / "a.shelf", tmp_path / "b.shelf"
    log_pieces(open_shelf(str(other), create=True), [Piece("EX-9", family="other")])
    rounds = []

    def log_late(shelf: Shelf) -> int:
        rounds.append(shelf.path)
        if len(rounds) == 1:
            other.rename(path)
        return log_pieces(shelf, [Piece("EX-1", family="other")])[0].lot.id

    assert write_on(str(path), log_late) == 2
    assert len(rounds) == 2
    assert contents_of(path).lots == 2


def test_a_data_folder_that_cannot_be_made_is_one_sentence(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """A file lies where the folder should be."""
    (tmp_path / "data").write_text("in the way")
    monkeypatch.delenv("SALVAGE_SHELF", raising=False)
    monkeypatch.setattr("platformdirs.user_data_path", lambda *_, **__: tmp_path / "data" / "x")

    with pytest.raises(StoreUnusable, match="Cannot make the folder"):
        write_on(None, lambda shelf: shelf)


def test_a_name_the_system_refuses_is_one_sentence() -> None:
    """Longer than any file name may be, to look at and to write on."""
    with pytest.raises(StoreUnusable, match="Cannot open"):
        open_for("x" * 300)
    with pytest.raises(StoreUnusable, match="Cannot open"):
        write_on("x" * 300, lambda shelf: shelf)
