"""The grammar of screw names: one small function per line, whose docstring is the line.

Sizes and lengths are in ``sizes``, threads of other forms in ``foreign``; here stand the words.
Each takes something at the cursor and says True, or leaves it and says False.
"""

from __future__ import annotations

import re
from collections.abc import Callable

from inventory.fasteners import foreign, sizes, tables, wording
from inventory.fasteners.cursor import Cursor
from inventory.fasteners.drives import Drive, Kind
from inventory.fasteners.thread import Form

Line = Callable[[Cursor], bool]

_SERIES = re.compile(r"(?:un|n)(?:r?(?:c|f|ef|s)?|[cf]r)\b(?:\s?-\s?(?=[123][ab]))?|ab\b|type ab\b")
_ONE_CLASS = r"(?:[123][ab]|[3-9][a-h](?:[3-9][a-h])?)"
_CLASS_OF_FIT = re.compile(rf"-?(?P<c>{_ONE_CLASS}(?:/{_ONE_CLASS})?)\b(?!-[0-9])")
_ENGAGEMENT_GROUP = re.compile(r"[snl]\b")
_LEFT = re.compile(r"l\.?h\.?\b|left[- ]?hand(?:ed)?(?: thread)?")
_PIECES = re.compile(r"\([0-9]{1,4}\)|[0-9]{1,4}\s?(?:pcs?|pieces|off)\b")
_DASH = re.compile(r"[-/](?=\s|[a-z0-9.#]|$)")
_NO_SCREW = re.compile(r"(?:tr|rd|s)\s?[0-9.]{1,6}\s?x\s?[0-9.]{1,6}(?:\s?(?:p[0-9.]{1,4}|lh))?")
_GRADE = re.compile(
    r"(?:class\s|property class\s|grade\s|gr\.?\s?|sae\s(?:j429\s)?(?:grade\s|gr\.?\s?)?)?"
    r"(?P<g>12\.9|10\.9|9\.8|8\.8|6\.8|5\.8|5\.6|4\.8|4\.6)(?![0-9])"
    r"|(?P<a>a[24])\s?-?\s?(?P<s>[578]0)\b|(?P<m>60m)\b"
    r"|(?:sae\s|j429\s){0,2}(?:grade|gr\.?)\s?(?P<n>[1258])\b"
)
_STANDARD = re.compile(
    r"(?P<body>iso|din(?:\sen)?|asme|ansi|jis(?=\s?b)|wn)\s?(?P<no>b?[0-9]{1,5}(?:\.[0-9]{1,2}){0,2}"
    r"(?:-(?!m[0-9]|st)[0-9a-z]{1,2}(?![0-9a-z.]))?)"
)
_TAPPING_WORDS = re.compile(
    r"self[- ]?tap(?:ping|per)?s?|tapping(?: screw)?|tapper|sheet[- ]?metal(?: screw)?"
    r"|spaced(?: thread)?|self[- ]?drill(?:ing|ers?)?(?: screw)?s?|drill point|teks?\b|type bp?\b"
)
_TYPE_A = re.compile(r"type a\b")
_FORMING_WORDS = re.compile(r"tri-?lobular|thread[- ]?(?:forming|rolling)|lobed")


def _standard(cursor: Cursor) -> bool:
    """Standard = ("ISO" | "DIN" | "ASME" | ...) number ["-" part]."""
    if not (found := cursor.take(_STANDARD)):
        return False
    body = found["body"].replace(" en", "").upper()
    name = f"{body} {found['no'].upper()}"
    cursor.say("standard", name)
    row = _standard_row(name)
    if row is not None:
        cursor.form = cursor.form or Form(row["form"])
        cursor.said.setdefault("_head", row["head"] or None)
        cursor.said.setdefault("_drive", row["drive"] or None)
    return True


def _standard_row(name: str) -> tables.Row | None:
    """The table row of a standard, or of the standard without its part."""
    for wanted in (name, name.split("-", maxsplit=1)[0]):
        for row in tables.rows("standards"):
            if row["standard"] == wanted:
                return row
    return None


def _class_words(cursor: Cursor) -> bool:
    """Class = property class | class of fit | series."""
    if found := cursor.take(_GRADE):
        cursor.say("grade", _grade_name(found))
        return True
    if found := cursor.take(_CLASS_OF_FIT):
        text = cursor.as_typed(found, "c")
        cursor.say("fit_class", text.upper() if text[0] in "123" else text)
        return True
    if "fit_class" in cursor.said and cursor.take(_ENGAGEMENT_GROUP):
        return True
    found = cursor.take(_SERIES)
    if found and found.group().endswith("ab"):
        cursor.form = Form.TAPPING
    if found and re.match(r"u?nr?[cf]", found.group()):
        cursor.said.setdefault("_series", "UNF" if "f" in found.group() else "UNC")
    return found is not None


