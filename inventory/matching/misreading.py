"""How far what was typed is from a marking, in the slips a tech and a worn plate make.

A weighted edit distance with swaps of neighbours (optimal string alignment) over the unfolded
text, in which a likely slip costs little. One ordinary slip (a sign missed) costs 1.
The weights are common practice, set by hand and not fitted to the benchmark's own model.
"""

from __future__ import annotations

from inventory.matching.keys import spaced

MISSED = 1.0
"""A sign of the marking was not typed."""

DOUBLED = 0.9
"""A sign was typed twice."""

ADDED = 1.5
"""A sign was typed that the marking does not have."""

SWAPPED = 1.0
"""Two neighbours changed places."""

OTHER_SIGN = 1.5
"""A sign was read as one it does not look like."""

SEPARATOR_MISSED = 0.15
"""A hyphen, space or slash of the marking was not typed."""

SEPARATOR_ADDED = 0.35
"""A separator was typed that the marking does not have."""

DECIMAL_MISSED = 0.6
"""A decimal sign was not typed: 2.5 is not 25."""

TAIL_MISSED = 0.9
"""The end of the marking could not be read, whatever its length ..."""

TAIL_SIGN = 0.12
"""... and a little for each sign of it."""

LONGEST = 40
"""Longer texts are compared on so many signs."""

_SIGNS = "0123456789ABCDEFGHIJKLMNOPQRSTUVWXYZ"
_CLOSE = ("0ODQ", "1IL", "5S", "8B", "2Z", "6G")
_NEARLY = ("17", "38", "49", "6CG", "UVY", "KX", "EF", "MN", "CO0", "PR", "HN", "B3", "TI1", "J1")
"""Pairs met in handwriting and OCR. Source: reference/parts.md 3.1; the last five from memory."""


def _reading_costs() -> dict[str, dict[str, float]]:
    """What it costs to type the first sign for the second."""
    costs = {sign: dict.fromkeys(_SIGNS, OTHER_SIGN) | {"-": 9.0, ".": 9.0} for sign in _SIGNS}
    for groups, cost in ((_NEARLY, 0.9), (_CLOSE, 0.4)):
        for group in groups:
            for sign in group:
                costs[sign] |= dict.fromkeys(group, cost)
    for sign in _SIGNS:
        costs[sign][sign] = 0.0
    separators = dict.fromkeys(_SIGNS, 9.0)
    costs["-"] = {**separators, "-": 0.0, ".": 0.3}
    costs["."] = {**separators, "-": 0.3, ".": 0.0}
    return costs


_COSTS = _reading_costs()
_MISSED = dict.fromkeys(_SIGNS, MISSED) | {"-": SEPARATOR_MISSED, ".": DECIMAL_MISSED}


def slips(typed: str, marking: str) -> float:
    """The cheapest set of slips that makes ``typed`` of ``marking``; 0 where nothing slipped.

    >>> slips("R-l 85OA", "R-1850A") < slips("R-1850B", "R-1850A")
    True
    """
    return spaced_slips(spaced(typed)[:LONGEST], spaced(marking)[:LONGEST])


def spaced_slips(typed: str, marking: str) -> float:
    """``slips`` of two texts that are already in the form of ``keys.spaced``."""
    if typed == marking:
        return 0.0
    size = len(marking)
    start = _shared(typed, marking)
    last = _last_row(typed[start:], marking[start:])
    cut = (last[at - start] + TAIL_SIGN * (size - at) for at in range(max(start, 3), size - 1))
    return min(last[-1], TAIL_MISSED + min(cut, default=last[-1]))


def _shared(typed: str, marking: str) -> int:
    """How many signs both begin with, less the last: it tells whether the next is doubled."""
    at = 0
    for sign, other in zip(typed, marking, strict=False):
        if sign != other:
            break
        at += 1
    return max(at - 1, 0)


def _last_row(typed: str, marking: str) -> list[float]:
    """The cost of all of ``typed`` against each beginning of ``marking``."""
    missed = [_MISSED[sign] for sign in marking]
    row = [0.0]
    for cost in missed:
        row.append(row[-1] + cost)
    before: list[float] = []
    last = ""
    for at, sign in enumerate(typed):
        added = _added(sign, last, typed[at + 1 : at + 2])
        costs = _COSTS[sign]
        above = row
        best = above[0] + added
        row = [best]
        for place, other in enumerate(marking):
            best += missed[place]
            # no min(): this is the innermost loop of a search, and a call would double its time
            cost = above[place] + costs[other]
            if cost < best:  # noqa: PLR1730
                best = cost
            cost = above[place + 1] + added
            if cost < best:  # noqa: PLR1730
                best = cost
            if place and at and sign == marking[place - 1] and last == other:
                cost = before[place - 1] + SWAPPED
                best = min(best, cost)
            row.append(best)
        before, last = above, sign
    return row


def _added(sign: str, last: str, following: str) -> float:
    """What a typed sign costs that the marking does not have."""
    if sign in "-.":
        return SEPARATOR_ADDED
    return DOUBLED if sign in (last, following) else ADDED
