"""Three roads are joined, the rules decide, and nothing refused is ever offered."""

from __future__ import annotations

from dataclasses import replace
from random import Random

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from inventory.matching.candidates import find
from inventory.matching.rank import Found
from inventory.records import Edge, Lot, Outcome, Part, Verdict
from inventory.rules.judge import judge
from inventory.rules.verdict import Wanted
from tests.matching.memory_roads import MemoryRoads

LEVER = {
    "resistive_a": 16, "volts_ac": [250], "contact_form": "SPST-NO", "body": "miniature v",
    "actuator": "lever", "actuator_length_mm": 15, "pivot": "standard", "tab_mm": 4.8,
    "tab_thick": 0.5, "hole_pitch_mm": [22.2, 10.3],
}  # fmt: skip
WANTED = Wanted("switch", "16A 250V~ DSA-16", "DSA-16", ratings=LEVER)


def _part(number: int, code: str | None, **other: object) -> Part:
    """A lever switch, but for what is said otherwise."""
    return Part("switch", f"marking {number}", None, code, number, ratings={**LEVER, **other})


def _lot(number: int, state: str = "clicks", *, held: int = 0) -> Lot:
    """One piece of the part type of that number."""
    return Lot(
        number, number, 1, held, state, "A1", "salvaged", source_unit=7, logged_at="2026-01-01"
    )


def _roads(
    *parts: Part, states: dict[int, str] | None = None, edges: list[Edge] | None = None
) -> MemoryRoads:
    """A shelf with one lot of each part type."""
    shelf = {part.id or 0: part for part in parts}
    pieces = {number: [_lot(number, (states or {}).get(number, "clicks"))] for number in shelf}
    return MemoryRoads(shelf, pieces, edges or [])


def _codes(found: Found) -> list[str | None]:
    """Type codes of the stand-ins, best first."""
    return [one.part.type_code for one in found.stand_ins]


def _roads_of(found: Found, code: str) -> set[str]:
    """The roads by which a part was found."""
    every = (*found.stand_ins, *found.refused, *found.not_here)
    return {road.name for one in every if one.part.type_code == code for road in one.roads}


def test_the_same_type_comes_first_however_it_is_written() -> None:
    """Separators do not part two codes; another type that fits stands below."""
    found = find(WANTED, _roads(_part(1, "QX-77"), _part(2, "dsa 16")))

    assert _codes(found) == ["dsa 16", "QX-77"]
    assert [one.verdict for one in found.stand_ins] == [Verdict.SAME, Verdict.FITS]


def test_a_stand_in_with_quite_another_code_is_found_by_its_ratings() -> None:
    """Retrieval is never by text alone."""
    found = find(WANTED, _roads(_part(1, "QX-77")))

    assert _roads_of(found, "QX-77") == {"ratings"}


def test_a_misspelt_code_finds_its_own() -> None:
    """Two signs changed over: the right one is a question, and the first of them."""
    wanted = Wanted("switch", type_code="SZM-V16-FA-36")
    found = find(wanted, _roads(_part(1, "SZM-V16-FB-90"), _part(2, "SZM-V16-FA-63")))

    assert _codes(found)[0] == "SZM-V16-FA-63"
    assert found.stand_ins[0].verdict is Verdict.ASK


def test_a_makers_successor_counts_as_listed() -> None:
    """A supersession is followed forwards and leads to the interlock place too."""
    edges = [Edge("QX-77", "DSA-16", "supersedes", "maker's list 2025")]
    wanted = replace(WANTED, place="primary-interlock")

    found = find(wanted, _roads(_part(1, "QX-77"), edges=edges))

    assert found.stand_ins[0].verdict is Verdict.SAME
    assert "cross-reference" in _roads_of(found, "QX-77")


