"""Temperatures as they are printed: Celsius, Fahrenheit, both, with tolerance.

Where both scales are printed they must agree (NIST SP 811, appendix B.8). Where they do not,
nothing is read as a rating; repairs that would make them agree are offered as candidates.
"""

from __future__ import annotations

import re
from dataclasses import dataclass

from inventory.markings.amounts import NUM, plain_number, review, written
from inventory.markings.damage import cf_pair
from inventory.markings.scanner import Scanner
from inventory.units import celsius

PAIR_SOURCE = "NIST SP 811, appendix B.8: t/°F = 1.8 t/°C + 32"

_C = r"(?:(?:Â?°|deg(?:rees)?\.?)\s?C(?:elsius)?|℃|¡æ|â„ƒ|C(?:elsius)?)"
_F = r"(?:(?:Â?°|deg(?:rees)?\.?)\s?F(?:ahrenheit)?|℉|F(?:ahrenheit)?)"
_SIGN = r"(?:(?<![A-Za-z0-9)])[-+]\s?|minus\s)?"


def _one(n: str, unit: str) -> str:
    """Pattern of one figure with its tolerance, even or lop-sided, and its unit."""
    even = rf"(?:Â?±|\+/-|\+-|¡À)\s?(?P<tol{n}>{NUM})"
    uneven = rf"\+\s?(?P<up{n}>{NUM})\s?/?\s?-\s?(?P<down{n}>{NUM})"
    tolerance = rf"(?:\s?(?:{even}|{uneven}))?"
    return rf"(?P<fig{n}>{_SIGN}{NUM}){tolerance}\s?(?P<unit{n}>{unit})(?![A-Za-z0-9])"


_SINGLE = _one("1", rf"{_C}|{_F}")
_TEMPERATURE = re.compile(
    rf"{_SINGLE}(?:\s?[(/,]?\s?{_one('2', f'{_C}|{_F}')}\s?\)?)?", re.IGNORECASE
)
_WRONG_SET = re.compile(r"¡æ|¡À|â„ƒ|Â°|Â±")


@dataclass(frozen=True, slots=True)
class Temperature:
    """One printed temperature: in °C, in °F or in both, tolerance in the same scale.

    ``agrees`` is None where only one scale is printed.
    """

    c: float | None = None
    f: float | None = None
    tol_c: float | None = None
    tol_f: float | None = None
    down_c: float | None = None  # a lop-sided tolerance: +up/-down
    up_c: float | None = None
    agrees: bool | None = None
    text: str = ""

    def in_c(self) -> float | None:
        """The figure in °C, converted where only °F is printed; None where the pair disagrees."""
        if self.agrees is False:
            return None
        if self.c is not None:
            return self.c
        return None if self.f is None else tidy(celsius(self.f))


def tidy(value: float) -> float:
    """A converted figure to one decimal, whole where it is whole.

    >>> tidy(celsius(155)), tidy(celsius(302))
    (68.3, 150)
    """
    rounded = round(value, 1)
    return int(rounded) if rounded == int(rounded) else rounded


def signed(text: str) -> float:
    """A figure with its sign, in words or as a sign."""
    bare = text.lower().replace("minus", "-").replace(" ", "").replace("+", "")
    return plain_number(bare)


def _is_f(unit: str) -> bool:
    """Whether a unit spelling is Fahrenheit's."""
    return unit == "℉" or "f" in unit.lower()


def _side(found: re.Match[str], n: str) -> dict[str, float]:
    """What one half of the match says, by attribute of `Temperature`."""
    said: dict[str, float] = {}
    scale = "f" if _is_f(found[f"unit{n}"]) else "c"
    said[scale] = signed(found[f"fig{n}"])
    if found[f"tol{n}"]:
        said[f"tol_{scale}"] = plain_number(found[f"tol{n}"])
    if found[f"up{n}"] and scale == "c":
        said["up_c"] = plain_number(found[f"up{n}"])
        said["down_c"] = plain_number(found[f"down{n}"])
    return said


def _spoken(said: dict[str, float]) -> str:
    """The figures of a printed temperature, °C first, each with its tolerance."""
    words = []
    for scale in "cf":
        if scale not in said:
            continue
        spread = f" ± {written(said[f'tol_{scale}'])}" if f"tol_{scale}" in said else ""
        if "up_c" in said and scale == "c":
            spread = f" +{written(said['up_c'])}/-{written(said['down_c'])}"
        words.append(f"{written(said[scale])}{spread} °{scale.upper()}")
    return ", ".join(words)


def temperature(scan: Scanner, means: str = "temperature") -> Temperature | None:
    """Temperature = figure tolerance? unit ( "("? figure tolerance? other-unit ")"? )?."""
    found = scan.peek(_TEMPERATURE)
    if found is None:
        return None
    paired = found["fig2"] is not None and _is_f(found["unit1"]) != _is_f(found["unit2"])
    stop = found.end() if paired else found.end("unit1")
    if paired and found.group().endswith(")") and "(" not in found.group():
        stop = found.end("unit2")
    said = _side(found, "1") | (_side(found, "2") if paired else {})
    source = PAIR_SOURCE if paired else "SI brochure, degree Celsius"
    scan.mark(found.start(), stop, f"{means} {_spoken(said)}", source)
    scan.at = stop
    if _WRONG_SET.search(found.group()):
        scan.warn("A sign was read in the wrong character set; it is taken as ℃ or ±.")
    agrees = cf_pair(said["c"], said["f"]).consistent if paired else None
    return Temperature(**said, agrees=agrees, text=scan.text[found.start() : stop].strip())


# a pair that disagrees -------------------------------------------------------

_FIGURE = re.compile(
    r"[-+]?[0-9]{1,7}(?:[.,][0-9]{1,4})?(?=\s?(?:±\s?[0-9.]{1,6}\s?)?[°˚º]?\s?(?P<unit>[FC℃℉]))"
)


def _with(scan: Scanner, at: Temperature, c: float, f: float) -> str:
    """The marking with both figures of the pair written anew, all else as printed."""
    new = _FIGURE.sub(lambda found: written(f if found["unit"] in "F℉" else c), at.text)
    return scan.text.replace(at.text, new, 1)


def usable(scan: Scanner, at: Temperature, name: str) -> bool:
    """Whether a temperature may be read; a pair that disagrees is offered repaired instead.

    Sets ``cf_pair_consistent`` where both scales are printed; ``name`` is the rating it is.
    """
    if at.agrees is None or at.c is None or at.f is None:
        return True
    scan.ratings["cf_pair_consistent"] = scan.ratings.get("cf_pair_consistent", True) and at.agrees
    if at.agrees:
        return True
    pair = cf_pair(at.c, at.f)
    review(scan, f"{at.text}: {pair.sentence} Neither figure is read.")
    for c, f, why in pair.repairs:
        repaired = {f"{name}_c": c, f"{name}_f": f}
        scan.propose(_with(scan, at, c, f), f"{why}: then both scales agree", **repaired)
    return False
