"""What turntable and fan motors print alike: volts, hertz, watts, speed, direction, class.

Speed belongs to a frequency: a synchronous motor turns at 50 Hz and 60 Hz as 5 to 6. Figures
are collected first and married to their frequency at the end.
"""

from __future__ import annotations

import re
from dataclasses import dataclass, field
from functools import partial

from inventory.markings import powers
from inventory.markings.amounts import (
    END,
    NUM,
    PRACTICE,
    SI,
    Phrase,
    amount_words,
    phrases,
    plain_number,
    review,
    volts,
    written,
)
from inventory.markings.powers import Powers
from inventory.markings.scanner import Rule, Scanner

SYNCHRONOUS = "synchronous speed is proportional to frequency: 50 Hz to 60 Hz as 5 to 6"
_UNIT = r"(?:r\.?p\.?m\.?|r/min|rev/min|tr/min|U/min|min-1|min⁻¹|/\s?min)"
_RPM = re.compile(
    rf"(?P<a>{NUM})(?:\s?{_UNIT}?\s?/\s?(?P<b>{NUM}))?\s?{_UNIT}(?![A-Za-z])"
    r"(?![0-9](?![0-9.]{0,4}\s?(?:/[0-9]{2})?\s?(?:Hz|W|V|A)))",
    re.IGNORECASE,
)
_DOTTED = re.compile(
    rf"(?P<all>[0-9]{{1,2}}(?:\.[0-9]{{1,2}}){{2,3}})\s?{_UNIT}(?![A-Za-z])", re.IGNORECASE
)
_HERTZ = re.compile(
    rf"(?P<a>[0-9]{{2}})(?:\s?(?:Hz\s?)?(?:/|-|~)\s?(?P<b>[0-9]{{2}}))?\s?Hz{END}", re.IGNORECASE
)
ROLES = {"power_in_w": r"in(?:put)?|P1", "power_out_w": r"out(?:put)?|P2"}
"""Words beside watts: what the motor takes and what its shaft gives."""


@dataclass(slots=True)
class Speeds:
    """Speeds and frequencies in the order of the text."""

    rpm: list[list[float]] = field(default_factory=list)
    hertz: list[list[int]] = field(default_factory=list)
    powers: Powers = field(default_factory=Powers)
    dotted: re.Match[str] | None = None


def _several(found: re.Match[str]) -> list[float]:
    """One figure, or the two of a pair."""
    return [plain_number(found[name]) for name in ("a", "b") if found[name]]


def _figures(means: str, found: re.Match[str], unit: str) -> str:
    """A meaning with its one or two figures."""
    return f"{means} {amount_words((found['a'], found['b']), unit, between='and')}"


def _rpm(speeds: Speeds, scan: Scanner) -> bool:
    """Speed = figure ("/" figure)? ("rpm" | "r/min")."""
    found = scan.take(_RPM, lambda m: _figures("speed of the shaft", m, "r/min"), SYNCHRONOUS)
    if found is None:
        return False
    speeds.rpm.append(_several(found))
    return True


def _dotted(speeds: Speeds, scan: Scanner) -> bool:
    """DottedSpeed = figures with one dot too many; a slash was read as a dot."""
    found = scan.take(_DOTTED, "speeds; a slash was read as a dot", PRACTICE)
    if found is None:
        return False
    speeds.dotted = found
    return True


def _hertz(speeds: Speeds, scan: Scanner) -> bool:
    """Frequency = figure (("/" | "-") figure)? "Hz"."""
    found = scan.take(_HERTZ, lambda m: _figures("frequency of the supply", m, "Hz"), SI)
    if found is None:
        return False
    speeds.hertz.append([int(figure) for figure in _several(found)])
    return True


_LETTERS = re.compile(
    r"(?:insulation )?(?:class|cl)\.?\s?(?P<letter>[AEBFH])(?![A-Za-z])", re.IGNORECASE
)


CLASS_C = {"A": 105, "E": 120, "B": 130, "F": 155, "H": 180}
"""Highest winding temperature of each insulation class, °C. Source: IEC 60085."""


def _class_words(found: re.Match[str]) -> str:
    """A class letter with the temperature it stands for."""
    letter = found["letter"].upper()
    return f"insulation class {letter}, windings up to {CLASS_C[letter]} °C"


def _class(scan: Scanner) -> bool:
    """Class = ("CLASS" | "CL.") ("A" | "E" | "B" | "F" | "H")."""
    found = scan.take(_LETTERS, _class_words, "IEC 60085 letters; electrical-forensics.com")
    if found is None:
        return False
    scan.say("insulation_class", found["letter"].upper())
    return True


