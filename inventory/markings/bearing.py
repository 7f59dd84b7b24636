"""Rolling bearings: type, series, bore, seals, clearance, and the sizes of the common series.

``series`` is the basic designation without the bore code, as the makers name it: 62, 618, 222.
Outer diameter and width follow from the series and are therefore ``assumed``, not read.
"""

from __future__ import annotations

import re

from inventory.markings.amounts import PRACTICE
from inventory.markings.bearing_sizes import outline
from inventory.markings.bookkeeping import START
from inventory.markings.figures import figure
from inventory.markings.passive_marks import (
    ANY_CASE,
    COMMON,
    Meaning,
    legend,
    temperature,
    word,
)
from inventory.markings.scanner import Rule, Scanner
from inventory.markings.writing import faithful
from inventory.records import Reading

SKF = "SKF, basic designations of rolling bearings (ISO 15, DIN 623)"
LFD = "LFD, bearing designation; eibc.in, suffixes of five makers"

TYPES = {
    "1": "self-aligning ball",
    "2": "spherical roller",
    "3": "tapered roller",
    "4": "double row deep groove ball",
    "5": "thrust ball",
    "6": "deep groove ball",
    "7": "angular contact ball",
    "8": "cylindrical roller thrust",
    "16": "deep groove ball",
    "N": "cylindrical roller",
    "QJ": "four-point contact ball",
}
"""Bearing types by the first figure or letters. Source: SKF, table 1."""

_FOUR_FIGURES = {
    "22": "self-aligning ball",
    "23": "self-aligning ball",
    "32": "double row angular contact ball",
    "33": "double row angular contact ball",
    "42": "double row deep groove ball",
    "43": "double row deep groove ball",
}
"""Four-figure numbers whose type figure is left out. Source: SKF, brackets of table 1."""

_BORES = {"00": 10, "01": 12, "02": 15, "03": 17}

SEALS = {
    "2 shields": "2ZR|2Z|ZZE?|ZZS?",
    "1 shield": "ZE?",
    "2 contact seals": "2RU|2RS1?H?R?|2RSH2?|2RSL|2RS2|2HRS|DDU|LLU|LLH|2NSE?|DD|EE|PP|2RSR",
    "1 contact seal": "RU|RS1?H?R?|RSR|DU|LU|NSE",
    "2 non-contact seals": "2RZ|LLB|VV|2BRS|2RSD|2NKE?",
    "1 non-contact seal": "RZ|LB|BRS|NKE",
}
"""Spellings of shields and seals. Sources: eibc.in, prefix and suffix guide, five makers; RU,
boretbearings.com."""

_BASIC = re.compile(
    r"(?P<heat>TS[234]-)?(?P<prefix>(?:NUP|NJ|NU|NN|NF|N|QJ|NA|W|SS?|E2\.)\s?-?)?"
    r"(?P<number>[0-9]{2,3}/[0-9]{1,3}(?:[.,][0-9]{1,3})?"
    r"|[1-8][0-9]{3,4}/[0-9]{1,3}[.,][0-9]{1,3}|[1-8][0-9]{2,4})(?![0-9])"
)


def basic(scan: Scanner) -> bool:
    """Basic = letters? type series bore | series "/" bore in mm."""
    found = scan.peek(_BASIC)
    if found is None or "bore_mm" in scan.ratings:
        return False
    split = _split(found["prefix"] or "", found["number"])
    if split is None:
        return False
    kind, series, bore = split
    scan.say("type", kind)
    scan.say("series", series)
    scan.say("bore_mm", bore)
    _assume_outline(scan, series, bore)
    scan.assume("seals", "open", f"{SKF}: no suffix, no seal")
    scan.assume("clearance", "CN", f"{SKF}: no suffix, normal clearance")
    means: dict[str, Meaning] = {
        "heat": ("heat-stabilised rings", NTN),
        "prefix": ("type or material", SKF),
        "number": (f"{kind} bearing, series {series}, bore {bore} mm", SKF),
    }
    return legend(scan, found, means)


