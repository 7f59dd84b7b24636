"""A marking made even before a grammar reads it, and the reading laid back on the text as typed.

Two habits of print mean nothing and would be written into every pattern otherwise: a run of
white space (a line end, two blanks) is one blank, and a point without a figure before it has
a nought there. The second is no matter of taste: read without its point, .5 A is 5 A.
"""

from __future__ import annotations

import re
from dataclasses import dataclass, replace

from inventory.records import Mark, Reading, Unread

_UNEVEN = re.compile(r"(?P<run>\s{2,})|(?P<bare>(?<![0-9A-Za-z.,)])\.(?=[0-9]))")


@dataclass(frozen=True, slots=True)
class Evened:
    """An even text, and for each of its characters the place it has in the text as typed."""

    text: str
    typed: str
    places: tuple[int, ...]

    def back(self, reading: Reading) -> Reading:
        """A reading of the even text as one of the text typed; candidates stay even."""
        if self.text == self.typed:
            return reading
        spans = [self._typed_span(mark.start, mark.end) for mark in reading.marks]
        left = [self._typed_span(piece.start, piece.end) for piece in reading.unread]
        return replace(
            reading,
            text=self.typed,
            marks=tuple(
                Mark(self.typed[a:b], a, b, mark.means, mark.source)
                for mark, (a, b) in zip(reading.marks, spans, strict=True)
                if b > a
            ),
            unread=tuple(Unread(self.typed[a:b], a, b) for a, b in left if b > a),
        )

    def _typed_span(self, start: int, end: int) -> tuple[int, int]:
        """The span as typed; a nought put in has no place of its own and gives an empty one."""
        first, last = self.places[start], self.places[end - 1]
        put_in = end < len(self.places) and self.places[end] == last
        return first, last if put_in else last + 1


def evened(text: str) -> Evened:
    """The text with single blanks and a figure before every point.

    >>> evened("16A   250V~").text, evened(".5 A").text, evened("20...85").text
    ('16A 250V~', '0.5 A', '20...85')
    """
    pieces: list[str] = []
    places: list[int] = []
    at = 0
    for found in _UNEVEN.finditer(text):
        start = found.start()
        pieces.append(text[at:start])
        places.extend(range(at, start))
        pieces.append("0." if found["bare"] else text[start])
        places.extend((start, start) if found["bare"] else (start,))
        at = found.end()
    pieces.append(text[at:])
    places.extend(range(at, len(text)))
    return Evened("".join(pieces), text, tuple(places))