DIRECTION = phrases(
    Phrase(
        r"CW ?/ ?CCW|CCW ?/ ?CW|random|either way", "starts either way", {"direction": "random"}
    ),
    Phrase(r"CCW|counter-?clockwise|anti-?clockwise", "turns anti-clockwise", {"direction": "CCW"}),
    Phrase(r"CW|clockwise", "turns clockwise", {"direction": "CW"}),
)
_VOLTS = volts({"": "voltage_vac", "ac": "voltage_vac", "dc": "voltage_vdc"})
"""These motors run on a.c. only; a printed d.c. is kept apart. Source: oven service manuals."""


def rules(speeds: Speeds) -> tuple[Rule, ...]:
    """The grammar lines of a motor's plate, in order, filling this collection."""
    bound = (_dotted, _rpm, _hertz)
    lines = tuple(partial(rule, speeds) for rule in bound)
    return (*lines, _VOLTS, *powers.rules(speeds.powers, ROLES), _class)


# marrying speed and frequency -----------------------------------------------


def five_to_six(low: float, high: float, slack: float = 0.02) -> bool:
    """Whether two speeds are those of one synchronous motor at 50 Hz and 60 Hz."""
    return low > 0 and abs(high / low - 1.2) <= slack


def settle(scan: Scanner, speeds: Speeds, *, slack: float) -> None:
    """Say frequencies, speeds and watts; ``slack`` is how far from 5:6 a pair may lie."""
    frequencies = sorted({figure for pair in speeds.hertz for figure in pair})
    if frequencies:
        scan.say("frequency_hz", frequencies if len(frequencies) > 1 else frequencies[0])
    powers.settle(scan, speeds.powers)
    if speeds.dotted:
        _mend(scan, speeds.dotted)
    for pair in speeds.rpm:
        if len(pair) == 2:
            _pair(scan, pair, slack)
    _singles(scan, speeds)


def _pair(scan: Scanner, pair: list[float], slack: float) -> None:
    """Two speeds with a slash are those at 50 Hz and 60 Hz, if they stand as 5 to 6."""
    low, high = sorted(pair)
    if five_to_six(low, high, slack):
        scan.say("rpm_50hz", low)
        scan.say("rpm_60hz", high)
    else:
        review(scan, f"{written(low)} and {written(high)} r/min do not stand as 5 to 6.")
        scan.say("rpm", [low, high])


def _singles(scan: Scanner, speeds: Speeds) -> None:
    """Single speeds go with single frequencies in the order of the text."""
    singles = [pair[0] for pair in speeds.rpm if len(pair) == 1 and not _lost_slash(scan, pair[0])]
    hertz = [pair[0] for pair in speeds.hertz if len(pair) == 1]
    if len(singles) == len(hertz) and len(set(hertz)) == len(hertz):
        for speed, frequency in zip(singles, hertz, strict=True):
            scan.say(f"rpm_{frequency}hz" if frequency in (50, 60) else "rpm", speed)
    elif len(set(singles)) == 1:
        scan.say("rpm", singles[0])
    elif len(singles) == 2:
        _pair(scan, singles, 0.02)


def _lost_slash(scan: Scanner, speed: float) -> bool:
    """``5.6 RPM`` is a speed of no gear but reads as 5/6 with its slash lost; it is not read."""
    low, _, high = written(speed).partition(".")
    if not high or not five_to_six(float(low), float(high)):
        return False
    review(scan, f"{written(speed)} r/min may be {low}/{high} with the slash read as a dot.")
    text = scan.text.replace(f"{low}.{high}", f"{low}/{high}", 1)
    scan.propose(text, "a slash was read as a dot", rpm_50hz=float(low), rpm_60hz=float(high))
    return True


def _mend(scan: Scanner, found: re.Match[str]) -> None:
    """``2.5.3 RPM``: the split that stands as 5 to 6 is taken, and a person looks."""
    printed = found["all"]
    parts = printed.split(".")
    splits = [(".".join(parts[:n]), ".".join(parts[n:])) for n in range(1, len(parts))]
    good = [(a, b) for a, b in splits if a.count(".") < 2 and b.count(".") < 2]
    fits = [(a, b) for a, b in good if five_to_six(float(a), float(b))]
    if len(fits) != 1:
        review(scan, f"{printed} r/min cannot be one figure, and no split of it is certain.")
        return
    first, second = fits[0]
    scan.say("rpm_50hz", plain_number(first))
    scan.say("rpm_60hz", plain_number(second))
    scan.ratings["repaired"] = [f"{printed} -> {first}/{second}"]
    review(scan, f"{printed} is read as {first}/{second}: only so do they stand as 5 to 6.")
    text = scan.text.replace(printed, f"{first}/{second}", 1)
    scan.propose(text, "a slash was read as a dot", rpm_50hz=float(first), rpm_60hz=float(second))
