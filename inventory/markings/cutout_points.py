"""What a cut-out does at which temperature: verbs, figures, directions.

Words and figures are collected in the order of the text and made into ratings at the end,
because only both points together say whether the contact opens or closes on a rise.
"""

from __future__ import annotations

import re
from dataclasses import dataclass, field
from functools import partial

from inventory.markings.amounts import NUM, PRACTICE, plain_number, review
from inventory.markings.scanner import Rule, Scanner
from inventory.markings.temperatures import Temperature, temperature

_AT = (
    r"(?:\s(?:again|automatically|at|when|temp(?:erature)?s?\.?|to"
    r"|approx(?:imately|\.)?|about|is)){0,6}"
)
_VERBS = {
    "reset": r"(?:auto(?:matic(?:ally)?)?[ -]?|manual(?:ly)?[ -]?)?"
    rf"(?:resets?|re-?clos(?:es?|ing)|recover(?:s|y)?){_AT}",
    "on": rf"(?:turns?|switch(?:es)?|comes?) on{_AT}",
    "off": rf"(?:turns?|shuts?|switch(?:es)?) off{_AT}",
    "open": r"(?:opens?|opening|trips?|cuts? (?:off|out)|breaks?|disconnects?|operating|action)"
    rf"{_AT}",
    "close": rf"(?:closes?|closing|makes?){_AT}",
}
_VERB = re.compile(
    "|".join(f"(?P<{name}>{words})" for name, words in _VERBS.items()) + r"(?![A-Za-z])",
    re.IGNORECASE,
)
_NEVER = re.compile(
    r"(?:does|do|will|it does) not reset|no(?:n|t)?[ -]?reset(?:table|ting|s)?"
    r"|one[ -]?(?:shot|time)|single[ -]shot|temperature fuse|thermal fuse|thermofuse",
    re.IGNORECASE,
)
_MODE = re.compile(
    r"(?P<manual>manual[ -]?reset(?:table)?|reset button)(?!\s?(?:at|to|-?[0-9]))"
    r"|(?P<auto>auto(?:matic)?[ -]?reset|self[ -]?resetting)(?!\s?(?:at|to|\(?-?[0-9]))",
    re.IGNORECASE,
)
_RISE = re.compile(
    r"or (?:higher|more|above)|and (?:above|over)|on (?:temperature )?rise|rising", re.IGNORECASE
)
_FALL = re.compile(
    r"or (?:lower|less|below)|and below|on (?:temperature )?fall|falling", re.IGNORECASE
)


@dataclass(slots=True)
class Point:
    """One temperature with what happens there; ``way`` is "rise", "fall" or not said.

    ``does`` is a verb's name; None for the figure the part acts at, "back" where it goes back.
    """

    does: str | None
    at: Temperature
    way: str | None = None


@dataclass(slots=True)
class Points:
    """The points met so far, and the verb that waits for its figure."""

    met: list[Point] = field(default_factory=list)
    verb: str | None = None


_VERB_WORDS = {
    "reset": "closes again at the next figure",
    "on": "the contact closes at the next figure",
    "off": "the contact opens at the next figure",
    "open": "the contact opens at the next figure",
    "close": "the contact closes at the next figure",
}


def _verb_words(found: re.Match[str]) -> str:
    """What a verb says of the contact."""
    return _VERB_WORDS[str(found.lastgroup)]


def _verb(points: Points, scan: Scanner) -> bool:
    """Verb = "opens at" | "resets at" | "closes at" | "turns on" | "shuts off"."""
    found = scan.take(_VERB, _verb_words, PRACTICE)
    if found is None or found.lastgroup is None:
        return False
    points.verb = found.lastgroup
    words = found.group().lower()
    if points.verb == "reset" and words.startswith("manual"):
        scan.say("reset", "manual")
    return True


