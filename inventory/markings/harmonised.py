"""Harmonised cable codes, ``H05VV-F`` and its kin, letter by letter.

Source: CENELEC HD 361 as tabled at cable-world.co.uk, a guide to harmonised cable codes.
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from typing import Any

from inventory.markings.amounts import PRACTICE
from inventory.markings.figures import figure
from inventory.markings.passive_marks import ANY_CASE, Meaning, legend
from inventory.markings.scanner import Scanner

HD_361 = "CENELEC HD 361, as tabled at cable-world.co.uk"
"""Source of the letters."""

VOLTAGES = {"01": "100/100", "03": "300/300", "05": "300/500", "07": "450/750"}
"""Rated voltage Uo/U of the two figures. Source: HD 361."""

MATERIALS = {
    "B": "EPR 90 C",
    "E": "polyethylene",
    "G": "EVA",
    "J": "glass fibre braid",
    "N": "polychloroprene",
    "N2": "polychloroprene for welding",
    "N4": "chlorosulfonated polyethylene",
    "N8": "water-resistant polychloroprene",
    "Q": "polyurethane",
    "Q4": "polyamide",
    "R": "rubber",
    "S": "silicone rubber",
    "T": "textile braid",
    "V": "PVC",
    "V2": "PVC 90 C",
    "V3": "PVC, low temperature",
    "V4": "PVC, cross-linked",
    "V5": "PVC, oil-resistant",
    "Z": "cross-linked polyolefin, low smoke",
    "Z1": "polyolefin, low smoke",
}
"""Letters of insulation and sheath. Source: HD 361; E from memory."""

SHAPES = {
    "H": "flat, separable",
    "H2": "flat, non-separable",
    "H6": "flat, non-separable, three cores or more",
    "H8": "coiled",
}
"""Special shapes. Source: HD 361."""

CONDUCTORS = {
    "F": "flexible fine wire",
    "H": "flexible extra-fine wire",
    "K": "fine wire, fixed wiring",
    "R": "stranded, rigid",
    "U": "solid",
    "Y": "tinsel",
    "D": "fine wire, welding cable",
    "E": "very fine wire, welding cable",
}
"""Form of the conductor. Source: HD 361."""


def say_grade(scan: Scanner, pair: str) -> None:
    """Set the voltage between cores of a pair Uo/U."""
    scan.say("voltage_v", int(pair.split("/")[1]))


_MATERIAL = r"N[248]|Q4|V[2345]|Z1|[BEGJNQRSTVZ]"
_HARMONISED = re.compile(
    rf"(?P<body>[HA])(?P<volts>0[1357])(?P<insulation>{_MATERIAL})(?P<screen>C4|C)?"
    rf"(?P<sheath>{_MATERIAL})?(?P<core>D[35]?)?(?P<shape>H[268]?)?\s?-\s?(?P<conductor>[FHKRUYDE])"
    r"(?![A-Za-z])",
    ANY_CASE,
)
AREAS = (0.5, 0.75, 1, 1.5, 2.5, 4, 6, 10, 16, 25, 35, 50, 70, 95, 120)
"""Nominal areas of conductors in mm². Source: IEC 60228, table 1."""


def harmonised(scan: Scanner) -> bool:
    """Code = ("H" | "A") volts insulation sheath? shape? "-" conductor."""
    found = scan.peek(_HARMONISED)
    if found is None:
        return False
    part = {name: (text or "").upper() for name, text in found.groupdict().items()}
    scan.say("harmonised", part["body"] == "H")
    values = {
        "voltage": VOLTAGES[part["volts"]],
        "insulation": MATERIALS[part["insulation"]],
        "sheath": MATERIALS.get(part["sheath"]),
        "shape": SHAPES.get(part["shape"]),
        "conductor": CONDUCTORS[part["conductor"]],
    }
    for name, value in values.items():
        if value is not None:
            scan.say(name, value)
    say_grade(scan, VOLTAGES[found["volts"]])
    means: dict[str, Meaning] = {
        "body": ("harmonised" if part["body"] == "H" else "recognised national type", HD_361),
        "volts": (f"{values['voltage']} V", HD_361),
        "insulation": (f"insulation {values['insulation']}", HD_361),
        "screen": ("copper screen or concentric conductor", HD_361),
        "sheath": (f"sheath {values['sheath']}", HD_361),
        "core": ("strain-bearing or central core", HD_361),
        "shape": (f"{values['shape']}", HD_361),
        "conductor": (f"conductor {values['conductor']}", HD_361),
    }
    return legend(scan, found, means)


_BARE_AREA = re.compile(
    r"(?P<area>[0-9]{1,3}(?:[.,][0-9]{1,2})?)(?![0-9A-Za-z.,]|\s?[x×*GgV°/-](?![a-z])|\s?mm)"
)


def bare_area(scan: Scanner) -> bool:
    """Area = a nominal area without its unit, behind the code of a single core: H07V-U 1,5."""
    found = scan.peek(_BARE_AREA)
    if found is None or "harmonised" not in scan.ratings or "area_mm2" in scan.ratings:
        return False
    amount = figure(found["area"])
    if amount not in AREAS:
        return False
    scan.say("area_mm2", amount)
    return legend(scan, found, {"area": (f"{amount} mm² of copper", "IEC 60228, nominal areas")})


_IEC_227 = re.compile(
    r"(?:IEC\s?)?(?P<standard>6?0?22[67]|60245|245)\s?(?P<iec>IEC)\s?(?P<number>[0-9]{2})"
    r"(?:\s?\(\s?(?P<name>[A-Z]{2,4})\s?\))?(?![0-9A-Za-z])"
)
_IEC_TYPES = {
    "52": ("300/300", "H03VV-F"),
    "53": ("300/500", "H05VV-F"),
    "56": ("300/300", "H03V2V2-F"),
    "57": ("300/500", "H05V2V2-F"),
}


def iec_227(scan: Scanner) -> bool:
    """Type = "60227 IEC" number "(" name ")"."""
    found = scan.peek(_IEC_227)
    if found is None or found["number"] not in _IEC_TYPES or "245" in found["standard"]:
        return False
    voltage, like = _IEC_TYPES[found["number"]]
    scan.say("voltage", voltage)
    say_grade(scan, voltage)
    source = "IEC 60227-5, correspondence from memory"
    means = {
        "standard": ("PVC cables", "IEC 60227"),
        "iec": ("designation of the standard", "IEC 60227"),
        "number": (f"{voltage} V, as {like}", source),
        "name": ("Chinese type letters", PRACTICE),
    }
    return legend(scan, found, means)


def code(said: Mapping[str, Any]) -> str:
    """The harmonised code of the ratings; empty where they do not come from one.

    >>> code({"harmonised": True, "voltage": "300/500", "insulation": "PVC",
    ...       "sheath": "PVC", "conductor": "flexible fine wire"})
    'H05VV-F'
    """
    if not {"harmonised", "voltage", "insulation", "conductor"} <= said.keys():
        return ""
    volts, material, shape, conductor = map(_turned, (VOLTAGES, MATERIALS, SHAPES, CONDUCTORS))
    letter = "H" if said["harmonised"] else "A"
    sheath = material.get(said.get("sheath", ""), "") + shape.get(said.get("shape", ""), "")
    return (
        f"{letter}{volts[said['voltage']]}{material[said['insulation']]}{sheath}"
        f"-{conductor[said['conductor']]}"
    )


def _turned(table: Mapping[str, str]) -> dict[str, str]:
    """A table read the other way round."""
    return {value: key for key, value in table.items()}
