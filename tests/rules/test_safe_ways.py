"""Pairs of every family against an oracle that knows no rule: never good what is wrong.

The table ``safe_ways.csv`` carries the source of every line.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from inventory.families.sheet import families
from inventory.records import Part, Verdict
from inventory.rules.judge import judge
from inventory.rules.verdict import Judgement, Wanted
from tests.rules.safe_ways import DERIVED, FAMILIES, WAYS, Way, serves_any, together

GOOD = {Verdict.SAME, Verdict.FITS}
Ratings = dict[str, Any]

NEVER_BY_FIGURES = {"interlock_switch", "inverter_board"}
"""Families of which makers want the same type: equal figures are a question."""


def whole(family: str) -> Ratings:
    """A part of a family with everything known."""
    return {way.attribute: way.values[0] for way in FAMILIES[family]}


def without_its_origin(way: Way) -> Ratings:
    """A whole part, but what an attribute could be derived from."""
    origin = DERIVED.get((way.family, way.attribute))
    return {name: value for name, value in whole(way.family).items() if name != origin}


def verdict(family: str, want: Ratings, have: Ratings) -> Verdict:
    """What the rules say of two sets of ratings."""
    return judged(family, want, have).verdict


def judged(family: str, want: Ratings, have: Ratings) -> Judgement:
    """The rules' answer with its reasons."""
    return judge(Wanted(family, ratings=want), Part(family, ratings=have))


def pairs(way: Way) -> Iterator[tuple[Ratings, Ratings]]:
    """Parts that differ in one attribute: every two values of it, and none on the offered."""
    alike = without_its_origin(way)
    for want in way.values:
        for have in (*way.values, None):
            yield {**alike, way.attribute: want}, {**alike, way.attribute: have}


@pytest.mark.parametrize("way", WAYS, ids=lambda way: f"{way.family}-{way.attribute}")
def test_one_attribute_is_judged_as_its_source_says(way: Way) -> None:
    """Lower, higher, different or unknown: never good what is wrong, never refused what is fine."""
    for want, have in pairs(way):
        said, found = together(way.family, want, have), verdict(way.family, want, have)
        told = (want[way.attribute], have[way.attribute], found)

        assert said is not False or found not in GOOD, told
        assert said is not True or found is not Verdict.REFUSED, told


@pytest.mark.parametrize(
    "way",
    [way for way in WAYS if way.must_be_said],
    ids=lambda way: f"{way.family}-{way.attribute}",
)
def test_what_must_be_known_of_the_failed_part_is_asked(way: Way) -> None:
    """Without it no offer is good, however much else agrees, unless the best there is serves."""
    alike = without_its_origin(way)
    want = {name: value for name, value in alike.items() if name != way.attribute}
    found = [verdict(way.family, want, {**alike, way.attribute: value}) for value in way.values]
    each = zip(found, way.values, strict=True)

    assert all(one not in GOOD for one, value in each if not serves_any(way, value))


def test_every_family_stands_in_the_table() -> None:
    """Nothing that is on a sheet goes unattacked."""
    assert set(FAMILIES) == set(families())
    assert all(way.source for way in WAYS)


@pytest.mark.parametrize("family", sorted(set(FAMILIES) - NEVER_BY_FIGURES))
def test_a_part_with_all_its_figures_stands_in_for_its_like(family: str) -> None:
    """Not by doubting everything: what agrees throughout is good."""
    assert verdict(family, whole(family), whole(family)) is Verdict.FITS


# many differences at once ----------------------------------------------------------


@st.composite
def two_parts(draw: st.DrawFn) -> tuple[str, Ratings, Ratings]:
    """A family, a failed part and an offered one, with unknowns on both sides."""
    family = draw(st.sampled_from(sorted(FAMILIES)))
    want: Ratings = {}
    have: Ratings = {}
    for way in FAMILIES[family]:
        value = draw(st.sampled_from(way.values))
        other = draw(st.sampled_from((value, value, value, value, *way.values, None)))
        want[way.attribute] = draw(st.sampled_from((value,) * 12 + (None,)))
        have[way.attribute] = scaled(draw, way, other)
    for (of, name), origin in DERIVED.items():
        if of == family and have[name] is None:
            have[origin] = None  # else it would follow from it
    return family, want, have