def _grade_name(found: re.Match[str]) -> str:
    """A property class as the tables name it."""
    if found["g"]:
        return found["g"]
    if found["a"]:
        return f"{found['a'].upper()}-{found['s']}"
    return "SAE J82 60M" if found["m"] else f"SAE J429 Gr {found['n']}"


def _form_words(cursor: Cursor) -> bool:
    """Form = "self-tapping" | "sheet metal" | "type A" | "trilobular" | ..."""
    if cursor.take(_TYPE_A):
        cursor.form = Form.TAPPING
        cursor.say("_type_a", value=True)
        return True
    if cursor.take(_TAPPING_WORDS):
        cursor.form = Form.TAPPING
        return True
    if cursor.take(_FORMING_WORDS):
        cursor.form = Form.FORMING
        return True
    return False


def _drive(cursor: Cursor) -> bool:
    """Drive = [size] kind [size] ["pin-in"] | "security"."""
    if found := cursor.take(wording.SIZE_FIRST):
        cursor.say("_drive_size", found["size"] or found["mm"])
    for kind, pattern in wording.DRIVES:
        if found := cursor.take(pattern):
            _say_drive(cursor, wording.drive_of(kind, found))
            if kind is Kind.HEX_WASHER:
                cursor.say("head", "hex")
            if kind is Kind.HEX and "socket" in found.group():
                cursor.said.setdefault("_head", "cap")
            return True
    if cursor.take(wording.SECURITY):
        cursor.say("secure", value=True)
        return True
    return False


def _say_drive(cursor: Cursor, drive: Drive) -> None:
    """Keep the first drive; a second mention of its kind adds the size or the pin."""
    first: Drive | None = cursor.said.get("drive")
    if first is None or first.kind is not drive.kind:
        cursor.say("drive", drive)
        return
    cursor.said["drive"] = Drive(first.kind, first.size or drive.size, first.pin or drive.pin)


def _hand(cursor: Cursor) -> bool:
    """Hand = "LH" | "left-hand"; a name that says nothing means right-hand."""
    if cursor.take(_LEFT) is None:
        return False
    cursor.say("left", value=True)
    return True


def _pieces(cursor: Cursor) -> bool:
    """Pieces = "(" number ")" | number "pcs": how many lie in the bag, no size."""
    return cursor.take(_PIECES) is not None


def _no_screw(cursor: Cursor) -> bool:
    """A trapezoidal, round or miniature thread is no screw of this house: kept as unread."""
    if not (found := cursor.take(_NO_SCREW)):
        return False
    cursor.unread.append(found.group())
    return True


_END_CODE = re.compile(r"(?:-\s?)?[cfr]\s?-?\s?(?P<recess>[hz])\b")


def _end_code(cursor: Cursor) -> bool:
    """End code = ("C" | "F" | "R") ["-"] ("H" | "Z"): point and recess of a tapping screw."""
    if "threads" not in cursor.said or not (found := cursor.take(_END_CODE)):
        return False
    cursor.say("drive", Drive(Kind.CROSS_H if found["recess"] == "h" else Kind.CROSS_Z))
    return True


_HEAD_LINES = tuple((name, re.compile(pattern)) for name, pattern in wording.HEADS)
_FINISH_LINES = tuple((name, re.compile(pattern)) for name, pattern in wording.FINISHES)
_PLACE_LINES = tuple((name, re.compile(pattern)) for name, pattern in wording.PLACES)


def _head_or_finish(cursor: Cursor) -> bool:
    """Head | finish."""
    for key, lines in (("head", _HEAD_LINES), ("finish", _FINISH_LINES)):
        for name, pattern in lines:
            if cursor.take(pattern):
                cursor.say(key, name)
                return True
    return False


def _place(cursor: Cursor) -> bool:
    """Place = "in" kind of hole | "earth" | "high voltage"."""
    for name, pattern in _PLACE_LINES:
        if cursor.take(pattern):
            cursor.say("place", name)
            return True
    if cursor.take(wording.WASHER):
        return True
    if cursor.take(wording.EARTH):
        cursor.say("earth", value=True)
        return True
    if cursor.take(wording.HIGH_VOLTAGE):
        cursor.say("high_voltage", value=True)
        return True
    return False


def _noise(cursor: Cursor) -> bool:
    """Noise = words and strokes that say nothing more."""
    return (cursor.take(wording.NOISE) or cursor.take(_DASH)) is not None


LINES: tuple[Line, ...] = (
    _standard,
    _place,
    _no_screw,
    _pieces,
    foreign.pipe,
    foreign.british,
    _form_words,
    sizes.metric,
    sizes.tapping,
    sizes.plastics,
    sizes.numbered,
    sizes.tpi_later,
    sizes.bare_numbered,
    _class_words,
    _hand,
    _end_code,
    _drive,
    _head_or_finish,
    sizes.fractional,
    sizes.diameter_by_length,
    sizes.pitch_later,
    sizes.length,
    _noise,
)
"""The grammar, in the order it is tried at each place."""
