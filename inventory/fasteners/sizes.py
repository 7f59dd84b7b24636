"""The grammar of sizes: threads and lengths as people write them, one small function per line.

Each takes something at the cursor and says True, or leaves it and says False.
"""

from __future__ import annotations

import math
import re
from fractions import Fraction

from inventory.errors import WrongInput
from inventory.fasteners import catalogue, tables
from inventory.fasteners.cursor import Cursor
from inventory.fasteners.thread import INCH, System, Thread

_NUM = r"[0-9]{1,4}(?:\.[0-9]{1,4})?|\.[0-9]{1,4}"
_INCHES = r"[0-9]{1,2}(?:-| )[0-9]{1,2}/[1-9][0-9]?|[0-9]{1,2}/[1-9][0-9]?"
_UNIT = r"(?P<unit>\s?mm|\s?\"|\s?inch(?:es)?|in\b)?"
_NO_CLASS = r"(?![0-9]*[e-h](?:[0-9/]|\b))"  # the 6 of a class 6g is no figure
_IN_BRACKETS = r"(?:\s?\(\s?0?\.[0-9]{3,4}\"?\s?\))?"  # 10 (.190)-32, as drawings write it
_NO_DRIVE = r"(?!\s?(?:phil|pozi|pz|ph\b|ph[0-9]|cross|square|robertson|torx|hexalob|recess))"

_METRIC = re.compile(
    rf"m\s?(?P<d>{_NUM})(?!\.?[0-9]|\s?x?\s?ph\s?[0-9])"
    rf"(?:(?:\s?[x-]\s?|\s(?=0\.)|\s?\(\s?)(?P<one>{_INCHES}|{_NUM}){_NO_CLASS}(?:\s?\)|p\b)?)?"
    rf"(?:\s?x\s?(?P<two>{_INCHES}|{_NUM}))?{_UNIT}"
)
_TAPPING = re.compile(
    rf"st\s?(?P<d>{_NUM})(?:\s?/\s?(?:#[0-9]{{1,2}}|[135]/[48]|5/16)-[0-9]{{2}}(?:\sab)?)?"
    rf"(?:\s?x\s?(?P<one>{_INCHES}|{_NUM}))?{_UNIT}"
)
_PLASTICS = re.compile(r"(?:k[ab]?|pt|wn\s?14[0-9]{2}\s?k?)\s?(?P<k>[3-6][05])(?![0-9])")
_NUMBERED = re.compile(
    rf"(?:#\s?|no\.?\s?|nr\.?\s?|number\s|size\s)(?P<n>[0-9]{{1,2}})(?![0-9]){_NO_DRIVE}{_IN_BRACKETS}"
    r"(?:\s?-\s?(?P<tpi>[1-9][0-9])(?![0-9/.]))?(?:\s?tpi)?(?:\sa(?=\s|$))?"
)
_GAUGE = re.compile(
    r"(?P<n>[0-9]{1,2})\s?g(?:auge)?\b(?=\s?x\s?[0-9.]|\s(?:self|sheet|tapp|screw))"
)
_BARE_NUMBERED = re.compile(
    rf"(?P<n>[0-9]{{1,2}}){_IN_BRACKETS}\s?(?P<sep>[-/])\s?(?P<tpi>[1-9][0-9])(?![0-9/.])"
)
_FRACTIONAL = re.compile(
    r"(?P<size>[1-9][0-9]?/[1-9][0-9]?|0?\.[0-9]{3,4}|1(?=\"?\s?-\s?(?:8|12|14)(?![0-9/.])))\"?"
    r"(?:(?:\s?-\s?|\s(?=[0-9]{2}\s?(?:x|unc|unf)))(?P<tpi>[1-9][0-9]?)(?![0-9/.]))?"
    r"(?!\s?(?:mm|inch|in\b|long))"
)
_TPI_LATER = re.compile(r"(?P<tpi>[1-9][0-9])\s?(?:tpi|threads per inch)")
_PITCH_LATER = re.compile(rf"(?:pitch|p)\s?=?\s?(?P<p>{_NUM})(?:\s?mm)?\b")
_DIAMETER_BY_LENGTH = re.compile(
    rf"(?P<d>{_NUM})\s?(?:mm)?\s?x\s?(?P<one>{_INCHES}|{_NUM})"
    rf"(?:\s?x\s?(?P<two>{_INCHES}|{_NUM}))?{_UNIT}"
)
_LENGTH = re.compile(
    rf"(?:x\s?|long\s|length\s?=?\s?|lg\.?\s?|l\s?=?\s?)?(?P<one>{_INCHES}|{_NUM}){_UNIT}"
    r"(?:\s?l(?:g|ong|ength)?\b)?(?![a-z0-9.])"
)


def metric(cursor: Cursor) -> bool:
    """Metric = "M" size [("x" | "-") pitch] ["x" length [unit]]."""
    if not (found := cursor.take(_METRIC)):
        return False
    major = float(found["d"])
    pitch, length = _pitch_or_length(major, found["one"], found["two"])
    if found["two"] and length != found["two"]:
        cursor.unread.append(found["two"])
    known = pitch or catalogue.coarse_pitch(major)
    cursor.say("size_mm", major)
    if known is not None:
        cursor.say("threads", (catalogue.metric(major, known),))
    if pitch is not None:
        cursor.say("_pitch", pitch)
    if length is not None:
        cursor.say("length", _millimetres(length, found["unit"], inch=False))
    return True


