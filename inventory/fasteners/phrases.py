"""The grammar of screw names: one small function per line, whose docstring is the line.

Each takes something at the cursor and says True, or leaves it and says False.
"""

from __future__ import annotations

import math
import re
from collections.abc import Callable
from fractions import Fraction

from inventory.errors import WrongInput
from inventory.fasteners import catalogue, tables, wording
from inventory.fasteners.cursor import Cursor
from inventory.fasteners.drives import Drive, Kind
from inventory.fasteners.thread import INCH, Form, Thread

Line = Callable[[Cursor], bool]

_NUM = r"[0-9]{1,4}(?:\.[0-9]{1,4})?|\.[0-9]{1,4}"
_INCHES = r"[0-9]{1,2}(?:-| )[0-9]{1,2}/[1-9][0-9]?|[0-9]{1,2}/[1-9][0-9]?"
_UNIT = r"(?P<unit>\s?mm|\s?\"|\s?inch(?:es)?|in\b)?"

_METRIC = re.compile(
    rf"m\s?(?P<d>{_NUM})(?:(?:\s?[x-]\s?|\s(?=0\.))(?P<one>{_INCHES}|{_NUM}))?"
    rf"(?:\s?x\s?(?P<two>{_INCHES}|{_NUM}))?{_UNIT}"
)
_TAPPING = re.compile(
    rf"st\s?(?P<d>{_NUM})(?:\s?/\s?(?:#[0-9]{{1,2}}|1/4)-[0-9]{{2}}(?:\sab)?)?(?:\s?x\s?(?P<one>{_INCHES}|{_NUM}))?{_UNIT}"
)
_PLASTICS = re.compile(r"(?:k|pt|wn\s?14[0-9]{2}\s?k?)\s?(?P<k>[3-6][05])(?![0-9])")
_NUMBERED = re.compile(
    r"(?:#|no\.?\s?|nr\.?\s?|number\s|size\s)(?P<n>[0-9]{1,2})(?:\s?-\s?(?P<tpi>[1-9][0-9])(?![0-9/.]))?(?:\s?tpi)?"
)
_BARE_NUMBERED = re.compile(r"(?P<n>[0-9]{1,2})\s?(?P<sep>[-/])\s?(?P<tpi>[1-9][0-9])(?![0-9/.])")
_FRACTIONAL = re.compile(
    r"(?P<size>[1-9][0-9]?/[1-9][0-9]?|0?\.[0-9]{3,4})\"?(?:\s?-\s?(?P<tpi>[1-9][0-9]?)(?![0-9/.]))?"
    r"(?!\s?(?:mm|inch|in\b|long))"
)
_TPI_LATER = re.compile(r"(?P<tpi>[1-9][0-9])\s?(?:tpi|threads per inch)")
_DIAMETER_BY_LENGTH = re.compile(rf"(?P<d>{_NUM})\s?(?:mm)?\s?x\s?(?P<one>{_INCHES}|{_NUM}){_UNIT}")
_LENGTH = re.compile(
    rf"(?:x\s?|long\s|length\s)?(?P<one>{_INCHES}|{_NUM}){_UNIT}(?:\s(?:long|length))?"
)
_SERIES = re.compile(
    r"(?:unc|unf|unef|uns|unr|un|nc|nf)r?\b(?:\s?-\s?(?=[123][ab]))?|ab\b|type ab\b"
)
_CLASS_OF_FIT = re.compile(r"-?(?P<c>[123][ab]|[3-9][a-h](?:[3-9][a-h])?)\b(?!-)")
_GRADE = re.compile(
    r"(?:class\s|property class\s|grade\s|gr\.?\s?|sae\s(?:j429\s)?(?:grade\s|gr\.?\s?)?)?"
    r"(?P<g>12\.9|10\.9|9\.8|8\.8|6\.8|5\.8|5\.6|4\.8|4\.6)(?![0-9])"
    r"|(?P<a>a[24])\s?-?\s?(?P<s>[578]0)\b|(?P<m>60m)\b"
    r"|(?:sae\s|j429\s){0,2}(?:grade|gr\.?)\s?(?P<n>[1258])\b"
)
_STANDARD = re.compile(
    r"(?P<body>iso|din(?:\sen)?|asme|ansi|jis|wn)\s?(?P<no>b?[0-9]{1,5}(?:\.[0-9]{1,2}){0,2}(?:-[0-9a-z]{1,2})?)"
)
_TAPPING_WORDS = re.compile(
    r"self[- ]?tap(?:ping|per)?s?|tapping(?: screw)?|tapper|sheet[- ]?metal(?: screw)?"
    r"|spaced(?: thread)?"
)
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
        cursor.said.setdefault("_sizes_as", row["sizes_as"] or None)
    return True


