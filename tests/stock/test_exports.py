"""What ``inventory.stock`` offers, and what it costs to ask for it."""

from __future__ import annotations

import ast
import subprocess
import sys
from pathlib import Path

import pytest

from inventory import stock

NAMED_IN_THE_TASK = (
    "poisson_newsvendor",
    "base_stock",
    "rq_policy",
    "gamma_poisson_level",
    "croston",
    "sba",
    "tsb",
    "demand_class",
    "beta_binomial_yield",
    "pull_value",
    "wilson",
    "jeffreys",
    "mtbf_interval",
    "kaplan_meier",
)


@pytest.mark.parametrize("name", NAMED_IN_THE_TASK)
def test_the_named_formulas_are_there(name: str) -> None:
    """Each can be fetched from the package and called."""
    assert callable(getattr(stock, name))


def test_every_listed_name_exists_and_says_what_it_is() -> None:
    """No name is promised that its module does not keep; each has a docstring."""
    assert all(getattr(stock, name).__doc__ for name in dir(stock))


def test_no_public_name_hides_a_module() -> None:
    """A name that is also a module would turn into the module once that is imported."""
    homes = {stock._HOME[name] for name in dir(stock)}

    assert homes.isdisjoint(dir(stock))


def test_type_checkers_see_what_is_fetched() -> None:
    """The imports for type checkers and the table of homes name the same things."""
    source = Path(stock.__file__).read_text(encoding="utf-8")
    seen = {
        (alias.name, str(node.module).rpartition(".")[2])
        for node in ast.walk(ast.parse(source))
        if isinstance(node, ast.ImportFrom) and str(node.module).startswith("inventory.stock.")
        for alias in node.names
    }

    assert seen == set(stock._HOME.items())


def test_an_unknown_name_is_an_attribute_error() -> None:
    """Asking for what is not there fails as with any module."""
    with pytest.raises(AttributeError, match="no attribute 'crystal_ball'"):
        _ = stock.crystal_ball


def test_a_plain_level_needs_no_scipy() -> None:
    """Levels, intervals by Wilson and pull values run on ``math`` alone."""
    code = (
        "import sys; from inventory.stock import *; import inventory.stock as s;"
        "s.gamma_poisson_level(6, 8); s.wilson(1, 2); s.mtbf_interval(800, 2);"
        "s.pull_value(1, post_a=1, post_b=2, v=9, cost=1); s.rq_policy(1, 9, 5, 1, 1);"
        "sys.exit(int('numpy' in sys.modules or 'scipy' in sys.modules))"
    )

    assert subprocess.run([sys.executable, "-c", code], check=False).returncode == 0