_DRAWN_CUP = re.compile(
    r"(?P<type>HK|BK|HN)\s?(?P<bore>[0-9]{2})\s?(?P<width>[0-9]{2})(?P<tail>T2|ZWD|L{1,2})?"
    r"(?:\s(?P<cage>T2))?(?P<grease>/[0-9]AS)?(?![0-9A-Za-z])",
    ANY_CASE,
)
NTN = "NTN, drawn cup needle roller bearings and bearing number arrangement (pdfslide; table 4.3)"


def drawn_cup(scan: Scanner) -> bool:
    """DrawnCup = "HK" shaft-mm width-mm tail; the figures are millimetres and no bore code."""
    found = scan.peek(_DRAWN_CUP)
    if found is None or "bore_mm" in scan.ratings:
        return False
    scan.say("type", "needle roller")
    scan.say("series", found["type"].upper())
    scan.say("bore_mm", int(found["bore"]))
    scan.say("width_mm", int(found["width"]))
    means: dict[str, Meaning] = {
        "type": ("drawn cup needle roller bearing", NTN),
        "bore": (f"for a shaft of {int(found['bore'])} mm", NTN),
        "width": (f"{int(found['width'])} mm wide", NTN),
        "tail": ("cage, seal or roller rows, by the maker's table", NTN),
        "cage": ("plastic cage", NTN),
        "grease": ("grease", NTN),
    }
    return legend(scan, found, means)


def _split(prefix: str, number: str) -> tuple[str, str, int | float] | None:
    """Type, series and bore of a basic designation; None where it is none."""
    letters = prefix.strip().rstrip("-").strip()
    rolling = letters if letters.startswith(("N", "Q")) else ""
    if "/" in number:
        head, bore = number.split("/")
        head = head[:-2] if len(head) > 3 else head  # a bore off the standard, e.g. 6202/15.875
        return _named(rolling, head, figure(bore))
    if len(number) == 3 and not rolling:
        return _named("", number[:2], int(number[2]))
    code = number[-2:]
    bore_mm = _BORES.get(code, 5 * int(code))
    return _named(rolling, number[:-2], bore_mm) if bore_mm else None


def _named(letters: str, head: str, bore: float) -> tuple[str, str, int | float] | None:
    """Put the type's name to the series."""
    if letters:
        kind = "needle roller" if letters == "NA" else TYPES.get(letters[:2])
        return (kind or TYPES["N"], letters + head, bore)
    if not head or not bore:
        return None
    kind = _FOUR_FIGURES.get(head) if len(head) == 2 else None
    kind = kind or TYPES.get(head[:2] if head.startswith("16") else head[0])
    return (kind, head, bore) if kind else None


def _assume_outline(scan: Scanner, series: str, bore: float) -> None:
    """Outer diameter and width the standard gives to the series and bore."""
    found = outline(series, bore)
    if found is not None:
        outer, width, source = found
        scan.assume("outer_mm", outer, source)
        scan.assume("width_mm", width, source)


_SEAL = re.compile(
    r"[\s./-]{0,2}(?P<seal>2RU|2RS[LR]|2RSH2?|2RS[12]?|2HRS|2RZ|2RSD|2NSE?|2NKE?|2BRS|2ZR?|ZZ[ES]?|LL[UBH]|DDU?|VV|EE|PP|"
    r"RSR|RS[1H]?|RZ|BRS|NSE|NKE|DU|LU|LB|RU|ZE?)(?![0-9A-Za-z]|(?<=R)S)",
    ANY_CASE,
)


def seal(scan: Scanner) -> bool:
    """Seal = "2"? ("RS" | "Z" | "RZ") | makers' letters."""
    found = scan.peek(_SEAL)
    name = _seal_name(found["seal"].upper()) if found else None
    if found is None or name is None:
        return False
    scan.say("seals", name)
    return legend(scan, found, {"seal": (name, LFD)})


