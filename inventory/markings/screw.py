"""Screws: thread, length, head, drive, strength and finish, as printed on a bag or a drawing.

The words and sizes are settled by ``fasteners.designation``; here every piece gets its mark, and
what the sizes leave open is offered as candidates.
"""

from __future__ import annotations

import re

from inventory.errors import InventoryError
from inventory.fasteners.designation import ScrewName, read_screw
from inventory.markings.amounts import PRACTICE
from inventory.markings.passive_marks import ANY_CASE, COMMON, legend, rest_of_word
from inventory.markings.scanner import Rule, Scanner
from inventory.markings.writing import faithful, write
from inventory.records import Reading

ISO_261 = "ISO 261, metric threads"
ASME_B1_1 = "ASME B1.1, unified threads"
ISO_1478 = "ISO 1478, tapping screw threads"
ISO_898_1 = "ISO 898-1:2013, property classes; ISO 3506-1 for A2 and A4"

_NUM = r"[0-9]{1,3}(?:[.,][0-9]{1,3})?"
_INCH = r"(?:[1-9][0-9]?[ -])?[1-9][0-9]?/[1-9][0-9]?|0?\.[0-9]{2,4}"
_X = r"\s?[xX×*]\s?"
_UNIT = r"(?:\s?(?:mm|\"|″|inch(?:es)?|in(?![a-z])))?"

_METRIC = re.compile(
    rf"(?P<thread>M\s?{_NUM}(?:(?:{_X}|-){_NUM})?)(?:{_X}(?P<length>{_NUM}){_UNIT})?(?![0-9A-Za-z])"
)
_TAPPING = re.compile(rf"(?P<thread>ST\s?{_NUM})(?:{_X}(?P<length>{_NUM}){_UNIT})?(?![0-9A-Za-z])")
_NUMBERED = re.compile(
    rf"(?P<thread>(?:#|No\.?\s?|Nr\.?\s?)(?:1[0-9]|[0-9])(?:\s?-\s?[1-9][0-9](?![0-9/.]))?"
    rf"|(?:1[0-2]|[0-9])\s?-\s?(?:18|20|24|28|32|36|40|44|48|56|64|72|80)(?![0-9/.]))"
    rf"(?:{_X}(?P<length>{_INCH}|{_NUM}){_UNIT})?(?![0-9])",
    ANY_CASE,
)
_FRACTION = re.compile(
    rf"(?P<thread>[1-9]/(?:2|4|8|16)\"?\s?-\s?[1-9][0-9])(?:{_X}(?P<length>{_INCH}|{_NUM}){_UNIT})?(?![0-9])"
)
_BARE = re.compile(rf"(?P<thread>[2-8][.,][0-9])(?:{_X}(?P<length>{_NUM}){_UNIT})(?![0-9A-Za-z])")

_SIZES = (
    (_METRIC, "metric thread", ISO_261),
    (_TAPPING, "tapping screw thread", ISO_1478),
    (_NUMBERED, "inch size", ASME_B1_1),
    (_FRACTION, "inch thread", ASME_B1_1),
    (_BARE, "diameter and length, the family is not said", PRACTICE),
)


def sizes(scan: Scanner) -> bool:
    """Size = "M" d ("x" pitch)? | "ST" d | "#" n ("-" tpi)? | inches "-" tpi, then "x" length."""
    for pattern, means, source in _SIZES:
        found = scan.peek(pattern)
        if found is not None:
            length = ("length under the head", PRACTICE)
            return legend(scan, found, {"thread": (means, source), "length": length})
    return False


_CLASS = re.compile(
    r"(?:class\s|grade\s|gr\.?\s?)?"
    r"(?P<grade>12\.9|10\.9|9\.8|8\.8|6\.8|5\.8|5\.6|4\.8|4\.6|A[24](?:\s?-?\s?[578]0)?)"
    r"(?![0-9A-Za-z])|(?:grade|gr\.?)\s?(?P<sae>[1258])(?![0-9])",
    ANY_CASE,
)


def strength(scan: Scanner) -> bool:
    """Class = property class | steel group | grade."""
    found = scan.peek(_CLASS)
    if found is None:
        return False
    means = ("property class", ISO_898_1)
    return legend(scan, found, {"grade": means, "sae": ("grade", "SAE J429")})


