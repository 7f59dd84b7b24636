"""The operators: first what each must let pass, then what it must catch, then what it asks."""

from __future__ import annotations

from typing import Any

import pytest
from hypothesis import example, given
from hypothesis import strategies as st

from inventory.families.sheet import Attribute
from inventory.records import Outcome
from inventory.rules.compare import OPERATORS, compare, deviation, members, numbers, show
from inventory.rules.words import flag, plain_word

MET, NOTE, ASK, NO = Outcome.MET, Outcome.NOTE, Outcome.ASK, Outcome.REFUSED


def line(compare: str, **more: Any) -> Attribute:
    """A line of a sheet."""
    more = {"unit": "mm", "must": True, "source": "common practice", **more}
    return Attribute("x", "thing", compare=compare, **more)


PAIRS: list[tuple[Attribute, Any, Any, Outcome]] = [
    (line("equal"), 5, 5.0, MET),
    (line("equal"), "Pin plunger", "pin-plunger", MET),
    (line("equal"), True, "yes", MET),
    (line("equal"), [5, 20], (5, 20), MET),
    (line("equal"), ["X1", "Y2"], ["Y2", "X1"], MET),
    (line("equal"), 5, 6.3, NO),
    (line("equal"), "lever", "roller", NO),
    (line("equal"), True, "perhaps", NO),
    (line("equal"), False, True, NO),
    (line("equal"), [5, 20], [6.3, 32], NO),
    (line("equal", misfit="ask"), 1, 2, ASK),
    (line("at-least"), 250, 250, MET),
    (line("at-least", unit="V"), 250, [125, 250], MET),
    (line("at-least", unit="°C"), 105, [80, 105], ASK),
    (line("at-least", unit="°C"), [80, 105], [80, 105], MET),
    (line("at-least", unit="W"), [2.5, 3], [2, 4], ASK),
    (line("at-least"), "300/300", "300/500", MET),
    (line("at-least"), 250, 125, NO),
    (line("at-least"), [125, 250], 125, NO),
    (line("at-least"), 250, "mains", ASK),
    (line("at-most"), 25, 15, MET),
    (line("at-most"), 25, 40, NO),
    (line("at-most"), -25, -25, MET),
    (line("at-most"), -25, -10, NO),
    (line("at-least"), -25, -25, MET),
    (line("at-most"), 25, [15, 40], NO),
    (line("at-most"), [15, 40], 25, ASK),
    (line("at-most"), [25, 50], [15, 50], MET),
    (line("at-most"), "warm", 40, ASK),
    (line("within", tolerance=0.05), 1.2, 1.14, MET),
    (line("within", tolerance=0.05), 1.2, 1.1, NO),
    (line("within", tolerance=0.05, ask_tolerance=0.1), 1.2, 1.1, ASK),
    (line("within", tolerance=0.05), 1.2, "about one", ASK),
    (line("within", tolerance=0.05), 240, [120, 240], ASK),
    (line("within", tolerance=0.05), [120, 240], 240, ASK),
    (line("within", tolerance=0.05), 230, [220, 240], MET),
    (line("within", tolerance=0.05), 230, [100, 120], NO),
    (line("covers", tolerance=0.05), [220, 240], 230, MET),
    (line("covers", tolerance=0.05), 230, [220, 240], MET),
    (line("covers", tolerance=0.05), 230, [120, 240], ASK),
    (line("covers", tolerance=0.05), [120, 240], [120, 240], MET),
    (line("covers", tolerance=0.05), 230, 120, NO),
    (line("covers", tolerance=0.05), 230, 21, NO),
    (line("covers", tolerance=0.05, ask_tolerance=0.1), 240, 220, ASK),
    (line("covers", tolerance=0.05), 230, 0, ASK),
    (line("includes"), "SPST-NO", "SPDT", MET),
    (line("includes"), 50, [50, 60], MET),
    (line("includes"), ["Y2"], ["Y1"], MET),
    (line("includes"), False, True, MET),
    (line("includes"), "SPDT", "SPST-NO", NO),
    (line("includes"), "SPST-NO", "SPST-NC", NO),
    (line("includes"), ["Y2"], ["X1"], NO),
    (line("includes"), True, False, NO),
    (line("ranked", order=("L", "E", "H")), "L", "H", MET),
    (line("ranked", order=("L", "E", "H")), "E", "E", MET),
    (line("ranked", order=("L", "E", "H")), "H", "L", NO),
    (line("ranked", order=("L", "E", "H")), "H", "P", ASK),
    (line("fit", tolerance=0.25), [22.2, 10.3], [22.2, 10.4], MET),
    (line("fit", tolerance=0.25), "D shaft", "d-shaft", MET),
    (line("fit", tolerance=0.25), 6.3, 4.8, NO),
    (line("fit", tolerance=0.25), [22.2, 10.3], 22.2, ASK),
    (line("fit", tolerance=0.1, ask_tolerance=0.3), 9.5, 9.7, ASK),
]


@pytest.mark.parametrize(("attribute", "wanted", "offered", "outcome"), PAIRS)
def test_an_operator_answers(
    attribute: Attribute, wanted: Any, offered: Any, outcome: Outcome
) -> None:
    """Two known values side by side."""
    reason = compare(attribute, wanted, offered)

    assert reason is not None
    assert reason.outcome is outcome
    assert (reason.decides == "x") is (outcome is ASK)


def test_a_note_is_never_compared() -> None:
    """What is shown only decides nothing, whatever the values."""
    assert compare(line("note"), 1, 2) is None


