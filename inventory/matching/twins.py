"""Two records of one part type: what speaks for it, and what rules it out.

Codes that differ in one real sign are never called twins: of door switches such pairs are the
normally open and the normally closed one (LG MB-308DDD unit label: 63/62, 533/532, 5230/5220).
A person confirms every merger.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from inventory.matching.keys import bare, code_key
from inventory.matching.misreading import SWAPPED, slips
from inventory.records import Part, Value

SHORTEST = 6
"""Codes shorter than this differ by one slip too easily to be one."""

ENOUGH = 2
"""So many equal ratings bear out a likeness that could be chance."""


@dataclass(frozen=True, slots=True)
class Twin:
    """Two part types that look like one, and why."""

    keep: int
    drop: int
    evidence: tuple[str, ...]


def twin(one: Part, other: Part) -> Twin | None:
    """Whether two part types look like one; None where anything on record speaks against it."""
    if one.id is None or other.id is None or one.id == other.id:
        return None
    if one.family != other.family or not _makers_agree(one.maker, other.maker):
        return None
    shared = _shared(one.ratings, other.ratings)
    if any(not same for same in shared.values()):
        return None
    said = _evidence(one, other, len(shared))
    if not said:
        return None
    if shared:
        said = (*said, f"{len(shared)} recorded ratings agree, none differs")
    first, second = sorted((one, other), key=_fullest)
    return Twin(first.id or 0, second.id or 0, said)


def _evidence(one: Part, other: Part, agreeing: int) -> tuple[str, ...]:
    """What speaks for one part type; empty where it is not enough.

    Equal codes are enough, and so are equal markings where no record has a code; anything less
    needs ratings that agree.
    """
    codes, markings = _codes(one, other), _markings(one, other)
    if codes == "":
        return ()
    found = tuple(said for said in (codes, markings) if said)
    deciding = codes if one.type_code or other.type_code else markings
    sure = bool(deciding) and not str(deciding).endswith(_SLIP)
    return found if sure or agreeing >= ENOUGH else ()


_SLIP = "one slip apart"


def _codes(one: Part, other: Part) -> str | None:
    """What the codes say: a sentence, None where one has none, "" where they are two codes."""
    if not (one.type_code and other.type_code):
        return None
    for mine, theirs in ((one, other), (other, one)):
        if bare(mine.type_code or "") in {bare(code) for code in theirs.aliases}:
            return f"{mine.type_code} is another code of {theirs.type_code}"
    return _alike(one.type_code, other.type_code) or ""


def _markings(one: Part, other: Part) -> str | None:
    """What the markings say; None where they say nothing."""
    return _alike(one.marking, other.marking) if one.marking and other.marking else None


def _alike(one: str, other: str) -> str | None:
    """How two texts may be one text."""
    pair = f"{one!r} and {other!r}"
    if one == other:
        return f"both are written {one!r}"
    if bare(one) == bare(other):
        return f"{pair} differ in separators only" if bare(one) else None
    if code_key(one) == code_key(other):
        return f"{pair} differ in look-alike characters only"
    if min(len(bare(one)), len(bare(other))) < SHORTEST or _one_sign(bare(one), bare(other)):
        return None
    return f"{pair} are {_SLIP}" if min(slips(one, other), slips(other, one)) <= SWAPPED else None


def _one_sign(one: str, other: str) -> bool:
    """Whether two codes of one length differ in one place: that may be another version."""
    return len(one) == len(other) and sum(a != b for a, b in zip(one, other, strict=True)) == 1


def _makers_agree(one: str | None, other: str | None) -> bool:
    """Whether two makers can be one; one that nobody wrote down parts nothing."""
    if not one or not other:
        return True
    mine, theirs = bare(one), bare(other)
    return mine.startswith(theirs) or theirs.startswith(mine)


def _shared(one: Mapping[str, Value], other: Mapping[str, Value]) -> dict[str, bool]:
    """Ratings recorded of both, and whether they are the same."""
    return {
        name: _plain(value) == _plain(other[name])
        for name, value in one.items()
        if value is not None and other.get(name) is not None
    }


def _plain(value: Value) -> Value:
    """A value for comparing: figures as floats, words in one case, lists in order."""
    if isinstance(value, list | tuple):
        return sorted(map(_plain, value), key=repr)
    if isinstance(value, int | float) and not isinstance(value, bool):
        return float(value)
    return value.casefold().strip() if isinstance(value, str) else value


def _fullest(part: Part) -> tuple[bool, int, int]:
    """The record that says most comes first; of equals the older one."""
    return (not part.type_code, -len(part.ratings) - len(part.aliases), part.id or 0)
