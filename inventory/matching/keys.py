"""Search keys of codes: what is typed and what is stored meet in the same form.

Keys are for finding only; what is stored and shown is the text as it was.
"""

from __future__ import annotations

import unicodedata

LOOK_ALIKES = str.maketrans("OQDILSBZG", "000115826")
"""Letters folded onto the digit they are misread as; D and Q after Canada Post's avoided set."""


def bare(text: str) -> str:
    """Upper case letters and digits only: separators, accents and invisible signs dropped.

    >>> bare("szm-v16 fa/63")
    'SZMV16FA63'
    """
    plain = unicodedata.normalize("NFKD", text).upper()
    return "".join(sign for sign in plain if sign.isalnum() and sign.isascii())


def code_key(text: str) -> str:
    """The folded key: ``bare`` with look-alikes mapped to one sign each.

    >>> code_key("R-l 85OA") == code_key("R-1850A")
    True
    """
    return bare(text).translate(LOOK_ALIKES)
