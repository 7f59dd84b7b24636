"""Thermal links: one shot, new only. The rated functioning temperature Tf is read from the body.

A type number is the temperature only where published pairs show that it is; for the SF types
it is not, so nothing is read from their number.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from functools import partial
from typing import Any

from inventory.markings.amounts import (
    GAPS,
    Phrase,
    amps,
    approvals,
    listed,
    phrases,
    review,
    volts,
)
from inventory.markings.scanner import Rule, Scanner
from inventory.markings.temperatures import Temperature, temperature, usable
from inventory.markings.thermal_link_types import (
    numbered,
    say_tf,
    sf,
    sf_name,
    table_row,
    tabled,
)
from inventory.markings.writing import write
from inventory.records import Reading

TERMS = "thermal cutoff definitions (IEC 60691 terms), hkdtupc.cn tsf_datasheet_15840472_10"
RANGE_C = (60, 300)
"""Thermal links function between these; a figure outside is not read as Tf. Source: catalogues
of the series give 70 to 240 °C; the rest is margin."""

MOST_C = 600
"""No link's maximum limit lies above this. Source: common practice."""

_HEADINGS = {
    "tf": r"T\s?f(?=\s?[:=]?\s?[0-9])|(?:rated )?function(?:ing|s)?(?: at)?|rated (?=temp)",
    "th": r"T\s?h(?=\s?[:=]?\s?[0-9])|holding",
    "tc": r"T\s?c(?=\s?[:=]?\s?[0-9])",
    "tm": r"T\s?m(?=\s?[:=]?\s?[0-9])|max(?:imum|\.)?",
    "actual_open": r"(?:actual|fusing|cut-?off|melting|open(?:s|ing)?|operating)"
    r"(?:[ -](?:off|at))?",
}
_MEANS = {
    "tf": "rated functioning temperature Tf",
    "th": "holding temperature Th",
    "tc": "holding temperature Tc",
    "tm": "maximum temperature limit Tm",
    "actual_open": "temperature at which it actually opens",
}
_HEADING = re.compile(
    f"(?:{'|'.join(f'(?P<{name}>{words})' for name, words in _HEADINGS.items())})"
    r"(?![a-z])(?:\s?temp(?:erature)?s?\.?(?: limit)?)?\s?[:=]?",
    re.IGNORECASE,
)
_BARE = re.compile(r"[0-9]{2,3}(?![0-9A-Za-z.,])")


@dataclass(slots=True)
class Heading:
    """Which temperature the next figure is; ``printed`` once the body has said Tf."""

    name: str | None = None
    printed: bool = False


def _heading(heading: Heading, scan: Scanner) -> bool:
    """Heading = "Tf" | "Th" | "Tc" | "Tm" | "holding temp." | "fusing temp." ..."""
    found = scan.peek(_HEADING)
    if found is None or found.lastgroup is None:
        return False
    scan.take(_HEADING, _MEANS[found.lastgroup], TERMS)
    heading.name = found.lastgroup
    return True


def _figure(heading: Heading, scan: Scanner) -> bool:
    """Figure = temperature, or a bare figure in °C behind its heading; alone it is Tf."""
    name = heading.name or "tf"
    read = temperature(scan, _MEANS[name])
    if read and not heading.name and "tf_c" in scan.ratings and (read.tol_c or read.down_c):
        name = "actual_open"  # Tf has the standard's tolerance; a printed one is the maker's own
    if read is None and heading.name:
        found = scan.take(_BARE, f"{_MEANS[name]}, in °C", TERMS)
        read = None if found is None else Temperature(c=int(found.group()), text=found.group())
    if read is None:
        return False
    if name == "tf" and heading.name is None and heading.printed:
        return _unnamed(scan, read)
    heading.printed = heading.printed or name == "tf"
    heading.name = None
    if usable(scan, read, name):
        _say(scan, name, read)
    return True


def _unnamed(scan: Scanner, read: Temperature) -> bool:
    """A further temperature without a heading: Th, Tm or another column, never a second Tf."""
    if read.in_c() != scan.ratings.get("tf_c"):
        review(scan, f"{read.text}: which temperature this is, is not said; it is not read.")
    return True


def _say(scan: Scanner, name: str, read: Temperature) -> None:
    """One temperature as a rating; where it actually opens is a pair of limits."""
    c = read.in_c()
    if c is None:
        return
    if name == "actual_open":
        scan.say("actual_open_c", _limits(c, read))
    elif name != "tf" and 0 < c <= MOST_C:
        scan.say(f"{name}_c", c)
    elif name != "tf":
        review(scan, f"{listed(c)} °C is no {_MEANS[name]}.")
    elif RANGE_C[0] <= c <= RANGE_C[1]:
        say_tf(scan, c, printed=True)
        if read.f is not None:
            scan.say("tf_f", read.f)
    else:
        review(scan, f"{listed(c)} °C is outside the range of thermal links; it is not read as Tf.")


