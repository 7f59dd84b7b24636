"""Published markings, read and judged: a part is never refused for another of its own marking.

The markings and their sources are those of ``tests/cases``: makers' data sheets, service manuals
and approval tables.
"""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

import pytest

from inventory.families.sheet import families
from inventory.markings.reader import read, type_code
from inventory.records import Outcome, Part, Reading, Verdict
from inventory.rules.judge import judge
from inventory.rules.verdict import Judgement, Wanted

CASES = Path(__file__).parents[1] / "cases"


def markings() -> list[tuple[str, str | None]]:
    """Every published marking with its family, where that is one with a sheet."""
    rows: list[dict[str, Any]] = [
        json.loads(line)
        for path in sorted(CASES.glob("*.jsonl"))
        for line in path.read_text("utf-8").splitlines()
        if '"text"' in line
    ]
    known = families()
    return sorted({(row["text"], f if (f := row.get("family")) in known else None)
                   for row in rows}, key=str)  # fmt: skip


def against_itself(reading: Reading) -> Judgement:
    """A failed part and a shelf part of one marking, neither with a type code of its own."""
    wanted = Wanted(reading.family, reading.text, ratings=reading.ratings, assumed=reading.assumed)
    return judge(wanted, Part(reading.family, reading.text, ratings=reading.ratings))


@pytest.fixture(scope="module")
def readings() -> list[Reading]:
    """All published markings of parts, read; numbers of models and plates are no parts."""
    every = [read(text, family) for text, family in markings()]
    return [reading for reading in every if reading.family in families()]


def test_there_are_markings_to_judge(readings: list[Reading]) -> None:
    """The cases are found."""
    assert len(readings) > 200


def test_a_marking_is_never_refused_for_itself(readings: list[Reading]) -> None:
    """Whatever a grammar reads, the same reading is no mismatch."""
    refused = [r.text for r in readings if against_itself(r).verdict is Verdict.REFUSED]

    assert not refused


def _several(value: Any) -> bool:
    """Whether a text gives several sizes, so that the one of the part is not said."""
    return isinstance(value, list) and any(isinstance(item, list) for item in value)


def test_what_is_asked_of_an_equal_marking_is_what_it_does_not_say(readings: list[Reading]) -> None:
    """A question about a value both markings carry would be a fault of the rules."""
    odd = [
        (reading.text, reason.sentence)
        for reading in readings
        for reason in against_itself(reading).reasons
        if reason.outcome is Outcome.ASK
        and reason.decides in reading.ratings
        and not _several(reading.ratings[reason.decides or ""])
        and reason.decides not in {"contact_form", "volts_ac", "hp", "needs_review"}
    ]

    assert not odd


def test_the_same_code_is_the_same_type_for_every_published_code(readings: list[Reading]) -> None:
    """Read code against read code, one of them written with spaces."""
    coded = [(r, code) for r in readings if (code := type_code(r)) and len(code) > 4]
    missed = []
    for reading, code in coded:
        wanted = Wanted(reading.family, ratings=reading.ratings, type_code=code)
        other = Part(reading.family, ratings=reading.ratings, type_code=code.replace("-", " "))
        found = judge(wanted, other)
        if all(reason.rule != "same-type" for reason in found.reasons):
            missed.append(code)

    assert len(coded) > 30
    assert not missed