def _pitch_or_length(
    major: float, one: str | None, two: str | None
) -> tuple[float | None, str | None]:
    """Which of the figures behind an M size is the pitch.

    ``M4x8`` is a length, ``M8x1`` a pitch: a figure that is a listed pitch of the size, or
    less than a third of it, is a pitch; no thread is as coarse as half its diameter.
    """
    if one is None:
        return None, two
    if "/" in one:
        return None, one
    figure = float(one)
    if two is not None:
        return (max(figure, 0.1), two) if figure < major / 2 else (None, one)
    if figure < 0.1:
        raise WrongInput(f"No thread has a pitch of {one} mm.")
    if _is_listed(major, figure) or figure < major / 3:
        return figure, None
    return None, one


def _is_listed(major: float, pitch: float) -> bool:
    """True for a pitch the tables list for a metric size."""
    return any(
        float(row["d"]) == major and float(row["pitch"]) == pitch
        for row in tables.rows("metric_threads")
    )


def pitch_later(cursor: Cursor) -> bool:
    """Pitch = ("pitch" | "P") figure, behind a metric size that did not say it."""
    threads: tuple[Thread, ...] = cursor.said.get("threads", ())
    open_size = len(threads) == 1 and threads[0].system is System.METRIC
    if not open_size or "_pitch" in cursor.said or not (found := cursor.take(_PITCH_LATER)):
        return False
    pitch = float(found["p"])
    if not 0.1 <= pitch < threads[0].major / 2:
        raise WrongInput(f"{threads[0].size} has no pitch of {found['p']} mm.")
    cursor.said["threads"] = (catalogue.metric(threads[0].major, pitch),)
    cursor.say("_pitch", pitch)
    return True


def tapping(cursor: Cursor) -> bool:
    """Tapping = "ST" size ["x" length [unit]]."""
    if not (found := cursor.take(_TAPPING)):
        return False
    cursor.say("size_mm", float(found["d"]))
    cursor.say_thread(catalogue.tapping_size(float(found["d"])))
    if found["one"]:
        cursor.say("length", _millimetres(found["one"], found["unit"], inch=False))
    return True


def plastics(cursor: Cursor) -> bool:
    """Plastics = ("K" | "PT") size."""
    if not (found := cursor.take(_PLASTICS)):
        return False
    name = f"K{found['k']}"
    matches = [t for t in catalogue.plastics_threads() if t.name == name]
    cursor.say_thread(matches[0] if matches else None)
    return True


def numbered(cursor: Cursor) -> bool:
    """Numbered = ("#" | "No.") number ["-" threads per inch] | number "G" before a length."""
    if "threads" in cursor.said:
        return False
    if found := cursor.take(_NUMBERED):
        return _inch_size(cursor, f"#{int(found['n'])}", found["tpi"])
    if cursor.number is None and (found := cursor.take(_GAUGE)):
        return _inch_size(cursor, f"#{int(found['n'])}", None)
    return False


def bare_numbered(cursor: Cursor) -> bool:
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


def fractional(cursor: Cursor) -> bool:
    """Fractional = inches ["-" threads per inch], e.g. 1/4-20, .250-20, 1-8."""
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
    """The thread of a size and a count; the AB and A counts are tapping screws."""
    for thread in catalogue.tapping_threads():
        if f" {size}-{tpi} AB" in thread.name:
            return thread
    blunt = catalogue.type_a(size)
    if blunt is not None and blunt.tpi == tpi:
        return blunt
    return catalogue.unified(size, diameter, tpi)


def tpi_later(cursor: Cursor) -> bool:
    """Count = number "TPI", behind a size that left it open."""
    if cursor.number is None or "threads" in cursor.said:
        return False
    if not (found := cursor.take(_TPI_LATER)):
        return False
    cursor.say_thread(_inch_thread(*cursor.number, int(found["tpi"])))
    return True


def diameter_by_length(cursor: Cursor) -> bool:
    """Diameter by length = figure ["x" pitch] "x" figure, without a family: 4.2x9.5, 4 x 8 mm."""
    if cursor.said.get("threads") or cursor.number is not None or cursor.bare is not None:
        return False
    if not (found := cursor.take(_DIAMETER_BY_LENGTH)):
        return False
    major, one, two = float(found["d"]), found["one"], found["two"]
    if "/" not in one and _is_listed(major, float(one)):
        cursor.say_thread(catalogue.metric(major, float(one)))
        one, two = two, None
    else:
        cursor.bare = major
    if two is not None:
        cursor.unread.append(two)
    if one is not None:
        cursor.say("length", _millimetres(one, found["unit"], inch=False))
    return True


def length(cursor: Cursor) -> bool:
    """Length = ["x" | "L"] figure [unit]; inches for an inch thread, else mm."""
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
