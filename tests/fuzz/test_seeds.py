"""The inputs a fuzzer found worth keeping, played again on every run."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.fuzz.targets import TARGETS

SEEDS = sorted((Path(__file__).parent / "seeds").glob("*/*"))


@pytest.mark.parametrize("seed", SEEDS, ids=lambda path: f"{path.parent.name}-{path.name}")
def test_a_kept_input_breaks_nothing(seed: Path) -> None:
    """What once broke something, or reached a corner, is read or refused in one sentence."""
    TARGETS[seed.parent.name](seed.read_bytes())


def test_every_target_has_seeds() -> None:
    """A folder that is empty would make the test above say nothing."""
    assert {path.parent.name for path in SEEDS} == set(TARGETS)
