"""Where the files that ship with the package lie, installed or in a checkout."""

from __future__ import annotations

from pathlib import Path

_PACKAGE = Path(__file__).resolve().parent


def shipped(folder: str) -> Path:
    """The folder ``schemas`` or ``demo_inventory``: inside the wheel, or beside the package."""
    inside = _PACKAGE / folder
    return inside if inside.is_dir() else _PACKAGE.parent / folder
