"""Grammar lines that many small parts share: tolerance, volts, temperature, approvals.

Each is a rule for ``Scanner.sweep``; the family modules put them behind their own lines.
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from typing import Any

from inventory.markings.amounts import PRACTICE, approvals
from inventory.markings.figures import IEC_60062, SKEWED_PCT, TOLERANCE_PCT, figure
from inventory.markings.scanner import Rule, Scanner

ANY_CASE = re.IGNORECASE | re.ASCII
"""Flags for words: without ASCII the Kelvin sign would pass for a K."""

NUMBER = r"[0-9]{1,6}(?:[.,][0-9]{1,4})?"
"""A bounded printed number, as a pattern."""

CELSIUS = r"(?:°\s?C|℃|deg(?:rees|\.)?\s?C|C)(?![0-9A-Za-z])"
"""The ways a degree Celsius is printed, as a pattern."""

OHM = r"(?:Ω|(?:[oO]hms?|OHMS?)(?![A-Za-z]))"
"""The ways an ohm is printed, as a pattern."""

Meaning = tuple[str, str]
"""What a piece means, and its source."""


# moves that several grammars need -----------------------------------------


def legend(scan: Scanner, found: re.Match[str], meanings: Mapping[str, Meaning]) -> bool:
    """Mark the named groups of a match, and what lies between them; move behind the match."""
    at = found.start()
    for name in sorted((n for n in meanings if found.group(n)), key=found.start):
        means, source = meanings[name]
        scan.mark(at, found.start(name), "joins the marks", PRACTICE)
        scan.mark(found.start(name), found.end(name), means, source)
        at = found.end(name)
    scan.mark(at, found.end(), "closes the mark", PRACTICE)
    scan.at = found.end()
    return True


def rest_of_word(scan: Scanner) -> bool:
    """Rest = the tail of a word or figure whose head nobody knows; it is never read by itself."""
    if _behind_lost_point(scan):
        scan.leave()
        return True
    if scan.at == 0 or not scan.view[scan.at - 1].isalnum() or not scan.view[scan.at].isalnum():
        return False
    if scan.marks and scan.marks[-1].end == scan.at:
        return False
    scan.leave()
    return True


def _behind_lost_point(scan: Scanner) -> bool:
    """Whether a decimal point stands before the cursor and the figure before it was not read."""
    at, view = scan.at, scan.view
    if at < 2 or not view[at].isdigit() or view[at - 1] not in ".," or not view[at - 2].isdigit():
        return False
    return not any(mark.end == at - 1 for mark in scan.marks[-2:])


def separator(scan: Scanner) -> bool:
    """Separator = "," | ";" | "/" | a bracket, between marks | "-" right behind one."""
    if scan.view[scan.at] == "-" and not (scan.marks and scan.marks[-1].end == scan.at):
        return False
    return scan.take(_SEPARATOR, "stands between two marks", PRACTICE) is not None


_SEPARATOR = re.compile(r"[,;:|/()\[\]<>·•*_.&+]{1,3}|-(?=\s|$|[A-Za-z0-9])")


def word(pattern: str, means: str, source: str, **ratings: Any) -> Rule:
    """A rule for one word of the trade that says something by itself, in any case."""
    compiled = re.compile(rf"(?:{pattern})(?![0-9A-Za-z])", ANY_CASE)

    def rule(scan: Scanner) -> bool:
        """Word = one of the spellings given."""
        if scan.take(compiled, means, source) is None:
            return False
        for name, value in ratings.items():
            scan.say(name, value)
        return True

    return rule


def amount(unit: str, rating: str, means: str, *, power: int = 0) -> Rule:
    """A rule for a number and its unit, which set one rating; the unit is a pattern."""
    compiled = re.compile(rf"(?P<number>{NUMBER})\s?(?:{unit})(?![0-9A-Za-z])", ANY_CASE)

    def rule(scan: Scanner) -> bool:
        """Amount = number unit."""
        found = scan.peek(compiled)
        if found is None:
            return False
        scan.say(rating, figure(found["number"], power))
        return scan.take(compiled, f"{means} {found[0].strip()}", PRACTICE) is not None

    return rule


# tolerance ----------------------------------------------------------------


def percent(value: Any) -> str:
    """A tolerance as it is printed.

    >>> percent(10), percent([-20, 80])
    ('±10%', '+80/-20%')
    """
    if isinstance(value, list):
        return f"+{value[1]}/{value[0]}%"
    return f"±{value}%"


_PER_CENT = re.compile(rf"(?P<sign>±|\+\s?/\s?-|\+-)?\s?(?P<number>{NUMBER})\s?%", re.IGNORECASE)
_SKEWED = re.compile(
    r"\+\s?(?P<upper>[0-9]{1,3})\s?%?\s?[/,]?\s?-\s?(?P<lower>[0-9]{1,2})\s?%"
    r"|-\s?(?P<lower2>[0-9]{1,2})\s?%?\s?[/,]?\s?\+\s?(?P<upper2>[0-9]{1,3})\s?%"
)
_LETTER = re.compile(r"(?P<letter>[BCDFGHJKMNQSTZ])(?![0-9A-Za-z.])")


def tolerance(scan: Scanner) -> bool:
    """Tolerance = "±"? number "%" | "+" number "-" number "%"."""
    if found := scan.peek(_SKEWED):
        lower, upper = found["lower"] or found["lower2"], found["upper"] or found["upper2"]
        scan.say("tolerance_pct", [-int(lower), int(upper)])
        return scan.take(_SKEWED, f"tolerance -{lower} % to +{upper} %", IEC_60062) is not None
    if (found := scan.peek(_PER_CENT)) is None:
        return False
    scan.say("tolerance_pct", figure(found["number"]))
    return scan.take(_PER_CENT, f"tolerance ±{found['number']} %", IEC_60062) is not None


def say_tolerance(scan: Scanner, letter: str) -> Meaning:
    """Set the tolerance a letter stands for and hand back what it means."""
    if letter in SKEWED_PCT:
        lower, upper = SKEWED_PCT[letter]
        scan.say("tolerance_pct", [lower, upper])
        return f"tolerance {lower} % to +{upper} %", IEC_60062
    scan.say("tolerance_pct", TOLERANCE_PCT[letter])
    return f"tolerance ±{TOLERANCE_PCT[letter]} %", IEC_60062


def legend_to_tolerance(scan: Scanner, found: re.Match[str], means: Mapping[str, Meaning]) -> bool:
    """The legend of a code whose group ``tol`` may hold a tolerance letter."""
    if found["tol"]:
        means = {**means, "tol": say_tolerance(scan, found["tol"])}
    return legend(scan, found, means)


def tolerance_letter(scan: Scanner, *, after: tuple[str, ...]) -> bool:
    """Letter = one of B C D F G H J K M N Q S T Z, alone, once a value was read."""
    if not any(name in scan.ratings for name in after) or "tolerance_pct" in scan.ratings:
        return False
    found = scan.peek(_LETTER)
    if found is None:
        return False
    return legend(scan, found, {"letter": say_tolerance(scan, found["letter"])})


# volts, degrees, approvals ------------------------------------------------

VOLTS = re.compile(
    rf"(?P<pre>AC|DC)?\s{{0,2}}(?P<number>{NUMBER})\s{{0,2}}(?P<kilo>k)?(?:W\.?V|V\.?W|V)(?:olts?)?"
    r"(?P<kind>\s?\.?(?:AC|DC|A\.C\.?|D\.C\.?)(?![A-Za-z])|\s?[~=⎓⎓]|-(?![0-9]))?"
    r"(?:(?<=[~=⎓-])|(?![A-Za-z])|(?=[XY][1-4]))",
    ANY_CASE,
)
"""One voltage with its nature, as far as it is printed."""


def nature(found: re.Match[str]) -> str | None:
    """``ac``, ``dc`` or None of a match of ``VOLTS``."""
    said = f"{found['pre'] or ''}{found['kind'] or ''}".replace(".", "").upper()
    if "AC" in said or "~" in said:
        return "ac"
    return "dc" if said.strip() else None


def volts(bare: str, why: str = PRACTICE) -> Rule:
    """A rule for volts; a figure without ~ or = is set as the rating named."""

    def rule(scan: Scanner) -> bool:
        """Volts = ("AC" | "DC")? number "k"? "V" ("AC" | "DC" | "~" | "=" | "-")?"""
        if _span_of_volts(scan):
            return True
        found = scan.peek(VOLTS)
        if found is None or _ends_a_span(scan):
            return False
        kind = nature(found)
        name = {"ac": "voltage_vac", "dc": "voltage_vdc", None: bare}[kind]
        amount = figure(found["number"], 3 if found["kilo"] else 0)
        scan.say(name, amount)
        spoken = {"ac": "V a.c.", "dc": "V d.c.", None: "V"}[kind]
        source = why if kind is None else PRACTICE
        return scan.take(VOLTS, f"rated voltage {amount} {spoken}", source) is not None

    return rule


_USUAL = (
    "1[0256]0|2[05]0|220|275|30[05]|310|3[357]0|380|4[0245]0|475|500|600|630|6[69]0|760|800|1000"
)
_SPAN_OF_VOLTS = re.compile(
    rf"(?:{_USUAL})\s?V?\s?[-/]\s?(?:{_USUAL})\s?(?:V|AC|~)[\sACDacd~.]{{0,4}}(?![0-9A-Za-z])",
    ANY_CASE,
)


def _span_of_volts(scan: Scanner) -> bool:
    """Span = usual volts "/" usual volts "V": two ratings, of which neither is called the one."""
    if scan.take(_SPAN_OF_VOLTS, "two voltages, for different duty or supply", PRACTICE) is None:
        return False
    scan.warn("A span of volts is printed; it is not read as one rating.")
    return True


_SPAN_BEFORE = re.compile(r"[0-9]\s?V?\s?[-/~]\s?\Z")


def _ends_a_span(scan: Scanner) -> bool:
    """Whether the figure at the cursor ends a span, 400/500 V, whose first figure was not read."""
    start = max(scan.at - 6, 0)
    before = _SPAN_BEFORE.search(scan.view[start : scan.at])
    if before is None or any(mark.end > start + before.start() for mark in scan.marks[-2:]):
        return False
    scan.warn("A span of volts is printed; it is not read as one rating.")
    return True


_RANGE_C = re.compile(
    rf"(?P<low>-\s?[0-9]{{1,2}})\s?(?:{CELSIUS})?\s?(?:\.{{2,3}}|…|/|to|~|-)\s?\+?\s?"
    rf"(?P<high>[0-9]{{2,3}})\s?{CELSIUS}",
    ANY_CASE,
)
_CELSIUS = re.compile(rf"\(?\+?(?P<high>[0-9]{{2,3}})\s?{CELSIUS}\)?", ANY_CASE)


def temperature(scan: Scanner) -> bool:
    """Temperature = ("-" number "/")? number "°C": the highest the part may reach."""
    if found := scan.peek(_RANGE_C):
        low, high = int(found["low"].replace(" ", "")), int(found["high"])
        scan.say("temp_min_c", low)
        scan.say("temp_c", high)
        return scan.take(_RANGE_C, f"from {low} °C to {high} °C", PRACTICE) is not None
    if (found := scan.peek(_CELSIUS)) is None:
        return False
    if re.fullmatch(r"[0-9]{2}[1-46-9]C", found[0]):
        return False  # 104C is a value and its tolerance letter, no temperature ends so
    scan.say("temp_c", int(found["high"]))
    return scan.take(_CELSIUS, f"up to {found['high']} °C", PRACTICE) is not None


_CLIMATIC = re.compile(
    r"(?P<cold>25|40|55|65|10)/(?P<hot>0?70|0?85|100|105|110|125|155)/(?P<damp>[0-9]{2})(?![0-9])"
    r"(?:/(?P<flame>[ABC])(?![0-9A-Za-z]))?"
)


def climatic(scan: Scanner) -> bool:
    """Climatic category = cold "/" heat "/" days of damp heat, e.g. 40/100/21."""
    found = scan.peek(_CLIMATIC)
    if found is None:
        return False
    scan.say("climatic_category", f"{found['cold']}/{found['hot']}/{found['damp']}")
    scan.say("temp_min_c", -int(found["cold"]))
    scan.say("temp_c", int(found["hot"]))
    source = "IEC 60068-1, climatic category"
    means = {
        "cold": (f"down to -{found['cold']} °C", source),
        "hot": (f"up to {int(found['hot'])} °C", source),
        "damp": (f"{int(found['damp'])} days of damp heat", source),
        "flame": (
            f"passive flammability category {found['flame']}",
            "IEC 60384-1, passive flammability",
        ),
    }
    return legend(scan, found, means)


_FILE = re.compile(r"E[0-9]{5,6}(?![0-9A-Za-z])")


def file_number(scan: Scanner) -> bool:
    """File = "E" five or six digits."""
    found = scan.take(_FILE, "file number at the test house", "UL, file numbers")
    if found is None:
        return False
    scan.say("ul_file", found[0])
    return True


_STANDARD = re.compile(
    r"(?:IEC|EN|DIN|ISO|UL|VDE|GB)\s?/?\s?[0-9]{3,5}(?:-[0-9]{1,2}){0,2}(?![0-9])"
)


def standard(scan: Scanner) -> bool:
    """Standard = body number ("-" part)?"""
    return scan.take(_STANDARD, "the standard it is made to", PRACTICE) is not None


COMMON: tuple[Rule, ...] = (standard, file_number, approvals, separator)
"""Lines any grammar may end with."""
