"""Type numbers of thermal links: which of them hold the temperature, and which do not."""

from __future__ import annotations

import re

from inventory.markings.amounts import NUM, plain_number, review
from inventory.markings.scanner import Scanner
from inventory.markings.tables import rows

SF_LIST = "thermal cutoff catalogue, scribd.com/document/289494844: series and rated currents"
SF_R = "cci-tco.com/news/sefuse-sf-r-series: 0 standard leads, 1 long leads, J1 = 10 A"
_SF_AMPS = {"SF/K": 6, "SF/Y": 15, "SM/A": 2, "SM/B": 1, "SM/G": 0.5}
"""Rated currents of whole series, A. Source: SF_LIST."""

_SF = re.compile(
    r"(?P<type>(?P<body>SFH?|SM)(?P<number>[0-9]{2,3})(?P<letter>[A-Z]))-?(?P<lead>[01])?"
    r"(?:[\s-]?(?P<ten>J1))?(?![A-Za-z0-9])"
)
_SF_NAME = re.compile(r"(?P<series>(?:SFH?|SM)/[A-Z])(?![A-Za-z0-9])")
G_SHEET = (
    "MICROTEMP data sheets: G4A01216C functions at 216 °C, G4A01104C at 104 °C (elcodis.com);"
    " numbering legend from memory"
)
SELLERS = "ample-chip.com list of thermal cutoffs: "
_NUMBERED = (
    (r"(?P<series>G[4-8])[A-Z][0-9]{2}(?P<tf>[0-9]{3})(?:T?C|[A-Z]{1,3})?", G_SHEET),
    (r"(?P<series>BF)\s?(?P<tf>[0-9]{2,3})", "chengcong.cn BF table: BF73 Tf 73, BF77 Tf 77"),
    (r"(?:SDF\s)?(?P<series>DF)(?P<tf>[0-9]{3})S", SELLERS + "DF110S 110 °C, DF077S 77 °C"),
    (r"(?P<series>K10B)-(?P<tf>[0-9]{3})", SELLERS + "K10B-110 is 110 °C"),
    (r"(?P<series>L50)(?P<tf>[0-9]{3})24[A-Z0-9]{4,8}", SELLERS + "L5010424DELB0XE is 104 °C"),
)
"""Types whose digits are Tf in °C, each shown by published pairs of type and temperature."""

_NUMBERED_AT = tuple((re.compile(rf"{p}(?![A-Za-z0-9])"), source) for p, source in _NUMBERED)


def sf(scan: Scanner) -> bool:
    """SfType = ("SF" | "SFH" | "SM") number letter lead? "J1"?; the number is not Tf."""
    found = scan.peek(_SF)
    if found is None:
        return False
    series = f"{found['body']}/{found['letter']}"
    scan.mark(*found.span("type"), f"type of series {series}; its number is not Tf", SF_LIST)
    scan.say("type", found["type"] + (found["lead"] or ""))
    scan.warn("The number in the type is not the temperature; read Tf from the body.")
    _series(scan, series)
    if found["lead"]:
        length = "long" if found["lead"] == "1" else "standard"
        scan.mark(found.end("type"), found.end("lead"), f"{length} leads", SF_R)
        scan.say("lead", "long" if found["lead"] == "1" else "standard")
    if found["ten"]:
        scan.mark(max(found.end("type"), found.end("lead")), found.end("ten"), "10 A version", SF_R)
        scan.say("current_a", 10)
    scan.at = found.end()
    return True


def _series(scan: Scanner, series: str) -> None:
    """The series, and the current its catalogue gives to all of it."""
    scan.say("series", series)
    if series in _SF_AMPS:
        scan.assume("current_a", _SF_AMPS[series], SF_LIST)


def sf_name(scan: Scanner) -> bool:
    """SeriesName = "SF/E" | "SF/R" | "SM/A" ...; a whole series, not one part."""
    found = scan.take(_SF_NAME, "series name, not one part", SF_LIST)
    if found is None:
        return False
    _series(scan, found["series"])
    return True


def say_tf(scan: Scanner, value: float, *, printed: bool = False) -> None:
    """Tf; where type and body differ, the body counts and a person looks."""
    before = scan.ratings.get("tf_c")
    if printed and before is not None and before != value:
        review(scan, f"The type says {before} °C but the body prints Tf {value}: the body counts.")
        scan.ratings["tf_c"] = value
    else:
        scan.say("tf_c", value)


def numbered(scan: Scanner) -> bool:
    """NumberedType = series digits; the digits are Tf where published pairs show it."""
    for pattern, source in _NUMBERED_AT:
        found = scan.peek(pattern)
        if found and 60 <= int(found["tf"]) <= 300:
            means = f"type; functions (melts open) at {int(found['tf'])} °C"
            scan.take(pattern, means, source)
            scan.say("series", found["series"])
            scan.say("type", re.sub(r"SDF\s|\s", "", found.group()))
            say_tf(scan, int(found["tf"]))
            return True
    return False


_TABLE = {row["type"]: row for row in rows("thermal_links")}
_LISTED = re.compile(
    rf"(?:{'|'.join(sorted(_TABLE, key=len, reverse=True))})(?![A-Za-z0-9])(?!-[0-9])"
)
_C = r"(?:\s?(?:°\s?C|℃|¡æ))?"
_ROW = re.compile(
    rf"(?P<tf>[0-9]{{2,3}}){_C}\s(?P<open>[0-9]{{2,3}})\s?"
    rf"(?:(?:±|\+/?-|¡À)\s?(?P<tol>{NUM})|\+\s?(?P<up>{NUM})\s?/?\s?-\s?(?P<down>{NUM})){_C}"
    rf"\s(?P<th>[0-9]{{2,3}}){_C}(?:\s(?P<tm>[0-9]{{2,3}})(?:\s?(?:°\s?C|℃|¡æ)))?(?![0-9A-Za-z°℃])"
)


def tabled(scan: Scanner) -> bool:
    """TabledType = a type whose temperature only the maker's table tells."""
    found = scan.peek(_LISTED)
    if found is None:
        return False
    row = _TABLE[found.group()]
    means = f"type; by the maker's table it functions at {row['tf_c']} °C"
    scan.take(_LISTED, means, row["source"])
    scan.say("type", row["type"])
    say_tf(scan, int(row["tf_c"]))
    if row["th_c"]:
        scan.assume("th_c", int(row["th_c"]), row["source"])
    if row["open_from_c"]:
        opens = [int(row["open_from_c"]), int(row["open_to_c"])]
        scan.assume("actual_open_c", opens, row["source"])
    return True


def table_row(scan: Scanner) -> bool:
    """TableRow = Tf open tolerance Th Tm?, as the makers' tables print their columns.

    Source: the tables of the BF links (chengcong.cn) and of the F links.
    """
    found = scan.peek(_ROW)
    if found is None or not int(found["tf"]) > int(found["open"]) > int(found["th"]):
        return False
    means = "Tf, fusing and holding temperature and what follows, °C: a row of the maker's table"
    scan.take(_ROW, means, _TABLE["F7"]["source"])
    say_tf(scan, int(found["tf"]), printed=True)
    opens = int(found["open"])
    up, down = (plain_number(found[name] or found["tol"]) for name in ("up", "down"))
    scan.say("actual_open_c", [opens - down, opens + up])
    scan.say("th_c", int(found["th"]))
    if found["tm"]:
        scan.say("tm_c", int(found["tm"]))
    return True
