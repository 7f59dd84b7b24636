"""Bimetal thermostats and thermal cut-outs: where they open, where they reset, what they switch."""

from __future__ import annotations

import re
from typing import Any

from inventory.markings import cutout_load, cutout_points
from inventory.markings.amounts import GAPS, PRACTICE, approvals, listed, review
from inventory.markings.cutout_points import Point, Points
from inventory.markings.cutout_words import PLACES, WORDS
from inventory.markings.scanner import Rule, Scanner
from inventory.markings.temperatures import Temperature, tidy, usable
from inventory.markings.writing import write
from inventory.records import Reading
from inventory.units import celsius

STAMP = (
    "dryer service manual, top marking: N130 opens at 130 °C, N85 at 85 °C; letter not explained"
)
L_TYPE = (
    "bestbearings.com dryer-thermostat: L and the temperature at which the contacts open, in °F"
)
ONE_SHOT_C = -20
"""A reset point below any room an appliance works in: the contact never closes again by itself."""

_TYPE = re.compile(r"(?P<type>[NHG](?P<c>[0-9]{2,3}))(?![A-Za-z0-9])")
_L = re.compile(r"(?P<type>L(?P<f>[0-9]{2,3}))(?:\s?-\s?(?P<diff>[0-9]{1,3}))?F?(?![A-Za-z0-9])")
_KSD = re.compile(
    r"(?P<series>KSD\s?-?[0-9]{3,4}[A-Z]?)(?:\s?\((?P<alias>H[0-9]{2})\))?(?![0-9])", re.IGNORECASE
)
_BODY = re.compile(r"T(?P<c>[0-9]{2,3})(?![A-Za-z0-9])")
_CONTACT = re.compile(
    r"(?:(?P<nc>N\.?\s?C\.?|(?i:normally closed))|N\.?\s?O\.?|(?i:normally open))(?![A-Za-z])"
)


def _type(scan: Scanner) -> bool:
    """Stamp = ("N" | "H" | "G") °C figure; the letter is kept, not explained."""
    found = scan.peek(_TYPE)
    if found is None or not 30 <= int(found["c"]) <= 300:
        return False
    scan.take(_TYPE, "stamp with the opening temperature in °C", STAMP)
    scan.say("type", found["type"])
    scan.say("open_c", int(found["c"]))
    return True


def _fahrenheit_type(scan: Scanner) -> bool:
    """LimitStamp = "L" °F figure ("-" °F differential)?; never degrees Celsius."""
    found = scan.take(_L, "opens on rise at this many degrees Fahrenheit", L_TYPE)
    if found is None:
        return False
    scan.say("type", found["type"])
    opens = int(found["f"])
    scan.say("open_f", opens)
    scan.say("open_c", tidy(celsius(opens)))
    if found["diff"]:
        scan.say("differential_f", int(found["diff"]))
        scan.assume("reset_f", opens - int(found["diff"]), "open less differential, from memory")
    return True


def _series(scan: Scanner) -> bool:
    """Series = "KSD" figure ( "(" alias ")" )?; the series says no temperature."""
    found = scan.take(
        _KSD, "series of snap-disc thermostats", "ksdbimetalthermostat.com KSD301(H31) page"
    )
    if found is None:
        return False
    scan.say("series", re.sub(r"[\s-]", "", found["series"]).upper())
    return True


def _body(scan: Scanner) -> bool:
    """BodyMark = "T" °C figure: the most the body of the control may reach."""
    found = scan.take(
        _BODY, "highest temperature of the body", "IEC 60730-1 T marking, from memory"
    )
    if found is None:
        return False
    scan.say("body_max_c", int(found["c"]))
    return True


def _contact(scan: Scanner) -> bool:
    """Contact = "NC" | "NO" | "normally closed" | "normally open", capitals for the short form."""
    found = scan.take(_CONTACT, "contact when cold", PRACTICE)
    if found is None:
        return False
    scan.say("contact", "NC" if found["nc"] else "NO")
    return True


