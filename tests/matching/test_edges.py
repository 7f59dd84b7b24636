"""Cross-references are followed forwards, each step with its source and its doubts."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from random import Random

import pytest
from hypothesis import given
from hypothesis import strategies as st

from inventory.matching.edges import KINDS, Step, Way, best_steps, follow, spoken
from inventory.matching.keys import code_key
from inventory.records import Edge


def _lookup(*edges: Edge) -> Callable[[str], Iterable[Edge]]:
    """The edges as a store would give them: by folded key, at either end."""
    return lambda code: [
        edge
        for edge in edges
        if code_key(code) in {code_key(edge.from_code), code_key(edge.to_code)}
    ]


def _codes(steps: Iterable[Step]) -> list[str]:
    """Where the steps lead."""
    return [step.code for step in steps]


def test_a_supersession_leads_from_the_old_number_to_the_new_one_only() -> None:
    """The reverse is not implied. Source: reference/parts.md 2.1 [S99]."""
    known = _lookup(Edge("DS-410", "DS-400", "supersedes", "list"))

    assert _codes(follow("DS-400", known)) == ["DS-410"]
    assert _codes(follow("DS-410", known)) == []


def test_superseded_by_says_the_same_the_other_way_round() -> None:
    """A list that names the old number first is as good."""
    known = _lookup(Edge("DS-400", "DS-410", "superseded-by", "list"))

    assert _codes(follow("ds 400", known)) == ["DS-410"]
    assert _codes(follow("DS-410", known)) == []


def test_a_chain_keeps_distance_and_every_source() -> None:
    """Each step adds one, and the way can be read back."""
    known = _lookup(
        Edge("A1", "A2", "superseded-by", "list 2019"),
        Edge("A2", "A3", "superseded-by", "list 2023"),
    )

    first, second = follow("A1", known)

    assert (first.distance, second.distance) == (1, 2)
    assert [edge.source for edge in second.path] == ["list 2019", "list 2023"]
    assert second.listed
    assert not second.itself


def test_a_circle_is_entered_once() -> None:
    """Three numbers that supersede each other end after two steps."""
    known = _lookup(
        Edge("A1", "A2", "superseded-by", "list"),
        Edge("A2", "A3", "superseded-by", "list"),
        Edge("A3", "a-1", "superseded-by", "list"),
    )

    assert _codes(follow("A1", known)) == ["A2", "A3"]


def test_a_part_that_fits_a_unit_stands_in_for_nothing() -> None:
    """``fits-unit`` is never followed: neither to the unit nor to other parts of it."""
    known = _lookup(
        Edge("A1", "HM-2000", "fits-unit", "parts list"),
        Edge("B1", "HM-2000", "fits-unit", "parts list"),
    )

    assert _codes(follow("A1", known)) == []
    assert _codes(follow("HM-2000", known)) == []


def test_the_parts_of_a_split_name_each_other() -> None:
    """A number sold as three is replaced by all three; other lists are other splits."""
    known = _lookup(
        Edge("A1", "B1", "splits-into", "list"),
        Edge("A1", "B2", "splits-into", "list"),
        Edge("A1", "B3", "splits-into", "list"),
        Edge("A1", "C1", "splits-into", "another list"),
    )

    steps = {step.code: step for step in follow("A1", known)}

    assert steps["B1"].together_with == ("B2", "B3")
    assert steps["C1"].together_with == ()
    assert not steps["B1"].listed


def test_what_a_split_needs_is_needed_all_along_the_chain() -> None:
    """A successor of one half still needs the other half."""
    known = _lookup(
        Edge("A1", "B1", "splits-into", "list"),
        Edge("A1", "B2", "splits-into", "list"),
        Edge("B1", "B9", "superseded-by", "list"),
    )

    steps = {step.code: step for step in follow("A1", known)}

    assert steps["B9"].together_with == ("B2",)


def test_another_makers_number_is_the_part_itself_both_ways() -> None:
    """One part, two numbers."""
    known = _lookup(Edge("A1", "B1", "other-number", "label"))

    (there,) = follow("A1", known)
    (back,) = follow("B1", known)

    assert there.itself
    assert (there.code, back.code) == ("B1", "A1")


def test_a_listed_alternate_counts_for_its_place_and_unit_only() -> None:
    """An interlock takes an alternate listed for that unit; elsewhere it is a hint."""
    edge = Edge("A1", "B1", "listed-alternate", "label", place="monitor", unit="HM-20##")
    known = _lookup(edge)

    (right,) = follow("A1", known, Way("monitor", "Haldwick HM-2015"))
    (wrong_place,) = follow("A1", known, Way("primary-interlock", "HM-2015"))
    (wrong_unit,) = follow("A1", known, Way("monitor", "HM-3015"))
    (no_unit,) = follow("A1", known, Way("monitor"))

    assert right.listed
    assert wrong_place.doubts == ("listed for monitor only",)
    assert wrong_unit.doubts == no_unit.doubts == ("listed for HM-20## only",)


def test_an_alternate_of_no_named_place_is_a_hint_for_a_named_one() -> None:
    """A general list does not know the door."""
    known = _lookup(Edge("A1", "B1", "listed-alternate", "catalogue"))

    assert not next(follow("A1", known, Way("monitor"))).listed
    assert next(follow("A1", known)).listed


@pytest.mark.parametrize("kind", ["claimed-equal", "part-of-kit"])
def test_a_claim_and_a_kit_find_parts_and_vouch_for_none(kind: str) -> None:
    """A seller's word, or a bag with the part in it, is no maker's list."""
    (step,) = follow("A1", _lookup(Edge("A1", "K1", kind, "shop")))

    assert not step.listed


def test_low_confidence_is_a_doubt() -> None:
    """A source that is not sure vouches for nothing."""
    (step,) = follow("A1", _lookup(Edge("A1", "B1", "superseded-by", "forum", confidence=0.3)))

    assert step.doubts == ("forum is not sure of it",)


def test_a_code_that_only_looks_alike_is_followed_with_a_doubt() -> None:
    """The normally open and the normally closed switch may differ in a B and an 8."""
    (step,) = follow("SZM-8", _lookup(Edge("SZM-B", "SZM-C", "superseded-by", "list")))

    assert not step.listed
    assert "only looks like" in step.doubts[0]


def test_records_that_disagree_flag_the_step_and_all_behind_it() -> None:
    """A chain whose ratings do not fit is broken for trust. Source: reference/parts.md 2.1."""
    known = _lookup(
        Edge("A1", "A2", "superseded-by", "list"),
        Edge("A2", "A3", "superseded-by", "list"),
    )
    way = Way(disagreement=lambda one, _: ["16 A and 10 A"] if one == "A1" else [])

    first, second = follow("A1", known, way)

    assert first.doubts == second.doubts == ("the records disagree: 16 A and 10 A",)


def test_the_end_of_a_line_is_told() -> None:
    """A number no longer made is a state, not an error."""
    (step,) = follow("A1", _lookup(Edge("A1", "-", "discontinued", "letter 2024")))

    assert step.ends
    assert str(step) == "1. A1 is no longer made (letter 2024)"


def test_a_trusted_longer_way_is_given_beside_a_doubtful_short_one() -> None:
    """A shop's claim in one step does not hide the maker's two steps."""
    known = _lookup(
        Edge("A1", "A3", "claimed-equal", "shop"),
        Edge("A1", "A2", "superseded-by", "list"),
        Edge("A2", "A3", "superseded-by", "list"),
    )

    best = best_steps(follow("A1", known))

    assert best["A3"].listed
    assert best["A3"].distance == 2


def test_a_step_reads_as_a_sentence() -> None:
    """Kind, codes, place, unit, source and date; what else is needed; what is doubtful."""
    edge = Edge("A1", "B1", "listed-alternate", "label", place="monitor", unit="HM-1", date="2020")

    assert spoken(edge) == "A1 listed alternate B1 at monitor in HM-1 (label, 2020)"
    assert str(Step("B1", 1, (edge,), ("x",), ("B2",))).endswith("; only together with B2; x")
    assert str(Step("B1", 2, (edge,))) == f"2. B1: {spoken(edge)}"


def test_an_unknown_kind_leads_nowhere() -> None:
    """A row of another program's file does no harm."""
    assert _codes(follow("A1", _lookup(Edge("A1", "B1", "sounds-like", "?")))) == []


CODES = st.sampled_from(["A1", "A2", "A3", "B1", "B2", "C-1", "C1"])
EDGES = st.lists(
    st.builds(
        Edge,
        CODES,
        CODES,
        st.sampled_from(sorted(KINDS)),
        st.sampled_from(["list", "shop"]),
        confidence=st.sampled_from([None, 0.2, 0.9]),
    ),
    max_size=14,
)


@given(EDGES, st.randoms())
def test_following_ends_and_does_not_hang_on_the_order_of_edges(
    edges: list[Edge], chance: Random
) -> None:
    """However the store hands its rows, the same numbers come with the same trust."""
    shuffled = list(edges)
    chance.shuffle(shuffled)

    one = best_steps(follow("A1", _lookup(*edges)))
    other = best_steps(follow("A1", _lookup(*shuffled)))

    assert {key: (s.distance, s.listed, s.itself) for key, s in one.items()} == {
        key: (s.distance, s.listed, s.itself) for key, s in other.items()
    }
    assert "A1" not in one