def test_a_predecessor_is_no_stand_in_for_its_successor() -> None:
    """The edge is not gone backwards: the rules alone judge, and ask at an interlock."""
    edges = [Edge("DSA-16", "QX-77", "supersedes", "maker's list 2025")]
    wanted = replace(WANTED, place="primary-interlock")

    found = find(wanted, _roads(_part(1, "QX-77"), edges=edges))

    assert found.stand_ins[0].verdict is Verdict.ASK
    assert _roads_of(found, "QX-77") == {"ratings"}


def test_a_successor_whose_ratings_disagree_is_no_longer_listed() -> None:
    """The list says yes, the record says 10 A: the step is flagged and the rules refuse."""
    edges = [Edge("QX-77", "DSA-16", "supersedes", "list")]

    found = find(WANTED, _roads(_part(1, "QX-77", resistive_a=10), edges=edges))

    (refused,) = found.refused
    said = [reason.sentence for reason in refused.judgement.reasons]
    assert any("records disagree" in sentence for sentence in said)


def test_two_parts_that_fit_one_unit_do_not_stand_in_for_each_other() -> None:
    """``fits-unit`` finds a part; it never makes it listed."""
    edges = [
        Edge("DSA-16", "HM-2000", "fits-unit", "parts list", place="primary-interlock"),
        Edge("QX-77", "HM-2000", "fits-unit", "parts list", place="primary-interlock"),
    ]
    wanted = replace(WANTED, unit="HM-2000", place="primary-interlock")

    found = find(wanted, _roads(_part(1, "QX-77"), edges=edges))

    assert found.stand_ins[0].verdict is Verdict.ASK
    assert "unit" in _roads_of(found, "QX-77")


def test_the_parts_list_answers_where_nobody_knows_the_old_part() -> None:
    """``find --unit --place`` with no marking: what the list names for the place."""
    edges = [Edge("QX-77", "HM-20##", "fits-unit", "parts list", place="primary-interlock")]
    wanted = Wanted("switch", unit="Haldwick HM-2015", place="primary-interlock")

    found = find(wanted, _roads(_part(1, "QX-77"), edges=edges))

    assert found.stand_ins[0].verdict is Verdict.SAME


def test_past_jobs_that_kept_working_show_a_part_and_settle_nothing() -> None:
    """What worked before is worth a look; failures more than successes are not."""
    roads = _roads(_part(1, "QX-77"), _part(2, "QX-78"))
    roads.jobs = [(1, 3, 1), (2, 1, 1)]
    wanted = Wanted("switch", unit="HM-2015", place="primary-interlock")

    found = find(wanted, roads)

    assert _codes(found) == ["QX-77"]
    assert found.stand_ins[0].verdict is Verdict.ASK


@pytest.mark.parametrize(("both", "verdict"), [(True, Verdict.FITS), (False, Verdict.ASK)])
def test_a_split_is_satisfied_wholly_or_stays_a_question(both: bool, verdict: Verdict) -> None:  # noqa: FBT001
    """A number now sold as two needs both; source: reference/parts.md 2.1."""
    edges = [
        Edge("DSA-16", "QX-77", "splits-into", "list"),
        Edge("DSA-16", "QX-99", "splits-into", "list"),
    ]
    parts = [_part(1, "QX-77"), *([_part(2, "QX-99")] if both else [])]

    found = find(WANTED, _roads(*parts, edges=edges))

    first = next(one for one in found.stand_ins if one.part.type_code == "QX-77")
    assert first.verdict is verdict
    assert any(reason.rule == "whole-set" for reason in first.judgement.reasons)


def test_a_misspelt_code_of_a_cross_reference_is_followed_with_a_doubt() -> None:
    """The chain of the likeliest code is shown; nobody vouches for it."""
    edges = [Edge("DSA-16", "QX-77", "superseded-by", "list")]
    wanted = Wanted("switch", type_code="DSA-61")

    (found,) = find(wanted, _roads(_part(1, "QX-77"), edges=edges)).stand_ins

    assert found.verdict is Verdict.ASK
    assert any("read it again" in reason.sentence for reason in found.judgement.reasons)


