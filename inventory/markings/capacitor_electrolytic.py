"""Makers' ordering codes of aluminium electrolytics: volts code, then microfarad in digits.

The three digits count **micro**farad, where those of a film capacitor count picofarad; only the
maker's letters in front tell which, so no code without them is read here.
"""

from __future__ import annotations

import re
from decimal import Decimal

from inventory.markings.capacitance import EIA_VOLTS, code_volts, say_farads
from inventory.markings.figures import digit_code
from inventory.markings.passive_marks import ANY_CASE, Meaning, legend, say_tolerance
from inventory.markings.scanner import Rule, Scanner

NICHICON = (
    "Nichicon, type numbering of UHE, UUH, UZR and AD series (dtsheet 401832; docslib 4272962)"
)
PANASONIC = "Panasonic, explanation of part numbers, types 1 and 2 (pdf.jiepei.com eeu-fk1v182l)"

_VALUE = r"(?P<value>[0-9]{3}|[0-9]R[0-9]|R[0-9]{2})"
_NICHICON = re.compile(
    rf"(?P<series>[UL][A-Z]{{2}})-?(?P<volts>[0-2][A-Z]){_VALUE}(?P<tol>[KM])(?P<tail>[0-9A-Z]{{0,6}})"
    r"(?![0-9A-Za-z])",
    ANY_CASE,
)
_PANASONIC = re.compile(
    rf"(?P<series>EEU|ECA|EEE|EET|EEF)-?(?:(?P<name>[A-Z]{{2}})(?P<volts>[0-2][A-Z])"
    rf"|(?P<volts2>[0-2][A-Z])(?P<name2>[A-Z]{{1,2}})){_VALUE}(?P<tail>[A-Z]{{0,3}})(?![0-9A-Za-z])",
    ANY_CASE,
)


def electrolytic_code(scan: Scanner) -> bool:
    """Code = series volts value tolerance tail | product (name volts | volts name) value tail."""
    nichicon = scan.peek(_NICHICON)
    found = nichicon or scan.peek(_PANASONIC)
    if found is None:
        return False
    group = "volts" if found["volts"] else "volts2"
    rated = code_volts(found[group].upper())
    if rated is None:
        return False
    source = NICHICON if nichicon else PANASONIC
    scan.say("voltage_vdc", rated)
    scan.say("dielectric", "electrolytic")
    means: dict[str, Meaning] = {
        "series": ("aluminium electrolytic, the maker's series", source),
        group: (f"{rated} V d.c.", EIA_VOLTS),
        "value": (
            f"{say_farads(scan, _micro(found['value'].upper()))}: the digits count µF",
            source,
        ),
        "tail": ("size and packing", source),
    }
    if nichicon:
        means["tol"] = say_tolerance(scan, found["tol"].upper())
    else:
        means["name" if found["name"] else "name2"] = ("series", source)
    return legend(scan, found, means)


def _micro(code: str) -> Decimal:
    """The picofarad of a code that counts microfarad.

    >>> _micro("102"), _micro("4R7")
    (Decimal('1000000000'), Decimal('4700000'))
    """
    micro = Decimal(code.replace("R", ".")) if "R" in code else digit_code(code)
    return Decimal(int(micro.scaleb(6)))


CODES: tuple[Rule, ...] = (electrolytic_code,)
"""Lines that take a maker's whole code."""

SURE = re.compile(
    r"\s{0,9}(?:[UL][A-Z]{2}-?[0-2][A-Z][0-9R]{3}[KM]|(?:EEU|ECA|EEE|EET|EEF)-?[A-Z0-9]{4})",
    ANY_CASE,
)
"""The head of such a code."""
