"""Words that mean the same at the bench, and the one form they are compared in."""

from __future__ import annotations

import re
import unicodedata

from inventory.records import Value

CONTACT_SETS = {
    "NO": frozenset({"NO"}),
    "NC": frozenset({"NC"}),
    "CO": frozenset({"NO", "NC"}),
}
"""The throws each contact form offers. Source: IEC 61810-1, make, break and change-over."""

_FORMS = {
    "NO": "NO", "A": "NO", "FORMA": "NO", "1A": "NO", "2A": "NO", "SPSTNO": "NO", "DPSTNO": "NO",
    "NORMALLYOPEN": "NO", "MAKE": "NO", "1FORMA": "NO", "2FORMA": "NO",
    "NC": "NC", "B": "NC", "FORMB": "NC", "1B": "NC", "2B": "NC", "SPSTNC": "NC", "DPSTNC": "NC",
    "NORMALLYCLOSED": "NC", "BREAK": "NC", "1FORMB": "NC", "2FORMB": "NC",
    "CO": "CO", "C": "CO", "FORMC": "CO", "1C": "CO", "2C": "CO", "SPDT": "CO", "DPDT": "CO",
    "CHANGEOVER": "CO", "1FORMC": "CO", "2FORMC": "CO", "NONC": "CO", "3PDT": "CO", "4PDT": "CO",
}  # fmt: skip
"""Contact forms as makers and benches write them, letters and digits only."""

_RESETS = {
    "auto": "auto", "automatic": "auto", "self": "auto", "selfreset": "auto", "yes": "auto",
    "manual": "manual", "button": "manual", "manualreset": "manual",
    "none": "one-shot", "no": "one-shot", "oneshot": "one-shot", "single": "one-shot",
    "singleoperation": "one-shot", "noreset": "one-shot", "never": "one-shot",
}  # fmt: skip

_SAME_WORDS = {
    "pin": "pin plunger",
    "plunger": "pin plunger",
    "miniature": "miniature v",
    "v": "miniature v",
    "isolated": "insulated",
    "non insulated": "not insulated",
    "uninsulated": "not insulated",
    "non isolated": "not insulated",
}
"""Short forms of the words the sheets use."""

YES = frozenset({"yes", "true", "y", "1", "1.0", "on"})
NO = frozenset({"no", "false", "n", "0", "0.0", "off", "none"})
"""Words for a flag, in lower case."""

SAFETY_SERVES = {
    "X2": ("X2",),
    "X1": ("X1", "X2"),
    "Y4": ("Y4",),
    "Y2": ("Y2", "Y4", "X2"),
    "Y1": ("Y1", "Y2", "Y4", "X2"),
}
"""Which class may serve in which place; a pair left out is not served on purpose.

Source: IEC 60384-14 impulse voltages (X1 4 kV, X2 2.5 kV, Y1 8 kV, Y2 5 kV, Y4 2.5 kV) and the
rule that an X capacitor never stands between the mains and metal that people touch.
"""


def letters(text: str) -> str:
    """Letters and digits only, in capitals.

    >>> letters("SPST-NO (1 form A)")
    'SPSTNO1FORMA'
    """
    return re.sub(r"[^A-Z0-9]", "", unicodedata.normalize("NFKC", text).upper())


def form(value: Value) -> str | None:
    """``NO``, ``NC`` or ``CO`` of a contact form as written; None where it is not one.

    >>> form("SPST-NC"), form("1 form C"), form("latching")
    ('NC', 'CO', None)
    """
    return _FORMS.get(letters(str(value)))


def throws(value: Value) -> frozenset[str] | None:
    """The throws a contact form offers, or None where the form is not known."""
    known = [form(part) for part in str(value).split("+")]
    if None in known:
        return None
    return frozenset(throw for part in known if part for throw in CONTACT_SETS[part])


def poles(value: Value) -> int | None:
    """The number of poles a contact form names; None where it names none.

    >>> poles("DPDT"), poles("SPST-NO+SPST-NC"), poles("NO")
    (2, 2, None)
    """
    each = [_poles_of_one(part) for part in str(value).split("+")]
    return None if None in each else sum(number or 0 for number in each)


def _poles_of_one(part: str) -> int | None:
    """Poles of one contact form."""
    found = re.match(r"(?:(SP)|(DP)|([1-4])(?:P|A|B|C|F))", letters(part))
    if found is None:
        return None
    return 1 if found[1] else 2 if found[2] else int(found[3])


def reset(value: Value) -> str:
    """``auto``, ``manual`` or ``one-shot``; another word stays as it is, in lower case.

    >>> reset("none"), reset("Manual reset")
    ('one-shot', 'manual')
    """
    word = letters(str(value)).lower()
    return _RESETS.get(word, word)


def plain_word(value: Value) -> str:
    """A text as it is compared: lower case, separators as one space, short forms written out.

    >>> plain_word("Pin-Plunger"), plain_word("pin")
    ('pin plunger', 'pin plunger')
    """
    text = unicodedata.normalize("NFKC", str(value)).casefold()
    word = " ".join(re.sub(r"[\s_/-]", " ", text).split())
    return _SAME_WORDS.get(word, word)


def flag(value: Value) -> bool | None:
    """A yes or a no, however it was typed; None where it is neither.

    >>> flag("Yes"), flag(0), flag("maybe")
    (True, False, None)
    """
    if isinstance(value, bool):
        return value
    word = str(value).strip().casefold()
    return True if word in YES else False if word in NO else None


def code_key(code: str) -> str:
    """A type code as two are called the same: capitals, no spaces, hyphens, slashes.

    Look-alikes (0/O) are *not* folded: the NO and NC versions of a door switch differ by one
    character. A point between digits stays, because 3G1.5 is not 3G15.

    >>> code_key("szm-v16-fa-63"), code_key("3G1.5")
    ('SZMV16FA63', '3G1.5')
    """
    text = unicodedata.normalize("NFKC", code).upper().replace(",", ".")
    return re.sub(r"(?<![0-9])[.]|[.](?![0-9])|[^\w.]|_", "", text)
