"""Whether what was read off a part can be trusted: a reading in doubt is at best a question.

Grammars say ``needs_review`` where two marks contradict each other, a figure is out of any range,
or the text gives the range of a whole series; ``implausible`` where a rating is printed that
such a part cannot have; ``cf_pair_consistent`` false where two scales disagree.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from functools import lru_cache

from inventory.records import Reason, Value
from inventory.rules.case import Case, ask
from inventory.rules.words import flag

ANSWER = "needs_review"
"""The rating that says a person has to look; ``no`` where one has looked."""

SOURCE = "design section 5: an unknown is at best a question"


def in_doubt(said: Mapping[str, Value]) -> bool:
    """Whether a reading is in doubt and nobody has looked since.

    >>> in_doubt({"needs_review": True}), in_doubt({"implausible": True, "needs_review": "no"})
    (True, False)
    """
    if said.get(ANSWER) is not None:
        return flag(said[ANSWER]) is not False
    odd = said.get("implausible")
    return bool(odd and flag(odd)) or said.get("cf_pair_consistent") is False


def reading_of_the_failed_part_is_sure(case: Case) -> Iterable[Reason]:
    """What is in doubt on the failed part is looked at again before it is believed."""
    if in_doubt(case.need):
        yield ask(
            "reading-wanted",
            f"The marking of the failed part is in doubt: {_doubts(case.wanted.marking, case)}",
            SOURCE,
            ANSWER,
            effort=1,
            of_wanted=True,
        )


def reading_of_the_offered_part_is_sure(case: Case) -> Iterable[Reason]:
    """What is in doubt on the offered part is looked at again before it is fitted."""
    if in_doubt(case.has):
        yield ask(
            "reading-offered",
            f"The marking of the offered part is in doubt: {_doubts(case.offered.marking, case)}",
            SOURCE,
            ANSWER,
            effort=1,
        )


def _doubts(marking: str, case: Case) -> str:
    """What the grammar doubts in a marking, in its own words, and what to do about it."""
    said = _read_again(marking, case.sheet.id) if marking.strip() else ()
    words = " ".join(said[:2]) or "it is marked for review."
    told = any(hint in words for hint in ("look at the part", "read the part", "on the part"))
    return words if told else f"{words} Look at the part."


@lru_cache(maxsize=1_000)
def _read_again(marking: str, family: str) -> tuple[str, ...]:
    """The warnings of a marking; the record keeps only that there are some."""
    from inventory.markings.reader import read  # most readings are in no doubt

    return read(marking, family).warnings
