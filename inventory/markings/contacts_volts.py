"""Voltages of a contact marking, in all spellings of a.c. and d.c., lost glyphs included."""

from __future__ import annotations

import re

from inventory.markings.contacts_items import Nature, Supply, Volts
from inventory.markings.contacts_scan import NUM, ContactScanner
from inventory.markings.scanner import number

VOLTS = "IEC 61058-1 / UL 508, rated voltage"
SUPPLY = "IEC 60417-5032 (~) and 5031 (d.c.); AC, DC by letters"

_ROW = r"[0-9]{2,3}(?:(?:,\s|,?\sor\s)[0-9]{2,3}){1,3}"  # 125, 250 or 480 VAC
_LIST = rf"(?:{_ROW}|{NUM}(?:\s{{0,2}}V?\s{{0,2}}[/-]\s{{0,2}}{NUM}){{0,3}})"
_AC = r"(?:(?:[Aa]\.?[Cc]\.?|C\.?A\.?|c\.a\.)(?![A-Za-z])|~|∿)"
_DC = r"(?:(?:[Dd]\.?[Cc]\.?|C\.?C\.?|c\.c\.)(?![A-Za-z])|⎓|=(?![0-9]))"
_BOTH = r"(?:AC\s?/\s?DC|ac\s?/\s?dc|≂|≃)"
_NO_LETTER = r"(?![A-Za-z])"

_VOLTS = re.compile(
    rf"(?P<list>{_LIST})\s{{0,2}}(?:[Vv]olts?|VOLTS?|[Vv])"
    rf"(?:\.?\s{{0,2}}(?P<both>{_BOTH}){_NO_LETTER}|\.?\s{{0,2}}(?P<ac>{_AC})"
    rf"|\.?\s{{0,2}}(?P<dc>{_DC})|(?P<lost>[Aac]){_NO_LETTER}"
    rf"|(?P<minus>-)(?=\s|$|[,;)]))?(?:(?<=~)|(?![A-SUW-Za-z]|T[A-Za-z]))"
)
_NATURE_FIRST = re.compile(
    rf"(?:(?P<both>{_BOTH})|(?P<ac>AC|ac|a\.c\.|A\.C\.|CA|C\.A\.|~)"
    rf"|(?P<dc>DC|dc|d\.c\.|D\.C\.|CC|C\.C\.|⎓))"
    rf"[:.]?\s{{0,2}}(?P<list>{_LIST})\s{{0,2}}(?:[Vv]olts?|VOLTS?|[Vv])(?![A-Za-z])"
)
_CODE_FIRST = re.compile(rf"(?P<nature>DC|AC)\s?(?P<list>{NUM})(?![0-9A-Za-z.,/(])")
_ALONE = re.compile(
    rf"(?P<both>{_BOTH}){_NO_LETTER}|(?P<ac>AC|ac|a\.c\.|A\.C\.|~)(?![A-Za-z-])"
    rf"|(?P<dc>DC|dc|d\.c\.|D\.C\.|⎓)(?![A-Za-z-])"
)
_FIGURES = re.compile(NUM)


def volts(scan: ContactScanner) -> bool:
    """Volts = figures "V" [nature]."""
    found = scan.peek(_VOLTS)
    if found is None or _stray_figure(found["list"]):
        return False
    nature = _nature(scan, found)
    _add(scan, found, nature)
    return True


def _stray_figure(listed: str) -> bool:
    """True when a row of figures begins with one too small to be a mains voltage."""
    return bool(re.search(r",|or", listed)) and any(
        number(figure) < MAINS_ROW_FROM for figure in re.split(r"[^0-9.]{1,6}", listed)
    )


MAINS_ROW_FROM = 100
"""Least voltage in a row such as 125, 250 or 480 VAC; a comma may also part two ratings."""


def volts_behind_nature(scan: ContactScanner) -> bool:
    """Volts = nature figures "V", as in AC250V, ~250 V, DC 30V."""
    found = scan.peek(_NATURE_FIRST)
    if found is None:
        return False
    _add(scan, found, _plain_nature(found))
    return True


def volts_without_unit(scan: ContactScanner) -> bool:
    """DC12, AC 240: the way makers write a coil voltage behind a type code."""
    found = scan.peek(_CODE_FIRST)
    if found is None:
        return False
    _add(scan, found, "ac" if found["nature"] == "AC" else "dc")
    return True


def supply(scan: ContactScanner) -> bool:
    """~, AC or DC standing alone; it belongs to the figures beside it."""
    found = scan.peek(_ALONE)
    if found is None:
        return False
    nature = _plain_nature(found)
    assert nature is not None  # noqa: S101 - one of the three groups matched
    scan.items.append(Supply(found.start(), nature))
    scan.take(_ALONE, _WORDS[nature], SUPPLY)
    return True


_WORDS: dict[Nature | None, str] = {
    "ac": "alternating current",
    "dc": "direct current",
    "both": "alternating and direct current",
    None: "a.c. or d.c. is not printed",
}


def _plain_nature(found: re.Match[str]) -> Nature | None:
    """Which of the named groups stands there."""
    if found["both"]:
        return "both"
    if found["ac"]:
        return "ac"
    return "dc" if found["dc"] else None


def _nature(scan: ContactScanner, found: re.Match[str]) -> Nature | None:
    """What flows; a lost glyph is read by its letter and told."""
    if found["minus"]:
        return "dc"
    lost = found["lost"]
    if lost is None:
        return _plain_nature(found)
    if lost == "A" and not _after_a_rating(scan):
        scan.warn(f"{found[0]} stands alone: volt-amperes, or a damaged 'V a.c.'; left open.")
        return None
    nature: Nature = "dc" if lost == "c" else "ac"
    scan.warn(f"{found[0]}: read as {_WORDS[nature]}, the sign behind the V is lost.")
    return nature


def _after_a_rating(scan: ContactScanner) -> bool:
    """True when amperes or horsepower came before: VA is then a damaged V~."""
    return any(type(item).__name__ in {"Current", "Horse"} for item in scan.items[-4:])


def _add(scan: ContactScanner, found: re.Match[str], nature: Nature | None) -> None:
    """Note the voltages and mark them."""
    values = tuple(number(figure) for figure in _FIGURES.findall(found["list"]))
    scan.items.append(Volts(found.start(), found.end(), values, nature))
    figures = " and ".join(str(value) for value in values)
    scan.mark(found.start(), found.end(), f"{figures} V, {_WORDS[nature]}", VOLTS)
    scan.at = found.end()
