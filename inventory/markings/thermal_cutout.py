"""Bimetal thermostats and thermal cut-outs: where they open, where they reset, what they switch."""

from __future__ import annotations

import re

from inventory.markings import cutout_load, cutout_points
from inventory.markings.amounts import GAPS, PRACTICE, approvals, review, written
from inventory.markings.cutout_points import Points
from inventory.markings.cutout_settle import settle
from inventory.markings.cutout_text import canonical
from inventory.markings.cutout_words import PLACES, WORDS
from inventory.markings.scanner import Rule, Scanner
from inventory.markings.temperatures import tidy
from inventory.records import Reading
from inventory.units import celsius

STAMP = (
    "dryer service manual, top marking: N130 opens at 130 °C, N85 at 85 °C; letter not explained"
)
L_TYPE = (
    "bestbearings.com dryer-thermostat: L and the temperature at which the contacts open, in °F"
)
_TYPE = re.compile(r"(?P<type>[NHG](?P<c>[0-9]{2,3}))(?![A-Za-z0-9])")
_L = re.compile(r"(?P<type>L(?P<f>[0-9]{2,3}))(?:\s?-\s?(?P<diff>[0-9]{1,3}))?F?(?![A-Za-z0-9])")
_KSD = re.compile(
    r"(?P<series>KSD(?:\s?-?[0-9]{3,4}(?:(?!V)[A-Z])?(?!\s?[VA](?![A-Z])))?)(?![A-Z])"
    r"(?:\s?[(/]\s?(?P<alias>H[0-9]{2})\)?)?(?![0-9])",
    re.IGNORECASE,
)
_BODY = re.compile(r"T(?P<c>[5-9][0-9]|[1-4][0-9]{2})(?![A-Za-z0-9])")
_CONTACT = re.compile(
    r"(?:(?P<nc>N\.?\s?C\.?|(?i:normally closed))|N\.?\s?O\.?|(?i:normally open))(?![A-Za-z])"
)


def _type(scan: Scanner) -> bool:
    """Stamp = ("N" | "H" | "G") °C figure; the letter is kept, not explained."""
    found = scan.peek(_TYPE)
    if found is None or not 30 <= int(found["c"]) <= 300:
        return False
    scan.take(_TYPE, f"stamp: opens at {int(found['c'])} °C", STAMP)
    scan.say("type", found["type"])
    scan.say("open_c", int(found["c"]))
    return True


def _limit_words(found: re.Match[str]) -> str:
    """What an L stamp says, in both scales."""
    opens = int(found["f"])
    words = f"opens on rise at {opens} °F, which is {written(tidy(celsius(opens)))} °C"
    return f"{words}; differential {found['diff']} °F" if found["diff"] else words


def _fahrenheit_type(scan: Scanner) -> bool:
    """LimitStamp = "L" °F figure ("-" °F differential)?; never degrees Celsius."""
    found = scan.peek(_L)
    if found is None or not LIMITS_F[0] <= int(found["f"]) <= LIMITS_F[1]:
        return False
    scan.take(_L, _limit_words, L_TYPE)
    scan.say("type", found["type"])
    opens = int(found["f"])
    scan.say("open_f", opens)
    scan.say("open_c", tidy(celsius(opens)))
    if found["diff"]:
        scan.say("differential_f", int(found["diff"]))
        scan.assume("reset_f", opens - int(found["diff"]), "open less differential, from memory")
    return True


LIMITS_F = (60, 500)
"""Between these lie the limit stamps of dryers and ovens, in °F. Common practice."""


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
        _BODY,
        lambda m: f"body of the control up to {int(m['c'])} °C",
        "IEC 60730-1 T marking, from memory",
    )
    if found is None:
        return False
    scan.say("body_max_c", int(found["c"]))
    return True


def _contact_words(found: re.Match[str]) -> str:
    """Normally closed or open, as it is when cold."""
    return f"normally {'closed' if found['nc'] else 'open'}: that way when cold"


def _contact(scan: Scanner) -> bool:
    """Contact = "NC" | "NO" | "normally closed" | "normally open", capitals for the short form."""
    found = scan.take(_CONTACT, _contact_words, PRACTICE)
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
    settle(scan, points.met)
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


_LIKELY = (
    (re.compile(r"thermal cut-?\s?out|thermostat|\bKSD\s?-?[0-9]{3}|bimetal", re.IGNORECASE), 0.95),
    (re.compile(r"\bTC\s?[0-9]{2,3}\s?°?C\b"), 0.9),
    (re.compile(r"^\s*(?:[NH][0-9]{2,3}|L[0-9]{3}(?:\s?-\s?[0-9]{1,3}F?)?)\s*$"), 0.8),
    (re.compile(r"\b(?:re-?sets?|opens? at|(?:turns?|shuts?) (?:on|off))\b", re.IGNORECASE), 0.75),
    (re.compile(r"\b(?:open|close)s?\b.{0,20}[0-9]\s?(?:°\s?[CF]|℃|℉)", re.IGNORECASE), 0.7),
    (re.compile(r"[0-9]\s?°?\s?C\s?\(\s?MG\s?\)"), 0.7),
    (re.compile(r"[0-9]\s?±\s?[0-9]{1,2}\s?/\s?[0-9]{2,3}\s?±\s?[0-9]{1,2}\s?(?:°|℃|C\b)"), 0.7),
    (re.compile(r"^\s*-?[0-9]{2,3}\s?°?\s?[FC]\s?\(\s?-?[0-9]{2,3}\s?°?\s?[FC]\s?\)\s*$"), 0.7),
    (re.compile(r"\btemperature fuse\b|\bhi-?limit\b", re.IGNORECASE), 0.6),
    (re.compile(r"\b[0-9]{2,3}\s?(?:°\s?C|℃)?\s?/\s?[0-9]{2,3}\s?(?:°\s?C|℃|C\b)"), 0.6),
    (re.compile(r"max(?:imum)?\s?[0-9]{1,2}A.{0,20}[0-9]A.{0,20}max", re.IGNORECASE), 0.6),
)  # fmt: skip


def likely(text: str) -> float:
    """How strongly a text looks like a thermostat or cut-out, 0 to 1."""
    head = text[:400].replace("˚", "°").replace("º", "°")
    return next((score for pattern, score in _LIKELY if pattern.search(head)), 0.0)


__all__ = ["canonical", "likely", "read"]
