"""Colour bands of resistors, three to six, read from either end.

Source: IEC 60062:2016, clause 3; names and two-letter codes: IEC 60757. A white band behind a
complete code marks a fusible type (Yageo FRM data sheet: "5th color code: white").
"""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass
from decimal import Decimal

from inventory.markings.figures import ohms, on_series, tidy
from inventory.markings.scanner import Scanner

IEC_60062_BANDS = "IEC 60062:2016, colour code for fixed resistors"

DIGITS = ("black", "brown", "red", "orange", "yellow", "green", "blue", "violet", "grey", "white")
"""Colours in the order of their figures, 0 to 9."""

POWERS = {name: power for power, name in enumerate(DIGITS)} | {
    "gold": -1,
    "silver": -2,
    "pink": -3,
}
"""Powers of ten of the multiplier band; pink came with the 2016 edition."""

TOLERANCES = {
    "brown": 1,
    "red": 2,
    "orange": 0.05,
    "yellow": 0.02,
    "green": 0.5,
    "blue": 0.25,
    "violet": 0.1,
    "gold": 5,
    "silver": 10,
}
"""Tolerance band in per cent. Grey is left out: published tables disagree (0.01, 0.05, 0.1)."""

TCR = {
    "black": 250,
    "brown": 100,
    "red": 50,
    "orange": 15,
    "yellow": 25,
    "green": 20,
    "blue": 10,
    "violet": 5,
    "grey": 1,
}
"""Sixth band: temperature coefficient in ppm/K."""

_NAMES = {
    "bk": "black",
    "blk": "black",
    "bn": "brown",
    "brn": "brown",
    "rd": "red",
    "og": "orange",
    "org": "orange",
    "orn": "orange",
    "ye": "yellow",
    "yel": "yellow",
    "gn": "green",
    "grn": "green",
    "bu": "blue",
    "blu": "blue",
    "vt": "violet",
    "vio": "violet",
    "purple": "violet",
    "gy": "grey",
    "gray": "grey",
    "gry": "grey",
    "wh": "white",
    "wht": "white",
    "gd": "gold",
    "gld": "gold",
    "golden": "gold",
    "sr": "silver",
    "slv": "silver",
    "sil": "silver",
    "pk": "pink",
    "pnk": "pink",
}
_WORDS = sorted({*_NAMES, *POWERS}, key=len, reverse=True)
_COLOUR = re.compile(rf"(?:{'|'.join(_WORDS)})(?![0-9A-Za-z])", re.IGNORECASE | re.ASCII)
_GAP = re.compile(r"\s{0,3}[-,/;|]?\s{0,3}")


@dataclass(frozen=True, slots=True)
class Bands:
    """One reading of a row of bands; ``meanings`` has one entry a band, in reading order."""

    ohm: Decimal
    figures: int  # two or three
    tolerance_pct: float | None  # None: no band for it, or one whose figure is disputed
    tcr_ppm: int | None
    fusible: bool
    meanings: tuple[str, ...]

    def spoken(self) -> str:
        """Value and tolerance as a tech says them."""
        pct = "" if self.tolerance_pct is None else f" ±{self.tolerance_pct}%"
        return f"{ohms(self.ohm)}{pct}"

    def on_series(self) -> bool:
        """True if the value is a preferred one."""
        return on_series(self.ohm, self.figures)

    def ratings(self) -> dict[str, object]:
        """The ratings this reading gives."""
        said: dict[str, object] = {"resistance_ohm": tidy(self.ohm)}
        if self.tolerance_pct is not None:
            said["tolerance_pct"] = self.tolerance_pct
        if self.tcr_ppm is not None:
            said["tcr_ppm"] = self.tcr_ppm
        if self.fusible:
            said["fusible"] = True
        return said


def decode(colours: Sequence[str]) -> Bands | None:
    """The reading from the first colour on; None where the colours cannot mean a value.

    >>> decode(["yellow", "violet", "red", "gold"]).ohm
    Decimal('4700')
    """
    fusible = len(colours) in (5, 6) and colours[-1] == "white"
    row = list(colours[:-1]) if fusible else list(colours)
    count = {3: 2, 4: 2, 5: 3, 6: 3}.get(len(row))
    if count is None or row[0] == "black" or any(c not in DIGITS for c in row[:count]):
        return None
    rest = row[count + 1 :]
    if rest and rest[0] not in TOLERANCES and rest[0] != "grey":
        return None
    if len(rest) == 2 and rest[1] not in TCR:
        return None
    return _bands(row, count, fusible=fusible)