def _never(scan: Scanner) -> bool:
    """Never = "does not reset" | "one-shot" | "temperature fuse"."""
    if scan.take(_NEVER, "opens once and does not reset", PRACTICE) is None:
        return False
    scan.say("reset", "none")
    return True


def _mode(scan: Scanner) -> bool:
    """Mode = "manual reset" | "auto reset", without a figure behind it."""
    found = scan.take(_MODE, "how it is reset", PRACTICE)
    if found is None:
        return False
    scan.say("reset", found.lastgroup)
    return True


def _way(points: Points, scan: Scanner) -> bool:
    """Way = "or higher" | "on rise" | "or lower" | "on fall", of the figure before it."""
    for way, pattern in (("rise", _RISE), ("fall", _FALL)):
        if scan.take(pattern, f"on temperature {way}", PRACTICE):
            if points.met:
                points.met[-1].way = way
            return True
    return False


def _point(points: Points, scan: Scanner) -> bool:
    """Point = temperature; it belongs to the verb before it."""
    before = scan.view[max(0, scan.at - 4) : scan.at].rstrip()
    read = temperature(scan, "temperature of the contact")
    if read is None:
        return False
    back = points.verb is None and before.endswith("/") and _goes_back(points, read)
    points.met.append(Point("back" if back else points.verb, read))
    points.verb = None
    return True


def _goes_back(points: Points, lower: Temperature) -> bool:
    """Whether a figure behind a stroke is where the part goes back: the one before is higher."""
    if not points.met or points.met[-1].does is not None:
        return False
    high, low = points.met[-1].at.in_c(), lower.in_c()
    return high is not None and low is not None and high > low


_UNIT_LATER = re.compile(
    rf"(?P<fig>[0-9]{{2,3}})\s?(?:±|\+/?-)\s?(?P<tol>{NUM})"
    rf"(?=\s?[,;]?\s?[A-Za-z ]{{2,20}}-?[0-9]{{2,3}}(?:\s?(?:±|\+/?-)\s?{NUM})?"
    r"\s?(?:°\s?C|℃|C)(?![A-Za-z0-9]))"
)


def _unit_later(points: Points, scan: Scanner) -> bool:
    """Point = figure tolerance, its unit printed once behind the last figure of the list."""
    found = scan.take(
        _UNIT_LATER,
        lambda m: f"{m['fig']} ± {m['tol']} °C; the unit stands behind the next figure",
        PRACTICE,
    )
    if found is None:
        return False
    at = Temperature(c=int(found["fig"]), tol_c=plain_number(found["tol"]), text=found.group())
    points.met.append(Point(points.verb, at))
    points.verb = None
    return True


_STATE = re.compile(r"(?:(?P<on>ON)|(?P<off>OFF))(?![A-Za-z/])")
_AT_NEXT = re.compile(r"(?:(?P<on>ON)|(?P<off>OFF))(?:\s?[:=]|\s(?:at|AT))\s?(?=-?[0-9])")


def _state(points: Points, scan: Scanner) -> bool:
    """State = "ON" | "OFF" in capitals, of the figure before it, or "at" the one behind it."""
    found = scan.peek(_AT_NEXT)
    if found:
        points.verb = found.lastgroup
        return scan.take(_AT_NEXT, "state of the contact at the next figure", PRACTICE) is not None
    found = scan.peek(_STATE)
    if found is None or not points.met or points.met[-1].does is not None:
        return False
    points.met[-1].does = found.lastgroup
    return scan.take(_STATE, "state of the contact at this figure", PRACTICE) is not None


_PAIR = re.compile(
    rf"(?P<high>[0-9]{{2,3}})(?:\s?(?:±|\+/?-)\s?(?P<t1>{NUM}))?\s?(?:°\s?C|℃|C)?\s?/\s?"
    rf"(?P<low>-?[0-9]{{2,3}})(?:\s?(?:±|\+/?-)\s?(?P<t2>{NUM}))?"
    r"\s?(?:°\s?C|℃|C)(?![A-Za-z0-9])"
)


