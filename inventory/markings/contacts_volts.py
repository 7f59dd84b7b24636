"""Voltages of a contact marking, in all spellings of a.c. and d.c., lost glyphs included."""

from __future__ import annotations

import re

from inventory.markings.contacts_items import Aside, Nature, Supply, Volts
from inventory.markings.contacts_scan import GLUED_T, NUM, ContactScanner
from inventory.markings.scanner import number

VOLTS = "IEC 61058-1 / UL 508, rated voltage"
SUPPLY = "IEC 60417-5032 (~) and 5031 (d.c.); AC, DC by letters"

_ROW = r"[0-9]{2,3}(?:(?:,\s|,?\sor\s)[0-9]{2,3}){1,3}"  # 125, 250 or 480 VAC
_LIST = rf"(?:{_ROW}|{NUM}(?:\s{{0,2}}V?\s{{0,2}}[/-]\s{{0,2}}{NUM}){{0,3}})"
_STOP = r"(?:\.(?![0-9]))?"  # the point of .5 A is no full stop of VAC
_AC = rf"(?:(?:[Aa]\.?[Cc]{_STOP}|C\.?A{_STOP}|c\.a\.)(?:(?![A-Za-z])|{GLUED_T})|~|∿)"
_DC = rf"(?:(?:[Dd]\.?[Cc]{_STOP}|C\.?C{_STOP}|c\.c\.)(?![A-Za-z])|⎓|=(?![0-9]))"
_BOTH = r"(?:(?i:AC\s?(?:/|or|and|&)\s?DC)|≂|≃)"
_HYPHENED = r"(?:[-/(](?=(?i:[AD]C)(?![A-Za-z0-9])))?"
"""250V/AC, 250 V-AC, 250 V(AC): a sign between the unit and the kind of supply."""
_NO_LETTER = r"(?![A-Za-z])"

_VOLTS = re.compile(
    rf"(?P<list>{_LIST})\s{{0,2}}(?:(?P<front>AC|DC)(?=V(?![A-Za-z])))?(?:[Vv]olts?|VOLTS?|[Vv])"
    rf"(?:\.?\s{{0,2}}(?P<both>{_BOTH}){_NO_LETTER}|\.?\s{{0,2}}{_HYPHENED}(?P<ac>{_AC})"
    rf"|\.?\s{{0,2}}{_HYPHENED}(?P<dc>{_DC})|(?P<lost>[Aac]){_NO_LETTER}"
    rf"|(?P<minus>-)(?=\s|$|[,;)]))?(?:(?<=~)|(?![A-SUW-Za-z]|T[A-Za-z]))"
)
_NATURE_FIRST = re.compile(
    rf"(?:(?P<both>{_BOTH})|(?P<ac>AC|ac|a\.c\.|A\.C\.|CA|C\.A\.|~)"
    rf"|(?P<dc>DC|dc|d\.c\.|D\.C\.|CC|C\.C\.|⎓))"
    rf"[:.]?\s{{0,2}}(?P<list>{_LIST})\s{{0,2}}(?:[Vv]olts?|VOLTS?|[Vv])(?![A-Za-z])"
)
_CODE_FIRST = re.compile(
    rf"(?P<nature>DC|AC)\s?(?P<list>{NUM})(?![0-9A-Za-z.,/]|\s?[(\[«]|\s(?:A|a|mA|W)(?![A-Za-z]))"
)
_FIGURE_AND_WAVE = re.compile(r"(?P<list>[1-4][0-9]{2})\s?~(?!\s?[0-9]{2,3}\s?V)(?![0-9])")
_ALONE = re.compile(
    rf"(?P<both>{_BOTH}){_NO_LETTER}|(?P<ac>AC|ac|a\.c\.|A\.C\.|~)(?![A-Za-z-])"
    rf"|(?P<dc>DC|dc|d\.c\.|D\.C\.|⎓)(?![A-Za-z-])"
)
_FIGURES = re.compile(NUM)


def volts(scan: ContactScanner) -> bool:
    """Volts = figures "V" [nature]."""
    found = scan.peek(_VOLTS)
    if found is None:
        return _figure_and_wave(scan)
    if _stray_figure(found["list"]):
        return False
    if found["lost"] == "A" and _is_volt_amperes(scan, found):
        return _volt_amperes(scan, found)
    nature = _nature(scan, found)
    _add(scan, found, nature)
    return True


def _figure_and_wave(scan: ContactScanner) -> bool:
    """Volts = three figures "~": the letter V is left out beside the sign of a.c."""
    found = scan.peek(_FIGURE_AND_WAVE)
    if found is None or scan.torn():
        return False
    _add(scan, found, "ac")
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


LONGEST_MENDED = 200
"""Characters of a marking that is offered mended; each candidate is read anew."""
_POINT_GLUED = re.compile(r"\.[0-9]{1,3}\s?m?A(?![A-Za-z])")


def point_behind_volts(scan: ContactScanner) -> bool:
    """``250VAC.5A``: a full stop, or the point of .5 A; ten times apart, so neither is read."""
    found = scan.peek(_POINT_GLUED)
    if found is None or scan.view[max(0, scan.at - 1) : scan.at].lower() not in {"v", "c", "~"}:
        return False
    scan.warn(f"{found[0]}: a full stop, or the point of 0{found[0]}; it is not read.")
    if len(scan.text) <= LONGEST_MENDED:
        mended = f"{scan.text[: found.start()]} 0{scan.text[found.start() :]}"
        scan.propose(mended, "blank before the point lost")
    scan.give_up(found.start(), found.end())
    scan.at = found.end()
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
        if max(number(figure) for figure in _FIGURES.findall(found["list"])) >= MAINS_ROW_FROM:
            scan.warn(f"{found[0]}: read as d.c., but at such a voltage a worn ~ looks the same.")
        return "dc"
    if found["front"]:
        return "ac" if found["front"] == "AC" else "dc"
    lost = found["lost"]
    if lost is None:
        return _plain_nature(found)
    if lost == "A" and not _after_a_rating(scan):
        scan.warn(f"{found[0]} stands alone: volt-amperes, or a damaged 'V a.c.'; left open.")
        return None
    nature: Nature = "dc" if lost == "c" else "ac"
    scan.warn(f"{found[0]}: read as {_WORDS[nature]}, the sign behind the V is lost.")
    return nature


HIGHEST_V = 480
"""IEC 61058-1 covers switches up to 480 V; a larger figure before VA is volt-amperes."""

_PILOT_DUTY = re.compile(r"pilot|duty", re.IGNORECASE)


def _is_volt_amperes(scan: ContactScanner, found: re.Match[str]) -> bool:
    """True for the volt-amperes of a coil load: above any mains voltage, or called pilot duty."""
    around = scan.view[max(0, found.start() - 40) : found.end() + 40]
    largest = max(number(figure) for figure in _FIGURES.findall(found["list"]))
    return largest > HIGHEST_V or bool(_PILOT_DUTY.search(around))


def _volt_amperes(scan: ContactScanner, found: re.Match[str]) -> bool:
    """VoltAmperes = figure "VA": what a coil load draws; never a voltage, and no rating here."""
    scan.warn(f"{found[0]}: volt-amperes of a coil load; kept in the marking, not read as volts.")
    scan.items.append(Aside(found.start()))
    scan.mark(found.start(), found.end(), f"coil load of {found['list']} VA", PILOT_DUTY)
    scan.at = found.end()
    return True


PILOT_DUTY = "UL 508, pilot duty in volt-amperes"


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