def test_a_lot_in_a_bad_state_is_never_offered() -> None:
    """A welded contact refuses the only piece, with the reason."""
    found = find(WANTED, _roads(_part(1, "DSA-16"), states={1: "welded"}))

    assert found.stand_ins == ()
    assert any("welded" in reason.sentence for reason in found.refused[0].judgement.reasons)


def test_the_good_lot_is_offered_beside_a_bad_one() -> None:
    """One welded piece does not spoil the other."""
    roads = _roads(_part(1, "DSA-16"))
    roads.pieces[1] = [_lot(1, "welded"), replace(_lot(1), id=7)]

    (found,) = find(WANTED, roads).stand_ins

    assert [offer.lot.id for offer in found.lots] == [7]


def test_held_pieces_are_not_offered() -> None:
    """A part type whose only piece is promised is known, but not here."""
    roads = _roads(_part(1, "DSA-16"))
    roads.pieces[1] = [_lot(1, held=1)]

    found = find(WANTED, roads)

    assert found.stand_ins == ()
    assert [one.part.type_code for one in found.not_here] == ["DSA-16"]


def test_a_wanted_part_of_no_known_family_is_not_looked_for_by_ratings() -> None:
    """Nothing tells which of them count."""
    found = find(Wanted(None, "DSA-16"), _roads(_part(1, "DSA-16")))

    assert _roads_of(found, "DSA-16") == {"code", "text"}
    assert found.stand_ins[0].verdict is Verdict.ASK


@pytest.mark.parametrize("typed", ["de59 00002a", "DS-400"])
def test_a_marking_that_is_on_record_as_a_code_is_taken_for_it(typed: str) -> None:
    """A tech types an OEM number where a marking is asked for: alias and edge know it."""
    part = replace(_part(1, "DSA-16"), aliases=("DE59-00002A",))
    edges = [Edge("DSA-16", "DS-400", "supersedes", "list")]

    (found,) = find(Wanted("switch", typed), _roads(part, edges=edges)).stand_ins

    assert found.verdict is Verdict.SAME


def test_a_marking_that_is_no_code_stays_a_marking() -> None:
    """Two switches marked alike are not of one type for that."""
    part = _part(1, "DSA-16")

    (found,) = find(Wanted("switch", part.marking), _roads(part)).stand_ins

    assert found.verdict is Verdict.ASK


def test_a_search_for_nothing_finds_nothing() -> None:
    """No marking, no need, no unit."""
    assert find(Wanted("switch"), _roads(_part(1, "DSA-16"))) == Found((), (), ())


def test_the_end_of_a_line_is_said() -> None:
    """A number no longer made is told, once."""
    edges = [Edge("DSA-16", "-", "discontinued", "letter")]

    assert find(WANTED, _roads(edges=edges)).said == ("1. DSA-16 is no longer made (letter)",)


def test_a_record_of_an_unknown_family_can_be_offered_as_a_question_at_best() -> None:
    """A lot of a family without a sheet is judged by nobody."""
    odd = Part("gadget", "DSA-16", None, "DSA-16", 1)

    found = find(Wanted("switch", type_code="DSA-16"), _roads(odd))

    assert all(one.verdict is not Verdict.FITS for one in found.stand_ins)


VALUES = st.fixed_dictionaries(
    {},
    optional={
        "resistive_a": st.sampled_from([5, 10, 16, 21]),
        "volts_ac": st.sampled_from([[125], [250]]),
        "contact_form": st.sampled_from(["SPST-NO", "SPST-NC", "SPDT"]),
        "body": st.sampled_from(["miniature v", "basic"]),
        "tab_mm": st.sampled_from([4.8, 6.3]),
    },
)
STATES = st.sampled_from(["clicks", "welded", "open", "untested"])
EDGE = st.builds(
    Edge,
    st.sampled_from(["DSA-16", "C1", "C2", "C3"]),
    st.sampled_from(["C1", "C2", "C3", "HM-1"]),
    st.sampled_from(["supersedes", "superseded-by", "claimed-equal", "fits-unit", "splits-into"]),
    st.just("list"),
)