def _lines(points: Points, loads: cutout_load.Loads) -> tuple[Rule, ...]:
    """The whole grammar, in order."""
    return (
        _series, _fahrenheit_type, _type, *cutout_points.rules(points), *cutout_load.rules(loads),
        _body, _contact, PLACES, WORDS, approvals, *GAPS,
    )  # fmt: skip


def read(text: str) -> Reading:
    """Read the stamp, the label or the manual's line of a thermostat or thermal cut-out."""
    scan = Scanner(text)
    points, loads = Points(), cutout_load.Loads()
    scan.sweep(_lines(points, loads))
    cutout_load.settle(scan, loads)
    bare = not scan.ratings and len(points.met) == 1 and len(scan.marks) == 1
    _settle(scan, points.met)
    if bare and scan.ratings.get("cf_pair_consistent"):
        _bare_pair(scan)
    return scan.reading("thermal_cutout")


def _bare_pair(scan: Scanner) -> None:
    """One temperature in both scales and nothing else: no reset point is printed."""
    scan.say("reset", "none")
    review(
        scan,
        "Only the opening temperature is printed and no reset: taken as a temperature fuse that"
        " does not reset, as the oven manual that prints it so says; confirm on the part.",
    )


# points become ratings -------------------------------------------------------


def _settle(scan: Scanner, met: list[Point]) -> None:
    """Doubtful pairs are set aside, then the two points together say which contact it is."""
    for point in met:
        _check(scan, point)
    good = [point for point in met if point.at.agrees is not False]
    if sum(p.does is None for p in good) > 1:
        _no_words(scan, good)
        return
    closes = next((p for p in good if p.does in ("close", "on")), None)
    opens = next((p for p in good if p.does in ("open", "off", None)), None)
    reset = next((p for p in good if p.does == "reset"), None)
    if closes and _closes_on_rise(closes, opens):
        scan.say("contact", "NO")
        _say_point(scan, "close_on_rise", closes.at)
        if opens:
            _say_point(scan, "open_on_fall", opens.at)
        return
    if opens:
        _say_point(scan, "open", opens.at)
    if closes:
        _say_point(scan, "close", closes.at)
    _say_reset(scan, reset or (closes if opens else None), opens)


def _no_words(scan: Scanner, good: list[Point]) -> None:
    """Several temperatures and no word which is which: none is read."""
    review(scan, "Several temperatures and no word says which opens and which resets.")
    figures = sorted({c for p in good if (c := p.at.in_c()) is not None}, reverse=True)
    if len(figures) == 2:
        text = f"opens at {listed(figures[0])} C, resets at {listed(figures[1])} C"
        scan.propose(text, "the higher one opens", open_c=figures[0], reset_c=figures[1])


def _closes_on_rise(closes: Point, opens: Point | None) -> bool:
    """Said in words, or the closing point lies above the opening one."""
    if closes.way == "rise" or (opens is not None and opens.way == "fall"):
        return True
    high, low = closes.at.in_c(), opens.at.in_c() if opens else None
    return high is not None and low is not None and high > low


def _say_point(scan: Scanner, name: str, at: Temperature) -> None:
    """One point in °C, in °F where printed, with its tolerance."""
    figures = {"c": at.in_c(), "f": at.f, "tol_c": at.tol_c, "tol_f": at.tol_f}
    for tail, value in figures.items():
        if value is not None:
            scan.say(f"{name}_{tail}", value)


def _say_reset(scan: Scanner, reset: Point | None, opens: Point | None) -> None:
    """A printed reset point closes the contact by itself, unless a hand or the cold has to."""
    if reset is None:
        return
    _say_point(scan, "reset", reset.at)
    back = reset.at.in_c()
    if back is not None and back <= ONE_SHOT_C:
        scan.ratings["reset"] = "one-shot"
        scan.warn(f"It resets only at {listed(back)} °C: in a house it opens once.")
    elif "reset" not in scan.ratings:
        scan.say("reset", "auto")
    hot = opens.at.in_c() if opens else None
    if hot is not None and back is not None and back >= hot:
        review(scan, "The reset point is not below the opening point; a figure is wrong.")


_RATING = {"reset": "reset", "close": "close", "on": "close"}
"""Which rating a point would be; every other point is where the contact opens."""


