"""Search keys of codes: what is typed and what is stored meet in the same form.

Keys are for finding only; what is stored and shown is the text as it was.
"""

from __future__ import annotations

import re
import unicodedata

LOOK_ALIKES = str.maketrans("OQDILSBZG", "000115826")
"""Letters folded onto the digit they are misread as; D and Q after Canada Post's avoided set."""

_SIGNS = {ord("|"): "1", ord("!"): "1", ord("$"): "5"}
"""Signs that are no letter and are read for one. Source: reference/parts.md 3.1 (OCR, seen)."""

_FOREIGN = str.maketrans(
    "АВЕЗІЈКМНОРСТУХаеікорсухΑΒΕΖΗΙΚΜΝΟΡΤΥΧ", "ABE3IJKMHOPCTYXAEIKOPCYXABEZHIKMNOPTYX"
)
"""Cyrillic and Greek letters of the same look as a Latin one (common practice)."""

_NOT_KEPT = re.compile(r"[^0-9A-Z]+")


_DECIMAL = re.compile(r"(?<=[0-9])[.,](?=[0-9])")
_SEPARATORS = re.compile(r"(?:[^0-9A-Z.]|\.(?![0-9])|(?<![0-9])\.)+")


def bare(text: str) -> str:
    """Upper case letters and digits only: separators, accents and invisible signs dropped.

    >>> bare("szm-v16 fa/63")
    'SZMV16FA63'
    """
    return text.translate(_ASCII_BARE) if text.isascii() else _NOT_KEPT.sub("", _plain(text))


def code_key(text: str) -> str:
    """The folded key: ``bare`` with look-alikes mapped to one sign each.

    >>> code_key("R-l 85OA") == code_key("R-1850A")
    True
    """
    if text.isascii():
        return text.translate(_ASCII_KEY)
    return bare(text.translate(_SIGNS)).translate(LOOK_ALIKES)


def spaced(text: str) -> str:
    """``bare`` with each run of separators inside kept as one ``-``, a decimal sign as ``.``.

    >>> spaced("(szm-v16  fa/63) 2,5A")
    'SZM-V16-FA-63-2.5A'
    """
    return _SEPARATORS.sub("-", _DECIMAL.sub(".", _plain(text.translate(_SIGNS)))).strip("-.")


def _plain(text: str) -> str:
    """Upper case, with accents apart and foreign letters of the same look made Latin."""
    if not text.isascii():
        text = unicodedata.normalize("NFKD", text.translate(_FOREIGN)).translate(_FOREIGN)
    return text.upper()


_ASCII_BARE = {code: _NOT_KEPT.sub("", chr(code).upper()) or None for code in range(128)}
_ASCII_KEY = {
    code: (_NOT_KEPT.sub("", chr(code).translate(_SIGNS).upper()).translate(LOOK_ALIKES) or None)
    for code in range(128)
}
"""The same sign by sign, for the plain texts that nearly all codes are."""
