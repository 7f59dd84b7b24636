"""One door for checkers: a case's ``given`` in, the names of its ``expect`` out.

The published cases are JSON lines of kinds ``limits``, ``identify``, ``compat`` and ``drive``.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import Any

from inventory.errors import WrongInput
from inventory.fasteners.answer_compat import compat
from inventory.fasteners.answer_drive import drive
from inventory.fasteners.answer_identify import identify_answer
from inventory.fasteners.answer_limits import limits_answer

Given = Mapping[str, Any]
Answer = dict[str, Any]

KINDS: dict[str, Callable[[Given], Answer]] = {
    "limits": limits_answer,
    "identify": identify_answer,
    "compat": compat,
    "drive": drive,
}
"""The kinds of case and what answers them."""


def answer(kind: str, given: Given) -> Answer:
    """What this house says to a case; more names than were asked for may come back.

    >>> answer("limits", {"thread": "#10-32", "class": "2B"})["D2_max"]
    0.1736
    """
    if kind not in KINDS:
        raise WrongInput(f"There is no kind of case {kind!r}; use one of {', '.join(KINDS)}.")
    return KINDS[kind](given)
