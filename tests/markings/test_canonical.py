"""A reading written out in one spelling reads back to the same ratings."""

from __future__ import annotations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from inventory.markings import relay, switch
from inventory.markings.canonical import canonical
from inventory.markings.contacts_write import cycles_text, horse_text
from inventory.markings.reader import read
from tests.markings.cases import Case, load

AMPS = st.sampled_from(["0.1", "3", "5", "10", "10.1", "16", "21"])
VOLTS = st.sampled_from(["250V~", "125/250VAC", "AC 400V", "277 V a.c.", "125 V CA"])
DIRECT = st.sampled_from(["30VDC", "DC 28V", "125 V d.c."])


@st.composite
def _ratings(draw: st.DrawFn) -> str:
    """One ampere group as a maker could print it."""
    amps = draw(AMPS)
    kind = draw(st.integers(0, 6))
    if kind == 0:
        return f"{amps}A {draw(DIRECT)}"
    bracket = draw(st.sampled_from(["", "(2)", "(4)", "[60]", "«3»"]))
    load = draw(st.sampled_from(["", "(R)", "(I)", "(B)", "lamp", "general purpose"]))
    if kind == 1:
        return f"{amps}/160A {draw(VOLTS)}"
    if kind == 2:
        return f"{amps}GPA {draw(VOLTS)}"
    if bracket:
        return f"{amps}{bracket}A {draw(VOLTS)}"
    return f"{amps}A {draw(VOLTS)} {load}"


FACTS = st.lists(
    st.sampled_from(
        ["5E4", "25T85", "T85/55", "µ", "IP40", "50-60Hz", "UL508", "GWT 850", "PTI 250", "TV-5"]
    ),
    unique_by=lambda text: "T" if "T8" in text else text,
    max_size=5,
)
MOTORS = st.lists(
    st.sampled_from(["1/2HP 125/250VAC", "1/6 Hp (4.4 FLA)", "2HP 250VAC"]), max_size=2, unique=True
)


@settings(deadline=None)
@given(st.lists(_ratings(), min_size=1, max_size=3), MOTORS, FACTS)
def test_a_rating_group_written_out_reads_back_the_same(
    groups: list[str], motors: list[str], facts: list[str]
) -> None:
    """Switch and relay contacts: canonical form and reading are inverse to each other."""
    text = "; ".join([*groups, *motors]) + " " + " ".join(facts)
    for grammar in (switch, relay):
        first = grammar.read(text)

        assert grammar.read(grammar.canonical(first)).ratings == first.ratings


@pytest.mark.parametrize(
    "case", [*load("switch_markings.jsonl"), *load("switch_published.jsonl")], ids=lambda c: c["id"]
)
def test_published_markings_written_out_read_back_the_same(case: Case) -> None:
    """Every published string, through the dispatcher."""
    family = case.get("family", "switch")
    first = read(case["text"], family)

    assert read(canonical(first), family).ratings == first.ratings


def test_a_text_without_a_canonical_form_is_written_as_it_is() -> None:
    """Damaged text is not rewritten."""
    assert canonical(read("R-l 85OA", "ocr_repair")) == "R-l 85OA"


@pytest.mark.parametrize(
    ("hp", "text"), [(0.1667, "1/6"), (0.1, "1/10"), (1.5, "1 1/2"), (2, "2"), (0.333, "0.333")]
)
def test_horsepower_is_written_as_a_fraction_where_it_is_one(hp: float, text: str) -> None:
    """The fractions of the horsepower scale come back as printed."""
    assert horse_text(hp) == text


@pytest.mark.parametrize(("cycles", "text"), [(50_000, "5E4"), (6_000, "6E3"), (53_000, "53E3")])
def test_endurance_is_written_in_powers_of_ten(cycles: int, text: str) -> None:
    """5E4 = 50 000 (Marquardt, cxswitch)."""
    assert cycles_text(cycles) == text
