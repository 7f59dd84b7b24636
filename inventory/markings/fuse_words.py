"""What stands around the mark of a cartridge fuse: words, standards, sizes, breaking capacity."""

from __future__ import annotations

import re

from inventory.markings.amounts import NUM, PRACTICE, Phrase, phrases, plain_number, written
from inventory.markings.fuse_iec import LARGEST_A
from inventory.markings.scanner import Scanner

FST = "FST data sheet, dtsheet.com/doc/2027983: a series name of one maker, not a mark"
SERIES_NAMES = ("FSF", "FST", "FSM", "FTT", "SPT")
"""Series of one maker whose letters look like IEC letters and are not. Source: FST."""

NAMED = phrases(
    *(
        Phrase(name, "a maker's series name, not a mark", {"series": name}, FST)
        for name in SERIES_NAMES
    )
)
WORDS = phrases(
    Phrase(r"(?:cartridge |line |mains |monitor )?fuse(?:s|-?link)?", "it is a fuse"),
    Phrase(r"slow[ -]?blow(?:ing)?|slo-?blo", "slow blowing", {"speed": "time-delay"}),
    Phrase(r"time[ -]?(?:delay|lag)|anti[ -]?surge|tr[äa]ge", "time delay",
           {"speed": "time-delay"}),
    Phrase(r"(?:very|super|ultra)[ -]?(?:fast|rapid|quick)(?:[ -]?(?:acting|blow))?|superflink",
           "very fast", {"speed": "very fast"}),
    Phrase(r"(?:fast|quick)(?:[ -]?(?:acting|blow(?:ing)?))?|normal[ -]?blow|flink",
           "fast", {"speed": "fast"}),
    Phrase(r"medium(?:[ -]?(?:acting|blow|lag))?|mitteltr[äa]ge", "medium", {"speed": "medium"}),
    Phrase(r"glass(?: tube| body| bodied)?", "glass body", {"body": "glass"}),
    Phrase(r"ceramic(?: tube| body|[ -]bodied)?|porcelain", "ceramic body", {"body": "ceramic"}),
    Phrase(r"sand[ -]?filled|quartz sand", "sand filled"),
    Phrase(r"pig[ -]?tails?(?: leads)?|axial(?: leads?)?", "axial leads", {"leads": "pigtail"}),
    Phrase(r"low breaking(?: capacity)?|low[ -]break", "low breaking capacity",
           {"breaking_class": "L"}),
    Phrase(r"high breaking(?: capacity)?|high[ -]break|HBC|HRC", "high breaking capacity",
           {"breaking_class": "H"}),
)  # fmt: skip
_STANDARD = re.compile(
    r"(?P<iec>(?:IEC|EN|DIN EN|VDE)\s?60127(?:-[0-9](?:\s?/\s?(?:SS\s?)?[0-9IVX]{1,3})?)?"
    r"|GB(?:/T)?\s?9364(?:\.[0-9])?)"
    r"|(?P<ul>(?:UL|CSA(?:\s?C22\.2)?)\s?(?:/\s?CSA\s?)?(?:No\.?\s?)?248(?:[-.]\s?14)?)"
    r"|(?P<bs>BS\s?136[12]|BS\s?646)",
    re.IGNORECASE,
)


def standard(scan: Scanner) -> bool:
    """Standard = "IEC 60127" part? | "UL 248-14" | "BS 1362"."""
    found = scan.take(_STANDARD, "standard the fuse is built to", PRACTICE)
    if found is None:
        return False
    if found["iec"]:
        scan.say("standard", "IEC 60127")
        scan.say("standard_part", re.sub(r"\s", "", found["iec"]).upper().replace("IEC", "IEC "))
    elif found["ul"]:
        scan.say("standard", "UL 248-14")
    else:
        scan.say("standard", re.sub(r"BS\s?", "BS ", found["bs"].upper()))
    return True


_INCH = re.compile(
    r"1/4\s?[\"”″']{0,2}\s?[x×*]\s?(?P<long>1[- ]1/4|1)\s?[\"”″']{0,2}(?![0-9/])", re.IGNORECASE
)
_BREAK = re.compile(
    rf"(?:(?P<said>I\.?R\.?|breaking capacity|interrupting rating)\s?:?\s?)?"
    rf"(?P<amps>{NUM})\s?(?P<kilo>k?)A(?P<aic>\s?I\.?C\.?)?"
    rf"(?:\s?(?P<at>@|at|/)\s?(?P<volts>{NUM})\s?V(?:AC|DC|~)?)?(?![A-Za-z0-9])",
    re.IGNORECASE,
)


def inch(scan: Scanner) -> bool:
    """InchSize = 1/4 "x" (1-1/4 | 1); the metric name of the same holder is said."""
    found = scan.take(
        _INCH, "size in inches: 6.3 mm in diameter", "MDL data sheet: 1/4 x 1-1/4 in is 6.3 x 32 mm"
    )
    if found is None:
        return False
    scan.say("size_mm", [6.3, 25.4 if found["long"] == "1" else 32])
    return True


def _is_breaking(found: re.Match[str], *, rated: bool) -> bool:
    """A word, kiloamperes, "@", or more amperes than any fuse carries, beside volts or a rating."""
    if found["said"] or found["kilo"] or found["aic"] or found["at"] == "@":
        return True
    return bool(found["volts"] or rated) and plain_number(found["amps"]) > LARGEST_A


def interrupting(scan: Scanner) -> bool:
    """Interrupting = ("IR")? figure "k"? "A" "IC"? (("@" | "/") volts)?, told from a rating.

    A comma before three digits is thousands here: no fuse breaks so little as ten amperes.
    """
    found = scan.peek(_BREAK)
    if found is None or not _is_breaking(found, rated="current_a" in scan.ratings):
        return False
    amperes = re.sub(r"^([1-9][0-9]{0,2}),([0-9]{3})$", r"\1\2", found["amps"])
    entry = {"a": plain_number(amperes, "1000" if found["kilo"] else "1")}
    if found["volts"]:
        entry["voltage_v"] = plain_number(found["volts"])
    at = f" at {written(entry['voltage_v'])} V" if found["volts"] else ""
    means = f"can interrupt {written(entry['a'])} A{at}"
    scan.take(_BREAK, means, "UL 248-14 or IEC 60127-2")
    scan.ratings.setdefault("interrupting", []).append(entry)
    return True