def _seal_name(letters: str) -> str | None:
    """What a spelling stands for.

    >>> _seal_name("2RS1"), _seal_name("ZZ"), _seal_name("LLB")
    ('2 contact seals', '2 shields', '2 non-contact seals')
    """
    for name, spellings in SEALS.items():
        if re.fullmatch(spellings, letters):
            return name
    return None


_CLEARANCE = re.compile(
    r"[\s./-]{0,2}(?P<clearance>C[2345N])(?P<half>[HLMP](?![0-9]))?"
    r"(?:(?![0-9A-Za-z])|(?=GJN|MT|HT|WT|P[2456]))",
    ANY_CASE,
)
_CM = re.compile(r"[\s./-]{0,2}(?P<clearance>CM)(?![0-9A-Za-z])", ANY_CASE)
_CLEAR = {
    "C2": "smaller than normal",
    "CN": "normal",
    "C3": "larger than normal",
    "C4": "larger than C3",
    "C5": "larger than C4",
    "CM": "for electric motors",
}


def clearance(scan: Scanner) -> bool:
    """Clearance = "/"? "C" (2 | N | 3 | 4 | 5) | "CM"."""
    found = scan.peek(_CLEARANCE) or scan.peek(_CM)
    if found is None:
        return False
    name = found["clearance"].upper()
    scan.say("clearance", name)
    means = {"clearance": (f"clearance {_CLEAR[name]}", LFD)}
    if "half" in found.groupdict():
        means["half"] = ("part of the range", "sawhneybearings.com, suffixes")
    return legend(scan, found, means)


_SUFFIX = re.compile(
    r"[\s./-]{0,2}(?P<suffix>P[2456]|ABEC\s?-?[13579]|TN(?:9|GH)?|TVH|TVP2?|MA?|J|E(?:CP|CJ|CM|K)?|K30|K|NR|N|W33|"
    r"EMQ|VZ|V[1-4]|L[0-9]{1,2}|MT[0-9]{2}|HT|LT|WT|GJN|S[0-3]|BE(?:CBP|P|CBM)?|B|AC?|C|AS|D[BFT]|[+][0-9]{1,3})"
    r"(?:(?![0-9A-Za-z])|(?=L[0-9]D|D[BFT](?![A-Za-z])|C[2345](?![0-9])|P[2456](?![0-9])))",
    ANY_CASE,
)
_SUFFIXES = {
    "P": "accuracy class",
    "A": "accuracy class",
    "T": "plastic cage",
    "M": "brass cage",
    "J": "pressed steel cage",
    "E": "reinforced design",
    "K": "tapered bore",
    "N": "ring groove in the outer ring",
    "W": "lubrication groove or grease",
    "V": "special design",
    "L": "grease",
    "H": "grease",
    "G": "grease",
    "S": "heat-stabilised rings",
    "B": "contact angle and cage",
    "C": "contact angle",
    "D": "arrangement of a pair",
    "+": "spacer of the pair",
}


def suffix(scan: Scanner) -> bool:
    """Suffix = accuracy | cage | groove | grease, one behind the other."""
    found = scan.peek(_SUFFIX)
    if found is None or "bore_mm" not in scan.ratings:
        return False
    letters = found["suffix"].upper()
    if letters.startswith(("P", "ABEC")) and letters[-1].isdigit():
        scan.say("precision", letters)
    means = "brass cage" if letters[0] == "M" and len(letters) < 3 else _SUFFIXES[letters[0]]
    return legend(scan, found, {"suffix": (means, LFD)})


_SIZE = re.compile(
    r"(?P<bore>[0-9]{1,3}(?:[.,][0-9])?)\s?[x×*]\s?(?P<outer>[0-9]{1,3})\s?[x×*]\s?(?P<width>[0-9]{1,3}(?:[.,][0-9])?)"
    r"\s?(?P<unit>mm)?(?![0-9A-Za-z])"
)