def scaled(draw: st.DrawFn, way: Way, value: Any) -> Any:
    """A figure, sometimes a little or much off; every direction."""
    if way.safe == "rank" or isinstance(value, str | list | None):
        return value
    factor = draw(st.sampled_from((1, 1, 1, 1, 1, 0.5, 0.99, 1.01, 2)))
    return round(value * factor, 6)


@settings(max_examples=300, deadline=None)
@given(two_parts())
def test_no_pair_is_good_that_a_source_forbids(drawn: tuple[str, Ratings, Ratings]) -> None:
    """Over all families, several differences and unknowns at once."""
    family, want, have = drawn
    said, found = together(family, want, have), verdict(family, want, have)

    assert said is not False or found not in GOOD
    assert said is not True or found is not Verdict.REFUSED


# the same pair in other words, and worse pairs ----------------------------------------

ORDER = (Verdict.SAME, Verdict.FITS, Verdict.ASK, Verdict.REFUSED)


@settings(max_examples=120, deadline=None)
@given(two_parts(), st.randoms(use_true_random=False))
def test_the_way_a_value_is_spelt_changes_no_verdict(
    drawn: tuple[str, Ratings, Ratings], chance: Any
) -> None:
    """Text for figure, decimal comma, capitals, hyphens, another order of the names."""
    family, want, have = drawn
    again = [(name, respelt(value, chance)) for name, value in have.items()]
    chance.shuffle(again)

    assert verdict(family, want, dict(again)) is verdict(family, want, have)


def respelt(value: Any, chance: Any) -> Any:
    """The same value written another way."""
    if isinstance(value, int | float) and not isinstance(value, bool):
        return chance.choice([value, float(value), str(value), str(value).replace(".", ",")])
    if value in ("yes", "no"):
        return chance.choice([value, value.upper(), value == "yes"])
    if isinstance(value, str) and not any(sign in value for sign in "#-/0123456789"):
        return chance.choice([value, value.upper(), f" {value} ", value.replace(" ", "-")])
    return value


@settings(max_examples=120, deadline=None)
@given(two_parts(), st.data())
def test_an_unknown_more_never_makes_a_verdict_better(
    drawn: tuple[str, Ratings, Ratings], data: st.DataObject
) -> None:
    """Of the offered part: what is not known is never better than what is."""
    family, want, have = drawn
    lost = data.draw(st.sets(st.sampled_from(sorted(have)), min_size=1, max_size=3))
    # what it could be derived from goes with it
    lost |= {DERIVED[family, name] for name in lost if (family, name) in DERIVED}
    less = {name: None if name in lost else value for name, value in have.items()}
    before, after = verdict(family, want, have), verdict(family, want, less)

    # a refusal may become the question what the value is; a good one is only ever doubted
    assert after not in GOOD or before in GOOD


MORE_ASKS = {"ribs"}
"""Where more is safe but does it fit the pulley? Half of too many is then the number wanted."""


@settings(max_examples=120, deadline=None)
@given(two_parts(), st.data())
def test_a_lower_rating_never_makes_a_verdict_better(
    drawn: tuple[str, Ratings, Ratings], data: st.DataObject
) -> None:
    """Where more is safe, half of it is not better; where less is safe, twice of it is not."""
    family, want, have = drawn
    open_to_it = [
        w
        for w in FAMILIES[family]
        if w.safe in {"more", "less"} and have[w.attribute] and w.attribute not in MORE_ASKS
    ]
    if not open_to_it:
        return
    way = data.draw(st.sampled_from(open_to_it))
    factor = 0.5 if way.safe == "more" else 2
    worse = {**have, way.attribute: have[way.attribute] * factor}

    assert ORDER.index(verdict(family, want, worse)) >= ORDER.index(verdict(family, want, have))
