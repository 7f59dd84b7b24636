"""Short ways to say what is wanted, what is offered, and what a rule answered."""

from __future__ import annotations

from typing import Any

from inventory.records import Outcome, Part, Reason
from inventory.rules.judge import judge
from inventory.rules.verdict import Judgement, Wanted


def judged(
    family: str,
    need: dict[str, Any],
    has: dict[str, Any],
    *,
    offered_family: str | None = None,
    offered_code: str | None = None,
    **wanted: Any,
) -> Judgement:
    """Ratings of one family judged; further keywords go to the wanted part."""
    offered = Part(offered_family or family, type_code=offered_code, ratings=has)
    return judge(Wanted(family=family, ratings=need, **wanted), offered)


def answers(judgement: Judgement, rule: str) -> list[Outcome]:
    """The outcomes one rule gave."""
    return [reason.outcome for reason in judgement.reasons if reason.rule == rule]


def answer(judgement: Judgement, rule: str) -> Reason:
    """The one reason a rule gave."""
    (reason,) = [reason for reason in judgement.reasons if reason.rule == rule]
    return reason
