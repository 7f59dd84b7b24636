"""Fuzz one target, guided by coverage: ``python -m tests.fuzz.fuzz TARGET FOLDER [OPTION]...``.

Needs ``atheris`` (not a dependency: ``pip install atheris``). The folder takes the inputs that
reached something new; the seeds of the target are read too. Options go to libFuzzer, for
instance ``-max_total_time=1200``.
"""

from __future__ import annotations

import importlib
import pkgutil
import sys
from pathlib import Path


def _import_all(package: str) -> None:
    """Grammars are imported when they are needed; a fuzzer must see into them from the start."""
    for found in pkgutil.iter_modules(importlib.import_module(package).__path__):
        importlib.import_module(f"{package}.{found.name}")


def main() -> None:
    """Run until a limit, or until something breaks."""
    atheris = importlib.import_module("atheris")
    target, folder, *options = sys.argv[1:]
    with atheris.instrument_imports(include=["inventory"]):
        targets = importlib.import_module("tests.fuzz.targets")
        _import_all("inventory.markings")
    seeds = Path(__file__).parent / "seeds" / target
    atheris.Setup([sys.argv[0], folder, str(seeds), *options], targets.TARGETS[target])
    atheris.Fuzz()


if __name__ == "__main__":
    main()