@settings(max_examples=60, deadline=None)
@given(
    st.lists(VALUES, min_size=1, max_size=4),
    st.lists(STATES, min_size=4, max_size=4),
    st.lists(EDGE, max_size=4),
    st.sampled_from([None, "primary-interlock", "monitor"]),
    st.randoms(),
)
def test_no_refused_part_is_offered_and_no_order_of_rows_changes_the_answer(
    ratings: list[dict[str, object]],
    states: list[str],
    edges: list[Edge],
    place: str | None,
    chance: Random,
) -> None:
    """Over random shelves: the rules' refusal stands, bad lots stay back, order is the key's."""
    parts = [Part("switch", f"m{n}", None, f"C{n}", n, ratings=r) for n, r in enumerate(ratings, 1)]
    wanted = replace(WANTED, place=place)
    roads = _roads(*parts, states=dict(enumerate(states, 1)), edges=edges)
    shuffled = _shuffled(roads, chance)

    found = find(wanted, roads)

    assert find(wanted, shuffled) == found
    for one in found.stand_ins:
        assert judge(wanted, one.part).verdict is not Verdict.REFUSED
        assert Outcome.REFUSED not in {reason.outcome for reason in one.judgement.reasons}
        assert {offer.lot.state for offer in one.lots} <= {"clicks", "untested"}


def _shuffled(roads: MemoryRoads, chance: Random) -> MemoryRoads:
    """The same shelf with its rows in another order."""
    numbers, edges = list(roads.shelf), list(roads.known)
    chance.shuffle(numbers)
    chance.shuffle(edges)
    shelf = {number: roads.shelf[number] for number in numbers}
    return MemoryRoads(shelf, {n: roads.pieces[n] for n in numbers}, edges)


def test_a_question_of_the_piece_is_one_of_the_offer() -> None:
    """A salvaged fuse without a history is no plain fit, although it tested good."""
    ratings = {"current_a": 5, "time_characteristic": "T", "breaking_class": "L", "voltage_v": 250}
    part = Part("fuse", "T5AL250V", id=1, ratings=ratings)
    lot = Lot(1, 1, 1, 0, "good", "A1", "salvaged")
    new = replace(lot, id=2, origin="new")

    salvaged = find(Wanted("fuse", ratings=ratings), MemoryRoads({1: part}, {1: [lot]}))
    both = find(Wanted("fuse", ratings=ratings), MemoryRoads({1: part}, {1: [lot, new]}))

    assert [one.verdict for one in salvaged.stand_ins] == [Verdict.ASK]
    assert "aged by a surge" in salvaged.stand_ins[0].judgement.reasons[0].sentence
    assert [one.verdict for one in both.stand_ins] == [Verdict.FITS]


def test_where_only_untested_pieces_lie_the_answer_says_so() -> None:
    """Whatever its figures: not known to work is said with the part, once, also to a program."""
    part = _part(1, "QX-77")
    untested = find(WANTED, _roads(part, states={1: "untested"}))
    tested = find(WANTED, _roads(part))

    said = [r.sentence for r in untested.stand_ins[0].judgement.reasons if r.rule == "test-first"]
    assert said == ["Only pieces that nobody has tested lie here: test first."]
    assert all(r.rule != "test-first" for r in tested.stand_ins[0].judgement.reasons)


def test_pieces_that_are_all_held_or_gone_are_not_offered_as_free() -> None:
    """Held for another job, and fitted or scrapped: known, but not here."""
    part = _part(1, "QX-77")
    held = Lot(1, 1, 2, 2, "clicks", "A1", "new")
    gone = Lot(2, 1, 0, 0, "clicks", "A1", "new")

    found = find(WANTED, MemoryRoads({1: part}, {1: [held, gone]}))

    assert found.stand_ins == ()
    assert [one.part.id for one in found.not_here] == [1]
