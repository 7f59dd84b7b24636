"""The scanner of contact markings: the shared cursor, and a list of the pieces found."""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping, Sequence
from typing import Any

from inventory.markings.contacts_items import Fact, Item
from inventory.markings.scanner import Scanner

NUM = r"[0-9]{1,4}(?:[.,][0-9]{1,3})?"
"""A printed figure; a comma is a decimal point."""

_JOINTS = frozenset("-.,/_")


class ContactScanner(Scanner):
    """A cursor that collects items as well as marks.

    ``lex`` differs from ``sweep`` in two things: the lines to try depend on the character at
    the cursor, which keeps 100 kB of noise quick, and what nobody takes goes as a whole
    chunk, so that the tail of a wrong figure is never read as a figure of its own.
    """

    def __init__(self, text: str) -> None:
        super().__init__(text)
        self.items: list[Item] = []
        self.codes: list[tuple[int, int]] = []  # where type codes stand

    def fact(self, name: str, value: Any) -> None:
        """Add a fact found at the last mark."""
        self.fact_at(self.marks[-1].start if self.marks else 0, name, value)

    def fact_at(self, start: int, name: str, value: Any) -> None:
        """Add a fact printed at a place."""
        self.items.append(Fact(start, name, value))

    def untouched(self) -> bool:
        """True while nothing but white space has been passed."""
        return not self.marks and not self._unread

    def before(self) -> str:
        """The character before the cursor, white space left out; empty at the start."""
        at = self.at - 1
        while at >= 0 and self.view[at] == " ":
            at -= 1
        return self.view[at] if at >= 0 else ""

    def glued(self) -> bool:
        """True when a letter or digit stands right before the cursor."""
        return self.at > 0 and self.view[self.at - 1].isalnum()

    def torn(self) -> bool:
        """True when the cursor stands inside a figure that no grammar line has taken."""
        understood = bool(self.marks) and self.marks[-1].end == self.at
        return self.glued() and self.view[self.at - 1].isdigit() and not understood

    def lex(self, lines: Mapping[str, Sequence[Line]]) -> None:
        """Read the whole text; ``lines`` has the keys ``digit``, ``letter`` and ``other``."""
        while True:
            self.skip_space()
            if self.at >= len(self.view):
                return
            if not any(line(self) for line in lines[self._kind()]):
                self._leave_chunk()

    def _kind(self) -> str:
        """Which lines can begin with the character at the cursor."""
        character = self.view[self.at]
        if "0" <= character <= "9":
            return "digit"
        return "letter" if character.isalpha() else "other"

    def _leave_chunk(self) -> None:
        """Give up a whole word, figure or hyphened code, or one other character."""
        start = self.at
        end = start + 1
        if self.view[start].isalnum():
            while end < len(self.view) and (self.view[end].isalnum() or self._joins(end)):
                end += 1
        self.at = end
        self.give_up(start, end)

    def _joins(self, at: int) -> bool:
        """True for a hyphen, point, comma or stroke with a letter or digit on both sides."""
        if self.view[at] not in _JOINTS or at + 1 >= len(self.view):
            return False
        return self.view[at + 1].isalnum() and self.view[at - 1].isalnum()

    def give_up(self, start: int, end: int) -> None:
        """Note ``text[start:end]`` as unread, joined to an unread piece right before it."""
        if self._unread and self._unread[-1][1] == start:
            self._unread[-1] = (self._unread[-1][0], end)
        else:
            self._unread.append((start, end))

    def unread_pieces(self) -> tuple[tuple[int, int], ...]:
        """Where the text was not understood."""
        return tuple(self._unread)


Line = Callable[[ContactScanner], bool]
"""One grammar line of a contact marking."""


def bounded(pattern: str, flags: re.RegexFlag = re.NOFLAG) -> re.Pattern[str]:
    """A pattern that ends at the end of a word.

    >>> bool(bounded("IP40").match("IP40 x")), bool(bounded("IP40").match("IP401"))
    (True, False)
    """
    return re.compile(rf"(?:{pattern})(?![0-9A-Za-z])", flags)


def any_case(pattern: str) -> re.Pattern[str]:
    """Words that may be printed in capitals or small letters, to the end of the word."""
    return bounded(pattern, re.IGNORECASE)


GLUED_CYCLES = r"(?=[1-9][0-9]{0,2}[Ee][3-6](?![0-9]))"
"""The endurance may stand glued to the mark before it: ``25T1255E4`` is 25T125 5E4."""
GLUED_T = r"(?=[Tt][0-9]{2,3}(?:[^0-9A-Za-z]|$|[1-9][0-9]{0,2}[Ee]))"
"""So may the T mark: ``250VACT85``."""