def _standard_row(name: str) -> tables.Row | None:
    """The table row of a standard, or of the standard without its part."""
    for wanted in (name, name.split("-", maxsplit=1)[0]):
        for row in tables.rows("standards"):
            if row["standard"] == wanted:
                return row
    return None


def _metric(cursor: Cursor) -> bool:
    """Metric = "M" size [("x" | "-") pitch] ["x" length [unit]]."""
    if not (found := cursor.take(_METRIC)):
        return False
    major = float(found["d"])
    pitch, length = _pitch_or_length(major, found["one"], found["two"])
    known = pitch or catalogue.coarse_pitch(major)
    cursor.say("size_mm", major)
    if known is not None:
        cursor.say("threads", (catalogue.metric(major, known),))
    if length is not None:
        cursor.say("length", _millimetres(length, found["unit"], inch=False))
    return True


def _pitch_or_length(
    major: float, one: str | None, two: str | None
) -> tuple[float | None, str | None]:
    """Which of the figures behind an M size is the pitch.

    ``M4x8`` is a length, ``M8x1`` a pitch: a figure that is a listed pitch of the size, or
    less than a third of it, is a pitch.
    """
    if one is None:
        return None, two
    if two is not None:
        return max(float(Fraction(one)), 0.1), two
    if "/" in one:
        return None, one
    figure = float(one)
    if figure < 0.1:
        raise WrongInput(f"No thread has a pitch of {one} mm.")
    listed = any(
        float(row["d"]) == major and float(row["pitch"]) == figure
        for row in tables.rows("metric_threads")
    )
    if listed or figure < major / 3:
        return figure, None
    return None, one


def _tapping(cursor: Cursor) -> bool:
    """Tapping = "ST" size ["x" length [unit]]."""
    if not (found := cursor.take(_TAPPING)):
        return False
    cursor.say("size_mm", float(found["d"]))
    cursor.say_thread(catalogue.tapping_size(float(found["d"])))
    if found["one"]:
        cursor.say("length", _millimetres(found["one"], found["unit"], inch=False))
    return True


def _plastics(cursor: Cursor) -> bool:
    """Plastics = ("K" | "PT") size."""
    if not (found := cursor.take(_PLASTICS)):
        return False
    name = f"K{found['k']}"
    matches = [t for t in catalogue.plastics_threads() if t.name == name]
    cursor.say_thread(matches[0] if matches else None)
    return True


def _numbered(cursor: Cursor) -> bool:
    """Numbered = ("#" | "No.") number ["-" threads per inch]."""
    if "threads" in cursor.said or not (found := cursor.take(_NUMBERED)):
        return False
    return _inch_size(cursor, f"#{int(found['n'])}", found["tpi"])


def _bare_numbered(cursor: Cursor) -> bool:
    """Bare numbered = number ("-" | "/") threads per inch, e.g. 8-32, 8/32.

    A fraction is never a size unless it is in lowest terms, so 8/32 can only be #8-32.
    """
    if "threads" in cursor.said or cursor.number is not None:
        return False
    peeked = _BARE_NUMBERED.match(cursor.text, cursor.at)
    if peeked is None or not _known_tpi(f"#{int(peeked['n'])}", int(peeked["tpi"])):
        return False
    if peeked["sep"] == "/" and math.gcd(int(peeked["n"]), int(peeked["tpi"])) == 1:
        return False
    cursor.take(_BARE_NUMBERED)
    return _inch_size(cursor, f"#{int(peeked['n'])}", peeked["tpi"])


def _known_tpi(size: str, tpi: int) -> bool:
    """True for a number size and thread count that stand in a table."""
    machine = any(t.size == size and t.tpi == tpi for t in catalogue.machine_threads())
    return machine or any(row["ab"] == f"{size}-{tpi}" for row in tables.rows("tapping_threads"))


def _fractional(cursor: Cursor) -> bool:
    """Fractional = inches ["-" threads per inch], e.g. 1/4-20, .250-20."""
    if "threads" in cursor.said or cursor.number is not None or cursor.bare is not None:
        return False
    if not (found := cursor.take(_FRACTIONAL)):
        return False
    return _inch_size(cursor, _inch_name(found["size"]), found["tpi"])


