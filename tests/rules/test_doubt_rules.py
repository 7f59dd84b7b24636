"""A reading in doubt is at best a question, on either side, whatever else speaks for the part."""

from __future__ import annotations

from typing import Any

import pytest

from inventory.markings.reader import read
from inventory.records import Outcome, Part, Verdict
from inventory.rules.doubt_rules import in_doubt
from inventory.rules.judge import judge
from inventory.rules.verdict import Wanted
from tests.rules.bench import answer, answers

DOUBTED = [
    ("hv_capacitor", "2100VAC 0.88uF CH85-21075", "Conflict: code 0.75 µF, plain figure 0.88 µF"),
    ("thermal_cutout", "AC 125V max 15A; AC250V 5A 10A 15A max 16A", "the range of a series"),
    ("motor_turntable", "AC220-240V 2.5.3 RPM 3/2.5Watts", "2.5.3 is read as 2.5/3"),
    ("switch", "10A/250VDC", "far above what such a contact breaks"),
    ("thermal_cutout", "Auto reset 31°F (35°C)", "35 °C is 95 °F, not 31 °F"),
    ("fuse", "T5AL250V F5AL250V", "is printed twice and differs"),
]
"""Published markings that contradict themselves; sources in tests/cases (P033, P023, P039, sw096)
and Q080; one is the damaged text of a service manual (Samsung MD1200WD, reset -35 °C); the last is
synthetic: two speeds on one fuse."""


@pytest.mark.parametrize(("family", "text", "said"), DOUBTED)
def test_a_doubted_marking_offered_is_a_question(family: str, text: str, said: str) -> None:
    """The reason names what is in doubt and sends the tech to the part."""
    reading = read(text, family)
    found = judge(Wanted(family, ratings={}), Part(family, text, ratings=reading.ratings))
    reason = answer(found, "reading-offered")

    assert (reason.outcome, reason.effort, reason.of_wanted) == (Outcome.ASK, 1, False)
    assert said in reason.sentence
    assert "the part" in reason.sentence.rpartition(":")[2]
    assert found.verdict in {Verdict.ASK, Verdict.REFUSED}


@pytest.mark.parametrize(("family", "text", "said"), DOUBTED)
def test_a_doubted_marking_wanted_is_a_question(family: str, text: str, said: str) -> None:
    """What the failed part needs is not known as long as its marking is in doubt."""
    wanted = Wanted(family, text, ratings=read(text, family).ratings)
    reason = answer(judge(wanted, Part(family, ratings=wanted.ratings)), "reading-wanted")

    assert (reason.outcome, reason.of_wanted) == (Outcome.ASK, True)
    assert said in reason.sentence


@pytest.mark.parametrize(("family", "text", "said"), DOUBTED)
def test_the_same_type_does_not_lift_the_doubt(family: str, text: str, said: str) -> None:
    """Even the very same code is looked at: one of the two figures on it is wrong."""
    ratings = read(text, family).ratings
    wanted = Wanted(family, text, type_code="QX-4711", ratings=ratings)
    found = judge(wanted, Part(family, text, type_code="QX-4711", ratings=ratings))

    assert found.verdict is Verdict.ASK, said


def both(**said: Any) -> tuple[Wanted, Part]:
    """A fuse for a fuse, the offered one with something more to say."""
    plain = {"current_a": 5, "time_characteristic": "T", "breaking_class": "L", "voltage_v": 250}
    return Wanted("fuse", ratings=plain), Part("fuse", ratings={**plain, **said})


def test_without_a_doubt_the_fuse_fits() -> None:
    """What the next tests take away."""
    assert judge(*both()).verdict is Verdict.FITS


def test_a_look_lifts_the_doubt() -> None:
    """``needs_review = no`` is stored once a person has looked."""
    assert judge(*both(needs_review=True)).verdict is Verdict.ASK
    assert judge(*both(needs_review=False)).verdict is Verdict.FITS
    assert judge(*both(implausible=True, needs_review="no")).verdict is Verdict.FITS


def test_a_doubt_without_a_marking_is_still_said() -> None:
    """The record says so although nothing is left to read again."""
    reason = answer(judge(*both(needs_review=True)), "reading-offered")

    assert "marked for review" in reason.sentence


def test_a_stated_look_lifts_the_doubt_of_the_failed_part() -> None:
    """``--need needs_review=no``: the tech has looked at it."""
    ratings = {**both()[0].ratings, "needs_review": True}
    sure = Wanted("fuse", ratings=ratings, needs={"needs_review": False})

    assert answers(judge(Wanted("fuse", ratings=ratings), both()[1]), "reading-wanted")
    assert judge(sure, both()[1]).verdict is Verdict.FITS


SURE: list[dict[str, Any]] = [
    {}, {"needs_review": False}, {"cf_pair_consistent": True}, {"implausible": False},
    {"repaired": ["2.5.3 -> 2.5/3"], "needs_review": "no"},
]  # fmt: skip


@pytest.mark.parametrize("said", SURE)
def test_a_sure_reading_is_in_no_doubt(said: dict[str, Any]) -> None:
    """Silence is no doubt."""
    assert not in_doubt(said)


def test_two_scales_that_disagree_are_a_doubt() -> None:
    """35 °C is not 31 °F."""
    assert in_doubt({"cf_pair_consistent": False})
    assert in_doubt({"needs_review": "perhaps"})
