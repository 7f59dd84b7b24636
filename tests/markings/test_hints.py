"""A family that is not asked whether a text is its own would have said no."""

from __future__ import annotations

import re
from collections.abc import Iterator
from functools import cache
from importlib import import_module

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from inventory.markings.grammars import FAMILIES, grammar
from inventory.markings.hints import HINTS, folded, may_be
from inventory.markings.recognise import HEAD
from tests.markings.cases import load

CASES = [
    str(case["text"])
    for name in ("switch_markings.jsonl", "switch_published.jsonl", "part_markings.jsonl",
                 "passive_published.jsonl", "protection_published.jsonl")
    for case in load(name)
]  # fmt: skip
"""Every published marking under test."""


def _patterns(value: object) -> Iterator[re.Pattern[str]]:
    """Patterns in a module's constant, however deep."""
    if isinstance(value, re.Pattern):
        yield value
    elif isinstance(value, tuple | list):
        for one in value:
            yield from _patterns(one)


@cache
def asked(family: str) -> tuple[re.Pattern[str], ...]:
    """The patterns by which a family knows its own."""
    found = grammar(family)
    if found is None:
        return ()
    module = import_module(found.likely.__module__)
    names = found.likely.__code__.co_names
    return tuple(p for name in names for p in _patterns(getattr(module, name, None)))


WITH_PATTERNS = [family for family in FAMILIES if family in HINTS and asked(family)]


def _claims(family: str, text: str) -> bool:
    """Whether the family would say yes."""
    found = grammar(family)
    return found is not None and found.likely(text[:HEAD]) > 0


def test_every_hint_belongs_to_a_family() -> None:
    """A mistyped name would be asked for nothing."""
    assert set(HINTS) <= set(FAMILIES)


@pytest.mark.parametrize("family", sorted(HINTS))
def test_no_published_marking_is_passed_over(family: str) -> None:
    """Over all cases of all families."""
    passed = [
        text for text in CASES if _claims(family, text) and not may_be(family, folded(text[:HEAD]))
    ]
    assert passed == []


@pytest.mark.parametrize("family", WITH_PATTERNS)
@settings(max_examples=50, suppress_health_check=list(HealthCheck), deadline=None)
@given(data=st.data())
def test_what_a_family_knows_is_never_passed_over(family: str, data: st.DataObject) -> None:
    """Texts made from the family's own patterns, alone or with anything around them."""
    pattern = data.draw(st.sampled_from(asked(family)))
    text = data.draw(st.from_regex(pattern, fullmatch=data.draw(st.booleans())))
    assert may_be(family, folded(text[:HEAD])) or not _claims(family, text)


def test_a_rating_asks_few_families() -> None:
    """That is what the hints are for."""
    text = folded("16(4)A 250V~ T85 5E4")
    assert [family for family in HINTS if may_be(family, text)] == []
