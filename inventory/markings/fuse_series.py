"""North American fuse series: letters that say speed and system, and a dash number.

The dash number is amperes or milliamperes, by the series' own table.
"""

from __future__ import annotations

import re
from fractions import Fraction

from inventory.markings.amounts import plain_number, review, written
from inventory.markings.scanner import Scanner
from inventory.markings.tables import rows

SERIES = {row["series"]: row for row in rows("fuse_series")}
_AMOUNT = r"(?:(?:[0-9]{1,2}-)?[0-9]{1,2}/[1-9][0-9]{0,2}|[0-9]{1,3}(?:\.[0-9]{1,5})?)"
_UL = re.compile(
    rf"(?:(?P<pack>BK1?|TR2?|TDC)/)?(?P<series>{'|'.join(SERIES)})(?P<lead>-?V(?=[- ]))?"
    rf"(?:(?:\s?-\s?|\s)?(?P<amount>{_AMOUNT})(?P<unit>mA|A)?(?P<rohs>-?R)?)?(?![A-Za-z0-9]|[./][0-9])",
    re.IGNORECASE,
)


def ul(scan: Scanner) -> bool:
    """UlMark = packing? series lead? ("-"? amount ("mA" | "A")? "-R"?)?."""
    found = scan.peek(_UL)
    if found is None:
        return False
    series = found["series"].upper()
    row = SERIES[series]
    scan.mark(found.start(), found.end("series"), f"series {series}", row["source"])
    scan.say("series", series)
    _say_series(scan, row)
    if found["lead"]:
        scan.mark(*found.span("lead"), "axial leads", "forum.digikey.com/t/936")
        scan.say("leads", "pigtail")
    if found["amount"]:
        _ul_amount(scan, found, row)
    if found["rohs"]:
        scan.mark(*found.span("rohs"), "RoHS compliant", "forum.digikey.com/t/936")
        scan.say("rohs", value=True)
    scan.at = found.end()
    return True


def _say_series(scan: Scanner, row: dict[str, str]) -> None:
    """Speed and system are the series' own; size and body come from its data sheet."""
    for name in ("standard", "speed"):
        if row[name]:
            scan.say(name, row[name])
    scan.assume(
        "size_mm", [plain_number(part) for part in row["size_mm"].split("x")], row["source"]
    )
    scan.assume("body", row["body"], row["source"])


def _ul_amount(scan: Scanner, found: re.Match[str], row: dict[str, str]) -> None:
    """A dash number is amperes, or milliamperes from the series' own limit on."""
    start = found.end("lead") if found["lead"] else found.end("series")
    stop = found.end("unit") if found["unit"] else found.end("amount")
    value = _fraction(found["amount"])
    limit = int(row["milliamps"]) if row["milliamps"] else None
    milli = (found["unit"] or "").lower() == "ma" or (limit is not None and value >= limit)
    unit = "mA" if milli else "A"
    scan.mark(start, stop, f"rated current {written(value)} {unit}", row["source"])
    if milli:
        value = plain_number(str(value), "0.001")
    elif limit is not None and value > 15:
        review(
            scan, f"{found['amount']} is neither an ampere nor a milliampere size of the series."
        )
        return
    scan.say("current_a", value)


def _fraction(text: str) -> int | float:
    """A current as ``3/8``, ``1-1/2`` or a plain figure.

    >>> _fraction("1-1/2"), _fraction("63")
    (1.5, 63)
    """
    if "/" not in text:
        return plain_number(text)
    whole, _, part = text.rpartition("-")
    value = float(Fraction(part)) + float(whole or 0)
    return round(value, 4)