def _bands(row: list[str], count: int, *, fusible: bool) -> Bands:
    """Bands = digits multiplier tolerance? coefficient? white?"""
    power, rest = POWERS[row[count]], row[count + 1 :]
    number = int("".join(str(POWERS[colour]) for colour in row[:count]))
    meanings = [f"figure {POWERS[colour]}" for colour in row[:count]]
    meanings.append(f"times {tidy(Decimal(1).scaleb(power))}")
    percent = TOLERANCES.get(rest[0]) if rest else None
    if rest:
        meanings.append(f"tolerance ±{percent} %" if percent else "tolerance, tables disagree")
    tcr = TCR[rest[1]] if len(rest) == 2 else None
    if tcr is not None:
        meanings.append(f"{tcr} ppm/K")
    if fusible:
        meanings.append("a fusible type")
    return Bands(
        ohm=Decimal(number).scaleb(power),
        figures=count,
        tolerance_pct=percent,
        tcr_ppm=tcr,
        fusible=fusible,
        meanings=tuple(meanings),
    )


def bands(scan: Scanner) -> bool:
    """Bands = colour (gap colour){2,5}: a row of three to six colours."""
    spans = _row(scan)
    if len(spans) < 3:
        return False
    colours = [_name(scan.view[a:b]) for a, b in spans]
    forward, backward = decode(colours), decode(colours[::-1])
    read, turned = _settle(scan, forward, backward)
    meanings = read.meanings if read else ("a band; the row fits no single reading",) * len(spans)
    for (start, end), means in zip(spans, meanings[::-1] if turned else meanings, strict=True):
        scan.mark(scan.at, start, "stands between two bands", "common practice")
        scan.mark(start, end, means, IEC_60062_BANDS)
        scan.at = end
    return True


def _row(scan: Scanner) -> list[tuple[int, int]]:
    """Where the colours of the row at the cursor lie."""
    spans: list[tuple[int, int]] = []
    at = scan.at
    while found := _COLOUR.match(scan.view, at):
        spans.append(found.span())
        gap = _GAP.match(scan.view, found.end())
        at = gap.end() if gap else found.end()
    return spans


def _name(colour: str) -> str:
    """The full British name of a colour."""
    low = colour.lower()
    return _NAMES.get(low, low)


def _settle(
    scan: Scanner, forward: Bands | None, backward: Bands | None
) -> tuple[Bands | None, bool]:
    """Choose the reading by the rules of the code; where it stays open, offer both.

    The row as typed counts; the other end wins only where the row cannot begin as typed.
    """
    if forward is None and backward is None:
        scan.warn("These bands fit no reading from either end; look again or measure.")
        return None, False
    if forward is None or backward is None:
        return _one_end(scan, forward, backward)
    if forward.ratings() == backward.ratings():
        return _say(scan, forward), False
    stepped = forward.on_series(), backward.on_series()
    if stepped == (True, False):
        return _say(scan, forward), False
    _offer(scan, forward, "read in the order typed")
    _offer(scan, backward, "read from the other end")
    if stepped == (False, True):
        scan.warn(
            f"As typed it is {forward.spoken()}, no value of the E series; from the other end"
            f" {backward.spoken()}. Measure it."
        )
        return None, False
    scan.warn(f"From the other end it reads {backward.spoken()}; measure it.")
    return _say(scan, forward), False


def _one_end(
    scan: Scanner, forward: Bands | None, backward: Bands | None
) -> tuple[Bands | None, bool]:
    """Only one end can begin: gold, silver or black never stand first."""
    if forward is not None:
        return _say(scan, forward), False
    scan.warn("Typed from the tolerance end: the row is read from its other end.")
    return (_say(scan, backward) if backward else None), True


def _say(scan: Scanner, read: Bands) -> Bands:
    """Set what a reading says; without a tolerance band the standard assumes 20 %."""
    for name, value in read.ratings().items():
        scan.say(name, value)
    if len(read.meanings) == 3:
        scan.assume("tolerance_pct", 20, IEC_60062_BANDS)
    return read


def _offer(scan: Scanner, read: Bands, reason: str) -> None:
    """Propose one reading."""
    scan.propose(read.spoken(), reason, **read.ratings())
