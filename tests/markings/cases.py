"""Case files of the marking tests: JSON lines, each with its published source."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

_FOLDER = Path(__file__).resolve().parent.parent / "cases"

Case = dict[str, Any]


def load(name: str) -> list[Case]:
    """All cases of one file."""
    lines = (_FOLDER / name).read_text(encoding="utf-8").splitlines()
    return [json.loads(line) for line in lines if line.strip()]