def size(scan: Scanner) -> bool:
    """Size = bore "x" outer "x" width "mm"?"""
    found = scan.peek(_SIZE)
    if found is None:
        return False
    for name in ("bore", "outer", "width"):
        scan.say(f"{name}_mm", figure(found[name]))
    return scan.take(_SIZE, "bore, outer diameter and width in mm", PRACTICE) is not None


RULES: tuple[Rule, ...] = (
    *START,
    size,
    drawn_cup,
    basic,
    seal,
    clearance,
    suffix,
    temperature,
    word("ball|roller|bearing|deep|groove|thrust", "word of the trade", PRACTICE),
    *COMMON,
)


def read(text: str) -> Reading:
    """Read what is stamped on a bearing."""
    scan = Scanner(text)
    scan.sweep(RULES)
    return scan.reading("bearing")


_SURE = re.compile(
    r"(?<![0-9A-Za-z.])(?:(?:SS?)?(?:6[0-9]{2,4}|16[0-9]{3}|[127][0-9]{3}|[23][0-9]{4})E?[\s./-]{0,2}"
    r"(?:2?RS[1HRL]?|2?Z[ZR]?|2RZ|2?RU|DDU?|DU|LLU|LLB|LU|VV|NR)(?![A-Za-z])|[HB]K\s?[0-9]{2}\s?[0-9]{2}|NUP?\s?[23][0-9]{2,3}"
    r"|6[0-9]{3}\s?[-/ ]\s?(?:C[2345]|P[456])(?![0-9])|bearing(?![A-Za-z])"
    r"|7[0-9]{3}B?[A-Z0-9]{0,3}D[BFT][+])",
    ANY_CASE,
)
_ALONE = re.compile(
    r"\s*(?:6[0-9]{3}|6[02][0-9]|6[0-9]{2}/[0-9]|5[0-9]{2}/[0-9]{3}|62/(?:22|28|32)|7[0-9]{3}B?|3[02][0-9]{3}"
    r"|222[0-9]{2}|511[0-9]{2}|160[0-9]{2}|6[0-9]{3}/[0-9]{2}[.,][0-9]{1,3})\s*"
)


def likely(text: str) -> float:
    """How strongly a text looks like this family, 0 to 1."""
    if _SURE.search(text):
        return 0.95
    return 0.5 if _ALONE.fullmatch(text) else 0.0


def canonical(reading: Reading) -> str:
    """The designation as the standard writes it."""
    return faithful(reading, _written(reading), read)


def _written(reading: Reading) -> str:
    """The ratings written out."""
    said = reading.ratings
    if "series" not in said or "bore_mm" not in said:
        return ""
    seals = {
        "2 shields": "-2Z",
        "1 shield": "-Z",
        "2 contact seals": "-2RS",
        "1 contact seal": "-RS",
    }
    seals |= {"2 non-contact seals": "-2RZ", "1 non-contact seal": "-RZ"}
    clearance_mark = f"/{said['clearance']}" if "clearance" in said else ""
    return (
        f"{said['series']}{_bore_code(said['series'], said['bore_mm'])}"
        f"{_SEAL_CODES.get(said.get('seals', ''), '')}{clearance_mark}"
    )


_SEAL_CODES = {
    "2 shields": "-2Z",
    "1 shield": "-Z",
    "2 contact seals": "-2RS",
    "1 contact seal": "-RS",
    "2 non-contact seals": "-2RZ",
    "1 non-contact seal": "-RZ",
}


def _bore_code(series: str, bore: float) -> str:
    """The bore as the designation writes it."""
    coded = {value: code for code, value in _BORES.items()}
    if bore in coded:
        return coded[int(bore)]
    if bore >= 20 and bore % 5 == 0 and bore < 500:
        return f"{int(bore) // 5:02d}"
    return str(bore) if len(series) == 2 and bore < 10 else f"/{bore}"
