"""Where the public demand data of the back-test lies; it is never part of this repository."""

from __future__ import annotations

import os
from pathlib import Path

import pytest


def carparts() -> Path:
    """``SALVAGE_CARPARTS``, or the shared folder beside the checkout; skips where neither is."""
    beside = Path(__file__).resolve().parents[3] / "shared" / "data" / "carparts_wide.csv"
    path = Path(os.environ.get("SALVAGE_CARPARTS", beside))
    if not path.is_file():
        pytest.skip("carparts_wide.csv is not here; SALVAGE_CARPARTS can name it")
    return path
