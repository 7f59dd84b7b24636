"""Checking the words a person typed against those the shelf knows, with did-you-mean."""

from __future__ import annotations

from collections.abc import Iterable

from inventory.errors import WrongInput
from inventory.families.sheet import families, sheet
from inventory.matching.suggest import close_to


def known(word: str, choices: Iterable[str], what: str) -> str:
    """The word itself if it is one of the choices; else near ones, or all there are, are named."""
    options = list(choices)
    if word in options:
        return word
    near = close_to(word, options)
    hint = f" Did you mean {' or '.join(near)}?" if near else ""
    if not near and 0 < len(options) <= MOST_LISTED:
        hint = f" Known: {', '.join(sorted(options))}."
    raise WrongInput(f"There is no {what} {word!r}.{hint}")


MOST_LISTED = 60
"""So many choices are listed where none is near; a shelf's own bins and units may be more."""


def family(word: str) -> str:
    """A family identifier; its trade name and the ways to write it are understood too."""
    return _family(_plain(word)) or known(word, families(), "family")


def _plain(word: str) -> str:
    """A family's name as its identifier would be spelt."""
    return word.strip().lower().replace("-", "_").replace(" ", "_")


def _family(plain: str) -> str | None:
    """The family of an identifier or of a trade name; None where there is none."""
    if plain in families():
        return plain
    for name in families():
        page = sheet(name)
        if plain in map(_plain, (page.name, *page.also_called)):
            return name
    return None


def state(word: str, of_family: str) -> str:
    """A tested state of the family."""
    return known(word.strip().lower(), sheet(of_family).state_names(), f"{of_family} state")


def origin(word: str) -> str:
    """``salvaged`` or ``new``."""
    return known(word.strip().lower(), ("salvaged", "new"), "origin")


MOST_SIGNS = 4_000
"""No marking, name or note is longer than this."""


def storable(text: str, what: str) -> str:
    """The text, if every database can keep it: no NUL, no broken signs, not endless."""
    if len(text) > MOST_SIGNS:
        raise WrongInput(f"The {what} is longer than {MOST_SIGNS} signs.")
    if "\0" in text:
        raise WrongInput(f"The {what} holds a NUL sign.")
    if text.isascii():
        return text
    try:
        text.encode("utf-8")
    except UnicodeEncodeError as error:
        raise WrongInput(f"The {what} holds signs that are no text.") from error
    return text


def readable_family(word: str) -> str:
    """A family whose markings can be read, by its identifier or its trade name."""
    from inventory.markings.grammars import FAMILIES, family_named

    plain = family_named(_plain(word))
    if plain in FAMILIES:
        return plain
    return _family(plain) or known(plain, sorted({*FAMILIES, *families()}), "family")
