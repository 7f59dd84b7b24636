"""The whole judge: one refusal refuses, one question asks, and no order matters."""

from __future__ import annotations

import random
from typing import Any

from hypothesis import given, settings
from hypothesis import strategies as st

from inventory.families.sheet import families, sheet
from inventory.records import Outcome, Part, Verdict
from inventory.rules.judge import RULES, SEVERITY, judge
from inventory.rules.place_list import PLACES
from inventory.rules.verdict import Judgement, Wanted
from tests.rules.bench import answers, judged

WORDS = ("SPST-NO", "SPST-NC", "SPDT", "X1", "X2", "Y2", "T", "F", "L", "H", "auto",
         "manual", "none", "steel", "tapping", "machine",
         "pin plunger", "insulated", "electrolytic")  # fmt: skip


def values() -> st.SearchStrategy[Any]:
    """A rating as grammars, tables and hands leave it."""
    figure = st.sampled_from([0.5, 1, 2, 5, 10, 16, 50, 60, 85, 125, 145, 250, 2100])
    word = st.sampled_from(WORDS)
    return st.one_of(st.none(), figure, word, st.booleans(), st.lists(figure | word, max_size=2))


def ratings(family: str) -> st.SearchStrategy[dict[str, Any]]:
    """Some ratings of a family, known and unknown."""
    names = [attribute.name for attribute in sheet(family).attributes]
    group = st.fixed_dictionaries({"resistive_a": st.integers(1, 20),
                                   "volts_ac": st.sampled_from([[125], [250]])})  # fmt: skip
    plain = st.dictionaries(st.sampled_from(names), values(), max_size=10)
    with_groups = st.builds(lambda said, rows: {**said, "ratings": rows}, plain,
                            st.lists(group, min_size=1, max_size=3))  # fmt: skip
    return st.one_of(plain, with_groups)


@st.composite
def cases(draw: st.DrawFn) -> tuple[Wanted, Part]:
    """A wanted and an offered part of one family, often alike."""
    family = draw(st.sampled_from(families()))
    need = draw(ratings(family))
    has = draw(st.one_of(st.just(need), ratings(family)))
    where = draw(st.none() | st.sampled_from(sorted(PLACES)))
    code = draw(st.none() | st.sampled_from(["AB-1234", "AB-1235", "AB-1234K"]))
    theirs = draw(st.none() | st.sampled_from(["AB-1234", "AB-1235"]))
    wanted = Wanted(family, type_code=code, ratings=need, place=where)
    return wanted, Part(family, type_code=theirs, ratings=has)


def shuffled(said: dict[str, Any], dice: random.Random) -> dict[str, Any]:
    """The same ratings in another order, groups too."""
    names = list(said)
    dice.shuffle(names)
    turned = {name: said[name] for name in names}
    if isinstance(turned.get("ratings"), list):
        turned["ratings"] = dice.sample(turned["ratings"], len(turned["ratings"]))
    return turned


@settings(max_examples=120, deadline=None)
@given(cases(), st.randoms(use_true_random=False))
def test_no_order_of_rules_or_ratings_changes_the_verdict(
    case: tuple[Wanted, Part], dice: random.Random
) -> None:
    """What is refused is refused under any order of rules, ratings and rating groups."""
    wanted, offered = case
    rules = list(RULES)
    dice.shuffle(rules)
    turned = Wanted(wanted.family, type_code=wanted.type_code, place=wanted.place,
                    ratings=shuffled(dict(wanted.ratings), dice))  # fmt: skip
    other = Part(offered.family, type_code=offered.type_code,
                 ratings=shuffled(dict(offered.ratings), dice))  # fmt: skip

    assert judge(turned, other, rules=rules) == judge(wanted, offered)


@settings(max_examples=120, deadline=None)
@given(cases())
def test_a_refused_pair_never_fits(case: tuple[Wanted, Part]) -> None:
    """The verdict is the worst reason, and every question says what would decide it."""
    found = judge(*case)
    outcomes = {reason.outcome for reason in found.reasons}

    assert (found.verdict is Verdict.REFUSED) == (Outcome.REFUSED in outcomes)
    if found.verdict in {Verdict.FITS, Verdict.SAME}:
        assert not outcomes & {Outcome.ASK, Outcome.REFUSED}
    assert all(reason.decides for reason in found.asks())
    assert all(reason.sentence and reason.source for reason in found.reasons)
    assert 0.0 <= found.closeness <= 1.0


