"""Judged pairs over all families: wanted, offered, verdict and the rule that decides.

Each pair carries its published source, or ``common practice`` or ``from memory``. Real makers and
types stand here only beside such a source.
"""

from __future__ import annotations

import json
from collections import Counter
from pathlib import Path
from typing import Any

import pytest

from inventory.families.sheet import families
from inventory.records import Outcome, Part, Verdict
from inventory.rules.judge import RULES, judge
from inventory.rules.verdict import Judgement, Wanted

PAIRS: list[dict[str, Any]] = [
    json.loads(line)
    for line in (Path(__file__).parent / "judged_pairs.jsonl").read_text("utf-8").splitlines()
]
DECIDES = {"refused": Outcome.REFUSED, "ask": Outcome.ASK, "fits": Outcome.MET, "same": Outcome.MET}


def the_two(pair: dict[str, Any]) -> tuple[Wanted, Part]:
    """The wanted and the offered part of a pair."""
    wanted = Wanted(
        pair["family"], type_code=pair.get("type"), ratings=pair["wanted"],
        place=pair.get("place"), alternates=frozenset(pair.get("alternates", ())),
    )  # fmt: skip
    family = pair.get("offered_family", pair["family"])
    return wanted, Part(family, type_code=pair.get("offered_type"), ratings=pair["offered"])


def judged(pair: dict[str, Any]) -> Judgement:
    """A pair before the judge."""
    return judge(*the_two(pair))


@pytest.mark.parametrize("pair", PAIRS, ids=lambda pair: f"{pair['id']}-{pair['family']}")
def test_a_pair_is_judged_as_the_source_says(pair: dict[str, Any]) -> None:
    """The verdict, and the rule that leads to it."""
    found = judged(pair)
    deciding = {r.rule for r in found.reasons if r.outcome is DECIDES[pair["verdict"]]}

    assert found.verdict is Verdict(pair["verdict"])
    assert pair["rule"] in deciding


def test_every_pair_has_a_source_and_its_own_number() -> None:
    """No judgement without an origin."""
    assert all(pair["source"] for pair in PAIRS)
    assert len({pair["id"] for pair in PAIRS}) == len(PAIRS)


def test_every_family_is_judged_both_ways() -> None:
    """At least two pairs a family, and one of them no plain yes."""
    count = Counter(pair["family"] for pair in PAIRS)
    doubted = {pair["family"] for pair in PAIRS if pair["verdict"] in {"ask", "refused"}}

    assert set(count) == set(families()) == doubted
    assert min(count.values()) >= 2
    assert len(PAIRS) >= 60


def test_the_rules_backwards_judge_the_same() -> None:
    """No refused pair comes out as fits under another order of rules."""
    turned = [pair["id"] for pair in PAIRS
              if judge(*the_two(pair), rules=RULES[::-1]) != judged(pair)]  # fmt: skip

    assert not turned


def test_without_the_deciding_rule_some_pairs_would_pass() -> None:
    """The pairs do test the rules: with attributes unjudged many refusals are lost."""
    fewer = [rule for rule in RULES if rule.__name__ != "attributes_agree"]
    lost = [pair["id"] for pair in PAIRS
            if pair["verdict"] == "refused" and judge(*the_two(pair), rules=fewer).verdict
            is not Verdict.REFUSED]  # fmt: skip

    assert len(lost) > 30
