"""Imports run one way through the house; heavy libraries stay in the room that needs them."""

from __future__ import annotations

import ast
import subprocess
import sys
from collections.abc import Iterator
from pathlib import Path

import pytest

PACKAGE = Path(__file__).resolve().parent.parent / "inventory"
ORDER = (
    "errors", "units", "records", "resources", "families", "fasteners", "markings", "rules",
    "matching", "stock", "store", "bench", "cli",
)  # fmt: skip
ONLY_IN = {
    "sqlmodel": "store",
    "sqlalchemy": "store",
    "alembic": "store",
    "typer": "cli",
    "rich": "cli",
    "rapidfuzz": "matching",
}


def _sources() -> Iterator[tuple[str, Path]]:
    """Room and path of every module."""
    for path in sorted(PACKAGE.rglob("*.py")):
        first = path.relative_to(PACKAGE).parts[0].removesuffix(".py")
        if first not in ("__init__", "__main__"):
            yield first, path


def _imports(path: Path) -> Iterator[str]:
    """Modules a file imports, at the top or inside a function."""
    for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
        if isinstance(node, ast.Import):
            yield from (alias.name for alias in node.names)
        elif isinstance(node, ast.ImportFrom) and node.module and not node.level:
            yield node.module


def test_every_room_has_its_place_in_the_order() -> None:
    """A new room must be put into the order, or its imports are not checked."""
    assert {room for room, _ in _sources()} <= set(ORDER)


@pytest.mark.parametrize("room", ORDER)
def test_imports_run_down_the_list_only(room: str) -> None:
    """No module imports from a room behind its own in the order."""
    wrong = [
        f"{path.name} imports {name}"
        for its_room, path in _sources()
        if its_room == room
        for name in _imports(path)
        if name.startswith("inventory.")
        and name.split(".")[1] in ORDER
        and ORDER.index(name.split(".")[1]) > ORDER.index(room)
    ]
    assert wrong == []


def test_heavy_libraries_stay_in_their_room() -> None:
    """Only the store knows SQL models, only the command line the screen, only matching fuzz."""
    wrong = [
        f"{room}/{path.name} imports {name}"
        for room, path in _sources()
        for name in _imports(path)
        if ONLY_IN.get(name.split(".")[0], room) != room
    ]
    assert wrong == []


def test_the_package_itself_imports_no_library() -> None:
    """``import inventory`` stays as quick as an empty module."""
    heavy = [*ONLY_IN, "sqlalchemy", "pydantic", "scipy", "numpy"]
    code = f"import sys, inventory; print([m for m in sys.modules if m.split('.')[0] in {heavy}])"
    said = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert said.stdout.strip() == "[]"