def _act_back(points: Points, scan: Scanner) -> bool:
    """ActBack = figure tolerance? "/" lower figure tolerance? "°C"."""
    found = scan.peek(_PAIR)
    if found is None or float(found["high"]) <= float(found["low"]):
        return False
    means = f"acts at {found['high']} °C, goes back at {found['low']} °C"
    scan.take(_PAIR, means, PRACTICE)
    for does, name, tol in ((None, "high", "t1"), ("back", "low", "t2")):
        tolerance = plain_number(found[tol]) if found[tol] else None
        at = Temperature(c=int(found[name]), tol_c=tolerance, text=found[name])
        points.met.append(Point(does, at))
    return True


_RANGE = re.compile(
    r"(?P<low>-?[0-9]{1,3})\s?(?:°?\s?C|℃)?\s?(?:~|∽|to|-|\.{2,3}|…)\s?(?P<high>[0-9]{2,3})"
    r"\s?(?:°\s?C|℃|C(?![A-Za-z])|deg(?:rees?)?(?![A-Za-z]))"
)


def _range(scan: Scanner) -> bool:
    """Range = figure ("~" | "to" | "-") figure "°C": what a series can be set to, not one part."""
    found = scan.peek(_RANGE)
    if found is None or int(found["low"]) >= int(found["high"]):
        return False
    means = f"range of a series, {int(found['low'])} to {int(found['high'])} °C"
    scan.take(_RANGE, means, PRACTICE)
    scan.say("range_c", [int(found["low"]), int(found["high"])])
    review(scan, "This is the range of a series, not the temperature of one part.")
    return True


_NO_UNIT = re.compile(
    rf"(?P<high>[0-9]{{2,3}})(?:\s?(?:±|\+/?-)\s?{NUM})?\s?/\s?(?P<low>[0-9]{{2,3}})"
    rf"(?:\s?(?:±|\+/?-)\s?{NUM})?(?![0-9.,]|\s?(?:V|A|W|Hz|°|℃|℉|[CF]\b|mm))",
    re.IGNORECASE,
)


def _no_unit(scan: Scanner) -> bool:
    """OpenReset without a unit: offered in °C, not read."""
    found = scan.peek(_NO_UNIT)
    if found is None or int(found["high"]) <= int(found["low"]):
        return False
    scan.take(_NO_UNIT, "opening and reset temperature without a unit", PRACTICE)
    review(scan, f"{found.group()} carries no unit: degrees Celsius or Fahrenheit is not said.")
    text = f"{scan.text[: found.end()]} °C{scan.text[found.end() :]}"
    opens, resets = int(found["high"]), int(found["low"])
    scan.propose(text, "taken as degrees Celsius", open_c=opens, reset_c=resets)
    return True


_TOLERANCE = re.compile(
    rf"(?:±|\+/?-)\s?(?P<tol>{NUM})\s?(?P<unit>°\s?[CF]|℃|℉|[CFK])(?![A-Za-z0-9])"
)


def _tolerance(points: Points, scan: Scanner) -> bool:
    """Tolerance = "±" figure unit, of the figure before it."""
    if not points.met:
        return False
    found = scan.take(_TOLERANCE, lambda m: f"tolerance ± {m['tol']} of the temperature", PRACTICE)
    if found is None:
        return False
    last = points.met[-1]
    scale = "tol_f" if found["unit"].endswith(("F", "℉")) else "tol_c"
    kept = {name: getattr(last.at, name) for name in ("c", "f", "tol_c", "tol_f", "agrees", "text")}
    last.at = Temperature(**{**kept, scale: plain_number(found["tol"])})
    return True


def rules(points: Points) -> tuple[Rule, ...]:
    """The grammar lines of the points, in order, filling this collection."""
    bound = (_act_back, _unit_later, _point, _tolerance, _state, _verb, _way)
    return (_never, _mode, _range, *(partial(rule, points) for rule in bound), _no_unit)
