"""Amounts every family prints: volts, amperes, hertz, watts, speed, size, and what fills the gaps.

Each name here is a grammar rule or makes one. Patterns are bounded, digits are ASCII digits.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping
from decimal import Decimal
from typing import Any, NamedTuple

from inventory.markings.scanner import Rule, Scanner

PRACTICE = "common practice"
"""The source of what every bench knows and no standard says."""

NUM = r"[0-9]{1,7}(?:[.,][0-9]{1,4})?"
"""A printed figure; a decimal comma is a decimal point."""

SPAN = r"\s?(?:-|/|~|…|\.{2,3}|to|or)\s?"
"""What stands between the two figures of a range."""

_NEXT = (
    rf"{NUM}\s?(?:(?:-|/|~)\s?{NUM}\s?)?"
    r"(?:[kKmMuUµnpGT]?(?:V|A|W|Hz|F|Ω)|°|℃|℉|C(?![A-Za-z])|r(?:pm|/min)|mm|[x×*]\s?[0-9])"
)
END = rf"(?:(?![A-Za-z0-9])|(?={_NEXT})|(?=T[0-9]))"
"""Where a unit may stop: before a gap, or before the next amount glued to it (``900mA5KV``)."""

SI = "SI brochure, 9th edition, unit symbols"


def plain_number(text: str, factor: str = "1") -> int | float:
    """A printed figure times a factor, without binary dust; whole numbers come back as int.

    >>> plain_number("0,9", "1000"), plain_number("63", "0.001")
    (900, 0.063)
    """
    value = Decimal(text.replace(",", ".").replace(" ", "")) * Decimal(factor)
    return int(value) if value == value.to_integral_value() else float(value)


def figure(scan: Scanner, text: str, factor: str = "1") -> int | float | None:
    """A printed figure, or None with a warning where a comma could mean thousands."""
    if re.fullmatch(r"[1-9][0-9]{0,2},[0-9]{3}", text):
        scan.warn(f"{text} could be thousands or decimals; it is not read as a rating.")
        return None
    return plain_number(text, factor)


def written(value: float) -> str:
    """A number as it is printed on a part: no exponent, no trailing zeros.

    >>> written(3.15), written(250.0)
    ('3.15', '250')
    """
    text = f"{Decimal(repr(value)):f}"
    return text.rstrip("0").rstrip(".") if "." in text else text


def thousands(value: float) -> str:
    """A count with its thousands apart.

    >>> thousands(50000), thousands(300)
    ('50 000', '300')
    """
    return f"{value:,.0f}".replace(",", " ")


def listed(value: Any, between: str = "-") -> str:
    """One figure, or the figures of a range with a sign between them.

    >>> listed([220, 240]), listed(50)
    ('220-240', '50')
    """
    return between.join(written(v) for v in (value if isinstance(value, list) else [value]))


def amount_words(
    texts: Iterable[str | None], unit: str, factor: str = "1", between: str = "to"
) -> str:
    """Figures and their unit in words, base unit; a thousands comma is told as printed.

    >>> amount_words(["900", None], "A", "0.001"), amount_words(["220", "240"], "V")
    ('0.9 A', '220 to 240 V')
    """
    printed = [text for text in texts if text]
    if any(_THOUSANDS.fullmatch(text) for text in printed):
        return f"printed {' '.join(printed)}, not read"
    words = dict.fromkeys(written(plain_number(text, factor)) for text in printed)
    return f"{f' {between} '.join(words)} {unit}"


_THOUSANDS = re.compile(r"[1-9][0-9]{0,2},[0-9]{3}")


def _range_word(found: re.Match[str]) -> str:
    """How two figures of an amount are joined when read aloud: a stroke parts, a dash spans."""
    return "and" if "/" in found.group() else "to"


# one amount, one rating ------------------------------------------------------


def _say_figures(scan: Scanner, name: str, texts: Iterable[str | None], factor: str) -> None:
    """Set a rating from one figure, or a list from several different ones."""
    values = [figure(scan, text, factor) for text in texts if text]
    if any(value is None for value in values):
        return
    scan.say(name, values[0] if len(set(values)) == 1 else values)


def _pattern(unit: str, *, prefix: str = "") -> re.Pattern[str]:
    """Amount = figure (span figure)? prefix? unit, ending where a unit may end."""
    return re.compile(
        rf"(?P<low>{NUM})(?:\s?(?:{unit})?{SPAN}(?P<high>{NUM}))?(?:\s|-(?=[A-Za-z]{{4}}))?"
        rf"(?P<prefix>{prefix})(?:{unit}){END}",
        re.IGNORECASE,
    )


def measure(name: str, unit: str, means: str, factors: Mapping[str, str] | None = None) -> Rule:
    """Make the rule of one quantity: ``figure unit``, with its prefixes and what they multiply.

    The unit's pattern begins with the letter it is spoken with.
    """
    table = {"": "1", **(factors or {})}
    pattern = _pattern(unit, prefix="|".join(sorted(table, key=len, reverse=True)))

    def words(found: re.Match[str]) -> str:
        """The meaning with its figures."""
        factor = table[found["prefix"].lower()]
        figures = (found["low"], found["high"])
        return f"{means} {amount_words(figures, unit[0], factor, _range_word(found))}"

    def rule(scan: Scanner) -> bool:
        """Amount = figure (span figure)? prefix? unit."""
        found = scan.take(pattern, words, SI)
        if found is None:
            return False
        factor = table[found["prefix"].lower()]
        _say_figures(scan, name, (found["low"], found["high"]), factor)
        return True

    return rule


def amps(name: str = "current_a", means: str = "rated current") -> Rule:
    """Current = figure "m"? "A"."""
    return measure(name, r"A(?:mps?|mperes?)?", means, {"m": "0.001"})


def watts(name: str = "power_w", means: str = "power") -> Rule:
    """Power = figure "k"? ("W" | "watts")."""
    return measure(name, r"W(?:atts?)?", means, {"k": "1000"})


_HERTZ = _pattern(r"Hz|c/s|cps", prefix="[kM]?")
_HERTZ_SCALE = {"": "1", "k": "1000", "m": "1000000"}


def hertz(scan: Scanner) -> bool:
    """Frequency = figure (span figure)? ("k" | "M")? "Hz"; microwaves and mains stay apart."""
    found = scan.peek(_HERTZ)
    if found is None:
        return False
    figures = (found["low"], found["high"])
    if found["prefix"].lower() == "m":
        scan.take(_HERTZ, f"microwave frequency {amount_words(figures, 'MHz')}", SI)
        _say_figures(scan, "frequency_mhz", (found["low"], found["high"]), "1")
        return True
    factor = _HERTZ_SCALE[found["prefix"].lower()]
    spoken = amount_words(figures, "Hz", factor, _range_word(found))
    scan.take(_HERTZ, f"frequency of the supply {spoken}", SI)
    _say_figures(scan, "frequency_hz", (found["low"], found["high"]), factor)
    return True


_VOLTS = re.compile(
    rf"(?P<before>(?:(?:A\.?C\.?|D\.?C\.?)-?|~|⎓)\s?)?(?P<low>{NUM})\s?"
    rf"(?:(?:V(?:AC|DC)?)?{SPAN}(?P<high>{NUM})\s?)?(?P<kilo>k?)(?:V(?:olts?)?)"
    rf"(?:\s{{0,2}}(?P<after>~|⎓|=|\.?\s?(?:AC|DC|A\.C\.?|D\.C\.?)(?![A-Za-z])))?"
    rf"(?:(?<=[~⎓=.])|{END})",
    re.IGNORECASE,
)
"""Supply kind may stand before or after the figure; "-" after V is not read as d.c."""


def supply(found: re.Match[str]) -> str:
    """``ac``, ``dc`` or nothing, as printed before or after the volts."""
    said = f"{found['before'] or ''}{found['after'] or ''}".upper().replace(".", "")
    if "DC" in said or "⎓" in said or "=" in said:
        return "dc"
    return "ac" if "AC" in said or "~" in said else ""


VOLTAGE_NAMES = {"": "voltage_v", "ac": "voltage_vac", "dc": "voltage_vdc"}
"""Where no kind of supply is printed, none is invented."""


def volts(names: Mapping[str, str] = VOLTAGE_NAMES, means: str = "rated voltage") -> Rule:
    """Voltage = ("AC" | "DC" | "~")? figure (span figure)? "k"? "V" ("AC" | "DC" | "~")?."""

    def rule(scan: Scanner) -> bool:
        """Voltage = kind? figure (span figure)? "k"? "V" kind?."""
        found = scan.peek(_VOLTS)
        if found is None:
            return False
        kind = supply(found)
        factor = "1000" if found["kilo"] else "1"
        figures = amount_words((found["low"], found["high"]), "V", factor, _range_word(found))
        tail = {"ac": " a.c.", "dc": " d.c."}.get(kind, "")
        scan.take(_VOLTS, f"{means} {figures}{tail}", SI)
        _say_figures(scan, names[kind], (found["low"], found["high"]), factor)
        return True

    return rule


_SIZE = re.compile(
    rf"(?:ø|Ø|Φ)?(?P<d>{NUM})\s?(?:mm)?\s?[x×*]\s?(?P<l>{NUM})\s?(?:mm)?{END}", re.IGNORECASE
)


def size(scan: Scanner) -> bool:
    """Size = figure ("x" | "×" | "*") figure "mm"?; diameter first, then length."""
    found = scan.take(_SIZE, lambda m: f"{m['d']} mm in diameter, {m['l']} mm long", PRACTICE)
    if found is None:
        return False
    scan.say("size_mm", [plain_number(found["d"]), plain_number(found["l"])])
    return True


# words -----------------------------------------------------------------------


class Phrase(NamedTuple):
    """Words with a meaning of their own, and the ratings that follow from them."""

    pattern: str
    means: str
    ratings: Mapping[str, Any] = {}
    source: str = PRACTICE


def phrases(*lines: Phrase) -> Rule:
    """Make one rule of many phrases; the first that fits whole words wins."""
    joined = "|".join(f"(?P<p{n}>{line.pattern})" for n, line in enumerate(lines))
    pattern = re.compile(rf"(?:{joined})(?![A-Za-z0-9])", re.IGNORECASE)

    def rule(scan: Scanner) -> bool:
        """Phrase = one of the words of the family."""
        found = scan.peek(pattern)
        if found is None or found.lastgroup is None:
            return False
        line = lines[int(found.lastgroup[1:])]
        scan.take(pattern, line.means, line.source)
        for name, value in line.ratings.items():
            scan.say(name, value)
        return True

    return rule


_APPROVALS = (
    r"c-?UL-?us|cULus|cURus|c-?UL|UL(?!\s?[0-9])|VDE|C?TÜV|TUV|CSA(?!\s?C?[0-9])|CQC|CCC|CE|UKCA|ENEC|SEMKO|DEMKO|"
    r"NEMKO|FIMKO|KEMA|BEAB|ASTA|IMQ|BSI|SEV|KTL|KC|PSE|JET|EAC|RoHS|SAA|RCM|NF|GS|FCC|ETL|REACH"
)
_APPROVAL = re.compile(rf"<?(?P<name>{_APPROVALS})>?(?![A-Za-z0-9])", re.IGNORECASE)


def approvals(scan: Scanner) -> bool:
    """Approval = the name of a test house or a conformity mark, as printed."""
    found = scan.take(_APPROVAL, "approval or conformity mark", PRACTICE)
    if found is None:
        return False
    name = found["name"]
    marks = scan.ratings.setdefault("approvals", [])
    if name not in marks:
        marks.append(name)
    return True


# what fills the gaps ---------------------------------------------------------

_PUNCTUATION = re.compile(r"[,;:|/()\[\]·•*+_.&-]")


def punctuation(scan: Scanner) -> bool:
    """Punctuation = one sign between two pieces; it says nothing by itself."""
    return scan.take(_PUNCTUATION, "sign between two pieces", PRACTICE) is not None


_AMOUNT_AHEAD = re.compile(_NEXT, re.IGNORECASE)


def _token_end(scan: Scanner) -> int:
    """Where the run of letters, digits and inner hyphens, dots or slashes stops."""
    view, at = scan.view, scan.at
    while at < len(view):
        glued = view[at] in "-._/" and at > scan.at and view[at + 1 : at + 2].isalnum()
        glued = glued or _is_decimal_comma(view, at)
        if not (view[at].isascii() and view[at].isalnum()) and not glued:
            break
        if view[at] == "/" and _AMOUNT_AHEAD.match(view, at + 1):
            break
        at += 1
    return at


def _is_decimal_comma(view: str, at: int) -> bool:
    """Whether a comma stands between two digits: the tail of such a figure is no figure."""
    before, after = view[max(at - 1, 0) : at], view[at + 1 : at + 2]
    return view[at] == "," and before.isdigit() and after.isdigit()


def unknown_token(scan: Scanner) -> bool:
    """Token = letters, digits, inner signs; unread as a whole, so no figure is torn from a code."""
    if not (scan.view[scan.at].isascii() and scan.view[scan.at].isalnum()):
        return False
    end = _token_end(scan)
    while scan.at < end:
        scan.leave()
    return True


GAPS: tuple[Rule, ...] = (punctuation, unknown_token)
"""The last two rules of every grammar."""


def review(scan: Scanner, sentence: str) -> None:
    """Say that a person has to look before anything here is trusted."""
    scan.warn(sentence)
    scan.ratings["needs_review"] = True


def mended(scan: Scanner, means: str, new: str) -> str:
    """The whole marking with the first piece of that meaning written anew."""
    old = next((mark for mark in scan.marks if mark.means.startswith(means)), None)
    return new if old is None else f"{scan.text[: old.start]}{new}{scan.text[old.end :]}"