def _inch_name(size: str) -> str:
    """A size as the tables name it: 4/16 and .250 are both 1/4; .164 is #8."""
    inches = float(Fraction(size))
    for row in tables.rows("unified_threads"):
        if abs(float(row["d_in"]) - inches) < 0.0006:
            return row["size"]
    return str(Fraction(size)) if "/" in size else size


def _inch_size(cursor: Cursor, size: str, tpi: str | None) -> bool:
    """Settle an inch size: machine, tapping, or open."""
    diameter = _inch_diameter(size)
    cursor.say("size_mm", diameter * INCH)
    cursor.number = (size, diameter)
    if tpi is not None:
        cursor.say_thread(_inch_thread(size, diameter, int(tpi)))
    return True


def _inch_diameter(size: str) -> float:
    """Number size n is 0.060 + 0.013 n inches. Source: ASME B1.1."""
    if size.startswith("#"):
        return 0.060 + 0.013 * int(size[1:])
    return float(Fraction(size))


def _inch_thread(size: str, diameter: float, tpi: int) -> Thread:
    """The thread of a size and a count; the AB counts are tapping screws."""
    for thread in catalogue.tapping_threads():
        if f" {size}-{tpi} AB" in thread.name:
            return thread
    return catalogue.unified(size, diameter, tpi)


def _tpi_later(cursor: Cursor) -> bool:
    """Count = number "TPI", behind a size that left it open."""
    if cursor.number is None or "threads" in cursor.said:
        return False
    if not (found := cursor.take(_TPI_LATER)):
        return False
    cursor.say_thread(_inch_thread(*cursor.number, int(found["tpi"])))
    return True


def _diameter_by_length(cursor: Cursor) -> bool:
    """Diameter by length = figure "x" figure, without a family: 4.2x9.5, 4 x 8 mm."""
    if cursor.said.get("threads") or cursor.number is not None or cursor.bare is not None:
        return False
    if not (found := cursor.take(_DIAMETER_BY_LENGTH)):
        return False
    cursor.bare = float(found["d"])
    cursor.say("length", _millimetres(found["one"], found["unit"], inch=False))
    return True


def _length(cursor: Cursor) -> bool:
    """Length = ["x"] figure [unit]; inches for an inch thread, else mm."""
    if "length" in cursor.said or not (found := cursor.take(_LENGTH)):
        return False
    inch = cursor.number is not None
    cursor.say("length", _millimetres(found["one"], found["unit"], inch=inch))
    return True


def _millimetres(figure: str, unit: str | None, *, inch: bool) -> float:
    """A length as typed, in mm; a fraction is inches whatever the thread."""
    unit = unit.strip() if unit else None
    whole, _, rest = figure.replace(" ", "-").rpartition("-")
    value = float(Fraction(rest)) + (int(whole) if whole else 0)
    in_inches = unit != "mm" and (unit is not None or "/" in figure or (inch and value < 8))
    return value * INCH if in_inches else value


def _class_words(cursor: Cursor) -> bool:
    """Class = property class | class of fit | series."""
    if found := cursor.take(_GRADE):
        cursor.say("grade", _grade_name(found))
        return True
    if found := cursor.take(_CLASS_OF_FIT):
        text = found["c"]
        cursor.say("fit_class", text.upper() if text[0] in "123" else text)
        return True
    found = cursor.take(_SERIES)
    if found and found.group().endswith("ab"):
        cursor.form = Form.TAPPING
    if found and found.group()[:3] in {"unc", "unf", "nc", "nf"}:
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
    """Form = "self-tapping" | "sheet metal" | "trilobular" | ..."""
    if cursor.take(_TAPPING_WORDS):
        cursor.form = Form.TAPPING
        return True
    if cursor.take(_FORMING_WORDS):
        cursor.form = Form.FORMING
        return True
    return False


def _drive(cursor: Cursor) -> bool:
    """Drive = kind [size] ["pin-in"] | "security"."""
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
    """Noise = words that say nothing more."""
    return cursor.take(wording.NOISE) is not None


LINES: tuple[Line, ...] = (
    _standard,
    _place,
    _form_words,
    _metric,
    _tapping,
    _plastics,
    _numbered,
    _tpi_later,
    _bare_numbered,
    _class_words,
    _end_code,
    _drive,
    _head_or_finish,
    _fractional,
    _diameter_by_length,
    _length,
    _noise,
)
"""The grammar, in the order it is tried at each place."""