def test_nothing_is_said_of_what_is_not_wanted() -> None:
    """An attribute nobody asked for is left to the person."""
    assert compare(line("equal"), None, 5) is None


def test_an_unknown_value_of_the_offered_part_is_a_question() -> None:
    """Source: design section 5: an unknown on a must-attribute gives at best ask."""
    reason = compare(line("equal", effort=3), 5, None)

    assert reason is not None
    assert (reason.outcome, reason.decides, reason.effort) == (ASK, "x", 3)


@pytest.mark.parametrize(("misfit", "outcome"), [("refused", ASK), ("ask", ASK), ("note", NOTE)])
def test_an_unknown_value_is_no_better_than_a_known_misfit(misfit: str, outcome: Outcome) -> None:
    """Leaving a value out of a record is no way to a better verdict."""
    line = Attribute("x", "thing", compare="equal", misfit=misfit, source="common practice")
    reason = compare(line, 5, None)

    assert reason is not None
    assert reason.outcome is outcome


def test_where_the_least_was_wanted_an_unknown_is_no_question() -> None:
    """A bare tab takes any tab; but the normally open throw is no such least."""
    tab = line("ranked", order=("not insulated", "insulated"))
    form = Attribute("contact_form", "contact form", compare="includes", must=True)

    assert compare(tab, "not insulated", None) is None
    assert compare(line("includes"), "no", None) is None
    for asked in (compare(tab, "insulated", None), compare(form, "NO", None)):
        assert asked is not None
        assert asked.outcome is ASK


SENTENCES = [
    (line("at-least", unit="°C", reason="it melts"), 85, None,
     "Thing: not known of the offered part, wanted at least 85 °C: it melts."),
    (line("at-least", unit="V", reason="it breaks 0.6 A d.c."), 250, 125,
     "Thing: 125 V, wanted at least 250 V: it breaks 0.6 A d.c."),
    (line("within", tolerance=0.01, unit="Ω", reason="set by it"), 0.8, 22,
     "Thing: 22 Ω, wanted 0.8 Ω (+2650 %, allowed ± 1 %): set by it."),
]  # fmt: skip


@pytest.mark.parametrize(("used", "wanted", "offered", "said"), SENTENCES)
def test_a_sentence_gives_both_figures_and_why_it_matters(
    used: Attribute, wanted: Any, offered: Any, said: str
) -> None:
    """Lower or unknown, with the unit and the reason, and one full stop."""
    reason = compare(used, wanted, offered)

    assert reason is not None
    assert reason.sentence == said


def test_what_the_failed_part_was_must_be_said_where_the_sheet_asks() -> None:
    """A fuse of unknown class is not replaced by the weakest one."""
    classed = line("ranked", order=("L", "E", "H"), unsaid="ask")
    low, high = compare(classed, None, "L"), compare(classed, None, "H")
    unknown = compare(classed, None, None)

    assert low is not None
    assert high is not None
    assert unknown is not None
    assert (low.outcome, high.outcome, unknown.outcome) == (ASK, MET, ASK)


def test_one_type_has_one_value_nobody_need_record() -> None:
    """Between pieces of one type what is not recorded is alike."""
    assert compare(line("equal"), 5, None, settled=True) is None
    assert compare(line("equal", unsaid="ask"), None, 5, settled=True) is None


def test_a_series_code_does_not_settle_its_value() -> None:
    """A KSD301 comes in every temperature: the same code is not the same part."""
    series = line("equal", beyond_type=True, unsaid="ask")
    unknown, unsaid = compare(series, 85, None, settled=True), compare(series, None, 85)

    assert unknown is not None
    assert unsaid is not None
    assert (unknown.outcome, unsaid.outcome) == (ASK, ASK)


@pytest.mark.parametrize("operator", sorted(OPERATORS))
def test_a_refusal_says_why(operator: str) -> None:
    """The reason on the sheet stands in the sentence."""
    attribute = line(operator, reason="it burns", tolerance=0.01, order=("12", "5"))
    wanted, offered = (5, 12) if operator != "at-least" else (12, 5)
    reason = compare(attribute, wanted, offered)

    assert reason is not None
    assert reason.outcome is NO
    assert reason.sentence.endswith(": it burns.")


VALUES = st.none() | st.booleans() | st.integers(0, 400) | st.text(max_size=8) | st.lists(
    st.integers(0, 400) | st.text(max_size=4), max_size=3
)  # fmt: skip


@example(operator="includes", wanted=False, offered=None)
@example(operator="ranked", wanted="a", offered=None)
@given(st.sampled_from(sorted(OPERATORS)), VALUES, VALUES)
def test_nothing_typed_makes_an_operator_stumble(operator: str, wanted: Any, offered: Any) -> None:
    """Any two values get an answer, and unknown is never met unless the least there is will do."""
    reason = compare(line(operator, tolerance=0.1, order=("a", "b")), wanted, offered)
    ranked_least = operator == "ranked" and plain_word(wanted) == "a"
    will_do = ranked_least or (operator == "includes" and flag(wanted) is False)

    assert (reason is None) is (wanted is None or (offered is None and will_do))
    if reason is not None and offered is None:
        assert reason.outcome is ASK


def test_helpers_read_values_as_written() -> None:
    """Figures, sets and sentences of odd values."""
    assert numbers("3.5/7") == (3.5, 7.0)
    assert numbers([1, "x"]) == ()
    assert deviation(0, 5) is None
    assert deviation(0, 0) == 0  # a 0 Ω jumper of IEC 60062 beside another
    assert members("no") == {"NO"}
    assert members("yes/no") == {"YES", "NO"}
    assert show(["a", 2.5]) == "a/2.5"
