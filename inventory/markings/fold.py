"""Look-alike characters, folded one to one so that every position in the text stays put.

The folded view is for reading only; what is stored and shown is the text as typed.
"""

from __future__ import annotations

_DASHES = "‐‑‒–—―−﹣－⁃"
_TILDES = "∼〜～˜∿⁓"
_MICROS = "μᶙ"
_OHMS = "\u2126"
_TIMES = "✕✖⨯"
_QUOTES = "’‘`´"
_DOTS = "．。"
_STROKES = "⁄∕"
_SPACES = (
    "\u00a0\u1680\u2000\u2001\u2002\u2003\u2004\u2005\u2006\u2007\u2008\u2009\u200a"
    "\u202f\u205f\u3000"
)
_DEGREES = "˚ºﾟ"


def _table() -> dict[int, str]:
    """The whole map, built once."""
    table = dict.fromkeys(map(ord, _DASHES), "-")
    table |= dict.fromkeys(map(ord, _TILDES), "~")
    table |= dict.fromkeys(map(ord, _MICROS), "µ")
    table |= dict.fromkeys(map(ord, _OHMS), "Ω")
    table |= dict.fromkeys(map(ord, _TIMES), "×")
    table |= dict.fromkeys(map(ord, _QUOTES), "'")
    table |= dict.fromkeys(map(ord, _DOTS), ".")
    table |= dict.fromkeys(map(ord, _STROKES), "/")
    table |= dict.fromkeys(map(ord, _SPACES), " ")
    table |= dict.fromkeys(map(ord, _DEGREES), "°")
    table |= {code: chr(code - 0xFEE0) for code in range(0xFF01, 0xFF5F)}  # full-width forms
    table |= {ord("\t"): " ", ord("\n"): " ", ord("\r"): " ", ord("\v"): " ", ord("\f"): " "}
    return table


_FOLD = _table()


def fold(text: str) -> str:
    """The text with look-alikes folded, exactly as long as it was.

    >>> fold("５\u2013３ μA")
    '5-3 µA'
    """
    return text.translate(_FOLD)
