"""The examples in the docstrings are run."""

from __future__ import annotations

import doctest
import importlib
import pkgutil

import pytest

import inventory.fasteners

MODULES = ["inventory.fasteners"] + [
    f"inventory.fasteners.{found.name}"
    for found in pkgutil.iter_modules(inventory.fasteners.__path__)
]


@pytest.mark.parametrize("name", MODULES)
def test_the_examples_of_a_module_are_true(name: str) -> None:
    """Every example gives what it shows."""
    assert doctest.testmod(importlib.import_module(name)).failed == 0


def test_there_are_examples_to_run() -> None:
    """The formulas and readers show at least one each."""
    tried = sum(doctest.testmod(importlib.import_module(name)).attempted for name in MODULES)

    assert tried >= 18
