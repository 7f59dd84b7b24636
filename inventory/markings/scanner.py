"""A cursor over a marking, and the draft of what it says.

Every grammar is a tuple of small functions, one a grammar line, tried in order at the
cursor. What none of them takes becomes ``unread``: no character ever vanishes.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable
from typing import Any

from inventory.markings.fold import fold
from inventory.records import Candidate, Mark, Reading, Unread

Rule = Callable[["Scanner"], bool]
"""One grammar line: takes something at the cursor and says True, or leaves it and says False."""


Means = str | Callable[[re.Match[str]], str]
"""What a match means: plain words, or a function that puts the figures of the match into them."""


MOST_SAID = 40
"""Warnings and candidates kept of one marking, so that 100,000 characters of noise stay cheap."""


class Scanner:
    """A cursor with few moves over the folded view of a text, collecting marks and ratings.

    ``view`` is as long as ``text``, so positions in one are positions in the other.
    All patterns must be bounded (no ``.*``): a marking may be 100,000 characters of noise.
    """

    def __init__(self, text: str) -> None:
        self.text = text
        self.view = fold(text)
        self.at = 0
        self.ratings: dict[str, Any] = {}
        self.assumed: dict[str, Any] = {}
        self.assumed_from: dict[str, str] = {}
        self.marks: list[Mark] = []
        self.warnings: list[str] = []
        self.candidates: list[Candidate] = []
        self._unread: list[tuple[int, int]] = []

    # moves ---------------------------------------------------------------

    def peek(self, pattern: re.Pattern[str]) -> re.Match[str] | None:
        """The match of a pattern at the cursor; the cursor stays."""
        return pattern.match(self.view, self.at)

    def take(self, pattern: re.Pattern[str], means: Means, source: str) -> re.Match[str] | None:
        """Match at the cursor, mark it with what it means and move behind it."""
        found = self.peek(pattern)
        if found is None or found.end() == found.start():
            return None
        spoken = means if isinstance(means, str) else means(found)
        self.mark(found.start(), found.end(), spoken, source)
        self.at = found.end()
        return found

    def mark(self, start: int, end: int, means: str, source: str) -> None:
        """Note what ``text[start:end]`` means; outer white space is left out of the mark."""
        while start < end and self.view[start].isspace():
            start += 1
        while end > start and self.view[end - 1].isspace():
            end -= 1
        if end > start:
            self.marks.append(Mark(self.text[start:end], start, end, means, source))

    def mark_groups(self, found: re.Match[str], meanings: Iterable[tuple[str, str, str]]) -> None:
        """Mark several named groups of one match: ``(group, means, source)`` each.

        Groups must not overlap; what lies between them must be marked too or be white space.
        """
        for group, means, source in meanings:
            if found.group(group):
                self.mark(found.start(group), found.end(group), means, source)

    def skip_space(self) -> None:
        """Move over white space."""
        size = len(self.view)
        while self.at < size and self.view[self.at].isspace():
            self.at += 1

    def leave(self) -> None:
        """Give one character up as unread and move on; a whole run of letters goes together."""
        start = self.at
        self.at += 1
        if self.view[start].isalpha():
            while self.at < len(self.view) and self.view[self.at].isalpha():
                self.at += 1
        if self._unread and self._unread[-1][1] == start:
            self._unread[-1] = (self._unread[-1][0], self.at)
        else:
            self._unread.append((start, self.at))

    # what was said -------------------------------------------------------

    def say(self, name: str, value: Any) -> None:
        """Set a rating; a second, different value is a warning and the first one stays."""
        if name in self.ratings and self.ratings[name] != value:
            self.warn(
                f"{name} is printed twice and differs: {self.ratings[name]} and {value};"
                " the first is kept."
            )
            if name not in _SEVERAL:
                self.ratings["needs_review"] = True  # a person looks before it is believed
            return
        self.ratings[name] = value

    def assume(self, name: str, value: Any, source: str) -> None:
        """A value a standard sets when the mark is absent; kept apart from what is printed."""
        if name not in self.ratings:
            self.assumed[name] = value
            self.assumed_from[name] = source

    def warn(self, sentence: str) -> None:
        """Add a warning once; beyond ``MOST_SAID`` only that there are more."""
        if sentence in self.warnings or len(self.warnings) > MOST_SAID:
            return
        full = len(self.warnings) == MOST_SAID
        self.warnings.append("There is more to doubt here than is listed." if full else sentence)

    def propose(self, text: str, reason: str, **ratings: Any) -> None:
        """Offer a repair; it is never applied here."""
        if len(self.candidates) < MOST_SAID:
            self.candidates.append(Candidate(text, reason, ratings))

    # the whole -----------------------------------------------------------

    def sweep(self, rules: Iterable[Rule]) -> None:
        """Try the rules in order at each place; leave what none of them takes."""
        lines = tuple(rules)
        while True:
            self.skip_space()
            if self.at >= len(self.view):
                return
            before = self.at
            if not any(rule(self) for rule in lines):
                self.leave()
            elif self.at <= before:  # a rule that says True must move
                message = "a grammar rule said yes without moving"
                raise AssertionError(message)

    def reading(self, family: str, **more: Any) -> Reading:
        """The finished reading; marks in the order of the text."""
        return Reading(
            text=self.text,
            family=family,
            ratings=dict(self.ratings),
            assumed={k: v for k, v in self.assumed.items() if k not in self.ratings},
            assumed_from={k: v for k, v in self.assumed_from.items() if k not in self.ratings},
            marks=tuple(sorted(self.marks, key=lambda mark: mark.start)),
            unread=tuple(Unread(self.text[a:b], a, b) for a, b in self._unread),
            warnings=tuple(self.warnings),
            candidates=tuple(self.candidates),
            **more,
        )


_SEVERAL = frozenset({"type", "series", "made", "serial", "revision", "approvals"})
"""What a part may carry several of without contradicting itself."""


def number(text: str) -> int | float:
    """A printed number; a comma is a decimal point, whole numbers come back as int.

    >>> number("3,15"), number("250")
    (3.15, 250)
    """
    value = float(text.replace(",", "."))
    return int(value) if value.is_integer() and abs(value) < 1e15 else value
