"""The demo shop: made whole or not at all, and a shelf without a fault."""

from __future__ import annotations

from pathlib import Path

import pytest

from inventory.bench import demo
from inventory.bench.find import Query, find
from inventory.bench.low import low
from inventory.errors import InventoryError, Refused, StoreUnusable
from inventory.store.check import check
from inventory.store.shelf import open_shelf


def test_the_demo_is_a_shelf_without_a_fault(tmp_path: Path) -> None:
    """Its failed switch finds a stand-in at the door, and its report something short."""
    demo.make_demo(tmp_path / "demo.shelf")
    shelf = open_shelf(str(tmp_path / "demo.shelf"))
    assert check(shelf) == []
    found = find(shelf, Query(demo.FAILED, place=demo.PLACE, unit=demo.UNIT))
    assert found.stand_ins
    assert low(shelf, as_of=demo.AS_OF).short()
    shelf.close()


def test_a_shelf_that_is_there_is_left_alone(tmp_path: Path) -> None:
    """Somebody's stock is not a demo."""
    path = tmp_path / "mine.shelf"
    path.write_bytes(b"mine")
    with pytest.raises(Refused, match="name another with --to"):
        demo.make_demo(path)
    assert path.read_bytes() == b"mine"


def test_a_dry_demo_leaves_nothing(tmp_path: Path) -> None:
    """No shelf and no draft of one."""
    demo.make_demo(tmp_path / "demo.shelf", dry_run=True)
    assert list(tmp_path.iterdir()) == []


@pytest.mark.parametrize("broken", ["missing", "spoilt"])
def test_an_installation_without_the_demo_s_file_makes_no_half_demo(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, broken: str
) -> None:
    """One sentence; the next try finds nothing in its way."""
    (tmp_path / "there").mkdir()
    if broken == "spoilt":
        (tmp_path / "there" / "shelf.json").write_text("{}", encoding="utf-8")
    monkeypatch.setattr(demo, "shipped", lambda _name: tmp_path / "there")
    error = StoreUnusable if broken == "missing" else InventoryError
    with pytest.raises(error, match=r"shelf\.json"):
        demo.make_demo(tmp_path / "demo.shelf")
    assert [one.name for one in tmp_path.iterdir()] == ["there"]


def test_of_two_benches_one_makes_it(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """The slower one is told so."""
    monkeypatch.setattr(demo, "made_with", lambda *_args, **_said: None)
    with pytest.raises(Refused, match="Another bench made a shelf"):
        demo.make_demo(tmp_path / "demo.shelf")
