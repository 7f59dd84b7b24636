"""A new shelf appears whole, with the work it was made for, or not at all."""

from __future__ import annotations

import os
from pathlib import Path

import pytest

from inventory.bench.log import Piece, log_pieces
from inventory.errors import StoreUnusable, WrongInput
from inventory.store import new_shelf
from inventory.store.contents import contents_of
from inventory.store.new_shelf import made_with
from inventory.store.shelf import Shelf
from tests.store.shelves import stocked

PIECE = Piece("EX-1", family="other")


def _log(shelf: Shelf) -> int:
    """Log one piece; returns its lot's number."""
    return log_pieces(shelf, [PIECE])[0].lot.id


def test_the_shelf_appears_with_its_first_lot(tmp_path: Path) -> None:
    """While the work goes on there is none; afterwards it holds what was done."""
    path = tmp_path / "a.shelf"

    def look_and_log(shelf: Shelf) -> int:
        assert not path.exists()
        assert shelf.path == path
        return _log(shelf)

    assert made_with(path, look_and_log) == (1,)
    assert contents_of(path).lots == 1
    assert [one.name for one in tmp_path.iterdir()] == ["a.shelf"]


def test_work_that_fails_leaves_nothing(tmp_path: Path) -> None:
    """Whatever it was that failed, also after it had written."""

    def log_and_fail(shelf: Shelf) -> None:
        _log(shelf)
        raise WrongInput("No.")

    with pytest.raises(WrongInput):
        made_with(tmp_path / "a.shelf", log_and_fail)
    assert list(tmp_path.iterdir()) == []


@pytest.mark.parametrize("when", ["before the write", "after the write"])
def test_a_shelf_another_bench_made_meanwhile_stays(tmp_path: Path, when: str) -> None:
    """Nothing of the work is kept beside it, and the caller is told to do it again."""
    path, other = tmp_path / "a.shelf", tmp_path / "b.shelf"
    stocked(other).close()

    def log_too_late(shelf: Shelf) -> int:
        if when == "before the write":
            other.rename(path)
            return _log(shelf)
        number = _log(shelf)
        other.rename(path)
        return number

    assert made_with(path, log_too_late) is None
    assert contents_of(path).lots == 1
    assert [one.name for one in tmp_path.iterdir()] == ["a.shelf"]


def test_a_disk_that_fails_at_the_last_step_is_explained(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """The shelf was not made, and the sentence names it as the person did."""

    def fail(*_: Path) -> bool:
        raise OSError(5, os.strerror(5))

    monkeypatch.setattr(new_shelf, "settle_new", fail)
    with pytest.raises(StoreUnusable, match=r"Cannot make a shelf at .*/a\.shelf: Input/output"):
        made_with(tmp_path / "a.shelf", _log)
    assert list(tmp_path.iterdir()) == []


def test_trouble_of_the_store_while_working_is_passed_on(tmp_path: Path) -> None:
    """It is no sign of another bench where no shelf is there."""

    def fail(_: Shelf) -> None:
        raise StoreUnusable("The disk is full.")

    with pytest.raises(StoreUnusable, match="full"):
        made_with(tmp_path / "a.shelf", fail)
    assert list(tmp_path.iterdir()) == []