def _check(scan: Scanner, point: Point) -> None:
    """A pair must agree; one that does not is offered repaired, never read."""
    if usable(scan, point.at, _RATING.get(point.does or "", "open")):
        return
    if scan.ratings.get("reset") == "auto":
        del scan.ratings["reset"]  # a lost minus sign makes a one-shot look self-resetting


# recognising and writing -----------------------------------------------------

_LIKELY = (
    (re.compile(r"thermal cut-?\s?out|thermostat|\bKSD\s?-?[0-9]{3}|bimetal", re.IGNORECASE), 0.95),
    (re.compile(r"\bTC\s?[0-9]{2,3}\s?°?C\b"), 0.9),
    (re.compile(r"^\s*(?:[NH][0-9]{2,3}|L[0-9]{3}(?:\s?-\s?[0-9]{1,3}F?)?)\s*$"), 0.8),
    (re.compile(r"\b(?:re-?sets?|auto[ -]reset|opens? at|turns? on)\b", re.IGNORECASE), 0.75),
    (re.compile(r"^\s*-?[0-9]{2,3}\s?°?\s?[FC]\s?\(\s?-?[0-9]{2,3}\s?°?\s?[FC]\s?\)\s*$"), 0.7),
    (re.compile(r"\btemperature fuse\b|\bhi-?limit\b", re.IGNORECASE), 0.6),
    (re.compile(r"\b[0-9]{2,3}\s?/\s?[0-9]{2,3}\s?(?:°\s?C|℃|C\b)"), 0.6),
    (re.compile(r"max(?:imum)?\s?[0-9]{1,2}A.{0,20}[0-9]A.{0,20}max", re.IGNORECASE), 0.6),
)  # fmt: skip


def likely(text: str) -> float:
    """How strongly a text looks like a thermostat or cut-out, 0 to 1."""
    head = text[:400].replace("˚", "°").replace("º", "°")
    return next((score for pattern, score in _LIKELY if pattern.search(head)), 0.0)


def _point_text(ratings: dict[str, Any], name: str, words: str) -> str:
    """One point written out, in the scales that were printed."""
    c, f = ratings.get(f"{name}_c"), ratings.get(f"{name}_f")
    if c is None:
        return ""
    tol = {
        k: f" ± {listed(ratings[f'{name}_tol_{k}'])}" if f"{name}_tol_{k}" in ratings else ""
        for k in "cf"
    }
    if f is None:
        return f"{words} {listed(c)}{tol['c']} C"
    if "cf_pair_consistent" not in ratings:
        return f"{words} {listed(f)}{tol['f']} F"
    return f"{words} {listed(f)}{tol['f']} F ({listed(c)}{tol['c']} C)"


_POINTWORDS = (
    ("open", "opens at"), ("close", "closes at"), ("close_on_rise", "turns on at"),
    ("open_on_fall", "shuts off at"),
)  # fmt: skip


def canonical(reading: Reading) -> str:
    """The marking written out again; reads back to the same ratings."""
    said = dict(reading.ratings)
    diff = f"-{said['differential_f']}F" if "differential_f" in said else ""
    skip = ("open",) if "type" in said else ()
    points = [_point_text(said, name, words) for name, words in _POINTWORDS if name not in skip]
    if "close_c" not in said:
        points.append(_point_text(said, "reset", "resets at"))
    head = write(
        said, ("series", "{}"), ("type", f"{{}}{diff}"), ("contact", "{}"), ("location", "({})"),
        ("range_c", lambda v: f"{v[0]}~{v[1]}C"),
    )  # fmt: skip
    modes = {"manual": "manual reset,", "none": "does not reset"}
    if "reset_c" not in said:
        modes["auto"] = "auto reset,"
    tail = write(
        said, ("reset", modes), ("body_max_c", "T{}"), ("body", "{} body"), ("flange", "{} flange"),
        ("cycles", "{} cycles"), ("approvals", "{}"),
    )  # fmt: skip
    load = "; ".join(cutout_load.load_text(row) for row in said.get("ratings", [said]))
    return " ".join(piece for piece in (head, *points, tail, load) if piece)
