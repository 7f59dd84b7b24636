"""Screens and locales without the signs of the trade: each sign is spelled, nothing stops.

An old terminal, a pipe under ``LC_ALL=C`` or a Windows console may know no ohm and no micro.
"""

import codecs
import os
import sys

_SPELLED = {
    "±": "+/-", "Ω": "ohm", "\u2126": "ohm", "µ": "u", "μ": "u", "°": "deg ", "²": "2", "³": "3",
    "×": "x", "·": "*", "–": "-", "—": "-", "−": "-", "≥": ">=", "≤": "<=", "≈": "~",
    "‘": "'", "’": "'", "“": '"', "”": '"', "…": "...", "→": "->", "\u00a0": " ", "\u202f": " ",
    "─": "-", "━": "-", "│": "|", "█": "#", "½": "1/2", "¼": "1/4", "¾": "3/4",
    "⎓": "DC", "∿": "AC",
}  # fmt: skip
"""How a sign is spelled where it cannot be shown; any other one becomes its number."""


def spelled(error: UnicodeError) -> tuple[str | bytes, int]:
    """Replacement for what a stream cannot encode, as ``codecs.register_error`` wants it.

    >>> codecs.register_error("spelled", spelled)
    >>> "0.04 Ω".encode("ascii", "spelled")
    b'0.04 ohm'
    """
    if not isinstance(error, UnicodeEncodeError):
        raise error
    lost = error.object[error.start : error.end]
    return "".join(_SPELLED.get(sign) or _number(sign) for sign in lost), error.end


def _number(sign: str) -> str:
    """A sign as its number."""
    return sign.encode("ascii", "backslashreplace").decode("ascii")


def spell_out() -> None:
    """Let both output streams spell what their character set has not; read UTF-8 under ``C``."""
    codecs.register_error("spelled", spelled)
    for stream in (sys.stdout, sys.stderr):
        if hasattr(stream, "reconfigure"):
            stream.reconfigure(errors="spelled")
    if hasattr(sys.stdin, "reconfigure") and codecs.lookup(sys.stdin.encoding).name == "ascii":
        sys.stdin.reconfigure(encoding="utf-8", errors="replace")


def readable(argument: str) -> str:
    r"""An argument as typed, where the locale let only its bytes through.

    >>> readable("16 \udcce\udca9")
    '16 Ω'
    """
    if argument.isascii():
        return argument
    try:
        return os.fsencode(argument).decode("utf-8")
    except UnicodeError:
        return argument