@settings(max_examples=100, deadline=None)
@given(cases(), st.data())
def test_forgetting_a_rating_never_makes_a_refused_part_fit(
    case: tuple[Wanted, Part], data: st.DataObject
) -> None:
    """An unknown rating of the offered part is never better than a known one was bad."""
    wanted, offered = case
    musts = {a.name for a in sheet(offered.family).attributes if a.must and a.misfit == "refused"}
    known = sorted(set(offered.ratings) & musts & {n for n, v in wanted.ratings.items() if v})
    if not known or wanted.type_code == offered.type_code:
        return
    lost = data.draw(st.sampled_from(known))
    less = {name: value for name, value in offered.ratings.items() if name != lost}
    found = judge(wanted, Part(offered.family, type_code=offered.type_code, ratings=less))

    if not {"ratings", "tab_mm", "contact"} & set(offered.ratings):
        assert found.verdict is not Verdict.FITS or _still_said(wanted, less, lost)


def _still_said(wanted: Wanted, less: dict[str, Any], lost: str) -> bool:
    """Whether another rating says the same, or the rating is no comparison of its own."""
    attribute = sheet(wanted.family or "other").attribute(lost)
    return attribute is None or bool(attribute.load) or any(n in less for n in attribute.also_named)


def test_reasons_come_with_what_decides_first() -> None:
    """Refusals, then questions with the least effort first, then the rest."""
    need = {"current_a": 5, "time_characteristic": "T", "size_mm": [5, 20], "breaking_class": "H"}
    found = judged("fuse", need, {"current_a": 6.3, "time_characteristic": "T"})
    order = [SEVERITY.index(reason.outcome) for reason in found.reasons]
    efforts = [reason.effort for reason in found.asks()]

    assert order == sorted(order)
    assert efforts == sorted(efforts)
    assert found.reasons[0].rule == "current_a"


def test_what_nobody_said_of_the_failed_part_is_one_line() -> None:
    """It decides nothing, but it is not hidden."""
    said = {"resistive_a": 5, "volts_ac": [250], "contact_form": "SPDT"}
    found = judged("switch", said, said)
    (line,) = [reason for reason in found.reasons if reason.rule == "not-said"]

    assert line.outcome is Outcome.NOTE
    assert "body size" in line.sentence
    assert found.verdict is Verdict.FITS


def closeness(need: Any, has: Any, name: str = "power_w", family: str = "resistor") -> float:
    """The closeness of one rating."""
    return judged(family, {name: need}, {name: has}).closeness


def test_closeness_is_head_room_without_excess() -> None:
    """Exact and ample are best, then it falls; unknown is nothing. Common practice."""
    exact, ample, twice, ten = (closeness(1, has) for has in (1, 1.25, 2, 10))

    assert exact == ample == 1.0
    assert ample > twice > ten > closeness(1, None) == 0.0


def test_closeness_of_a_tolerance_falls_with_the_distance() -> None:
    """1.14 for 1.2 µF is nearer than 1.08."""
    near = closeness(1.2, 1.14, "capacitance_uf", "hv_capacitor")

    assert near > closeness(1.2, 1.08, "capacitance_uf", "hv_capacitor")


def test_closeness_of_words_is_all_or_nothing() -> None:
    """A base fits or it does not; two zeros are alike, zero and one are not."""
    assert closeness("E14", "E14", "base", "lamp") == 1.0
    assert closeness("E14", "E17", "base", "lamp") == 0.0
    assert closeness(0, 0) == 1.0
    assert closeness(0, 1) == 0.0


def test_nothing_wanted_is_no_close_fit() -> None:
    """Where nothing is known of the need, nothing is close to it."""
    assert judged("tray", {}, {"diameter_mm": 255}).closeness == 0.0


def test_a_judgement_lists_its_questions_by_effort() -> None:
    """A look before a caliper before a data sheet."""
    found: Judgement = judged("fuse", {"current_a": 5, "size_mm": [5, 20]}, {})

    assert [reason.effort for reason in found.asks()] == sorted(r.effort for r in found.asks())
    assert answers(found, "size_mm") == [Outcome.ASK]


def test_what_the_tech_states_of_the_place_wins() -> None:
    """A stated need replaces the failed part's own value; what nobody said is not known."""
    wanted = Wanted("fuse", ratings={"current_a": 5, "voltage_v": 250}, needs={"current_a": 4})

    assert [wanted.value(name) for name in ("current_a", "voltage_v", "size_mm")] == [4, 250, None]
