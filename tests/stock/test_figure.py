"""A survival curve in a file."""

from __future__ import annotations

import sys
from pathlib import Path

import pytest

from inventory.errors import InventoryError, WrongInput
from inventory.stock.figure import survival_figure
from inventory.stock.survival import kaplan_meier

CURVE = kaplan_meier([3, 5, 5, 9], [4, 12, 12])


def test_svg_is_written_and_is_the_same_each_time(tmp_path: Path) -> None:
    """Byte for byte, so that a report can be compared."""
    one = survival_figure(CURVE, tmp_path / "one.svg", title="relay R9").read_bytes()
    two = survival_figure(CURVE, tmp_path / "two.svg", title="relay R9").read_bytes()

    assert one == two
    assert b"<svg" in one


def test_png_is_written(tmp_path: Path) -> None:
    """With its signature."""
    path = survival_figure(CURVE, tmp_path / "curve.PNG")

    assert path.read_bytes()[:8] == b"\x89PNG\r\n\x1a\n"


def test_an_empty_curve_can_be_drawn(tmp_path: Path) -> None:
    """A frame without steps."""
    assert survival_figure(kaplan_meier([]), tmp_path / "empty.svg").is_file()


@pytest.mark.parametrize("name", ["curve.pdf", "curve"])
def test_other_endings_are_refused(tmp_path: Path, name: str) -> None:
    """Nothing is written."""
    with pytest.raises(WrongInput, match=r"\.svg or \.png"):
        survival_figure(CURVE, tmp_path / name)
    assert list(tmp_path.iterdir()) == []


def test_a_missing_library_is_one_sentence(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """It names the extra to install."""
    monkeypatch.setitem(sys.modules, "matplotlib", None)

    with pytest.raises(InventoryError, match=r"pip install 'inventory\[plot\]'"):
        survival_figure(CURVE, tmp_path / "curve.svg")