_DRIVE = re.compile(
    r"(?:phillips|ph|pozi(?:driv)?|pz|torx|tx|tr|t(?=[0-9])|square|robertson|slot(?:ted)?|tri-?wing|allen|"
    r"hex(?:agon)?[ -](?:socket|key|washer|head)|one[ -]?way|cross(?:[ -]recess)?|hexalobular)"
    r"(?:[ -]?(?:head|drive|socket|washer))?(?:[ -]?(?:pin[- ]?in|security))?"
    r"(?:[ -]?(?:no\.? ?|#)?[0-9]{1,2}H?)?(?![0-9A-Za-z])",
    ANY_CASE,
)
_HEAD = re.compile(
    r"(?:raised[ -]?)?(?:countersunk|csk|flat[ -]?head|button|pan|cheese|fillister|cap|truss|round"
    r"|binding|oval)(?:[ -]?(?:head|collar|washer))?(?![0-9A-Za-z])",
    ANY_CASE,
)
_FINISH = re.compile(
    r"(?:zinc|nickel|black)(?:[ -](?:plated|oxide))?|stainless(?: steel)?|inox|brass|galvani[sz]ed"
    r"|steel|nylon|plastic(?![0-9A-Za-z])",
    ANY_CASE,
)
_FORM = re.compile(
    r"self[- ]?tap(?:ping|per)?|sheet[- ]?metal|tri-?lobular|thread[- ]?forming|machine|wood"
    r"|UNC|UNF|AB(?![A-Za-z])",
    ANY_CASE,
)
_OTHER = re.compile(
    r"-?\s?(?:LH|left[- ]?hand(?:ed)?)(?![0-9A-Za-z])"
    r"|(?:BSW|BSF|Whit(?:worth)?|BA|NPTF?|BSP[PT]?)(?![0-9A-Za-z])",
    ANY_CASE,
)
_NOISE = re.compile(
    r"(?:screws?|bolts?|security|pin|head|drive|thread|with|and|long)(?![0-9A-Za-z])", ANY_CASE
)
_STANDARD = re.compile(
    r"(?:ISO|DIN|ASME|ANSI)\s?B?[0-9]{2,5}(?:[.-][0-9A-Z.]{1,5})?(?![0-9A-Za-z])"
)

_WORDS = (
    (_STANDARD, "product standard", "ISO 7045 and its kin"),
    (_DRIVE, "drive", "ISO 4757, ISO 10664"),
    (_HEAD, "form of the head", "ISO 7045 to ISO 7047 head forms"),
    (_FORM, "kind of thread", ISO_1478),
    (_OTHER, "hand or form of thread", "ISO 965-1; BS 84, BS 93, ISO 228-1, ASME B1.20.1"),
    (_FINISH, "material or finish", PRACTICE),
    (_NOISE, "word of the trade", PRACTICE),
)


def words(scan: Scanner) -> bool:
    """Word = standard | drive size? | head | kind of thread | finish."""
    return any(scan.take(pattern, means, source) is not None for pattern, means, source in _WORDS)


RULES: tuple[Rule, ...] = (rest_of_word, sizes, strength, words, *COMMON)


def read(text: str) -> Reading:
    """Read what is printed for a screw."""
    scan = Scanner(text)
    scan.sweep(RULES)
    _settle(scan)
    return scan.reading("screw")


def _settle(scan: Scanner) -> None:
    """Hand the pieces to the fasteners' grammar and keep what it says."""
    pieces = " ".join(mark.text for mark in scan.marks[:20])[:200]
    try:
        name = read_screw(pieces)
    except (InventoryError, ArithmeticError, ValueError):
        scan.warn("The sizes do not fit together; read the thread again.")
        return
    _say_thread(scan, name)
    values = {
        "length_mm": None if name.length is None else _whole(name.length),
        "head": name.head,
        "drive": None if name.drive is None else str(name.drive),
        "property_class": name.grade,
        "finish": name.finish,
        "standard": name.standard,
        "fit_class": name.fit_class,
    }
    for rating, value in values.items():
        if value is not None:
            scan.say(rating, value)


def _whole(length: float) -> float:
    """A length in mm to a ten-thousandth, as int where it is whole.

    >>> _whole(9.525), _whole(8.0)
    (9.525, 8)
    """
    rounded = round(length, 4)
    return int(rounded) if rounded.is_integer() else rounded


def _say_thread(scan: Scanner, name: ScrewName) -> None:
    """The one thread, or those the size leaves open."""
    if name.size_mm is not None:
        scan.say("diameter_mm", _whole(name.size_mm))
    if name.thread is not None:
        scan.say("thread", name.thread.name)
        scan.say("pitch_mm", _whole(name.thread.pitch))
        scan.say("thread_kind", str(name.thread.form))
        return
    for thread in name.threads:
        scan.propose(thread.name, "the size leaves the pitch open", thread=thread.name)
    if name.ask:
        scan.warn(f"The thread is not settled: find out {name.ask}.")


_SURE = re.compile(
    r"(?<![0-9A-Za-z])(?:M(?:1[026]|[2-8](?:[.,]5)?)\s?[x×]\s?[0-9]|ST[2-8][.,][0-9]"
    r"|#(?:1[02]|[0-9])\s?-\s?[1-9][0-9]|(?:10|[0-8])-(?:24|32|40|36)\s?[x×]"
    r"|[1-9]/(?:4|8|16)-[1-9][0-9]|screws?(?![a-z])|self[- ]?tapping)",
    ANY_CASE,
)
_ALONE = re.compile(r"\s*(?:M(?:1[02]|[2-8])|#(?:1[02]|[0-9])|(?:10|[468])-(?:24|32|40))\s*")


def likely(text: str) -> float:
    """How strongly a text looks like this family, 0 to 1."""
    if _SURE.search(text):
        return 0.9
    return 0.5 if _ALONE.fullmatch(text) else 0.0


def canonical(reading: Reading) -> str:
    """Thread, length and words in their plainest form."""
    return faithful(reading, _written(reading), read)


def _written(reading: Reading) -> str:
    """The ratings written out."""
    said = dict(reading.ratings)
    if "thread" in said and "length_mm" in said:
        said["thread"] = f"{said['thread']} x {said.pop('length_mm')} mm"
    return write(
        said,
        ("thread", "{}"),
        ("head", "{} head"),
        ("property_class", "{}"),
        ("finish", "{}"),
    )
