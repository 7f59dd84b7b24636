"""The examples in the docstrings of the stock formulas are run."""

from __future__ import annotations

import doctest
import pkgutil
from importlib import import_module

import pytest

import inventory.stock

MODULES = [name for _, name, _ in pkgutil.iter_modules(inventory.stock.__path__)]
FORMULAS = ("reorder", "lots", "fill", "demand", "prior", "yields", "worth", "intervals", "wear")


@pytest.mark.parametrize("name", MODULES)
def test_the_examples_of_a_module_hold(name: str) -> None:
    """Every docstring example prints what it says."""
    failed, _ = doctest.testmod(import_module(f"inventory.stock.{name}"))

    assert failed == 0


@pytest.mark.parametrize("name", FORMULAS)
def test_a_formula_module_has_examples(name: str) -> None:
    """The modules with the formulas carry at least two examples each."""
    _, tried = doctest.testmod(import_module(f"inventory.stock.{name}"))

    assert tried >= 2
