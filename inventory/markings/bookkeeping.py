"""Dates, lots, serial numbers and countries: figures on a part that are no rating of it.

They are taken before any line that reads bare digits, so that a date never becomes ohms.
"""

from __future__ import annotations

import re

from inventory.markings.amounts import PRACTICE
from inventory.markings.passive_marks import ANY_CASE, rest_of_word
from inventory.markings.scanner import Rule, Scanner

_STOP = r"(?![0-9A-Za-z.,])"
_YEAR, _MONTH, _DAY = (
    r"(?:19[5-9]|20[0-4])[0-9]",
    r"(?:0?[1-9]|1[0-2])",
    r"(?:0?[1-9]|[12][0-9]|3[01])",
)
_DATE = re.compile(
    rf"(?:{_YEAR}[-/.](?:0[1-9]|1[0-2])(?:[-/.](?:0[1-9]|[12][0-9]|3[01]))?"
    rf"|(?:0[1-9]|1[0-2])[-/.]{_YEAR}|{_DAY}[-/.]{_MONTH}[-/.]{_YEAR}"
    rf"|(?:W|KW|WK)\s?[0-5][0-9]\s?/\s?(?:{_YEAR}|[0-9]{{2}})){_STOP}"
)
_LABELLED = re.compile(
    r"(?:date(?:[ -]?code)?|d/c|lot(?: no\.?)?|batch(?: no\.?)?|s/?n|serial(?: no\.?)?|p/?n"
    r"|part no\.?|order no\.?|art\.?[ -]?n[or]\.?|n[or]\.(?!.{1,9}AWG))\s?[:#.]?\s{0,2}"
    r"(?=[A-Z-]{0,6}[0-9])[0-9A-Z-]{2,20}(?![0-9A-Za-z])",
    ANY_CASE,
)
_COUNTRIES = (
    r"china|p\.?r\.?c|germany|italy|france|japan|korea|taiwan|mexico|malaysia|thailand|hungary"
    r"|poland|slovenia|spain|turkey|india|indonesia|philippines|portugal|romania|austria"
    r"|czech republic|usa|u\.s\.a|vietnam"
)
_COUNTRY = re.compile(
    r"(?:(?:made|assembled|product) (?:in|of) (?:the )?)?"
    rf"(?:{_COUNTRIES})\.?(?:,? {_YEAR})?(?![0-9A-Za-z])"
    r"|(?:made|assembled) in [a-z]{3,14}(?![0-9A-Za-z])",
    ANY_CASE,
)


def date(scan: Scanner) -> bool:
    """Date = year "-" month ("-" day)? | month "/" year | day month year | week "/" year."""
    return scan.take(_DATE, "a date, no rating", PRACTICE) is not None


def labelled(scan: Scanner) -> bool:
    """Number = ("lot" | "S/N" | "P/N" | "date code" | ...) letters and figures."""
    return scan.take(_LABELLED, "a lot, serial, part or date number", PRACTICE) is not None


def country(scan: Scanner) -> bool:
    """Country = "made in"? country year?"""
    return scan.take(_COUNTRY, "where, and perhaps when, it was made", PRACTICE) is not None


START: tuple[Rule, ...] = (rest_of_word, date, labelled, country)
"""The first lines of a grammar that reads bare digits."""
