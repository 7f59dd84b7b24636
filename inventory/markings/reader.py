"""One way in for every marking: a family's grammar, or the family recognised from the text."""

from __future__ import annotations

from dataclasses import replace

from inventory.errors import WrongInput
from inventory.markings import plain
from inventory.markings.contacts_write import code_text
from inventory.markings.damage import look_alike_candidates
from inventory.markings.evened import evened
from inventory.markings.grammars import FAMILIES, family_named, grammar
from inventory.markings.recognise import LEAST, others, ranked, what_decides
from inventory.records import Reading


def read(text: str, family: str | None = None) -> Reading:
    """Read a marking, as one of a family when that is known.

    Without a family the text is ranked; a second family that comes near is named in
    ``others``, with a warning that says what would decide. An unknown family is refused.
    """
    even = evened(text)
    return even.back(_read(even.text, family))


def _read(text: str, family: str | None) -> Reading:
    """The reading of an even text."""
    if family is not None:
        return _as(text, family_named(family))
    ranking = ranked(text)
    if not ranking or ranking[0][1] < LEAST:
        return _perhaps_damaged(plain.read(text))
    reading = _as(text, ranking[0][0])
    near = others(ranking)
    if not near:
        return reading
    doubt = what_decides(reading.family, near[0])
    return replace(reading, others=near, warnings=(*reading.warnings, doubt))


def _perhaps_damaged(reading: Reading) -> Reading:
    """Text of no family, with the repairs that would give it one: O for 0, l for 1."""
    tries = 0

    def better(text: str) -> bool:
        """True when a repaired text clearly belongs to a family; a dozen are tried."""
        nonlocal tries
        tries += 1
        ranking = ranked(text) if tries <= _MOST_TRIES else []
        return bool(ranking) and ranking[0][1] >= _CLEAR

    found = [
        replace(candidate, ratings=dict(read(candidate.text).ratings))
        for candidate in look_alike_candidates(reading.text, better, most=2)
    ]
    if not found:
        return reading
    doubt = f"Perhaps damaged: {found[0].reason}; offered, not applied."
    return replace(reading, candidates=tuple(found), warnings=(*reading.warnings, doubt))


_MOST_TRIES = 12
_CLEAR = 0.5


def _as(text: str, family: str) -> Reading:
    """The reading under one family; a family whose grammar is missing is read plainly."""
    found = grammar(family)
    reading = found.read(text) if found else plain.read(text)
    return reading if reading.family == family else replace(reading, family=family)


def read_line(line: str) -> Reading:
    """One line of a pipe: a marking, or ``family<TAB>marking``."""
    bare = line.rstrip("\r\n")
    family, tab, text = bare.partition("\t")
    if not tab:
        return read(bare)
    named = family_named(family.strip())
    if named not in FAMILIES:
        raise WrongInput(f"There is no family {family.strip()!r} before the tab.")
    return read(text, named)


def type_code(reading: Reading) -> str | None:
    """The type code a marking carries, read by a legend or not; None where there is none.

    A kind such as "deep groove ball" or SJT is no code: many different parts are of it.
    """
    if "type" in reading.ratings and reading.family not in _KINDS_NOT_CODES:
        return str(reading.ratings["type"])
    return code_text(reading) or None


_KINDS_NOT_CODES = frozenset({"bearing", "belt", "cord"})
"""Families whose rating ``type`` is the kind of the part, shared by many sizes."""