def _limits(c: float, read: Temperature) -> Any:
    """Both ends of the tolerance, or the figure alone."""
    down, up = read.down_c or read.tol_c, read.up_c if read.down_c else read.tol_c
    return c if down is None else [c - down, c + (up or 0)]


_WORDS = phrases(
    Phrase(r"alloy", "fusible alloy"),
    Phrase(r"thermal[ -]?(?:cut[ -]?(?:outs?|offs?)|fuse|links?)|temperature fuse|TCO|thermofuse",
           "it is a thermal link"),
    Phrase(r"temp(?:erature)?s?\.?|rated|type|series|fuse|max", "heading"),
    Phrase(r"axial", "axial leads", {"case_style": "axial"}),
    Phrase(r"radial", "radial leads", {"case_style": "radial"}),
    Phrase(r"insulated(?: case)?", "insulated case", {"case": "insulated"}),
    Phrase(r"live case", "live case", {"case": "live"}),
    Phrase(r"long leads?", "long leads", {"lead": "long"}),
    Phrase(r"(?:standard|regular|short) leads?", "standard leads", {"lead": "standard"}),
)  # fmt: skip
_VOLTS = volts({"": "voltage_v", "ac": "voltage_v", "dc": "voltage_dc_v"})


def _lines(heading: Heading) -> tuple[Rule, ...]:
    """The whole grammar, in order."""
    return (
        sf, sf_name, numbered, tabled, table_row, partial(_heading, heading),
        partial(_figure, heading), _VOLTS, amps(), _WORDS, approvals, *GAPS,
    )  # fmt: skip


def read(text: str) -> Reading:
    """Read the body or the data-sheet line of a thermal link."""
    scan = Scanner(text)
    scan.sweep(_lines(Heading()))
    return scan.reading("thermal_link")


_LIKELY = (
    (r"(?:^|\s)(?:SFH?[0-9]{2,3}[A-Z]|G[4-8][A-Z][0-9]{5}|BF[0-9]{2,3}(?:\s|$))", 0.95),
    (r"\bT\s?[fF]\s?[:=]?\s?[0-9]{2,3}|(?i:thermal[ -]?(?:fuse|link|cut-?off))", 0.9),
    (r"(?i:\bfuse,\s?thermal\b|\bfunctioning temp)", 0.9),
    (r"(?:^|\s)(?:SFH?/[A-Z]|SM/[A-Z]|(?:SDF )?DF[0-9]{3}S|K10B-[0-9]{3})\b", 0.9),
    (r"(?:^|\s)(?:A[0-5]-F\b|L50[0-9]{5}[A-Z])", 0.9),
    (r"\b[0-9]{2,3}\s?(?:°\s?C|℃|C)\b.{0,12}\b(?:1[056]|1|2)\s?A\b.{0,6}250\s?V", 0.5),
    (r"\bNTE8[0-9]{3}\b|^\s*[A-Z][0-9A-Z]{1,3} [0-9]{2,3} [0-9]{2,3}±[0-9] [0-9]{2,3}\s*$", 0.8),
    (r"[0-9]A\s[0-9]{3}V.{0,3}[0-9]{2,3}\s?C\s[0-9]{3}\s?F\b", 0.7),
    (r"^\s*F[0-9]{1,2}\s*$", 0.3),
)
_LIKELY_AT = tuple((re.compile(pattern), score) for pattern, score in _LIKELY)


def likely(text: str) -> float:
    """How strongly a text looks like a thermal link, 0 to 1."""
    head = text[:400].replace("˚", "°")
    return next((score for pattern, score in _LIKELY_AT if pattern.search(head)), 0.0)


def _opens_text(value: Any) -> str:
    """Where it opens: the upper limit with its tolerance downwards, or one figure."""
    if not isinstance(value, list):
        return f"opens at {listed(value)} C"
    low, high = value
    return f"opens at {listed(high)}+0/-{listed(round(high - low, 4))} C"


def _tf_text(said: dict[str, Any]) -> str:
    """Tf in the scales that were printed."""
    c, f = listed(said["tf_c"]), said.get("tf_f")
    if f is None:
        return f"Tf {c} C"
    return f"Tf {listed(f)} F" + (f" ({c} C)" if "cf_pair_consistent" in said else "")


def canonical(reading: Reading) -> str:
    """The marking written out again; reads back to the same ratings."""
    said = dict(reading.ratings)
    head = ("type", "{}") if "type" in said else ("series", "{}")
    return write(
        said,
        head,
        ("tf_c", lambda _: _tf_text(said)),
        ("th_c", "Th {}"),
        ("tc_c", "Tc {}"),
        ("tm_c", "Tm {}"),
        ("actual_open_c", _opens_text),
        ("current_a", "{}A"),
        ("voltage_v", lambda v: f"{listed(v, '/')}V"),
        ("voltage_dc_v", "{}VDC"),
        ("case_style", "{}"),
        ("case", {"insulated": "insulated case", "live": "live case"}),
        ("lead", "{} leads"),
        ("approvals", "{}"),
    )
