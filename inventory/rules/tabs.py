"""Terminals in words: ``qc-4.8``, ``#187 tabs``, ``6,3 x 0,8``: what kind, how wide, how thick."""

from __future__ import annotations

import re

from inventory.records import Value
from inventory.rules.words import plain_word

_INCHES = {"110": 2.8, "187": 4.8, "205": 5.2, "250": 6.3, "375": 9.5}
"""Widths [mm] of tabs named in thousandths of an inch. Source: UL 310, nominal tab sizes."""

_WIDTH = re.compile(
    r"(?<![0-9.,x×])(?:(?P<mm>2[.,]8|4[.,]8|5[.,]2|6[.,]3|9[.,]5)|(?P<sign>#|0?\.)?(?P<inch>110|187|205|250|375))"
    r"(?![0-9])\s?(?:mm|in|\")?(?:\s?[x×*]\s?(?P<thick>0?[.,][0-9]{1,3}))?"
)
_TAB_WORDS = re.compile(r"\bqc|\bfaston|\bfast on|\bquick|\btabs?\b|\bspade|\bblade|\bflat")
_KINDS = (
    ("tabs", _TAB_WORDS),
    ("leads", re.compile(r"\bleads?\b|\bwires?\b|\bflying")),
    ("pcb", re.compile(r"\bpcb|\bprinted|\bpins?\b|\bboard")),
    ("plug-in", re.compile(r"\bplug|\bsocket")),
    ("solder", re.compile(r"\bsolder|\blugs?\b")),
    ("weld", re.compile(r"\bweld")),
    ("screw", re.compile(r"\bscrew|\bclamp|\bstud")),
)
"""Kinds of terminals and the words for them; the first that is met counts."""


def terminal_kind(text: str) -> str:
    """The kind of terminals, whatever their size; other words stay as they are.

    >>> terminal_kind("qc-4.8"), terminal_kind("6,3 x 0,8 mm"), terminal_kind("screw and clamp")
    ('tabs', 'tabs', 'screw')
    """
    word = _spoken(text)
    for kind, pattern in _KINDS:
        if pattern.search(word):
            return kind
    return "tabs" if _widths(word) else word


def tab_of(text: str) -> dict[str, float]:
    """``tab_mm`` and ``tab_thick`` that the words name; nothing where they name several widths.

    >>> tab_of("qc-4.8"), tab_of('tabs .187" x .020"'), tab_of("6.3 mm and 4.8 mm tabs")
    ({'tab_mm': 4.8}, {'tab_mm': 4.8, 'tab_thick': 0.5}, {})
    """
    if terminal_kind(text) != "tabs":
        return {}
    found = _widths(_spoken(text))
    sizes = dict.fromkeys(_size(one) for one in found)
    if len(sizes) != 1:
        return {}
    width, thick = next(iter(sizes))
    return {"tab_mm": width} | ({"tab_thick": thick} if thick else {})


def _spoken(text: str) -> str:
    """The words in lower case with single spaces, figures and signs as they stand."""
    plain = plain_word(text) if not re.search(r"[0-9]", text) else text.casefold()
    return " ".join(re.sub(r"[-_/](?=[^0-9]|[0-9])", " ", plain[:200]).split())


def _widths(word: str) -> list[re.Match[str]]:
    """Sizes in a text; a bare 250 is a size only beside a word for tabs."""
    named = _TAB_WORDS.search(word) is not None
    return [one for one in _WIDTH.finditer(word) if one["mm"] or one["sign"] or named]


def _size(found: re.Match[str]) -> tuple[float, float | None]:
    """Width and thickness in millimetres; a thickness of hundredths is in inches."""
    width = float(found["mm"].replace(",", ".")) if found["mm"] else _INCHES[found["inch"]]
    thick = found["thick"]
    if thick is None:
        return width, None
    figure = float(thick.replace(",", "."))
    return width, round(figure * 25.4 if figure < 0.1 else figure, 1)


def as_written(value: Value) -> str:
    """A size that was tidied into figures, written as a size again."""
    if isinstance(value, list):
        return " x ".join(str(item) for item in value) + " mm"
    return f"{value} mm" if isinstance(value, float) else str(value)
