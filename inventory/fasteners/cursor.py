"""The cursor a screw's name is read with: a place in the tidied text, and what was said so far."""

from __future__ import annotations

import re
from typing import Any

from inventory.fasteners import wording
from inventory.fasteners.thread import Form, Thread


class Cursor:
    """The tidied text, a place in it, and the draft of what was read."""

    def __init__(self, text: str) -> None:
        self.cased = wording.fold(text)
        self.text = wording.tidy(text)
        self.at = 0
        self.said: dict[str, Any] = {}
        self.form: Form | None = None
        self.number: tuple[str, float] | None = None  # an open size: name and mm
        self.bare: float | None = None  # a diameter with no family, mm
        self.unread: list[str] = []

    def take(self, pattern: re.Pattern[str]) -> re.Match[str] | None:
        """Match at the cursor and move; a match must not cut a word in two.

        No pattern of the grammar matches nothing, so the cursor always moves.
        """
        found = pattern.match(self.text, self.at)
        if found is None:
            return None
        end = found.end()
        cut = end < len(self.text) and self.text[end].isalpha() and self.text[end - 1].isalpha()
        if cut:
            return None
        self.at = end
        return found

    def as_typed(self, found: re.Match[str], group: str) -> str:
        """A group of a match with its capitals: 6H is a nut's class, 6h a screw's."""
        if len(self.cased) != len(self.text):
            return found[group]
        return self.cased[found.start(group) : found.end(group)]

    def say(self, name: str, value: Any) -> None:
        """Keep the first thing said of a kind."""
        self.said.setdefault(name, value)

    def say_thread(self, thread: Thread | None) -> None:
        """Keep a thread that was found."""
        if thread is not None:
            self.say("threads", (thread,))

    def leave(self) -> None:
        """Give up a word."""
        end = self.at + 1
        while end < len(self.text) and self.text[end] not in " ,;":
            end += 1
        self.unread.append(self.text[self.at : end])
        self.at = end
