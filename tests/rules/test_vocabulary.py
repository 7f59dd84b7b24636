"""Nothing that is read is forgotten in silence: every rating name is compared, turned or noted."""

from __future__ import annotations

import ast
import json
from functools import cache
from pathlib import Path
from typing import Any

import pytest

from inventory.families.sheet import families, sheet
from inventory.markings.reader import read
from inventory.rules.vocabulary import NOTED, TRUST, TURNED, noted, rating_names, strangers

TESTS = Path(__file__).parents[1]


@cache
def cases() -> tuple[dict[str, Any], ...]:
    """Every published marking of the case files."""
    lines = [line for path in sorted((TESTS / "cases").glob("*.jsonl"))
             for line in path.read_text("utf-8").splitlines()]  # fmt: skip
    return tuple(row for row in map(json.loads, lines) if "text" in row)


@cache
def texts() -> frozenset[str]:
    """Published markings, and every text the grammars are tested with, in all their forms."""
    written = {row["text"] for row in cases()}
    for path in (TESTS / "markings").glob("*.py"):
        for node in ast.walk(ast.parse(path.read_text("utf-8"))):
            if isinstance(node, ast.Constant) and isinstance(node.value, str):
                written.add(node.value)
    return frozenset(text for text in written if 2 < len(text) < 160 and "\n" not in text)


def names_in(ratings: dict[str, Any]) -> frozenset[str]:
    """Rating names at the top and in the rows of a list of ratings."""
    rows = ratings.get("ratings")
    inner = [row for row in rows if isinstance(row, dict)] if isinstance(rows, list) else []
    return frozenset(name for said in (ratings, *inner) for name in said)


@pytest.mark.parametrize(
    "every", [pytest.param(5, id="some"), pytest.param(1, id="all", marks=pytest.mark.slow)]
)
@pytest.mark.parametrize("family", families())
def test_every_rating_a_grammar_says_is_known_to_the_rules(family: str, every: int) -> None:
    """A rating is compared, turned into one that is, a matter of trust, or noted with a reason."""
    listed = sorted(texts())[::every]
    said = {name for text in listed for name in names_in(dict(read(text, family).ratings))}

    assert not strangers(family, frozenset(said) - {"is_max", "max_a"})


def test_every_expected_rating_of_the_cases_is_known_to_the_rules() -> None:
    """The keys of the published answers too, read or not."""
    known = set(families())
    odd = {
        (family, name)
        for row in cases()
        if (family := row.get("family", "switch")) in known and "expect" in row
        for name in strangers(family, names_in(row["expect"]))
        if name not in {"is_max", "max_a", "candidates_include"}
    }

    assert not odd


def test_a_name_nobody_has_thought_about_is_a_stranger() -> None:
    """The check can fail."""
    assert strangers("switch", frozenset({"resistive_a", "wobble_mm"})) == {"wobble_mm"}


@pytest.mark.parametrize("family", families())
def test_what_is_noted_is_not_compared(family: str) -> None:
    """No name is in two minds, and every note gives its reason."""
    own = NOTED.get(family, {})

    assert not set(own) & rating_names(family)
    assert all(noted(family).values())


def test_trust_is_no_attribute_to_search_by() -> None:
    """Whether a reading is in doubt is answered, not looked for."""
    assert not any(TRUST & rating_names(family) for family in families())


@pytest.mark.parametrize("family", sorted(set(TURNED) - {""}))
def test_what_is_turned_belongs_to_a_family(family: str) -> None:
    """A mistyped family would lose its terms."""
    assert family in families()
    assert not TURNED[family] & {a.name for a in sheet(family).attributes}
